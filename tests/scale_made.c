/* scale_made.c - test_scale: recipes that no publication has, invented for the
 * branches that the shipped ones happen not to reach. The foods are the shipped
 * ones; what they weigh is SR28: a cup of diced rhubarb 122 g (09307), of sugar
 * 200 g (19335), a medium onion 110 g (11282). */
#include <config.h>

#include <stdlib.h>
#include <string.h>

#include "catalogue/model.h"
#include "kitchen/plan.h"
#include "scale_cases.h"

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

const pottle_request no_request = { .version = POTTLE_REQUEST_VERSION };

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
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
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
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_ENOENT, &error);
    pottle_plan_free(plan);
    const pottle_ingredient gone = made_part("no-such-food", 1, "cup", "");
    const pottle_recipe missing = made_recipe(&gone, 1);
    plan = made_lines(&missing, &no_request, POTTLE_EDATA, &error);
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
        pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
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
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
    NEAR(plan->amount[1].mass_g.median, 0);
    NEAR(plan->amount[1].volume_ml, 0);
    NEAR(plan->amount[1].count, 0);
    pottle_plan_free(plan);
    /* water for each pound of water is no rate of another line */
    list[1].per_food = "water";
    plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
    NEAR(plan->amount[1].mass_g.median, 0);
    NEAR(plan->amount[0].mass_g.median, 2 * POUND_G);
    pottle_plan_free(plan);
    /* a quart of a form without a weight, and a trim that is not known */
    list[1].per_food = "rhubarb";
    list[1].per = pottle_unit_find("qt");
    list[1].per_form = "no-such-form";
    plan = made_lines(&recipe, &no_request, POTTLE_ENOENT, &error);
    pottle_plan_free(plan);
    list[1].per_form = "diced";
    list[0].state = POTTLE_PURCHASED;
    list[0].trim = "no-such-trim";
    plan = made_lines(&recipe, &no_request, POTTLE_ENOENT, &error);
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
    pottle_request request = no_request;
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
    request = no_request;
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
    pottle_request request = no_request;
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
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
    ck_assert_uint_eq(plan->lines, POTTLEI_LINES_MAX);
    pottle_plan_free(plan);
    recipe.ingredient_count++;
    plan = made_lines(&recipe, &no_request, POTTLE_EDATA, &error);
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
    return t;
}
