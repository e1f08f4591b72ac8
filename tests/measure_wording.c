/* measure_wording.c - test_measure: measures as people say them. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "measure_cases.h"

static bool
same(double a, double b)
{
    return !(a < b) && !(a > b);
}

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

TCase *
measure_wording(void)
{
    TCase *t = tcase_create("wording");
    tcase_add_test(t, constants_are_the_standards);
    tcase_add_loop_test(t, written_as_people_say_it, 0, COUNT(written));
    tcase_add_test(t, written_in_decimals);
    tcase_add_test(t, written_like_snprintf);
    tcase_add_loop_test(t, written_and_read_again, 0, COUNT(keeps));
    return t;
}
