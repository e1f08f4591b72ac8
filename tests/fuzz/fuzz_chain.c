/* fuzz_chain.c - measurements that nobody took, along the chain of any recipe.
 *
 * The input is choices (choose.c) in the order of `choose_chain` and `choose`.
 * Measurements are added one by one, so that each can be held against what was
 * known before it. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "targets.h"

/* Of a few hundred doubles in logarithms. */
static const double rounding = 1e-9, smallness = 1e-7;

enum { OBSERVED_MAX = 6 };

/* -- Choices -------------------------------------------------------------- */

static void
choose_chain(fuzz_input *in, const pottle_recipe *recipe,
             pottle_chain_request *r)
{
    static const char *const containers[] = { "bushel", "peck", "lug",
                                              "dry-pint", "cup" };
    static const char *const measures[] = { "cup", "count", "qt", "lb", "ml" };
    static const char *const forms[] = { "whole", "sliced", "chopped", "liquid",
                                         "halves" };
    static const double errors[] = { 0, 1e-5, 0.02, 0.5, 3, 4, (double)NAN };
    enum { ERRORS = sizeof errors / sizeof errors[0] };
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(fuzz_catalogue(), &jars);
    memset(r, 0, sizeof *r);
    r->version = POTTLE_CHAIN_REQUEST_VERSION;
    r->food = fuzz_pick(in, 3) == 0 ? NULL : fuzz_pick_food(in, recipe);
    const size_t which = fuzz_pick(in, jars + 1);
    r->jar = which == 0 ? NULL : &jar[which - 1];
    const size_t height = fuzz_pick(in, 4);
    r->has_altitude = height > 0;
    r->altitude_m = 1000 * (double)height;
    size_t k = fuzz_pick(in, 6);
    r->container = k == 0 ? NULL : pottle_unit_find(containers[k - 1]);
    k = fuzz_pick(in, 3);
    r->picked_said = k > 0;
    r->picked = k == 1 ? POTTLE_PICKED : POTTLE_PURCHASED;
    k = fuzz_pick(in, 6);
    r->measured = k == 0 ? NULL : pottle_unit_find(measures[k - 1]);
    k = fuzz_pick(in, 6);
    r->form = k == 0 ? NULL : forms[k - 1];
    r->without_yield = fuzz_pick(in, 2) == 1;
    r->error_scale = errors[fuzz_pick(in, ERRORS)];
    r->error_cup = errors[fuzz_pick(in, ERRORS)];
    r->error_level = errors[fuzz_pick(in, ERRORS)];
    r->error_about = errors[fuzz_pick(in, ERRORS)];
}

/* A measurement: any number, or one near what is expected, so that it does not
 * contradict those before. */
static pottle_observation
choose(fuzz_input *in, const pottle_chain_state *known)
{
    static const double errors[] = { 0, 0, 1e-5, 0.01, 0.3, 3 };
    pottle_observation o = {
        .node = (pottle_chain_node)fuzz_pick(in, POTTLE_CHAIN_NODES + 1),
    };
    const size_t how = fuzz_pick(in, 8);
    if (how < 6 && (int)o.node < POTTLE_CHAIN_NODES && known->told[o.node]) {
        const double sigmas = ((double)fuzz_pick(in, 41) - 20) / 10;
        o.low =
            known->node[o.node].median * exp(sigmas * known->node[o.node].sd);
    } else {
        o.low = fuzz_pick_number(in);
    }
    o.high = how % 2 == 0 ? o.low : 1.2 * o.low;
    o.about = fuzz_pick(in, 3) == 1;
    o.error = errors[fuzz_pick(in, sizeof errors / sizeof errors[0])];
    return o;
}

/* -- Promises ------------------------------------------------------------- */

static void
check_estimate(pottle_estimate e, const char *what)
{
    fuzz_expect(e.median > 0 && isfinite(e.median) && e.sd >= 0 &&
                    isfinite(e.sd),
                "%s is %g, %g", what, e.median, e.sd);
}

/* Each link leads from a node that is there to one that is there. */
static void
check_links(const pottle_chain *chain)
{
    const pottle_chain_facts *facts = pottle_chain_facts_of(chain);
    size_t n = 0;
    const pottle_chain_link *link = pottle_chain_links(chain, &n);
    fuzz_text(facts->food, "food");
    fuzz_text(facts->title, "title");
    fuzz_text(facts->form, "form");
    fuzz_expect(facts->has[POTTLE_CHAIN_PREPARED], "nothing is prepared");
    for (size_t i = 0; i < n; i++) {
        check_estimate(link[i].factor, pottle_chain_node_name((int)link[i].to));
        fuzz_expect(facts->has[link[i].from] && facts->has[link[i].to],
                    "a link to '%s' of what is not there",
                    pottle_chain_node_name((int)link[i].to));
        for (size_t k = 0; k < link[i].basis.cites; k++)
            fuzz_cite(&link[i].basis.cite[k], "link");
    }
    if (facts->has[POTTLE_CHAIN_JARS])
        check_estimate(facts->fill_ml, "fill");
}

/* All nodes are told or none, and jars go into loads as many as the canner
 * holds. */
static void
check_state(const pottle_chain *chain, const pottle_chain_state *s)
{
    const pottle_chain_facts *facts = pottle_chain_facts_of(chain);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        fuzz_expect(s->told[i] == facts->has[i], "'%s' is there and not told",
                    pottle_chain_node_name((int)i));
        if (!s->told[i])
            continue;
        check_estimate(s->node[i], pottle_chain_node_name((int)i));
        fuzz_expect(fabs(s->factor[i] - exp(POTTLE_Z95 * s->node[i].sd)) <=
                        rounding * s->factor[i],
                    "a factor of %g for a spread of %g", s->factor[i],
                    s->node[i].sd);
    }
    if (s->has_jars)
        fuzz_expect(s->jars.promise <= s->jars.full &&
                        s->jars.full <= s->jars.prepare,
                    "promise %lu, full %lu, prepare %lu", s->jars.promise,
                    s->jars.full, s->jars.prepare);
    if (s->told[POTTLE_CHAIN_LOADS])
        fuzz_expect(
            fabs(s->node[POTTLE_CHAIN_LOADS].median * (double)facts->per_load -
                 s->node[POTTLE_CHAIN_JARS].median) <=
                smallness * s->node[POTTLE_CHAIN_JARS].median,
            "%g loads of %lu for %g jars", s->node[POTTLE_CHAIN_LOADS].median,
            facts->per_load, s->node[POTTLE_CHAIN_JARS].median);
    if (s->has_made)
        fuzz_expect(s->made >= 0 &&
                        s->made <= s->node[POTTLE_CHAIN_BATCHES].median *
                                       (1 + smallness),
                    "%g batches are made of %g", s->made,
                    s->node[POTTLE_CHAIN_BATCHES].median);
}

/* One more measurement never makes a node less certain, and moves its own node
 * towards what was read, not past it. The first is what was read. */
static void
check_narrowed(const pottle_chain_state *before,
               const pottle_chain_state *after, const pottle_observation *o)
{
    const char *name = pottle_chain_node_name((int)o->node);
    const double now = log(after->node[o->node].median);
    double low = log(o->low), high = log(o->high);
    if (before->told[o->node]) {
        for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++)
            fuzz_expect(after->node[i].sd <=
                            before->node[i].sd * (1 + smallness) + smallness,
                        "'%s' widens '%s' from %.9g to %.9g", name,
                        pottle_chain_node_name((int)i), before->node[i].sd,
                        after->node[i].sd);
        low = fmin(low, log(before->node[o->node].median));
        high = fmax(high, log(before->node[o->node].median));
    } else {
        low = high = 0.5 * (low + high);
    }
    fuzz_expect(now >= low - smallness && now <= high + smallness,
                "'%s' was read as %.9g to %.9g, expected as %.9g and is %.9g",
                name, o->low, o->high,
                before->told[o->node] ? before->node[o->node].median : 0.0,
                after->node[o->node].median);
    if (o->error > 0 && !(o->low < o->high))
        fuzz_expect(after->node[o->node].sd <=
                        o->error * (1 + smallness) + 1e-9,
                    "'%s' was read to %g and is known to %g", name, o->error,
                    after->node[o->node].sd);
}

/* The order in which things were measured does not matter. */
static void
check_backwards(const pottle_chain *chain, const pottle_observation *o,
                size_t n, const pottle_chain_state *state)
{
    pottle_observation back[OBSERVED_MAX];
    pottle_chain_state same;
    for (size_t i = 0; i < n; i++)
        back[i] = o[n - 1 - i];
    if (!fuzz_expect(
            pottle_chain_update(chain, back, n, &same, NULL) == POTTLE_OK,
            "%zu measurements contradict each other backwards only", n))
        return;
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++)
        if (state->told[i])
            fuzz_expect(
                fabs(log(same.node[i].median / state->node[i].median)) <=
                        1e-6 &&
                    fabs(same.node[i].sd - state->node[i].sd) <= 1e-6,
                "'%s' is %.9g, %.9g and backwards %.9g, %.9g",
                pottle_chain_node_name((int)i), state->node[i].median,
                state->node[i].sd, same.node[i].median, same.node[i].sd);
}

static void
check_next(const pottle_chain *chain, const pottle_observation *o, size_t n,
           const pottle_chain_state *state)
{
    pottle_chain_gain gain[POTTLE_CHAIN_NODES];
    size_t gains = 0;
    if (!fuzz_expect(pottle_chain_next(chain, o, n, gain, &gains, NULL) ==
                         POTTLE_OK,
                     "what to measure next is not told"))
        return;
    for (size_t i = 0; i < gains; i++) {
        fuzz_expect(gain[i].factor >= 1 &&
                        (i == 0 || gain[i - 1].factor <= gain[i].factor),
                    "a gain of %g", gain[i].factor);
        fuzz_expect(n == 0 ||
                        gain[i].factor <=
                            state->factor[POTTLE_CHAIN_JARS] * (1 + smallness),
                    "'%s' would widen the jars from %g to %g",
                    pottle_chain_node_name((int)gain[i].node),
                    state->factor[POTTLE_CHAIN_JARS], gain[i].factor);
        for (size_t k = 0; k < n; k++)
            fuzz_expect(o[k].node != gain[i].node, "'%s' was measured already",
                        pottle_chain_node_name((int)gain[i].node));
    }
}

/* More jars never need less, and what suffices with nine chances in ten makes
 * at least as many when all goes as expected. */
static void
check_wanted(const pottle_chain *chain, const pottle_observation *o, size_t n,
             double jars)
{
    static const pottle_status allowed[] = { POTTLE_EDOMAIN, POTTLE_ENOENT,
                                             POTTLE_EBOUNDS, POTTLE_OK };
    pottle_chain_wanted w, more;
    pottle_error error;
    memset(&w, 0x5A, sizeof w);
    const pottle_status status =
        pottle_chain_want(chain, o, n, jars, &w, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, allowed, "wanting jars");
        fuzz_expect(fuzz_untouched(&w, sizeof w, 0x5A),
                    "what is wanted fails and writes");
        return;
    }
    const bool twice =
        pottle_chain_want(chain, o, n, 2 * jars, &more, NULL) == POTTLE_OK;
    fuzz_expect(!w.has_chance || (w.chance >= 0 && w.chance <= 1),
                "a chance of %g", w.chance);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        if (!w.told[i])
            continue;
        fuzz_expect(w.needed[i] > 0 && isfinite(w.needed[i]) &&
                        w.expected[i] >= jars * (1 - smallness),
                    "%g of '%s' for %g jars make %g", w.needed[i],
                    pottle_chain_node_name((int)i), jars, w.expected[i]);
        fuzz_expect(!twice || more.needed[i] >= w.needed[i] * (1 - smallness),
                    "%g of '%s' for %g jars, %g for twice as many", w.needed[i],
                    pottle_chain_node_name((int)i), jars, more.needed[i]);
    }
}

static void
check_chain(fuzz_input *in, const pottle_chain *chain)
{
    static const pottle_status allowed[] = { POTTLE_EDOMAIN, POTTLE_ENOENT,
                                             POTTLE_OK };
    pottle_observation o[OBSERVED_MAX];
    pottle_chain_state known, next;
    pottle_error error;
    memset(&known, 0, sizeof known);
    check_links(chain);
    const size_t wished = fuzz_pick(in, OBSERVED_MAX + 1);
    size_t n = 0;
    for (size_t i = 0; i < wished; i++) {
        o[n] = choose(in, &known);
        memset(&next, 0x5A, sizeof next);
        const pottle_status status =
            pottle_chain_update(chain, o, n + 1, &next, &error);
        if (status != POTTLE_OK) {
            fuzz_failure(status, &error, allowed, "a measurement");
            fuzz_expect(fuzz_untouched(&next, sizeof next, 0x5A),
                        "a measurement fails and writes");
            continue;
        }
        check_state(chain, &next);
        check_narrowed(&known, &next, &o[n]);
        known = next;
        n++;
    }
    if (n > 1)
        check_backwards(chain, o, n, &known);
    check_next(chain, o, n, &known);
    check_wanted(chain, o, n, fuzz_pick_number(in));
}

int
target_chain(const uint8_t *data, size_t size)
{
    static const pottle_status allowed[] = {
        POTTLE_EBOUNDS, POTTLE_ENOENT,     POTTLE_EDOMAIN,
        POTTLE_EUNIT,   POTTLE_EAMBIGUOUS, POTTLE_OK,
    };
    fuzz_input in = { data, data + size };
    const pottle_recipe *recipe = fuzz_pick_recipe(&in);
    pottle_chain_request request;
    choose_chain(&in, recipe, &request);
    pottle_chain *chain = NULL;
    pottle_error error;
    const pottle_status status =
        pottle_chain_new(fuzz_catalogue(), recipe, &request, &chain, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, allowed, "a chain");
        fuzz_expect(chain == NULL, "a chain that is refused is written");
    } else {
        check_chain(&in, chain);
    }
    pottle_chain_free(chain);
    return fuzz_verdict();
}
