/* solution_acid.c - test_solution: acid in the jars, vinegar, juice. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "solution_cases.h"

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

TCase *
solution_acid(void)
{
    TCase *acid = tcase_create("acid");
    tcase_add_checked_fixture(acid, kitchen_open, kitchen_close);
    tcase_add_loop_test(acid, acid_over_mixed_jars, 0, (int)COUNT(acids));
    tcase_add_loop_test(acid, acid_is_never_measured_short, 0, 20);
    tcase_add_test(acid, acid_refusals);
    tcase_add_loop_test(acid, vinegar_is_not_diluted, 0, (int)COUNT(vinegars));
    return acid;
}

TCase *
solution_juice(void)
{
    TCase *juice = tcase_create("juice");
    tcase_add_checked_fixture(juice, kitchen_open, kitchen_close);
    tcase_add_test(juice, juice_from_fruit);
    tcase_add_test(juice, fruit_for_juice);
    tcase_add_loop_test(juice, published_juices, 0, (int)COUNT(juices));
    tcase_add_test(juice, juice_refusals);
    return juice;
}
