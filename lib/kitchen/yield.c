/* yield.c - what a publication prints as yield, beside the mass balance.
 *
 * A print is joined with the balance only where mass balance allows it. The
 * bounds are generous: every amount read at its fullest, nothing lost; a print
 * beyond them cannot be, and is kept as printed but never used. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/stove.h"

const char *
pottle_yield_verdict_name(int verdict)
{
    static const char *const names[] = { "agrees", "apart", "too-many",
                                         "too-few" };
    return verdict >= 0 && verdict < (int)(sizeof names / sizeof names[0])
             ? names[verdict]
             : "unknown";
}

/* -- The print ------------------------------------------------------------- */

pottle_status
pottlei_printed_fill(const pottle_catalogue *catalogue, const pottle_jar *jar,
                     pottle_length headspace, pottle_estimate *out,
                     pottle_error *error)
{
    pottle_estimate fill;
    const pottle_status status =
        pottle_jar_fill(catalogue, jar, headspace, &fill, error);
    if (status == POTTLE_OK)
        *out = (pottle_estimate){ fmin(jar->nominal_ml, fill.median), fill.sd };
    return status;
}

/* The print's own spread, its range, and half a jar of rounding. */
static pottle_estimate
printed_count(const pottle_catalogue *catalogue, const pottle_yield *y)
{
    const double middle = sqrt(y->low * y->high);
    const double rounding = 0.5 / middle / POTTLE_Z95,
                 range = log(y->high / y->low) / (2 * POTTLE_Z95);
    const double print = pottlei_figure(catalogue, "yield-print-spread", 0.15);
    return (pottle_estimate){ middle, sqrt(print * print + rounding * rounding +
                                           range * range) };
}

/* The first yield that the balance allows, as a volume. */
static bool
printed_volume(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
               pottle_length headspace, pottle_estimate *out)
{
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        const pottle_jar *jar = NULL;
        pottle_estimate fill;
        if (!y[i].possible ||
            pottle_jar_find(catalogue, y[i].jar, &jar, NULL) != POTTLE_OK ||
            pottlei_printed_fill(catalogue, jar, headspace, &fill, NULL) !=
                POTTLE_OK)
            continue;
        const pottle_estimate count = printed_count(catalogue, &y[i]);
        *out = (pottle_estimate){ count.median * fill.median, count.sd };
        return true;
    }
    return false;
}

pottle_status
pottlei_cook_predict(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe, const pottlei_part *parts,
                     size_t count, pottle_length headspace,
                     pottle_estimate *out, pottle_error *error)
{
    pottle_estimate computed, print;
    const pottle_status status =
        pottlei_cook_balance(catalogue, recipe, parts, count, &computed, error);
    const bool printed = printed_volume(catalogue, recipe, headspace, &print);
    if (status != POTTLE_OK && !printed)
        return status;
    *out = status != POTTLE_OK ? print
         : printed             ? pottle_estimate_combine(computed, print)
                               : computed;
    return POTTLE_OK;
}

/* -- Bounds ---------------------------------------------------------------- */

/* The least that trimming takes away: the largest share that is published for
 * the food, or all of the spread above the recipe's own; nothing at all where
 * the recipe names no trimming. */
static double
most_kept(const pottle_catalogue *catalogue, const pottlei_part *p)
{
    size_t n = 0;
    const pottle_trim *trim = pottle_food_trims(p->food, &n);
    double most = p->ingredient->trim[0] != '\0' ? 0 : 1;
    for (size_t i = 0; i < n; i++) {
        if (trim[i].from != p->ingredient->state)
            continue;
        most = fmax(most, trim[i].keeps);
        if (strcmp(trim[i].id, p->ingredient->trim) == 0)
            most = fmax(
                most, trim[i].keeps *
                          exp(POTTLE_Z95 *
                              pottlei_figure(catalogue, "spread-trim", 0.05)));
    }
    return most > 0 ? fmin(1, most) : 1;
}

/* The most that a line can weigh, ready to use: a range at its high end, trim
 * at its least, a cup at its fullest, crushed fruit as heavy as water, the
 * largest pieces. */
static double
fullest(const pottle_catalogue *catalogue, const pottlei_part *p)
{
    const pottle_ingredient *in = p->ingredient;
    const double range = in->amount_to / (0.5 * (in->amount + in->amount_to));
    const double g = p->prepared_g.median * range;
    const bool pieces = pottlei_is_produce(in);
    switch (in->unit->dimension) {
    case POTTLE_MASS:
        return in->state == POTTLE_PREPARED || in->per != NULL
                 ? g
                 : fmax(g, in->amount_to * in->unit->factor *
                               most_kept(catalogue, p));
    case POTTLE_VOLUME:
        if (!pieces ||
            strcmp(pottlei_form_bulk(p->food, in->form), "liquid") == 0)
            return g;
        if (strcmp(in->form, "crushed") == 0)
            return in->per != NULL ? g
                                   : fmax(g, in->amount_to * in->unit->factor);
        return g * pottlei_figure(catalogue, "bound-cup", 1.12) *
               (strcmp(in->form, "finely-chopped") == 0
                    ? pottlei_figure(catalogue, "bound-finely", 1.1)
                    : 1);
    case POTTLE_COUNT: return g * exp(POTTLE_Z95 * p->prepared_g.sd);
    case POTTLE_NUMBER:
    case POTTLE_LENGTH:
    case POTTLE_PRESSURE:
    case POTTLE_TEMPERATURE:
    case POTTLE_CONTAINER: break;
    }
    return g;
}

/* The least: a range at its low end, and the low end of the line's own spread.
 */
static double
lightest(const pottlei_part *p)
{
    const pottle_ingredient *in = p->ingredient;
    return p->prepared_g.median * in->amount /
           (0.5 * (in->amount + in->amount_to)) *
           exp(-POTTLE_Z95 * p->prepared_g.sd);
}

/* Least volume that is filled, of what went in at its lightest. */
static double
least_filled(const pottle_catalogue *catalogue,
             const pottlei_cook_values *values, const pottle_cook *cook,
             const pottlei_input *in)
{
    const double loss =
        values->pot_loss * exp(POTTLE_Z95 * values->pot_loss_sd);
    pottlei_mix mix = in->all, pieces = in->pieces;
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
    case POTTLE_END_BUTTER:
    case POTTLE_END_REDUCE:
    case POTTLE_END_SIMMER:
        /* all the water may boil off */
        mix.g[POTTLEI_WATER] = 0;
        break;
    case POTTLE_END_ADDED_PECTIN:
        mix.g[POTTLEI_WATER] *=
            1 - fmin(1, values->pectin.median *
                            exp(POTTLE_Z95 * values->pectin.sd));
        break;
    case POTTLE_END_PACKED: {
        const double share =
            pottlei_figure(catalogue, cook->limp ? "bound-limp" : "bound-firm",
                           cook->limp ? 0.95 : 0.75);
        const double drained = cook->drained
                                 ? values->slices.median *
                                       exp(POTTLE_Z95 * values->slices.sd) *
                                       pottlei_mix_mass(&pieces)
                                 : 0;
        pieces.g[POTTLEI_WATER] = fmax(0, pieces.g[POTTLEI_WATER] - drained);
        return fmin(pottlei_mix_volume(&pieces) / share,
                    pottlei_mix_volume(&mix) * (1 - loss));
    }
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return pottlei_mix_volume(&mix) * (1 - loss);
}

/* Least and most volume that a batch can fill (mL), whatever was left out of
 * the print: bounds, not estimates. */
typedef struct bounds {
    double least_ml, most_ml;
} bounds;

static pottle_status
yield_bounds(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
             const pottlei_part *parts, size_t count, bounds *out,
             pottle_error *error)
{
    pottlei_part part[POTTLEI_LINES_MAX];
    pottle_ingredient line[POTTLEI_LINES_MAX];
    pottlei_input most, least;
    pottlei_cook_values values;
    pottlei_cook_values_read(catalogue, &values);
    pottle_status status = POTTLE_OK;
    for (int pass = 0; pass < 2 && status == POTTLE_OK; pass++) {
        for (size_t i = 0; i < count; i++) {
            part[i] = parts[i];
            part[i].by_volume_cut = false;
            /* what is optional may be there */
            line[i] = *parts[i].ingredient;
            line[i].optional = line[i].optional && pass == 1;
            part[i].ingredient = &line[i];
            if (part[i].prepared_g.median > 0)
                part[i].prepared_g.median = pass == 0
                                              ? fullest(catalogue, &parts[i])
                                              : lightest(&parts[i]);
        }
        status = pottlei_cook_add_up(&values, recipe, part, count, 1,
                                     pass == 0 ? &most : &least, error);
    }
    if (status == POTTLE_OK)
        *out = (bounds){ least_filled(catalogue, &values,
                                      pottle_recipe_cook(recipe), &least),
                         pottlei_mix_volume(&most.all) };
    return status;
}

/* -- Comparison ------------------------------------------------------------ */

/* The print against the balance and its bounds, in jars of the print. */
static void
judge(const pottle_catalogue *catalogue, pottle_estimate volume,
      const bounds *within, pottle_estimate fill, pottle_estimate holds,
      pottle_yield_comparison *c)
{
    const double under = pottlei_figure(catalogue, "bound-jar", 0.97);
    c->balance_jars = pottle_estimate_over(volume, fill);
    c->printed_jars = printed_count(catalogue, c->printed);
    c->most_jars = within->most_ml / fill.median / under;
    c->least_jars =
        within->least_ml / fmax(c->jar->nominal_ml, holds.median) * under;
    c->sigma = log(c->balance_jars.median / c->printed_jars.median) /
               hypot(c->balance_jars.sd, c->printed_jars.sd);
    c->verdict = c->printed->low > c->most_jars         ? POTTLE_YIELD_TOO_MANY
               : c->printed_jars.median < c->least_jars ? POTTLE_YIELD_TOO_FEW
               : fabs(c->sigma) > POTTLE_Z95            ? POTTLE_YIELD_APART
                                                        : POTTLE_YIELD_AGREES;
    const pottle_interval range = pottle_estimate_interval(c->balance_jars);
    c->factor = c->balance_jars.median / c->printed_jars.median;
    c->outside = c->printed->high < range.low || c->printed->low > range.high;
    const bool possible =
        c->verdict == POTTLE_YIELD_AGREES || c->verdict == POTTLE_YIELD_APART;
    c->both_jars = possible
                     ? pottle_estimate_combine(c->balance_jars, c->printed_jars)
                     : c->balance_jars;
}

pottle_status
pottle_yield_compare(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe, pottle_yield_comparison *out,
                     pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, recipe or place for the result");
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    if (n == 0)
        return pottlei_fail(error, POTTLE_ENOENT, "no-yield",
                            "no yield is published for %s",
                            pottle_recipe_id(recipe));
    size_t covers = 0;
    pottle_recipe_covers(recipe, &covers);
    if (covers > 0 || pottle_recipe_cook(recipe)->end == POTTLE_END_LOAD)
        return pottlei_fail(error, POTTLE_ENOENT, "no-balance",
                            "%s is a plain pack: how many jars a load fills is "
                            "published, and its balance is not all in the list",
                            pottle_recipe_id(recipe));
    pottle_yield_comparison c = { .printed = &y[0] };
    pottle_plan *plan = NULL;
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1 };
    pottlei_part part[POTTLEI_LINES_MAX];
    bounds within = { 0, 0 };
    pottle_estimate volume, fill, holds;
    pottle_status status = pottle_jar_find(catalogue, y[0].jar, &c.jar, error);
    if (status == POTTLE_OK)
        status = pottle_scale(catalogue, recipe, &request, &plan, error);
    if (status == POTTLE_OK)
        status = pottlei_cook_parts(catalogue, plan, 0, part, error);
    if (status == POTTLE_OK)
        status = pottlei_cook_balance(catalogue, recipe, part, plan->lines,
                                      &volume, error);
    if (status == POTTLE_OK)
        status =
            yield_bounds(catalogue, recipe, part, plan->lines, &within, error);
    if (status == POTTLE_OK)
        status =
            pottle_jar_fill(catalogue, c.jar, plan->headspace, &holds, error);
    if (status == POTTLE_OK)
        status = pottlei_printed_fill(catalogue, c.jar, plan->headspace, &fill,
                                      error);
    if (status == POTTLE_OK) {
        judge(catalogue, volume, &within, fill, holds, &c);
        *out = c;
    }
    pottle_plan_free(plan);
    return status;
}
