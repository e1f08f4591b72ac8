/* test_solution.c - syrups, brines, acid in the jars, vinegar, juice: against
 * published tables and arithmetic by hand. */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/solution.h"
#include "kitchen_help.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* Density of water at 20 deg C: Tanaka et al. 2001, table (g/mL). Sugar weighs
 * 200 g a cup: USDA SR28 19335. */
#define WATER_G_ML 0.9982067
#define SUGAR_G_CUP 200.0

static const pottle_syrup *
syrup_of(const char *name)
{
    const pottle_syrup *s = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_syrup_find(kitchen, name, &s, &error) == POTTLE_OK,
                  "%s: %s", name, error.what);
    return s;
}

static pottle_jar_number
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

/* -- Brine by strength ----------------------------------------------------- */

/* A litre of brine holds so much salt: the second column of the same table,
 * g/L, which does not enter the code. Density to half of 0.1 kg/m3 is 0.05 g
 * times the strength. */
#define SALT "Poradnik fizykochemiczny, 1974, sodium chloride at 20 deg C"
static const struct {
    double percent, g_per_l, within;
    const char *source;
} strengths[] = {
    { 1, 10.053, 0.001, SALT },
    { 2, 20.250, 0.0015, SALT },
    { 4, 41.072, 0.0025, SALT },
    { 6, 62.478, 0.0035, SALT },
    { 8, 84.472, 0.0045, SALT },
    { 10, 107.070, 0.0055, SALT },
    { 12, 130.284, 0.0065, SALT },
    { 14, 154.128, 0.0075, SALT },
    { 16, 178.592, 0.0085, SALT },
    { 18, 203.742, 0.0095, SALT },
    { 20, 229.560, 0.0105, SALT },
    { 22, 256.080, 0.0115, SALT },
    { 24, 283.296, 0.0125, SALT },
    { 26, 311.272, 0.0135, SALT },
    /* between the lines: 5 percent at 1.034 g/mL, so 51.7 g a litre to 0.05 x
       0.5 */
    { 5, 51.70, 0.03,
      "table of inorganic sodium salts: 5 mass percent 1.034 g/cm3" },
};

START_TEST(salt_in_a_litre)
{
    pottle_brine_mix m;
    pottle_error error = { .line = -7 };
    ck_assert_int_eq(pottle_brine_of_percent(kitchen, strengths[_i].percent,
                                             (pottle_volume){ 1000 }, false, &m,
                                             &error),
                     POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    ck_assert_msg(
        fabs(m.salt_g - strengths[_i].g_per_l) <= strengths[_i].within,
        "%g percent: %.4f g a litre, printed %.3f (%s)", strengths[_i].percent,
        m.salt_g, strengths[_i].g_per_l, strengths[_i].source);
    CHECK_NEAR(m.volume_ml, 1000, "volume asked for");
    CHECK_NEAR(100 * m.salt_g / (m.salt_g + m.water_g), strengths[_i].percent,
               "salt over salt and water");
}
END_TEST

/* Salt to so much water, by hand: water weighs 0.9982067 g/mL, salt = water x p
 * / (100 - p). 1 L at 5 percent: 998.2067 x 5/95 = 52.5372 g; at 10: 998.2067 /
 * 9 = 110.9119; half a litre at 3.5: 499.10335 x 3.5/96.5 = 18.1022; at 20:
 * 998.2067 / 4 = 249.5517. */
static const struct {
    double percent, water_ml, salt_g;
} by_water[] = {
    { 5, 1000, 52.5372 },
    { 10, 1000, 110.9119 },
    { 3.5, 500, 18.1022 },
    { 20, 1000, 249.5517 },
    { 0.5, 2000, 10.0322 /* 1996.4134 x 0.5/99.5 */ },
};

START_TEST(salt_to_water)
{
    pottle_brine_mix m;
    ck_assert_int_eq(
        pottle_brine_of_percent(kitchen, by_water[_i].percent,
                                (pottle_volume){ by_water[_i].water_ml }, true,
                                &m, NULL),
        POTTLE_OK);
    ck_assert_msg(
        fabs(m.salt_g - by_water[_i].salt_g) <= 5e-5 + 1e-7 * m.salt_g,
        "%g percent, %g mL: %.5f g of salt, by hand %.4f", by_water[_i].percent,
        by_water[_i].water_ml, m.salt_g, by_water[_i].salt_g);
    CHECK_NEAR(m.water_ml, by_water[_i].water_ml, "the water asked for");
    ck_assert_double_gt(m.volume_ml, m.water_ml);
    /* salts fill a cup with 292 g (USDA SR28, table salt) or 220 g (University
     * of Wisconsin): both lie in the range */
    const pottle_interval i = pottle_estimate_interval(m.salt_ml);
    ck_assert_msg(within(i.expected, m.salt_g / 292 * CUP_ML, 1e-9),
                  "%.4f mL of salt, by 292 g a cup %.4f", i.expected,
                  m.salt_g / 292 * CUP_ML);
    ck_assert_double_ge(i.high * (1 + 1e-9), m.salt_g / 220 * CUP_ML);
}
END_TEST

START_TEST(brine_refusals)
{
    pottle_brine_mix m = { .percent = -3 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_volume litre = { 1000 };
    static const double wrong[] = { 0, -1, 26.001, 100, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(wrong); i++)
        ck_assert_int_eq(
            pottle_brine_of_percent(kitchen, wrong[i], litre, true, &m, &error),
            POTTLE_EDOMAIN);
    static const double volumes[] = { 0, -1, 1e10, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(volumes); i++)
        ck_assert_int_eq(pottle_brine_of_percent(kitchen, 5,
                                                 (pottle_volume){ volumes[i] },
                                                 false, &m, &error),
                         POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_brine_of_percent(NULL, 5, litre, false, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_brine_of_percent(kitchen, 5, litre, false, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert(m.percent < 0);
}
END_TEST

/* -- The liquid of a recipe ------------------------------------------------ */

static pottle_status
ask_brine(const char *id, double volume_ml, const char *const *amounts,
          pottle_brine_plan *out, pottle_error *error)
{
    pottle_recipe *recipe = kitchen_recipe(id);
    pottle_phrase phrase[4];
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .volume_ml = volume_ml,
                                     .amount = phrase };
    for (; amounts != NULL && amounts[request.amounts] != NULL;
         request.amounts++)
        phrase[request.amounts] =
            kitchen_phrase(recipe, amounts[request.amounts]);
    const pottle_status status =
        pottle_brine_of_recipe(kitchen, recipe, &request, out, error);
    /* the lines point into the recipe: only numbers are looked at after this */
    for (size_t i = 0; status == POTTLE_OK && i < out->lines; i++)
        out->line[i].ingredient = NULL;
    pottle_recipe_free(recipe);
    return status;
}

/* Quick fresh-pack dills: 1 1/2 qt of 5 % vinegar, 2 qt of water, 1/2 cup of
 * salt, 1/4 cup of sugar; the soaking brine is poured away and is no part of
 * it. 3 cups of vinegar are half of the 6: so 4 cups of water, 1/4 cup of salt,
 * 2 tbsp of sugar. */
#define DILLS                                                                  \
    "USDA Complete Guide, guide 6, Quick fresh-pack dill pickles (1994)"
static const struct {
    const char *amount;
    double factor;
    const char *title;
    const char *measure;
} halves[] = {
    { "3 cups vinegar", 0.5, "water", "4 cups" },
    { "3 cups vinegar", 0.5, "white distilled vinegar, 5 percent", "3 cups" },
    { "3 cups vinegar", 0.5, "canning or pickling salt", "1/4 cup" },
    { "3 cups vinegar", 0.5, "sugar, white granulated", "2 tbsp" },
    { "4 quarts water", 2, "canning or pickling salt", "1 cup" },
    { "4 quarts water", 2, "sugar, white granulated", "1/2 cup" },
    { "1 cup salt", 2, "white distilled vinegar, 5 percent", "12 cups" },
};

START_TEST(half_and_twice_the_liquid)
{
    const char *const amounts[] = { halves[_i].amount, NULL };
    pottle_brine_plan p;
    pottle_error error = { .line = -7 };
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 0, amounts, &p, &error),
        POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    ck_assert_msg(within(p.factor, halves[_i].factor, TINY),
                  "%s: %.6g times, by hand %g (%s)", halves[_i].amount,
                  p.factor, halves[_i].factor, DILLS);
    ck_assert_uint_eq(p.lines, 4);
    const pottle_brine_line *l = NULL;
    for (size_t i = 0; i < p.lines; i++)
        l = strcmp(p.line[i].title, halves[_i].title) == 0 ? &p.line[i] : l;
    ck_assert_msg(l != NULL && l->has_measure, "no %s (%s)", halves[_i].title,
                  DILLS);
    char text[100];
    pottle_measure_write(&l->measure, text, sizeof text);
    ck_assert_msg(strcmp(text, halves[_i].measure) == 0,
                  "%s: %s '%s', by hand '%s' (%s)", halves[_i].amount,
                  halves[_i].title, text, halves[_i].measure, DILLS);
}
END_TEST

/* Their volume by hand. Liquids: 3 1/2 qt = 3312.24 mL, 6 x 238 + 8 x 237 =
 * 3324 g (SR28). Sugar 50 g: 1.482 percent, 1.0039 g/mL, (3374 / 1.0039) - 3324
 * / 0.9982 = 3360.9 - 3330.0 = 30.9 mL more. Salt 146 g: 4.207 percent, 1.0283
 * g/mL, 3470 / 1.0283 - 3330.0 = 3374.5 - 3330.0 = 44.5 more. Together 3387.7
 * mL; so 2 L are 0.5904 of it. */
START_TEST(volume_of_the_liquid)
{
    pottle_brine_plan p;
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 2000, NULL, &p, NULL),
        POTTLE_OK);
    CHECK_NEAR(p.volume_ml, 2000, "volume asked for");
    ck_assert_msg(fabs(2000 / p.factor - 3387.7) <= 0.5,
                  "the published batch makes %.2f mL, by hand 3387.7 (%s)",
                  2000 / p.factor, DILLS);
}
END_TEST

/* Only the proportions of the recipe: 5 cups of water to 3 of vinegar are 5/8
 * against 1/2. */
static const struct {
    const char *recipe;
    double ml;
    const char *amount[3];
    const char *code, *source, *why;
} ratios[] = {
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups vinegar", "5 cups water" },
      "brine-ratio",
      "alabama-ext",
      "more water" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups vinegar", "3 cups water" },
      "brine-ratio",
      "alabama-ext",
      "less water" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups vinegar", "4.05 cups water" },
      "brine-ratio",
      "alabama-ext",
      "1.25 percent more water: over the 1 percent of exact" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3-4 cups vinegar", "4 cups water" },
      "brine-ratio",
      "alabama-ext",
      "a range is judged at both ends" },
    { "quick-fresh-pack-dill-pickles",
      2000,
      { "3 cups vinegar" },
      "brine-ratio",
      "alabama-ext",
      "2 L take 3.54 cups of vinegar" },
    { "quick-fresh-pack-dill-pickles",
      2000,
      { "1 cup bottled lemon juice" },
      "not-in-brine",
      "alabama-ext",
      "no part of the recipe" },
    { "quick-fresh-pack-dill-pickles",
      2000,
      { "8 lb pickling cucumbers" },
      "not-in-brine",
      "alabama-ext",
      "the food is no part of the liquid" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups 4 % vinegar" },
      "vinegar-strength",
      "uga-ext",
      "weak vinegar (University of Georgia)" },
};

START_TEST(only_in_proportion)
{
    pottle_brine_plan p = { .factor = -3 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = ask_brine(ratios[_i].recipe, ratios[_i].ml,
                                           ratios[_i].amount, &p, &error);
    ck_assert_msg(status == POTTLE_EBOUNDS, "%s: %s", ratios[_i].why,
                  pottle_strerror((int)status));
    ck_assert_msg(strcmp(error.code, ratios[_i].code) == 0,
                  "%s: '%s', wanted '%s'", ratios[_i].why, error.code,
                  ratios[_i].code);
    ck_assert_str_eq(error.source, ratios[_i].source);
    ck_assert_str_ne(error.instead, "");
    ck_assert(p.factor < -2.9);
}
END_TEST

START_TEST(within_a_percent_and_by_weight)
{
    pottle_brine_plan p;
    /* 4.03 cups are 0.75 percent more */
    static const char *const near[] = { "3 cups vinegar", "4.03 cups water",
                                        NULL };
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 0, near, &p, NULL),
        POTTLE_OK);
    CHECK_NEAR(p.factor, 0.5, "the first amount tells the factor");
    /* 714 g of vinegar are 3 cups at 238 g (SR28 02053) */
    static const char *const weighed[] = { "714 g vinegar", NULL };
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 0, weighed, &p, NULL),
        POTTLE_OK);
    CHECK_NEAR(p.factor, 0.5, "714 g of vinegar, 238 g a cup");
}
END_TEST

/* Every pickle of the catalogue, any length: each line is the factor times that
 * of one batch, what is drained off is left out, and as measured acid is never
 * less against the water. */
START_TEST(all_lines_times_one_factor)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    const char *kind = pottle_recipe_kind(recipe);
    const bool wet =
        pottle_recipe_cook(recipe)->end == POTTLE_END_PACKED &&
        (strcmp(kind, "pickle") == 0 || strcmp(kind, "pickled-fruit") == 0);
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .volume_ml = 1000 };
    pottle_brine_plan one, p;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_brine_of_recipe(kitchen, recipe, &request, &one, &error);
    ck_assert_msg(status == (wet ? POTTLE_OK : POTTLE_ENOENT), "%s: %s %s",
                  kitchen_id[_i], pottle_strerror((int)status), error.what);
    static const double litres[] = { 0.1, 0.35, 0.9, 2, 7.3, 40 };
    for (size_t v = 0; wet && v < COUNT(litres); v++) {
        double most_water = 0, least_acid = HUGE_VAL;
        request.volume_ml = litres[v] * 1000;
        ck_assert_int_eq(
            pottle_brine_of_recipe(kitchen, recipe, &request, &p, NULL),
            POTTLE_OK);
        ck_assert(within(p.factor, one.factor * litres[v], TINY) &&
                  p.lines == one.lines && p.lines > 0);
        for (size_t i = 0; i < p.lines; i++) {
            const pottle_brine_line *l = &p.line[i];
            const pottle_ingredient *in = l->ingredient;
            ck_assert(in->stays && strcmp(in->role, "low-acid") != 0 &&
                      strcmp(in->role, "produce") != 0);
            ck_assert_msg(
                fabs(l->mass_g - one.line[i].mass_g * litres[v]) <=
                        TINY * l->mass_g &&
                    fabs(l->volume_ml - one.line[i].volume_ml * litres[v]) <=
                        TINY * l->volume_ml,
                "%s: %s is not times the factor", kitchen_id[_i], l->title);
            if (in->unit->dimension != POTTLE_VOLUME || !(l->volume_ml > 0))
                continue;
            const double share =
                l->has_measure &&
                        l->measure.part[0].unit->dimension == POTTLE_VOLUME
                    ? l->measure.base / l->volume_ml
                    : 1;
            if (strcmp(in->role, "liquid") == 0)
                most_water = fmax(most_water, share);
            if (strcmp(in->role, "acid") == 0)
                least_acid = fmin(least_acid, share);
        }
        ck_assert_msg(least_acid >= most_water * (1 - 1e-7),
                      "%s, %g L: acid %g, water %g of what is due",
                      kitchen_id[_i], litres[v], least_acid, most_water);
    }
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(recipe_brine_refusals)
{
    pottle_recipe *dills = kitchen_recipe("quick-fresh-pack-dill-pickles"),
                  *own = NULL;
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .volume_ml = 1000 };
    pottle_brine_plan p = { .factor = -3 };
    pottle_error error = { .status = POTTLE_OK };
    char path[700];
    ck_assert_int_eq(pottle_brine_of_recipe(NULL, dills, &request, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, NULL, &request, &p, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_brine_of_recipe(kitchen, dills, NULL, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, NULL, &error),
        POTTLE_EMISUSE);
    request.amounts = 1;
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
        POTTLE_EMISUSE);
    request.amounts = 0;
    request.version = 2;
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
        POTTLE_EMISUSE);
    request.version = POTTLE_BRINE_REQUEST_VERSION;
    static const double volumes[] = { -1, 1e10, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(volumes); i++) {
        request.volume_ml = volumes[i];
        ck_assert_int_eq(
            pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
            POTTLE_EDOMAIN);
    }
    request.volume_ml = 0;
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
        POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "how-much");
    request.volume_ml = 1000;
    const char *folder = getenv("srcdir");
    snprintf(path, sizeof path, "%s/tests/data/good/own-pickle.xml",
             folder != NULL ? folder : ".");
    ck_assert_int_eq(pottle_recipe_read_file(kitchen, path, &own, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_brine_of_recipe(kitchen, own, &request, &p, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "own-recipe");
    ck_assert(p.factor < -2.9);
    pottle_recipe_free(own);
    pottle_recipe_free(dills);
}
END_TEST

/* -- Acid in the jars ------------------------------------------------------ */

/* Tomatoes: lemon juice 2 tbsp a quart, 1 a pint; citric acid 1/2 and 1/4 tsp;
 * vinegar 4 and 2 tbsp. 7 quarts and 3 pints: 14 + 3 = 17 tbsp; 3.5 + 0.75
 * = 4.25 tsp; 28 + 6 = 34 tbsp. A half-pint takes the dose of the pint, a 28-oz
 * jar that of the quart. */
#define ACID                                                                   \
    "USDA Complete Guide, guide 3, acidification; vinegar a pint: North "      \
    "Carolina State University 2003"
static const struct {
    struct {
        const char *jar;
        double count;
    } jar[3];
    size_t sizes;
    const char *food;
    double total;
    const char *unit, *measure;
} acids[] = {
    { { { "quart", 7 }, { "pint", 3 } },
      2,
      "bottled-lemon-juice",
      17,
      "tbsp",
      "1 cup + 1 tbsp" },
    { { { "quart", 7 }, { "pint", 3 } },
      2,
      "citric-acid",
      4.25,
      "tsp",
      "1 tbsp + 1 1/4 tsp" },
    { { { "quart", 7 }, { "pint", 3 } },
      2,
      "vinegar",
      34,
      "tbsp",
      "2 cups + 2 tbsp" },
    { { { "pint", 1 } }, 1, "bottled-lemon-juice", 1, "tbsp", "1 tbsp" },
    { { { "pint", 3 }, { "quart", 7 } },
      2,
      "citric-acid",
      4.25,
      "tsp",
      "1 tbsp + 1 1/4 tsp" },
    { { { "half-pint", 2 }, { "28-oz", 3 }, { "quart", 1 } },
      3,
      "bottled-lemon-juice",
      2 * 1 + 3 * 2 + 2,
      "tbsp",
      "1/2 cup + 2 tbsp" },
    { { { "500-ml", 2 } }, 1, "citric-acid", 1, "tsp", "1 tsp" },
};

START_TEST(acid_over_mixed_jars)
{
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    pottle_jar_number n[3];
    pottle_acid_total list[POTTLE_ACID_TOTALS_MAX];
    size_t totals = 0;
    pottle_error error = { .line = -7 };
    for (size_t i = 0; i < acids[_i].sizes; i++)
        n[i] = jars_of(acids[_i].jar[i].jar, acids[_i].jar[i].count);
    ck_assert_int_eq(pottle_acid_for_jars(kitchen, recipe, n, acids[_i].sizes,
                                          list, &totals, &error),
                     POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    ck_assert_uint_eq(totals, 3);
    const pottle_acid_total *t = NULL;
    for (size_t i = 0; i < totals; i++)
        t = strcmp(list[i].food, acids[_i].food) == 0 ? &list[i] : t;
    ck_assert_msg(t != NULL, "no %s (%s)", acids[_i].food, ACID);
    ck_assert_msg(within(t->total, acids[_i].total, TINY) &&
                      strcmp(t->unit->id, acids[_i].unit) == 0,
                  "%s: %.6g %s, by hand %g %s (%s)", acids[_i].food, t->total,
                  t->unit->id, acids[_i].total, acids[_i].unit, ACID);
    char text[100];
    ck_assert(t->has_measure);
    pottle_measure_write(&t->measure, text, sizeof text);
    ck_assert_msg(strcmp(text, acids[_i].measure) == 0,
                  "%s: '%s', by hand '%s' (%s)", acids[_i].food, text,
                  acids[_i].measure, ACID);
    ck_assert(t->doses == acids[_i].sizes);
    for (size_t d = 0; d < t->doses; d++)
        ck_assert(t->dose[d].jar == n[d].jar &&
                  t->dose[d].taken_from->nominal_ml >= n[d].jar->nominal_ml);
    pottle_recipe_free(recipe);
}
END_TEST

/* Never less than the doses together, however many jars. */
START_TEST(acid_is_never_measured_short)
{
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    for (int quarts = 1; quarts < 30; quarts++) {
        const pottle_jar_number n[2] = { jars_of("quart", quarts),
                                         jars_of("pint", _i + 1) };
        pottle_acid_total t[POTTLE_ACID_TOTALS_MAX];
        size_t totals = 0;
        ck_assert_int_eq(
            pottle_acid_for_jars(kitchen, recipe, n, 2, t, &totals, NULL),
            POTTLE_OK);
        for (size_t i = 0; i < totals; i++)
            ck_assert(!t[i].has_measure ||
                      t[i].measure.base >=
                          t[i].total * t[i].unit->factor * (1 - 1e-7));
    }
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(acid_refusals)
{
    pottle_recipe *tomatoes = kitchen_recipe("tomatoes-crushed"),
                  *beans = kitchen_recipe("beans-snap"), *own = NULL;
    pottle_jar_number n = jars_of("quart", 7);
    pottle_acid_total t[POTTLE_ACID_TOTALS_MAX];
    size_t totals = 77;
    pottle_error error = { .status = POTTLE_OK };
    char path[700];
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, beans, &n, 1, t, &totals, &error),
        POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "no-acid");
    ck_assert_int_eq(
        pottle_acid_for_jars(NULL, tomatoes, &n, 1, t, &totals, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, NULL, &n, 1, t, &totals, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, tomatoes, NULL, 1, t, &totals, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, tomatoes, &n, 0, t, &totals, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, tomatoes, &n, 1, NULL, &totals, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, tomatoes, &n, 1, t, NULL, &error),
        POTTLE_EMISUSE);
    n.count = NOT_A_NUMBER;
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, tomatoes, &n, 1, t, &totals, &error),
        POTTLE_EDOMAIN);
    n = jars_of("half-gallon", 1);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, tomatoes, &n, 1, t, &totals, &error),
        POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "jar-larger");
    ck_assert_str_eq(error.source, "nchfp");
    n = jars_of("quart", 7);
    const char *folder = getenv("srcdir");
    snprintf(path, sizeof path, "%s/tests/data/good/own-pickle.xml",
             folder != NULL ? folder : ".");
    ck_assert_int_eq(pottle_recipe_read_file(kitchen, path, &own, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(
        pottle_acid_for_jars(kitchen, own, &n, 1, t, &totals, &error),
        POTTLE_EBOUNDS);
    ck_assert_uint_eq(totals, 77);
    pottle_recipe_free(own);
    pottle_recipe_free(beans);
    pottle_recipe_free(tomatoes);
}
END_TEST

/* -- Vinegar --------------------------------------------------------------- */

static const struct {
    double has, wants;
    pottle_status status;
    const char *code, *rule_source, *why;
} vinegars[] = {
    { 5, 5, POTTLE_OK, "", "", "as it is" },
    { 6, 6, POTTLE_OK, "", "", "as it is" },
    { 4, 5, POTTLE_EBOUNDS, "vinegar-strength", "uga-ext",
      "University of Georgia: at least 5 percent" },
    { 4.99, 4.99, POTTLE_EBOUNDS, "vinegar-strength", "uga-ext",
      "University of Georgia: at least 5 percent" },
    { 10, 4, POTTLE_EBOUNDS, "vinegar-strength", "uga-ext",
      "University of Georgia: at least 5 percent, made of whatever" },
    { 10, 5, POTTLE_EBOUNDS, "vinegar-dilution", "pottle-practice",
      "no source gives a dilution (practice)" },
    { 6, 5, POTTLE_EBOUNDS, "vinegar-dilution", "pottle-practice",
      "no source gives a dilution (practice)" },
    { 5, 6, POTTLE_EBOUNDS, "vinegar-strength", "alabama-ext",
      "weaker than asked for" },
    { 0, 5, POTTLE_EDOMAIN, "strength", "", "no vinegar" },
    { -5, 5, POTTLE_EDOMAIN, "strength", "", "negative" },
    { 101, 5, POTTLE_EDOMAIN, "strength", "", "over 100 percent" },
    { 5, HUGE_VAL, POTTLE_EDOMAIN, "strength", "", "infinite" },
};

START_TEST(vinegar_is_not_diluted)
{
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_vinegar_check(
        kitchen, vinegars[_i].has, vinegars[_i].wants, &error);
    ck_assert_msg(status == vinegars[_i].status &&
                      strcmp(error.code, vinegars[_i].code) == 0 &&
                      strcmp(error.source, vinegars[_i].rule_source) == 0,
                  "%g for %g percent: %s, '%s' of '%s' (%s)", vinegars[_i].has,
                  vinegars[_i].wants, pottle_strerror((int)status), error.code,
                  error.source, vinegars[_i].why);
    ck_assert(status != POTTLE_EBOUNDS || error.instead[0] != '\0');
    ck_assert_int_eq(pottle_vinegar_check(kitchen, NOT_A_NUMBER, 5, NULL),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_vinegar_check(kitchen, 5, NOT_A_NUMBER, NULL),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_vinegar_check(NULL, 5, 5, NULL), POTTLE_EMISUSE);
}
END_TEST

/* -- Juice ----------------------------------------------------------------- */

/* By hand: yield 0.4 to 0.8 g/g has the median sqrt(0.32) = 0.565685 and ln 2 /
 * (2 x 1.644854) = 0.210702 as spread; density 1.048 to 1.069 has 1.058448 and
 * ln(1.069/1.048) / 3.289707 = 0.006033. 10 lb = 4535.924 g: 4535.924 x
 * 0.565685 / 1.058448 = 2424.22 mL; with exp(1.644854 x 0.210788) = 1.41442 the
 * range is 1713.9 to 3428.9 mL. The guide's cup a pound: 10 cups = 2365.88 mL.
 */
START_TEST(juice_from_fruit)
{
    pottle_juice j;
    pottle_error error = { .line = -7 };
    ck_assert_int_eq(pottle_juice_of(kitchen, 10 * POUND_G, 0, &j, &error),
                     POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    const pottle_interval i = pottle_estimate_interval(j.juice_ml);
    ck_assert_msg(fabs(i.expected - 2424.22) <= 0.01 &&
                      fabs(i.low - 1713.9) <= 0.1 &&
                      fabs(i.high - 3428.9) <= 0.1,
                  "%.3f, %.2f to %.2f mL, by hand 2424.22, 1713.9 to 3428.9 "
                  "(yield study section 6: 0.4 to 0.8)",
                  i.expected, i.low, i.high);
    CHECK_NEAR(j.least_ml, 10 * CUP_ML,
               "USDA guide 7: at least 1 cup of clear juice a pound");
    ck_assert(!(j.guide_g > 0) && !(j.sure_g > 0));
    CHECK_NEAR(j.fruit_g.median, 10 * POUND_G, "the fruit asked about");
}
END_TEST

/* Back: 10 cups take 10 lb by the guide; expected 2365.8824 x 1.058448 /
 * 0.565685 = 4426.76 g; nine chances in ten with exp(1.281552 x 0.210788)
 * = 1.31014: 5799.7 g. */
START_TEST(fruit_for_juice)
{
    pottle_juice j;
    ck_assert_int_eq(pottle_juice_of(kitchen, 0, 10 * CUP_ML, &j, NULL),
                     POTTLE_OK);
    CHECK_NEAR(j.guide_g, 10 * POUND_G, "USDA guide 7: 1 cup a pound");
    ck_assert_msg(fabs(j.fruit_g.median - 4426.77) <= 0.02,
                  "%.3f g, by hand 4426.77", j.fruit_g.median);
    ck_assert_msg(fabs(j.sure_g - 5799.7) <= 0.1, "%.2f g, by hand 5799.7",
                  j.sure_g);
    ck_assert(!(j.least_ml > 0));
}
END_TEST

/* Published juices lie in the range: pounds for a number of quarts. */
static const struct {
    double pounds, quarts;
    const char *source;
} juices[] = {
    { 24.5, 7,
      "USDA Complete Guide, guide 2, grape juice: 24 1/2 lb for 7 quarts" },
    { 16, 4.5, "USDA Complete Guide, guide 2, grape juice: 16 lb for 9 pints" },
    { 23, 7, "USDA Complete Guide, guide 3, tomato juice: 23 lb for 7 quarts" },
    { 1, 0.25, "USDA Complete Guide, guide 7: 1 cup a pound" },
};

START_TEST(published_juices)
{
    pottle_juice j;
    ck_assert_int_eq(
        pottle_juice_of(kitchen, juices[_i].pounds * POUND_G, 0, &j, NULL),
        POTTLE_OK);
    const pottle_interval i = pottle_estimate_interval(j.juice_ml);
    const double ml = juices[_i].quarts * 4 * CUP_ML;
    ck_assert_msg(ml >= i.low && ml <= i.high,
                  "%.0f mL outside %.0f to %.0f (%s)", ml, i.low, i.high,
                  juices[_i].source);
}
END_TEST

START_TEST(juice_refusals)
{
    pottle_juice j = { .least_ml = -3 };
    pottle_error error = { .status = POTTLE_OK };
    static const double wrong[] = { -1, 1e10, HUGE_VAL, -HUGE_VAL,
                                    (double)NAN };
    for (size_t i = 0; i < COUNT(wrong); i++) {
        ck_assert_int_eq(pottle_juice_of(kitchen, wrong[i], 0, &j, &error),
                         POTTLE_EDOMAIN);
        ck_assert_int_eq(pottle_juice_of(kitchen, 0, wrong[i], &j, &error),
                         POTTLE_EDOMAIN);
    }
    ck_assert_int_eq(pottle_juice_of(kitchen, 1, 1, &j, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_juice_of(kitchen, 0, 0, &j, &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "how-much");
    ck_assert_int_eq(pottle_juice_of(NULL, 1, 0, &j, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_juice_of(kitchen, 1, 0, NULL, &error),
                     POTTLE_EMISUSE);
    pottle_catalogue *without =
        kitchen_catalogue(POTTLE_WITH_ALL & ~(unsigned)POTTLE_WITH_FIGURES);
    ck_assert_int_eq(pottle_juice_of(without, 1, 0, &j, &error), POTTLE_ENOENT);
    pottle_catalogue_free(without);
    ck_assert(j.least_ml < -2.9);
}
END_TEST

/* -- Suite ----------------------------------------------------------------- */

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("solution");
    TCase *syrup = tcase_create("syrup"), *brine = tcase_create("brine"),
          *acid = tcase_create("acid"), *juice = tcase_create("juice");
    TCase *const all[] = { syrup, brine, acid, juice };
    for (size_t i = 0; i < COUNT(all); i++) {
        tcase_add_checked_fixture(all[i], kitchen_open, kitchen_close);
        suite_add_tcase(suite, all[i]);
    }
    tcase_add_loop_test(syrup, published_loads, 0, (int)COUNT(loads));
    tcase_add_loop_test(syrup, published_loads_by_strength, 0,
                        (int)COUNT(loads));
    tcase_add_loop_test(syrup, mixed_jars_by_class, 0, (int)COUNT(mixed));
    tcase_add_loop_test(syrup, class_by_volume, 0, 24);
    tcase_add_loop_test(syrup, freezing_syrups, 0, (int)COUNT(freezing));
    tcase_add_loop_test(syrup, balance_of_a_syrup, 0, 200);
    tcase_add_loop_test(syrup, need_of_the_jars, 0, (int)COUNT(needs));
    tcase_add_test(syrup, syrup_refusals);
    tcase_add_loop_test(brine, salt_in_a_litre, 0, (int)COUNT(strengths));
    tcase_add_loop_test(brine, salt_to_water, 0, (int)COUNT(by_water));
    tcase_add_test(brine, brine_refusals);
    tcase_add_loop_test(brine, half_and_twice_the_liquid, 0,
                        (int)COUNT(halves));
    tcase_add_test(brine, volume_of_the_liquid);
    tcase_add_loop_test(brine, only_in_proportion, 0, (int)COUNT(ratios));
    tcase_add_test(brine, within_a_percent_and_by_weight);
    tcase_add_loop_test(brine, all_lines_times_one_factor, 0, kitchen_ids);
    tcase_add_test(brine, recipe_brine_refusals);
    tcase_add_loop_test(acid, acid_over_mixed_jars, 0, (int)COUNT(acids));
    tcase_add_loop_test(acid, acid_is_never_measured_short, 0, 20);
    tcase_add_test(acid, acid_refusals);
    tcase_add_loop_test(acid, vinegar_is_not_diluted, 0, (int)COUNT(vinegars));
    tcase_add_test(juice, juice_from_fruit);
    tcase_add_test(juice, fruit_for_juice);
    tcase_add_loop_test(juice, published_juices, 0, (int)COUNT(juices));
    tcase_add_test(juice, juice_refusals);
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
