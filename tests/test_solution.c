/* test_solution.c - syrups, against published tables and arithmetic by hand. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "solution_cases.h"
#include "suite.h"

static const pottle_syrup *
syrup_of(const char *name)
{
    const pottle_syrup *s = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_syrup_find(kitchen, name, &s, &error) == POTTLE_OK,
                  "%s: %s", name, error.what);
    return s;
}

pottle_jar_number
jars_of(const char *jar, double count)
{
    return (pottle_jar_number){ kitchen_jar(jar), count };
}

/* -- Syrup by class -------------------------------------------------------- */

/* The guide's table, cups for 9 pints and 7 quarts, and by hand what it makes:
 * water g = cups x 236.588 x 0.9982067, sugar g = cups x 200, percent = sugar /
 * (water + sugar), density from the CRC table in a straight line between its
 * lines (18 %: 1.0722, 19 %: 1.0766, so 18.09 %: 1.0726), volume = mass /
 * density. */
#define GUIDE                                                                  \
    "USDA Complete Guide, guide 2, Preparing and using syrups, table 1"
static const struct {
    const char *class_, *jar;
    double jars, water, sugar, nominal, brix, ml;
    const char *water_text, *sugar_text;
} loads[] = {
    { "very light", "pint", 9, 6.5, 0.75, 10, 8.90, 1630.3, "6 1/2 cups",
      "3/4 cup" },
    { "very light", "quart", 7, 10.5, 1.25, 10, 9.16, 2638.3, "10 1/2 cups",
      "1 1/4 cups" },
    { "light", "pint", 9, 5.75, 1.5, 20, 18.09, 1545.7, "5 3/4 cups",
      "1 1/2 cups" },
    { "light", "quart", 7, 9, 2.25, 20, 17.47, 2407.3, "9 cups", "2 1/4 cups" },
    { "medium", "pint", 9, 5.25, 2.25, 30, 26.63, 1520.9, "5 1/4 cups",
      "2 1/4 cups" },
    { "medium", "quart", 7, 8.25, 3.75, 30, 27.79, 2416.7, "8 1/4 cups",
      "3 3/4 cups" },
    { "heavy", "pint", 9, 5, 3.25, 40, 35.50, 1586.8, "5 cups", "3 1/4 cups" },
    { "heavy", "quart", 7, 7.75, 5.25, 40, 36.45, 2486.2, "7 3/4 cups",
      "5 1/4 cups" },
    { "very heavy", "pint", 9, 4.25, 4.25, 50, 45.85, 1535.6, "4 1/4 cups",
      "4 1/4 cups" },
    { "very heavy", "quart", 7, 6.5, 6.75, 50, 46.79, 2380.1, "6 1/2 cups",
      "6 3/4 cups" },
};

START_TEST(published_loads)
{
    const pottle_jar_number n = jars_of(loads[_i].jar, loads[_i].jars);
    pottle_syrup_mix m;
    pottle_error error = { .line = -7 };
    char text[100];
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, syrup_of(loads[_i].class_),
                                           &n, 1, &m, &error),
                     POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    ck_assert_msg(within(m.water_ml, loads[_i].water * CUP_ML, TINY),
                  "%s: %.4f cups of water, wanted %g (%s)", loads[_i].class_,
                  m.water_ml / CUP_ML, loads[_i].water, GUIDE);
    ck_assert_msg(within(m.sugar_ml, loads[_i].sugar * CUP_ML, TINY),
                  "%s: %.4f cups of sugar, wanted %g (%s)", loads[_i].class_,
                  m.sugar_ml / CUP_ML, loads[_i].sugar, GUIDE);
    ck_assert(m.has_water && m.has_sugar && !m.derived);
    pottle_measure_write(&m.water, text, sizeof text);
    ck_assert_msg(strcmp(text, loads[_i].water_text) == 0,
                  "%s: water '%s', printed '%s' (%s)", loads[_i].class_, text,
                  loads[_i].water_text, GUIDE);
    pottle_measure_write(&m.sugar, text, sizeof text);
    ck_assert_msg(strcmp(text, loads[_i].sugar_text) == 0,
                  "%s: sugar '%s', printed '%s' (%s)", loads[_i].class_, text,
                  loads[_i].sugar_text, GUIDE);
    ck_assert(within(m.water_g, loads[_i].water * CUP_ML * WATER_G_ML, 1e-7) &&
              within(m.sugar_g, loads[_i].sugar * SUGAR_G_CUP, TINY));
    ck_assert_msg(fabs(m.brix - loads[_i].brix) <= 0.005,
                  "%s: %.4f percent, by hand %.2f", loads[_i].class_, m.brix,
                  loads[_i].brix);
    /* density to 0.0001 and percent to 0.005 by hand: 2 mL in 2 L */
    ck_assert_msg(fabs(m.volume_ml - loads[_i].ml) <= loads[_i].ml * 2e-4,
                  "%s: %.2f mL, by hand %.1f", loads[_i].class_, m.volume_ml,
                  loads[_i].ml);
    ck_assert_msg(within(m.nominal, loads[_i].nominal, TINY) &&
                      m.brix < m.nominal,
                  "%s: labelled %g (%s)", loads[_i].class_, m.nominal, GUIDE);
    ck_assert_ptr_eq(m.syrup, syrup_of(loads[_i].class_));
}
END_TEST

/* Asked by its true strength and volume, as worked out by hand, each line of
 * the table comes back within its rounding to a quarter cup: half of that
 * either way. */
START_TEST(published_loads_by_strength)
{
    pottle_syrup_mix m;
    ck_assert_int_eq(pottle_syrup_of_brix(kitchen, loads[_i].brix,
                                          (pottle_volume){ loads[_i].ml }, &m,
                                          NULL),
                     POTTLE_OK);
    ck_assert_msg(fabs(m.water_ml / CUP_ML - loads[_i].water) <= 0.125,
                  "%s: %.3f cups of water, printed %g (%s)", loads[_i].class_,
                  m.water_ml / CUP_ML, loads[_i].water, GUIDE);
    ck_assert_msg(fabs(m.sugar_ml / CUP_ML - loads[_i].sugar) <= 0.125,
                  "%s: %.3f cups of sugar, printed %g (%s)", loads[_i].class_,
                  m.sugar_ml / CUP_ML, loads[_i].sugar, GUIDE);
    ck_assert_ptr_null(m.syrup);
    ck_assert(!(m.nominal > 0) && within(m.volume_ml, loads[_i].ml, 1e-7) &&
              within(m.brix, loads[_i].brix, 1e-9));
}
END_TEST

/* 18 pints are two loads; 4 1/2 are half of one; 9 pints and 7 quarts are both
 * lines together. A size without a line takes its share of the nearest by
 * volume: 9 half-pints half of 9 pints; a 500-mL jar 500/473.176 of a pint; a
 * litre 1000/946.353 of a quart. */
static const struct {
    const char *class_;
    struct {
        const char *jar;
        double count;
    } jar[3];
    size_t sizes;
    double water, sugar;
    bool derived;
    const char *how;
} mixed[] = {
    { "medium",
      { { "pint", 18 } },
      1,
      10.5,
      4.5,
      false,
      "2 x 5 1/4, 2 x 2 1/4" },
    { "medium",
      { { "pint", 4.5 } },
      1,
      2.625,
      1.125,
      false,
      "5 1/4 / 2, 2 1/4 / 2" },
    { "medium",
      { { "pint", 14 } },
      1,
      5.25 * 14 / 9,
      2.25 * 14 / 9,
      false,
      "14/9 of the load" },
    { "heavy",
      { { "pint", 9 }, { "quart", 7 } },
      2,
      12.75,
      8.5,
      false,
      "5 + 7 3/4, 3 1/4 + 5 1/4" },
    { "light",
      { { "half-pint", 9 } },
      1,
      2.875,
      0.75,
      true,
      "half of 5 3/4 and 1 1/2" },
    { "light",
      { { "500-ml", 9 } },
      1,
      5.75 * 500 / 473.176473,
      1.5 * 500 / 473.176473,
      true,
      "500/473.176473 of the load" },
    { "light",
      { { "1-l", 7 }, { "pint", 9 } },
      2,
      9 * 1000 / 946.352946 + 5.75,
      2.25 * 1000 / 946.352946 + 1.5,
      true,
      "1000/946.352946 of the quarts' load, and 9 pints" },
};

START_TEST(mixed_jars_by_class)
{
    pottle_jar_number n[3];
    pottle_syrup_mix m;
    for (size_t i = 0; i < mixed[_i].sizes; i++)
        n[i] = jars_of(mixed[_i].jar[i].jar, mixed[_i].jar[i].count);
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, syrup_of(mixed[_i].class_),
                                           n, mixed[_i].sizes, &m, NULL),
                     POTTLE_OK);
    ck_assert_msg(within(m.water_ml, mixed[_i].water * CUP_ML, TINY),
                  "water %.6f cups, by hand %.6f: %s", m.water_ml / CUP_ML,
                  mixed[_i].water, mixed[_i].how);
    ck_assert_msg(within(m.sugar_ml, mixed[_i].sugar * CUP_ML, TINY),
                  "sugar %.6f cups, by hand %.6f: %s", m.sugar_ml / CUP_ML,
                  mixed[_i].sugar, mixed[_i].how);
    ck_assert(m.derived == mixed[_i].derived);
}
END_TEST

/* The mean of both lines, medium 13 1/2 cups of water to 6 of sugar, whatever
 * the volume. */
START_TEST(class_by_volume)
{
    const double ml = 50.0 * pow(1.35, _i);
    pottle_syrup_mix m;
    ck_assert_int_eq(pottle_syrup_of_class(kitchen, syrup_of("medium"),
                                           (pottle_volume){ ml }, &m, NULL),
                     POTTLE_OK);
    CHECK_NEAR(m.volume_ml, ml, "medium syrup, volume asked for");
    CHECK_NEAR(m.water_ml / m.sugar_ml, 13.5 / 6,
               "medium syrup, 5 1/4 + 8 1/4 cups to 2 1/4 + 3 3/4 (" GUIDE ")");
}
END_TEST

/* The freezing syrups: 4 cups of water and so much sugar make so many cups,
 * printed to a quarter cup or a third (heavy). What they make by mass balance
 * is the printed yield within a quarter cup, and their labels are nominal: 350
 * g in 944.67 + 350 g are 27.03 percent. */
static const struct {
    double sugar, yield, label, brix;
} freezing[] = {
    { 0.5, 4.5, 10, 9.57 }, { 1, 4.75, 20, 17.47 },
    { 1.75, 5, 30, 27.03 }, { 2.75, 16.0 / 3, 40, 36.80 },
    { 4, 6, 50, 45.85 },
};

START_TEST(freezing_syrups)
{
    static const char source[] = "national centre, Syrups for use in freezing "
                                 "fruits, after So Easy to Preserve, 5th ed.";
    const double water_g = 4 * CUP_ML * WATER_G_ML,
                 sugar_g = freezing[_i].sugar * SUGAR_G_CUP,
                 brix = 100 * sugar_g / (water_g + sugar_g);
    ck_assert_msg(fabs(brix - freezing[_i].brix) <= 0.005 &&
                      brix < freezing[_i].label,
                  "by hand %.4f, noted %.2f", brix, freezing[_i].brix);
    pottle_syrup_mix one;
    ck_assert_int_eq(pottle_syrup_of_brix(kitchen, freezing[_i].brix,
                                          (pottle_volume){ CUP_ML }, &one,
                                          NULL),
                     POTTLE_OK);
    /* as many cups as hold the 4 of water */
    const double cups = 4 * CUP_ML / one.water_ml;
    ck_assert_msg(fabs(cups - freezing[_i].yield) <= 0.25,
                  "%g cups of sugar: %.3f cups, printed %.2f (%s)",
                  freezing[_i].sugar, cups, freezing[_i].yield, source);
}
END_TEST

/* Any strength and volume: masses add up, their ratio is the strength, their
 * volume by the density of sugar solutions is what was asked. */
START_TEST(balance_of_a_syrup)
{
    const double brix = 0.01 + 63.99 * fmod(_i * 0.6180339887, 1.0),
                 ml = pow(10, 1 + 4 * fmod(_i * 0.7548776662, 1.0));
    pottle_syrup_mix m;
    pottle_density d;
    ck_assert_int_eq(
        pottle_syrup_of_brix(kitchen, brix, (pottle_volume){ ml }, &m, NULL),
        POTTLE_OK);
    ck_assert_int_eq(pottle_sugar_density(brix, &d), POTTLE_OK);
    CHECK_NEAR(100 * m.sugar_g / (m.sugar_g + m.water_g), brix,
               "sugar over all");
    CHECK_NEAR(m.sugar_g + m.water_g, ml * d.g_ml, "mass of the volume");
    ck_assert_msg(within(m.volume_ml, ml, 1e-9), "%g percent, %g mL: %.12g",
                  brix, ml, m.volume_ml);
    ck_assert(within(m.water_g / m.water_ml, WATER_G_ML, 1e-7) &&
              within(m.sugar_g / m.sugar_ml, SUGAR_G_CUP / CUP_ML, TINY));
}
END_TEST

/* What a jar takes, from the lines of the table worked out above: pints 0.714
 * (medium) to 0.766 cups (very light), quarts 1.437 (very heavy) to 1.593 (very
 * light). A survey of preservers' questions has 0.72-0.77 and 1.4-1.6. */
static const struct {
    const char *jar;
    double count, low, high, within;
    const char *how;
} needs[] = {
    { "pint", 9, 9 * 0.7143, 9 * 0.7657, 0.004,
      "1520.9 and 1630.3 mL, by hand" },
    { "quart", 7, 7 * 1.4372, 7 * 1.5931, 0.006,
      "2380.1 and 2638.3 mL, by hand" },
    { "pint", 1, 0.72, 0.77, 0.01, "survey of preservers' questions, row 12" },
    { "quart", 1, 1.4, 1.6, 0.05, "survey of preservers' questions, row 12" },
};

START_TEST(need_of_the_jars)
{
    const pottle_jar_number n = jars_of(needs[_i].jar, needs[_i].count);
    pottle_estimate need;
    ck_assert_int_eq(pottle_syrup_need(kitchen, &n, 1, &need, NULL), POTTLE_OK);
    const pottle_interval i = pottle_estimate_interval(need);
    ck_assert_msg(
        fabs(i.low / CUP_ML - needs[_i].low) <= needs[_i].within &&
            fabs(i.high / CUP_ML - needs[_i].high) <= needs[_i].within,
        "%g %s: %.4f to %.4f cups, wanted %.4f to %.4f (%s)", needs[_i].count,
        needs[_i].jar, i.low / CUP_ML, i.high / CUP_ML, needs[_i].low,
        needs[_i].high, needs[_i].how);
}
END_TEST

START_TEST(syrup_refusals)
{
    pottle_jar_number n[POTTLE_JAR_NUMBERS_MAX + 1];
    for (size_t i = 0; i < COUNT(n); i++)
        n[i] = jars_of("pint", 1);
    pottle_syrup_mix m = { .brix = -3 };
    pottle_estimate need = { -3, 0 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_syrup *s = syrup_of("light");
    static const double wrong[] = { 0, -1, 1000001, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(wrong); i++) {
        n[1].count = wrong[i];
        ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, n, 2, &m, &error),
                         POTTLE_EDOMAIN);
        ck_assert_int_eq(pottle_syrup_need(kitchen, n, 2, &need, &error),
                         POTTLE_EDOMAIN);
    }
    /* no fruit has a process in them: Penn State, half-gallon jars */
    n[1] = jars_of("half-gallon", 1);
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, n, 2, &m, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "jar-larger");
    ck_assert_str_eq(error.source, "penn-state-ext");
    ck_assert_int_eq(pottle_syrup_need(kitchen, n, 2, &need, &error),
                     POTTLE_EBOUNDS);
    n[1] = jars_of("pint", 1);
    static const double volumes[] = { 0, -1, 1e10, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(volumes); i++) {
        ck_assert_int_eq(pottle_syrup_of_class(kitchen, s,
                                               (pottle_volume){ volumes[i] },
                                               &m, &error),
                         POTTLE_EDOMAIN);
        ck_assert_int_eq(pottle_syrup_of_brix(kitchen, 20,
                                              (pottle_volume){ volumes[i] }, &m,
                                              &error),
                         POTTLE_EDOMAIN);
    }
    /* 64.18 percent is what stays dissolved at 0 deg C */
    static const double strengths[] = { 0,   -1,       64.001,
                                        100, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(strengths); i++)
        ck_assert_int_eq(pottle_syrup_of_brix(kitchen, strengths[i],
                                              (pottle_volume){ 500 }, &m,
                                              &error),
                         POTTLE_EDOMAIN);
    n[1].count = 1;
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, n, COUNT(n), &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, n, 0, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, NULL, 1, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, NULL, n, 1, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_for_jars(NULL, s, n, 1, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, n, 1, NULL, &error),
                     POTTLE_EMISUSE);
    n[0].jar = NULL;
    ck_assert_int_eq(pottle_syrup_for_jars(kitchen, s, n, 1, &m, &error),
                     POTTLE_EMISUSE);
    n[0] = n[1];
    ck_assert_int_eq(
        pottle_syrup_of_class(NULL, s, (pottle_volume){ 1 }, &m, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_syrup_of_class(kitchen, NULL, (pottle_volume){ 1 }, &m, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_syrup_of_class(kitchen, s, (pottle_volume){ 1 }, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_syrup_of_brix(NULL, 20, (pottle_volume){ 1 }, &m, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_syrup_of_brix(kitchen, 20, (pottle_volume){ 1 }, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_need(NULL, n, 1, &need, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_need(kitchen, n, 1, NULL, &error),
                     POTTLE_EMISUSE);
    pottle_catalogue *without =
        kitchen_catalogue(POTTLE_WITH_ALL & ~(unsigned)POTTLE_WITH_SYRUPS);
    ck_assert_int_eq(pottle_syrup_need(without, n, 1, &need, &error),
                     POTTLE_EMISUSE);
    pottle_catalogue_free(without);
    const pottle_syrup *kept = s;
    ck_assert_int_eq(pottle_syrup_find(kitchen, "treacle", &kept, &error),
                     POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "very-light") != NULL &&
                      strstr(error.what, "heavy") != NULL,
                  "%s", error.what);
    ck_assert_int_eq(pottle_syrup_find(NULL, "light", &kept, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_find(kitchen, NULL, &kept, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_syrup_find(kitchen, "light", NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_ptr_eq(kept, s);
    ck_assert(m.brix < 0 && need.median < 0);
    ck_assert_ptr_eq(syrup_of("syrup-very-heavy"),
                     syrup_of("Very Heavy Syrup"));
    ck_assert_ptr_eq(syrup_of("syrup-very-heavy"), syrup_of("very heavy"));
}
END_TEST

/* -- Suite ----------------------------------------------------------------- */

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("solution");
    TCase *syrup = tcase_create("syrup");
    tcase_add_checked_fixture(syrup, kitchen_open, kitchen_close);
    tcase_add_loop_test(syrup, published_loads, 0, (int)COUNT(loads));
    tcase_add_loop_test(syrup, published_loads_by_strength, 0,
                        (int)COUNT(loads));
    tcase_add_loop_test(syrup, mixed_jars_by_class, 0, (int)COUNT(mixed));
    tcase_add_loop_test(syrup, class_by_volume, 0, 24);
    tcase_add_loop_test(syrup, freezing_syrups, 0, (int)COUNT(freezing));
    tcase_add_loop_test(syrup, balance_of_a_syrup, 0, 200);
    tcase_add_loop_test(syrup, need_of_the_jars, 0, (int)COUNT(needs));
    tcase_add_test(syrup, syrup_refusals);
    suite_add_tcase(suite, syrup);
    suite_add_tcase(suite, solution_brine());
    suite_add_tcase(suite, solution_acid());
    suite_add_tcase(suite, solution_juice());
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
