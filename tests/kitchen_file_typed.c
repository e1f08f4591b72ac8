/* kitchen_file_typed.c - test_kitchen_file: what a person types, put in and
 * taken out. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen_file_cases.h"

static const struct {
    const char *text;
    int dimension;
    pottle_status status;
    double value;
    const char *unit;
} amounts[] = {
    { "900 m", POTTLE_LENGTH, POTTLE_OK, 900, "m" },
    { "6200 ft", POTTLE_LENGTH, POTTLE_OK, 6200, "ft" },
    { "1.2 km", POTTLE_LENGTH, POTTLE_OK, 1200,
      "m" }, /* a kilometre is 1000 m */
    { "26 cm", POTTLE_LENGTH, POTTLE_OK, 26, "cm" },
    { "10 1/4 in", POTTLE_LENGTH, POTTLE_OK, 10.25, "in" },
    { "452 g", POTTLE_MASS, POTTLE_OK, 452, "g" },
    { "1 stone", POTTLE_MASS, POTTLE_OK, 6350.29318,
      "g" }, /* 14 x 453.59237 g */
    { "20 C", POTTLE_TEMPERATURE, POTTLE_EUNIT, 0, "" },
    { "20 degC", POTTLE_TEMPERATURE, POTTLE_OK, 20, "degc" },
    { "68 \xC2\xB0"
      "F",
      POTTLE_TEMPERATURE, POTTLE_OK, 68, "degf" },
    { "1 g", POTTLE_NUMBER, POTTLE_OK, 1, "g" },
    { "0.5 %", POTTLE_NUMBER, POTTLE_OK, 0.5, "percent" },
    { "0.5 kg", POTTLE_NUMBER, POTTLE_OK, 500, "g" },
    { "1 cup", POTTLE_NUMBER, POTTLE_EUNIT, 0, "" },
    { "1 cup", POTTLE_MASS, POTTLE_EUNIT, 0, "" },
    { "2-3 kg", POTTLE_MASS, POTTLE_ESYNTAX, 0, "" },
    { "kg", POTTLE_MASS, POTTLE_ESYNTAX, 0, "" },
    { "", POTTLE_MASS, POTTLE_ESYNTAX, 0, "" },
    { "1,5 kg", POTTLE_MASS, POTTLE_ESYNTAX, 0, "" },
    { "-3 m", POTTLE_LENGTH, POTTLE_ESYNTAX, 0, "" },
    { "99999999999 g", POTTLE_MASS, POTTLE_EDOMAIN, 0, "" },
    { "5 psi", POTTLE_PRESSURE, POTTLE_OK, 5, "psi" },
    { "100 Pa", POTTLE_PRESSURE, POTTLE_OK, 0.0145037738,
      "psi" }, /* 100 / 6894.757293 */
};

START_TEST(amount_as_typed)
{
    pottle_quantity out = q(7, "g");
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_kitchen_amount(
        amounts[_i].text, amounts[_i].dimension, &out, &error);
    ck_assert_msg(status == amounts[_i].status,
                  "'%s': expected %d, found %d: %s", amounts[_i].text,
                  (int)amounts[_i].status, (int)status, error.what);
    if (status != POTTLE_OK)
        ck_assert(is(out, 7, "g") && error.status == status);
    else
        ck_assert_msg(strcmp(out.unit->id, amounts[_i].unit) == 0 &&
                          fabs(out.low - amounts[_i].value) < 1e-9,
                      "'%s': found %.10g %s", amounts[_i].text, out.low,
                      out.unit->id);
}
END_TEST

static const struct {
    const char *text;
    int dimension;
    pottle_status status;
    bool high;
    double value;
    const char *unit;
} misreadings[] = {
    { "1 psi high", POTTLE_PRESSURE, POTTLE_OK, true, 1, "psi" },
    { "1/2 psi LOW", POTTLE_PRESSURE, POTTLE_OK, false, 0.5, "psi" },
    { "0 psi", POTTLE_PRESSURE, POTTLE_OK, false, 0, "psi" },
    { "1.5 degC high", POTTLE_TEMPERATURE, POTTLE_OK, true, 1.5, "degc" },
    { "2 deg F low", POTTLE_TEMPERATURE, POTTLE_OK, false, 2, "degf" },
    { "1 psi", POTTLE_PRESSURE, POTTLE_ESYNTAX, false, 0, "" },
    { "high", POTTLE_PRESSURE, POTTLE_ESYNTAX, false, 0, "" },
    { "", POTTLE_PRESSURE, POTTLE_ESYNTAX, false, 0, "" },
    { "1-2 psi high", POTTLE_PRESSURE, POTTLE_ESYNTAX, false, 0, "" },
    { "1 psi wrong", POTTLE_PRESSURE, POTTLE_EUNIT, false, 0, "" },
    { "1 degC high", POTTLE_PRESSURE, POTTLE_EUNIT, false, 0, "" },
    { "1 psi low", POTTLE_TEMPERATURE, POTTLE_EUNIT, false, 0, "" },
};

START_TEST(misreading_as_typed)
{
    pottle_misreading out = { true, q(7, "psi") };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_misreading_read(
        misreadings[_i].text, misreadings[_i].dimension, &out, &error);
    ck_assert_msg(status == misreadings[_i].status,
                  "'%s': expected %d, found %d: %s", misreadings[_i].text,
                  (int)misreadings[_i].status, (int)status, error.what);
    if (status != POTTLE_OK)
        ck_assert(is(out.by, 7, "psi") && out.high);
    else
        ck_assert(is(out.by, misreadings[_i].value, misreadings[_i].unit) &&
                  out.high == misreadings[_i].high);
}
END_TEST

static const struct {
    const char *name, *id;
} names[] = {
    { "tall", "tall" },
    { "Tall Honey  jar", "tall-honey-jar" },
    { "no. 7", NULL },
    { "K\xC3\xBC"
      "che",
      NULL },
    { "", NULL },
    { "../../etc", NULL },
    { "7", "7" },
    { "a_b", "a-b" },
    { " - ", NULL },
    { "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
      "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa" },
    { "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
      NULL },
};

START_TEST(id_of_a_name)
{
    char id[64] = "kept";
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_kitchen_id(names[_i].name, id, &error);
    ck_assert_msg(status == (names[_i].id != NULL ? POTTLE_OK : POTTLE_ESYNTAX),
                  "'%s': %d", names[_i].name, (int)status);
    ck_assert_str_eq(id, names[_i].id != NULL ? names[_i].id : "kept");
}
END_TEST

START_TEST(kinds_of_cup)
{
    pottle_cup cup = POTTLE_CUP_UNSAID;
    pottle_error error = { .status = POTTLE_OK };
    for (int i = POTTLE_CUP_US; i <= (int)POTTLE_CUP_METRIC; i++) {
        ck_assert_int_eq(pottle_cup_find(pottle_cup_name(i), &cup, &error),
                         POTTLE_OK);
        ck_assert_int_eq(cup, i);
    }
    ck_assert_int_eq(pottle_cup_find("tea", &cup, &error), POTTLE_ENOENT);
    ck_assert_int_eq(pottle_cup_find("unsaid", &cup, &error), POTTLE_ENOENT);
    ck_assert_int_eq(cup, POTTLE_CUP_METRIC);
    ck_assert_str_eq(pottle_cup_name(-1), "unknown");
    ck_assert_str_eq(pottle_cup_name(99), "unknown");
}
END_TEST

START_TEST(put_in_and_taken_out)
{
    pottle_kitchen k = small_kitchen();
    pottle_error error = { .status = POTTLE_OK };
    pottle_own_jar own;
    memset(&own, 0, sizeof own);
    strcpy(own.id, "tall");
    own.empty = q(1, "lb");
    own.full = q(900, "g");
    for (const char *id = "mcza"; *id != '\0'; id++) {
        own.id[0] = *id;
        own.id[1] = '\0';
        own.count = (unsigned long)*id;
        ck_assert_int_eq(pottle_kitchen_put_own(&k, &own, &error), POTTLE_OK);
    }
    ck_assert_uint_eq(k.own_jars, 4);
    ck_assert(k.own[0].id[0] == 'a' && k.own[1].id[0] == 'c' &&
              k.own[2].id[0] == 'm' && k.own[3].id[0] == 'z');
    strcpy(own.id, "m");
    own.count = 5;
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &own, &error), POTTLE_OK);
    ck_assert(k.own_jars == 4 && k.own[2].count == 5);
    own.full = q(1, "lb");
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &own, &error), POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "contradiction");
    ck_assert_msg(strstr(error.what, "453.592") != NULL,
                  "both numbers are named: %s", error.what);
    own.full = q(1, "cup");
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &own, &error), POTTLE_EUNIT);
    ck_assert_int_eq(
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_AN_OWN_JAR, "M", &error),
        POTTLE_OK);
    ck_assert(k.own_jars == 3 && k.own[2].id[0] == 'z' &&
              k.own[2].count == 'z');
    ck_assert_int_eq(
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_AN_OWN_JAR, "m", &error),
        POTTLE_ENOENT);
    ck_assert_int_eq(
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_A_POT, "jam pan", &error),
        POTTLE_OK);
    ck_assert_int_eq(
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_A_CANNER, "jam pan", &error),
        POTTLE_ENOENT);
    ck_assert_uint_eq(k.pots, 0);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "half-pint", 3, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "pint", 0, &error), POTTLE_OK);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "quart", 0, &error),
                     POTTLE_OK);
    ck_assert(k.shelves == 1 && strcmp(k.shelf[0].jar, "half-pint") == 0 &&
              k.shelf[0].count == 3);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "half-pint", 1001, &error),
                     POTTLE_EDOMAIN);
    pottle_kitchen_canner canner;
    memset(&canner, 0, sizeof canner);
    strcpy(canner.id, "big");
    canner.gauge.by = q(1, "psi");
    ck_assert_int_eq(pottle_kitchen_put_canner(&k, &canner, &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "gauge");
    canner.method = (pottle_method)9;
    ck_assert_int_eq(pottle_kitchen_put_canner(&k, &canner, &error),
                     POTTLE_EDOMAIN);
    canner.method = POTTLE_DIAL_GAUGE;
    ck_assert_int_eq(pottle_kitchen_put_canner(&k, &canner, &error), POTTLE_OK);
    /* an entry of the kitchen itself, while the others move */
    strcpy(k.own[2].id, "b");
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &k.own[2], &error), POTTLE_OK);
    ck_assert(k.own_jars == 4 && strcmp(k.own[1].id, "b") == 0);
}
END_TEST

TCase *
kitchen_file_typed(void)
{
    TCase *t = tcase_create("as typed");
    tcase_add_loop_test(t, amount_as_typed, 0, COUNT(amounts));
    tcase_add_loop_test(t, misreading_as_typed, 0, COUNT(misreadings));
    tcase_add_loop_test(t, id_of_a_name, 0, COUNT(names));
    tcase_add_test(t, kinds_of_cup);
    tcase_add_test(t, put_in_and_taken_out);
    return t;
}
