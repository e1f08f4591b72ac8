/* balance_sums.c - test_balance: worked examples of boiling down. */
#include <config.h>

#include <math.h>

#include "balance_cases.h"

/* What goes in (mass, solids), the share of solids at the end, and what the
 * source prints for the product and the water that is boiled off; 0 where it
 * prints none. scale: what is printed is for so much of the product. tolerance:
 * half of the last printed digit. */
static const struct {
    double mass, solids, end, made, made_within, evaporated, evaporated_within;
    const char *source;
} example[] = {
    /* fruit:sugar 45:55, fruit 15 % solids, product one third water: 0.486 lb
       of berries for a pound, so a pound of berries makes 1 / 0.486 = 2.058 lb
     */
    { 1 + 55 / 45.0, 0.15 + 55 / 45.0, 2 / 3.0, 1 / 0.486, 0.0022, 0, 0,
      "strawberry jam, chemical engineering textbook, answer in a university's "
      "slides" },
    /* 100 kg of preserve from 49.16 kg of fruit at 10 %, 60.08 of sugar, 0.60
       of pectin: 9.84 kg of water; recomputed, its printed answer was not seen
     */
    { 49.16 + 60.08 + 0.60, 4.916 + 60.08, 0.65, 100, 0.01, 9.84, 0.011,
      "preserve of 65 %, food process engineering textbook, example 3.21" },
    /* 10 kg fruit at 10 %, 10 kg sugar, 60 g pectin, 55 g acid: solids 11.115
       kg to 68 %. The source rounds 16.346 up to 16.4 */
    { 20.115, 11.115, 0.68, 16.4, 0.055, 3.77, 0.005,
      "jam 50:50, technical brief, recipe 1" },
    /* pulp 20.41 kg with 12.3 % of solids, sugar 32.123, pectin 0.23, acid
       0.137: 35 kg of solids make 50 kg at 70 % */
    { 20.41 + 32.123 + 0.23 + 0.137, 20.41 * 0.123 + 32.123 + 0.23 + 0.137,
      0.70, 50, 0.005, 0, 0, "mango jam, university practical manual" },
    { 400, 48, 0.48, 100, 0.5, 300, 0.5,
      "orange concentrate 12 to 48 %, university slides" },
    { 1 + 55 / 45.0, 0.10 + 55 / 45.0, 0.60, 0, 0, 0.0185, 0.00005,
      "raspberry jam, 1 kg at 10 %, product 40 % water, homework site" },
    { 1, 0.12, 0.42, 0, 0, 0.714, 0.0005,
      "orange juice 12 to 42 %, university exercise, recomputed" },
    { 0.67, 0.67 * 0.11, 0.75, 0.098, 0.0005, 0.572, 0.0005,
      "apple juice 11 to 75 %, food engineering textbook, recomputed" },
    { 7, 0.7, 0.5, 1.4, 0.05, 5.6, 0.05,
      "apple juice 10 to 50 %, textbook-type problem, recomputed" },
    { 1000, 50, 0.10, 500, 0.5, 500, 0.5,
      "orange juice 5 to 10 % before sugar, food engineering textbook, printed "
      "answer" },
    /* 1 part of concentrate and 3 of water make juice of 10 %: boiled back, 4
       parts make 1 */
    { 4, 0.4, 0.40, 1, 0.005, 3, 0.005,
      "dilution of a 40 % concentrate, textbook problem, recomputed" },
    /* 1.5 kg apricots at 13.6 % (SR26), 1.5 kg sugar, 0.3 L water: 2.4 kg of
       jam, so 1.704 / 2.4 = 71 % */
    { 3.3, 1.5 * 0.136 + 1.5, 0.71, 2.4, 0.05, 0.9, 0.05,
      "apricot jam, technical brief" },
};
enum { EXAMPLES = sizeof example / sizeof example[0] };

START_TEST(worked_example)
{
    double made = -1, evaporated = -1;
    ck_assert_int_eq(pottle_boil_down(example[_i].mass, example[_i].solids,
                                      example[_i].end, &made, &evaporated),
                     POTTLE_OK);
    if (example[_i].made > 0)
        ck_assert_msg(fabs(made - example[_i].made) <= example[_i].made_within,
                      "%s: %.4f made, found %.4f", example[_i].source,
                      example[_i].made, made);
    if (example[_i].evaporated > 0)
        ck_assert_msg(fabs(evaporated - example[_i].evaporated) <=
                          example[_i].evaporated_within,
                      "%s: %.4f boiled off, found %.4f", example[_i].source,
                      example[_i].evaporated, evaporated);
    ck_assert_double_eq_tol(made + evaporated, example[_i].mass,
                            1e-9 * example[_i].mass);
}
END_TEST

/* The same sum with other parts: what stays is not the sugar.
 *
 * Sugar that crystallises: 100 kg raw sugar of 95 % sucrose, 3 % water and 2 %
 * that stays out of the sum, in 30 kg of hot water, cooled to 20 deg C, where a
 * saturated solution is 67 % sucrose. Water stays: 33 kg are 33 % of the
 * solution. Food process engineering textbook, recomputed: 67.0 kg of sucrose
 * in solution, 28.0 kg of crystals. */
START_TEST(sugar_crystallises)
{
    double solution = 0, crystals = 0;
    ck_assert_int_eq(
        pottle_boil_down(95 + 33, 33, 1 - 0.67, &solution, &crystals),
        POTTLE_OK);
    ck_assert_msg(fabs(0.67 * solution - 67.0) <= 0.05,
                  "textbook: 67.0 kg in solution, found %.4f", 0.67 * solution);
    ck_assert_msg(fabs(crystals - 28.0) <= 0.05,
                  "textbook: 28.0 kg of crystals, found %.4f", crystals);
}
END_TEST

/* Juice that is boiled down and then sweetened: 1000 kg from 5 to 10 %, then
 * sugar until that is 2 % of the product. The juice stays: it is 98 %. Of a
 * sack of 50 kg the rest is left. Food engineering textbook, printed answer:
 * 500 kg of water and 10.2 kg of sugar. */
START_TEST(sugar_is_added)
{
    double juice = 0, water = 0, product = 0, left = 0;
    ck_assert_int_eq(pottle_boil_down(1000, 50, 0.10, &juice, &water),
                     POTTLE_OK);
    ck_assert_msg(fabs(water - 500) <= 0.5,
                  "textbook: 500 kg of water, found %.4f", water);
    ck_assert_int_eq(
        pottle_boil_down(juice + 50, juice, 1 - 0.02, &product, &left),
        POTTLE_OK);
    ck_assert_msg(fabs(product - juice - 10.2) <= 0.05 &&
                      fabs(50 - left - 10.2) <= 0.05,
                  "textbook: 10.2 kg of sugar, found %.4f and %.4f",
                  product - juice, 50 - left);
}
END_TEST

/* A rule of maple makers, read in a state sheet: 43 gallons of sap of 2 % make
 * a gallon of syrup of 66 Brix. Sap of 1.006 kg/L (same row): 43 gal x 3.7854 L
 * x 1.006 = 163.75 kg. The rule is a whole number of gallons: half a gallon in
 * 43 either way. */
START_TEST(maple_rule)
{
    double made = 0, evaporated = 0;
    pottle_density syrup = { 0 };
    ck_assert_int_eq(
        pottle_boil_down(163.75, 0.02 * 163.75, 0.66, &made, &evaporated),
        POTTLE_OK);
    ck_assert_int_eq(pottle_sugar_density(66, &syrup), POTTLE_OK);
    const double gallons = made / syrup.g_ml / 3.785411784;
    ck_assert_msg(
        within(gallons, 1, 0.5 / 43),
        "rule of 86, 43 gallons of sap: 1 gallon of syrup; found %.4f",
        gallons);
}
END_TEST

START_TEST(boil_down_is_refused)
{
    static const double bad[][3] = { { -1, 0, 0.5 },
                                     { 1, -0.1, 0.5 },
                                     { 1, 1, 0.5 },
                                     { 1, 2, 0.5 },
                                     { 1, 0.5, 0 },
                                     { 1, 0.5, 1.01 },
                                     { 1, 0.5, 0.4 },
                                     { 1, 0, 0.5 },
                                     { (double)NAN, 0.1, 0.5 },
                                     { 1, (double)NAN, 0.5 },
                                     { 1, 0.1, (double)NAN },
                                     { HUGE_VAL, 1, 0.5 } };
    double made = 77, evaporated = 78;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_msg(pottle_boil_down(bad[i][0], bad[i][1], bad[i][2], &made,
                                       &evaporated) == POTTLE_EDOMAIN,
                      "case %zu", i);
        ck_assert(made > 76.9 && made < 77.1 && evaporated > 77.9 &&
                  evaporated < 78.1);
    }
    ck_assert_int_eq(pottle_boil_down(1, 0.5, 0.6, NULL, &evaporated),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_boil_down(1, 0.5, 0.6, &made, NULL),
                     POTTLE_EMISUSE);
}
END_TEST

TCase *
balance_sums(void)
{
    TCase *t = tcase_create("sums");
    tcase_add_loop_test(t, worked_example, 0, EXAMPLES);
    tcase_add_test(t, sugar_crystallises);
    tcase_add_test(t, sugar_is_added);
    tcase_add_test(t, maple_rule);
    tcase_add_test(t, boil_down_is_refused);
    return t;
}
