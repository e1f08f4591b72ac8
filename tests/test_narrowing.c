/* test_narrowing.c - what a cook sees as the day goes on: the range of the jars
 * narrows with each thing measured; the published yields of containers and
 * canner loads lie inside it; and it takes no time.
 *
 * The bounds are those asked of the project: x/÷ 1.3 to 1.5 by kind before
 * anything is weighed (reference yield study, section 7, target 1), x/÷ 1.1 or
 * better once the cooked pot is measured. The ten recipes are two of each kind
 * that is cooked in a pot, all measured by cups or bought weight, so that
 * weighing what is ready to use can tell something. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "kitchen_help.h"
#include "suite.h"

static pottle_chain *
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

static pottle_chain_state
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

static const struct narrowed {
    const char *recipe, *kind;
    double least, most;
} ten[] = {
    /* least and most x/÷ by the balance alone: exp(1.645 sd) of the kinds'
     * spreads, study section 7, to the printed decimal, with the spread of the
     * jar's fill on top */
    { "berry-jam-no-pectin", "gel point", 1.35, 1.45 },
    { "peach-jam-no-pectin", "gel point", 1.35, 1.45 },
    { "strawberry-jam-powdered-pectin", "added pectin", 1.25, 1.35 },
    { "peach-jam-liquid-pectin", "added pectin", 1.25, 1.35 },
    { "tomato-ketchup", "cooked down", 1.40, 1.50 },
    { "barbecue-sauce-tomato", "cooked down", 1.40, 1.50 },
    { "chile-salsa", "simmered", 1.35, 1.45 },
    { "rummage-relish", "simmered", 1.35, 1.45 },
    { "blueberry-pie-filling", "pie filling", 1.25, 1.35 },
    { "peach-pie-filling", "pie filling", 1.25, 1.35 },
};

/* x/÷ 1.1 or better is held to two decimals for the level in the pot, whose own
 * error and that of the jars are 1.104 together. One published batch, measured
 * out as the recipe says; then weighed; then the cooked pot. Every reading is
 * what is expected, so that only the knowledge changes. */
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
    double step[5];
    step[0] = state_of(balance, seen, 1).factor[POTTLE_CHAIN_JARS];
    pottle_chain_state s = state_of(chain, seen, 1);
    step[1] = s.factor[POTTLE_CHAIN_JARS];
    const double prepared = s.node[POTTLE_CHAIN_PREPARED].median;
    seen[1] = (pottle_observation){ .node = POTTLE_CHAIN_PREPARED,
                                    .low = prepared,
                                    .high = prepared };
    s = state_of(chain, seen, 2);
    step[2] = s.factor[POTTLE_CHAIN_JARS];
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
    ck_assert_msg(
        step[0] >= t->least && step[0] < t->most,
        "%s: expected x/÷ %g to %g by the balance alone (%s), found %.3f",
        t->recipe, t->least, t->most, t->kind, step[0]);
    ck_assert_msg(
        step[0] >= 1.25 && step[0] < 1.55,
        "%s: expected x/÷ 1.3 to 1.5 before anything is weighed, found %.3f",
        t->recipe, step[0]);
    ck_assert_msg(
        step[1] < step[0],
        "%s: expected the published yield to narrow x/÷ %.4f, found %.4f",
        t->recipe, step[0], step[1]);
    ck_assert_msg(
        step[2] < step[1],
        "%s: expected prepared weights to narrow x/÷ %.4f, found %.4f",
        t->recipe, step[1], step[2]);
    ck_assert_msg(
        step[3] < step[2] && step[3] < 1.105,
        "%s: expected x/÷ 1.1 or better with the cooked volume, found %.4f",
        t->recipe, step[3]);
    ck_assert_msg(
        step[4] < step[2] && step[4] <= 1.1,
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
    ck_assert_msg(
        before < 1.08,
        "%s: expected x/÷ 1.08 with level and weight of the pot, found %.3f",
        t->recipe, before);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* The same for every recipe that has a pot: nothing is wider than the kinds
 * allow, and the pot settles it. */
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
        /* 0.05 of the level and 0.0335 of fill and pot loss: exp(1.645 x
         * 0.0602) = 1.104 whatever was known before */
        ck_assert_msg(after < before && after < 1.1045,
                      "%s: x/÷ %.4f before and %.4f with the cooked volume",
                      kitchen_id[_i], before, after);
    }
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Containers and loads -------------------------------------------------- */

/* The jars from a weight, as bought, of the food the quantities are of. */
static pottle_interval
jars_from(const pottle_recipe *recipe, const char *jar, double g,
          const pottle_unit *container)
{
    const pottle_chain_request request = {
        .version = POTTLE_CHAIN_REQUEST_VERSION,
        .food = pottle_recipe_quantities(recipe)->food,
        .jar = kitchen_jar(jar),
        .picked_said = true,
        .picked = POTTLE_PURCHASED,
        .container = container
    };
    pottle_chain *chain = chain_of(recipe, &request);
    const pottle_observation seen = { .node = container != NULL
                                                ? POTTLE_CHAIN_CONTAINER
                                                : POTTLE_CHAIN_PICKED,
                                      .low = container != NULL ? 1 : g,
                                      .high = container != NULL ? 1 : g };
    const pottle_chain_state s = state_of(chain, &seen, 1);
    ck_assert_msg(s.has_jars, "%s: no jars", pottle_recipe_id(recipe));
    const pottle_interval out =
        pottle_estimate_interval(s.node[POTTLE_CHAIN_JARS]);
    pottle_chain_free(chain);
    return out;
}

/* A printed yield that mass balance does not allow (data: possible="no"). */
static bool
is_impossible(const pottle_recipe *recipe)
{
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    return n > 0 && !y[0].possible;
}

/* Whether the chain says of a published container yield that it contradicts the
 * canner loads. */
static bool
is_told_off(const pottle_recipe *recipe, const pottle_container_yield *y)
{
    const pottle_chain_request request = {
        .version = POTTLE_CHAIN_REQUEST_VERSION,
        .food = pottle_recipe_quantities(recipe)->food,
        .jar = kitchen_jar(y->jar)
    };
    pottle_chain *chain = chain_of(recipe, &request);
    char wanted[80];
    bool told = false;
    snprintf(wanted, sizeof wanted, "%s: %g to %g jars a %s contradict",
             y->cite.source, y->low, y->high, y->of->id);
    size_t n = 0;
    const pottle_chain_link *l = pottle_chain_links(chain, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < l[i].basis.notes; k++)
            told = told || strstr(l[i].basis.note[k], wanted) != NULL;
    pottle_chain_free(chain);
    return told;
}

typedef struct tally {
    int yields, ends, outside, contradicted, impossible, loads;
    char text[1200];
} tally;

static void
check_container(const pottle_recipe *recipe, const pottle_container_yield *y,
                tally *t)
{
    const pottle_interval i = jars_from(recipe, y->jar, y->grams, NULL);
    const double middle = sqrt(y->low * y->high);
    const bool inside = middle >= i.low && middle <= i.high;
    t->yields++;
    t->ends += y->low >= i.low && y->high <= i.high;
    if (!inside && is_impossible(recipe)) {
        t->impossible++;
    } else if (!inside && is_told_off(recipe, y)) {
        t->contradicted++;
    } else if (!inside) {
        t->outside++;
        const size_t n = strlen(t->text);
        snprintf(t->text + n, sizeof t->text - n,
                 "\n  %s: %g to %g %s from a %s of %.0f g (%s, %s), predicted "
                 "%.1f to %.1f",
                 pottle_recipe_id(recipe), y->low, y->high, y->jar, y->of->id,
                 y->grams, y->cite.source, y->cite.at, i.low, i.high);
    }
    if (!inside)
        printf("%s: %g to %g %s a %s (%s, %s) against %.1f to %.1f: %s\n",
               pottle_recipe_id(recipe), y->low, y->high, y->jar, y->of->id,
               y->cite.source, y->cite.at, i.low, i.high,
               is_impossible(recipe) ? "its printed yield is impossible"
                                     : "contradicts the canner loads");
}

static void
check_load(const pottle_recipe *recipe, const char *jar, double jars, double g,
           const pottle_cite *cite, tally *t)
{
    const pottle_interval i = jars_from(recipe, jar, g, NULL);
    t->loads++;
    if (jars >= i.low && jars <= i.high)
        return;
    if (is_impossible(recipe)) {
        t->impossible++;
        return;
    }
    t->outside++;
    const size_t n = strlen(t->text);
    snprintf(t->text + n, sizeof t->text - n,
             "\n  %s: %g %s from %.0f g (%s, %s), predicted %.1f to %.1f",
             pottle_recipe_id(recipe), jars, jar, g, cite->source, cite->at,
             i.low, i.high);
}

START_TEST(published_quantities_are_inside)
{
    tally t = { 0 };
    for (int r = 0; r < kitchen_ids; r++) {
        pottle_recipe *recipe = kitchen_recipe(kitchen_id[r]);
        const pottle_quantities *q = pottle_recipe_quantities(recipe);
        for (size_t i = 0; i < q->containers; i++)
            check_container(recipe, &q->container[i], &t);
        for (size_t i = 0; i < q->loads; i++)
            check_load(recipe, q->load[i].jar, q->load[i].jars,
                       q->load[i].grams, &q->load[i].cite, &t);
        for (size_t i = 0; i < q->averages; i++)
            check_load(recipe, q->average[i].jar, 1, q->average[i].grams,
                       &q->average[i].cite, &t);
        pottle_recipe_free(recipe);
    }
    printf(
        "container yields: %d, of these %d with both ends inside; loads and "
        "averages: %d; contradicted and told: %d; of impossible yields: %d\n",
        t.yields, t.ends, t.loads, t.contradicted, t.impossible);
    ck_assert_msg(t.outside == 0, "%d published quantities lie outside:%s",
                  t.outside, t.text);
    ck_assert_int_ge(t.yields, 40);
    ck_assert_int_ge(t.loads, 80);
    /* a carton of blueberries and a box of asparagus whose sheet (1996)
     * disagrees with the canner loads by factors of 1.7 and 2.6; any more would
     * be an error here or in the data */
    ck_assert_int_le(t.contradicted, 2);
    /* stewed rhubarb alone: a lug, two loads and an average of a yield that its
     * own ingredients cannot fill */
    ck_assert_int_le(t.impossible, 4);
}
END_TEST

/* By the container itself, whose weight is not exact: where the food has one of
 * that name. */
START_TEST(container_yields_are_inside_by_count)
{
    int checked = 0;
    for (int r = 0; r < kitchen_ids; r++) {
        pottle_recipe *recipe = kitchen_recipe(kitchen_id[r]);
        const pottle_quantities *q = pottle_recipe_quantities(recipe);
        for (size_t i = 0; i < q->containers; i++) {
            const pottle_container_yield *y = &q->container[i];
            pottle_food *food = NULL;
            ck_assert_int_eq(pottle_food_read(kitchen, q->food, &food, NULL),
                             POTTLE_OK);
            size_t n = 0;
            bool known = false;
            const pottle_container *c = pottle_food_containers(food, &n);
            for (size_t k = 0; k < n; k++)
                known = known || c[k].of == y->of;
            pottle_food_free(food);
            if (!known || is_impossible(recipe) || is_told_off(recipe, y))
                continue;
            const pottle_interval in = jars_from(recipe, y->jar, 0, y->of);
            const double middle = sqrt(y->low * y->high);
            checked++;
            ck_assert_msg(
                middle >= in.low && middle <= in.high,
                "%s: %g to %g %s a %s (%s, %s), predicted %.1f to %.1f",
                kitchen_id[r], y->low, y->high, y->jar, y->of->id,
                y->cite.source, y->cite.at, in.low, in.high);
        }
        pottle_recipe_free(recipe);
    }
    ck_assert_int_ge(checked, 35);
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
    tcase_add_test(tcase, published_quantities_are_inside);
    tcase_add_test(tcase, container_yields_are_inside_by_count);
    tcase_add_test(tcase, updates_are_quick);
    suite_add_tcase(suite, tcase);
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
