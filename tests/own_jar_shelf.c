/* own_jar_shelf.c - test_own_jar: the shelf and the cup. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "own_jar_cases.h"

/* -- The shelf ------------------------------------------------------------- */

static pottle_kitchen
a_kitchen(void)
{
    pottle_kitchen k;
    memset(&k, 0, sizeof k);
    pottle_own_jar jar = tall();
    strcpy(jar.id, "tall-honey-jar");
    jar.count = 6;
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &jar, NULL), POTTLE_OK);
    strcpy(jar.id, "lent-out");
    jar.count = 0;
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &jar, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "quart", 14, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "half-pint", 3, NULL),
                     POTTLE_OK);
    return k;
}

static const struct {
    const char *text;
    pottle_status status;
    unsigned long count;
    const char *jar;
    bool own;
} shelves[] = {
    { "6 pint", POTTLE_OK, 6, "pint", false },
    { " 6  pints", POTTLE_OK, 6, "pint", false },
    { "4 1/2 pint", POTTLE_OK, 4, "half-pint", false },
    { "12 8 oz", POTTLE_OK, 12, "half-pint", false },
    { "1000 quart", POTTLE_OK, 1000, "quart", false },
    { "7 tall honey jar", POTTLE_OK, 7, "tall-honey-jar", true },
    { "7 Tall-Honey-Jar", POTTLE_OK, 7, "tall-honey-jar", true },
    { "pint", POTTLE_ESYNTAX, 0, "", false },
    { "6", POTTLE_ESYNTAX, 0, "", false },
    { "6 ", POTTLE_ESYNTAX, 0, "", false },
    { "", POTTLE_ESYNTAX, 0, "", false },
    { "6.5 pint", POTTLE_ESYNTAX, 0, "", false },
    { "-6 pint", POTTLE_ESYNTAX, 0, "", false },
    { "6pint", POTTLE_ESYNTAX, 0, "", false },
    { "0 pint", POTTLE_EDOMAIN, 0, "", false },
    { "1001 pint", POTTLE_EDOMAIN, 0, "", false },
    { "99999999999999999999999999 pint", POTTLE_EDOMAIN, 0, "", false },
    { "6 demijohn", POTTLE_ENOENT, 0, "", false },
    { "12 oz", POTTLE_ENOENT, 0, "", false },
};

START_TEST(shelf_as_typed)
{
    const pottle_kitchen k = a_kitchen();
    pottle_shelf_size out = { NULL, NULL, 77 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_shelf_read(kitchen, &k, shelves[_i].text, &out, &error);
    ck_assert_msg(status == shelves[_i].status,
                  "'%s': expected %d, found %d: %s", shelves[_i].text,
                  (int)shelves[_i].status, (int)status, error.what);
    if (status != POTTLE_OK) {
        ck_assert(out.count == 77 && out.jar == NULL && out.own == NULL);
        return;
    }
    ck_assert_uint_eq(out.count, shelves[_i].count);
    ck_assert((out.own != NULL) == shelves[_i].own &&
              (out.jar == NULL) == shelves[_i].own);
    ck_assert_str_eq(out.own != NULL ? out.own->id : out.jar->id,
                     shelves[_i].jar);
    /* without a kitchen there are no jars of one's own */
    if (shelves[_i].own)
        ck_assert_int_eq(
            pottle_shelf_read(kitchen, NULL, shelves[_i].text, &out, &error),
            POTTLE_ENOENT);
}
END_TEST

START_TEST(shelf_of_a_kitchen)
{
    pottle_kitchen k = a_kitchen();
    pottle_shelf_size out[POTTLE_SHELF_MAX];
    size_t n = 0;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_kitchen_shelf(kitchen, &k, out, &n, &error),
                     POTTLE_OK);
    ck_assert_uint_eq(n, 3); /* the one that is lent out does not stand there */
    ck_assert(strcmp(out[0].jar->id, "half-pint") == 0 && out[0].count == 3 &&
              out[0].own == NULL);
    ck_assert(strcmp(out[1].jar->id, "quart") == 0 && out[1].count == 14);
    ck_assert(out[2].jar == NULL && out[2].own == &k.own[1] &&
              out[2].count == 6);
    strcpy(k.shelf[0].jar, "demijohn");
    ck_assert_int_eq(pottle_kitchen_shelf(kitchen, &k, out, &n, &error),
                     POTTLE_ENOENT);
    ck_assert_uint_eq(n, 3);
    k = a_kitchen();
    pottle_own_jar jar = tall();
    for (int i = 0; i < 14; i++) {
        snprintf(jar.id, sizeof jar.id, "jar-%d", i);
        jar.count = 1;
        ck_assert_int_eq(pottle_kitchen_put_own(&k, &jar, NULL), POTTLE_OK);
    }
    ck_assert_int_eq(pottle_kitchen_shelf(kitchen, &k, out, &n, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_kitchen_shelf(NULL, &k, out, &n, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_shelf(kitchen, NULL, out, &n, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_shelf(kitchen, &k, NULL, &n, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_shelf_read(kitchen, &k, NULL, out, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_shelf_read(NULL, &k, "6 pint", out, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_shelf_read(kitchen, &k, "6 pint", NULL, &error),
                     POTTLE_EMISUSE);
}
END_TEST

/* -- The cup --------------------------------------------------------------- */

static const struct {
    pottle_cup cup;
    const char *text, *unit;
} cups[] = {
    { POTTLE_CUP_METRIC, "8 cups diced rhubarb", "metric-cup" },
    { POTTLE_CUP_IMPERIAL, "1 Cup diced rhubarb", "imp-cup" },
    { POTTLE_CUP_US, "8 cups diced rhubarb", "cup" },
    { POTTLE_CUP_UNSAID, "8 cups diced rhubarb", "cup" },
    { POTTLE_CUP_METRIC, "8 us cups diced rhubarb", "cup" },
    { POTTLE_CUP_METRIC, "8 US-cups diced rhubarb", "cup" },
    { POTTLE_CUP_METRIC, "8 imperial cups diced rhubarb", "imp-cup" },
    { POTTLE_CUP_METRIC, "2 lb rhubarb", "lb" },
    { POTTLE_CUP_METRIC, "2 tbsp sugar", "tbsp" },
};

START_TEST(cup_of_a_phrase)
{
    pottle_kitchen k;
    memset(&k, 0, sizeof k);
    k.cup = cups[_i].cup;
    pottle_phrase p;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_phrase_read(kitchen, cups[_i].text, NULL, 0, &p,
                                     &error) == POTTLE_OK,
                  "%s", error.what);
    const pottle_phrase before = p;
    const bool changed = pottle_kitchen_cup(&k, cups[_i].text, &p);
    ck_assert_msg(strcmp(p.unit->id, cups[_i].unit) == 0,
                  "'%s': expected %s, found %s", cups[_i].text, cups[_i].unit,
                  p.unit->id);
    ck_assert(changed == (p.unit != before.unit));
    ck_assert(p.low >= before.low && p.low <= before.low &&
              strcmp(p.food, before.food) == 0);
    ck_assert(!pottle_kitchen_cup(NULL, cups[_i].text, &p));
    ck_assert(!pottle_kitchen_cup(&k, NULL, &p));
    ck_assert(!pottle_kitchen_cup(&k, cups[_i].text, NULL));
    k.cup = (pottle_cup)77;
    ck_assert(!pottle_kitchen_cup(&k, cups[_i].text, &p));
}
END_TEST

TCase *
own_jar_shelf(void)
{
    TCase *t = tcase_create("shelf");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, shelf_as_typed, 0, COUNT(shelves));
    tcase_add_test(t, shelf_of_a_kitchen);
    tcase_add_loop_test(t, cup_of_a_phrase, 0, COUNT(cups));
    return t;
}
