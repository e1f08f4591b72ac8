/* scale_edges.c - test_scale: requests at the edge of what is taken, with the
 * code that says why; and set totals where recipes print no amount. */
#include <config.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "catalogue/model.h"
#include "kitchen/plan.h"
#include "scale_cases.h"

static pottle_status
scaled(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
       const pottle_request *request, pottle_error *error)
{
    pottle_plan *plan = NULL;
    *error = (pottle_error){ .status = POTTLE_OK };
    const pottle_status status =
        pottle_scale(catalogue, recipe, request, &plan, error);
    ck_assert((status == POTTLE_OK) == (plan != NULL));
    pottle_plan_free(plan);
    return status;
}

/* -- Numbers --------------------------------------------------------------- */

/* pottle/kitchen.h: numbers lie above 0 and up to 1e9, an altitude between 0
 * and 4500 m. A chile salsa is one batch a pot, berry jam exactly one. */
static const struct number {
    const char *recipe;
    double batches, fill, altitude_m;
    pottle_status status;
    const char *code;
} numbers[] = {
    { "chile-salsa", -1, 0, 0, POTTLE_EDOMAIN, "how-much" },
    { "chile-salsa", 0, -1, 0, POTTLE_EDOMAIN, "how-much" },
    { "chile-salsa", 9e-13, 0, 0, POTTLE_EDOMAIN, "how-much" },
    { "chile-salsa", 0, 9e-13, 0, POTTLE_EDOMAIN, "how-much" },
    { "berry-jam-no-pectin", 1.1e-12, 0, 0, POTTLE_EBOUNDS, "batch-smallest" },
    { "chile-salsa", 1.01e9, 0, 0, POTTLE_EDOMAIN, "how-much" },
    { "chile-salsa", 0, 1.01e9, 0, POTTLE_EDOMAIN, "how-much" },
    { "chile-salsa", 1e9, 0, 0, POTTLE_EDOMAIN, "too-many-pots" },
    { "chile-salsa", 0, 1e9, 0, POTTLE_EDOMAIN, "too-many-pots" },
    { "chile-salsa", 1, 0, -1, POTTLE_EDOMAIN, "altitude" },
    { "chile-salsa", 1, 0, 4500.5, POTTLE_EDOMAIN, "altitude" },
    { "chile-salsa", 1, 0, 4500, POTTLE_OK, "" },
    { "berry-jam-no-pectin", 1.0005, 0, 0, POTTLE_EBOUNDS, "batch-whole" },
    { "berry-jam-no-pectin", 1 + 5e-10, 0, 0, POTTLE_OK, "" },
    { "berry-jam-no-pectin", 1 - 5e-10, 0, 0, POTTLE_OK, "" },
};

START_TEST(number_at_the_edge)
{
    const struct number *c = &numbers[_i];
    pottle_recipe *recipe = kitchen_recipe(c->recipe);
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = c->batches,
                                     .fill = c->fill,
                                     .has_altitude = true,
                                     .altitude_m = c->altitude_m };
    pottle_error error;
    const pottle_status status = scaled(kitchen, recipe, &request, &error);
    ck_assert_msg(status == c->status && strcmp(error.code, c->code) == 0,
                  "%s, %.12g batches, %g jars, %g m: %s (%s)", c->recipe,
                  c->batches, c->fill, c->altitude_m,
                  pottle_strerror((int)status), error.code);
    pottle_recipe_free(recipe);
}
END_TEST

/* Amounts by hand: a phrase that was read is always in order. */
static const struct amount {
    double low, high, percent;
    pottle_status status;
    const char *code;
} amounts[] = {
    { 1, 1, 0, POTTLE_OK, "" },
    { 0.5, 1, 0, POTTLE_OK, "" },
    { 0, 1, 0, POTTLE_EDOMAIN, "amount-range" },
    { 1, 0.5, 0, POTTLE_EDOMAIN, "amount-range" },
    { 1, 1.01e9, 0, POTTLE_EDOMAIN, "amount-range" },
    { 1e9, 1e9, 0, POTTLE_EDOMAIN, "too-many-pots" },
    /* under the least number that is read, and that number: 1e-9 */
    { POTTLE_NUMBER_MIN / 2, 1, 0, POTTLE_EDOMAIN, "amount-range" },
    { 1, 1, 0.5, POTTLE_EBOUNDS, "vinegar-strength" },
    { 1, 1, 4.9, POTTLE_EBOUNDS, "vinegar-strength" },
    { 1, 1, 5, POTTLE_OK, "" },
    { 1, 1, 6, POTTLE_OK, "" },
};
enum { AMOUNTS = sizeof amounts / sizeof amounts[0] };

START_TEST(amount_at_the_edge)
{
    const struct amount *c = &amounts[_i / 2];
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    pottle_phrase vinegar = made_phrase("vinegar", c->low, c->high, "cup");
    vinegar.percent = c->percent;
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .have = &vinegar,
                                     .haves = 1 };
    /* 5 % also where the catalogue has no figure for it */
    pottle_catalogue bare = *kitchen;
    bare.figure_count = 0;
    pottle_error error;
    const pottle_status status =
        scaled(_i % 2 == 0 ? kitchen : &bare, recipe, &request, &error);
    if (_i % 2 == 0 || c->status != POTTLE_OK)
        ck_assert_msg(status == c->status && strcmp(error.code, c->code) == 0,
                      "%g to %g cups of %g %%: %s (%s)", c->low, c->high,
                      c->percent, pottle_strerror((int)status), error.code);
    else
        ck_assert_str_ne(error.code, "vinegar-strength");
    pottle_recipe_free(recipe);
}
END_TEST

/* A pot that holds less than the published batch: what is asked and cannot be
 * made is refused under one batch too. */
START_TEST(half_batches_are_whole)
{
    const pottle_ingredient list[] = { made_part("sugar", 4, "cup", "") };
    pottle_recipe recipe = made_recipe(list, 1);
    recipe.batch = (pottle_batch){ 0.5, 0.5, "", "", { 0 } };
    pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                               .batches = 0.9 };
    pottle_error error;
    ck_assert_int_eq(scaled(kitchen, &recipe, &request, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "batch-whole");
    ck_assert_str_eq(error.instead, "ask for 0.5 or 1 batches");
    /* nor is it made on a mountain that does not exist, with no process whose
     * look-up would say so */
    request.batches = 1;
    request.has_altitude = true;
    static const double nowhere[] = { -1, POTTLE_ALTITUDE_MAX_M + 0.5 };
    for (size_t i = 0; i < 2; i++) {
        request.altitude_m = nowhere[i];
        ck_assert_int_eq(scaled(kitchen, &recipe, &request, &error),
                         POTTLE_EDOMAIN);
        ck_assert_str_eq(error.code, "altitude");
    }
    request.altitude_m = POTTLE_ALTITUDE_MAX_M;
    ck_assert_int_eq(scaled(kitchen, &recipe, &request, &error), POTTLE_OK);
}
END_TEST

/* -- Foods that are not in it ---------------------------------------------- */

START_TEST(foods_are_listed_as_far_as_they_fit)
{
    pottle_ingredient list[48];
    const pottle_phrase honey = made_phrase("honey", 1, 1, "cup");
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .have = &honey,
                                     .haves = 1 };
    pottle_error error;
    list[0] = made_part("rhubarb", 1, "lb", "");
    list[1] = made_part("sugar", 1, "lb", "");
    list[2] = made_part("water", 1, "lb", "");
    pottle_recipe recipe = made_recipe(list, 3);
    ck_assert_int_eq(scaled(kitchen, &recipe, &request, &error), POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "not-in-recipe");
    ck_assert_str_eq(
        error.what,
        "invented does not use honey; it uses rhubarb, sugar, water");
    /* and what it has of the kind, though another food of it has no file */
    const pottle_request set = { .version = POTTLE_REQUEST_VERSION,
                                 .set = &honey,
                                 .sets = 1,
                                 .batches = 1 };
    list[0] = made_part("no-such-food", 1, "lb", "");
    ck_assert_int_eq(scaled(kitchen, &recipe, &set, &error), POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(
        strstr(error.instead, "use what it has, sugar, white granulated"));
    /* the first of a recipe, and the first that goes into each jar */
    list[0] = made_part("sugar", 1, "lb", "");
    list[1] = made_part("water", 1, "lb", "");
    ck_assert_int_eq(scaled(kitchen, &recipe, &set, &error), POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(
        strstr(error.instead, "use what it has, sugar, white granulated"));
    answer a = kitchen_ask(&(asked){ .recipe = "tomatoes-crushed",
                                     .batches = 1,
                                     .set = { "1 tbsp table salt" } });
    ck_assert_int_eq(a.status, POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(
        strstr(a.error.instead, "use what it has, canning or pickling salt"));
    answer_free(&a);
    /* a name is listed where it fits whole into 299 bytes: "sugar" 43 times,
     * with commas, is 5 + 42 x 7 = 299; with one "quince" it would be 300 */
    recipe.ingredient_count = 48;
    for (int quince = 0; quince < 2; quince++) {
        for (size_t i = 0; i < 48; i++)
            list[i] =
                made_part(quince && i == 3 ? "quince" : "sugar", 1, "g", "");
        ck_assert_int_eq(scaled(kitchen, &recipe, &request, &error),
                         POTTLE_ENOENT);
        size_t commas = 0;
        for (const char *c = error.what; *c != '\0'; c++)
            commas += *c == ',';
        ck_assert_uint_eq(commas + 1, quince ? 42 : 43);
    }
}
END_TEST

/* The rule that comes first in the catalogue is looked at too. */
START_TEST(never_in_its_place)
{
    const struct pottle_never never[] = { { .put = "honey",
                                            .wanted = "sugar" } };
    const pottle_rule rule[] = { { .id = "a-first",
                                   .text = "no honey",
                                   .instead = "",
                                   .never = never,
                                   .nevers = 1,
                                   .cite = { .source = "invented",
                                             .at = "page 1" } } };
    pottle_catalogue catalogue = *kitchen;
    catalogue.rule = rule;
    catalogue.rule_count = 1;
    const pottle_ingredient list[] = { made_part("sugar", 1, "lb", "") };
    const pottle_recipe recipe = made_recipe(list, 1);
    const pottle_phrase honey = made_phrase("honey", 1, 1, "cup");
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .have = &honey,
                                     .haves = 1 };
    pottle_error error;
    ck_assert_int_eq(scaled(&catalogue, &recipe, &request, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "never-for");
    ck_assert_str_eq(error.what, "honey may not stand in for sugar in "
                                 "invented. Rule: no honey");
}
END_TEST

/* Two foods for the place that stands first; and a food with a place of its own
 * takes no other. */
START_TEST(one_place_one_food)
{
    const pottle_alternative other[] = { { "carrot", "", "" },
                                         { "celery", "", "" } };
    pottle_ingredient list[] = { made_part("onion", 1, "lb", ""),
                                 made_part("sugar", 1, "lb", "") };
    list[0].alternatives = 2;
    list[0].alternative = other;
    pottle_recipe recipe = made_recipe(list, 2);
    const pottle_phrase have[] = { made_phrase("carrot", 1, 1, "lb"),
                                   made_phrase("celery", 1, 1, "lb") };
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .have = have,
                                     .haves = 2 };
    pottle_error error;
    ck_assert_int_eq(scaled(kitchen, &recipe, &request, &error),
                     POTTLE_EAMBIGUOUS);
    ck_assert_str_eq(error.code, "one-place");
    const pottle_ingredient own[] = { made_part("carrot", 1, "lb", ""),
                                      list[0] };
    recipe = made_recipe(own, 2);
    const char *rule = NULL, *form = NULL;
    ck_assert(!pottlei_takes(&recipe, &own[1], "carrot", &rule, &form));
    ck_assert(pottlei_takes(&recipe, &own[1], "celery", &rule, &form));
    ck_assert(pottlei_takes(&recipe, &own[0], "carrot", &rule, &form));
}
END_TEST

/* -- Set totals ------------------------------------------------------------ */

/* The totals of a recipe in one pot of one batch. */
static pottle_status
set_totals(const pottle_recipe *recipe, const pottle_phrase *set, size_t count,
           double *total, pottle_error *error)
{
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .set = set,
                                     .sets = count };
    pottle_plan *plan = made_lines(recipe, &request, POTTLE_OK, error);
    double *pot = malloc(sizeof *pot);
    ck_assert_ptr_nonnull(pot);
    *pot = 1;
    plan->pots = (pottlei_pots){ pot, 1, 1 };
    const pottle_status status =
        pottlei_apply_sets(kitchen, plan, &request, error);
    for (size_t i = 0; i < plan->lines; i++)
        total[i] = plan->total[i];
    pottle_plan_free(plan);
    return status;
}

/* One food in two places: its total is told in the measure of both, or by
 * weight where they are measured in two ways or cut in two ways. A cup of
 * chopped onions weighs 160 g, of sliced ones 115 g (SR28, 11282). */
START_TEST(refused_total_of_two_places)
{
    static const struct {
        const char *unit, *form;
        double amount;
        const char *in_all;
    } second[] = {
        { "cup", "chopped", 2, "(4 cups in all)" },
        /* 640 g are 1 lb 6.6 oz, 550 g 1 lb 3.4 oz: down, to what is weighed */
        { "g", "", 320, "(1 lb + 6 oz in all)" },
        { "cup", "sliced", 2, "(1 lb + 3 oz in all)" },
        /* a place without a printed amount adds nothing */
        { "cup", "chopped", 0, "(2 cups in all)" },
    };
    for (size_t i = 0; i < sizeof second / sizeof second[0]; i++) {
        pottle_ingredient list[] = {
            made_part("onion", 2, "cup", "chopped"),
            made_part("water", 1, "cup", "liquid"),
            made_part("onion", second[i].amount, second[i].unit,
                      second[i].form),
        };
        list[0].keep = list[2].keep = POTTLE_AT_MOST;
        const pottle_recipe recipe = made_recipe(list, 3);
        const pottle_phrase set = made_phrase("onion", 2, 2, "kg");
        double total[3] = { 0, 0, 0 };
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                         POTTLE_EBOUNDS);
        ck_assert_msg(strstr(error.what, second[i].in_all) != NULL, "%s",
                      error.what);
        ck_assert_msg((strstr(error.instead, "chopped onions in all") !=
                       NULL) == (i == 0 || i == 3),
                      "%s", error.instead);
    }
}
END_TEST

/* The way out is said in the measure of the recipe, and by weight where no
 * measure comes near. */
START_TEST(refused_total_says_the_tested_one)
{
    pottle_ingredient list[] = { made_part("onion", 2, "count", "") };
    list[0].size = "medium";
    list[0].keep = POTTLE_EXACT;
    const pottle_recipe recipe = made_recipe(list, 1);
    pottle_phrase set = made_phrase("onion", 3, 3, "count");
    POTTLEI_SET(set.size, "medium");
    double total[2] = { 0, 0 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "keep-exact");
    ck_assert_ptr_nonnull(strstr(error.what, "1.50 times the tested amount"));
    ck_assert_ptr_nonnull(strstr(error.instead, "use exactly 2 medium of "));
    /* 0.4 g is less than a quarter of an ounce by far */
    list[0] = made_part("sugar", 0.4, "g", "");
    list[0].keep = POTTLE_AT_MOST;
    set = made_phrase("sugar", 1, 1, "g");
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "keep-at-most");
    ck_assert_ptr_nonnull(strstr(error.instead, "use at most 0.4 g of "));
    ck_assert_ptr_nonnull(strstr(error.instead, "make more of the whole"));
    list[0].keep = POTTLE_AT_LEAST;
    set = made_phrase("sugar", 0.1, 0.1, "g");
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(strstr(error.instead, "use at least 0.4 g of "));
    ck_assert_ptr_nonnull(strstr(error.instead, "make less of the whole"));
    /* 1/2 to 3/4 lb: both ends are told where both are exact */
    list[0] = made_part("sugar", 0.5, "lb", "");
    list[0].amount_to = 0.75;
    list[0].keep = POTTLE_EXACT;
    set = made_phrase("sugar", 1, 1, "lb");
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(strstr(error.instead, "8 oz to 12 oz"));
    list[0].keep = POTTLE_AT_MOST;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(strstr(error.instead, "use at most "));
    ck_assert_ptr_null(strstr(error.instead, "oz to "));
}
END_TEST

/* One food in two places, the second without an amount: 150 g are one and a
 * half of 100 g. A printed range is allowed as a whole. */
START_TEST(total_over_two_places)
{
    pottle_ingredient list[] = { made_part("sugar", 100, "g", ""),
                                 made_part("sugar", 0, "g", "") };
    const pottle_recipe recipe = made_recipe(list, 2);
    pottle_phrase set = made_phrase("sugar", 150, 150, "g");
    double total[2] = { 0, 0 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error), POTTLE_OK);
    ck_assert(within(total[0], 1.5, 1e-9) && within(total[1], 1.5, 1e-9));
    list[1].keep = POTTLE_EXACT;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    set.low = set.high = 100;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error), POTTLE_OK);
    /* 100 g and 300 g: 800 g are two of both, whichever stands first */
    list[1] = made_part("sugar", 300, "g", "");
    set.low = set.high = 800;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error), POTTLE_OK);
    ck_assert(within(total[0], 2, 1e-9) && within(total[1], 2, 1e-9));
    /* also where they are measured in different ways: a cup of sugar is 200 g
     * (SR28 19335), 600 g are two of 100 g and a cup */
    list[1] = made_part("sugar", 1, "cup", "");
    set.low = set.high = 600;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error), POTTLE_OK);
    ck_assert(within(total[0], 2, 1e-9) && within(total[1], 2, 1e-9));
    /* and by parts of a gram */
    list[0] = made_part("sugar", 0.25, "g", "");
    list[1] = made_part("sugar", 0.5, "g", "");
    set.low = set.high = 1.5;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error), POTTLE_OK);
    ck_assert(within(total[0], 2, 1e-9) && within(total[1], 2, 1e-9));
    /* half of what is there is less than the whole of a place without an
     * amount */
    list[0] = made_part("sugar", 100, "g", "");
    list[1] = made_part("sugar", 0, "g", "");
    list[1].keep = POTTLE_AT_LEAST;
    set.low = set.high = 50;
    ck_assert_int_eq(set_totals(&recipe, &set, 1, total, &error),
                     POTTLE_EBOUNDS);
    /* 100.5 g of 100: what is free is as it was set, what is exact stays */
    const pottle_recipe first = made_recipe(list, 1);
    set.low = set.high = 100.5;
    ck_assert_int_eq(set_totals(&first, &set, 1, total, &error), POTTLE_OK);
    ck_assert(within(total[0], 1.005, 1e-9));
    list[0].keep = POTTLE_EXACT;
    ck_assert_int_eq(set_totals(&first, &set, 1, total, &error), POTTLE_OK);
    ck_assert(total[0] >= 0 && total[0] <= 0);
    /* a range under one pound */
    list[0] = made_part("sugar", 0.4, "lb", "");
    list[0].amount_to = 0.6;
    list[0].keep = POTTLE_EXACT;
    set = made_phrase("sugar", 0.4, 0.4, "lb");
    ck_assert_int_eq(set_totals(&first, &set, 1, total, &error), POTTLE_OK);
    set.low = set.high = 0.6;
    ck_assert_int_eq(set_totals(&first, &set, 1, total, &error), POTTLE_OK);
    set = made_phrase("sugar", 80, 80, "g");
    list[0] = made_part("sugar", 100, "g", "");
    /* 80 to 120 g, exactly: 80 and 120 are, 78 and 123 are not (1 % is) */
    static const struct {
        double g;
        pottle_keep keep;
        bool allowed;
    } asked_for[] = {
        { 80, POTTLE_EXACT, true },       { 120, POTTLE_EXACT, true },
        { 78, POTTLE_EXACT, false },      { 123, POTTLE_EXACT, false },
        { 79.9, POTTLE_AT_LEAST, false }, { 80, POTTLE_AT_LEAST, true },
        { 120.1, POTTLE_AT_MOST, false }, { 120, POTTLE_AT_MOST, true },
    };
    list[0].amount = 80;
    list[0].amount_to = 120;
    const pottle_recipe one = made_recipe(list, 1);
    for (size_t i = 0; i < sizeof asked_for / sizeof asked_for[0]; i++) {
        set.low = set.high = asked_for[i].g;
        list[0].keep = asked_for[i].keep;
        ck_assert_msg((set_totals(&one, &set, 1, total, &error) == POTTLE_OK) ==
                          asked_for[i].allowed,
                      "%g g of 80 to 120, %s", asked_for[i].g,
                      pottle_keep_name((int)asked_for[i].keep));
    }
}
END_TEST

/* What a plan without jars says of them. */
START_TEST(plan_without_jars)
{
    const pottle_ingredient list[] = { made_part("sugar", 4, "cup", "") };
    const pottle_recipe recipe = made_recipe(list, 1);
    const pottle_request nothing = { .version = POTTLE_REQUEST_VERSION };
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &nothing, POTTLE_OK, &error);
    ck_assert_ptr_null(pottle_plan_jars(plan));
    pottle_plan_free(plan);
}
END_TEST

TCase *
scale_edges(void)
{
    TCase *t = tcase_create("edges");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, number_at_the_edge, 0,
                        sizeof numbers / sizeof numbers[0]);
    tcase_add_loop_test(t, amount_at_the_edge, 0, 2 * AMOUNTS);
    tcase_add_test(t, half_batches_are_whole);
    tcase_add_test(t, foods_are_listed_as_far_as_they_fit);
    tcase_add_test(t, never_in_its_place);
    tcase_add_test(t, one_place_one_food);
    tcase_add_test(t, refused_total_says_the_tested_one);
    tcase_add_test(t, refused_total_of_two_places);
    tcase_add_test(t, total_over_two_places);
    tcase_add_test(t, plan_without_jars);
    return t;
}
