/* scale_mixes.c - test_scale: totals over several places, mixes, and doses. */
#include <config.h>

#include <string.h>

#include "scale_cases.h"

/* 20 times 1 oz of onions are 20 oz, more than the tested 16 oz, in however
 * many pieces it is said. */
START_TEST(many_totals_on_one_place_all_count)
{
    asked q = { .recipe = "chile-salsa", .batches = 1 };
    for (size_t i = 0; i < 20; i++)
        q.set[i] = "1 oz onions";
    answer a = kitchen_ask(&q);
    ck_assert_msg(a.status == POTTLE_EBOUNDS, "20 oz of onions for 16: %s",
                  pottle_strerror((int)a.status));
    answer_free(&a);
}
END_TEST

/* The total of a food that has two places is that of both: 5 + 5 cups of ground
 * peppers; 3/4 + 1/2 cup of salt, "1 1/4 cups in all" (USDA guide 6, quick
 * fresh-pack dill pickles). */
START_TEST(the_total_of_two_places_is_one_total)
{
    static const struct {
        const char *recipe, *set, *food;
        double total;
        pottle_status status;
    } rows[] = {
        { "sweet-pepper-relish", "10 cups ground sweet peppers", "sweet-pepper",
          10, POTTLE_OK },
        { "sweet-pepper-relish", "6 cups ground sweet peppers", "sweet-pepper",
          6, POTTLE_OK },
        { "sweet-pepper-relish", "4 cups ground sweet peppers", "sweet-pepper",
          4, POTTLE_OK },
        { "sweet-pepper-relish", "11 cups ground sweet peppers", "sweet-pepper",
          0, POTTLE_EBOUNDS },
        { "quick-fresh-pack-dill-pickles", "1 1/4 cups canning salt",
          "canning-salt", 1.25, POTTLE_OK },
        { "quick-fresh-pack-dill-pickles", "3/4 cup canning salt",
          "canning-salt", 0, POTTLE_EBOUNDS },
    };
    const size_t i = (size_t)_i;
    ck_assert_uint_lt(i, sizeof rows / sizeof rows[0]);
    answer a = kitchen_ask(&(asked){
        .recipe = rows[i].recipe, .batches = 1, .set = { rows[i].set } });
    ck_assert_msg(a.status == rows[i].status, "%s, set '%s': %s: %s",
                  rows[i].recipe, rows[i].set, pottle_strerror((int)a.status),
                  a.error.what);
    double total = 0;
    size_t n = 0;
    const pottle_line *line =
        a.plan != NULL ? pottle_plan_lines(a.plan, POTTLE_ALL_POTS, &n) : NULL;
    for (size_t k = 0; k < n; k++)
        if (strcmp(line[k].food, rows[i].food) == 0)
            total += line[k].volume_ml / CUP_ML;
    if (a.plan != NULL)
        CHECK_NEAR(total, rows[i].total, rows[i].set);
    answer_free(&a);
}
END_TEST

/* A food with a place of its own is set there and is no swap elsewhere: 6
 * jalapenos are what the salsa has, 5 are fewer. */
START_TEST(the_total_of_a_food_with_its_own_place)
{
    static const struct {
        const char *set;
        double count;
    } rows[] = { { "6 jalapenos", 6 }, { "5 jalapenos", 5 } };
    for (size_t i = 0; i < 2; i++) {
        answer a = kitchen_ask(&(asked){ .recipe = "tomato-tomato-paste-salsa",
                                         .batches = 1,
                                         .set = { rows[i].set } });
        ck_assert_msg(a.status == POTTLE_OK, "set '%s': %s", rows[i].set,
                      a.error.what);
        CHECK_NEAR(line_of_food(a.plan, "jalapeno")->count, rows[i].count,
                   rows[i].set);
        CHECK_NEAR(line_of_food(a.plan, "chile-pepper")->count, 4,
                   "the chiles stay");
        answer_free(&a);
    }
}
END_TEST

/* Medium marinated peppers are 2 lb hot and 2 lb sweet (USDA guide 6): the plan
 * does not ask for more of either than was set. */
START_TEST(a_mix_in_one_place_is_told_as_a_mix)
{
    answer a = kitchen_plan(
        &(asked){ .recipe = "marinated-peppers",
                  .batches = 1,
                  .set = { "2 lb sweet peppers", "2 lb jalapenos" } });
    size_t n = 0;
    const pottle_line *line = pottle_plan_lines(a.plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(line[i].food, "jalapeno") == 0 ||
            strcmp(line[i].food, "sweet-pepper") == 0)
            ck_assert_msg(line[i].mass_g <= 2 * POUND_G * (1 + TINY),
                          "2 lb of each were set; the plan takes %.2f lb of %s",
                          line[i].mass_g / POUND_G, line[i].food);
    answer_free(&a);
}
END_TEST

/* Two ways to the same acid may both be named, each enough; every way is then
 * told once. Too little of one is too little. */
START_TEST(each_way_to_acidify_is_told_once)
{
    answer a = kitchen_plan(
        &(asked){ .recipe = "tomatoes-crushed",
                  .batches = 1,
                  .set = { "4 tsp citric acid", "2 cups vinegar" } });
    size_t n = 0;
    const pottle_dose *dose = pottle_plan_doses(a.plan, &n);
    ck_assert_uint_eq(n, 4);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < i; k++)
            ck_assert_msg(strcmp(dose[i].food, dose[k].food) != 0,
                          "%s is told twice", dose[i].food);
    answer_free(&a);
    a = kitchen_plan(&(asked){ .recipe = "tomatoes-crushed",
                               .batches = 1,
                               .set = { "4 tsp citric acid" } });
    ck_assert_str_eq(pottle_plan_doses(a.plan, &n)->food, "citric-acid");
    answer_free(&a);
}
END_TEST

/* 10 tbsp and 10 tbsp are 20 tbsp, enough for the 14 of 7 quarts; 5 and 5 are
 * not. */
START_TEST(two_totals_of_a_dose_add_up)
{
    answer a =
        kitchen_ask(&(asked){ .recipe = "tomatoes-crushed",
                              .batches = 1,
                              .set = { "10 tbsp bottled lemon juice",
                                       "10 tbsp bottled lemon juice" } });
    ck_assert_msg(a.status == POTTLE_OK, "10 + 10 tbsp: %s", a.error.what);
    answer_free(&a);
    a = kitchen_ask(&(asked){ .recipe = "tomatoes-crushed",
                              .batches = 1,
                              .set = { "5 tbsp bottled lemon juice",
                                       "5 tbsp bottled lemon juice" } });
    ck_assert_int_eq(a.status, POTTLE_EBOUNDS);
    answer_free(&a);
}
END_TEST

/* What goes into the jars is judged by the unfavourable end of a range, and by
 * the piece it is counted in: quick sweet pickles take at most 2 slices of
 * onion a jar, marinated peppers exactly 1/4 tsp of salt a half-pint (USDA
 * guide 6). A large onion is 150 g, a slice 14 g (SR28 11282), so that half as
 * many large onions as slices are five times too much. */
START_TEST(doses_are_judged_like_lines)
{
    static const struct {
        const char *recipe, *food, *size;
        double low, high;
        pottle_status status;
    } rows[] = {
        { "quick-sweet-pickles", "onion", "slice", 1, 1, POTTLE_OK },
        { "quick-sweet-pickles", "onion", "slice", 0.5, 0.5, POTTLE_OK },
        { "quick-sweet-pickles", "onion", "slice", 1.1, 1.1, POTTLE_EBOUNDS },
        { "quick-sweet-pickles", "onion", "slice", 0.5, 2, POTTLE_EBOUNDS },
        { "quick-sweet-pickles", "onion", "large", 0.5, 0.5, POTTLE_EBOUNDS },
        { "marinated-peppers", "canning-salt", "", 1, 1, POTTLE_OK },
        { "marinated-peppers", "canning-salt", "", 0.9, 0.9, POTTLE_EBOUNDS },
        { "marinated-peppers", "canning-salt", "", 1, 4, POTTLE_EBOUNDS },
        { "tomatoes-crushed", "bottled-lemon-juice", "", 1, 4, POTTLE_OK },
        { "tomatoes-crushed", "bottled-lemon-juice", "", 0.5, 4,
          POTTLE_EBOUNDS },
    };
    const size_t i = (size_t)_i;
    ck_assert_uint_lt(i, sizeof rows / sizeof rows[0]);
    answer a = kitchen_plan(&(asked){ .recipe = rows[i].recipe, .batches = 1 });
    size_t n = 0;
    const pottle_dose *dose = pottle_plan_doses(a.plan, &n);
    while (n > 0 && strcmp(dose->food, rows[i].food) != 0) {
        dose++;
        n--;
    }
    ck_assert_uint_gt(n, 0);
    /* times the total that the jars need, as told without a word about it */
    pottle_phrase set = { .low = rows[i].low * dose->total,
                          .high = rows[i].high * dose->total,
                          .unit = dose->unit,
                          .state_said = true };
    POTTLEI_SET(set.food, rows[i].food);
    POTTLEI_SET(set.size, rows[i].size);
    const pottle_request request = {
        .version = POTTLE_REQUEST_VERSION, .batches = 1, .set = &set, .sets = 1
    };
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_scale(kitchen, a.recipe, &request, &plan, &error);
    ck_assert_msg(status == rows[i].status,
                  "%s, set %g to %g %s %s of %s for %g: %s %s", rows[i].recipe,
                  set.low, set.high, set.unit->id, set.size, set.food,
                  dose->total, pottle_strerror((int)status), error.what);
    pottle_plan_free(plan);
    answer_free(&a);
}
END_TEST

TCase *
scale_mixes(void)
{
    TCase *tcase = tcase_create("mixes");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_test(tcase, many_totals_on_one_place_all_count);
    tcase_add_loop_test(tcase, the_total_of_two_places_is_one_total, 0, 6);
    tcase_add_test(tcase, the_total_of_a_food_with_its_own_place);
    tcase_add_test(tcase, a_mix_in_one_place_is_told_as_a_mix);
    tcase_add_test(tcase, each_way_to_acidify_is_told_once);
    tcase_add_test(tcase, two_totals_of_a_dose_add_up);
    tcase_add_loop_test(tcase, doses_are_judged_like_lines, 0, 10);
    return tcase;
}
