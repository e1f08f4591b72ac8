/* scale_places.c - test_scale: foods that take or share a place, and what
 * decides. */
#include <config.h>

#include <math.h>

#include "scale_cases.h"

/* Marinated peppers, USDA guide 6: 4 lb of peppers, any mix of kinds. 6 lb
 * jalapeno: 1.5 batches; lemon juice 1 1/2 cups. */
START_TEST(jalapeno_takes_the_place_of_sweet_peppers)
{
    answer a = kitchen_plan(&(asked){ .recipe = "marinated-peppers",
                                      .have = { "6 lb jalapenos" } });
    check_pots(a.plan, (double[]){ 1, 0.5 }, 2);
    ck_assert_str_eq(line_in(a.plan, 0, NULL)->food, "jalapeno");
    CHECK_NEAR(line_of_food(a.plan, "jalapeno")->mass_g, 6 * POUND_G,
               "jalapenos");
    CHECK_NEAR(line_of_food(a.plan, "bottled-lemon-juice")->volume_ml,
               1.5 * CUP_ML, "lemon juice");
    CHECK_NEAR(line_of_food(a.plan, "garlic")->count, 3, "garlic");
    answer_free(&a);
}
END_TEST

/* Tomato and tomato paste salsa, USDA guide 3: 6 jalapenos and 4 long green
 * chiles, for which jalapenos may stand one for one. 12 jalapenos fill their
 * own place twice: 2 batches, and the chiles stay chiles. */
START_TEST(a_food_with_a_place_of_its_own_takes_no_other)
{
    answer a = kitchen_plan(&(asked){ .recipe = "tomato-tomato-paste-salsa",
                                      .have = { "12 jalapenos" } });
    ck_assert_str_eq(line_of_food(a.plan, "chile-pepper")->food,
                     "chile-pepper");
    CHECK_NEAR(pottle_plan_factor(a.plan), 2, "factor");
    answer_free(&a);
}
END_TEST

/* Sweet pepper relish of the national centre: 5 cups ground green and 5 cups
 * ground red peppers, 1 1/2 cups onions. 5 cups of peppers are half of the 10 a
 * batch takes; of 12 cups, 2 are left when the onions decide on one batch. */
START_TEST(one_food_in_two_places_is_shared_out)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "sweet-pepper-relish",
                               .have = { "5 cups ground sweet peppers" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 0.5, "factor");
    answer_free(&a);
    a = kitchen_plan(&(asked){ .recipe = "sweet-pepper-relish",
                               .have = { "12 cups ground sweet peppers",
                                         "1 1/2 cups ground onions" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1, "factor");
    CHECK_NEAR(rest_of(a.plan, "sweet-pepper")->volume_ml, 2 * CUP_ML,
               "peppers left");
    answer_free(&a);
}
END_TEST

/* Two heaps of one food are one heap: 3 lb and 4 lb of tomatoes are 7 lb, 1.4
 * batches. */
START_TEST(two_heaps_of_one_food_add_up)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "chile-salsa",
                               .have = { "3 lb tomatoes", "4 lb tomatoes" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1.4, "factor");
    answer_free(&a);
}
END_TEST

/* Salt is free: it decides when nothing else was said (6 tsp / 3 tsp = 2),
 * never against the tomatoes; being short of it is told.
 */
START_TEST(what_is_free_decides_last)
{
    answer a = kitchen_plan(
        &(asked){ .recipe = "chile-salsa", .have = { "6 tsp canning salt" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 2, "factor");
    answer_free(&a);
    a = kitchen_plan(
        &(asked){ .recipe = "chile-salsa",
                  .have = { "1 tsp canning salt", "5 lb tomatoes" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1, "factor");
    ck_assert_str_eq(pottle_plan_limit(a.plan), "have tomatoes");
    ck_assert(has_warning(a.plan, "short-of-free"));
    ck_assert(rest_of(a.plan, "canning-salt") == NULL);
    answer_free(&a);
}
END_TEST

/* A range is taken at its middle in the logarithm: 4 to 9 lb is 6 lb, 1.2
 * batches of 5 lb; its spread goes on to the jars. */
START_TEST(a_range_on_hand_is_taken_at_its_middle)
{
    answer a = kitchen_plan(
        &(asked){ .recipe = "chile-salsa", .have = { "4-9 lb tomatoes" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1.2, "factor");
    answer b = kitchen_plan(
        &(asked){ .recipe = "chile-salsa", .have = { "6 lb tomatoes" } });
    CHECK_NEAR(pottle_plan_jars(a.plan)->count.median,
               pottle_plan_jars(b.plan)->count.median, "jars");
    /* 4 and 9 are 5 % and 95 % points: sd = ln(9/4) / (2 * 1.64485) = 0.246504,
     * joined at right angles with the recipe's own */
    CHECK_NEAR(pottle_plan_jars(a.plan)->count.sd,
               hypot(pottle_plan_jars(b.plan)->count.sd,
                     log(9.0 / 4.0) / (2 * 1.6448536269514722)),
               "spread of jars");
    answer_free(&a);
    answer_free(&b);
}
END_TEST

TCase *
scale_places(void)
{
    TCase *t = tcase_create("how much is made");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, jalapeno_takes_the_place_of_sweet_peppers);
    tcase_add_test(t, a_food_with_a_place_of_its_own_takes_no_other);
    tcase_add_test(t, one_food_in_two_places_is_shared_out);
    tcase_add_test(t, two_heaps_of_one_food_add_up);
    tcase_add_test(t, what_is_free_decides_last);
    tcase_add_test(t, a_range_on_hand_is_taken_at_its_middle);
    return t;
}
