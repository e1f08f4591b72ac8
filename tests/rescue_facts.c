/* rescue_facts.c - test_rescue: what a recipe tells of a jar, and what is
 * refused. */
#include <config.h>

#include <math.h>
#include <stdio.h>
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

/* -- What a recipe tells --------------------------------------------------- */

#define READ "read in the recipe's own file: its packs"

static const struct {
    const char *recipe, *jar;
    bool hot, dense;
    const char *source;
} recipes[] = {
    { "tomatoes-crushed", NULL, true, false, READ },
    { "tomatoes-crushed", "quart", true, false, READ },
    { "tomatoes-crushed", "half-gallon", false, false,
      "largest tested jar: quart" },
    { "beans-snap", "pint", true, false, READ " (raw and hot)" },
    { "pickled-asparagus", NULL, false, false, READ " (raw only)" },
    { "apple-pie-filling", NULL, true, true, UNL },
    { "pumpkin-winter-squash", "pint", true, true, UNL },
};

START_TEST(facts_of_a_recipe)
{
    pottle_recipe *recipe = kitchen_recipe(recipes[_i].recipe);
    pottle_jar_facts f = facts_of(3, YES, false, false, NO_SHARE);
    pottle_jar_facts_add(
        kitchen, recipe,
        recipes[_i].jar != NULL ? kitchen_jar(recipes[_i].jar) : NULL, &f);
    ck_assert_msg(f.hot_pack == recipes[_i].hot, "%s: hot pack %d (%s)",
                  recipes[_i].recipe, (int)f.hot_pack, recipes[_i].source);
    ck_assert_msg(f.dense == recipes[_i].dense, "%s: dense %d (%s)",
                  recipes[_i].recipe, (int)f.dense, recipes[_i].source);
    ck_assert_int_eq(f.followed, POTTLE_FOLLOWED);
    ck_assert(f.has_hours && f.hours > 2.9 && f.hours < 3.1);
    pottle_recipe_free(recipe);
}
END_TEST

/* A recipe of one's own was never tested, whatever it says of packs. */
START_TEST(facts_of_an_own_recipe)
{
    char path[PATH_ROOM];
    pottle_recipe *recipe = NULL;
    snprintf(path, sizeof path, "%s/tests/data/good/own-pickle.xml",
             source_folder());
    ck_assert_int_eq(pottle_recipe_read_file(kitchen, path, &recipe, NULL),
                     POTTLE_OK);
    pottle_jar_facts f = facts_of(3, YES, false, false, NO_SHARE);
    pottle_jar_facts_add(kitchen, recipe, NULL, &f);
    ck_assert_int_eq(f.followed, POTTLE_FOLLOWED_UNTESTED);
    ck_assert(!f.hot_pack);
    const pottle_rescue_case *c = NULL;
    ck_assert_int_eq(
        pottle_rescue_find(mishap_of("jar-not-sealed"), &f, &c, NULL),
        POTTLE_OK);
    ck_assert(c->options == 1 && offers(c, POTTLE_RESCUE_DISCARD));
    pottle_recipe_free(recipe);
}
END_TEST

TCase *
rescue_facts(void)
{
    TCase *t = tcase_create("facts");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, facts_of_a_recipe, 0, (int)COUNT(recipes));
    tcase_add_test(t, facts_of_an_own_recipe);
    tcase_add_loop_test(t, numbers_out_of_range, 0, (int)COUNT(outside));
    tcase_add_test(t, not_a_number);
    tcase_add_test(t, misuse);
    tcase_add_test(t, names);
    return t;
}
