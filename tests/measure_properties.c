/* measure_properties.c - test_measure: rules that hold for every amount. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "measure_cases.h"

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

TCase *
measure_properties(void)
{
    TCase *t = tcase_create("properties");
    tcase_set_timeout(t, 120);
    tcase_add_loop_test(t, volumes_keep_their_rule, -1, 6);
    tcase_add_loop_test(t, masses_keep_their_rule, 0, 6);
    tcase_add_loop_test(t, counts_keep_their_rule, -1, 6);
    tcase_add_test(t, hairs_breadth);
    tcase_add_test(t, so_many_jars);
    tcase_add_loop_test(t, no_needless_refusal, 0, COUNT(keeps));
    tcase_add_loop_test(t, small_parts_are_small, 0, COUNT(keeps));
    return t;
}
