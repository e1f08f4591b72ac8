/* stove.c - when to stop a pot that boils down, and how long that takes.
 *
 * One balance serves all: the recipe tells the solids, the scale tells the
 * mass, and what is still to boil off is water. The rate of boiling is the
 * pot's and the burner's, not the batch's: the same pot gives off the same
 * water each minute, so that times follow in closed form. */
#include <config.h>

#include <math.h>

#include "kitchen/stove.h"

/* -- Boiling down ---------------------------------------------------------- */

pottle_status
pottle_boil_down(double mass_in_g, double solids_in_g, double end_share,
                 double *mass_g, double *evaporated_g)
{
    if (mass_g == NULL || evaporated_g == NULL)
        return POTTLE_EMISUSE;
    if (!(solids_in_g >= 0 && mass_in_g > solids_in_g && mass_in_g <= 1e12) ||
        !(end_share > 0 && end_share <= 1))
        return POTTLE_EDOMAIN;
    const double made = solids_in_g / end_share;
    /* water is never added */
    if (!(made > 0 && made <= mass_in_g * (1 + 1e-12)))
        return POTTLE_EDOMAIN;
    *mass_g = made;
    *evaporated_g = fmax(0, mass_in_g - made);
    return POTTLE_OK;
}

/* -- The target ------------------------------------------------------------ */

/* From where on two readings contradict each other, and how well a batch is
 * known to be what the recipe says at best. */
static const double contradiction_sigma = 4, batch_sd = 0.05;

static pottle_status
check_stove(const pottle_plan *plan, const pottle_stove *s, pottle_error *error)
{
    const pottle_cook *cook = pottle_recipe_cook(plan->recipe);
    if (s->version != POTTLE_STOVE_VERSION)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "readings of another version");
    if (s->pot >= plan->pots.count)
        return pottlei_fail(error, POTTLE_ENOENT, "no-pot",
                            "the plan has %zu pot%s", plan->pots.count,
                            plan->pots.count == 1 ? "" : "s");
    if (cook->end == POTTLE_END_LOAD && cook->cite.note[0] != '\0')
        return pottlei_fail(error, POTTLE_ENOENT, "no-end-point",
                            "%s is %s, by eye: its source tells what a canner "
                            "load takes and no "
                            "weight to stop at",
                            pottle_recipe_id(plan->recipe), cook->cite.note);
    if (cook->end == POTTLE_END_AS_IS || cook->end == POTTLE_END_PACKED ||
        cook->end == POTTLE_END_LOAD ||
        (cook->end == POTTLE_END_SIMMER &&
         (cook->covered || !(cook->minutes > 0))))
        return pottlei_fail(
            error, POTTLE_ENOENT, "no-end-point",
            "%s is not boiled down: there is no weight to stop at",
            pottle_recipe_id(plan->recipe));
    if (!(s->tare_g > 0 && s->tare_g <= 1e6) ||
        !(s->started_g > 0 && s->started_g <= 1e6))
        return pottlei_fail(error, POTTLE_EDOMAIN, "weights",
                            "the weights of the empty and of the full pot lie "
                            "above 0 and up to 1000 kg");
    if (!(s->started_g > s->tare_g))
        return pottlei_fail(error, POTTLE_EDOMAIN, "contradiction",
                            "the full pot at %.0f g weighs no more than the "
                            "empty one at %.0f g",
                            s->started_g, s->tare_g);
    if (!(s->now_g >= 0 && s->now_g <= 1e6) ||
        !(s->after_min >= 0 && s->after_min <= 1e5) ||
        (s->now_g > 0) != (s->after_min > 0))
        return pottlei_fail(error, POTTLE_EDOMAIN, "second-reading",
                            "a second weight needs the minutes of boiling "
                            "since the first, both above 0");
    if (!(s->burner_w >= 0 && s->burner_w <= 1e5) ||
        !(s->pot_width.mm >= 0 && s->pot_width.mm <= 2000))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "burner",
            "a burner has up to 100 kW, a pot is up to 2 m wide");
    if (s->has_altitude &&
        !(s->altitude_m >= 0 && s->altitude_m <= POTTLE_ALTITUDE_MAX_M))
        return pottlei_altitude_fail(error);
    return POTTLE_OK;
}

/* What is in the pot, by the recipe and by the scale together. The scale moves
 * the mass; the solids follow as far as it is the amounts of the ingredients
 * that are uncertain (the conditional mean of two jointly normal numbers): a
 * heavier pot holds more fruit, not more sugar. */
static pottle_status
weigh_in(const pottle_catalogue *catalogue, const pottle_stove *s,
         const pottle_balance *recipe, const pottlei_input *in,
         pottlei_input *out, pottle_cook_goal *g, pottle_error *error)
{
    const double scale = pottlei_figure(catalogue, "error-scale", 0.005);
    const double mass = recipe->water_in_g + recipe->solids_in_g -
                        recipe->drained_g,
                 solids = recipe->solids_in_g;
    const double error_g = scale * hypot(s->started_g, s->tare_g),
                 mass_sd_g = mass * in->mass_sd;
    g->net_g = s->started_g - s->tare_g;
    const double sigma = log(g->net_g / mass) /
                         sqrt(in->mass_sd * in->mass_sd + batch_sd * batch_sd +
                              error_g * error_g / (g->net_g * g->net_g));
    if (fabs(sigma) > contradiction_sigma)
        return pottlei_fail(error, POTTLE_EDOMAIN, "contradiction",
                            "the pot holds %.0f g by the scale (%.0f g less "
                            "the pot at %.0f g), but the amounts of the recipe "
                            "weigh %.0f g: %.1f standard deviations apart",
                            g->net_g, s->started_g, s->tare_g, mass,
                            fabs(sigma));
    const double total = mass_sd_g * mass_sd_g + error_g * error_g,
                 with = in->solids_by_mass * mass_sd_g * mass_sd_g;
    const double gain = total > 0 ? with / total : 0;
    const double moved = fmin(
        fmax(solids + gain * (g->net_g - mass), 0.5 * solids), 0.99 * g->net_g);
    const double variance =
        solids * in->solids_sd * solids * in->solids_sd - gain * with;
    g->solids_g = (pottle_estimate){ moved, sqrt(fmax(variance, 0)) / moved };
    *out = *in;
    out->drained = true;
    out->mass_sd = error_g / g->net_g;
    out->solids_sd = g->solids_g.sd;
    for (size_t i = POTTLEI_WATER + 1; i < POTTLEI_CLASSES; i++)
        out->all.g[i] *= moved / solids;
    out->all.g[POTTLEI_WATER] = g->net_g - moved;
    return POTTLE_OK;
}

static pottle_interval
less(double from, pottle_interval taken)
{
    return (pottle_interval){ fmax(0, from - taken.high),
                              fmax(0, from - taken.expected),
                              fmax(0, from - taken.low) };
}

/* An amount over a rate; the spreads are joined as relative ones. */
static pottle_interval
time_for(pottle_interval g, pottle_estimate rate, double times)
{
    const double t = times * g.expected / rate.median;
    if (!(g.expected > 0))
        return (pottle_interval){ 0, 0, times * g.high / rate.median };
    const double wide = (g.high - g.low) / (2 * POTTLE_Z95 * g.expected);
    const double factor = POTTLE_Z95 * hypot(wide, rate.sd);
    return (pottle_interval){ fmax(0, t * (1 - factor)), t, t * (1 + factor) };
}

/* Where to stop, by what is left of the pot then. */
static void
aim(const pottle_stove *s, double start_ml, pottle_cook_goal *g)
{
    pottle_interval left = pottle_estimate_interval(g->stop_g);
    /* it cannot become heavier */
    left.high = fmin(left.high, g->net_g);
    g->start_ml = start_ml;
    g->depth_share = pottle_estimate_multiple(g->stop_ml, 1 / start_ml);
    g->boil_off_g = less(g->net_g, left);
    g->reading_g =
        (pottle_interval){ s->tare_g + left.low, s->tare_g + left.expected,
                           s->tare_g + left.high };
}

/* By the clock: the rate of this pot tells what is left when the time is up. */
static void
by_the_clock(const pottle_stove *s, double minutes, const pottlei_input *in,
             double scale, pottle_cook_goal *g)
{
    const double now = s->now_g - s->tare_g,
                 left_min = fmax(0, minutes - s->after_min);
    const double left_g =
        fmin(g->rate_g_min.median * left_min, 0.9 * (now - g->solids_g.median));
    pottlei_mix mix = in->all;
    mix.g[POTTLEI_WATER] += now - left_g - g->net_g;
    g->done = !(left_min > 0);
    g->left_min = (pottle_interval){ left_min, left_min, left_min };
    g->stop_g =
        (pottle_estimate){ now - left_g,
                           hypot(left_g * g->rate_g_min.sd, scale * s->now_g) /
                               (now - left_g) };
    g->stop_ml = (pottle_estimate){ pottlei_mix_volume(&mix), g->stop_g.sd };
    aim(s, g->start_ml, g);
    g->left_g = less(now, pottle_estimate_interval(g->stop_g));
}

static pottle_status
second_reading(const pottle_catalogue *catalogue, const pottle_stove *s,
               const pottlei_input *in, double minutes, pottle_cook_goal *g,
               pottle_error *error)
{
    const double scale = pottlei_figure(catalogue, "error-scale", 0.005),
                 lasts = pottlei_figure(catalogue, "cook-rate-lasts", 0.1);
    const double now = s->now_g - s->tare_g, boiled = s->started_g - s->now_g,
                 boiled_sd = scale * hypot(s->started_g, s->now_g);
    if (!(boiled > 0))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "contradiction",
            "the scale showed %.0f g and, %.0f minutes later, %.0f g: a "
            "boiling pot gets lighter (%.1f standard deviations)",
            s->started_g, s->after_min, s->now_g, fabs(boiled) / boiled_sd);
    const double sigma = now > 0
                           ? log(now / g->solids_g.median) /
                                 hypot(g->solids_g.sd, scale * s->now_g / now)
                           : -HUGE_VAL;
    if (!(sigma > -contradiction_sigma))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "contradiction",
            "the pot holds %.0f g by the scale, but its solids alone weigh "
            "%.0f g, and only water boils off: %.1f standard deviations apart",
            now, g->solids_g.median, isfinite(sigma) ? fabs(sigma) : 99.9);
    g->has_now = true;
    g->boiled_g = boiled;
    g->rate_g_min = (pottle_estimate){ boiled / s->after_min,
                                       hypot(boiled_sd / boiled, lasts) };
    if (g->stop == POTTLE_STOP_CLOCK) {
        by_the_clock(s, minutes, in, scale, g);
        return POTTLE_OK;
    }
    g->left_g = less(now, pottle_estimate_interval(g->stop_g));
    g->done = !(g->left_g.expected > 0);
    g->left_min = time_for(g->left_g, g->rate_g_min, 1);
    return POTTLE_OK;
}

/* Latent heat of water at its boiling point (J/g), between the rows in a
 * straight line.
 *
 * Source:    a university's steam table, which IAPWS-IF97 reproduces to 0.1;
 *            the last row is IAPWS-IF97 at 101.325 kPa */
static double
latent_heat(double degC)
{
    static const double t[] = { 80, 85, 90, 95, 99.974 },
                        heat[] = { 2308.0, 2295.3, 2282.5, 2269.6, 2256.5 };
    size_t i = 0;
    while (i < 3 && degC > t[i + 1])
        i++;
    return heat[i] +
           (degC - t[i]) / (t[i + 1] - t[i]) * (heat[i + 1] - heat[i]);
}

/* Share of the burner's power that goes into the pot. Of an unknown hob only
 * that it lies somewhere among them. */
static pottle_estimate
hob_share(const pottle_catalogue *catalogue, pottle_hob hob)
{
    const pottle_figure *induction =
                            pottle_figure_find(catalogue, "hob-induction"),
                        *electric =
                            pottle_figure_find(catalogue, "hob-electric"),
                        *gas = pottle_figure_find(catalogue, "hob-gas");
    double low = gas != NULL ? gas->value : 40,
           high = induction != NULL ? induction->to : 84;
    if (hob == POTTLE_HOB_INDUCTION) {
        low = induction != NULL ? induction->value : 84;
    } else if (hob == POTTLE_HOB_ELECTRIC) {
        low = electric != NULL ? electric->value : 74;
        high = electric != NULL ? electric->to : 80;
    } else if (hob == POTTLE_HOB_GAS) {
        high = gas != NULL ? gas->to : 44;
    }
    pottle_estimate share = { 0.6, 0.3 };
    if (pottle_estimate_between(low / 100, high / 100, &share) != POTTLE_OK)
        return share;
    share.sd =
        hypot(share.sd, pottlei_figure(catalogue, "cook-forecast-spread", 0.3));
    return share;
}

/* Rough. Net power boils off 1 g for each latent heat; a wide pot gives off
 * more than a narrow one, but never more than the burner pays for. */
static void
forecast(const pottle_catalogue *catalogue, const pottle_stove *s,
         const pottlei_input *in, pottle_cook_goal *g)
{
    static const double cold = 20;
    const pottle_figure *surface =
        pottle_figure_find(catalogue, "cook-simmer-area");
    pottle_pressure air = { 101325 };
    pottle_temperature boiling = { 99.974 };
    if (!(s->burner_w > 0) && !(s->pot_width.mm > 0))
        return;
    if (s->has_altitude &&
        pottle_air_pressure(s->altitude_m, &air) == POTTLE_OK &&
        pottle_water_boiling(air, &boiling) != POTTLE_OK)
        boiling.degC = 99.974;
    pottle_estimate rate = { 0, 0 };
    if (s->pot_width.mm > 0) {
        const double cm2 =
            POTTLEI_PI / 4 * s->pot_width.mm * s->pot_width.mm / 100;
        rate = (pottle_estimate){ (surface != NULL ? surface->value : 4.6) *
                                      cm2 / 100,
                                  surface != NULL ? surface->spread : 0.4 };
    }
    if (s->burner_w > 0) {
        const pottle_estimate share = hob_share(catalogue, s->hob);
        const pottle_estimate paid = pottle_estimate_multiple(
            share, s->burner_w * 60 / latent_heat(boiling.degC));
        rate = rate.median > 0 && rate.median < paid.median
                 ? pottle_estimate_combine(rate, paid)
                 : paid;
        /* specific heat by Siebel, 1892, 0.837 + 3.349 (share of water) kJ/(kg
         * K) (from memory) */
        const double heat = 0.837 + 3.349 * in->all.g[POTTLEI_WATER] / g->net_g;
        g->heat_up_min = pottle_estimate_over(
            (pottle_estimate){ g->net_g * heat * (boiling.degC - cold) /
                                   (s->burner_w * 60),
                               0 },
            share);
    }
    g->has_forecast = true;
    g->forecast_rate_g_min = rate;
    const pottle_interval boil = time_for(g->boil_off_g, rate, 1);
    const pottle_interval warm = g->heat_up_min.median > 0
                                   ? pottle_estimate_interval(g->heat_up_min)
                                   : (pottle_interval){ 0, 0, 0 };
    g->forecast_min =
        (pottle_interval){ boil.low + warm.low, boil.expected + warm.expected,
                           boil.high + warm.high };
}

pottle_status
pottle_cook_target(const pottle_catalogue *catalogue, const pottle_plan *plan,
                   const pottle_stove *stove, pottle_cook_goal *out,
                   pottle_error *error)
{
    if (catalogue == NULL || plan == NULL || stove == NULL || out == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, plan, readings or place for the result");
    pottle_cook_goal g = { .net_g = 0 };
    pottlei_cook_values values;
    pottlei_part part[POTTLEI_LINES_MAX];
    pottlei_input in = { 0 }, weighed = { 0 };
    pottle_balance b;
    pottlei_cook_values_read(catalogue, &values);
    pottle_status status = check_stove(plan, stove, error);
    if (status == POTTLE_OK)
        status = pottlei_cook_parts(catalogue, plan, stove->pot, part, error);
    if (status == POTTLE_OK)
        status = pottlei_cook_add_up(&values, plan->recipe, part, plan->lines,
                                     plan->pots.pot[stove->pot], &in, error);
    if (status == POTTLE_OK)
        status =
            pottlei_cook_run(&values, plan->recipe, &in, &g.balance, error);
    if (status == POTTLE_OK)
        status =
            weigh_in(catalogue, stove, &g.balance, &in, &weighed, &g, error);
    if (status == POTTLE_OK)
        status = pottlei_cook_run(&values, plan->recipe, &weighed, &b, error);
    if (status != POTTLE_OK)
        return status;
    g.stop = b.end == POTTLE_END_SIMMER ? POTTLE_STOP_CLOCK : POTTLE_STOP_MASS;
    g.stop_g = b.finished_g;
    g.stop_ml = b.finished_ml;
    aim(stove, pottlei_mix_volume(&weighed.all), &g);
    if (stove->now_g > 0)
        status = second_reading(catalogue, stove, &weighed,
                                pottle_recipe_cook(plan->recipe)->minutes, &g,
                                error);
    else if (g.stop == POTTLE_STOP_MASS)
        forecast(catalogue, stove, &weighed, &g);
    if (status != POTTLE_OK)
        return status;
    if (g.stop == POTTLE_STOP_MASS && (g.has_now || g.has_forecast)) {
        const pottle_estimate rate =
            g.has_now ? g.rate_g_min : g.forecast_rate_g_min;
        g.has_twice = g.boil_off_g.expected > 0;
        /* twice the water at the same rate */
        g.twice_factor = 2;
        g.twice_min = time_for(g.boil_off_g, rate, g.twice_factor);
    }
    *out = g;
    return POTTLE_OK;
}
