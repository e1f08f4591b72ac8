/* rescue_facts.c - test_rescue: numbers out of range, misuse and names. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "rescue_cases.h"

/* -- Refusals -------------------------------------------------------------- */

static const struct {
    double hours, lost;
    const char *code;
} outside[] = {
    { -1e-300, NO_SHARE, "hours" },  { -5, NO_SHARE, "hours" },
    { HUGE_VAL, NO_SHARE, "hours" }, { -HUGE_VAL, NO_SHARE, "hours" },
    { 1, 1.0000001, "share" },       { 1, 5, "share" },
    { 1, HUGE_VAL, "share" },
};

static void
expect_outside(double hours, double lost, const char *code)
{
    const pottle_mishap *m = mishap_of("liquid-lost");
    pottle_jar_facts f = facts_of(1, YES, true, false, 0.2);
    const pottle_rescue_case *before = m->list, *c = before;
    pottle_error error = { .status = POTTLE_OK };
    f.hours = hours;
    f.lost = lost;
    f.has_lost = !(lost >= NO_SHARE && lost <= NO_SHARE);
    ck_assert_int_eq(pottle_rescue_find(m, &f, &c, &error), POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, code);
    ck_assert_ptr_eq(c, before);
    ck_assert_int_eq(pottle_rescue_find(m, &f, &c, NULL), POTTLE_EDOMAIN);
}

START_TEST(numbers_out_of_range)
{
    expect_outside(outside[_i].hours, outside[_i].lost, outside[_i].code);
}
END_TEST

START_TEST(not_a_number)
{
    expect_outside(NOT_A_NUMBER, NO_SHARE, "hours");
    expect_outside(1, NOT_A_NUMBER, "share");
    expect_outside(1, -0.1, "share");
    /* what was not given is not looked at */
    pottle_jar_facts f = facts_of(NO_HOURS, YES, true, false, NO_SHARE);
    const pottle_rescue_case *c = NULL;
    f.hours = f.lost = NOT_A_NUMBER;
    ck_assert_int_eq(pottle_rescue_find(mishap_of("liquid-lost"), &f, &c, NULL),
                     POTTLE_OK);
    ck_assert(offers(c, POTTLE_RESCUE_DISCARD));
}
END_TEST

START_TEST(misuse)
{
    const pottle_mishap *m = mishap_of("liquid-lost"), *kept = m;
    pottle_jar_facts f = facts_of(1, YES, true, false, 0.2);
    const pottle_rescue_case *c = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_rescue_find(NULL, &f, &c, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_rescue_find(m, NULL, &c, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_rescue_find(m, &f, NULL, &error), POTTLE_EMISUSE);
    f.version = 2;
    ck_assert_int_eq(pottle_rescue_find(m, &f, &c, &error), POTTLE_EMISUSE);
    ck_assert_ptr_null(c);
    ck_assert_int_eq(pottle_mishap_find(NULL, "liquid-lost", &kept, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_find(kitchen, NULL, &kept, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_find(kitchen, "liquid-lost", NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_find(kitchen, "jar-exploded", &kept, &error),
                     POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-mishap");
    ck_assert_int_eq(
        pottle_mishap_find(kitchen, "jar-not-seeled", &kept, &error),
        POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "jar-not-sealed") != NULL, "%s",
                  error.what);
    ck_assert_ptr_eq(kept, m);
    ck_assert_int_eq(pottle_mishap_find(kitchen, "", &kept, NULL),
                     POTTLE_ENOENT);
}
END_TEST

START_TEST(names)
{
    static const char *const actions[] = { "discard",   "keep",
                                           "wait",      "remake",
                                           "reprocess", "refrigerate",
                                           "freeze" };
    for (size_t i = 0; i < COUNT(actions); i++)
        ck_assert_str_eq(pottle_rescue_action_name((int)i), actions[i]);
    ck_assert_str_eq(pottle_rescue_action_name(7), "unknown");
    ck_assert_str_eq(pottle_rescue_action_name(-1), "unknown");
    ck_assert_ptr_eq(mishap_of("Jar not sealed"), mishap_of("jar-not-sealed"));
}
END_TEST

TCase *
rescue_facts(void)
{
    TCase *t = tcase_create("facts");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, numbers_out_of_range, 0, (int)COUNT(outside));
    tcase_add_test(t, not_a_number);
    tcase_add_test(t, misuse);
    tcase_add_test(t, names);
    return t;
}
