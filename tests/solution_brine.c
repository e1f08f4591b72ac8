/* solution_brine.c - test_solution: brines, and the liquid of a recipe. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "solution_cases.h"

/* -- Brine by strength ----------------------------------------------------- */

/* A litre of brine holds so much salt: the second column of the same table,
 * g/L, which does not enter the code. Density to half of 0.1 kg/m3 is 0.05 g
 * times the strength. */
#define SALT "Poradnik fizykochemiczny, 1974, sodium chloride at 20 deg C"
static const struct {
    double percent, g_per_l, within;
    const char *source;
} strengths[] = {
    { 1, 10.053, 0.001, SALT },
    { 2, 20.250, 0.0015, SALT },
    { 4, 41.072, 0.0025, SALT },
    { 6, 62.478, 0.0035, SALT },
    { 8, 84.472, 0.0045, SALT },
    { 10, 107.070, 0.0055, SALT },
    { 12, 130.284, 0.0065, SALT },
    { 14, 154.128, 0.0075, SALT },
    { 16, 178.592, 0.0085, SALT },
    { 18, 203.742, 0.0095, SALT },
    { 20, 229.560, 0.0105, SALT },
    { 22, 256.080, 0.0115, SALT },
    { 24, 283.296, 0.0125, SALT },
    { 26, 311.272, 0.0135, SALT },
    /* between the lines: 5 percent at 1.034 g/mL, so 51.7 g a litre to 0.05 x
       0.5 */
    { 5, 51.70, 0.03,
      "table of inorganic sodium salts: 5 mass percent 1.034 g/cm3" },
};

START_TEST(salt_in_a_litre)
{
    pottle_brine_mix m;
    pottle_error error = { .line = -7 };
    ck_assert_int_eq(pottle_brine_of_percent(kitchen, strengths[_i].percent,
                                             (pottle_volume){ 1000 }, false, &m,
                                             &error),
                     POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    ck_assert_msg(
        fabs(m.salt_g - strengths[_i].g_per_l) <= strengths[_i].within,
        "%g percent: %.4f g a litre, printed %.3f (%s)", strengths[_i].percent,
        m.salt_g, strengths[_i].g_per_l, strengths[_i].source);
    CHECK_NEAR(m.volume_ml, 1000, "volume asked for");
    CHECK_NEAR(100 * m.salt_g / (m.salt_g + m.water_g), strengths[_i].percent,
               "salt over salt and water");
}
END_TEST

/* Salt to so much water, by hand: water weighs 0.9982067 g/mL, salt = water x p
 * / (100 - p). 1 L at 5 percent: 998.2067 x 5/95 = 52.5372 g; at 10: 998.2067 /
 * 9 = 110.9119; half a litre at 3.5: 499.10335 x 3.5/96.5 = 18.1022; at 20:
 * 998.2067 / 4 = 249.5517. */
static const struct {
    double percent, water_ml, salt_g;
} by_water[] = {
    { 5, 1000, 52.5372 },
    { 10, 1000, 110.9119 },
    { 3.5, 500, 18.1022 },
    { 20, 1000, 249.5517 },
    { 0.5, 2000, 10.0322 /* 1996.4134 x 0.5/99.5 */ },
};

START_TEST(salt_to_water)
{
    pottle_brine_mix m;
    ck_assert_int_eq(
        pottle_brine_of_percent(kitchen, by_water[_i].percent,
                                (pottle_volume){ by_water[_i].water_ml }, true,
                                &m, NULL),
        POTTLE_OK);
    ck_assert_msg(
        fabs(m.salt_g - by_water[_i].salt_g) <= 5e-5 + 1e-7 * m.salt_g,
        "%g percent, %g mL: %.5f g of salt, by hand %.4f", by_water[_i].percent,
        by_water[_i].water_ml, m.salt_g, by_water[_i].salt_g);
    CHECK_NEAR(m.water_ml, by_water[_i].water_ml, "the water asked for");
    ck_assert_double_gt(m.volume_ml, m.water_ml);
    /* salts fill a cup with 292 g (USDA SR28, table salt) or 220 g (University
     * of Wisconsin): both lie in the range */
    const pottle_interval i = pottle_estimate_interval(m.salt_ml);
    ck_assert_msg(within(i.expected, m.salt_g / 292 * CUP_ML, 1e-9),
                  "%.4f mL of salt, by 292 g a cup %.4f", i.expected,
                  m.salt_g / 292 * CUP_ML);
    ck_assert_double_ge(i.high * (1 + 1e-9), m.salt_g / 220 * CUP_ML);
}
END_TEST

START_TEST(brine_refusals)
{
    pottle_brine_mix m = { .percent = -3 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_volume litre = { 1000 };
    static const double wrong[] = { 0, -1, 26.001, 100, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(wrong); i++)
        ck_assert_int_eq(
            pottle_brine_of_percent(kitchen, wrong[i], litre, true, &m, &error),
            POTTLE_EDOMAIN);
    static const double volumes[] = { 0, -1, 1e10, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(volumes); i++)
        ck_assert_int_eq(pottle_brine_of_percent(kitchen, 5,
                                                 (pottle_volume){ volumes[i] },
                                                 false, &m, &error),
                         POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_brine_of_percent(NULL, 5, litre, false, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_brine_of_percent(kitchen, 5, litre, false, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert(m.percent < 0);
}
END_TEST

/* -- The liquid of a recipe ------------------------------------------------ */

static pottle_status
ask_brine(const char *id, double volume_ml, const char *const *amounts,
          pottle_brine_plan *out, pottle_error *error)
{
    pottle_recipe *recipe = kitchen_recipe(id);
    pottle_phrase phrase[4];
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .volume_ml = volume_ml,
                                     .amount = phrase };
    for (; amounts != NULL && amounts[request.amounts] != NULL;
         request.amounts++)
        phrase[request.amounts] =
            kitchen_phrase(recipe, amounts[request.amounts]);
    const pottle_status status =
        pottle_brine_of_recipe(kitchen, recipe, &request, out, error);
    /* the lines point into the recipe: only numbers are looked at after this */
    for (size_t i = 0; status == POTTLE_OK && i < out->lines; i++)
        out->line[i].ingredient = NULL;
    pottle_recipe_free(recipe);
    return status;
}

/* Quick fresh-pack dills: 1 1/2 qt of 5 % vinegar, 2 qt of water, 1/2 cup of
 * salt, 1/4 cup of sugar; the soaking brine is poured away and is no part of
 * it. 3 cups of vinegar are half of the 6: so 4 cups of water, 1/4 cup of salt,
 * 2 tbsp of sugar. */
#define DILLS                                                                  \
    "USDA Complete Guide, guide 6, Quick fresh-pack dill pickles (1994)"
static const struct {
    const char *amount;
    double factor;
    const char *title;
    const char *measure;
} halves[] = {
    { "3 cups vinegar", 0.5, "water", "4 cups" },
    { "3 cups vinegar", 0.5, "white distilled vinegar, 5 percent", "3 cups" },
    { "3 cups vinegar", 0.5, "canning or pickling salt", "1/4 cup" },
    { "3 cups vinegar", 0.5, "sugar, white granulated", "2 tbsp" },
    { "4 quarts water", 2, "canning or pickling salt", "1 cup" },
    { "4 quarts water", 2, "sugar, white granulated", "1/2 cup" },
    { "1 cup salt", 2, "white distilled vinegar, 5 percent", "12 cups" },
};

START_TEST(half_and_twice_the_liquid)
{
    const char *const amounts[] = { halves[_i].amount, NULL };
    pottle_brine_plan p;
    pottle_error error = { .line = -7 };
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 0, amounts, &p, &error),
        POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    ck_assert_msg(within(p.factor, halves[_i].factor, TINY),
                  "%s: %.6g times, by hand %g (%s)", halves[_i].amount,
                  p.factor, halves[_i].factor, DILLS);
    ck_assert_uint_eq(p.lines, 4);
    const pottle_brine_line *l = NULL;
    for (size_t i = 0; i < p.lines; i++)
        l = strcmp(p.line[i].title, halves[_i].title) == 0 ? &p.line[i] : l;
    ck_assert_msg(l != NULL && l->has_measure, "no %s (%s)", halves[_i].title,
                  DILLS);
    char text[100];
    pottle_measure_write(&l->measure, text, sizeof text);
    ck_assert_msg(strcmp(text, halves[_i].measure) == 0,
                  "%s: %s '%s', by hand '%s' (%s)", halves[_i].amount,
                  halves[_i].title, text, halves[_i].measure, DILLS);
}
END_TEST

/* The recipe asks for 5 percent (USDA guide 6): what is stronger is told, also
 * where it is only the second amount. */
START_TEST(stronger_vinegar_is_told)
{
    static const struct {
        const char *amount;
        double percent;
    } rows[] = { { "1 l vinegar", 0 },
                 { "1 l 5% vinegar", 0 },
                 { "1 l 6% vinegar", 6 },
                 { "1 l 49% vinegar", 49 } };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const char *const amounts[] = { rows[i].amount, NULL };
        pottle_brine_plan p;
        ck_assert_int_eq(
            ask_brine("quick-fresh-pack-dill-pickles", 0, amounts, &p, NULL),
            POTTLE_OK);
        ck_assert_msg(within(p.vinegar_percent, rows[i].percent, TINY),
                      "%s: %g", rows[i].amount, p.vinegar_percent);
    }
}
END_TEST

/* Their volume by hand. Liquids: 3 1/2 qt = 3312.24 mL, 6 x 238 + 8 x 237 =
 * 3324 g (SR28). Sugar 50 g: 1.482 percent, 1.0039 g/mL, (3374 / 1.0039) - 3324
 * / 0.9982 = 3360.9 - 3330.0 = 30.9 mL more. Salt 146 g: 4.207 percent, 1.0283
 * g/mL, 3470 / 1.0283 - 3330.0 = 3374.5 - 3330.0 = 44.5 more. Together 3387.7
 * mL; so 2 L are 0.5904 of it. */
START_TEST(volume_of_the_liquid)
{
    pottle_brine_plan p;
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 2000, NULL, &p, NULL),
        POTTLE_OK);
    CHECK_NEAR(p.volume_ml, 2000, "volume asked for");
    ck_assert_msg(fabs(2000 / p.factor - 3387.7) <= 0.5,
                  "the published batch makes %.2f mL, by hand 3387.7 (%s)",
                  2000 / p.factor, DILLS);
}
END_TEST

/* Only the proportions of the recipe: 5 cups of water to 3 of vinegar are 5/8
 * against 1/2. */
static const struct {
    const char *recipe;
    double ml;
    const char *amount[3];
    const char *code, *source, *why;
} ratios[] = {
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups vinegar", "5 cups water" },
      "brine-ratio",
      "alabama-ext",
      "more water" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups vinegar", "3 cups water" },
      "brine-ratio",
      "alabama-ext",
      "less water" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups vinegar", "4.05 cups water" },
      "brine-ratio",
      "alabama-ext",
      "1.25 percent more water: over the 1 percent of exact" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3-4 cups vinegar", "4 cups water" },
      "brine-ratio",
      "alabama-ext",
      "a range is judged at both ends" },
    { "quick-fresh-pack-dill-pickles",
      2000,
      { "3 cups vinegar" },
      "brine-ratio",
      "alabama-ext",
      "2 L take 3.54 cups of vinegar" },
    { "quick-fresh-pack-dill-pickles",
      2000,
      { "1 cup bottled lemon juice" },
      "not-in-brine",
      "alabama-ext",
      "no part of the recipe" },
    { "quick-fresh-pack-dill-pickles",
      2000,
      { "8 lb pickling cucumbers" },
      "not-in-brine",
      "alabama-ext",
      "the food is no part of the liquid" },
    { "quick-fresh-pack-dill-pickles",
      0,
      { "3 cups 4 % vinegar" },
      "vinegar-strength",
      "uga-ext",
      "weak vinegar (University of Georgia)" },
};

START_TEST(only_in_proportion)
{
    pottle_brine_plan p = { .factor = -3 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = ask_brine(ratios[_i].recipe, ratios[_i].ml,
                                           ratios[_i].amount, &p, &error);
    ck_assert_msg(status == POTTLE_EBOUNDS, "%s: %s", ratios[_i].why,
                  pottle_strerror((int)status));
    ck_assert_msg(strcmp(error.code, ratios[_i].code) == 0,
                  "%s: '%s', wanted '%s'", ratios[_i].why, error.code,
                  ratios[_i].code);
    ck_assert_str_eq(error.source, ratios[_i].source);
    ck_assert_str_ne(error.instead, "");
    ck_assert(p.factor < -2.9);
}
END_TEST

START_TEST(within_a_percent_and_by_weight)
{
    pottle_brine_plan p;
    /* 4.03 cups are 0.75 percent more */
    static const char *const near[] = { "3 cups vinegar", "4.03 cups water",
                                        NULL };
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 0, near, &p, NULL),
        POTTLE_OK);
    CHECK_NEAR(p.factor, 0.5, "the first amount tells the factor");
    /* 714 g of vinegar are 3 cups at 238 g (SR28 02053) */
    static const char *const weighed[] = { "714 g vinegar", NULL };
    ck_assert_int_eq(
        ask_brine("quick-fresh-pack-dill-pickles", 0, weighed, &p, NULL),
        POTTLE_OK);
    CHECK_NEAR(p.factor, 0.5, "714 g of vinegar, 238 g a cup");
}
END_TEST

/* Every pickle of the catalogue, any length: each line is the factor times that
 * of one batch, what is drained off is left out, and as measured acid is never
 * less against the water. */
START_TEST(all_lines_times_one_factor)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    const char *kind = pottle_recipe_kind(recipe);
    const bool wet =
        pottle_recipe_cook(recipe)->end == POTTLE_END_PACKED &&
        (strcmp(kind, "pickle") == 0 || strcmp(kind, "pickled-fruit") == 0);
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .volume_ml = 1000 };
    pottle_brine_plan one, p;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_brine_of_recipe(kitchen, recipe, &request, &one, &error);
    ck_assert_msg(status == (wet ? POTTLE_OK : POTTLE_ENOENT), "%s: %s %s",
                  kitchen_id[_i], pottle_strerror((int)status), error.what);
    static const double litres[] = { 0.1, 0.35, 0.9, 2, 7.3, 40 };
    for (size_t v = 0; wet && v < COUNT(litres); v++) {
        double most_water = 0, least_acid = HUGE_VAL;
        request.volume_ml = litres[v] * 1000;
        ck_assert_int_eq(
            pottle_brine_of_recipe(kitchen, recipe, &request, &p, NULL),
            POTTLE_OK);
        ck_assert(within(p.factor, one.factor * litres[v], TINY) &&
                  p.lines == one.lines && p.lines > 0);
        for (size_t i = 0; i < p.lines; i++) {
            const pottle_brine_line *l = &p.line[i];
            const pottle_ingredient *in = l->ingredient;
            ck_assert(in->stays && strcmp(in->role, "low-acid") != 0 &&
                      strcmp(in->role, "produce") != 0);
            ck_assert_msg(
                fabs(l->mass_g - one.line[i].mass_g * litres[v]) <=
                        TINY * l->mass_g &&
                    fabs(l->volume_ml - one.line[i].volume_ml * litres[v]) <=
                        TINY * l->volume_ml,
                "%s: %s is not times the factor", kitchen_id[_i], l->title);
            if (in->unit->dimension != POTTLE_VOLUME || !(l->volume_ml > 0))
                continue;
            const double share =
                l->has_measure &&
                        l->measure.part[0].unit->dimension == POTTLE_VOLUME
                    ? l->measure.base / l->volume_ml
                    : 1;
            if (strcmp(in->role, "liquid") == 0)
                most_water = fmax(most_water, share);
            if (strcmp(in->role, "acid") == 0)
                least_acid = fmin(least_acid, share);
        }
        ck_assert_msg(least_acid >= most_water * (1 - 1e-7),
                      "%s, %g L: acid %g, water %g of what is due",
                      kitchen_id[_i], litres[v], least_acid, most_water);
    }
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(recipe_brine_refusals)
{
    pottle_recipe *dills = kitchen_recipe("quick-fresh-pack-dill-pickles"),
                  *own = NULL;
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .volume_ml = 1000 };
    pottle_brine_plan p = { .factor = -3 };
    pottle_error error = { .status = POTTLE_OK };
    char path[700];
    ck_assert_int_eq(pottle_brine_of_recipe(NULL, dills, &request, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, NULL, &request, &p, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_brine_of_recipe(kitchen, dills, NULL, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, NULL, &error),
        POTTLE_EMISUSE);
    request.amounts = 1;
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
        POTTLE_EMISUSE);
    request.amounts = 0;
    request.version = 2;
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
        POTTLE_EMISUSE);
    request.version = POTTLE_BRINE_REQUEST_VERSION;
    static const double volumes[] = { -1, 1e10, HUGE_VAL, (double)NAN };
    for (size_t i = 0; i < COUNT(volumes); i++) {
        request.volume_ml = volumes[i];
        ck_assert_int_eq(
            pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
            POTTLE_EDOMAIN);
    }
    request.volume_ml = 0;
    ck_assert_int_eq(
        pottle_brine_of_recipe(kitchen, dills, &request, &p, &error),
        POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "how-much");
    request.volume_ml = 1000;
    const char *folder = getenv("srcdir");
    snprintf(path, sizeof path, "%s/tests/data/good/own-pickle.xml",
             folder != NULL ? folder : ".");
    ck_assert_int_eq(pottle_recipe_read_file(kitchen, path, &own, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_brine_of_recipe(kitchen, own, &request, &p, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "own-recipe");
    ck_assert(p.factor < -2.9);
    pottle_recipe_free(own);
    pottle_recipe_free(dills);
}
END_TEST

TCase *
solution_brine(void)
{
    TCase *brine = tcase_create("brine");
    tcase_add_checked_fixture(brine, kitchen_open, kitchen_close);
    tcase_add_loop_test(brine, salt_in_a_litre, 0, (int)COUNT(strengths));
    tcase_add_loop_test(brine, salt_to_water, 0, (int)COUNT(by_water));
    tcase_add_test(brine, brine_refusals);
    tcase_add_test(brine, stronger_vinegar_is_told);
    tcase_add_loop_test(brine, half_and_twice_the_liquid, 0,
                        (int)COUNT(halves));
    tcase_add_test(brine, volume_of_the_liquid);
    tcase_add_loop_test(brine, only_in_proportion, 0, (int)COUNT(ratios));
    tcase_add_test(brine, within_a_percent_and_by_weight);
    tcase_add_loop_test(brine, all_lines_times_one_factor, 0, kitchen_ids);
    tcase_add_test(brine, recipe_brine_refusals);
    return brine;
}
