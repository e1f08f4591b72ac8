/* scale_refusals.c - test_scale: requests that leave the tested recipe, or make
 * no sense. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "scale_cases.h"

/* -- Refused, whole -------------------------------------------------------- */

static const struct whole {
    asked q;
    pottle_status status;
    const char *code;
} refused_whole[] = {
    { { .recipe = "berry-jam-no-pectin",
        .have = { "3 cups crushed blackberries" } },
      POTTLE_EBOUNDS,
      "batch-smallest" },
    { { .recipe = "berry-jam-no-pectin",
        .have = { "40 cups crushed blackberries", "3 cups sugar" } },
      POTTLE_EBOUNDS,
      "batch-smallest" },
    { { .recipe = "apple-jelly-no-pectin",
        .have = { "0.99 cups apple juice" } },
      POTTLE_EBOUNDS,
      "batch-smallest" },
    { { .recipe = "berry-jam-no-pectin", .batches = 0.5 },
      POTTLE_EBOUNDS,
      "batch-smallest" },
    { { .recipe = "berry-jam-no-pectin", .batches = 2.5 },
      POTTLE_EBOUNDS,
      "batch-whole" },
    { { .recipe = "apple-jelly-no-pectin", .batches = 1.6 },
      POTTLE_EBOUNDS,
      "batch-whole" },
    /* salsa is tested in pints, jam in half-pints and pints; what is not
       published for a canner or a pack */
    { { .recipe = "chile-salsa", .batches = 1, .jar = "quart" },
      POTTLE_EBOUNDS,
      "jar-larger" },
    { { .recipe = "chile-salsa", .batches = 1, .jar = "500-ml" },
      POTTLE_EBOUNDS,
      "jar-larger" },
    { { .recipe = "berry-jam-no-pectin", .batches = 1, .jar = "quart" },
      POTTLE_EBOUNDS,
      "jar-larger" },
    { { .recipe = "tomatoes-crushed", .batches = 1, .jar = "1-l" },
      POTTLE_EBOUNDS,
      "jar-larger" },
    { { .recipe = "tomatoes-crushed", .fill = 4, .jar = "half-gallon" },
      POTTLE_EBOUNDS,
      "jar-larger" },
    { { .recipe = "chile-salsa", .batches = 1, .canner = "dial-gauge" },
      POTTLE_EBOUNDS,
      "no-process-method" },
    { { .recipe = "beans-snap", .batches = 1, .canner = "boiling-water" },
      POTTLE_EBOUNDS,
      "no-process-method" },
    { { .recipe = "chile-salsa", .batches = 1, .pack = POTTLE_RAW_PACK },
      POTTLE_EBOUNDS,
      "no-process-pack" },
    /* dial-gauge tables of crushed tomatoes end at 8,000 ft = 2,438.4 m */
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .canner = "dial-gauge",
        .altitude = "2439 m" },
      POTTLE_EBOUNDS,
      "altitude-above" },
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .canner = "dial-gauge",
        .altitude = "8001 ft" },
      POTTLE_EBOUNDS,
      "altitude-above" },
    /* never for, on hand too */
    { { .recipe = "apple-pie-filling", .have = { "1 cup fresh lemon juice" } },
      POTTLE_EBOUNDS,
      "never-for" },
    { { .recipe = "chile-salsa", .have = { "5 cups 4 % vinegar" } },
      POTTLE_EBOUNDS,
      "vinegar-strength" },
    /* food that is cut finer than the recipe was tested with, frozen or cooked
     * before (K-State, You asked it, canning previously frozen food; mashed
     * vegetables: Clemson, USDA guide 4 on pumpkins and sweet potatoes) */
    { { .recipe = "potatoes-white", .have = { "5 lb mashed potatoes" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "potatoes-white", .have = { "5 lb potatoes, mashed" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "peaches", .have = { "10 lb peaches, frozen" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "pumpkin-winter-squash", .have = { "9 lb pureed pumpkin" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "carrots", .have = { "5 lb grated carrots" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "tomatoes-in-water", .have = { "20 cups crushed tomatoes" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "tomatoes-in-water", .have = { "10 lb frozen tomatoes" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "peaches", .have = { "10 lb frozen peaches" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "beets", .have = { "10 lb cooked beets" } },
      POTTLE_EBOUNDS,
      "prepared" },
    { { .recipe = "chile-salsa", .have = { "7 lb pureed tomatoes" } },
      POTTLE_EBOUNDS,
      "prepared" },
    /* fresh is said behind the name too, and what is bottled is not fresh */
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "1 cup lemon juice, fresh" } },
      POTTLE_EBOUNDS,
      "never-for" },
    { { .recipe = "tomato-tomato-paste-salsa",
        .batches = 1,
        .set = { "2 cups raw lime juice" } },
      POTTLE_EBOUNDS,
      "never-for" },
    /* the strength of what is not sold by it, and what was frozen */
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "1 cup 1 % lemon juice" } },
      POTTLE_EDOMAIN,
      "strength" },
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "5 tsp 10 % citric acid" } },
      POTTLE_EDOMAIN,
      "strength" },
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "1 cup frozen lemon juice" } },
      POTTLE_ENOENT,
      "no-form" },
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "1 cup cider vinegar" } },
      POTTLE_EBOUNDS,
      "not-in-recipe" },
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "1/4 cup liquid bottled lemon juice" } },
      POTTLE_EBOUNDS,
      "per-jar" },
    { { .recipe = "tomatoes-crushed",
        .batches = 1,
        .set = { "1 cup chopped vinegar" } },
      POTTLE_ENOENT,
      "no-form" },
    { { .recipe = "tomatoes-crushed", .batches = 1, .set = { "1 cup honey" } },
      POTTLE_EBOUNDS,
      "not-in-recipe" },
    /* another vinegar than the recipe's: no vinegar may stand for lemon juice,
     * but this recipe has one of its own */
    { { .recipe = "chile-salsa",
        .batches = 1,
        .set = { "1 cup cider vinegar" } },
      POTTLE_EBOUNDS,
      "not-in-recipe" },
    /* not refused, but not to be done */
    { { .recipe = "chile-salsa", .have = { "2 lb carrots" } },
      POTTLE_ENOENT,
      "not-in-recipe" },
    { { .recipe = "tomatoes-crushed",
        .have = { "2 cups bottled lemon juice" } },
      POTTLE_ENOENT,
      "per-jar-only" },
    { { .recipe = "chile-salsa",
        .have = { "2 cups vinegar", "2 cups bottled lemon juice" } },
      POTTLE_EAMBIGUOUS,
      "one-place" },
    { { .recipe = "chile-salsa", .batches = 1001 },
      POTTLE_EDOMAIN,
      "too-many-pots" },
    { { .recipe = "tomatoes-crushed", .fill = 1e8, .jar = "quart" },
      POTTLE_EDOMAIN,
      "too-many-pots" },
    { { .recipe = "chile-salsa", .have = { "100000000 lb tomatoes" } },
      POTTLE_EDOMAIN,
      "too-many-pots" },
};
enum { REFUSED_WHOLE = sizeof refused_whole / sizeof refused_whole[0] };

START_TEST(what_leaves_the_tested_recipe_is_refused)
{
    const struct whole *w = &refused_whole[_i];
    answer a = kitchen_ask(&w->q);
    ck_assert_msg(a.status == w->status && a.error.status == a.status &&
                      strcmp(a.error.code, w->code) == 0,
                  "row %d, %s: %s (%s): %s", _i, w->q.recipe,
                  pottle_strerror((int)a.status), a.error.code, a.error.what);
    if (a.status == POTTLE_EBOUNDS) {
        ck_assert_msg(pottle_source_find(kitchen, a.error.source) != NULL,
                      "row %d, %s: no source '%s'", _i, w->q.recipe,
                      a.error.source);
        ck_assert_msg(a.error.instead[0] != '\0',
                      "row %d, %s: no way out of: %s", _i, w->q.recipe,
                      a.error.what);
    }
    answer_free(&a);
}
END_TEST

/* A recipe file of this test's own, in the build folder, with a process or
 * without. */
static pottle_recipe *
written_recipe(const char *file, const char *status, bool canned)
{
    static const char begin[] =
        "<recipe id='written-by-test' kind='jelly' status='%s' "
        "source='pottle-memory' at='a test' standing='memory'>\n"
        "<title>A syrup of a test</title>\n"
        "<batch largest='1' rule='one-batch-a-pot'/>\n"
        "<ingredients>\n"
        "<ingredient food='water' amount='2' unit='cup' state='prepared' "
        "form='liquid' role='produce' keep='exact'"
        " rule='whole-recipe'/>\n"
        "<ingredient food='sugar' amount='1' unit='cup' state='prepared' "
        "form='ground' role='sugar' keep='exact'"
        " rule='whole-recipe'/>\n"
        "</ingredients>\n"
        "<cook end='as-is'/>\n";
    static const char pack[] =
        "<pack style='hot' headspace='1/2'>\n"
        "<process method='boiling-water' jars='pint'><band from='0' "
        "minutes='5'/></process>\n"
        "</pack>\n";
    FILE *f = fopen(file, "w");
    ck_assert_ptr_nonnull(f);
    fprintf(f, begin, status);
    fputs(canned ? pack : "", f);
    fputs("<steps><step do='boil'>Boil.</step></steps>\n</recipe>\n", f);
    ck_assert_int_eq(fclose(f), 0);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status read =
        pottle_recipe_read_file(kitchen, file, &recipe, &error);
    remove(file);
    ck_assert_msg(read == POTTLE_OK, "%s:%ld: %s", error.where, error.line,
                  error.what);
    return recipe;
}

/* With a process or without: nothing is computed from an incomplete source. */
START_TEST(a_draft_is_refused)
{
    for (int canned = 0; canned < 2; canned++) {
        pottle_recipe *recipe =
            written_recipe("test_scale_draft.xml", "draft", canned == 1);
        const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                         .batches = 1 };
        pottle_plan *plan = NULL;
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                         POTTLE_EBOUNDS);
        ck_assert_str_eq(error.code, "draft");
        ck_assert(plan == NULL);
        pottle_recipe_free(recipe);
    }
}
END_TEST

/* A recipe of one's own is multiplied, and neither its process nor anybody
 * else's is given for it. */
START_TEST(an_own_recipe_has_no_process)
{
    pottle_recipe *recipe = written_recipe("test_scale_own.xml", "own", true);
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 2.5,
                                     .has_altitude = true,
                                     .altitude_m = 100 };
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_scale(kitchen, recipe, &request, &plan, &error) ==
                      POTTLE_OK,
                  "%s", error.what);
    size_t n = 1;
    pottle_plan_processes(plan, &n);
    ck_assert_uint_eq(n, 0);
    pottle_plan_tables(plan, &n);
    ck_assert_uint_eq(n, 0);
    ck_assert(has_warning(plan, "own-recipe"));
    CHECK_NEAR(line_of_food(plan, "sugar")->volume_ml, 2.5 * CUP_ML, "sugar");
    pottle_plan_free(plan);
    pottle_recipe_free(recipe);
}
END_TEST

/* The way out is one that works: the numbers of batches it names are accepted.
 */
START_TEST(the_way_out_of_a_part_batch_is_open)
{
    answer a = kitchen_ask(
        &(asked){ .recipe = "berry-jam-no-pectin", .batches = 2.5 });
    ck_assert_msg(strstr(a.error.instead, "2 or 3 batches") != NULL,
                  "instead: %s", a.error.instead);
    answer_free(&a);
    a = kitchen_ask(
        &(asked){ .recipe = "apple-jelly-no-pectin", .batches = 1.6 });
    ck_assert_msg(strstr(a.error.instead, "1.5 or 1.75 batches") != NULL,
                  "instead: %s", a.error.instead);
    answer_free(&a);
    for (double batches = 1.5; batches < 2; batches += 0.25) {
        a = kitchen_plan(
            &(asked){ .recipe = "apple-jelly-no-pectin", .batches = batches });
        answer_free(&a);
    }
}
END_TEST

/* 1 ft and 2,000 ft are in the first band, 8,000 ft in the last: the edges are
 * as printed. */
START_TEST(the_edges_of_the_bands_are_as_printed)
{
    static const struct {
        const char *altitude;
        int psi;
    } rows[] = {
        { "0 ft", 11 },    { "2000 ft", 11 }, { "2001 ft", 12 },
        { "4000 ft", 12 }, { "6000 ft", 13 }, { "8000 ft", 14 },
        { "2438 m", 14 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        answer a = kitchen_plan(&(asked){ .recipe = "tomatoes-crushed",
                                          .batches = 1,
                                          .canner = "dial-gauge",
                                          .altitude = rows[i].altitude });
        size_t n = 0;
        const pottle_process *p = pottle_plan_processes(a.plan, &n);
        ck_assert_uint_gt(n, 0);
        ck_assert_msg(p[0].band->minutes == 15 && p[0].band->psi == rows[i].psi,
                      "%s: %d min at %d psi", rows[i].altitude,
                      p[0].band->minutes, p[0].band->psi);
        answer_free(&a);
    }
}
END_TEST

TCase *
scale_refusals(void)
{
    TCase *tcase = tcase_create("refused");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_loop_test(tcase, what_leaves_the_tested_recipe_is_refused, 0,
                        REFUSED_WHOLE);
    tcase_add_test(tcase, a_draft_is_refused);
    tcase_add_test(tcase, an_own_recipe_has_no_process);
    tcase_add_test(tcase, the_way_out_of_a_part_batch_is_open);
    tcase_add_test(tcase, the_edges_of_the_bands_are_as_printed);
    return tcase;
}
