/* test_measure.c - rounding to kitchen measures: known answers, the direction
 * of each keep rule, wording. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "measure_cases.h"
#include "suite.h"

const pottle_keep keeps[] = { POTTLE_FREE, POTTLE_EXACT, POTTLE_AT_LEAST,
                              POTTLE_AT_MOST };

const char *
text_of(const pottle_measure *m, char *buf, size_t size)
{
    pottle_measure_write(m, buf, size);
    return buf;
}

/* -- Known answers --------------------------------------------------------- */

/* What is a kitchen measure already stays as it is, whatever the rule: 3 tsp =
 * 1 tbsp, 16 tbsp = 1 cup, 4 cups = 1 qt, 16 oz = 1 lb. */
static const struct {
    double amount;
    pottle_dimension dimension;
    const char *text;
    const char *why;
} wholes[] = {
    { TSP / 8, POTTLE_VOLUME, "1/8 tsp", "smallest spoon" },
    { TSP / 4, POTTLE_VOLUME, "1/4 tsp", "spoon" },
    { TSP / 2, POTTLE_VOLUME, "1/2 tsp", "spoon" },
    { TSP * 3 / 4, POTTLE_VOLUME, "3/4 tsp", "1/2 + 1/4" },
    { TSP, POTTLE_VOLUME, "1 tsp", "spoon" },
    { TSP * 1.25, POTTLE_VOLUME, "1 1/4 tsp", "1 + 1/4" },
    { TSP * 1.5, POTTLE_VOLUME, "1 1/2 tsp", "1 + 1/2; half a tablespoon" },
    { TSP * 2, POTTLE_VOLUME, "2 tsp", "spoons" },
    { TSP * 3, POTTLE_VOLUME, "1 tbsp", "3 tsp = 1 tbsp" },
    { TBSP, POTTLE_VOLUME, "1 tbsp", "spoon" },
    { TBSP * 1.5, POTTLE_VOLUME, "1 1/2 tbsp", "1 + 1/2" },
    { TBSP * 2, POTTLE_VOLUME, "2 tbsp", "spoons; 1 fl oz" },
    { TBSP * 3, POTTLE_VOLUME, "3 tbsp", "spoons" },
    { TBSP * 4, POTTLE_VOLUME, "1/4 cup", "4 tbsp = 1/4 cup" },
    { CUP / 3, POTTLE_VOLUME, "1/3 cup", "cup" },
    { TBSP * 8, POTTLE_VOLUME, "1/2 cup", "8 tbsp = 1/2 cup" },
    { CUP * 2 / 3, POTTLE_VOLUME, "2/3 cup", "cup" },
    { TBSP * 12, POTTLE_VOLUME, "3/4 cup", "12 tbsp = 3/4 cup" },
    { CUP, POTTLE_VOLUME, "1 cup", "cup" },
    { TBSP * 16, POTTLE_VOLUME, "1 cup", "16 tbsp = 1 cup" },
    { CUP * 1.25, POTTLE_VOLUME, "1 1/4 cups", "cup" },
    { CUP * 4 / 3, POTTLE_VOLUME, "1 1/3 cups", "cup" },
    { CUP * 1.5, POTTLE_VOLUME, "1 1/2 cups", "cup" },
    { CUP * 5 / 3, POTTLE_VOLUME, "1 2/3 cups", "cup" },
    { CUP * 2.25, POTTLE_VOLUME, "2 1/4 cups", "cup" },
    { CUP * 3.5, POTTLE_VOLUME, "3 1/2 cups", "cup" },
    { CUP * 4, POTTLE_VOLUME, "4 cups", "a quart, as recipes print it" },
    { CUP * 7, POTTLE_VOLUME, "7 cups", "cup" },
    { CUP * 2 + TBSP * 2, POTTLE_VOLUME, "2 cups + 2 tbsp", "cup and spoon" },
    { QT * 4, POTTLE_VOLUME, "4 qt", "1 gallon = 4 qt" },
    { QT * 6.5, POTTLE_VOLUME, "6 1/2 qt", "quart" },
    { OZ / 4, POTTLE_MASS, "1/4 oz", "scale" },
    { OZ, POTTLE_MASS, "1 oz", "scale" },
    { OZ * 1.75, POTTLE_MASS, "1 3/4 oz", "a box of powdered pectin" },
    { OZ * 3, POTTLE_MASS, "3 oz", "scale" },
    { LB / 2, POTTLE_MASS, "8 oz", "16 oz = 1 lb" },
    { LB, POTTLE_MASS, "1 lb", "scale" },
    { OZ * 19, POTTLE_MASS, "1 lb + 3 oz", "19 = 16 + 3" },
    { LB * 2, POTTLE_MASS, "2 lb", "scale" },
    { LB * 2.5, POTTLE_MASS, "2 1/2 lb", "scale" },
    { LB * 24, POTTLE_MASS, "24 lb", "scale" },
    { 1, POTTLE_COUNT, "1", "a piece" },
    { 12, POTTLE_COUNT, "12", "a dozen" },
};

START_TEST(measure_stays_as_it_is)
{
    for (size_t k = 0; k < COUNT(keeps); k++) {
        pottle_measure m;
        char buf[80];
        const pottle_status status = pottle_measure_round(
            wholes[_i].amount, wholes[_i].dimension, keeps[k], &m);
        ck_assert_msg(status == POTTLE_OK, "%s, %s: refused", wholes[_i].text,
                      pottle_keep_name((int)keeps[k]));
        ck_assert_msg(strcmp(text_of(&m, buf, sizeof buf), wholes[_i].text) ==
                          0,
                      "%s: '%s' for '%s' (%s)", pottle_keep_name((int)keeps[k]),
                      buf, wholes[_i].text, wholes[_i].why);
        ck_assert_msg(fabs(m.base / wholes[_i].amount - 1) < 1e-12,
                      "%s: %.15g is not %.15g", buf, m.base, wholes[_i].amount);
    }
}
END_TEST

/* What is none. NULL: give it by weight. The measures that could have been
 * taken stand behind each row. */
static const struct {
    double amount;
    pottle_dimension dimension;
    pottle_keep keep;
    const char *text;
} rounded[] = {
    /* 6.497 and 6.503 half pieces */
    { 3.2485, POTTLE_COUNT, POTTLE_FREE, "3" },
    { 3.2515, POTTLE_COUNT, POTTLE_FREE, "3 1/2" },
    /* what may rise or fall does so by 3 % at most, else a finer measure is
       taken: 2.9129 lb are 2.99 % under 3, 2.9123 are 3.01 %, 46.6 oz */
    { LB * 2.9129, POTTLE_MASS, POTTLE_AT_LEAST, "3 lb" },
    { LB * 2.9123, POTTLE_MASS, POTTLE_AT_LEAST, "2 lb + 15 oz" },
    /* 2.577 lb are 2.99 % over 2 1/2, 2.5776 are 3.01 %, 41.24 oz */
    { LB * 2.577, POTTLE_MASS, POTTLE_AT_MOST, "2 1/2 lb" },
    { LB * 2.5776, POTTLE_MASS, POTTLE_AT_MOST, "2 lb + 9 oz" },
    { LB * 2.577, POTTLE_MASS, POTTLE_FREE, "2 1/2 lb" },
    { LB * 2.5776, POTTLE_MASS, POTTLE_FREE, "2 lb + 9 oz" },
    /* a free one by a third at most: half a piece is 33.9 % over 0.3735 and
       34.2 % over 0.3725; a quarter of an ounce 9.9 % over 0.2275 */
    { 0.3735, POTTLE_COUNT, POTTLE_FREE, "1/2" },
    { 0.3725, POTTLE_COUNT, POTTLE_FREE, NULL },
    { OZ * 0.2275, POTTLE_MASS, POTTLE_FREE, "1/4 oz" },
    /* quarts from four on: 15.9 cups are 0.6 % under 4 qt, and stay in cups */
    { CUP * 15.9, POTTLE_VOLUME, POTTLE_AT_LEAST, "16 cups" },
    { CUP * 16.1, POTTLE_VOLUME, POTTLE_AT_MOST, "4 qt" },
    /* 500 mL = 2.1134 cups = 33.814 tbsp: 2 1/4 cups is 6 % more, 2 cups 5 %
       less; 34 tbsp = 2 cups + 2 tbsp is 0.6 % more */
    { 500, POTTLE_VOLUME, POTTLE_AT_LEAST, "2 cups + 2 tbsp" },
    { 500, POTTLE_VOLUME, POTTLE_FREE, "2 cups + 2 tbsp" },
    { 500, POTTLE_VOLUME, POTTLE_EXACT, "2 cups + 2 tbsp" },
    { 500, POTTLE_VOLUME, POTTLE_AT_MOST,
      "2 cups + 1 tbsp" }, /* 33 tbsp, 2.4 % less */
    /* 1 L = 4.2268 cups = 67.628 tbsp: 4 1/4 cups is 0.5 % more */
    { 1000, POTTLE_VOLUME, POTTLE_AT_LEAST, "4 1/4 cups" },
    { 1000, POTTLE_VOLUME, POTTLE_EXACT, "4 1/4 cups" },
    { 1000, POTTLE_VOLUME, POTTLE_AT_MOST,
      "4 cups + 3 tbsp" }, /* 67 tbsp, 0.9 % less; 4 cups is 5 % less */
    /* 5 mL = 1.0144 tsp: 1 tsp is 1.4 % less, more than exact allows; above it
       the next spoon, 1 1/8, is 11 % more */
    { 5, POTTLE_VOLUME, POTTLE_FREE, "1 tsp" },
    { 5, POTTLE_VOLUME, POTTLE_AT_MOST, "1 tsp" },
    { 5, POTTLE_VOLUME, POTTLE_EXACT, NULL },
    { 5, POTTLE_VOLUME, POTTLE_AT_LEAST, NULL },
    { 15, POTTLE_VOLUME, POTTLE_FREE, "1 tbsp" },
    { 15, POTTLE_VOLUME, POTTLE_AT_MOST, "1 tbsp" },
    { 15, POTTLE_VOLUME, POTTLE_EXACT,
      NULL }, /* 1.4 % less, or 3 1/8 tsp, 2.7 % more */
    { 0.3, POTTLE_VOLUME, POTTLE_FREE, NULL }, /* half of the smallest spoon */
    { 0.6, POTTLE_VOLUME, POTTLE_AT_MOST, NULL },
    /* 1 kg = 35.274 oz: 36 oz is 2.1 % more, 35 oz 0.8 % less */
    { 1000, POTTLE_MASS, POTTLE_AT_LEAST, "2 lb + 4 oz" },
    { 1000, POTTLE_MASS, POTTLE_AT_MOST, "2 lb + 3 oz" },
    { 1000, POTTLE_MASS, POTTLE_EXACT, "2 lb + 3 oz" },
    { 1000, POTTLE_MASS, POTTLE_FREE, "2 lb + 3 oz" },
    /* 500 g = 17.637 oz: 18 oz is 2.1 % more, 17 oz 3.6 % less, 17 3/4 oz 0.6 %
       more, 17 1/2 oz 0.8 % less */
    { 500, POTTLE_MASS, POTTLE_AT_LEAST, "1 lb + 2 oz" },
    { 500, POTTLE_MASS, POTTLE_EXACT, "1 lb + 1 3/4 oz" },
    { 500, POTTLE_MASS, POTTLE_AT_MOST, "1 lb + 1 1/2 oz" },
    { 3, POTTLE_MASS, POTTLE_FREE,
      NULL }, /* half of the smallest step of the scale */
    /* pieces: whole ones, half ones where it is free */
    { 2.6, POTTLE_COUNT, POTTLE_FREE, "2 1/2" },
    { 2.9, POTTLE_COUNT, POTTLE_AT_LEAST, "3" },
    { 2.9, POTTLE_COUNT, POTTLE_AT_MOST, "2" },
    { 2.5, POTTLE_COUNT, POTTLE_EXACT, NULL },
    { 100.4, POTTLE_COUNT, POTTLE_EXACT, "100" },
    { 0.5, POTTLE_COUNT, POTTLE_AT_MOST, NULL },
    { 0.1, POTTLE_COUNT, POTTLE_FREE, NULL },
};

START_TEST(rounded_by_hand)
{
    pottle_measure m;
    char buf[80] = "refused";
    const pottle_status status = pottle_measure_round(
        rounded[_i].amount, rounded[_i].dimension, rounded[_i].keep, &m);
    if (status == POTTLE_OK)
        text_of(&m, buf, sizeof buf);
    const char *wanted =
        rounded[_i].text != NULL ? rounded[_i].text : "refused";
    ck_assert_msg(strcmp(buf, wanted) == 0, "%g, %s: '%s', by hand '%s'",
                  rounded[_i].amount, pottle_keep_name((int)rounded[_i].keep),
                  buf, wanted);
    ck_assert(status == POTTLE_OK || status == POTTLE_EDOMAIN);
}
END_TEST

/* 7 tbsp = 21 tsp: a cook fills spoons of the larger kind first (common
 * practice). */
START_TEST(larger_spoon_first)
{
    pottle_measure m;
    char buf[80];
    ck_assert_int_eq(
        pottle_measure_round(TBSP * 7, POTTLE_VOLUME, POTTLE_EXACT, &m),
        POTTLE_OK);
    ck_assert_msg(strcmp(text_of(&m, buf, sizeof buf), "1/4 cup + 3 tbsp") == 0,
                  "7 tbsp is '%s'", buf);
}
END_TEST

/* -- Statuses -------------------------------------------------------------- */

static const double no_amounts[] = { 0,
                                     -0.0,
                                     -1,
                                     -1e300,
                                     1e13,
                                     1e300,
                                     (double)NAN,
                                     (double)INFINITY,
                                     -(double)INFINITY };

START_TEST(amount_out_of_range)
{
    static const pottle_dimension dimensions[] = { POTTLE_MASS, POTTLE_VOLUME,
                                                   POTTLE_COUNT };
    pottle_measure m, untouched;
    memset(&m, 0x5A, sizeof m);
    memcpy(&untouched, &m, sizeof m);
    for (size_t d = 0; d < COUNT(dimensions); d++)
        for (size_t k = 0; k < COUNT(keeps); k++) {
            ck_assert_msg(pottle_measure_round(no_amounts[_i], dimensions[d],
                                               keeps[k], &m) == POTTLE_EDOMAIN,
                          "%g", no_amounts[_i]);
            ck_assert_mem_eq(&m, &untouched, sizeof m);
        }
}
END_TEST

/* Up to 10^12, which is more than there is. */
START_TEST(amount_at_the_end)
{
    pottle_measure m;
    ck_assert_int_eq(pottle_measure_round(1e12, POTTLE_VOLUME, POTTLE_FREE, &m),
                     POTTLE_OK);
    ck_assert_int_eq(
        pottle_measure_round(1.005e12, POTTLE_VOLUME, POTTLE_FREE, &m),
        POTTLE_EDOMAIN);
}
END_TEST

/* A keep rule that does not exist allows nothing. */
START_TEST(no_measures_of_an_unknown_rule)
{
    pottle_measure m, untouched;
    memset(&m, 0x5A, sizeof m);
    memcpy(&untouched, &m, sizeof m);
    ck_assert_int_eq(
        pottle_measure_round(CUP, POTTLE_VOLUME, (pottle_keep)99, &m),
        POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_measure_round(LB, POTTLE_MASS, (pottle_keep)99, &m),
                     POTTLE_EDOMAIN);
    ck_assert_mem_eq(&m, &untouched, sizeof m);
}
END_TEST

START_TEST(no_measures_of_other_dimensions)
{
    static const pottle_dimension others[] = { POTTLE_NUMBER, POTTLE_LENGTH,
                                               POTTLE_PRESSURE,
                                               POTTLE_TEMPERATURE,
                                               POTTLE_CONTAINER };
    pottle_measure m, untouched;
    memset(&m, 0x5A, sizeof m);
    memcpy(&untouched, &m, sizeof m);
    for (size_t d = 0; d < COUNT(others); d++) {
        ck_assert_msg(pottle_measure_round(1000, others[d], POTTLE_FREE, &m) !=
                          POTTLE_OK,
                      "%s", pottle_dimension_name((int)others[d]));
        ck_assert_mem_eq(&m, &untouched, sizeof m);
    }
    ck_assert_int_eq(pottle_measure_round(100, POTTLE_MASS, POTTLE_FREE, NULL),
                     POTTLE_EMISUSE);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("measure");
    TCase *t = tcase_create("known");
    tcase_add_loop_test(t, measure_stays_as_it_is, 0, COUNT(wholes));
    tcase_add_loop_test(t, rounded_by_hand, 0, COUNT(rounded));
    tcase_add_test(t, larger_spoon_first);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, measure_wording());
    suite_add_tcase(suite, measure_properties());

    t = tcase_create("statuses");
    tcase_add_loop_test(t, amount_out_of_range, 0, COUNT(no_amounts));
    tcase_add_test(t, amount_at_the_end);
    tcase_add_test(t, no_measures_of_an_unknown_rule);
    tcase_add_test(t, no_measures_of_other_dimensions);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
