/* chain_observe.c - what was measured, as observations of a chain, and whether
 * it can be true together. */
#include <config.h>

#include <math.h>
#include <stdio.h>

#include "kitchen/chain.h"

bool
pottlei_is_error(double e)
{
    return e >= POTTLEI_ERROR_MIN && e <= POTTLEI_ERROR_MAX;
}

double
pottlei_chain_error(const pottle_chain *chain, pottle_chain_node node,
                    double value)
{
    switch (node) {
    case POTTLE_CHAIN_PICKED:
    case POTTLE_CHAIN_PREPARED:
    case POTTLE_CHAIN_COOKED_MASS:
        return chain->error_scale_g > 0
                 ? fmin(POTTLEI_ERROR_MAX,
                        fmax(POTTLEI_ERROR_MIN, chain->error_scale_g / value))
                 : chain->error_scale;
    case POTTLE_CHAIN_MEASURED:
        return chain->facts.measured->dimension == POTTLE_COUNT
                 ? POTTLEI_ERROR_MIN
                 : chain->error_cup;
    case POTTLE_CHAIN_COOKED_VOLUME: return chain->error_level;
    case POTTLE_CHAIN_JARS:
    case POTTLE_CHAIN_LOADS:
        return fmin(1.0, fmax(POTTLEI_ERROR_MIN, 0.5 / value / POTTLE_Z95));
    case POTTLE_CHAIN_CONTAINER:
    case POTTLE_CHAIN_BATCHES: break;
    }
    return POTTLEI_ERROR_MIN;
}

pottle_status
pottlei_chain_no_node(const pottle_chain *chain, int node, pottle_error *error)
{
    const bool pot =
        node == POTTLE_CHAIN_COOKED_MASS || node == POTTLE_CHAIN_COOKED_VOLUME;
    return pottlei_fail(
        error, POTTLE_ENOENT, "no-link", "%s: nothing is known of '%s'%s",
        pottle_recipe_id(chain->recipe), pottle_chain_node_name(node),
        pot && chain->model.has[POTTLE_CHAIN_JARS]
            ? ": pieces are packed and covered, so no pot holds what the jars "
              "will"
            : "");
}

pottle_status
pottlei_chain_observe(const pottle_chain *chain,
                      const pottle_observation *observed, size_t count,
                      pottlei_seen *seen, pottle_error *error)
{
    if (count > POTTLE_CHAIN_OBSERVED_MAX || (observed == NULL && count > 0))
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "more than %d measurements, or none where there should be some",
            (int)POTTLE_CHAIN_OBSERVED_MAX);
    for (size_t i = 0; i < count; i++) {
        const pottle_observation *o = &observed[i];
        const int node = (int)o->node;
        if (node < 0 || node >= POTTLE_CHAIN_NODES || !chain->model.has[node])
            return pottlei_chain_no_node(chain, node, error);
        if (!(o->low >= 1e-6 && o->low <= o->high && o->high <= 1e12))
            return pottlei_fail(error, POTTLE_EDOMAIN, "amount-range",
                                "'%s' must lie above 0 and be in order",
                                pottle_chain_node_name(node));
        if (!(pottlei_is_error(o->error) || (o->error >= 0 && o->error <= 0)))
            return pottlei_fail(
                error, POTTLE_EDOMAIN, "error",
                "a measuring error lies between %g and %g of the logarithm",
                POTTLEI_ERROR_MIN, POTTLEI_ERROR_MAX);
        pottle_estimate said = { o->low, 0 };
        if (o->high > o->low &&
            pottle_estimate_between(o->low, o->high, &said) != POTTLE_OK)
            return pottlei_fail(error, POTTLE_EDOMAIN, "amount-range",
                                "'%s' is out of range",
                                pottle_chain_node_name(node));
        const double own = o->error > 0 ? o->error
                         : o->about
                             ? chain->error_about
                             : pottlei_chain_error(chain, o->node, said.median);
        seen[i] =
            (pottlei_seen){ (size_t)node, log(said.median),
                            fmin(POTTLEI_ERROR_MAX, hypot(own, said.sd)) };
    }
    return POTTLE_OK;
}

/* "cooked volume 3.1 L" */
static void
amount_words(const pottle_chain *chain, size_t node, double value, char *buf,
             size_t size)
{
    static const char *const words[POTTLE_CHAIN_NODES] = {
        "containers",  "picked",        "prepared", "measured", "batches",
        "cooked mass", "cooked volume", "jars",     "loads"
    };
    const bool mass = node == POTTLE_CHAIN_PICKED ||
                      node == POTTLE_CHAIN_PREPARED ||
                      node == POTTLE_CHAIN_COOKED_MASS;
    const bool volume = node == POTTLE_CHAIN_COOKED_VOLUME ||
                        (node == POTTLE_CHAIN_MEASURED &&
                         chain->facts.measured->dimension == POTTLE_VOLUME);
    const bool large = (mass || volume) && value >= 1000;
    char number[40];
    const double shown = large ? value / 1000 : value;
    pottle_number_write(shown,
                        shown >= 100  ? 0
                        : shown >= 10 ? 1
                                      : 2,
                        number, sizeof number);
    snprintf(buf, size, "%s %s%s", words[node], number,
             mass     ? (large ? " kg" : " g")
             : volume ? (large ? " L" : " mL")
                      : "");
}

/* Whether more came out of the pot than went in. */
static pottle_status
check_inputs(const pottle_chain *chain, const pottlei_seen *seen, size_t count,
             pottle_error *error)
{
    unsigned before = 0;
    size_t last = 0;
    for (size_t i = 0; i < count; i++)
        if (seen[i].node <= POTTLE_CHAIN_BATCHES) {
            before |= 1u << i;
            last = i;
        }
    if (before == 0 || !(chain->in_g > 0))
        return POTTLE_OK;
    pottlei_posterior known;
    pottlei_chain_condition(&chain->model, seen, count, before, &known);
    const pottle_estimate batches =
        pottlei_chain_node(&chain->model, &known, POTTLE_CHAIN_BATCHES);
    for (size_t i = 0; i < count; i++) {
        if (seen[i].node != POTTLE_CHAIN_COOKED_MASS &&
            seen[i].node != POTTLE_CHAIN_COOKED_VOLUME)
            continue;
        const double most =
            batches.median * (seen[i].node == POTTLE_CHAIN_COOKED_MASS
                                  ? chain->in_g
                                  : chain->in_ml);
        const double sigma = (seen[i].log - log(most)) /
                             hypot(hypot(batches.sd, chain->in_sd), seen[i].sd);
        if (sigma > chain->limit) {
            char out[60], in[60], from[60];
            amount_words(chain, seen[i].node, exp(seen[i].log), out,
                         sizeof out);
            amount_words(chain, seen[i].node, most, in, sizeof in);
            amount_words(chain, seen[last].node, exp(seen[last].log), from,
                         sizeof from);
            pottlei_fail(error, POTTLE_EDOMAIN, "more-than-went-in",
                         "%s is more than went in: with %s everything together "
                         "makes a %s, %.1f standard deviations less",
                         out, from, in, sigma);
            if (error != NULL)
                POTTLEI_SET(error->instead, "measure one of the two again");
            return POTTLE_EDOMAIN;
        }
    }
    return POTTLE_OK;
}

static pottle_status
check_clash(const pottle_chain *chain, const pottlei_seen *seen, size_t count,
            pottle_error *error)
{
    pottlei_clash c;
    if (!pottlei_chain_clash(&chain->model, seen, count, chain->limit, &c) ||
        !(fabs(c.sigma) > chain->limit))
        return POTTLE_OK;
    char said[60], expected[60], from[60] = "the other measurements",
                                 number[2][40];
    const pottle_interval i = pottle_estimate_interval(c.predicted);
    const double by =
        seen[c.seen].node != POTTLE_CHAIN_CONTAINER && i.expected >= 1000
            ? 1000
            : 1; /* in the unit of the words */
    amount_words(chain, seen[c.seen].node, exp(seen[c.seen].log), said,
                 sizeof said);
    amount_words(chain, seen[c.seen].node, i.expected, expected,
                 sizeof expected);
    if (c.pair)
        amount_words(chain, seen[c.other].node, exp(seen[c.other].log), from,
                     sizeof from);
    pottle_number_write(i.low / by, 2, number[0], sizeof number[0]);
    pottle_number_write(i.high / by, 2, number[1], sizeof number[1]);
    pottlei_fail(error, POTTLE_EDOMAIN, "contradiction",
                 "%s contradicts %s, by which %s is expected (%s to %s): %.1f "
                 "standard deviations apart",
                 said, from, expected, number[0], number[1], fabs(c.sigma));
    if (error != NULL)
        POTTLEI_SET(error->instead, "measure one of the two again");
    return POTTLE_EDOMAIN;
}

pottle_status
pottlei_chain_check(const pottle_chain *chain, const pottlei_seen *seen,
                    size_t count, pottle_error *error)
{
    const pottle_status status = check_inputs(chain, seen, count, error);
    return status == POTTLE_OK ? check_clash(chain, seen, count, error)
                               : status;
}
