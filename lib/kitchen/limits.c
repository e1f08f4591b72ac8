/* limits.c - the bounds within which a recipe is known to be as it was tested.
 *
 * Every refusal of a request goes through here or through the look-up of a
 * process. What this file lets pass is the whole of what may differ from the
 * published batch. */
#include <config.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "kitchen/kitchen.h"

/* Differences that come from converting there and back, not from the person. */
static const double rounding = 1e-9;

pottle_status
pottlei_refuse(const pottle_catalogue *catalogue, pottle_error *error,
               const char *code, const char *rule, const char *instead,
               const char *what, ...)
{
    char text[400];
    va_list args;
    va_start(args, what);
    vsnprintf(text, sizeof text, what, args);
    va_end(args);
    const pottle_rule *r = pottle_rule_find(catalogue, rule);
    pottlei_fail(error, POTTLE_EBOUNDS, code, "%s%s%s", text,
                 r != NULL ? ". Rule: " : "", r != NULL ? r->text : "");
    if (error != NULL && r != NULL) {
        POTTLEI_SET(error->source, r->cite.source);
        POTTLEI_SET(error->at, r->cite.at);
        POTTLEI_SET(error->instead, r->instead);
    }
    if (error != NULL && instead != NULL)
        POTTLEI_SET(error->instead, instead);
    return POTTLE_EBOUNDS;
}

bool
pottlei_keep_between(pottle_keep keep, pottle_estimate amount, double low,
                     double high)
{
    const pottle_interval i = pottle_estimate_interval(amount);
    if (!(i.low > 0 && i.high < HUGE_VAL))
        return false;
    switch (keep) {
    case POTTLE_FREE: return true;
    case POTTLE_AT_LEAST: return i.low >= low * (1.0 - rounding);
    case POTTLE_AT_MOST: return i.high <= high * (1.0 + rounding);
    case POTTLE_EXACT:
        return i.low >= low * (1.0 - POTTLE_EXACT_TOLERANCE) &&
               i.high <= high * (1.0 + POTTLE_EXACT_TOLERANCE);
    }
    return false;
}

bool
pottlei_keep_holds(pottle_keep keep, pottle_estimate amount, double tested)
{
    return pottlei_keep_between(keep, amount, tested, tested);
}

pottle_status
pottlei_pots_split(const pottle_catalogue *catalogue,
                   const pottle_recipe *recipe, double factor,
                   pottlei_pots *out, pottle_error *error)
{
    const pottle_batch *batch = pottle_recipe_batch(recipe);
    if (!(factor > 0 && factor <= POTTLE_NUMBER_MAX))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "factor",
            "the number of batches must lie above 0 and up to 1,000,000,000");
    if (factor > POTTLEI_POTS_MAX * batch->largest)
        return pottlei_fail(error, POTTLE_EDOMAIN, "too-many-pots",
                            "that takes more than %d pots of one tested batch",
                            (int)POTTLEI_POTS_MAX);
    size_t full = (size_t)floor(factor / batch->largest * (1.0 + rounding));
    double rest = factor - (double)full * batch->largest;
    if (rest < factor * rounding)
        rest = 0;
    if (rest > 0 && rest < batch->smallest * (1.0 - rounding))
        rest = 0;
    if (full == 0 && !(rest > 0))
        return pottlei_refuse(
            catalogue, error, "batch-smallest", batch->smallest_rule,
            "freeze what there is for later, or choose another recipe",
            batch->smallest < batch->largest
                ? "%s is tested from %g of the published batch; this would be "
                  "%.3g of it"
                : "%s is tested in pots of %g published batch; this would be "
                  "%.3g of it",
            pottle_recipe_id(recipe), batch->smallest, factor);
    const size_t count = full + (rest > 0);
    double *pot = calloc(count, sizeof *pot);
    if (pot == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    for (size_t i = 0; i < full; i++)
        pot[i] = batch->largest;
    if (rest > 0)
        pot[full] = rest;
    *out = (pottlei_pots){ pot, count, (double)full * batch->largest + rest };
    return POTTLE_OK;
}
