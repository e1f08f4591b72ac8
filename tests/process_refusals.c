/* process_refusals.c - test_process: what is refused, with its rule and the way
 * out. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "process_cases.h"

static const struct {
    const char *recipe, *jar;
    canner canner;
    pottle_pack_style pack;
    double altitude_ft;
    const char *code, *source,
        *instead; /* key of the rule's source; a word of the way out */
} refusals[] = {
    { "chile-salsa", "quart", ANY, POTTLE_ANY_PACK, 0, "jar-larger", "nchfp",
      "jar size" },
    { "corn-cream-style", "quart", WEIGHTED, HOT, 0, "jar-larger", "nchfp",
      "jar size" },
    { "quick-sweet-pickles", "quart", BW, HOT, 0, "jar-larger", "nchfp",
      "jar size" },
    { "tomato-juice", "half-gallon", ANY, POTTLE_ANY_PACK, 0, "jar-larger",
      "penn-state-ext", "quarts" },
    { "peaches", "half-gallon", BW, HOT, 0, "jar-larger", "penn-state-ext",
      "quarts" },
    { "beans-snap", "pint", BW, POTTLE_ANY_PACK, 0, "no-process-method",
      "nchfp", "pressure canner" },
    { "beans-snap", "quarter-pint", BW, RAW, 0, "no-process-method", "nchfp",
      "pressure canner" },
    { "chicken-rabbit-boneless", "pint", BW, HOT, 0, "no-process-method",
      "nchfp", "pressure canner" },
    { "mexican-tomato-sauce", "pint", BW, HOT, 0, "no-process-method", "nchfp",
      "pressure canner" },
    { "strawberry-jam-powdered-pectin", "half-pint", DIAL, POTTLE_ANY_PACK, 0,
      "no-process-method", "pottle-practice", "canner" },
    { "grape-juice", "quart", WEIGHTED, POTTLE_ANY_PACK, 0, "no-process-method",
      "pottle-practice", "canner" },
    { "tomatoes-crushed", "pint", ANY, RAW, 0, "no-process-pack",
      "pottle-practice", "pack" },
    { "beets", "pint", DIAL, RAW, 0, "no-process-pack", "pottle-practice",
      "pack" },
    { "tomatoes-no-liquid", "quart", BW, HOT, 0, "no-process-pack",
      "pottle-practice", "pack" },
    { "marinated-peppers", "pint", BW, HOT, 0, "no-process-pack",
      "pottle-practice", "pack" },
    { "beans-snap", "pint", DIAL, HOT, 8000.1, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "beans-snap", "pint", DIAL, POTTLE_ANY_PACK, 8001, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "tomatoes-crushed", "quart", DIAL, HOT, 8001, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "apples-sliced", "quart", DIAL, HOT, 14000, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "pickled-horseradish-sauce", "half-pint", ANY, POTTLE_ANY_PACK, 0,
      "not-canned", "pottle-practice", "refrigerator" },
    { "berry-freezer-jam-powdered-pectin", "half-pint", BW, HOT, 0,
      "not-canned", "pottle-practice", "freezer" },
};

START_TEST(refused_with_rule_and_way_out)
{
    pottle_recipe *recipe = recipe_of(refusals[_i].recipe);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of(refusals[_i].jar),
        method_of(refusals[_i].canner), refusals[_i].pack,
        refusals[_i].altitude_ft * foot_m, out, &count, &error);
    ck_assert_msg(status == POTTLE_EBOUNDS, "%s %s is not refused",
                  refusals[_i].recipe, refusals[_i].jar);
    ck_assert_int_eq(error.status, POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, refusals[_i].code);
    ck_assert_msg(strstr(error.what, refusals[_i].recipe) != NULL,
                  "the recipe is not named: %s", error.what);
    ck_assert_str_eq(error.source, refusals[_i].source);
    ck_assert_msg(error.at[0] != '\0', "%s: no place in the source",
                  error.what);
    ck_assert_msg(strstr(error.instead, refusals[_i].instead) != NULL,
                  "%s: instead '%s', not a word of %s", error.what,
                  error.instead, refusals[_i].instead);
    ck_assert(untouched(out, count));
    /* without a place for the detail it is refused as well */
    ck_assert_int_eq(pottle_process_find(
                         catalogue, recipe, jar_of(refusals[_i].jar),
                         method_of(refusals[_i].canner), refusals[_i].pack,
                         refusals[_i].altitude_ft * foot_m, out, &count, NULL),
                     POTTLE_EBOUNDS);
    ck_assert(untouched(out, count));
    pottle_recipe_free(recipe);
}
END_TEST

/* A recipe made for a test, whole but for what is asked. */
static pottle_recipe *
recipe_made(const char *status, const char *processes)
{
    static const char path[] = "test_process_made.xml";
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fprintf(file,
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<recipe id=\"test-sauce\" kind=\"salsa\" status=\"%s\" "
            "source=\"pottle-practice\" at=\"test\" standing=\"practice\">\n"
            "  <title>test sauce</title>\n"
            "  <batch largest=\"1\" rule=\"one-batch-a-pot\"/>\n"
            "  <ingredients><ingredient food=\"tomato\" amount=\"5\" "
            "unit=\"lb\" state=\"purchased\" role=\"produce\" keep=\"exact\" "
            "rule=\"pickle-03\"/></ingredients>\n"
            "  <cook end=\"simmer\" minutes=\"10\"/>\n"
            "  <pack style=\"hot\" headspace=\"1/2\">%s</pack>\n"
            "  <steps><step do=\"boil\">Boil.</step></steps>\n"
            "</recipe>\n",
            status, processes);
    ck_assert_int_eq(fclose(file), 0);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status read =
        pottle_recipe_read_file(catalogue, path, &recipe, &error);
    ck_assert_msg(read == POTTLE_OK, "%s:%ld: %s", error.where, error.line,
                  error.what);
    remove(path);
    return recipe;
}

/* The order of the file decides nothing: the quart stands first, and is the
 * quicker one by a slip of whoever wrote it; a pint has its row and takes no
 * other, and a half-pint takes the pint's. */
START_TEST(nearest_size_wherever_it_stands)
{
    static const char *const orders[] = {
        "<process method=\"boiling-water\" jars=\"quart\"><band from=\"0\" "
        "minutes=\"15\"/></process>"
        "<process method=\"boiling-water\" jars=\"pint\"><band from=\"0\" "
        "minutes=\"35\"/></process>",
        "<process method=\"boiling-water\" jars=\"pint\"><band from=\"0\" "
        "minutes=\"35\"/></process>"
        "<process method=\"boiling-water\" jars=\"quart\"><band from=\"0\" "
        "minutes=\"15\"/></process>",
    };
    static const struct {
        const char *jar, *tested;
        int minutes;
    } sizes_made[] = {
        { "half-pint", "pint", 35 },
        { "pint", "pint", 35 },
        { "500-ml", "quart", 15 },
        { "quart", "quart", 15 },
    };
    for (size_t i = 0; i < COUNT(orders); i++) {
        pottle_recipe *recipe = recipe_made("tested", orders[i]);
        for (size_t k = 0; k < COUNT(sizes_made); k++) {
            pottle_process out[POTTLE_PROCESS_MAX];
            size_t count = 0;
            ck_assert_int_eq(pottle_process_find(
                                 catalogue, recipe, jar_of(sizes_made[k].jar),
                                 NULL, POTTLE_ANY_PACK, 0, out, &count, NULL),
                             POTTLE_OK);
            ck_assert_msg(count == 1 &&
                              out[0].band->minutes == sizes_made[k].minutes,
                          "order %zu, %s: %zu processes, %d min", i,
                          sizes_made[k].jar, count, out[0].band->minutes);
            ck_assert_str_eq(out[0].tested_as->id, sizes_made[k].tested);
        }
        pottle_recipe_free(recipe);
    }
}
END_TEST

START_TEST(only_tested_recipes_have_a_process)
{
    static const struct {
        const char *status, *code, *source, *instead;
    } kinds[] = {
        { "draft", "draft", "pottle-practice", "tested" },
        { "own", "own-recipe", "nchfp", "tested" },
    };
    static const char pints[] =
        "<process method=\"boiling-water\" jars=\"pint\"><band from=\"0\" "
        "minutes=\"15\"/></process>";
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    for (size_t i = 0; i < COUNT(kinds); i++) {
        pottle_recipe *recipe = recipe_made(kinds[i].status, pints);
        pottle_error error = { .status = POTTLE_OK };
        fill_outputs(out, &count);
        ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar_of("pint"),
                                             method_of(BW), HOT, 0, out, &count,
                                             &error),
                         POTTLE_EBOUNDS);
        ck_assert_str_eq(error.code, kinds[i].code);
        ck_assert_str_eq(error.source, kinds[i].source);
        ck_assert_msg(strstr(error.what, "test-sauce") != NULL, "%s",
                      error.what);
        ck_assert_msg(strstr(error.instead, kinds[i].instead) != NULL, "%s",
                      error.instead);
        ck_assert(untouched(out, count));
        pottle_recipe_free(recipe);
    }
    /* the same file with status "tested" has one: it is the status that refuses
     */
    pottle_recipe *recipe = recipe_made("tested", pints);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar_of("pint"),
                                         method_of(BW), HOT, 0, out, &count,
                                         NULL),
                     POTTLE_OK);
    ck_assert_int_eq(out[0].band->minutes, 15);
    pottle_recipe_free(recipe);
}
END_TEST

static const double bad_altitudes[] = {
    (double)NAN,      -1e-9, -1, -430, 10000.001, 1e300, (double)INFINITY,
    -(double)INFINITY
};

START_TEST(altitude_out_of_range)
{
    pottle_recipe *recipe = recipe_of("chile-salsa");
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of("pint"), NULL, POTTLE_ANY_PACK,
        bad_altitudes[_i], out, &count, &error);
    ck_assert_msg(status == POTTLE_EDOMAIN, "%g m gives status %d",
                  bad_altitudes[_i], (int)status);
    ck_assert_str_eq(error.code, "altitude");
    ck_assert(untouched(out, count));
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(misuse_is_told)
{
    pottle_recipe *recipe = recipe_of("chile-salsa");
    const pottle_jar *jar = jar_of("pint");
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_process_find(NULL, recipe, jar, NULL,
                                         POTTLE_ANY_PACK, 0, out, &count,
                                         &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "misuse");
    ck_assert_int_eq(pottle_process_find(catalogue, NULL, jar, NULL,
                                         POTTLE_ANY_PACK, 0, out, &count, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, NULL, NULL,
                                         POTTLE_ANY_PACK, 0, out, &count, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar, NULL,
                                         POTTLE_ANY_PACK, 0, NULL, &count,
                                         NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar, NULL,
                                         POTTLE_ANY_PACK, 0, out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(untouched(out, count));
    pottle_recipe_free(recipe);
}
END_TEST

TCase *
process_refusals(void)
{
    TCase *t = tcase_create("refusals");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_test(t, nearest_size_wherever_it_stands);
    tcase_add_loop_test(t, refused_with_rule_and_way_out, 0, COUNT(refusals));
    tcase_add_test(t, only_tested_recipes_have_a_process);
    tcase_add_loop_test(t, altitude_out_of_range, 0, COUNT(bad_altitudes));
    tcase_add_test(t, misuse_is_told);
    return t;
}
