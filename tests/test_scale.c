/* test_scale.c - plans for shipped recipes, worked by hand: how much is made.
 *
 * What a recipe takes is printed in its source, named in each recipe file; the
 * arithmetic from there to the expected value stands beside each check. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "scale_cases.h"
#include "suite.h"

void
check_pots(const pottle_plan *plan, const double *pot, size_t pots)
{
    size_t n = 0;
    const double *got = pottle_plan_pots(plan, &n);
    ck_assert_uint_eq(n, pots);
    double sum = 0;
    for (size_t i = 0; i < pots; i++) {
        CHECK_NEAR(got[i], pot[i], "pot");
        sum += got[i];
    }
    CHECK_NEAR(pottle_plan_factor(plan), sum, "the pots add up to the factor");
}

/* Chile salsa, USDA guide 3: 5 lb tomatoes, 2 lb chile peppers, 1 lb onions, 1
 * cup vinegar, 3 tsp salt, 1/2 tsp pepper.
 *   tomatoes 7 lb / 5 lb = 1.4, onions 2 lb / 1 lb = 2, vinegar 5 cups / 1 cup = 5: the tomatoes decide, 1.4.
 *   chile peppers 2 lb * 1.4 = 2.8 lb; onions 1.4 lb, left 0.6 lb = 272.155 g; vinegar 1.4 cups, left 3.6 cups = 851.718 mL;
 *   salt 4.2 tsp; pepper 0.7 tsp. One batch a pot: 1 and 0.4. */
START_TEST(chile_salsa_is_decided_by_the_tomatoes)
{
    answer a = kitchen_plan(&(asked){
        .recipe = "chile-salsa",
        .have = { "7 lb tomatoes", "2 lb onions", "5 cups vinegar" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1.4, "factor");
    ck_assert_str_eq(pottle_plan_limit(a.plan), "have tomatoes");
    check_pots(a.plan, (double[]){ 1, 0.4 }, 2);
    CHECK_NEAR(line_of_food(a.plan, "tomato")->mass_g, 7 * POUND_G, "tomatoes");
    CHECK_NEAR(line_of_food(a.plan, "chile-pepper")->mass_g, 2.8 * POUND_G,
               "chile peppers");
    CHECK_NEAR(line_of_food(a.plan, "onion")->mass_g, 1.4 * POUND_G, "onions");
    CHECK_NEAR(line_of_food(a.plan, "vinegar")->volume_ml, 1.4 * CUP_ML,
               "vinegar");
    CHECK_NEAR(line_of_food(a.plan, "canning-salt")->volume_ml, 4.2 * TSP_ML,
               "salt");
    CHECK_NEAR(line_of_food(a.plan, "black-pepper")->volume_ml, 0.7 * TSP_ML,
               "pepper");
    CHECK_NEAR(line_in(a.plan, 0, "tomato")->mass_g, 5 * POUND_G,
               "tomatoes, pot 1");
    CHECK_NEAR(line_in(a.plan, 1, "tomato")->mass_g, 2 * POUND_G,
               "tomatoes, pot 2");
    CHECK_NEAR(line_in(a.plan, 1, "vinegar")->volume_ml, 0.4 * CUP_ML,
               "vinegar, pot 2");

    size_t rests = 0;
    pottle_plan_rests(a.plan, &rests);
    ck_assert_uint_eq(rests, 2);
    ck_assert(rest_of(a.plan, "tomato") == NULL);
    ck_assert_msg(fabs(rest_of(a.plan, "onion")->mass_g - 272.155) < 5e-4,
                  "onions left: %.4f g", rest_of(a.plan, "onion")->mass_g);
    ck_assert_msg(fabs(rest_of(a.plan, "vinegar")->volume_ml - 851.718) < 5e-4,
                  "vinegar left: %.4f mL",
                  rest_of(a.plan, "vinegar")->volume_ml);
    ck_assert(!has_warning(a.plan, "short-of-free"));
    answer_free(&a);
}
END_TEST

/* In any order, and in another measure: 7 lb is 3175.14659 g, 2 lb is 907.18474
 * g. */
START_TEST(the_order_and_the_unit_do_not_matter)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "chile-salsa",
                               .have = { "5 cups vinegar", "907.18474 g onions",
                                         "3175.14659 g tomatoes" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1.4, "factor");
    CHECK_NEAR(rest_of(a.plan, "onion")->mass_g, 0.6 * POUND_G, "onions left");
    answer_free(&a);
}
END_TEST

/* Berry jam without added pectin, USDA guide 7: 4 cups crushed berries, 4 cups
 * sugar; one batch a pot, never a part.
 *   10 cups / 4 = 2.5 batches: two pots of 1, and half a batch, 2 cups = 473.176 mL, stays in the basket.
 *   Sugar 8 cups; 200 g a cup (SR28 19335) is 1600 g. 2 cups of crushed berries at 232 g (yield study, mapping) are 464 g. */
START_TEST(berry_jam_goes_into_whole_pots)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin",
                               .have = { "10 cups crushed blackberries" } });
    check_pots(a.plan, (double[]){ 1, 1 }, 2);
    CHECK_NEAR(line_of_food(a.plan, "blackberry")->volume_ml, 8 * CUP_ML,
               "berries");
    CHECK_NEAR(line_of_food(a.plan, "sugar")->volume_ml, 8 * CUP_ML, "sugar");
    CHECK_NEAR(line_of_food(a.plan, "sugar")->mass_g, 1600, "sugar");
    CHECK_NEAR(rest_of(a.plan, "blackberry")->volume_ml, 2 * CUP_ML,
               "berries left");
    CHECK_NEAR(rest_of(a.plan, "blackberry")->mass_g, 464, "berries left");
    answer_free(&a);
}
END_TEST

/* Another berry in its place, as the table allows ("one kind of berry"): 8 cups
 * of raspberries are two pots of them. */
START_TEST(another_berry_stands_in_its_place)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin",
                               .have = { "8 cups crushed raspberries" } });
    check_pots(a.plan, (double[]){ 1, 1 }, 2);
    ck_assert_str_eq(line_in(a.plan, 0, NULL)->food, "raspberry");
    CHECK_NEAR(line_of_food(a.plan, "raspberry")->volume_ml, 8 * CUP_ML,
               "berries");
    size_t rests = 0;
    pottle_plan_rests(a.plan, &rests);
    ck_assert_uint_eq(rests, 0);
    answer_free(&a);
}
END_TEST

/* Jelly without added pectin, USDA guide 7: 4 cups juice, 3 cups sugar (3/4 cup
 * to each), 6 tsp lemon juice (1 1/2 tsp to each); no more than 6 cups of juice
 * in a pot, and no less than 1 cup is taken here, so 1/4 to 1 1/2 batches. */
static const struct {
    const char *have;
    size_t pots;
    double pot[3], sugar_cups, lemon_tsp, left_cups;
} jellies[] = {
    { "1 cup apple juice", 1, { 0.25 }, 0.75, 1.5, 0 },
    { "2 cups apple juice", 1, { 0.5 }, 1.5, 3, 0 },
    { "6 cups apple juice", 1, { 1.5 }, 4.5, 9, 0 },
    { "6 1/2 cups apple juice",
      1,
      { 1.5 },
      4.5,
      9,
      0.5 }, /* half a cup is under the least pot */
    { "7 cups apple juice", 2, { 1.5, 0.25 }, 5.25, 10.5, 0 },
    { "8 cups apple juice", 2, { 1.5, 0.5 }, 6, 12, 0 },
    { "13 cups apple juice", 3, { 1.5, 1.5, 0.25 }, 9.75, 19.5, 0 },
};
enum { JELLIES = sizeof jellies / sizeof jellies[0] };

START_TEST(jelly_is_made_in_parts_of_a_batch)
{
    answer a = kitchen_plan(&(asked){ .recipe = "apple-jelly-no-pectin",
                                      .have = { jellies[_i].have } });
    check_pots(a.plan, jellies[_i].pot, jellies[_i].pots);
    CHECK_NEAR(line_of_food(a.plan, "sugar")->volume_ml,
               jellies[_i].sugar_cups * CUP_ML, jellies[_i].have);
    CHECK_NEAR(line_of_food(a.plan, "bottled-lemon-juice")->volume_ml,
               jellies[_i].lemon_tsp * TSP_ML, jellies[_i].have);
    if (jellies[_i].left_cups > 0)
        CHECK_NEAR(rest_of(a.plan, "apple-juice")->volume_ml,
                   jellies[_i].left_cups * CUP_ML, jellies[_i].have);
    else
        ck_assert(rest_of(a.plan, "apple-juice") == NULL);
    answer_free(&a);
}
END_TEST

/* Crushed tomatoes, USDA guide 3: 22 lb for 7 quarts, so 14 quarts take 2 loads
 * of 22 lb = 44 lb; 2 tbsp of bottled lemon juice or 1/2 tsp of citric acid or
 * 4 tbsp of vinegar a quart, so 28 tbsp, 7 tsp, 56 tbsp; 7 quarts in a canner
 * (guide 1): 2 loads. */
START_TEST(fourteen_quarts_of_crushed_tomatoes)
{
    answer a = kitchen_plan(&(asked){ .recipe = "tomatoes-crushed",
                                      .fill = 14,
                                      .jar = "quart",
                                      .altitude = "900 m" });
    CHECK_NEAR(pottle_plan_factor(a.plan), 2, "factor");
    ck_assert_str_eq(pottle_plan_limit(a.plan), "fill");
    check_pots(a.plan, (double[]){ 1, 1 }, 2);
    CHECK_NEAR(line_of_food(a.plan, "tomato")->mass_g, 44 * POUND_G,
               "tomatoes");
    const pottle_jar_count *jars = pottle_plan_jars(a.plan);
    ck_assert_ptr_nonnull(jars);
    ck_assert_str_eq(jars->jar->id, "quart");
    ck_assert_uint_eq(jars->full, 14);
    CHECK_NEAR(jars->headspace.mm, 12.7, "headspace, printed 1/2 in");
    unsigned long per_load = 0;
    ck_assert_uint_eq(pottle_plan_loads(a.plan, &per_load), 2);
    ck_assert_uint_eq(per_load, 7);
    ck_assert_uint_eq(pottle_plan_loads(a.plan, NULL), 2);

    size_t doses = 0;
    const pottle_dose *dose = pottle_plan_doses(a.plan, &doses);
    static const struct {
        const char *food;
        double one, all;
        const char *unit;
    } expected[] = {
        { "bottled-lemon-juice", 2, 28, "tbsp" },
        { "citric-acid", 0.5, 7, "tsp" },
        { "vinegar", 4, 56, "tbsp" },
        { "canning-salt", 1, 14, "tsp" },
    };
    ck_assert_uint_eq(doses, 4);
    for (size_t i = 0; i < doses; i++) {
        ck_assert_str_eq(dose[i].food, expected[i].food);
        ck_assert_str_eq(dose[i].unit->id, expected[i].unit);
        CHECK_NEAR(dose[i].count, expected[i].one, dose[i].food);
        CHECK_NEAR(dose[i].total, expected[i].all, dose[i].food);
        ck_assert_str_eq(dose[i].taken_from->id, "quart");
    }
    /* 900 m is 2,953 ft, in 1,001 to 3,000 ft: quarts 50 minutes in boiling
     * water */
    size_t n = 0;
    const pottle_process *process = pottle_plan_processes(a.plan, &n);
    ck_assert_uint_gt(n, 0);
    ck_assert_int_eq(process[0].table->method, POTTLE_BOILING_WATER);
    ck_assert_int_eq(process[0].band->minutes, 50);
    answer_free(&a);
}
END_TEST

/* A dose for a size of its own; between the sizes acid takes the larger jar's:
 * 500 mL is more than a pint (473.2 mL), so it gets the quart's 2 tbsp. Salt is
 * only flavour and goes by volume: 500 / 946.353 of 1 tsp. A half-pint gets the
 * pint's 1 tbsp.
 */
static const struct {
    const char *jar;
    double lemon_tbsp;
    const char *from;
} doses_of[] = {
    { "pint", 1, "pint" },    { "quart", 2, "quart" },
    { "500-ml", 2, "quart" }, { "half-pint", 1, "pint" },
    { "12-oz", 1, "pint" },
};
enum { DOSES = sizeof doses_of / sizeof doses_of[0] };

START_TEST(acid_is_dosed_by_the_next_larger_jar)
{
    answer a = kitchen_plan(&(asked){
        .recipe = "tomatoes-crushed", .batches = 1, .jar = doses_of[_i].jar });
    size_t n = 0;
    const pottle_dose *dose = pottle_plan_doses(a.plan, &n);
    ck_assert_uint_eq(n, 4);
    ck_assert_str_eq(dose[0].food, "bottled-lemon-juice");
    CHECK_NEAR(dose[0].count, doses_of[_i].lemon_tbsp, doses_of[_i].jar);
    ck_assert_str_eq(dose[0].taken_from->id, doses_of[_i].from);
    /* printed for quarts alone */
    CHECK_NEAR(dose[3].count,
               kitchen_jar(doses_of[_i].jar)->nominal_ml / (4 * CUP_ML),
               "salt");
    answer_free(&a);
}
END_TEST

/* Apple pie filling, USDA guide 2, has two columns: 7 quarts 6 qt apples, 3/4
 * cup lemon juice; 1 quart 3 1/2 cups apples, 2 tbsp lemon juice. 3/4 cup / 7
 * is 1.714 tbsp: under the printed 2 tbsp, so the quart column wins for the
 * acid, that may rise. Water 2 1/2 cups / 7 = 5.714 tbsp and starch 1 1/2 cups
 * / 7 keep the proportion of the batch. */
START_TEST(a_quart_of_pie_filling_has_its_printed_lemon_juice)
{
    answer a = kitchen_plan(
        &(asked){ .recipe = "apple-pie-filling", .batches = 1.0 / 7 });
    const pottle_line *lemon = line_of_food(a.plan, "bottled-lemon-juice");
    CHECK_NEAR(lemon->volume_ml, 2 * TBSP_ML, "lemon juice");
    ck_assert(measured_amount(lemon) >= 2 * TBSP_ML * (1 - TINY));
    ck_assert(measured_amount(line_in(a.plan, 0, "bottled-lemon-juice")) >=
              2 * TBSP_ML * (1 - TINY));
    CHECK_NEAR(line_of_food(a.plan, "water")->volume_ml, 2.5 / 7 * CUP_ML,
               "water");
    CHECK_NEAR(line_of_food(a.plan, "modified-starch")->volume_ml,
               1.5 / 7 * CUP_ML, "starch");
    answer_free(&a);

    /* 8 quarts by the book: the column of 7 and the column of 1. 12 + 2 = 14
     * tbsp. */
    a = kitchen_plan(
        &(asked){ .recipe = "apple-pie-filling", .batches = 8.0 / 7 });
    check_pots(a.plan, (double[]){ 1, 1.0 / 7 }, 2);
    CHECK_NEAR(line_of_food(a.plan, "bottled-lemon-juice")->volume_ml,
               14 * TBSP_ML, "lemon juice");
    answer_free(&a);

    /* Between the columns the larger share, 2 tbsp a quart (rule pie-06): half
     * a batch 7 tbsp. */
    a = kitchen_plan(&(asked){ .recipe = "apple-pie-filling",
                               .have = { "3 qt sliced apples" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 0.5, "factor");
    CHECK_NEAR(line_of_food(a.plan, "bottled-lemon-juice")->volume_ml,
               7 * TBSP_ML, "lemon juice");
    answer_free(&a);
}
END_TEST

/* Where the acid decides, its printed column decides: 2 tbsp of lemon juice
 * make one quart, a seventh of the batch, and use all.
 */
START_TEST(lemon_juice_decides_by_its_printed_column)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "apple-pie-filling",
                               .have = { "2 tbsp bottled lemon juice" } });
    ck_assert_msg(line_of_food(a.plan, "bottled-lemon-juice")->volume_ml <=
                      2 * TBSP_ML * (1 + TINY),
                  "2 tbsp are there and the plan takes %.4f",
                  line_of_food(a.plan, "bottled-lemon-juice")->volume_ml /
                      TBSP_ML);
    CHECK_NEAR(pottle_plan_factor(a.plan), 1.0 / 7, "factor");
    answer_free(&a);
}
END_TEST

/* What is left of the acid is what is there less what goes in: 1 cup = 16 tbsp,
 * a quart takes 2, 14 are left. */
START_TEST(lemon_juice_left_over_knows_its_printed_column)
{
    answer a = kitchen_plan(&(asked){
        .recipe = "apple-pie-filling",
        .have = { "24/7 cups sliced apples", "1 cup bottled lemon juice" } });
    CHECK_NEAR(pottle_plan_factor(a.plan), 1.0 / 7, "factor");
    CHECK_NEAR(rest_of(a.plan, "bottled-lemon-juice")->volume_ml, 14 * TBSP_ML,
               "lemon juice left");
    answer_free(&a);
}
END_TEST

/* Stewed rhubarb, USDA guide 2: 10 1/2 lb as bought; 1/2 cup of sugar to each
 * quart of cut fruit.
 *   4.2 kg with the leaves on: 75 % stays (SR28 09307, refuse 25 %) = 3150 g cut. Of rhubarb as bought 95 % stays (practice), so
 * this is 3150 / 0.95 = 3315.789 g as bought; / (10.5 lb = 4762.71989 g) =
 * 0.696197 batches. Cut at 122 g a cup (SR28 09307): 3150 / 122 = 25.8197 cups
 * = 6.45492 qt; sugar 3.227459 cups. */
START_TEST(rhubarb_as_picked)
{
    answer a = kitchen_plan(&(asked){ .recipe = "rhubarb-stewed",
                                      .have = { "4.2 kg rhubarb as picked" },
                                      .jar = "pint",
                                      .altitude = "1900 m" });
    ck_assert_msg(within(pottle_plan_factor(a.plan), 0.696197, 1e-6),
                  "factor %.8f", pottle_plan_factor(a.plan));
    ck_assert_msg(
        within(line_of_food(a.plan, "rhubarb")->mass_g, 3315.789, 1e-6),
        "rhubarb %.6f", line_of_food(a.plan, "rhubarb")->mass_g);
    ck_assert_msg(within(line_of_food(a.plan, "sugar")->volume_ml,
                         3.227459 * CUP_ML, 1e-6),
                  "sugar %.6f cups",
                  line_of_food(a.plan, "sugar")->volume_ml / CUP_ML);
    ck_assert_str_eq(pottle_plan_jars(a.plan)->jar->id, "pint");
    /* 1900 m is 6,234 ft, in 6,001 and up: 25 minutes */
    size_t n = 0;
    const pottle_process *process = pottle_plan_processes(a.plan, &n);
    ck_assert_uint_gt(n, 0);
    ck_assert_int_eq(process[0].band->minutes, 25);
    /* a word on the leaves, once, and on the yield that cannot be */
    size_t told = 0;
    const pottle_warning *warning = pottle_plan_warnings(a.plan, &n);
    for (size_t i = 0; i < n; i++)
        told += strstr(warning[i].text, "poison") != NULL;
    ck_assert_uint_eq(told, 1);
    ck_assert(has_warning(a.plan, "yield-impossible"));
    ck_assert(!has_warning(a.plan, "altitude"));
    answer_free(&a);
}
END_TEST

/* The same rhubarb said as bought: 4.2 kg / 4762.71989 g = 0.881849. */
START_TEST(rhubarb_as_bought)
{
    answer a = kitchen_plan(&(asked){ .recipe = "rhubarb-stewed",
                                      .have = { "4.2 kg rhubarb as bought" } });
    ck_assert_msg(within(pottle_plan_factor(a.plan), 0.881849, 1e-6),
                  "factor %.8f", pottle_plan_factor(a.plan));
    answer_free(&a);
}
END_TEST

START_TEST(batches_multiply_the_whole)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "chile-salsa", .batches = 0.25 });
    ck_assert_str_eq(pottle_plan_limit(a.plan), "batches");
    check_pots(a.plan, (double[]){ 0.25 }, 1);
    CHECK_NEAR(line_of_food(a.plan, "tomato")->mass_g, 1.25 * POUND_G,
               "tomatoes");
    CHECK_NEAR(line_of_food(a.plan, "vinegar")->volume_ml, 0.25 * CUP_ML,
               "vinegar");
    answer_free(&a);
    a = kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin", .batches = 3 });
    check_pots(a.plan, (double[]){ 1, 1, 1 }, 3);
    CHECK_NEAR(line_of_food(a.plan, "sugar")->volume_ml, 12 * CUP_ML, "sugar");
    answer_free(&a);
}
END_TEST

/* Jars of a jam: as few whole batches as are expected to fill them. */
START_TEST(jars_of_a_jam_take_whole_batches)
{
    answer one =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin", .batches = 1 });
    const double a_batch = pottle_plan_jars(one.plan)->count.median;
    for (int jars = 1; jars <= 20; jars++) {
        answer a = kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin",
                                          .fill = jars,
                                          .jar = "half-pint" });
        const double factor = pottle_plan_factor(a.plan);
        ck_assert_msg(fabs(factor - floor(factor + 0.5)) < TINY,
                      "%d jars: %g batches", jars, factor);
        ck_assert_msg(factor * a_batch >= jars * (1 - TINY) &&
                          (factor - 1) * a_batch < jars,
                      "%d jars of %g a batch: %g batches", jars, a_batch,
                      factor);
        answer_free(&a);
    }
    answer_free(&one);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("scale");
    TCase *tcase = tcase_create("how much is made");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_test(tcase, chile_salsa_is_decided_by_the_tomatoes);
    tcase_add_test(tcase, the_order_and_the_unit_do_not_matter);
    tcase_add_test(tcase, berry_jam_goes_into_whole_pots);
    tcase_add_test(tcase, another_berry_stands_in_its_place);
    tcase_add_loop_test(tcase, jelly_is_made_in_parts_of_a_batch, 0, JELLIES);
    tcase_add_test(tcase, fourteen_quarts_of_crushed_tomatoes);
    tcase_add_loop_test(tcase, acid_is_dosed_by_the_next_larger_jar, 0, DOSES);
    tcase_add_test(tcase, a_quart_of_pie_filling_has_its_printed_lemon_juice);
    tcase_add_test(tcase, lemon_juice_decides_by_its_printed_column);
    tcase_add_test(tcase, lemon_juice_left_over_knows_its_printed_column);
    tcase_add_test(tcase, rhubarb_as_picked);
    tcase_add_test(tcase, rhubarb_as_bought);
    tcase_add_test(tcase, batches_multiply_the_whole);
    tcase_add_test(tcase, jars_of_a_jam_take_whole_batches);
    suite_add_tcase(suite, tcase);
    suite_add_tcase(suite, scale_places());
    suite_add_tcase(suite, scale_totals());
    suite_add_tcase(suite, scale_mixes());
    suite_add_tcase(suite, scale_refusals());
    suite_add_tcase(suite, scale_senseless());
    suite_add_tcase(suite, scale_holdings());
    suite_add_tcase(suite, scale_made());
    suite_add_tcase(suite, scale_batches());
    suite_add_tcase(suite, scale_edges());
    suite_add_tcase(suite, scale_raw());
    return suite_run(suite);
}
