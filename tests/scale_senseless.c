/* scale_senseless.c - test_scale: requests that make no sense. */
#include <config.h>

#include <math.h>

#include "scale_cases.h"

static const struct {
    const char *what;
    double batches, fill;
    bool have;
    pottle_status status;
} amounts[] = {
    { "nothing", 0, 0, false, POTTLE_EMISUSE },
    { "minus nothing", -0.0, -0.0, false, POTTLE_EMISUSE },
    { "batches and jars", 1, 7, false, POTTLE_EMISUSE },
    { "batches and on hand", 1, 0, true, POTTLE_EMISUSE },
    { "jars and on hand", 0, 7, true, POTTLE_EMISUSE },
    { "all three", 1, 7, true, POTTLE_EMISUSE },
    { "NaN batches and on hand", NOT_A_NUMBER, 0, true, POTTLE_EMISUSE },
    { "NaN batches", NOT_A_NUMBER, 0, false, POTTLE_EDOMAIN },
    { "NaN jars", 0, NOT_A_NUMBER, false, POTTLE_EDOMAIN },
    { "negative batches", -1, 0, false, POTTLE_EDOMAIN },
    { "negative jars", 0, -1, false, POTTLE_EDOMAIN },
    { "endless batches", HUGE_VAL, 0, false, POTTLE_EDOMAIN },
    { "minus endless batches", -HUGE_VAL, 0, false, POTTLE_EDOMAIN },
    { "endless jars", 0, HUGE_VAL, false, POTTLE_EDOMAIN },
    { "1e300 batches", 1e300, 0, false, POTTLE_EDOMAIN },
    { "1e300 jars", 0, 1e300, false, POTTLE_EDOMAIN },
    { "1e9 batches", 1e9, 0, false, POTTLE_EDOMAIN },
};
enum { AMOUNTS = sizeof amounts / sizeof amounts[0] };

START_TEST(senseless_amounts_are_told)
{
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    const pottle_phrase have = kitchen_phrase(recipe, "22 lb tomatoes");
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .have = &have,
                                     .haves = amounts[_i].have,
                                     .batches = amounts[_i].batches,
                                     .fill = amounts[_i].fill };
    pottle_plan *const untouched = (pottle_plan *)(void *)recipe;
    pottle_plan *plan = untouched;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_scale(kitchen, recipe, &request, &plan, &error);
    ck_assert_msg(status == amounts[_i].status && error.status == status,
                  "%s: %s: %s", amounts[_i].what, pottle_strerror((int)status),
                  error.what);
    ck_assert(plan == untouched);
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, NULL),
                     status);
    ck_assert(plan == untouched);
    pottle_recipe_free(recipe);
}
END_TEST

/* The smallest number above zero is no reason to fail or to divide by nothing.
 */
START_TEST(a_tiny_amount_is_an_amount)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "chile-salsa", .batches = 1e-6 });
    CHECK_NEAR(line_of_food(a.plan, "tomato")->mass_g, 5e-6 * POUND_G,
               "tomatoes");
    answer_free(&a);
}
END_TEST

static const double altitudes[] = { NOT_A_NUMBER, -1,        -1e-9, 10001,
                                    HUGE_VAL,     -HUGE_VAL, 1e300 };
enum { ALTITUDES = sizeof altitudes / sizeof altitudes[0] };

START_TEST(senseless_altitudes_are_told)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1,
                                     .has_altitude = true,
                                     .altitude_m = altitudes[_i] };
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "altitude");
    ck_assert(plan == NULL);
    pottle_recipe_free(recipe);
}
END_TEST

/* A phrase can only be read as a sensible number; one made by hand may hold
 * anything. */
static const struct {
    double low, high;
    pottle_status status;
} numbers[] = {
    { NOT_A_NUMBER, NOT_A_NUMBER, POTTLE_EDOMAIN },
    { -1, -1, POTTLE_EDOMAIN },
    { 0, 0, POTTLE_EDOMAIN },
    { HUGE_VAL, HUGE_VAL, POTTLE_EDOMAIN },
    { 1e300, 1e300, POTTLE_EDOMAIN },
    { 1, HUGE_VAL, POTTLE_EDOMAIN },
    { -HUGE_VAL, 1, POTTLE_EDOMAIN },
};
enum { NUMBERS = sizeof numbers / sizeof numbers[0] };

START_TEST(senseless_phrases_are_told)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    pottle_phrase phrase[2] = { kitchen_phrase(recipe, "5 lb tomatoes"),
                                kitchen_phrase(recipe, "2 lb onions") };
    phrase[1].low = numbers[_i].low;
    phrase[1].high = numbers[_i].high;
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    /* alone, and beside a good one that could decide without it */
    for (size_t first = 2; first-- > 0;) {
        const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                         .have = phrase + first,
                                         .haves = 2 - first };
        const pottle_status status =
            pottle_scale(kitchen, recipe, &request, &plan, &error);
        ck_assert_msg(status == numbers[_i].status,
                      "have %g to %g, %zu phrases: %s", numbers[_i].low,
                      numbers[_i].high, 2 - first,
                      pottle_strerror((int)status));
        ck_assert(plan == NULL);
    }
    /* and as a total: told or refused */
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1,
                                     .set = phrase + 1,
                                     .sets = 1 };
    const pottle_status status =
        pottle_scale(kitchen, recipe, &request, &plan, &error);
    ck_assert_msg(status == POTTLE_EDOMAIN || status == POTTLE_EBOUNDS,
                  "set %g to %g: %s", numbers[_i].low, numbers[_i].high,
                  pottle_strerror((int)status));
    ck_assert(plan == NULL);
    pottle_recipe_free(recipe);
}
END_TEST

/* Salt is free, but NaN, minus and endless salt are no amounts. */
START_TEST(what_is_free_is_still_an_amount)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    pottle_phrase phrase = kitchen_phrase(recipe, "1 tsp canning salt");
    phrase.low = numbers[_i].low;
    phrase.high = numbers[_i].high;
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1,
                                     .set = &phrase,
                                     .sets = 1 };
    pottle_plan *plan = NULL;
    const pottle_status status =
        pottle_scale(kitchen, recipe, &request, &plan, NULL);
    ck_assert_msg(status == POTTLE_EDOMAIN || status == POTTLE_EBOUNDS,
                  "set %g to %g: %s", numbers[_i].low, numbers[_i].high,
                  pottle_strerror((int)status));
    ck_assert(plan == NULL);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(misuse_is_told)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    const pottle_phrase phrase = kitchen_phrase(recipe, "5 lb tomatoes");
    pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                               .batches = 1 };
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_scale(NULL, recipe, &request, &plan, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(error.status, POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_scale(kitchen, NULL, &request, &plan, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_scale(kitchen, recipe, NULL, &plan, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_scale(NULL, NULL, NULL, NULL, NULL),
                     POTTLE_EMISUSE);
    static const int versions[] = { 0, 2, -1, 999 };
    for (size_t i = 0; i < sizeof versions / sizeof versions[0]; i++) {
        request.version = versions[i];
        ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                         POTTLE_EMISUSE);
    }
    request = (pottle_request){ .version = POTTLE_REQUEST_VERSION, .haves = 1 };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                     POTTLE_EMISUSE);
    request = (pottle_request){ .version = POTTLE_REQUEST_VERSION,
                                .batches = 1,
                                .sets = 1 };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                     POTTLE_EMISUSE);
    /* a place that is named but holds nothing is not used */
    request = (pottle_request){ .version = POTTLE_REQUEST_VERSION,
                                .batches = 1,
                                .have = &phrase,
                                .set = &phrase };
    ck_assert(plan == NULL);
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                     POTTLE_OK);
    pottle_plan_free(plan);
    pottle_plan_free(NULL);
    pottle_recipe_free(recipe);
}
END_TEST

/* A length is no amount of onions, nor is a phrase without a unit. */
START_TEST(units_that_are_no_amount_are_told)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    pottle_phrase phrase = kitchen_phrase(recipe, "2 lb onions");
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    phrase.unit = pottle_unit_find("inch");
    ck_assert_ptr_nonnull(phrase.unit);
    const pottle_request have = { .version = POTTLE_REQUEST_VERSION,
                                  .have = &phrase,
                                  .haves = 1 };
    const pottle_request set = { .version = POTTLE_REQUEST_VERSION,
                                 .batches = 1,
                                 .set = &phrase,
                                 .sets = 1 };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &have, &plan, &error),
                     POTTLE_EUNIT);
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &set, &plan, &error),
                     POTTLE_EUNIT);
    ck_assert(plan == NULL);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(a_phrase_without_a_unit_is_misuse)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    pottle_phrase phrase = kitchen_phrase(recipe, "2 lb onions");
    pottle_plan *plan = NULL;
    phrase.unit = NULL;
    const pottle_request have = { .version = POTTLE_REQUEST_VERSION,
                                  .have = &phrase,
                                  .haves = 1 };
    const pottle_request set = { .version = POTTLE_REQUEST_VERSION,
                                 .batches = 1,
                                 .set = &phrase,
                                 .sets = 1 };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &have, &plan, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &set, &plan, NULL),
                     POTTLE_EMISUSE);
    ck_assert(plan == NULL);
    pottle_recipe_free(recipe);
}
END_TEST

TCase *
scale_senseless(void)
{
    TCase *tcase = tcase_create("senseless");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_loop_test(tcase, senseless_amounts_are_told, 0, AMOUNTS);
    tcase_add_test(tcase, a_tiny_amount_is_an_amount);
    tcase_add_loop_test(tcase, senseless_altitudes_are_told, 0, ALTITUDES);
    tcase_add_loop_test(tcase, senseless_phrases_are_told, 0, NUMBERS);
    tcase_add_loop_test(tcase, what_is_free_is_still_an_amount, 0, NUMBERS);
    tcase_add_test(tcase, misuse_is_told);
    tcase_add_test(tcase, units_that_are_no_amount_are_told);
    tcase_add_test(tcase, a_phrase_without_a_unit_is_misuse);
    return tcase;
}
