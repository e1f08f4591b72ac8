/* rescue_recipe.c - part of test_rescue: what a recipe tells of a jar that went
 * wrong, and whether a tested process can have been followed at all. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "rescue_cases.h"
#include "suite.h"

static pottle_jar_facts
three_hours(pottle_followed followed)
{
    return (pottle_jar_facts){ .version = POTTLE_JAR_FACTS_VERSION,
                               .has_hours = true,
                               .hours = 3,
                               .followed = followed };
}

#define READ "read in the recipe's own file: its packs"

static const struct {
    const char *recipe, *jar;
    bool hot, dense, acid;
    pottle_followed was, is; /* the first process, before and after */
    const char *source;
} recipes[] = {
    { "tomatoes-crushed", NULL, true, false, true, YES, YES, READ },
    { "tomatoes-crushed", "quart", true, false, true, YES, YES, READ },
    { "tomatoes-crushed", "half-gallon", false, false, true, YES, UNTESTED,
      "largest tested jar: quart" },
    { "beans-snap", "pint", true, false, false, YES, YES,
      READ " (raw and hot)" },
    { "beans-snap", "half-gallon", false, false, false, YES, UNTESTED,
      "half-gallon: apple and grape juice only (Penn State)" },
    { "beans-snap", "half-gallon", false, false, false, UNKNOWN, UNTESTED,
      "half-gallon: apple and grape juice only (Penn State)" },
    /* of a process that was wrong the jar may be what was wrong */
    { "beans-snap", "half-gallon", false, false, false, WRONG, WRONG,
      "half-gallon: apple and grape juice only (Penn State)" },
    { "apple-juice", "half-gallon", true, false, false, YES, YES,
      "half-gallon: apple and grape juice only (Penn State)" },
    { "pickled-asparagus", NULL, false, false, false, YES, YES,
      READ " (raw only)" },
    { "pickled-horseradish-sauce", NULL, false, false, false, YES, UNTESTED,
      "USDA guide 6: it has no process and is refrigerated" },
    { "pickled-horseradish-sauce", NULL, false, false, false, WRONG, UNTESTED,
      "USDA guide 6: it has no process and is refrigerated" },
    { "apple-pie-filling", NULL, true, true, false, YES, YES,
      "University of Nebraska-Lincoln, jars did not seal: dense foods" },
    { "pumpkin-winter-squash", "pint", true, true, false, YES, YES,
      "University of Nebraska-Lincoln, jars did not seal: dense foods" },
};

START_TEST(facts_of_a_recipe)
{
    pottle_recipe *recipe = kitchen_recipe(recipes[_i].recipe);
    pottle_jar_facts f = three_hours(recipes[_i].was);
    pottle_jar_facts_add(
        kitchen, recipe,
        recipes[_i].jar != NULL ? kitchen_jar(recipes[_i].jar) : NULL, &f);
    ck_assert_msg(f.hot_pack == recipes[_i].hot, "%s: hot pack %d (%s)",
                  recipes[_i].recipe, (int)f.hot_pack, recipes[_i].source);
    ck_assert_msg(f.dense == recipes[_i].dense, "%s: dense %d (%s)",
                  recipes[_i].recipe, (int)f.dense, recipes[_i].source);
    ck_assert_msg(f.followed == recipes[_i].is &&
                      f.jar_acid == recipes[_i].acid,
                  "%s: process %d, acid %d (%s)", recipes[_i].recipe,
                  (int)f.followed, (int)f.jar_acid, recipes[_i].source);
    ck_assert(f.has_hours && f.hours > 2.9 && f.hours < 3.1);
    pottle_recipe_free(recipe);
}
END_TEST

/* A mishap that cannot have happened to a recipe. */
static const struct {
    const char *mishap, *recipe;
    pottle_status status;
    const char *source;
} suits[] = {
    { "vinegar-weak", "pickled-asparagus", POTTLE_OK, "its 4 1/2 cups" },
    { "vinegar-weak", "tomatoes-crushed", POTTLE_OK,
      "USDA guide 3: vinegar is one acid of the jar" },
    { "vinegar-weak", "beans-snap", POTTLE_EDOMAIN, "it has none" },
    { "acid-forgotten", "tomatoes-crushed", POTTLE_OK, "USDA guide 3" },
    { "acid-forgotten", "chile-salsa", POTTLE_OK, "acid in the pot" },
    { "acid-forgotten", "beans-snap", POTTLE_EDOMAIN, "it has none" },
    { "jam-not-set", "strawberry-jam-powdered-pectin", POTTLE_OK, "a jam" },
    { "jam-not-set", "apple-jelly-no-pectin", POTTLE_OK, "a jelly" },
    { "jam-not-set", "chile-salsa", POTTLE_EDOMAIN, "a salsa" },
    { "jam-not-set", "apple-butter", POTTLE_EDOMAIN, "no gel is asked of it" },
    { "jam-not-set", "berry-freezer-jam-powdered-pectin", POTTLE_EDOMAIN,
      "it is never cooked and never canned" },
    { "jar-not-sealed", "chile-salsa", POTTLE_OK, "any jar" },
};

START_TEST(mishaps_of_a_recipe)
{
    pottle_recipe *recipe = kitchen_recipe(suits[_i].recipe);
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_mishap_suits(kitchen, mishap_of(suits[_i].mishap),
                                      recipe, &error) == suits[_i].status,
                  "%s, %s (%s): %s", suits[_i].mishap, suits[_i].recipe,
                  suits[_i].source, error.what);
    ck_assert(suits[_i].status == POTTLE_OK ||
              strstr(error.what, suits[_i].recipe) != NULL);
    ck_assert_int_eq(
        pottle_mishap_suits(NULL, mishap_of(suits[_i].mishap), recipe, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_suits(kitchen, NULL, recipe, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_mishap_suits(kitchen, mishap_of(suits[_i].mishap), NULL, NULL),
        POTTLE_EMISUSE);
    pottle_recipe_free(recipe);
}
END_TEST

/* Jar, pack and altitude together: crushed tomatoes are packed hot, in quarts
 * at most (guide 3); raw snap beans in a dial or weighted gauge, the weights in
 * an open band (guide 4); horseradish sauce has no process (guide 6). */
static const struct {
    const char *recipe, *jar;
    pottle_pack_style pack;
    double altitude_m; /* below 0: not known */
    pottle_status status;
    const char *code;
} possible[] = {
    { "tomatoes-crushed", NULL, POTTLE_ANY_PACK, -1, POTTLE_OK, "" },
    { "tomatoes-crushed", "pint", POTTLE_HOT_PACK, 0, POTTLE_OK, "" },
    { "tomatoes-crushed", NULL, POTTLE_RAW_PACK, -1, POTTLE_EBOUNDS,
      "no-process-pack" },
    { "tomatoes-crushed", "half-gallon", POTTLE_ANY_PACK, -1, POTTLE_EBOUNDS,
      "jar-larger" },
    { "beans-snap", "quart", POTTLE_RAW_PACK, 2600, POTTLE_OK, "" },
    { "pickled-horseradish-sauce", NULL, POTTLE_ANY_PACK, -1, POTTLE_EBOUNDS,
      "not-canned" },
    { "pickled-horseradish-sauce", "pint", POTTLE_ANY_PACK, 0, POTTLE_EBOUNDS,
      "not-canned" },
    { "tomatoes-crushed", NULL, POTTLE_ANY_PACK, 1e9, POTTLE_EDOMAIN,
      "altitude" },
};

START_TEST(processes_that_can_be)
{
    pottle_recipe *recipe = kitchen_recipe(possible[_i].recipe);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_exists(
        kitchen, recipe,
        possible[_i].jar != NULL ? kitchen_jar(possible[_i].jar) : NULL,
        possible[_i].pack,
        possible[_i].altitude_m < 0 ? NULL : &possible[_i].altitude_m, &error);
    ck_assert_msg(status == possible[_i].status &&
                      strcmp(error.code, possible[_i].code) == 0,
                  "%s: %d %s", possible[_i].recipe, (int)status, error.what);
    ck_assert_int_eq(
        pottle_process_exists(NULL, recipe, NULL, POTTLE_ANY_PACK, NULL, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_process_exists(kitchen, NULL, NULL, POTTLE_ANY_PACK, NULL, NULL),
        POTTLE_EMISUSE);
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
    pottle_jar_facts f = three_hours(YES);
    pottle_jar_facts_add(kitchen, recipe, NULL, &f);
    ck_assert_int_eq(f.followed, POTTLE_FOLLOWED_UNTESTED);
    ck_assert(!f.hot_pack);
    const pottle_rescue_case *c = NULL;
    ck_assert_int_eq(
        pottle_rescue_find(mishap_of("jar-not-sealed"), &f, &c, NULL),
        POTTLE_OK);
    ck_assert(c->options == 1 && c->option[0].action == POTTLE_RESCUE_DISCARD);
    pottle_recipe_free(recipe);
}
END_TEST

TCase *
rescue_recipe(void)
{
    TCase *t = tcase_create("recipe");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, facts_of_a_recipe, 0, (int)COUNT(recipes));
    tcase_add_test(t, facts_of_an_own_recipe);
    tcase_add_loop_test(t, mishaps_of_a_recipe, 0, (int)COUNT(suits));
    tcase_add_loop_test(t, processes_that_can_be, 0, (int)COUNT(possible));
    return t;
}
