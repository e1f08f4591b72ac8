/* scale_made.c - test_scale: recipes that no publication has, invented for the
 * branches that the shipped ones happen not to reach. The foods are the shipped
 * ones; what they weigh is SR28: a cup of diced rhubarb 122 g (09307), of sugar
 * 200 g (19335), a medium onion 110 g (11282). */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "catalogue/model.h"
#include "kitchen/plan.h"
#include "scale_cases.h"

#define RHUBARB_CUP 122.0
#define SUGAR_CUP 200.0
#define ONION 110.0

pottle_ingredient
made_part(const char *food, double amount, const char *unit, const char *form)
{
    return (pottle_ingredient){ .food = food,
                                .amount = amount,
                                .amount_to = amount,
                                .printed = "",
                                .unit = pottle_unit_find(unit),
                                .size = "",
                                .form = form,
                                .trim = "",
                                .then = "",
                                .role = "",
                                .keep = POTTLE_FREE,
                                .rule = "",
                                .per_food = "",
                                .per_form = "" };
}

pottle_recipe
made_recipe(const pottle_ingredient *list, size_t count)
{
    return (pottle_recipe){ .id = "invented",
                            .title = "Invented",
                            .kind = "salsa",
                            .status = POTTLE_TESTED,
                            .batch = { 0.25, 2, "batch", "batch", { 0 } },
                            .ingredient = list,
                            .ingredient_count = count };
}

/* An amount in words of the test. */
pottle_phrase
made_phrase(const char *food, double low, double high, const char *unit)
{
    pottle_phrase p = { .low = low,
                        .high = high,
                        .unit = pottle_unit_find(unit) };
    POTTLEI_SET(p.food, food);
    return p;
}

static const pottle_request nothing = { .version = POTTLE_REQUEST_VERSION };

/* The lines of a recipe alone. */
pottle_plan *
made_lines(const pottle_recipe *recipe, const pottle_request *request,
           pottle_status expected, pottle_error *error)
{
    pottle_plan *plan = calloc(1, sizeof *plan);
    ck_assert_ptr_nonnull(plan);
    plan->recipe = recipe;
    const pottle_status status =
        pottlei_read_lines(kitchen, plan, recipe, request, error);
    ck_assert_msg(status == expected, "expected %s, found %s: %s",
                  pottle_strerror((int)expected), pottle_strerror((int)status),
                  error != NULL ? error->what : "");
    return plan;
}

#define NEAR(a, b)                                                             \
    ck_assert_double_eq_tol(a, b, 1e-6 * (fabs((double)(b)) + 1e-6))

/* -- Amounts --------------------------------------------------------------- */

START_TEST(amounts_of_the_batch)
{
    pottle_ingredient list[] = {
        made_part("rhubarb", RHUBARB_CUP, "g", "diced"),
        made_part("rhubarb", 1, "cup", "diced"),
        made_part("onion", 2, "count", ""),
        made_part("water", 0, "cup", "no-such-form"),
        made_part("rhubarb", 100, "g", "no-such-form"),
        made_part("rhubarb", 100, "g", "diced"),
        made_part("sugar", 2, "cup", ""),
    };
    list[2].size = "medium";
    list[5].state = POTTLE_PURCHASED; /* and how it is trimmed is not known */
    list[5].trim = "no-such-trim";
    list[6].amount_to = 4;
    const pottle_recipe recipe = made_recipe(list, 7);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    const pottlei_amount *a = plan->amount;
    ck_assert_uint_eq(plan->lines, 7);
    NEAR(a[0].mass_g.median, RHUBARB_CUP);
    NEAR(a[0].volume_ml, CUP_ML);
    NEAR(a[1].mass_g.median, RHUBARB_CUP);
    NEAR(a[1].volume_ml, CUP_ML);
    NEAR(a[2].mass_g.median, 2 * ONION);
    NEAR(a[2].count, 2);
    NEAR(a[2].volume_ml, 0);
    NEAR(a[3].mass_g.median, 0);
    NEAR(a[3].volume_ml, 0);
    NEAR(a[3].count, 0);
    /* no density: the mass stands and the volume is not known */
    NEAR(a[4].mass_g.median, 100);
    NEAR(a[4].volume_ml, 0);
    NEAR(a[5].mass_g.median, 100);
    NEAR(a[5].volume_ml, 0);
    /* 2 to 4 cups: the middle */
    NEAR(a[6].mass_g.median, 3 * SUGAR_CUP);
    NEAR(a[6].volume_ml, 3 * CUP_ML);
    ck_assert_uint_eq(plan->foods, 4); /* each is read once */
    /* nor does it have a part in a balance */
    pottlei_part out;
    ck_assert_int_eq(pottlei_line_part(kitchen, plan, 5, 100, &out, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 100, &out, &error),
                     POTTLE_OK);
    NEAR(out.prepared_g.median, 100);
    /* nothing needs no trim */
    ck_assert_int_eq(pottlei_line_part(kitchen, plan, 5, 0, &out, &error),
                     POTTLE_OK);
    NEAR(out.prepared_g.median, 0);
    pottle_plan_free(plan);
}
END_TEST

START_TEST(amount_that_cannot_be_weighed)
{
    const pottle_ingredient cup =
        made_part("rhubarb", 1, "cup", "no-such-form");
    const pottle_recipe recipe = made_recipe(&cup, 1);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_ENOENT, &error);
    pottle_plan_free(plan);
    const pottle_ingredient gone = made_part("no-such-food", 1, "cup", "");
    const pottle_recipe missing = made_recipe(&gone, 1);
    plan = made_lines(&missing, &nothing, POTTLE_EDATA, &error);
    ck_assert_str_eq(error.code, "missing-food");
    ck_assert_ptr_nonnull(strstr(error.what, "'no-such-food'"));
    ck_assert_uint_eq(plan->lines, 0);
    pottle_plan_free(plan);
}
END_TEST

/* -- Rates ----------------------------------------------------------------- */

/* 1 cup of water and 2 medium onions for each unit of rhubarb. */
static const struct rate {
    double base;
    const char *unit, *form, *per, *per_form;
    double times;
    const char *why;
} rates[] = {
    { 2, "lb", "", "lb", "", 2, "by weight" },
    { 8 * RHUBARB_CUP, "g", "", "qt", "diced", 2, "a quart is 4 cups" },
    { 8 * RHUBARB_CUP, "g", "diced", "qt", "", 2, "the form of the line" },
    { 8, "cup", "diced", "qt", "diced", 2, "volume" },
    { 0, "lb", "", "lb", "", 1, "an amount that is not printed" },
    { 0.5, "g", "", "g", "", 0.5, "less than a gram" },
};

START_TEST(rate_becomes_an_amount)
{
    const struct rate *r = &rates[_i];
    for (size_t base = 0; base < 3;
         base += 2) { /* before and after its rates */
        pottle_ingredient list[3];
        const size_t water = base == 0 ? 1 : 0, onion = base == 0 ? 2 : 1;
        list[base] = made_part("rhubarb", r->base, r->unit, r->form);
        list[water] = made_part("water", 1, "cup", "liquid");
        list[onion] = made_part("onion", 2, "count", "");
        list[onion].size = "medium";
        list[water].per = list[onion].per = pottle_unit_find(r->per);
        list[water].per_food = list[onion].per_food = "rhubarb";
        list[water].per_form = list[onion].per_form = r->per_form;
        const pottle_recipe recipe = made_recipe(list, 3);
        pottle_error error = { .status = POTTLE_OK };
        pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
        ck_assert_msg(
            within(plan->amount[water].volume_ml, r->times * CUP_ML, 1e-9),
            "%s: %.3f mL", r->why, plan->amount[water].volume_ml);
        NEAR(plan->amount[onion].count, r->times * 2);
        NEAR(plan->amount[onion].mass_g.median, r->times * 2 * ONION);
        pottle_plan_free(plan);
    }
}
END_TEST

START_TEST(rate_of_something_else)
{
    pottle_ingredient list[] = { made_part("rhubarb", 2, "lb", ""),
                                 made_part("water", 1, "cup", "liquid") };
    list[1].per = pottle_unit_find("lb");
    list[1].per_food = "onion";
    const pottle_recipe recipe = made_recipe(list, 2);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    NEAR(plan->amount[1].mass_g.median, 0);
    NEAR(plan->amount[1].volume_ml, 0);
    NEAR(plan->amount[1].count, 0);
    pottle_plan_free(plan);
    /* water for each pound of water is no rate of another line */
    list[1].per_food = "water";
    plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    NEAR(plan->amount[1].mass_g.median, 0);
    NEAR(plan->amount[0].mass_g.median, 2 * POUND_G);
    pottle_plan_free(plan);
    /* a quart of a form without a weight, and a trim that is not known */
    list[1].per_food = "rhubarb";
    list[1].per = pottle_unit_find("qt");
    list[1].per_form = "no-such-form";
    plan = made_lines(&recipe, &nothing, POTTLE_ENOENT, &error);
    pottle_plan_free(plan);
    list[1].per_form = "diced";
    list[0].state = POTTLE_PURCHASED;
    list[0].trim = "no-such-trim";
    plan = made_lines(&recipe, &nothing, POTTLE_ENOENT, &error);
    pottle_plan_free(plan);
}
END_TEST

/* -- Mixes ----------------------------------------------------------------- */

START_TEST(mix_is_shared_out)
{
    const pottle_alternative other[] = { { "tomato", "", "" },
                                         { "carrot", "", "" },
                                         { "celery", "", "" } };
    pottle_ingredient list[] = { made_part("onion", 1000, "g", "") };
    list[0].alternatives = 3;
    list[0].alternative = other;
    const pottle_recipe recipe = made_recipe(list, 1);
    pottle_phrase set[] = { made_phrase("onion", 100, 100, "g"),
                            made_phrase("tomato", 300, 300, "g"),
                            made_phrase("onion", 100, 100, "g"),
                            made_phrase("sugar", 1, 1, "g") };
    pottle_request request = nothing;
    request.set = set;
    request.sets = 4;
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &request, POTTLE_OK, &error);
    ck_assert_uint_eq(plan->lines, 2);
    NEAR(plan->amount[0].mass_g.median, 400);
    NEAR(plan->amount[1].mass_g.median, 600);
    pottle_plan_free(plan);
    /* nothing of each: no shares */
    list[0] = made_part("onion", 3, "count", "");
    list[0].size = "medium";
    list[0].alternatives = 3;
    list[0].alternative = other;
    set[0] = made_phrase("onion", 0, 0, "count");
    set[1] = made_phrase("tomato", 0, 0, "count");
    request.sets = 2;
    plan = made_lines(&recipe, &request, POTTLE_OK, &error);
    ck_assert_uint_eq(plan->lines, 2);
    NEAR(plan->amount[0].count, 3);
    NEAR(plan->amount[1].count, 3);
    pottle_plan_free(plan);
    /* what cannot be weighed cannot be shared out */
    set[0] = made_phrase("onion", 1, 1, "cup");
    POTTLEI_SET(set[0].form, "no-such-form");
    list[0] = made_part("onion", 1000, "g", "");
    list[0].alternatives = 3;
    list[0].alternative = other;
    set[1] = made_phrase("tomato", 300, 300, "g");
    plan = made_lines(&recipe, &request, POTTLE_ENOENT, &error);
    pottle_plan_free(plan);
    /* what is there counts where nothing is set, and only the first */
    const pottle_phrase have[] = { made_phrase("carrot", 100, 100, "g"),
                                   made_phrase("celery", 100, 100, "g") };
    request = nothing;
    request.have = have;
    request.haves = 2;
    plan = made_lines(&recipe, &request, POTTLE_OK, &error);
    ck_assert_uint_eq(plan->lines, 1);
    ck_assert_str_eq(plan->list[0].food, "carrot");
    pottle_plan_free(plan);
}
END_TEST

/* A place takes sixteen foods and no more. */
START_TEST(mix_is_limited)
{
    static const char *const food[] = { "apple",      "apricot",    "asparagus",
                                        "beet",       "blackberry", "blueberry",
                                        "cabbage",    "carrot",     "celery",
                                        "cucumber",   "fig",        "garlic",
                                        "gooseberry", "mango",      "nectarine",
                                        "okra",       "onion",      "papaya" };
    enum { N = sizeof food / sizeof food[0] };
    pottle_alternative other[N];
    pottle_phrase set[N];
    for (size_t i = 0; i < N; i++) {
        other[i] = (pottle_alternative){ food[i], "", "" };
        set[i] = made_phrase(food[i], 100, 100, "g");
    }
    pottle_ingredient one = made_part("rhubarb", 1600, "g", "");
    one.alternatives = N;
    one.alternative = other;
    const pottle_recipe recipe = made_recipe(&one, 1);
    pottle_request request = nothing;
    request.set = set;
    request.sets = N;
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &request, POTTLE_OK, &error);
    ck_assert_uint_eq(plan->lines, 16);
    for (size_t i = 0; i < 16; i++) {
        ck_assert_str_eq(plan->list[i].food, food[i]);
        NEAR(plan->amount[i].mass_g.median, 100);
    }
    pottle_plan_free(plan);
}
END_TEST

START_TEST(room_is_kept)
{
    pottle_ingredient many[POTTLEI_LINES_MAX + 1];
    for (size_t i = 0; i <= POTTLEI_LINES_MAX; i++)
        many[i] = made_part("sugar", 1, "g", "");
    pottle_recipe recipe = made_recipe(many, POTTLEI_LINES_MAX);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    ck_assert_uint_eq(plan->lines, POTTLEI_LINES_MAX);
    pottle_plan_free(plan);
    recipe.ingredient_count++;
    plan = made_lines(&recipe, &nothing, POTTLE_EDATA, &error);
    ck_assert_str_eq(error.code, "too-many-lines");
    /* the foods of a plan */
    const pottle_food *food = NULL;
    const size_t foods = plan->foods;
    plan->foods = POTTLEI_FOODS_MAX;
    for (size_t i = 1; i < POTTLEI_FOODS_MAX; i++)
        plan->food[i] = plan->food[0];
    ck_assert_int_eq(pottlei_plan_food(plan, kitchen, "onion", &food, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "too-many-foods");
    ck_assert_ptr_null(food);
    ck_assert_int_eq(pottlei_plan_food(plan, kitchen, "sugar", &food, &error),
                     POTTLE_OK);
    plan->foods = foods;
    /* and its warnings */
    for (size_t i = 0; i < POTTLEI_WARNINGS_MAX + 2; i++)
        pottlei_plan_warn(plan, i == 0 ? "first" : "other", "", "", "text");
    size_t n = 0;
    const pottle_warning *w = pottle_plan_warnings(plan, &n);
    ck_assert_uint_eq(n, POTTLEI_WARNINGS_MAX);
    ck_assert_str_eq(w[0].code, "first");
    pottle_plan_free(plan);
}
END_TEST

/* -- Phrases as batches ---------------------------------------------------- */

static const struct phrase_case {
    size_t line;
    double low, high;
    const char *unit, *form, *size;
    bool state_said;
    pottle_state state;
    pottle_status status;
    double batches;
    bool range;
    const char *why;
} phrases[] = {
    { 0, 3, 3, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_OK, 1.5,
      false, "3 of 2 cups" },
    /* the median of a range is its geometric middle: it is lognormal */
    { 0, 2, 8, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_OK, 2, true,
      "2 to 8 of 2 cups" },
    { 0, 0, 8, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "from nothing" },
    { 0, 3, 3, "cup", "diced", "", true, POTTLE_PREPARED, POTTLE_OK, 1.5, false,
      "said to be ready to use" },
    { 0, 244, 244, "g", "", "", true, POTTLE_PREPARED, POTTLE_OK, 1, true,
      "244 g are 2 cups" },
    { 1, 3, 3, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 1.5,
      false, "3 of 2 onions" },
    { 1, 3, 3, "count", "", "", false, POTTLE_PREPARED, POTTLE_OK, 1.5, false,
      "3 onions are of the recipe's size" },
    { 1, 1, 4, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 1,
      true, "1 to 4 of 2 onions" },
    { 1, 0, 4, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "from nothing" },
    /* large 150 g, medium 110 g (SR28) */
    { 1, 2, 2, "count", "", "large", false, POTTLE_PREPARED, POTTLE_OK,
      150.0 / 110.0, true, "another size is weighed" },
    { 2, 3, 3, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "cups of an amount that is not published" },
    { 3, 3, 3, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "pieces of an amount that is not published" },
    /* a cup of frozen rhubarb 137 g (SR28 09309) */
    { 0, 2, 2, "cup", "frozen", "", false, POTTLE_PREPARED, POTTLE_OK,
      137 / RHUBARB_CUP, true, "another form is weighed" },
    /* stalks as bought keep 95 % (practice) */
    { 0, 3, 3, "cup", "diced", "", true, POTTLE_PURCHASED, POTTLE_OK,
      1.5 * 0.95, true, "cups as bought are trimmed" },
    /* a cup of chopped onions 160 g (SR28 11282) */
    { 4, 6.25, 6.25, "cup", "chopped", "", false, POTTLE_PREPARED, POTTLE_OK, 1,
      true, "cups where the recipe weighs" },
    /* where the recipe weighs, its own amount is exact */
    { 4, 1500, 1500, "g", "", "", false, POTTLE_PREPARED, POTTLE_OK, 1.5, false,
      "1500 of 1000 g" },
    { 4, 10, 10, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 1.1,
      true, "10 onions of 110 g" },
    /* one drop and one piece are compared as such too */
    { 5, 0.25, 0.25, "tsp", "", "", false, POTTLE_PREPARED, POTTLE_OK, 2, false,
      "1/4 of 1/8 teaspoon" },
    { 6, 2, 2, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 2,
      false, "2 of 1 onion" },
    /* 10 % are core and stem (SR28 09003); peeled they would be less */
    { 7, 1000, 1000, "g", "", "", true, POTTLE_PURCHASED, POTTLE_OK, 1, true,
      "trimmed as the recipe trims" },
};
enum { PHRASES = sizeof phrases / sizeof phrases[0] };

START_TEST(phrase_is_so_many_batches)
{
    pottle_ingredient list[] = { made_part("rhubarb", 2, "cup", "diced"),
                                 made_part("onion", 2, "count", ""),
                                 made_part("rhubarb", 0, "cup", "diced"),
                                 made_part("onion", 0, "count", ""),
                                 made_part("onion", 1000, "g", ""),
                                 made_part("sugar", 0.125, "tsp", ""),
                                 made_part("onion", 1, "count", ""),
                                 made_part("apple", 900, "g", "") };
    list[1].size = list[3].size = list[6].size = "medium";
    list[7].trim = "cored";
    const pottle_recipe recipe = made_recipe(list, 8);
    const struct phrase_case *c = &phrases[_i];
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    pottle_phrase p = made_phrase(list[c->line].food, c->low, c->high, c->unit);
    POTTLEI_SET(p.form, c->form);
    POTTLEI_SET(p.size, c->size);
    p.state_said = c->state_said;
    p.state = c->state;
    pottle_estimate out = { 77, 78 };
    const pottle_status status =
        pottlei_batches_of(kitchen, plan, c->line, &p, &out, &error);
    ck_assert_msg(status == c->status, "%s: expected %s, found %s: %s", c->why,
                  pottle_strerror((int)c->status), pottle_strerror((int)status),
                  error.what);
    if (status == POTTLE_OK) {
        ck_assert_msg(within(out.median, c->batches, 1e-6),
                      "%s: expected %g batches, found %.9f", c->why, c->batches,
                      out.median);
        ck_assert_msg((out.sd > 0) == c->range, "%s: spread %g", c->why,
                      out.sd);
    } else {
        ck_assert(out.median > 76 && out.sd > 77);
    }
    pottle_plan_free(plan);
}
END_TEST

/* What stands in a place that is not its own is weighed as what it is: a cup of
 * chopped carrots 128 g (SR28 11124), of onions 160 g (11282). */
START_TEST(shared_place_weighs_each)
{
    const pottle_ingredient list[] = { made_part("carrot", 1280, "g", ""),
                                       made_part("onion", 1280, "g", "") };
    const pottle_recipe recipe = made_recipe(list, 2);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    static const struct {
        const char *food;
        double cups;
    } said[] = { { "carrot", 10 }, { "onion", 8 } };
    for (size_t i = 0; i < 2; i++)
        for (size_t k = 0; k < 2; k++) {
            pottle_phrase p =
                made_phrase(said[k].food, said[k].cups, said[k].cups, "cup");
            POTTLEI_SET(p.form, "chopped");
            pottle_estimate out = { 0, 0 };
            ck_assert_int_eq(
                pottlei_batches_of(kitchen, plan, i, &p, &out, &error),
                POTTLE_OK);
            ck_assert_msg(within(out.median, 1, 1e-6), "%g cups of %s: %.6f",
                          said[k].cups, said[k].food, out.median);
        }
    pottle_plan_free(plan);
}
END_TEST

/* Cups of cut produce pack fuller in a kitchen (yield study, section 2): of
 * produce, by volume, cut and not crushed. */
START_TEST(parts_that_pack_fuller)
{
    static const struct {
        const char *role, *unit, *form;
        bool fuller, produce;
    } parts[] = {
        { "produce", "cup", "diced", true, true },
        { "low-acid", "cup", "diced", true, true },
        { "produce", "g", "diced", false, true },
        { "sugar", "cup", "diced", false, false },
        { "produce", "cup", "cooked", false, true }, /* a liquid */
        { "low-acid", "g", "cooked", false, true },
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        pottle_ingredient in =
            made_part("rhubarb", 1, parts[i].unit, parts[i].form);
        in.role = parts[i].role;
        const pottle_recipe recipe = made_recipe(&in, 1);
        pottle_error error = { .status = POTTLE_OK };
        pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
        pottlei_part out;
        ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 0.5, &out, &error),
                         POTTLE_OK);
        ck_assert_msg(out.by_volume_cut == parts[i].fuller, "part %zu", i);
        NEAR(out.prepared_g.median, 0.5);
        ck_assert(pottlei_is_produce(&in) == parts[i].produce);
        ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 0, &out, &error),
                         POTTLE_OK);
        ck_assert(!out.by_volume_cut);
        pottle_plan_free(plan);
    }
    pottle_ingredient crushed = made_part("strawberry", 1, "cup", "crushed");
    crushed.role = "produce";
    const pottle_recipe recipe = made_recipe(&crushed, 1);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    pottlei_part out;
    ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 100, &out, &error),
                     POTTLE_OK);
    ck_assert(!out.by_volume_cut);
    pottle_plan_free(plan);
}
END_TEST

TCase *
scale_made(void)
{
    TCase *t = tcase_create("invented recipes");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, amounts_of_the_batch);
    tcase_add_test(t, amount_that_cannot_be_weighed);
    tcase_add_loop_test(t, rate_becomes_an_amount, 0,
                        sizeof rates / sizeof rates[0]);
    tcase_add_test(t, rate_of_something_else);
    tcase_add_test(t, mix_is_shared_out);
    tcase_add_test(t, mix_is_limited);
    tcase_add_test(t, room_is_kept);
    tcase_add_loop_test(t, phrase_is_so_many_batches, 0, PHRASES);
    tcase_add_test(t, shared_place_weighs_each);
    tcase_add_test(t, parts_that_pack_fuller);
    return t;
}
