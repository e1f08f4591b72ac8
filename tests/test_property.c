/* test_property.c - what holds for every recipe of the catalogue and for any
 * request at all.
 *
 * Nothing here knows a recipe by name. _i is a recipe or a seed; a failure
 * names what was asked, so that it can be asked again.
 */
#include <config.h>

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "property_cases.h"
#include "suite.h"

/* -- Each recipe in two hundred amounts ------------------------------------ */

/* All that a food's lines take of the published batch, and the first of the
 * lines. */
static double
food_mass(const pottle_line *line, size_t n, const char *food)
{
    double mass = 0;
    for (size_t i = 0; i < n; i++)
        if (strcmp(line[i].food, food) == 0)
            mass += line[i].mass_g;
    return mass;
}

static double
tested_food(const pottle_ingredient *list, const tested *t, const char *food)
{
    double amount = 0;
    for (size_t i = 0; i < t->lines; i++)
        if (strcmp(list[i].food, food) == 0)
            amount += t->amount[i];
    return amount;
}

/* So much of ingredient i as `batches` batches take, said in the recipe's own
 * measure. */
static pottle_phrase
phrase_of(const pottle_ingredient *list, size_t i, const tested *t,
          double batches)
{
    const pottle_ingredient *in = &list[i];
    pottle_phrase phrase = { .unit = in->unit,
                             .state_said = true,
                             .state = in->unit->dimension == POTTLE_VOLUME
                                        ? POTTLE_PREPARED
                                        : in->state };
    phrase.low = phrase.high =
        batches * tested_food(list, t, in->food) / in->unit->factor;
    POTTLEI_SET(phrase.food, in->food);
    POTTLEI_SET(phrase.size, in->size);
    if (in->unit->dimension == POTTLE_VOLUME)
        POTTLEI_SET(phrase.form, in->form);
    return phrase;
}

/* Ingredients that decide how much is made. A food whose lines are in different
 * dimensions has no one measure. */
static size_t
deciding(const pottle_ingredient *list, const tested *t, size_t *out)
{
    size_t n = 0;
    for (size_t i = 0; i < t->lines; i++) {
        bool decides = (list[i].keep != POTTLE_FREE ||
                        strcmp(list[i].role, "produce") == 0) &&
                       list[i].per == NULL && t->amount[i] > 0;
        for (size_t k = 0; k < t->lines; k++)
            decides =
                decides && (strcmp(list[k].food, list[i].food) != 0 ||
                            list[k].unit->dimension == list[i].unit->dimension);
        if (decides)
            out[n++] = i;
    }
    return n;
}

/* Unrounded, each line of a pot is the published batch times the pot; only what
 * has a printed column of its own may be more. */
static void
check_proportions(const pottle_plan *plan, const tested *t)
{
    size_t pots = 0, n = 0;
    const double *pot = pottle_plan_pots(plan, &pots);
    for (size_t p = 0; p < pots; p++) {
        const pottle_line *line = pottle_plan_lines(plan, p, &n);
        for (size_t i = 0; i < n; i++) {
            const bool column = line[i].ingredient->keep == POTTLE_AT_LEAST &&
                                line[i].ingredient->printeds > 0;
            const double got = line[i].mass_g, wanted = pot[p] * t->mass_g[i];
            HOLDS(fabs(got - wanted) <= 1e-12 * wanted ||
                      (column && got > wanted),
                  "%s: %.12g g in a pot of %g, not %.12g", line[i].food, got,
                  pot[p], wanted);
            HOLDS(column ||
                      fabs(line[i].volume_ml - pot[p] * t->volume_ml[i]) <=
                          1e-12 * pot[p] * t->volume_ml[i],
                  "%s: %.12g mL in a pot of %g", line[i].food,
                  line[i].volume_ml, pot[p]);
            HOLDS(column || fabs(line[i].count - pot[p] * t->count[i]) <=
                                1e-12 * pot[p] * t->count[i],
                  "%s: %.12g pieces in a pot of %g", line[i].food,
                  line[i].count, pot[p]);
        }
    }
}

/* What is on hand is used or left, and nothing else becomes of it. */
static void
check_conserved(const pottle_plan *plan, const pottle_phrase *have,
                double have_g)
{
    size_t n = 0;
    const pottle_line *line = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    const double used = food_mass(line, n, have->food);
    const pottle_rest *rest = rest_of(plan, have->food);
    const double left = rest != NULL ? rest->mass_g : 0;
    HOLDS(fabs(used + left - have_g) <= 1e-5 * have_g,
          "%.6g g of %s on hand, %.6g g used and %.6g g left", have_g,
          have->food, used, left);
}

static bool
refused_by_the_batch(const pottle_error *error)
{
    return strcmp(error->code, "batch-smallest") == 0 ||
           strcmp(error->code, "batch-whole") == 0;
}

/* 200 amounts from a twentieth of a batch to fifty, even in the logarithm:
 * every other one asked for as batches, the rest as one of the deciding
 * ingredients in turn. */
START_TEST(no_kept_ratio_is_ever_worse)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    const tested t = tested_batch(recipe);
    size_t n = 0, decide[PLAN_LINES_MAX], planned = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    const size_t deciders = deciding(list, &t, decide);
    for (int k = 0; k < AMOUNTS; k++) {
        const double batches = 0.05 * pow(1000, k / (AMOUNTS - 1.0));
        pottle_request request = { .version = POTTLE_REQUEST_VERSION };
        pottle_phrase have = { .low = 0 };
        double have_g = 0;
        if (k % 2 == 1 && deciders > 0) {
            const size_t i = decide[(size_t)(k / 2) % deciders];
            have = phrase_of(list, i, &t, batches);
            for (size_t l = 0; l < t.lines; l++)
                have_g += strcmp(list[l].food, list[i].food) == 0
                            ? batches * t.mass_g[l]
                            : 0;
            request.have = &have;
            request.haves = 1;
        } else {
            request.batches = batches;
        }
        asked_for[0] = '\0';
        tell("%s, %.8g batches%s%s", kitchen_id[_i], batches,
             request.haves > 0 ? " of " : "", have.food);
        pottle_plan *plan = NULL;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_scale(kitchen, recipe, &request, &plan, &error);
        if (status == POTTLE_EBOUNDS && refused_by_the_batch(&error))
            continue;
        HOLDS(status == POTTLE_OK, "%s: %s", pottle_strerror((int)status),
              error.what);
        planned++;
        check_plan(plan, recipe, &request, &t);
        check_proportions(plan, &t);
        HOLDS(pottle_plan_factor(plan) <= batches * (1 + TINY),
              "a factor of %.10g", pottle_plan_factor(plan));
        if (pottle_recipe_batch(recipe)->smallest <= 0 && request.haves == 0)
            HOLDS(within(pottle_plan_factor(plan), batches, TINY),
                  "a factor of %.10g", pottle_plan_factor(plan));
        if (request.haves > 0)
            check_conserved(plan, &have, have_g);
        pottle_plan_free(plan);
    }
    /* whole batches only, by one ingredient or the other: half of the amounts
     * are over one batch, half of these are on hand */
    ck_assert_msg(planned >= 40, "%s: %zu of %d amounts are planned",
                  kitchen_id[_i], planned, (int)AMOUNTS);
    pottle_recipe_free(recipe);
}
END_TEST

/* There and back: what a plan of k batches takes of an ingredient, on hand,
 * gives k batches; and the k-th part of that plan is the published batch again.
 */
START_TEST(there_and_back)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    const tested t = tested_batch(recipe);
    size_t n = 0, decide[PLAN_LINES_MAX];
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    const size_t deciders = deciding(list, &t, decide);
    const bool part = pottle_recipe_batch(recipe)->smallest <= 0;
    uint64_t chance = (uint64_t)_i;
    for (int round = 0; round < 8; round++) {
        const double k = part ? spread_out(&chance, 0.01, 20)
                              : 1.0 + (double)below(&chance, 12);
        const pottle_request there = { .version = POTTLE_REQUEST_VERSION,
                                       .batches = k };
        pottle_plan *plan = NULL;
        pottle_error error = { .status = POTTLE_OK };
        asked_for[0] = '\0';
        tell("%s, %.10g batches and back", kitchen_id[_i], k);
        HOLDS(pottle_scale(kitchen, recipe, &there, &plan, &error) == POTTLE_OK,
              "%s", error.what);
        for (size_t d = 0; d < deciders; d++) {
            const size_t i = decide[d];
            const pottle_line *line =
                pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
            double taken = 0;
            for (size_t l = 0; l < n; l++)
                taken += strcmp(line[l].food, list[i].food) == 0
                           ? line_amount(&line[l])
                           : 0;
            pottle_phrase have = phrase_of(list, i, &t, 1);
            have.low = have.high = taken / list[i].unit->factor;
            const pottle_request back = { .version = POTTLE_REQUEST_VERSION,
                                          .have = &have,
                                          .haves = 1 };
            pottle_plan *again = NULL;
            HOLDS(pottle_scale(kitchen, recipe, &back, &again, &error) ==
                      POTTLE_OK,
                  "by %s: %s", list[i].food, error.what);
            HOLDS(within(pottle_plan_factor(again), k, TINY),
                  "by %s: %.10g batches", list[i].food,
                  pottle_plan_factor(again));
            const pottle_line *same =
                pottle_plan_lines(again, POTTLE_ALL_POTS, &n);
            for (size_t l = 0; l < n; l++) {
                const bool column =
                    same[l].ingredient->keep == POTTLE_AT_LEAST &&
                    same[l].ingredient->printeds > 0;
                HOLDS(column || fabs(line_amount(&same[l]) / k - t.amount[l]) <=
                                    TINY * t.amount[l],
                      "by %s: %s comes back as %.10g of %.10g", list[i].food,
                      same[l].food, line_amount(&same[l]) / k, t.amount[l]);
                HOLDS(fabs(same[l].mass_g - line[l].mass_g) <=
                          TINY * line[l].mass_g,
                      "by %s: %.10g g of %s, not %.10g", list[i].food,
                      same[l].mass_g, same[l].food, line[l].mass_g);
            }
            pottle_plan_free(again);
        }
        pottle_plan_free(plan);
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* More is never less: a larger amount on hand fills no fewer jars. */
START_TEST(more_is_never_less)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    const tested t = tested_batch(recipe);
    size_t n = 0, decide[PLAN_LINES_MAX];
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    if (deciding(list, &t, decide) > 0) {
        double factor = 0;
        unsigned long full = 0, promise = 0, prepare = 0, loads = 0;
        for (double batches = 0.3; batches < 4; batches *= 1.07) {
            const pottle_phrase have = phrase_of(list, decide[0], &t, batches);
            const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                             .have = &have,
                                             .haves = 1 };
            pottle_plan *plan = NULL;
            asked_for[0] = '\0';
            tell("%s, %.8g batches of %s", kitchen_id[_i], batches, have.food);
            if (pottle_scale(kitchen, recipe, &request, &plan, NULL) !=
                POTTLE_OK) {
                HOLDS(!(factor > 0), "refused, and less was not");
                continue;
            }
            HOLDS(pottle_plan_factor(plan) >= factor,
                  "%.8g batches, and %.8g of less", pottle_plan_factor(plan),
                  factor);
            factor = pottle_plan_factor(plan);
            const pottle_jar_count *jars = pottle_plan_jars(plan);
            if (jars != NULL) {
                HOLDS(jars->full >= full && jars->promise >= promise &&
                          jars->prepare >= prepare,
                      "%lu, %lu, %lu jars, and of less %lu, %lu, %lu",
                      jars->promise, jars->full, jars->prepare, promise, full,
                      prepare);
                full = jars->full;
                promise = jars->promise;
                prepare = jars->prepare;
            }
            HOLDS(pottle_plan_loads(plan, NULL) >= loads,
                  "fewer loads of more");
            loads = pottle_plan_loads(plan, NULL);
            pottle_plan_free(plan);
        }
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* Acid that goes into the jars one by one is judged like any other: a trace of
 * it for the whole batch is refused, whatever is known about the number of
 * jars. */
START_TEST(a_trace_of_acid_is_never_enough)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    size_t n = 0;
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        const bool needed =
            per[i].keep == POTTLE_AT_LEAST || per[i].keep == POTTLE_EXACT;
        for (size_t k = 0; needed && k < per[i].choices; k++) {
            pottle_phrase set = { .low = 0.01,
                                  .high = 0.01,
                                  .unit = per[i].choice[k].dose[0].unit,
                                  .state_said = true };
            POTTLEI_SET(set.food, per[i].choice[k].food);
            const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                             .batches = 1,
                                             .set = &set,
                                             .sets = 1 };
            pottle_plan *plan = NULL;
            const pottle_status status =
                pottle_scale(kitchen, recipe, &request, &plan, NULL);
            ck_assert_msg(status == POTTLE_EBOUNDS, "%s, set %g %s of %s: %s",
                          kitchen_id[_i], set.low, set.unit->id, set.food,
                          pottle_strerror((int)status));
        }
    }
    pottle_recipe_free(recipe);
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("property");
    TCase *tcase = tcase_create("every recipe");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_set_timeout(tcase, 120);
    tcase_add_loop_test(tcase, no_kept_ratio_is_ever_worse, 0, kitchen_ids);
    tcase_add_loop_test(tcase, there_and_back, 0, kitchen_ids);
    tcase_add_loop_test(tcase, more_is_never_less, 0, kitchen_ids);
    tcase_add_loop_test(tcase, a_trace_of_acid_is_never_enough, 0, kitchen_ids);
    suite_add_tcase(suite, tcase);

    suite_add_tcase(suite, property_jars());
    suite_add_tcase(suite, property_requests());
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
