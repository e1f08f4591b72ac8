/* cook.c - where the water and the solids of a batch go.
 *
 * Mass balance: what goes in, less what drains away, boils off or stays in the
 * pot. Solids are kept, and water is what closes the sum, so that nothing is
 * made and nothing vanishes. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/stove.h"

/* -- What goes in ---------------------------------------------------------- */

static void
add(pottlei_mix *to, double g, const double share[POTTLEI_CLASSES])
{
    for (size_t i = 0; i < POTTLEI_CLASSES; i++)
        to->g[i] += g * share[i];
}

pottle_status
pottlei_cook_add_up(const pottlei_cook_values *values,
                    const pottle_recipe *recipe, const pottlei_part *parts,
                    size_t count, double scale, pottlei_input *out,
                    pottle_error *error)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    pottle_estimate mass[POTTLEI_LINES_MAX], solid[POTTLEI_LINES_MAX],
        piece[POTTLEI_LINES_MAX];
    pottlei_input in = { .mass_sd = 0 };
    size_t n = 0, pieces = 0;
    bool juice_taken = false;
    double variance = 0, covariance = 0;
    for (size_t i = 0; i < count && n < POTTLEI_LINES_MAX; i++) {
        const pottlei_part *p = &parts[i];
        double share[POTTLEI_CLASSES];
        if (!p->ingredient->stays || p->ingredient->optional ||
            !(p->prepared_g.median > 0))
            continue;
        if (!pottlei_food_classes(p->food, share))
            return pottlei_fail(error, POTTLE_ENOENT, "composition",
                                "the water content of %s is not known",
                                pottle_food_title(p->food));
        const double solids = 1 - share[POTTLEI_WATER];
        mass[n] = p->by_volume_cut
                    ? pottle_estimate_multiple(p->prepared_g, values->cut)
                    : p->prepared_g;
        if (cook->juice_ml > 0 && strcmp(p->ingredient->role, "produce") == 0) {
            /* the measured juice stands for all the fruit */
            if (juice_taken)
                continue;
            mass[n] = (pottle_estimate){ scale * cook->juice_ml /
                                             pottlei_solution_volume(solids),
                                         values->cup };
            juice_taken = true;
        }
        solid[n] = pottle_estimate_multiple(mass[n], solids);
        add(&in.all, mass[n].median, share);
        if (pottlei_is_produce(p->ingredient)) {
            add(&in.pieces, mass[n].median, share);
            piece[pieces++] = mass[n];
        }
        const double v = mass[n].median * mass[n].sd;
        variance += v * v;
        covariance += v * v * solids;
        n++;
    }
    if (n == 0)
        return pottlei_fail(error, POTTLE_ENOENT, "balance",
                            "nothing that is weighed stays in the pot");
    in.mass_sd = pottle_estimate_sum(mass, n).sd;
    in.solids_sd = pottle_estimate_sum(solid, n).sd;
    in.pieces_sd = pottle_estimate_sum(piece, pieces).sd;
    in.solids_by_mass = variance > 0 ? covariance / variance : 0;
    *out = in;
    return POTTLE_OK;
}

/* -- The balance ----------------------------------------------------------- */

/* Salted or cooked vegetables give off water before the brine goes on; finely
 * chopped ones more than slices. Of their water at most nine tenths can go. */
static double
drained_water(const pottlei_cook_values *values, const pottle_cook *cook,
              const pottlei_input *in)
{
    if (!cook->drained || in->drained)
        return 0;
    const double share = cook->end == POTTLE_END_PACKED
                           ? values->slices.median
                           : values->chopped.median;
    return fmin(share * pottlei_mix_mass(&in->pieces),
                0.9 * in->pieces.g[POTTLEI_WATER]);
}

/* Uncovered boiling: the rate (g/min from 4 kg) goes with the pot's area, and
 * that with the mass to the power 2/3. */
static double
boiled_off(double rate, const pottle_cook *cook, const pottlei_mix *mix)
{
    if (cook->covered || !(cook->minutes > 0))
        return 0;
    const double lost =
        rate * cook->minutes * pow(pottlei_mix_mass(mix) / 4000.0, 2.0 / 3.0);
    return fmin(lost, 0.9 * mix->g[POTTLEI_WATER]);
}

/* What the spread of the rate does to the mass that is left, by the masses one
 * sd either way. */
static double
simmered_sd(const pottle_estimate *rate, const pottle_cook *cook,
            const pottlei_mix *mix)
{
    const double mass = pottlei_mix_mass(mix);
    const double slow = mass -
                        boiled_off(rate->median * exp(-rate->sd), cook, mix),
                 fast =
                     mass - boiled_off(rate->median * exp(rate->sd), cook, mix);
    return 0.5 * log(slow / fast);
}

/* Takes a share of everything out of a mixture. */
static pottlei_mix
take(pottlei_mix *from, double share)
{
    pottlei_mix out;
    for (size_t i = 0; i < POTTLEI_CLASSES; i++) {
        out.g[i] = share * from->g[i];
        from->g[i] -= out.g[i];
    }
    return out;
}

/* Pieces fill a share of the jar. Short of covering liquid all of it is used;
 * beyond it, some is left over. */
static void
pack_pieces(pottlei_mix *mix, const pottlei_input *in, double drained,
            double share, pottlei_mix *left_over)
{
    pottlei_mix pieces = in->pieces, liquid;
    pieces.g[POTTLEI_WATER] -= drained;
    const double whole_ml = pottlei_mix_volume(mix),
                 pieces_ml = pottlei_mix_volume(&pieces);
    if (!(pieces_ml > 0 && pieces_ml / share < whole_ml))
        return;
    for (size_t i = 0; i < POTTLEI_CLASSES; i++)
        liquid.g[i] = fmax(0, mix->g[i] - pieces.g[i]);
    /* in the jars the liquid takes what the pieces leave of pieces / share */
    const double wanted_ml = pieces_ml * (1 / share - 1),
                 liquid_ml = pottlei_mix_volume(&liquid);
    if (!(liquid_ml > wanted_ml))
        return;
    *left_over = take(&liquid, 1 - wanted_ml / liquid_ml);
    for (size_t i = 0; i < POTTLEI_CLASSES; i++)
        mix->g[i] -= left_over->g[i];
}

/* Water that boils off until the batch is done, and the spread of what is left.
 */
static double
boil(const pottle_estimate *end, double simmer_rate, const pottle_cook *cook,
     const pottlei_input *input, pottlei_mix mix, double *sd)
{
    const double water = mix.g[POTTLEI_WATER],
                 solids = pottlei_mix_solids(&mix);
    double boiled = 0;
    *sd = input->mass_sd;
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
    case POTTLE_END_BUTTER: {
        /* thick enough from the start: nothing has to go */
        const double keep = solids * (1 / end->median - 1);
        boiled = fmax(0, water - keep);
        *sd = boiled > 0 ? hypot(input->solids_sd, end->sd) : input->mass_sd;
        break;
    }
    case POTTLE_END_ADDED_PECTIN:
        boiled = end->median * water;
        *sd = hypot(input->mass_sd, end->median * end->sd);
        break;
    case POTTLE_END_REDUCE: {
        /* "by half" is of the volume at that step, after the earlier boils */
        boiled = boiled_off(simmer_rate, cook, &mix);
        mix.g[POTTLEI_WATER] -= boiled;
        const double left = fmin(1, cook->to * end->median / 0.5);
        boiled += mix.g[POTTLEI_WATER] -
                  pottlei_mix_water_at(&mix, left * pottlei_mix_volume(&mix));
        *sd = hypot(input->mass_sd, end->sd);
        break;
    }
    case POTTLE_END_SIMMER:
        boiled = boiled_off(end->median, cook, &mix);
        *sd = hypot(input->mass_sd, simmered_sd(end, cook, &mix));
        break;
    case POTTLE_END_PACKED:
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return boiled;
}

pottle_status
pottlei_cook_run(const pottlei_cook_values *values, const pottle_recipe *recipe,
                 const pottlei_input *input, pottle_balance *out,
                 pottle_error *error)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    const pottle_estimate *end = pottlei_cook_end_value(values, recipe);
    pottlei_mix mix = input->all, left_over = { { 0 } };
    pottle_balance b = { .pots = 1,
                         .end = cook->end,
                         .mass_in_g = pottlei_mix_mass(&mix),
                         .water_in_g = mix.g[POTTLEI_WATER],
                         .solids_in_g = pottlei_mix_solids(&mix) };
    b.drained_g = drained_water(values, cook, input);
    mix.g[POTTLEI_WATER] -= b.drained_g;
    double sd = 0;
    b.evaporated_g = boil(end, values->simmer.median, cook, input, mix, &sd);
    mix.g[POTTLEI_WATER] -= b.evaporated_g;
    b.finished_g = (pottle_estimate){ pottlei_mix_mass(&mix), sd };
    b.finished_ml = (pottle_estimate){ pottlei_mix_volume(&mix), sd };
    if (cook->end == POTTLE_END_PACKED) {
        pack_pieces(&mix, input, b.drained_g, end->median, &left_over);
        if (pottlei_mix_mass(&left_over) > 0)
            sd = hypot(input->pieces_sd, end->sd);
    }
    const pottlei_mix stuck = take(&mix, values->pot_loss);
    b.left_over_g = pottlei_mix_mass(&left_over);
    b.water_lost_g = stuck.g[POTTLEI_WATER] + left_over.g[POTTLEI_WATER];
    b.solids_lost_g =
        pottlei_mix_solids(&stuck) + pottlei_mix_solids(&left_over);
    b.water_jars_g = mix.g[POTTLEI_WATER];
    b.solids_jars_g = pottlei_mix_solids(&mix);
    b.volume_ml = (pottle_estimate){ pottlei_mix_volume(&mix), sd };
    if (!(b.volume_ml.median > 0 && b.volume_ml.median < 1e12))
        return pottlei_fail(error, POTTLE_ENOENT, "balance",
                            "the balance of %s has no meaning",
                            pottle_recipe_id(recipe));
    b.density.g_ml = pottlei_mix_mass(&mix) / b.volume_ml.median;
    *out = b;
    return POTTLE_OK;
}

pottle_status
pottlei_cook_balance(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe, const pottlei_part *parts,
                     size_t count, pottle_estimate *out, pottle_error *error)
{
    pottlei_cook_values values;
    pottlei_input input = { 0 };
    pottle_balance b = { .pots = 0 };
    pottlei_cook_values_read(catalogue, &values);
    pottle_status status =
        pottlei_cook_add_up(&values, recipe, parts, count, 1, &input, error);
    if (status == POTTLE_OK)
        status = pottlei_cook_run(&values, recipe, &input, &b, error);
    if (status == POTTLE_OK)
        *out = (pottle_estimate){
            b.volume_ml.median,
            fmax(b.volume_ml.sd, pottlei_cook_kind_spread(catalogue, recipe))
        };
    return status;
}

/* -- Plans ----------------------------------------------------------------- */

pottle_status
pottlei_cook_parts(const pottle_catalogue *catalogue, const pottle_plan *plan,
                   size_t pot, pottlei_part *out, pottle_error *error)
{
    const pottle_line *line = plan->pot_line + pot * plan->lines;
    pottle_status status = POTTLE_OK;
    for (size_t i = 0; status == POTTLE_OK && i < plan->lines; i++)
        status = pottlei_line_part(catalogue, plan, i, line[i].mass_g, &out[i],
                                   error);
    return status;
}

/* Two pots of one recipe err alike: spreads do not average out. */
static pottle_estimate
together(pottle_estimate a, pottle_estimate b)
{
    const double sum = a.median + b.median;
    return (pottle_estimate){
        sum, sum > 0 ? (a.median * a.sd + b.median * b.sd) / sum : 0
    };
}

pottle_status
pottle_cook_balance(const pottle_catalogue *catalogue, const pottle_plan *plan,
                    size_t pot, pottle_balance *out, pottle_error *error)
{
    if (catalogue == NULL || plan == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, plan or place for the result");
    const bool all = pot == POTTLE_ALL_POTS;
    if (!all && pot >= plan->pots.count)
        return pottlei_fail(error, POTTLE_ENOENT, "no-pot",
                            "the plan has %zu pot%s", plan->pots.count,
                            plan->pots.count == 1 ? "" : "s");
    pottlei_cook_values values;
    pottlei_cook_values_read(catalogue, &values);
    const double kind = pottlei_cook_kind_spread(catalogue, plan->recipe);
    pottle_balance sum = { .pots = 0 };
    for (size_t i = all ? 0 : pot; i < (all ? plan->pots.count : pot + 1);
         i++) {
        pottlei_part part[POTTLEI_LINES_MAX];
        pottlei_input input = { 0 };
        pottle_balance b = { .pots = 0 };
        pottle_status status =
            pottlei_cook_parts(catalogue, plan, i, part, error);
        if (status == POTTLE_OK)
            status =
                pottlei_cook_add_up(&values, plan->recipe, part, plan->lines,
                                    plan->pots.pot[i], &input, error);
        if (status == POTTLE_OK)
            status = pottlei_cook_run(&values, plan->recipe, &input, &b, error);
        if (status != POTTLE_OK)
            return status;
        b.volume_ml.sd = fmax(b.volume_ml.sd, kind);
        sum = (pottle_balance){
            .pots = sum.pots + 1,
            .end = b.end,
            .mass_in_g = sum.mass_in_g + b.mass_in_g,
            .water_in_g = sum.water_in_g + b.water_in_g,
            .solids_in_g = sum.solids_in_g + b.solids_in_g,
            .drained_g = sum.drained_g + b.drained_g,
            .evaporated_g = sum.evaporated_g + b.evaporated_g,
            .water_lost_g = sum.water_lost_g + b.water_lost_g,
            .solids_lost_g = sum.solids_lost_g + b.solids_lost_g,
            .left_over_g = sum.left_over_g + b.left_over_g,
            .water_jars_g = sum.water_jars_g + b.water_jars_g,
            .solids_jars_g = sum.solids_jars_g + b.solids_jars_g,
            .finished_g = together(sum.finished_g, b.finished_g),
            .finished_ml = together(sum.finished_ml, b.finished_ml),
            .volume_ml = together(sum.volume_ml, b.volume_ml),
        };
    }
    sum.density.g_ml =
        (sum.water_jars_g + sum.solids_jars_g) / sum.volume_ml.median;
    *out = sum;
    return POTTLE_OK;
}
