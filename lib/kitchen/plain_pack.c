/* plain_pack.c - how many jars a weight of produce fills, by the weights
 * printed for a canner load or a jar. */
#include <config.h>

#include <math.h>

#include "kitchen/kitchen.h"

static const pottle_jar *
size_of(const pottle_catalogue *catalogue, const char *id)
{
    const pottle_jar *jar = NULL;
    return pottle_jar_find(catalogue, id, &jar, NULL) == POTTLE_OK ? jar : NULL;
}

/* Spread of jars from a weight: that of the published yields of its containers,
 * not less than a tenth. */
static double
load_spread(const pottle_catalogue *catalogue, const pottle_quantities *q)
{
    double sd = q->containers > 0
                  ? 0.10
                  : pottlei_figure(catalogue, "spread-kind-packed", 0.15);
    for (size_t i = 0; i < q->containers; i++)
        sd = fmax(sd, log(q->container[i].high / q->container[i].low) /
                          (2 * POTTLE_Z95));
    return sd;
}

pottle_status
pottlei_load_count(const pottle_catalogue *catalogue,
                   const pottle_recipe *recipe, const pottle_jar *jar,
                   double batch_g, pottle_estimate *out, pottle_error *error)
{
    const pottle_quantities *q = pottle_recipe_quantities(recipe);
    double grams = 0, nearest = HUGE_VAL;
    for (size_t i = 0; i < q->loads; i++) {
        const pottle_jar *listed = size_of(catalogue, q->load[i].jar);
        if (listed == NULL)
            continue;
        /* the load of this size, else of the nearest one, by volume */
        const double apart = fabs(log(listed->nominal_ml / jar->nominal_ml));
        if (apart < nearest) {
            nearest = apart;
            grams = q->load[i].grams / q->load[i].jars * jar->nominal_ml /
                    listed->nominal_ml;
        }
    }
    for (size_t i = 0; q->loads == 0 && i < q->averages; i++) {
        const pottle_jar *listed = size_of(catalogue, q->average[i].jar);
        if (listed != NULL && !(grams > 0))
            grams = q->average[i].grams * jar->nominal_ml / listed->nominal_ml;
    }
    if (!(grams > 0 && batch_g > 0))
        return pottlei_fail(error, POTTLE_ENOENT, "no-load",
                            "no weight for a jar of %s is published",
                            pottle_recipe_id(recipe));
    *out = (pottle_estimate){ batch_g / grams, load_spread(catalogue, q) };
    return POTTLE_OK;
}
