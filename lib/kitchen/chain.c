/* chain.c - the chain from harvest to jars: what was measured, what follows
 * from it, and what to measure or pick next. */
#include <config.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/chain.h"

const char *
pottle_chain_node_name(int node)
{
    static const char *const names[POTTLE_CHAIN_NODES] = {
        "container",   "picked",        "prepared", "measured", "batches",
        "cooked-mass", "cooked-volume", "jars",     "loads"
    };
    return node >= 0 && node < POTTLE_CHAIN_NODES ? names[node] : "unknown";
}

/* -- Making ---------------------------------------------------------------- */

/* The recipe's own amount of a food that may stand in an ingredient's place:
 * setting it chooses that food. False: it is an ingredient already, or no part
 * of the recipe. */
static bool
choose_alternative(const pottle_recipe *recipe, const char *food,
                   pottle_phrase *out)
{
    size_t n = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(list[i].food, food) == 0)
            return false;
    for (size_t i = 0; i < n; i++) {
        const double amount = 0.5 * (list[i].amount + list[i].amount_to);
        for (size_t k = 0; k < list[i].alternatives; k++) {
            if (strcmp(list[i].alternative[k].food, food) != 0 || !(amount > 0))
                continue;
            *out = (pottle_phrase){ .low = amount,
                                    .high = amount,
                                    .unit = list[i].unit,
                                    .state_said = true,
                                    .state = list[i].state };
            POTTLEI_SET(out->food, food);
            POTTLEI_SET(out->form, list[i].alternative[k].form);
            POTTLEI_SET(out->size, list[i].size);
            return true;
        }
    }
    return false;
}

/* A food of a line after choosing, or the list of those it might be. */
static pottle_status
check_food(const pottle_chain *chain, const char *food, pottle_error *error)
{
    char names[300] = "";
    for (size_t i = 0; i < chain->plan->lines; i++) {
        const char *id = chain->plan->list[i].food;
        if (food == NULL || strcmp(id, food) == 0)
            return POTTLE_OK;
        pottlei_list_add(names, sizeof names, id);
    }
    return pottlei_fail(error, POTTLE_ENOENT, "not-in-recipe",
                        "%s does not use %s; it uses %s",
                        pottle_recipe_id(chain->recipe), food, names);
}

static double
error_of(const pottle_catalogue *catalogue, double asked, const char *figure,
         double fallback)
{
    return asked > 0 ? asked : pottlei_figure(catalogue, figure, fallback);
}

static pottle_status
take_errors(const pottle_catalogue *catalogue, pottle_chain *chain,
            const pottle_chain_request *r, pottle_error *error)
{
    chain->error_scale =
        error_of(catalogue, r->error_scale, "error-scale", 0.005);
    chain->error_cup = error_of(catalogue, r->error_cup, "error-cup", 0.03);
    chain->error_level =
        error_of(catalogue, r->error_level, "error-level", 0.05);
    chain->error_about =
        error_of(catalogue, r->error_about, "error-about", 0.15);
    chain->error_scale_g = r->error_scale_g;
    chain->limit = pottlei_figure(catalogue, "contradiction-limit", 3);
    const double given[] = { r->error_scale, r->error_cup, r->error_level,
                             r->error_about };
    for (size_t i = 0; i < sizeof given / sizeof given[0]; i++)
        if (!(pottlei_is_error(given[i]) || (given[i] >= 0 && given[i] <= 0)))
            return pottlei_fail(
                error, POTTLE_EDOMAIN, "error",
                "a measuring error lies between %g and %g of the logarithm",
                POTTLEI_ERROR_MIN, POTTLEI_ERROR_MAX);
    if (!(r->error_scale_g >= 0 && r->error_scale_g <= POTTLE_NUMBER_MAX))
        return pottlei_fail(error, POTTLE_EDOMAIN, "error",
                            "the error of a scale is a mass from 0 up");
    return POTTLE_OK;
}

pottle_status
pottle_chain_error_set(pottle_chain_request *request,
                       pottle_chain_instrument which, pottle_quantity amount,
                       pottle_error *error)
{
    if (request == NULL || (int)which < 0 || which > POTTLE_CHAIN_BY_EYE ||
        amount.unit == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no request, instrument or amount");
    const bool mass = amount.unit->dimension == POTTLE_MASS;
    if (amount.unit->dimension != POTTLE_NUMBER &&
        !(mass && which == POTTLE_CHAIN_SCALE))
        return pottlei_fail(
            error, POTTLE_EUNIT, "dimension",
            which == POTTLE_CHAIN_SCALE
                ? "a scale is out by a mass or by a percentage, such as '5 g'"
                : "a measuring error is a percentage, such as '3 %%'");
    const double value = amount.low * amount.unit->factor;
    if (!(value >= 0 && value <= (mass ? 1e5 : 1)) || amount.high > amount.low)
        return pottlei_fail(error, POTTLE_EDOMAIN, "error",
                            mass ? "the error of a scale is one mass from 0 g "
                                   "to 100 kg"
                                 : "a measuring error is one percentage from 0 "
                                   "to 100");
    double *const place[] = { &request->error_scale, &request->error_cup,
                              &request->error_level, &request->error_about };
    /* one out of nothing is as good as exact; 0 would be the usual one */
    *place[which] = fmax(mass ? 0 : value, POTTLEI_ERROR_MIN);
    if (which == POTTLE_CHAIN_SCALE)
        request->error_scale_g = mass ? value : 0;
    return POTTLE_OK;
}

pottle_status
pottle_chain_new(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
                 const pottle_chain_request *request, pottle_chain **out,
                 pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || request == NULL || out == NULL ||
        request->version != POTTLE_CHAIN_REQUEST_VERSION ||
        (request->picked_said && request->picked != POTTLE_PICKED &&
         request->picked != POTTLE_PURCHASED))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, recipe, request or place for the "
                            "result, or a request of another version");
    pottle_chain *chain = calloc(1, sizeof *chain);
    if (chain == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    chain->recipe = recipe;
    pottle_phrase set;
    pottle_request one = { .version = POTTLE_REQUEST_VERSION,
                           .batches = 1,
                           .jar = request->jar,
                           .own = request->own,
                           .has_altitude = request->has_altitude,
                           .altitude_m = request->altitude_m };
    if (request->food != NULL &&
        choose_alternative(recipe, request->food, &set)) {
        one.set = &set;
        one.sets = 1;
    }
    pottle_status status = take_errors(catalogue, chain, request, error);
    if (status == POTTLE_OK)
        status = pottle_scale(catalogue, recipe, &one, &chain->plan, error);
    if (status == POTTLE_OK)
        status = check_food(chain, request->food, error);
    if (status == POTTLE_OK)
        status = pottlei_chain_model_make(catalogue, chain, request, error);
    if (status != POTTLE_OK) {
        pottle_chain_free(chain);
        return status;
    }
    *out = chain;
    return POTTLE_OK;
}

void
pottle_chain_free(pottle_chain *chain)
{
    if (chain == NULL)
        return;
    pottle_plan_free(chain->plan);
    free(chain);
}

const pottle_chain_facts *
pottle_chain_facts_of(const pottle_chain *chain)
{
    return &chain->facts;
}
const pottle_plan *
pottle_chain_plan(const pottle_chain *chain)
{
    return chain->plan;
}

const pottle_chain_link *
pottle_chain_links(const pottle_chain *chain, size_t *count)
{
    *count = chain->links;
    return chain->link;
}

/* -- Answers --------------------------------------------------------------- */

static pottle_status
count_jars(const pottle_chain *chain, pottle_estimate jars,
           pottle_jar_count *out, pottle_error *error)
{
    const pottle_estimate fill = { chain->facts.fill_ml.median, 0 };
    const pottle_status status = pottle_jars_count(
        pottle_estimate_multiple(jars, fill.median), fill, out);
    if (status != POTTLE_OK)
        return pottlei_fail(error, status, "jars",
                            "the number of jars is out of range");
    out->jar = chain->facts.jar;
    out->own = chain->facts.own;
    out->headspace = chain->facts.headspace;
    out->fill_ml = chain->facts.fill_ml;
    return POTTLE_OK;
}

/* What is made of so many batches when a pot must not be smaller than the
 * smallest tested one. */
static double
whole_pots(const pottle_chain *chain, double batches)
{
    const double largest = pottle_recipe_batch(chain->recipe)->largest;
    const double full = floor(batches / largest * (1 + 1e-9)) * largest,
                 rest = batches - full;
    return full + (rest >= chain->facts.smallest * (1 - 1e-9) ? rest : 0);
}

static pottle_status
count_made(const pottle_chain *chain, const pottlei_posterior *known,
           pottle_chain_state *state, pottle_error *error)
{
    const pottle_estimate ratio = pottlei_chain_ratio(
        &chain->model, known, POTTLE_CHAIN_BATCHES, POTTLE_CHAIN_JARS);
    state->has_made = true;
    state->made = whole_pots(chain, state->node[POTTLE_CHAIN_BATCHES].median);
    return state->made > 0
             ? count_jars(chain, pottle_estimate_multiple(ratio, state->made),
                          &state->made_jars, error)
             : POTTLE_OK;
}

pottle_status
pottle_chain_update(const pottle_chain *chain,
                    const pottle_observation *observed, size_t count,
                    pottle_chain_state *out, pottle_error *error)
{
    if (chain == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no chain or place for the result");
    pottlei_seen seen[POTTLE_CHAIN_OBSERVED_MAX];
    pottle_status status =
        pottlei_chain_observe(chain, observed, count, seen, error);
    if (status == POTTLE_OK)
        status = pottlei_chain_check(chain, seen, count, error);
    if (status != POTTLE_OK)
        return status;
    pottlei_posterior known;
    pottlei_chain_condition(&chain->model, seen, count, POTTLEI_USE_ALL,
                            &known);
    pottle_chain_state state;
    memset(&state, 0, sizeof state);
    for (size_t i = 0; known.level && i < POTTLE_CHAIN_NODES; i++) {
        if (!chain->model.has[i])
            continue;
        state.told[i] = true;
        state.node[i] = pottlei_chain_node(&chain->model, &known, i);
        state.factor[i] = exp(POTTLE_Z95 * state.node[i].sd);
    }
    bool pot_seen = false;
    for (size_t i = 0; i < count; i++)
        pot_seen = pot_seen || seen[i].node >= POTTLE_CHAIN_BATCHES;
    state.has_jars = state.told[POTTLE_CHAIN_JARS];
    if (state.has_jars)
        status = count_jars(chain, state.node[POTTLE_CHAIN_JARS], &state.jars,
                            error);
    if (status == POTTLE_OK && state.has_jars && !pot_seen &&
        chain->facts.smallest > 0)
        status = count_made(chain, &known, &state, error);
    if (status == POTTLE_OK)
        *out = state;
    return status;
}

/* Whether a node can be measured after those that were: the pot may be weighed
 * when its level was read. */
static bool
can_follow(pottle_chain_node node, size_t last, bool any)
{
    const bool measurable =
        node == POTTLE_CHAIN_PICKED || node == POTTLE_CHAIN_PREPARED ||
        node == POTTLE_CHAIN_MEASURED || node == POTTLE_CHAIN_COOKED_MASS ||
        node == POTTLE_CHAIN_COOKED_VOLUME;
    return measurable && (!any || (size_t)node > last ||
                          (node == POTTLE_CHAIN_COOKED_MASS &&
                           last == POTTLE_CHAIN_COOKED_VOLUME));
}

pottle_status
pottle_chain_next(const pottle_chain *chain, const pottle_observation *observed,
                  size_t count, pottle_chain_gain out[POTTLE_CHAIN_NODES],
                  size_t *gains, pottle_error *error)
{
    if (chain == NULL || out == NULL || gains == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no chain or place for the result");
    pottlei_seen seen[POTTLE_CHAIN_OBSERVED_MAX + 1];
    const pottle_status status =
        pottlei_chain_observe(chain, observed, count, seen, error);
    if (status != POTTLE_OK)
        return status;
    size_t n = 0, last = 0;
    bool was_seen[POTTLE_CHAIN_NODES] = { false };
    for (size_t i = 0; i < count; i++) {
        was_seen[seen[i].node] = true;
        last = seen[i].node > last ? seen[i].node : last;
    }
    const bool counted = was_seen[POTTLE_CHAIN_JARS] ||
                         was_seen[POTTLE_CHAIN_LOADS] ||
                         !chain->model.has[POTTLE_CHAIN_JARS];
    for (size_t i = 0; !counted && count < POTTLE_CHAIN_OBSERVED_MAX &&
                       i < POTTLE_CHAIN_NODES;
         i++) {
        if (!chain->model.has[i] || was_seen[i] ||
            !can_follow((pottle_chain_node)i, last, count > 0))
            continue;
        /* how much it narrows depends on what it will read only where a scale
         * is out by so many grams */
        pottlei_posterior known;
        pottlei_chain_condition(&chain->model, seen, count, POTTLEI_USE_ALL,
                                &known);
        const double about =
            count > 0 ? pottlei_chain_node(&chain->model, &known, i).median
                      : pottlei_chain_ratio(&chain->model, &known,
                                            POTTLE_CHAIN_BATCHES, i)
                            .median;
        seen[count] = (pottlei_seen){
            i, 0, pottlei_chain_error(chain, (pottle_chain_node)i, about)
        };
        pottlei_chain_condition(&chain->model, seen, count + 1, POTTLEI_USE_ALL,
                                &known);
        const pottle_chain_gain gain = {
            (pottle_chain_node)i,
            exp(POTTLE_Z95 *
                pottlei_chain_node(&chain->model, &known, POTTLE_CHAIN_JARS).sd)
        };
        size_t k = n++;
        for (; k > 0 && out[k - 1].factor > gain.factor; k--)
            out[k] = out[k - 1];
        out[k] = gain;
    }
    *gains = n;
    return POTTLE_OK;
}

/* So much of `from` makes at least `amount` of `to` with nine chances in ten.
 */
static double
enough(const pottle_chain *chain, const pottlei_posterior *known, size_t from,
       size_t to, double amount)
{
    pottle_estimate ratio = pottlei_chain_ratio(&chain->model, known, from, to);
    ratio.sd =
        hypot(ratio.sd, pottlei_chain_error(chain, (pottle_chain_node)from,
                                            amount / ratio.median));
    double tenth = 0;
    return pottle_estimate_quantile(ratio, 0.1, &tenth) == POTTLE_OK &&
                   tenth > 0
             ? amount / tenth
             : 0;
}

/* What is needed of each node before the pot, and what it comes to in jars. */
static void
tell_needed(const pottle_chain *chain, const pottlei_posterior *known,
            bool whole, double batches, pottle_chain_wanted *w)
{
    for (size_t i = 0; i <= POTTLE_CHAIN_BATCHES; i++) {
        if (!chain->model.has[i])
            continue;
        w->told[i] = true;
        w->needed[i] =
            i == POTTLE_CHAIN_BATCHES
                ? batches
                : enough(chain, known, i,
                         whole ? POTTLE_CHAIN_BATCHES : POTTLE_CHAIN_JARS,
                         whole ? batches : w->jars);
        /* a bushel is sold by its quarters too, the pecks; others whole */
        if (i == POTTLE_CHAIN_CONTAINER) {
            const double parts =
                strcmp(chain->facts.container->id, "bushel") == 0 ? 4 : 1;
            w->needed[i] = ceil(parts * w->needed[i] * (1 - 1e-9)) / parts;
        }
        w->expected[i] =
            whole ? batches * pottlei_chain_ratio(&chain->model, known,
                                                  POTTLE_CHAIN_BATCHES,
                                                  POTTLE_CHAIN_JARS)
                                  .median
                  : w->needed[i] * pottlei_chain_ratio(&chain->model, known, i,
                                                       POTTLE_CHAIN_JARS)
                                       .median;
        w->surplus[i] = w->expected[i] - w->jars;
    }
}

/* How likely what is there already makes so many jars. */
static void
tell_chance(const pottle_chain_state *state, pottle_chain_wanted *w)
{
    if (!state->told[POTTLE_CHAIN_JARS])
        return;
    /* of whole pots only what is made of them counts */
    const pottle_estimate e = state->has_made ? state->made_jars.count
                                              : state->node[POTTLE_CHAIN_JARS];
    w->has_chance = true;
    w->chance = e.median > 0
                  ? 0.5 * erfc(-log(e.median / w->jars) /
                               fmax(e.sd, POTTLEI_ERROR_MIN) / sqrt(2.0))
                  : 0;
}

pottle_status
pottle_chain_want(const pottle_chain *chain, const pottle_observation *observed,
                  size_t count, double jars, pottle_chain_wanted *out,
                  pottle_error *error)
{
    if (chain == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no chain or place for the result");
    if (!(jars > 0 && jars <= 1e6))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "how-much",
            "a number of jars lies above 0 and up to 1,000,000");
    if (!chain->model.has[POTTLE_CHAIN_JARS])
        return pottlei_chain_no_node(chain, POTTLE_CHAIN_JARS, error);
    pottle_chain_state state;
    pottle_status status =
        pottle_chain_update(chain, observed, count, &state, error);
    if (status != POTTLE_OK)
        return status;
    pottlei_seen seen[POTTLE_CHAIN_OBSERVED_MAX];
    pottlei_posterior known;
    status = pottlei_chain_observe(chain, observed, count, seen, error);
    if (status != POTTLE_OK)
        return status;
    pottlei_chain_condition(&chain->model, seen, count, POTTLEI_USE_ALL,
                            &known);
    pottle_chain_wanted w = { .jars = jars };
    /* in whole batches: as many as it takes, and then enough for those */
    const bool whole = chain->facts.smallest > 0;
    double batches =
        enough(chain, &known, POTTLE_CHAIN_BATCHES, POTTLE_CHAIN_JARS, jars);
    if (whole)
        status = pottlei_plan_fill_factor(
            chain->plan, batches * chain->plan->batch_jars.median, &batches,
            error);
    if (status != POTTLE_OK)
        return status;
    tell_needed(chain, &known, whole, batches, &w);
    tell_chance(&state, &w);
    *out = w;
    return POTTLE_OK;
}
