/* portions.c - what goes into each pot, rounded to kitchen measures.
 *
 * What is exact is rounded first; then what may rise is rounded up from the
 * largest of those, and what may fall down from the smallest. So no kept ratio
 * is worse than tested whichever way the exact ones went. What no spoon
 * measures near enough is weighed, and its grams are rounded by the same rule.
 */
#include <config.h>

#include <math.h>
#include <stdlib.h>

#include "kitchen/plan.h"

double
pottlei_pot_share(const pottle_ingredient *i, double pot)
{
    double best = pot;
    for (size_t k = 0;
         i->keep == POTTLE_AT_LEAST && k < i->printeds && pot < 1.0; k++) {
        const pottle_printed *p = &i->other[k];
        if (p->unit->dimension != i->unit->dimension || !(i->amount > 0))
            continue;
        const double ratio = p->amount * p->unit->factor /
                             (i->amount * i->unit->factor) / p->batch;
        best = fmax(best, pot * ratio);
    }
    return best;
}

double
pottlei_need(const pottle_plan *plan, size_t i)
{
    double need = 0;
    for (size_t p = 0; p < plan->pots.count; p++)
        need += pottlei_pot_share(plan->list[i].ingredient, plan->pots.pot[p]);
    return need;
}

/* Grams on a kitchen scale: whole ones from 100 g, tenths from 10 g, hundredths
 * under that. */
static void
weigh(pottle_line *l, double grams)
{
    const double step = grams >= 100 ? 1 : grams >= 10 ? 0.1 : 0.01;
    const double steps = grams / step;
    const pottle_keep keep = l->ingredient->keep;
    double n = keep == POTTLE_AT_LEAST ? ceil(steps - 1e-9)
             : keep == POTTLE_AT_MOST  ? floor(steps + 1e-9)
                                       : floor(steps + 0.5);
    if (keep == POTTLE_EXACT && fabs(n / steps - 1) > POTTLE_EXACT_TOLERANCE)
        n = steps; /* less than a scale shows: as it is */
    if (!(n > 0))
        n = steps;
    l->has_measure = true;
    l->measure = (pottle_measure){ .parts = 1, .base = n * step };
    l->measure.part[0].count = n * step;
    l->measure.part[0].unit = pottle_unit_find("g");
}

/* wanted: amounts in each line's own dimension */
void
pottlei_round_lines(pottle_line *line, const double *wanted, size_t count)
{
    double low = 1, high = 1; /* rounded over wanted, of the exact lines */
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < count; i++) {
            pottle_line *l = &line[i];
            const pottle_ingredient *in = l->ingredient;
            l->has_measure = pass == 0 ? false : l->has_measure;
            if ((in->keep == POTTLE_EXACT) != (pass == 0) || !(wanted[i] > 0))
                continue;
            const double shift = in->keep == POTTLE_AT_LEAST ? high
                               : in->keep == POTTLE_AT_MOST  ? low
                                                             : 1;
            if (pottle_measure_round(wanted[i] * shift, in->unit->dimension,
                                     in->keep, &l->measure) == POTTLE_OK) {
                l->has_measure = true;
                if (in->unit->dimension == POTTLE_COUNT)
                    POTTLEI_SET(l->measure.part[0].size, in->size);
                if (pass == 0) {
                    low = fmin(low, l->measure.base / wanted[i]);
                    high = fmax(high, l->measure.base / wanted[i]);
                }
            } else if (l->mass_g > 0) {
                weigh(l, l->mass_g * shift);
                if (pass == 0) {
                    low = fmin(low, l->measure.base / l->mass_g);
                    high = fmax(high, l->measure.base / l->mass_g);
                }
            }
        }
    }
}

static double
in_unit(const pottle_line *l)
{
    switch (l->ingredient->unit->dimension) {
    case POTTLE_VOLUME: return l->volume_ml;
    case POTTLE_COUNT: return l->count;
    case POTTLE_MASS:
    case POTTLE_NUMBER:
    case POTTLE_LENGTH:
    case POTTLE_PRESSURE:
    case POTTLE_TEMPERATURE:
    case POTTLE_CONTAINER: break;
    }
    return l->mass_g;
}

static void
fill_pot(const pottle_plan *plan, pottle_line *line, double pot)
{
    double wanted[POTTLEI_LINES_MAX];
    for (size_t i = 0; i < plan->lines; i++) {
        /* a total goes to the pots as they need it */
        const double share = pottlei_pot_share(plan->list[i].ingredient, pot);
        const double f = plan->total[i] > 0
                           ? plan->total[i] * share / pottlei_need(plan, i)
                           : share;
        line[i] = plan->list[i];
        line[i].mass_g = f * plan->amount[i].mass_g.median;
        line[i].volume_ml = f * plan->amount[i].volume_ml;
        line[i].count = f * plan->amount[i].count;
        line[i].raw_g = f * plan->amount[i].raw_g;
        wanted[i] = in_unit(&line[i]);
    }
    pottlei_round_lines(line, wanted, plan->lines);
}

pottle_status
pottlei_fill_pots(pottle_plan *plan, pottle_error *error)
{
    plan->pot_line =
        calloc(plan->pots.count * plan->lines, sizeof *plan->pot_line);
    if (plan->pot_line == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    double wanted[POTTLEI_LINES_MAX] = { 0 };
    for (size_t p = 0; p < plan->pots.count; p++) {
        pottle_line *line = plan->pot_line + p * plan->lines;
        fill_pot(plan, line, plan->pots.pot[p]);
        for (size_t i = 0; i < plan->lines; i++) {
            plan->list[i].mass_g += line[i].mass_g;
            plan->list[i].volume_ml += line[i].volume_ml;
            plan->list[i].count += line[i].count;
            plan->list[i].raw_g += line[i].raw_g;
        }
    }
    for (size_t i = 0; i < plan->lines; i++)
        wanted[i] = in_unit(&plan->list[i]);
    pottlei_round_lines(plan->list, wanted, plan->lines);
    return POTTLE_OK;
}
