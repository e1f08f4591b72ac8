/* test_measure.c - rounding to kitchen measures: known answers, the direction
 * of each keep rule, wording. */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* NIST Handbook 44 and the pound of 1959. */
#define CUP 236.5882365
#define TBSP 14.78676478125
#define TSP 4.92892159375
#define QT 946.352946
#define LB 453.59237
#define OZ 28.349523125

static const pottle_keep keeps[] = { POTTLE_FREE, POTTLE_EXACT, POTTLE_AT_LEAST,
                                     POTTLE_AT_MOST };

static bool
same(double a, double b)
{
    return !(a < b) && !(a > b);
}

static const char *
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

/* -- Properties ------------------------------------------------------------ */

/* Dust of the conversions, far below what any scale shows. */
static const double dust = 2e-9;
/* How far a measure may lie on the free side (common practice: a twentieth). */
static const double twentieth = 0.05;

static bool
multiple(double x, double step)
{
    const double n = floor(x / step + 0.5);
    return n >= 1 && fabs(x / step - n) < 1e-9;
}

/* Spoons, cups and scales of a kitchen. */
static bool
in_a_kitchen(double count, const char *unit)
{
    if (strcmp(unit, "tsp") == 0)
        return multiple(count, 0.125);
    if (strcmp(unit, "tbsp") == 0)
        return multiple(count, 0.5);
    if (strcmp(unit, "cup") == 0)
        return multiple(count, 0.25) || multiple(count, 1.0 / 3.0);
    if (strcmp(unit, "qt") == 0)
        return multiple(count, 0.5);
    if (strcmp(unit, "oz") == 0)
        return multiple(count, 0.25);
    if (strcmp(unit, "lb") == 0)
        return multiple(count, 0.5);
    if (strcmp(unit, "count") == 0)
        return multiple(count, 0.5);
    return false;
}

static void
check_shape(double amount, pottle_dimension dimension, const pottle_measure *m)
{
    ck_assert_msg(m->parts >= 1 && m->parts <= 3, "%.12g: %zu parts", amount,
                  m->parts);
    double sum = 0;
    for (size_t i = 0; i < m->parts; i++) {
        const pottle_unit *u = m->part[i].unit;
        ck_assert_ptr_nonnull(u);
        ck_assert_int_eq(u->dimension, dimension);
        ck_assert_msg(in_a_kitchen(m->part[i].count, u->id),
                      "%.12g: no kitchen has %.12g %s", amount,
                      m->part[i].count, u->id);
        ck_assert_msg(i == 0 || u->factor < m->part[i - 1].unit->factor,
                      "%.12g: %s behind %s", amount, u->id,
                      m->part[i - 1].unit->id);
        ck_assert_msg(i == 0 || m->part[i].count * u->factor <
                                    m->part[i - 1].unit->factor,
                      "%.12g: %g %s is one more %s", amount, m->part[i].count,
                      u->id, m->part[i - 1].unit->id);
        ck_assert_str_eq(m->part[i].size, "");
        sum += m->part[i].count * u->factor;
    }
    ck_assert_msg(fabs(sum / m->base - 1) < 1e-12,
                  "%.12g: the parts add up to %.15g, base is %.15g", amount,
                  sum, m->base);
}

static size_t given;

static void
check_amount(double amount, pottle_dimension dimension)
{
    for (size_t k = 0; k < COUNT(keeps); k++) {
        pottle_measure m, untouched;
        memset(&m, 0x5A, sizeof m);
        memcpy(&untouched, &m, sizeof m);
        const pottle_status status =
            pottle_measure_round(amount, dimension, keeps[k], &m);
        if (status != POTTLE_OK) {
            ck_assert_int_eq(status, POTTLE_EDOMAIN);
            ck_assert_mem_eq(&m, &untouched, sizeof m);
            continue;
        }
        given++;
        check_shape(amount, dimension, &m);
        const double ratio = m.base / amount;
        const char *keep = pottle_keep_name((int)keeps[k]);
        /* pieces come whole, and a third of one more or less is all there is
         * between one and a half and two */
        const double far = dimension == POTTLE_COUNT ? 0.35 : twentieth;
        switch (keeps[k]) {
        case POTTLE_AT_LEAST:
            ck_assert_msg(ratio >= 1 - dust, "%.12g, %s: %.12g is less", amount,
                          keep, m.base);
            ck_assert_msg(ratio <= 1 + far, "%.12g, %s: %.12g is much more",
                          amount, keep, m.base);
            break;
        case POTTLE_AT_MOST:
            ck_assert_msg(ratio <= 1 + dust, "%.12g, %s: %.12g is more", amount,
                          keep, m.base);
            ck_assert_msg(ratio >= 1 - far, "%.12g, %s: %.12g is much less",
                          amount, keep, m.base);
            break;
        case POTTLE_EXACT:
            ck_assert_msg(fabs(ratio - 1) <= POTTLE_EXACT_TOLERANCE + dust,
                          "%.12g, %s: %.12g is out by %g", amount, keep, m.base,
                          ratio - 1);
            break;
        case POTTLE_FREE:
            /* a matter of taste: never further than from one spoon to the next
             */
            ck_assert_msg(fabs(ratio - 1) <= 0.35,
                          "%.12g, %s: %.12g is out by %g", amount, keep, m.base,
                          ratio - 1);
            break;
        }
    }
}

/* One loop is a decade of amounts, in steps of 1/2000 of it. */
enum { STEPS = 2000 };

static void
sweep(double from, pottle_dimension dimension)
{
    given = 0;
    for (int i = 0; i <= STEPS; i++)
        check_amount(from * pow(10.0, (double)i / STEPS), dimension);
}

START_TEST(volumes_keep_their_rule)
{
    sweep(pow(10.0, _i), POTTLE_VOLUME); /* 0.1 mL to 1e6 mL */
    ck_assert_msg(_i < 0 || given > STEPS / 2, "only %zu measures", given);
}
END_TEST

START_TEST(masses_keep_their_rule)
{
    sweep(pow(10.0, _i), POTTLE_MASS); /* 1 g to 1e6 g */
    ck_assert_msg(_i < 1 || given > STEPS / 2, "only %zu measures", given);
}
END_TEST

START_TEST(counts_keep_their_rule)
{
    sweep(pow(10.0, _i), POTTLE_COUNT); /* 0.1 to 1e6 pieces */
    ck_assert_msg(_i < 0 || given > STEPS / 2, "only %zu measures", given);
}
END_TEST

/* A hair's breadth above or below a measure is where a direction goes wrong. */
/* USDA Bulletin 539, guide 3: 2 tbsp of bottled lemon juice, 1/2 tsp of citric
 * acid or 4 tbsp of vinegar a quart; NIST Handbook 133, appendix E: 16 tbsp are
 * a cup and 3 tsp a tbsp, so that 25 jars take 50 tbsp, 12 1/2 tsp, 100 tbsp.
 */
START_TEST(so_many_jars)
{
    static const struct {
        double each;
        const char *unit, *size;
        unsigned long jars;
        const char *text;
    } rows[] = {
        { 2, "tbsp", NULL, 25, "3 cups + 2 tbsp" },
        { 0.5, "tsp", "", 25, "1/4 cup + 1/2 tsp" },
        { 4, "tbsp", "", 25, "6 1/4 cups" },
        { 0.5, "tsp", "", 1, "1/2 tsp" },
        { 2, "count", "slice", 10, "20 slices" },
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const pottle_unit *unit = pottle_unit_find(rows[i].unit);
        pottle_measure m;
        char text[80];
        ck_assert_ptr_nonnull(unit);
        ck_assert_int_eq(pottle_measure_jars(rows[i].each, unit, rows[i].size,
                                             rows[i].jars, POTTLE_AT_LEAST, &m),
                         POTTLE_OK);
        ck_assert_str_eq(text_of(&m, text, sizeof text), rows[i].text);
        ck_assert_int_eq(pottle_measure_jars(rows[i].each, unit, rows[i].size,
                                             0, POTTLE_AT_LEAST, &m),
                         POTTLE_EDOMAIN);
    }
}
END_TEST

START_TEST(hairs_breadth)
{
    static const double hairs[] = { -1e-4, -1e-6, -1e-8, -1e-10, -1e-13, 0,
                                    1e-13, 1e-10, 1e-8,  1e-6,   1e-4 };
    for (size_t h = 0; h < COUNT(hairs); h++) {
        for (int n = 1; n <= 400; n++) {
            check_amount(n * TSP / 8 * (1 + hairs[h]), POTTLE_VOLUME);
            check_amount(n * TBSP / 2 * (1 + hairs[h]), POTTLE_VOLUME);
            check_amount(n * CUP / 3 * (1 + hairs[h]), POTTLE_VOLUME);
            check_amount(n * CUP / 4 * (1 + hairs[h]), POTTLE_VOLUME);
            check_amount(n * QT / 2 * (1 + hairs[h]), POTTLE_VOLUME);
            check_amount(n * OZ / 4 * (1 + hairs[h]), POTTLE_MASS);
            check_amount(n * LB / 2 * (1 + hairs[h]), POTTLE_MASS);
            check_amount(n * 0.5 * (1 + hairs[h]), POTTLE_COUNT);
        }
    }
}
END_TEST

/* Above these there is always a measure near enough: half of 1/2 tsp (1.23 mL)
 * is a hundredth of 124 mL, half of 1/4 oz (3.54 g) a hundredth of 355 g; a
 * whole step is a twentieth of less than that. */
START_TEST(no_needless_refusal)
{
    pottle_measure m;
    for (double amount = 124; amount < 1e6; amount *= 1.0017)
        ck_assert_msg(pottle_measure_round(amount, POTTLE_VOLUME, keeps[_i],
                                           &m) == POTTLE_OK,
                      "%g mL, %s", amount, pottle_keep_name((int)keeps[_i]));
    for (double amount = 355; amount < 1e6; amount *= 1.0017)
        ck_assert_msg(pottle_measure_round(amount, POTTLE_MASS, keeps[_i],
                                           &m) == POTTLE_OK,
                      "%g g, %s", amount, pottle_keep_name((int)keeps[_i]));
}
END_TEST

/* Beside a larger measure nobody counts out teaspoons by the dozen: 3 of them
 * are a tablespoon, and 4 tablespoons a quarter cup (common practice). */
START_TEST(small_parts_are_small)
{
    pottle_measure m;
    char buf[80];
    for (double amount = 1; amount < 1e5; amount *= 1.0023) {
        if (pottle_measure_round(amount, POTTLE_VOLUME, keeps[_i], &m) !=
            POTTLE_OK)
            continue;
        for (size_t i = 1; i < m.parts; i++) {
            const char *id = m.part[i].unit->id;
            const bool many =
                (strcmp(id, "tsp") == 0 && m.part[i].count > 3 - 1e-9) ||
                (strcmp(id, "tbsp") == 0 && m.part[i].count > 4 - 1e-9) ||
                (strcmp(id, "oz") == 0 && m.part[i].count > 16 - 1e-9);
            ck_assert_msg(!many, "%.2f mL, %s: '%s'", amount,
                          pottle_keep_name((int)keeps[_i]),
                          text_of(&m, buf, sizeof buf));
        }
    }
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

/* -- Wording --------------------------------------------------------------- */

/* size: of a counted piece. Plurals are those of the language. */
static const struct {
    struct {
        double count;
        const char *unit, *size;
    } part[3];
    const char *text;
} written[] = {
    { { { 1, "cup", "" } }, "1 cup" },
    { { { 1.5, "cup", "" } }, "1 1/2 cups" },
    { { { 0.5, "cup", "" } }, "1/2 cup" },
    { { { 1.0 / 3, "cup", "" } }, "1/3 cup" },
    { { { 2.0 / 3, "cup", "" } }, "2/3 cup" },
    { { { 7.0 / 3, "cup", "" } }, "2 1/3 cups" },
    { { { 2.25, "cup", "" } }, "2 1/4 cups" },
    { { { 0.125, "tsp", "" } }, "1/8 tsp" },
    { { { 0.375, "tsp", "" } }, "3/8 tsp" },
    { { { 1.625, "tsp", "" } }, "1 5/8 tsp" },
    { { { 2.875, "tsp", "" } }, "2 7/8 tsp" },
    { { { 3, "tbsp", "" } }, "3 tbsp" },
    { { { 1.5, "cup", "" }, { 2, "tbsp", "" } }, "1 1/2 cups + 2 tbsp" },
    { { { 2, "qt", "" }, { 1, "cup", "" }, { 2, "tbsp", "" } },
      "2 qt + 1 cup + 2 tbsp" },
    { { { 5, "lb", "" }, { 8, "oz", "" } }, "5 lb + 8 oz" },
    { { { 2.5, "lb", "" } }, "2 1/2 lb" },
    { { { 1.75, "oz", "" } }, "1 3/4 oz" },
    { { { 12, "count", "" } }, "12" },
    { { { 12, "count", "one" } }, "12" },
    { { { 1, "count", "clove" } }, "1 clove" },
    { { { 3, "count", "clove" } }, "3 cloves" },
    { { { 0.5, "count", "clove" } }, "1/2 clove" },
    { { { 12, "count", "medium" } }, "12 medium" },
    { { { 3, "count", "small" } }, "3 small" },
    { { { 3, "count", "large" } }, "3 large" },
    { { { 3, "count", "extra-large" } }, "3 extra-large" },
    { { { 1, "count", "box" } }, "1 box" },
    { { { 2, "count", "box" } }, "2 boxes" },
    { { { 2, "count", "pouch" } }, "2 pouches" },
    { { { 2, "count", "bunch" } }, "2 bunches" },
    { { { 4, "count", "stick" } }, "4 sticks" },
    { { { 2.5, "count", "head" } }, "2 1/2 heads" },
    { { { 6, "count", "drop" } }, "6 drops" },
    { { { 1, "count", "leaf" } }, "1 leaf" },
    { { { 2, "count", "leaf" } }, "2 leaves" },
};

START_TEST(written_as_people_say_it)
{
    pottle_measure m;
    memset(&m, 0, sizeof m);
    for (; m.parts < 3 && written[_i].part[m.parts].unit != NULL; m.parts++) {
        m.part[m.parts].count = written[_i].part[m.parts].count;
        m.part[m.parts].unit = pottle_unit_find(written[_i].part[m.parts].unit);
        snprintf(m.part[m.parts].size, sizeof m.part[m.parts].size, "%s",
                 written[_i].part[m.parts].size);
    }
    char buf[80];
    const size_t n = pottle_measure_write(&m, buf, sizeof buf);
    ck_assert_str_eq(buf, written[_i].text);
    ck_assert_uint_eq(n, strlen(written[_i].text));
}
END_TEST

/* What is no eighth or third is written with two decimals; pieces may have no
 * size. */
START_TEST(written_in_decimals)
{
    char buf[40];
    const pottle_unit *piece = pottle_unit_find("count");
    pottle_measure m = { .parts = 1 };
    m.part[0].count = 1.237;
    m.part[0].unit = pottle_unit_find("cup");
    pottle_measure_write(&m, buf, sizeof buf);
    ck_assert_str_eq(buf, "1.24 cups");
    m.part[0].count = 2;
    m.part[0].unit = pottle_unit_find("box");
    pottle_measure_write(&m, buf, sizeof buf);
    ck_assert_str_eq(buf, "2 boxes");
    m.part[0].unit = pottle_unit_find("dry-quart");
    pottle_measure_write(&m, buf, sizeof buf);
    ck_assert_str_eq(buf, "2 dry qt");
    ck_assert_int_eq(pottle_measure_jars(1, piece, NULL, 3, POTTLE_EXACT, &m),
                     POTTLE_OK);
    pottle_measure_write(&m, buf, sizeof buf);
    ck_assert_str_eq(buf, "3");
}
END_TEST

START_TEST(written_like_snprintf)
{
    pottle_measure m;
    ck_assert_int_eq(pottle_measure_round(CUP * 2 + TBSP * 2, POTTLE_VOLUME,
                                          POTTLE_EXACT, &m),
                     POTTLE_OK);
    const size_t n = strlen("2 cups + 2 tbsp");
    char buf[32] = "xxxxxxxxxxxxxxx";
    ck_assert_uint_eq(pottle_measure_write(&m, NULL, 0), n);
    ck_assert_uint_eq(pottle_measure_write(&m, buf, 0), n);
    ck_assert_str_eq(buf, "xxxxxxxxxxxxxxx");
    ck_assert_uint_eq(pottle_measure_write(&m, buf, 1), n);
    ck_assert_str_eq(buf, "");
    ck_assert_uint_eq(pottle_measure_write(&m, buf, 7), n);
    ck_assert_str_eq(buf, "2 cups");
    ck_assert_uint_eq(pottle_measure_write(&m, buf, n), n);
    ck_assert_str_eq(buf, "2 cups + 2 tbs");
    ck_assert_uint_eq(pottle_measure_write(&m, buf, n + 1), n);
    ck_assert_str_eq(buf, "2 cups + 2 tbsp");
}
END_TEST

/* Reads back what is written: "N" or "N UNIT", parted by "+". */
static double
read_back(const char *text)
{
    char copy[80];
    double sum = 0;
    snprintf(copy, sizeof copy, "%s", text);
    for (char *part = copy; part != NULL;) {
        char *plus = strstr(part, " + ");
        if (plus != NULL)
            *plus = '\0';
        pottle_quantity q = { 0, 0, NULL };
        ck_assert_msg(pottle_quantity_read(part, -1, &q, NULL) == POTTLE_OK,
                      "'%s' of '%s' cannot be read", part, text);
        sum += q.low * q.unit->factor;
        part = plus != NULL ? plus + 3 : NULL;
    }
    return sum;
}

/* The text says the amount: read again it is what the parts add up to, be they
 * thirds or eighths. */
START_TEST(written_and_read_again)
{
    char buf[80];
    pottle_measure m;
    for (double amount = 0.5; amount < 1e6; amount *= 1.0071) {
        if (pottle_measure_round(amount, POTTLE_VOLUME, keeps[_i], &m) ==
            POTTLE_OK)
            ck_assert_msg(
                fabs(read_back(text_of(&m, buf, sizeof buf)) / m.base - 1) <
                    1e-9,
                "%.9g mL is '%s'", m.base, buf);
        if (pottle_measure_round(amount, POTTLE_MASS, keeps[_i], &m) ==
            POTTLE_OK)
            ck_assert_msg(
                fabs(read_back(text_of(&m, buf, sizeof buf)) / m.base - 1) <
                    1e-9,
                "%.9g g is '%s'", m.base, buf);
    }
}
END_TEST

START_TEST(constants_are_the_standards)
{
    ck_assert(same(pottle_unit_find("cup")->factor, CUP) &&
              same(pottle_unit_find("tbsp")->factor, TBSP) &&
              same(pottle_unit_find("tsp")->factor, TSP));
    ck_assert(same(pottle_unit_find("qt")->factor, QT) &&
              same(pottle_unit_find("lb")->factor, LB) &&
              same(pottle_unit_find("oz")->factor, OZ));
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("measure");
    TCase *t = tcase_create("known");
    tcase_add_test(t, constants_are_the_standards);
    tcase_add_loop_test(t, measure_stays_as_it_is, 0, COUNT(wholes));
    tcase_add_loop_test(t, rounded_by_hand, 0, COUNT(rounded));
    tcase_add_test(t, larger_spoon_first);
    suite_add_tcase(suite, t);

    t = tcase_create("properties");
    tcase_set_timeout(t, 120);
    tcase_add_loop_test(t, volumes_keep_their_rule, -1, 6);
    tcase_add_loop_test(t, masses_keep_their_rule, 0, 6);
    tcase_add_loop_test(t, counts_keep_their_rule, -1, 6);
    tcase_add_test(t, hairs_breadth);
    tcase_add_test(t, so_many_jars);
    tcase_add_loop_test(t, no_needless_refusal, 0, COUNT(keeps));
    tcase_add_loop_test(t, small_parts_are_small, 0, COUNT(keeps));
    suite_add_tcase(suite, t);

    t = tcase_create("statuses");
    tcase_add_loop_test(t, amount_out_of_range, 0, COUNT(no_amounts));
    tcase_add_test(t, amount_at_the_end);
    tcase_add_test(t, no_measures_of_an_unknown_rule);
    tcase_add_test(t, no_measures_of_other_dimensions);
    suite_add_tcase(suite, t);

    t = tcase_create("wording");
    tcase_add_loop_test(t, written_as_people_say_it, 0, COUNT(written));
    tcase_add_test(t, written_in_decimals);
    tcase_add_test(t, written_like_snprintf);
    tcase_add_loop_test(t, written_and_read_again, 0, COUNT(keeps));
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
