/* chain_pot.c - the links of a chain from the batch through the pot to the jars
 * and the canner. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/chain.h"

/* The balance of the published batch: what went in, and how heavy and large it
 * is when it is done. False where a composition is not known. */
static bool
balance_batch(pottlei_making *m, pottle_balance *out)
{
    pottle_chain *chain = m->chain;
    pottlei_cook_values values;
    pottlei_input input = { 0 };
    pottlei_cook_values_read(m->catalogue, &values);
    if (pottlei_cook_add_up(&values, chain->recipe, m->part, chain->plan->lines,
                            1, &input, NULL) != POTTLE_OK ||
        pottlei_cook_run(&values, chain->recipe, &input, out, NULL) !=
            POTTLE_OK)
        return false;
    chain->in_g = pottlei_mix_mass(&input.all);
    chain->in_ml = pottlei_mix_volume(&input.all);
    chain->in_sd = input.mass_sd;
    return true;
}

/* Density in the pot when the batch comes out at so many mL: what it is more or
 * less than by the balance is water. */
static double
density_at(const pottle_balance *b, double ml)
{
    return (b->finished_g.median + (ml - b->finished_ml.median)) / ml;
}

/* How the batch's volume follows the mass of the limiting food, by the balance
 * itself: a small step up and down. Where a published yield tells a part of the
 * volume, only the rest follows: the print has the usual weight of a cup in it.
 * The part is that of the precisions, which is the ratio of the variances. */
static double
share_of(pottlei_making *m, double volume_sd)
{
    const pottle_plan *plan = m->chain->plan;
    const double step = 0.05;
    pottlei_part part[POTTLEI_LINES_MAX];
    double log_ml[2] = { 0, 0 }, sd = volume_sd;
    for (int up = 0; up < 2; up++) {
        memcpy(part, m->part, sizeof part);
        for (size_t i = 0; i < plan->lines; i++)
            if (part[i].food == m->chain->food)
                part[i].prepared_g.median *= exp(up ? step : -step);
        pottle_estimate ml;
        if (pottlei_cook_balance(m->catalogue, m->chain->recipe, part,
                                 plan->lines, &ml, NULL) != POTTLE_OK)
            return 0;
        log_ml[up] = log(ml.median);
        sd = ml.sd;
    }
    const double computed =
        sd > volume_sd ? volume_sd * volume_sd / (sd * sd) : 1.0;
    return fmin(1.0,
                fmax(0.0, computed * (log_ml[1] - log_ml[0]) / (2 * step)));
}

static double
left_of(double sd, double taken)
{
    /* what the other steps take out of a spread never leaves less than a
     * quarter of it */
    return sqrt(fmax(sd * sd - taken * taken, sd * sd / 16.0));
}

/* Whether all that is filled into jars lies in one pot: pieces covered with a
 * liquid do not. */
static bool
is_in_a_pot(const pottle_recipe *recipe, bool load)
{
    size_t covers = 0, tables = 0;
    const pottle_end end = pottle_recipe_cook(recipe)->end;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &tables);
    pottle_recipe_covers(recipe, &covers);
    bool hot = tables == 0;
    for (size_t i = 0; i < tables; i++)
        hot = hot || !t[i].raw;
    return covers == 0 && hot && end != POTTLE_END_PACKED &&
           (load || end != POTTLE_END_LOAD);
}

static void
cite_batch(pottlei_making *m, pottle_chain_node to, bool load)
{
    pottle_basis *basis = &m->basis[to];
    const pottle_recipe *recipe = m->chain->recipe;
    const pottle_quantities *q = pottle_recipe_quantities(recipe);
    if (load) {
        size_t k = 0;
        for (size_t i = 0; i < q->loads; i++)
            if (strcmp(q->load[i].jar, m->chain->facts.jar->id) == 0)
                k = i;
        pottlei_basis_cite(basis, q->loads > 0 ? &q->load[k].cite
                                               : &q->average[0].cite);
        return;
    }
    pottlei_basis_cite(basis, &pottle_recipe_cook(recipe)->cite);
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    for (size_t i = 0; i < n && !m->request->without_yield; i++)
        if (y[i].possible) {
            pottlei_basis_cite(basis, &y[i].cite);
            break;
        }
}

static void
cite_figure(pottlei_making *m, pottle_chain_node to, const char *id)
{
    const pottle_figure *f = pottle_figure_find(m->catalogue, id);
    pottlei_basis_cite(&m->basis[to], f != NULL ? &f->cite : NULL);
}

/* What the links behind the batch rest on. */
static void
cite_ends(pottlei_making *m)
{
    const pottle_figure *pints =
        pottle_figure_find(m->catalogue, "load-pint-jars");
    const bool of_pints =
        pints != NULL && (unsigned long)pints->to == m->chain->facts.per_load;
    if (m->chain->model.has[POTTLE_CHAIN_COOKED_VOLUME]) {
        cite_figure(m, POTTLE_CHAIN_COOKED_VOLUME, "spread-cooked-density");
        cite_figure(m, POTTLE_CHAIN_JARS, "cook-pot-loss");
        cite_figure(m, POTTLE_CHAIN_JARS, "spread-jar-fill");
    }
    cite_figure(m, POTTLE_CHAIN_LOADS,
                of_pints ? "load-pint-jars" : "load-quart-jars");
}

/* A node whose row is that of another plus one step. */
static void
follow(pottlei_chain_model *model, size_t node, size_t from, double factor)
{
    model->has[node] = true;
    model->offset[node] = model->offset[from] + log(factor);
    memcpy(model->weight[node], model->weight[from], sizeof model->weight[0]);
}

/* Batches to jars, by way of the pot where there is one. volume is what is
 * filled of one batch, counting pieces as their fill. */
static void
link_pot(pottlei_making *m, pottle_estimate volume, bool load,
         const pottle_balance *balance)
{
    pottlei_chain_model *model = &m->chain->model;
    pottle_chain_facts *f = &m->chain->facts;
    const pottle_figure *loss =
        pottle_figure_find(m->catalogue, "cook-pot-loss");
    const double lost = loss != NULL ? loss->value : 0.03,
                 lost_sd = loss != NULL ? loss->value * loss->spread : 0.015;
    const bool pot = is_in_a_pot(m->chain->recipe, load);
    const double finish_sd =
        pot ? pottlei_figure(m->catalogue, "spread-cooked-density", 0.03) : 0;
    /* the batch's own spread holds that of the produce: it must not be counted
     * twice */
    const double follows =
        f->produce_share *
        (f->base == POTTLE_CHAIN_MEASURED ? model->sd[POTTLEI_STEP_FORM]
         : f->base == POTTLE_CHAIN_PICKED ? model->sd[POTTLEI_STEP_TRIM]
                                          : 0);
    const double batch_sd = pot ? left_of(volume.sd, lost_sd) : volume.sd;
    const double pot_ml = volume.median / (pot ? 1.0 - lost : 1.0);
    const size_t first = pot ? POTTLE_CHAIN_COOKED_MASS : POTTLE_CHAIN_JARS;
    const double density =
        pot && balance != NULL ? density_at(balance, pot_ml) : 1.0;
    follow(model, first, POTTLE_CHAIN_BATCHES,
           pot ? pot_ml * density : volume.median / f->fill_ml.median);
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        model->weight[first][k] -=
            f->produce_share * model->weight[POTTLE_CHAIN_BATCHES][k];
    model->weight[first][POTTLEI_STEP_COOK] = 1;
    model->sd[POTTLEI_STEP_COOK] = left_of(batch_sd, hypot(follows, finish_sd));
    model->sd[POTTLEI_STEP_FILL] =
        pot ? hypot(f->fill_ml.sd, lost_sd) : f->fill_ml.sd;
    cite_batch(m, (pottle_chain_node)first, load);
    if (pot) {
        model->sd[POTTLEI_STEP_FINISH] = finish_sd;
        follow(model, POTTLE_CHAIN_COOKED_VOLUME, POTTLE_CHAIN_COOKED_MASS,
               1.0 / density);
        model->weight[POTTLE_CHAIN_COOKED_VOLUME][POTTLEI_STEP_FINISH] = -1;
        follow(model, POTTLE_CHAIN_JARS, POTTLE_CHAIN_COOKED_VOLUME,
               (1.0 - lost) / f->fill_ml.median);
    }
    model->weight[POTTLE_CHAIN_JARS][POTTLEI_STEP_FILL] = -1;
    if (f->per_load > 0)
        follow(model, POTTLE_CHAIN_LOADS, POTTLE_CHAIN_JARS,
               1.0 / (double)f->per_load);
}

/* Spread of the jars of a load, widened to the middle of each published
 * container yield, as a density is widened to other sources. One that
 * contradicts the loads is told and left out. */
static double
widened_spread(pottlei_making *m, double sd)
{
    const pottle_recipe *recipe = m->chain->recipe;
    const pottle_quantities *q = pottle_recipe_quantities(recipe);
    pottle_basis *basis =
        &m->basis[is_in_a_pot(recipe, true) ? POTTLE_CHAIN_COOKED_MASS
                                            : POTTLE_CHAIN_JARS];
    const double limit = m->chain->limit;
    double widest = sd;
    for (size_t i = 0; i < q->containers; i++) {
        const pottle_container_yield *y = &q->container[i];
        const pottle_jar *jar = NULL;
        pottle_estimate jars;
        if (pottle_jar_find(m->catalogue, y->jar, &jar, NULL) != POTTLE_OK ||
            pottlei_load_count(m->catalogue, recipe, jar, y->grams, &jars,
                               NULL) != POTTLE_OK)
            continue;
        const double apart = fabs(log(jars.median / sqrt(y->low * y->high)));
        if (apart <= limit * sd)
            widest = fmax(widest, apart / POTTLE_Z95);
        else if (basis->notes < POTTLE_BASIS_NOTES)
            snprintf(basis->note[basis->notes++], sizeof basis->note[0],
                     "%.40s: %g to %g jars a %.12s contradict the canner loads "
                     "and are left out",
                     y->cite.source, y->low, y->high, y->of->id);
    }
    return widest;
}

/* What one batch fills (mL). Of a canner load the jars are published by weight,
 * and the volume is theirs. */
static bool
batch_volume(pottlei_making *m, bool *load, pottle_estimate *out)
{
    const pottle_plan *plan = m->chain->plan;
    const pottle_quantities *q = pottle_recipe_quantities(m->chain->recipe);
    *load = pottle_recipe_cook(m->chain->recipe)->end == POTTLE_END_LOAD &&
            q->loads + q->averages > 0;
    if (!*load && m->request->without_yield)
        return pottlei_cook_balance(m->catalogue, m->chain->recipe, m->part,
                                    plan->lines, out, NULL) == POTTLE_OK;
    if (!(plan->batch_jars.median > 0))
        return false;
    /* the plan's count has the spread of the fill in it */
    const double jars_sd =
        *load ? widened_spread(m, plan->batch_jars.sd) : plan->batch_jars.sd;
    *out = (pottle_estimate){ plan->batch_jars.median * plan->fill_ml.median,
                              left_of(jars_sd, plan->fill_ml.sd) };
    return true;
}

void
pottlei_chain_link_pot(pottlei_making *m)
{
    pottle_chain *chain = m->chain;
    pottle_estimate volume;
    pottle_balance balance;
    bool load = false;
    const bool balanced = balance_batch(m, &balance);
    /* without a composition or a possible yield nothing is said of pot and jars
     */
    if (!batch_volume(m, &load, &volume))
        return;
    if (load)
        chain->in_g =
            0; /* water and juice of a pack are not among its ingredients */
    const bool of_load =
        load && strcmp(pottle_recipe_quantities(chain->recipe)->food,
                       chain->facts.food) == 0;
    chain->facts.produce_share =
        load ? (of_load ? 1.0 : 0.0) : share_of(m, volume.sd);
    link_pot(m, volume, load, balanced ? &balance : NULL);
    cite_ends(m);
}
