/* cook.c - where the water and the solids of a batch go.
 *
 * Mass balance: what goes in, less what drains away, boils off or stays in the
 * pot. Solids are kept, and water is what closes the sum, so that nothing is
 * made and nothing vanishes. The end of the cooking is one of a few kinds, each
 * with a parameter and a spread that stand in figures.xml with their origin;
 * none is a recipe's own. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/stove.h"

/* -- Parameters ------------------------------------------------------------ */

static pottle_estimate
value_of(const pottle_catalogue *catalogue, const char *id, double value,
         double spread)
{
    const pottle_figure *f = pottle_figure_find(catalogue, id);
    return f != NULL ? (pottle_estimate){ 0.5 * (f->value + f->to), f->spread }
                     : (pottle_estimate){ value, spread };
}

void
pottlei_cook_values_read(const pottle_catalogue *catalogue,
                         pottlei_cook_values *out)
{
    *out = (pottlei_cook_values){
        .gel = value_of(catalogue, "cook-gel-solids", 0.62, 0.06),
        .preserves = value_of(catalogue, "cook-preserves-solids", 0.50, 0.15),
        .butter = value_of(catalogue, "cook-butter-solids", 0.42, 0.12),
        .pectin = value_of(catalogue, "cook-pectin-loss", 0.05, 0.6),
        .reduce = value_of(catalogue, "cook-reduce", 0.5, 0.15),
        .simmer = value_of(catalogue, "cook-simmer-rate", 17, 0.4),
        .slices = value_of(catalogue, "cook-drained-loss", 0.15, 0.45),
        .chopped = value_of(catalogue, "cook-drained-loss-chopped", 0.40, 0.45),
        .firm = value_of(catalogue, "cook-tissue-firm", 0.57, 0.1),
        .limp = value_of(catalogue, "cook-tissue-limp", 0.75, 0.1),
        .cut = pottlei_figure(catalogue, "cook-cut-factor", 1.1),
        .pot_loss = value_of(catalogue, "cook-pot-loss", 0.03, 0.5).median,
        .pot_loss_sd = value_of(catalogue, "cook-pot-loss", 0.03, 0.5).sd,
        .cup = pottlei_figure(catalogue, "error-cup", 0.03),
    };
}

/* Whole or cut fruit that is cooked in a syrup made with water keeps its shape
 * and more water than the syrup around it; fruit layered with sugar gives off
 * its juice and boils to the gel point. */
bool
pottlei_cook_in_syrup(const pottle_recipe *recipe)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0;
         i < n && strcmp(pottle_recipe_kind(recipe), "preserves") == 0; i++)
        if (strcmp(in[i].food, "water") == 0 && in[i].stays)
            return true;
    return false;
}

const pottle_estimate *
pottlei_cook_end_value(const pottlei_cook_values *values,
                       const pottle_recipe *recipe)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
        return pottlei_cook_in_syrup(recipe) ? &values->preserves
                                             : &values->gel;
    case POTTLE_END_BUTTER: return &values->butter;
    case POTTLE_END_ADDED_PECTIN: return &values->pectin;
    case POTTLE_END_REDUCE: return &values->reduce;
    case POTTLE_END_SIMMER: return &values->simmer;
    case POTTLE_END_PACKED: return cook->limp ? &values->limp : &values->firm;
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return NULL;
}

const pottle_figure *
pottle_cook_end_figure(const pottle_catalogue *catalogue,
                       const pottle_recipe *recipe)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    const char *id = "";
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
        id = pottlei_cook_in_syrup(recipe) ? "cook-preserves-solids"
                                           : "cook-gel-solids";
        break;
    case POTTLE_END_BUTTER: id = "cook-butter-solids"; break;
    case POTTLE_END_ADDED_PECTIN: id = "cook-pectin-loss"; break;
    case POTTLE_END_REDUCE: id = "cook-reduce"; break;
    case POTTLE_END_SIMMER: id = "cook-simmer-rate"; break;
    case POTTLE_END_PACKED:
        id = cook->limp ? "cook-tissue-limp" : "cook-tissue-firm";
        break;
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return pottle_figure_find(catalogue, id);
}

/* By kind, as found against published yields (docs/YIELDS.md). */
double
pottlei_cook_kind_spread(const pottle_catalogue *catalogue,
                         const pottle_recipe *recipe)
{
    switch (pottle_recipe_cook(recipe)->end) {
    case POTTLE_END_GEL_POINT:
        return pottlei_figure(catalogue, "spread-kind-gel", 0.20);
    case POTTLE_END_ADDED_PECTIN:
        return pottlei_figure(catalogue, "spread-kind-added-pectin", 0.15);
    case POTTLE_END_REDUCE:
    case POTTLE_END_BUTTER:
        return pottlei_figure(catalogue, "spread-kind-cooked-down", 0.23);
    case POTTLE_END_SIMMER:
        return pottlei_figure(catalogue, "spread-kind-simmered", 0.20);
    case POTTLE_END_PACKED:
        return pottlei_figure(catalogue, "spread-kind-packed", 0.15);
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return pottlei_figure(catalogue, "spread-kind-pie", 0.16);
}

/* -- What goes in ---------------------------------------------------------- */

static bool
is_pieces(const pottle_ingredient *i)
{
    return strcmp(i->role, "produce") == 0 || strcmp(i->role, "low-acid") == 0;
}

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
        if (is_pieces(p->ingredient)) {
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
    const double water = mix.g[POTTLEI_WATER],
                 solids = pottlei_mix_solids(&mix);
    double boiled = 0, sd = input->mass_sd;
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
    case POTTLE_END_BUTTER: {
        /* thick enough from the start: nothing has to go */
        const double keep = solids * (1 / end->median - 1);
        boiled = fmax(0, water - keep);
        sd = boiled > 0 ? hypot(input->solids_sd, end->sd) : input->mass_sd;
        break;
    }
    case POTTLE_END_ADDED_PECTIN:
        boiled = end->median * water;
        sd = hypot(input->mass_sd, end->median * end->sd);
        break;
    case POTTLE_END_REDUCE: {
        /* "by half" is of the volume at that step, after the earlier boils */
        boiled = boiled_off(values->simmer.median, cook, &mix);
        mix.g[POTTLEI_WATER] -= boiled;
        const double left = fmin(1, cook->to * end->median / 0.5);
        boiled += mix.g[POTTLEI_WATER] -
                  pottlei_mix_water_at(&mix, left * pottlei_mix_volume(&mix));
        sd = hypot(input->mass_sd, end->sd);
        break;
    }
    case POTTLE_END_SIMMER:
        boiled = boiled_off(end->median, cook, &mix);
        sd = hypot(input->mass_sd, simmered_sd(end, cook, &mix));
        break;
    case POTTLE_END_PACKED:
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    mix.g[POTTLEI_WATER] = water - boiled;
    b.evaporated_g = boiled;
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
    for (size_t i = 0; i < plan->lines; i++) {
        const pottle_ingredient *in = line[i].ingredient;
        out[i] = (pottlei_part){ in, plan->line_food[i], { 0, 0 }, false };
        if (!(line[i].mass_g > 0))
            continue;
        const pottle_phrase p = { .low = line[i].mass_g,
                                  .high = line[i].mass_g,
                                  .unit = pottle_unit_find("g"),
                                  .state = in->state,
                                  .state_said = true };
        const pottle_status status = pottle_phrase_mass(
            catalogue, plan->line_food[i], &p, POTTLE_PREPARED, in->trim, "",
            &out[i].prepared_g, NULL, error);
        if (status != POTTLE_OK)
            return status;
        out[i].prepared_g.sd =
            hypot(out[i].prepared_g.sd, plan->amount[i].mass_g.sd);
        out[i].by_volume_cut =
            in->unit->dimension == POTTLE_VOLUME && is_pieces(in) &&
            strcmp(line[i].form, "crushed") != 0 &&
            strcmp(pottlei_form_bulk(plan->line_food[i], line[i].form),
                   "cut") == 0;
    }
    return POTTLE_OK;
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

/* -- Plain packs ----------------------------------------------------------- */

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
