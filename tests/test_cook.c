/* test_cook.c - the volume of a finished batch, against a study of it made
 * outside the code and against what the publications print. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cook_cases.h"
#include "suite.h"

/* Whether a line is measured by volume in a cut form: such a cup is fuller than
 * the table's (study, section 2, f_cut). Crushed fruit is not cut. */
static bool
is_volume_cut(const pottle_line *line, const pottle_food *food)
{
    const pottle_ingredient *in = line->ingredient;
    return in->unit->dimension == POTTLE_VOLUME &&
           strcmp(pottlei_form_bulk(food, line->form), "cut") == 0 &&
           strcmp(line->form, "crushed") != 0 &&
           (strcmp(in->role, "produce") == 0 ||
            strcmp(in->role, "low-acid") == 0);
}

batch
open_batch(const char *id, const char *jar)
{
    answer a = kitchen_plan(&(asked){ .recipe = id, .batches = 1, .jar = jar });
    batch b = { .recipe = a.recipe, .plan = a.plan };
    for (size_t i = 0; i < a.plan->lines; i++) {
        const pottle_line *line = &a.plan->list[i];
        b.part[i] = (pottlei_part){ line->ingredient,
                                    a.plan->line_food[i],
                                    { 0, 0 },
                                    is_volume_cut(line, a.plan->line_food[i]) };
        if (!(line->mass_g > 0))
            continue;
        const pottle_phrase phrase = { .low = line->mass_g,
                                       .high = line->mass_g,
                                       .unit = pottle_unit_find("g"),
                                       .state = line->ingredient->state,
                                       .state_said = true };
        ck_assert_int_eq(pottle_phrase_mass(kitchen, a.plan->line_food[i],
                                            &phrase, POTTLE_PREPARED,
                                            line->ingredient->trim, "",
                                            &b.part[i].prepared_g, NULL, NULL),
                         POTTLE_OK);
    }
    b.parts = a.plan->lines;
    return b;
}

void
close_batch(batch *b)
{
    pottle_plan_free(b->plan);
    pottle_recipe_free(b->recipe);
}

/* What a jar holds, by the study's section 1, step 6: nominal at 1/2 in, less
 * or more 71.8 mL an inch. */
static double
study_fill_ml(const char *jar, double headspace_in)
{
    return kitchen_jar(jar)->nominal_ml + (0.5 - headspace_in) * 71.8;
}

/* The headspace of the first pack that is tested in the jar. */
static double
headspace_of(const pottle_recipe *recipe, const char *jar)
{
    size_t n = 0;
    const pottle_process_table *table = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < table[i].jars; k++)
            if (strcmp(table[i].jar[k], jar) == 0)
                return table[i].headspace_in;
    return n > 0 ? table[0].headspace_in : 0.5;
}

/* -- Against the study ----------------------------------------------------- */

/* Yield study, section 3: predicted median, each recipe left out of its own
 * tuning. The study tuned its parameters a little (gel 0.60 solids, by half
 * 0.52, 18 g/min) against the defaults it recommends and the code takes (0.62,
 * 0.50, 19), so that some percent must lie between the two. */
static const struct {
    const char *recipe, *jar;
    double jars;
} study[] = {
    { "berry-syrup", "half-pint", 7.8 },
    { "blackberry-jam-powdered-pectin", "half-pint", 9.5 },
    { "damson-plum-orange-conserve", "half-pint", 8.7 },
    { "golden-pepper-jelly", "half-pint", 5.9 },
    { "pear-apple-jam", "half-pint", 6.4 },
    { "strawberry-jam-powdered-pectin", "half-pint", 8.8 },
    { "strawberry-rhubarb-jelly", "half-pint", 6.5 },
    { "apple-butter", "pint", 5.3 },
    { "country-western-ketchup", "pint", 6.6 },
    { "pickled-pepper-onion-relish", "half-pint", 7.2 },
    { "tomato-ketchup", "pint", 7.1 },
    { "apple-jelly-no-pectin", "half-pint", 3.4 },
    { "apricot-jam-no-pectin", "half-pint", 4.6 },
    { "berry-jam-no-pectin", "half-pint", 4.6 },
    { "blackberry-jelly-no-pectin", "half-pint", 3.9 },
    { "crabapple-jelly-no-pectin", "half-pint", 4.5 },
    { "grape-jelly-no-pectin", "half-pint", 4.2 },
    { "peach-jam-no-pectin", "half-pint", 5.1 },
    { "plum-jelly-no-pectin", "half-pint", 3.5 },
    { "plum-preserves-no-pectin", "half-pint", 4.5 },
    { "bread-and-butter-pickles", "pint", 7.9 },
    { "marinated-peppers", "half-pint", 7.9 },
    { "pickled-baby-carrots", "pint", 4.8 },
    { "pickled-cauliflower-or-brussels-sprouts", "half-pint", 9.6 },
    { "pickled-mixed-vegetables", "pint", 10.0 },
    { "pickled-yellow-pepper-rings", "pint", 3.5 },
    { "quick-fresh-pack-dill-pickles", "pint", 12.6 },
    { "spiced-apple-rings", "pint", 10.8 },
    { "three-bean-salad", "half-pint", 5.2 },
    { "apple-pie-filling", "quart", 5.9 },
    { "blueberry-pie-filling", "quart", 6.8 },
    { "peach-pie-filling", "quart", 7.1 },
    { "rhubarb-stewed", "quart", 5.1 },
    { "chile-salsa", "pint", 5.8 },
    { "cranberry-orange-chutney", "half-pint", 8.6 },
    { "easy-hot-sauce", "half-pint", 9.0 },
    { "mexican-tomato-sauce", "quart", 8.2 },
    { "peach-pineapple-spread", "half-pint", 5.5 },
    { "pickle-relish", "pint", 7.8 },
    { "pickled-corn-relish", "pint", 8.3 },
    { "pickled-green-tomato-relish", "pint", 13.0 },
    { "tomato-taco-sauce", "pint", 12.9 },
    { "tomato-tomato-paste-salsa", "pint", 7.4 },
};
enum { STUDY = sizeof study / sizeof study[0] };

/* The balance alone, without what the source prints. */
static double
balance_jars(const char *id, const char *jar)
{
    batch b = open_batch(id, jar);
    pottle_estimate volume = { 0, 0 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottlei_cook_balance(kitchen, b.recipe, b.part,
                                                      b.parts, &volume, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s", id, error.what);
    const double jars =
        volume.median / study_fill_ml(jar, headspace_of(b.recipe, jar));
    close_batch(&b);
    return jars;
}

START_TEST(balance_is_that_of_the_study)
{
    const double jars = balance_jars(study[_i].recipe, study[_i].jar);
    ck_assert_msg(
        within(jars, study[_i].jars, 0.25),
        "yield study, section 3, %s: %.1f %s jars; found %.2f (%+.0f %%)",
        study[_i].recipe, study[_i].jars, study[_i].jar, jars,
        100 * (jars / study[_i].jars - 1));
}
END_TEST

static int
by_size(const void *a, const void *b)
{
    return *(const double *)a < *(const double *)b
             ? -1
             : *(const double *)a > *(const double *)b;
}

static double
median_of(double *list, size_t n)
{
    qsort(list, n, sizeof list[0], by_size);
    return n % 2 == 1 ? list[n / 2] : 0.5 * (list[n / 2 - 1] + list[n / 2]);
}

START_TEST(balance_is_near_the_study_over_all)
{
    double apart[STUDY], biased[STUDY];
    printf("%-42s %-9s %6s %6s %6s\n", "recipe", "jar", "study", "here", "%");
    for (size_t i = 0; i < STUDY; i++) {
        const double jars = balance_jars(study[i].recipe, study[i].jar);
        biased[i] = jars / study[i].jars - 1;
        apart[i] = fabs(biased[i]);
        printf("%-42s %-9s %6.1f %6.2f %+6.0f\n", study[i].recipe, study[i].jar,
               study[i].jars, jars, 100 * biased[i]);
    }
    const double median = median_of(apart, STUDY),
                 bias = median_of(biased, STUDY);
    printf("%d recipes: median absolute difference %.1f %%, median difference "
           "%+.1f %%\n",
           (int)STUDY, 100 * median, 100 * bias);
    fflush(stdout);
    ck_assert_msg(median <= 0.12,
                  "median absolute difference from the study %.1f %%",
                  100 * median);
    ck_assert_msg(fabs(bias) <= 0.10,
                  "median difference from the study %+.1f %%", 100 * bias);
}
END_TEST

/* Berry jam, by hand. 4 cups of crushed berries at 232 g (study, mapping) are
 * 928 g, of which 88.15 % is water (SR26 09042): 109.968 g solids. 4 cups of
 * sugar at 200 g are 800 g, 99.98 % solids (SR26 19335): 799.84 g. Together
 * 909.808 g; at the gel point 62 % solids (study, section 7): 1467.43 g, 557.62
 * g of it water. Dissolved are, of the berries, carbohydrate less fibre 4.31 %
 * and, of the sugar, all but 0.01 % ash: 40.00 + 799.76 = 839.76 g, which with
 * the water is a solution of 60.095
 * %, 1.28697 g/mL (CRC Handbook, 60 %: 1.2864, 62 %: 1.2983): 1085.8 mL. Beside
 * it 5.3 % fibre, 49.18 g at 1.304 g/mL: 37.7 mL; ash 3.51 g at 2.418: 1.5 mL;
 * the rest 17.35 g, protein at 1.320: 13.1 mL (Choi and Okos 1986). 1138.1 mL,
 * of which 3 % stays in the pot: 1104.0 mL. A half-pint to 1/4 in is 236.59
 * + 17.95 = 254.5 mL: 4.34 jars. */
START_TEST(berry_jam_by_hand)
{
    batch b = open_batch("berry-jam-no-pectin", "half-pint");
    pottle_estimate volume = { 0, 0 };
    ck_assert_int_eq(
        pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts, &volume, NULL),
        POTTLE_OK);
    ck_assert_msg(within(volume.median, 1104.0, 1e-3),
                  "1104.0 mL by hand, found %.2f", volume.median);
    close_batch(&b);
    ck_assert_double_eq_tol(balance_jars("berry-jam-no-pectin", "half-pint"),
                            4.34, 0.01);
}
END_TEST

/* -- Against what is printed ----------------------------------------------- */

/* The middle of each printed yield that can be lies in the plan's range of 90
 * %, in 85 % of the recipes at least (study, section 7.3 asks 90 % in the long
 * run, with room for chance). A wide range is no success: in the median high
 * over low stays under 2.2. */
START_TEST(printed_yields_lie_in_the_range)
{
    size_t looked_at = 0, inside = 0;
    double width[256];
    for (int i = 0; i < kitchen_ids; i++) {
        pottle_recipe *recipe = kitchen_recipe(kitchen_id[i]);
        size_t n = 0;
        const pottle_yield *y = pottle_recipe_yields(recipe, &n);
        if (n > 0 && y[0].possible &&
            pottle_recipe_cook(recipe)->end != POTTLE_END_LOAD) {
            answer a = kitchen_ask(&(asked){
                .recipe = kitchen_id[i], .batches = 1, .jar = y[0].jar });
            const pottle_jar_count *jars =
                a.plan != NULL ? pottle_plan_jars(a.plan) : NULL;
            if (jars != NULL) {
                const pottle_interval range =
                    pottle_estimate_interval(jars->count);
                const double middle = sqrt(y[0].low * y[0].high);
                const bool in = range.low <= middle && middle <= range.high;
                width[looked_at++] = range.high / range.low;
                inside += in;
                if (!in)
                    printf("%s: %g-%g %s printed, %.1f to %.1f planned\n",
                           kitchen_id[i], y[0].low, y[0].high, y[0].jar,
                           range.low, range.high);
            }
            answer_free(&a);
        }
        pottle_recipe_free(recipe);
    }
    const double wide = median_of(width, looked_at);
    printf("%zu of %zu printed yields lie in the planned range of 90 %%; high "
           "over low is %.2f in the median\n",
           inside, looked_at, wide);
    fflush(stdout);
    ck_assert_uint_ge(looked_at, 50);
    ck_assert_msg((double)inside >= 0.85 * (double)looked_at, "%zu of %zu",
                  inside, looked_at);
    ck_assert_msg(wide <= 2.2, "high over low is %.2f", wide);
}
END_TEST

/* Jars of a plan: twice the batch, twice the jars, whatever the recipe. */
START_TEST(jars_go_with_the_batch)
{
    answer one =
        kitchen_plan(&(asked){ .recipe = kitchen_id[_i], .batches = 1 });
    const pottle_jar_count *jars = pottle_plan_jars(one.plan);
    for (double times = 2; jars != NULL && times < 8; times += 5) {
        answer many = kitchen_plan(
            &(asked){ .recipe = kitchen_id[_i], .batches = times });
        const pottle_jar_count *more = pottle_plan_jars(many.plan);
        ck_assert_ptr_nonnull(more);
        ck_assert_msg(
            within(more->count.median, times * jars->count.median, 1e-9),
            "%s: %g batches fill %.4f jars, one %.4f", kitchen_id[_i], times,
            more->count.median, jars->count.median);
        ck_assert_double_eq_tol(more->count.sd, jars->count.sd, 1e-12);
        answer_free(&many);
    }
    answer_free(&one);
}
END_TEST

/* Plain packs: the jars of a load are those printed. Crushed tomatoes, USDA
 * guide 3: 22 lb for 7 quarts, 14 lb for 9 pints, so 22 lb fill 22 / 14 * 9
 * = 14.142857 pints. */
START_TEST(loads_are_as_printed)
{
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    pottle_estimate jars = { 0, 0 };
    ck_assert_int_eq(pottlei_load_count(kitchen, recipe, kitchen_jar("quart"),
                                        22 * POUND_G, &jars, NULL),
                     POTTLE_OK);
    ck_assert_msg(within(jars.median, 7, 1e-9), "%.6f quarts", jars.median);
    ck_assert_int_eq(pottlei_load_count(kitchen, recipe, kitchen_jar("pint"),
                                        22 * POUND_G, &jars, NULL),
                     POTTLE_OK);
    ck_assert_msg(within(jars.median, 22.0 / 14 * 9, 1e-9), "%.6f pints",
                  jars.median);
    /* half-pints: nothing is printed, so by volume from the pint */
    ck_assert_int_eq(pottlei_load_count(kitchen, recipe,
                                        kitchen_jar("half-pint"), 22 * POUND_G,
                                        &jars, NULL),
                     POTTLE_OK);
    ck_assert_msg(within(jars.median, 22.0 / 14 * 18, 1e-9), "%.6f half-pints",
                  jars.median);
    ck_assert_double_ge(jars.sd, 0.1 - 1e-12);
    const pottle_estimate before = jars;
    ck_assert_int_eq(pottlei_load_count(kitchen, recipe, kitchen_jar("pint"), 0,
                                        &jars, NULL),
                     POTTLE_ENOENT);
    ck_assert(memcmp(&jars, &before, sizeof jars) == 0);
    pottle_recipe_free(recipe);
    recipe = kitchen_recipe("chile-salsa");
    ck_assert_int_eq(pottlei_load_count(kitchen, recipe, kitchen_jar("pint"),
                                        1000, &jars, NULL),
                     POTTLE_ENOENT);
    pottle_recipe_free(recipe);
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("cook");
    TCase *tcase = tcase_create("study");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_loop_test(tcase, balance_is_that_of_the_study, 0, STUDY);
    tcase_add_test(tcase, balance_is_near_the_study_over_all);
    tcase_add_test(tcase, berry_jam_by_hand);
    suite_add_tcase(suite, tcase);
    suite_add_tcase(suite, cook_balance());
    tcase = tcase_create("print");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, printed_yields_lie_in_the_range);
    tcase_add_loop_test(tcase, jars_go_with_the_batch, 0, kitchen_ids);
    tcase_add_test(tcase, loads_are_as_printed);
    suite_add_tcase(suite, tcase);
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
