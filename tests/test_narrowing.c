/* test_narrowing.c - what a cook sees as the day goes on: the range of the jars
 * narrows with each thing measured; the published yields of containers and
 * canner loads lie inside it; and it takes no time.
 *
 * The bounds are those asked of the project: x/÷ 1.3 to 1.5 by kind before
 * anything is weighed, less with prepared weights, x/÷ 1.1 or better once the
 * cooked pot is measured. The ten recipes are two of each kind that is cooked
 * in a pot, all measured by cups or bought weight. What cannot meet a bound is
 * named with the reason, and fails here too once it can. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "narrowing_cases.h"
#include "suite.h"

pottle_chain *
chain_of(const pottle_recipe *recipe, const pottle_chain_request *request)
{
    pottle_chain *chain = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_chain_new(kitchen, recipe, request, &chain, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s: %s", pottle_recipe_id(recipe),
                  pottle_strerror((int)status), error.what);
    return chain;
}

pottle_chain_state
state_of(const pottle_chain *chain, const pottle_observation *seen,
         size_t count)
{
    pottle_chain_state s;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_chain_update(chain, seen, count, &s, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s", pottle_strerror((int)status),
                  error.what);
    return s;
}

/* -- The sequence ---------------------------------------------------------- */

/* The spread of the kind (log sd) as the yield study prints it, section 5. */
static const struct narrowed {
    const char *recipe, *kind;
    double spread;
    const char *scarcely; /* why weighing tells next to nothing; NULL: it does
                           */
} ten[] = {
    { "berry-jam-no-pectin", "gel point", 0.20,
      "boiled to a share of solids: sugar makes most of them, and the water of "
      "more fruit boils away" },
    { "peach-jam-no-pectin", "gel point", 0.20,
      "boiled to a share of solids: sugar makes most of them, and the water of "
      "more fruit boils away" },
    { "strawberry-jam-powdered-pectin", "added pectin", 0.15, NULL },
    { "peach-jam-liquid-pectin", "added pectin", 0.15, NULL },
    { "tomato-ketchup", "cooked down", 0.23, NULL },
    { "barbecue-sauce-tomato", "cooked down", 0.23, NULL },
    { "chile-salsa", "simmered", 0.20, NULL },
    { "rummage-relish", "simmered", 0.20,
      "many vegetables: the one that is weighed is under half of the pot" },
    { "blueberry-pie-filling", "pie filling", 0.16, NULL },
    { "peach-pie-filling", "pie filling", 0.16, NULL },
};

/* Before anything is weighed x/÷ lies between these. The best known kind is
 * printed as 1.28 (yield study, section 7, target 1), which is 1.3 to the digit
 * of the bound. */
static const double widest = 1.5, narrowest = 1.3, narrowest_pectin = 1.28;

/* "x/÷ 1.1 or better": to half of the next digit. */
static const double pot_known = 1.1005;

/* What weighing takes from the spread, as the study says it (section 7, point
 * 7c): 0.02 to 0.03 of the balance. The print knows the usual cup too, and with
 * it joined in about half of that is left. */
static const double weight_tells = 0.02, weight_tells_print = 0.01;

/* The spread (log sd) that takes one x/÷ to another. */
static double
spread_taken(double before, double after)
{
    const double b = log(before) / 1.645, a = log(after) / 1.645;
    return sqrt(b * b - a * a);
}

/* One published batch, measured out as the recipe says; then weighed; then the
 * cooked pot. Every reading is what is expected, so that only the knowledge
 * changes. */
START_TEST(the_day_narrows)
{
    const struct narrowed *t = &ten[_i];
    pottle_recipe *recipe = kitchen_recipe(t->recipe);
    const pottle_chain_request alone = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION,
                                         .without_yield = true },
                               whole = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION };
    pottle_chain *balance = chain_of(recipe, &alone),
                 *chain = chain_of(recipe, &whole);
    pottle_observation seen[3] = {
        { .node = POTTLE_CHAIN_BATCHES, .low = 1, .high = 1 }
    };
    double step[5], weighed;
    step[0] = state_of(balance, seen, 1).factor[POTTLE_CHAIN_JARS];
    pottle_chain_state s = state_of(chain, seen, 1);
    step[1] = s.factor[POTTLE_CHAIN_JARS];
    const double prepared = s.node[POTTLE_CHAIN_PREPARED].median;
    seen[1] = (pottle_observation){ .node = POTTLE_CHAIN_PREPARED,
                                    .low = prepared,
                                    .high = prepared };
    s = state_of(chain, seen, 2);
    step[2] = s.factor[POTTLE_CHAIN_JARS];
    weighed = state_of(balance, seen, 2).factor[POTTLE_CHAIN_JARS];
    const double ml = s.node[POTTLE_CHAIN_COOKED_VOLUME].median,
                 g = s.node[POTTLE_CHAIN_COOKED_MASS].median;
    seen[2] = (pottle_observation){ .node = POTTLE_CHAIN_COOKED_VOLUME,
                                    .low = ml,
                                    .high = ml };
    step[3] = state_of(chain, seen, 3).factor[POTTLE_CHAIN_JARS];
    seen[2] = (pottle_observation){ .node = POTTLE_CHAIN_COOKED_MASS,
                                    .low = g,
                                    .high = g };
    step[4] = state_of(chain, seen, 3).factor[POTTLE_CHAIN_JARS];
    printf("%-32s %-12s balance x/÷ %.3f  yield %.3f  prepared %.3f  cooked "
           "volume %.3f  cooked weight %.3f\n",
           t->recipe, t->kind, step[0], step[1], step[2], step[3], step[4]);
    /* the study's spread to half of its last digit, with 0.03 of the jar's fill
     * (section 2) on top */
    const double low = exp(1.645 * hypot(t->spread - 0.005, 0.03)),
                 high = exp(1.645 * hypot(t->spread + 0.005, 0.03));
    ck_assert_msg(
        step[0] >= low && step[0] <= high,
        "%s: expected x/÷ %.3f to %.3f by the balance alone (%s), found %.4f",
        t->recipe, low, high, t->kind, step[0]);
    const double least =
        strcmp(t->kind, "added pectin") == 0 ? narrowest_pectin : narrowest;
    ck_assert_msg(step[0] >= least && step[0] <= widest,
                  "%s: expected x/÷ %g to %g before anything is weighed, found "
                  "%.4f",
                  t->recipe, least, widest, step[0]);
    ck_assert_msg(
        step[1] < step[0],
        "%s: expected the published yield to narrow x/÷ %.4f, found %.4f",
        t->recipe, step[0], step[1]);
    ck_assert_msg(
        weighed < step[0] && step[2] < step[1],
        "%s: expected prepared weights to narrow x/÷ %.4f and %.4f, found %.4f "
        "and %.4f",
        t->recipe, step[0], step[1], weighed, step[2]);
    const double by_balance = spread_taken(step[0], weighed),
                 joined = spread_taken(step[1], step[2]);
    ck_assert_msg((by_balance >= weight_tells &&
                   joined >= weight_tells_print) == (t->scarcely == NULL),
                  "%s: prepared weights take %.4f from the balance and %.4f "
                  "from the whole, expected %g and %g; %s",
                  t->recipe, by_balance, joined, weight_tells,
                  weight_tells_print,
                  t->scarcely != NULL ? t->scarcely : "no reason against it");
    ck_assert_msg(
        step[3] < step[2] && step[3] <= pot_known,
        "%s: expected x/÷ 1.1 or better with the cooked volume, found %.4f",
        t->recipe, step[3]);
    ck_assert_msg(
        step[4] < step[2] && step[4] <= pot_known,
        "%s: expected x/÷ 1.1 or better with the cooked weight, found %.4f",
        t->recipe, step[4]);
    pottle_chain_free(balance);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* From the bought weight on, as a day goes: what is kept, what it measures,
 * what the pot holds. Each narrows, and at the end it is known better than by
 * the pot alone. */
START_TEST(the_basket_narrows)
{
    static const pottle_chain_node order[] = {
        POTTLE_CHAIN_PICKED, POTTLE_CHAIN_PREPARED, POTTLE_CHAIN_MEASURED,
        POTTLE_CHAIN_COOKED_VOLUME, POTTLE_CHAIN_COOKED_MASS
    };
    enum { STEPS = sizeof order / sizeof order[0] };
    const struct narrowed *t = &ten[_i];
    pottle_recipe *recipe = kitchen_recipe(t->recipe);
    const pottle_chain_request whole = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION };
    pottle_chain *chain = chain_of(recipe, &whole);
    pottle_observation seen[STEPS] = {
        { .node = order[0], .low = 10000, .high = 10000 }
    };
    printf("%-32s", t->recipe);
    double before = HUGE_VAL;
    size_t n = 0;
    for (size_t i = 0; i < STEPS; i++) {
        if (!pottle_chain_facts_of(chain)
                 ->has[order[i]]) /* tomatoes for ketchup are never measured out
                                   */
            continue;
        if (n > 0) {
            const double value = state_of(chain, seen, n).node[order[i]].median;
            seen[n] = (pottle_observation){ .node = order[i],
                                            .low = value,
                                            .high = value };
        }
        const double factor =
            state_of(chain, seen, ++n).factor[POTTLE_CHAIN_JARS];
        /* where the recipe counts by weight, a volume of what was weighed tells
         * nothing */
        const bool tells =
            order[i] != POTTLE_CHAIN_MEASURED ||
            pottle_chain_facts_of(chain)->base == POTTLE_CHAIN_MEASURED;
        printf("  %s %.3f", pottle_chain_node_name((int)order[i]), factor);
        ck_assert_msg(tells ? factor < before : factor < before + 1e-9,
                      "%s: %s leaves x/÷ %.5f, it was %.5f", t->recipe,
                      pottle_chain_node_name((int)order[i]), factor, before);
        before = factor;
    }
    ck_assert_uint_ge(n, 4);
    puts("");
    /* level 0.05 and weight 0.005 with density 0.03 are 0.0260 together, with
     * 0.0335 of fill and pot loss exp(1.645 x 0.0424) = 1.0722, and a little
     * less with all that was known before (figures of docs/CHAIN.md) */
    ck_assert_msg(
        before <= 1.0725,
        "%s: expected x/÷ 1.072 with level and weight of the pot, found %.4f",
        t->recipe, before);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* These stay a little above 1.1 with the level of the pot. Its error (0.05) and
 * that of the jars (0.0335) are 1.104 alone; 1.1 takes jars that are known to
 * 1.3 before, and these are not. */
static const struct above {
    const char *recipe, *why;
} above[] = {
    { "apple-juice", "prints no yield" },
    { "fruit-purees", "prints no yield" },
    { "blackberry-jelly-no-pectin", "prints more than went in" },
    { "grape-jelly-no-pectin", "prints more than went in" },
    { "plum-jelly-no-pectin", "prints more than went in" },
    { "apple-pie-filling", "prints more than went in" },
    { "rhubarb-stewed", "prints more than went in" },
    { "pickled-horseradish-sauce",
      "prints 2 jars, half a jar either way; no composition, so no balance" },
    { "tomato-vegetable-juice", "loads only, not weighed in the pot" },
    { "tomatoes-okra-zucchini", "loads only, not weighed in the pot" },
};

static const struct above *
stays_above(const char *recipe)
{
    for (size_t i = 0; i < sizeof above / sizeof above[0]; i++)
        if (strcmp(above[i].recipe, recipe) == 0)
            return &above[i];
    return NULL;
}

/* The same for every recipe that has a pot: the pot settles it. */
START_TEST(every_pot_narrows)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    const pottle_chain_request whole = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION };
    pottle_chain *chain = NULL;
    pottle_error error = { .status = POTTLE_OK };
    pottle_observation seen[2] = {
        { .node = POTTLE_CHAIN_BATCHES, .low = 1, .high = 1 }
    };
    const pottle_status status =
        pottle_chain_new(kitchen, recipe, &whole, &chain, &error);
    /* meat is packed as it comes: no amount makes a batch */
    ck_assert_msg(
        status == POTTLE_OK ||
            (status == POTTLE_ENOENT && strcmp(error.code, "no-amount") == 0 &&
             strcmp(pottle_recipe_kind(recipe), "meat-pack") == 0),
        "%s: %s: %s", kitchen_id[_i], pottle_strerror((int)status), error.what);
    if (status == POTTLE_OK &&
        pottle_chain_facts_of(chain)->has[POTTLE_CHAIN_COOKED_VOLUME]) {
        pottle_chain_state s = state_of(chain, seen, 1);
        const double before = s.factor[POTTLE_CHAIN_JARS],
                     ml = s.node[POTTLE_CHAIN_COOKED_VOLUME].median;
        seen[1] = (pottle_observation){ .node = POTTLE_CHAIN_COOKED_VOLUME,
                                        .low = ml,
                                        .high = ml };
        const double after = state_of(chain, seen, 2).factor[POTTLE_CHAIN_JARS];
        const struct above *a = stays_above(kitchen_id[_i]);
        ck_assert_msg(after < before,
                      "%s: x/÷ %.4f before and %.4f with the cooked volume",
                      kitchen_id[_i], before, after);
        ck_assert_msg((after <= pot_known) == (a == NULL),
                      "%s: x/÷ %.4f with the cooked volume; %s", kitchen_id[_i],
                      after, a != NULL ? a->why : "1.1 was expected");
        /* exp(1.645 x 0.0602) = 1.104 whatever was known before */
        ck_assert_msg(after < 1.1045, "%s: x/÷ %.4f", kitchen_id[_i], after);
        ck_assert_msg((before > 1.3) == (a != NULL),
                      "%s: x/÷ %.4f before the pot is measured", kitchen_id[_i],
                      before);
    }
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Time ------------------------------------------------------------------ */

START_TEST(updates_are_quick)
{
    enum { TIMES = 20000 };
    pottle_recipe *recipe = kitchen_recipe("berry-jam-no-pectin");
    const pottle_chain_request whole = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION };
    pottle_chain *chain = chain_of(recipe, &whole);
    pottle_observation seen[5] = {
        { .node = POTTLE_CHAIN_PICKED, .low = 2700, .high = 2700 },
        { .node = POTTLE_CHAIN_PREPARED, .low = 2580, .high = 2580 },
        { .node = POTTLE_CHAIN_MEASURED,
          .low = 11 * CUP_ML,
          .high = 11 * CUP_ML },
        { .node = POTTLE_CHAIN_COOKED_VOLUME, .low = 3100, .high = 3100 },
        { .node = POTTLE_CHAIN_JARS, .low = 12, .high = 12 },
    };
    pottle_chain_state s;
    const clock_t begin = clock();
    for (int i = 0; i < TIMES; i++) {
        seen[3].low = seen[3].high =
            3100 + i % 50; /* not the same sum again and again */
        ck_assert_int_eq(pottle_chain_update(chain, seen, 5, &s, NULL),
                         POTTLE_OK);
    }
    const double seconds = (double)(clock() - begin) / CLOCKS_PER_SEC,
                 rate = TIMES / fmax(seconds, 1e-9);
    printf("chain: %.0f updates a second with five observations, "
           "contradictions looked for\n",
           rate);
    ck_assert_msg(rate > 1000,
                  "expected over 1000 updates a second, found %.0f", rate);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("narrowing");
    TCase *tcase = tcase_create("the day");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_set_timeout(tcase, 120);
    tcase_add_loop_test(tcase, the_day_narrows, 0,
                        (int)(sizeof ten / sizeof ten[0]));
    tcase_add_loop_test(tcase, the_basket_narrows, 0,
                        (int)(sizeof ten / sizeof ten[0]));
    tcase_add_loop_test(tcase, every_pot_narrows, 0, kitchen_ids);
    tcase_add_test(tcase, updates_are_quick);
    suite_add_tcase(suite, tcase);
    suite_add_tcase(suite, narrowing_loads());
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
