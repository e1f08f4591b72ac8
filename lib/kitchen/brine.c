/* brine.c - what a tested recipe pours over its food and puts into its jars.
 *
 * The liquid of a pickle is made longer only as a whole: every line times one
 * factor. An amount that a person gives either tells the factor or must agree
 * with it. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/plan.h"
#include "kitchen/solution.h"

/* -- The liquid of a recipe ------------------------------------------------ */

static bool
has_brine(const pottle_recipe *recipe)
{
    const char *kind = pottle_recipe_kind(recipe);
    return pottle_recipe_cook(recipe)->end == POTTLE_END_PACKED &&
           (strcmp(kind, "pickle") == 0 || strcmp(kind, "pickled-fruit") == 0);
}

/* Liquids, and what is dissolved in them; what is drained off or poured away
 * before is none of it. */
static bool
is_part(const pottle_ingredient *i)
{
    static const char *const roles[] = { "liquid", "acid", "salt", "sugar" };
    bool part = strcmp(i->role, "other") == 0 &&
                strcmp(i->form, "liquid") == 0; /* oil */
    for (size_t k = 0; k < sizeof roles / sizeof roles[0]; k++)
        part = part || strcmp(i->role, roles[k]) == 0;
    return part && i->stays;
}

static bool
is_liquid(const pottle_ingredient *i)
{
    return strcmp(i->role, "salt") != 0 && strcmp(i->role, "sugar") != 0;
}

/* The lines of one published batch, and the volume that they make. */
static pottle_status
read_brine(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
           pottle_line *line, size_t *count, double *volume_ml,
           pottle_error *error)
{
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1 };
    pottle_plan *plan = NULL;
    pottle_status status =
        pottle_scale(catalogue, recipe, &request, &plan, error);
    if (status != POTTLE_OK)
        return status;
    size_t n = 0;
    const pottle_line *all = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    double liquid_g = 0, liquid_ml = 0, salt_g = 0, sugar_g = 0;
    *count = 0;
    for (size_t i = 0; i < n && *count < POTTLE_BRINE_LINES_MAX; i++) {
        if (!is_part(all[i].ingredient))
            continue;
        line[(*count)++] = all[i];
        if (is_liquid(all[i].ingredient)) {
            liquid_g += all[i].mass_g;
            liquid_ml += all[i].volume_ml;
        } else if (strcmp(all[i].ingredient->role, "salt") == 0) {
            salt_g += all[i].mass_g;
        } else {
            sugar_g += all[i].mass_g;
        }
    }
    pottle_plan_free(plan);
    pottle_density water = { 1 }, syrup = { 1 };
    status = liquid_ml > 0 && liquid_g > 0 ? pottle_water_density(20, &water)
                                           : POTTLE_ENOENT;
    if (status == POTTLE_OK)
        status =
            pottle_sugar_density(100 * sugar_g / (liquid_g + sugar_g), &syrup);
    const double percent = 100 * salt_g / (liquid_g + salt_g);
    if (status != POTTLE_OK || !(percent <= POTTLEI_BRINE_MOST))
        return pottlei_fail(error, POTTLE_ENOENT, "no-brine",
                            "%s has no liquid whose volume can be told",
                            pottle_recipe_id(recipe));
    /* what each solute adds to as much water as there is liquid */
    *volume_ml = liquid_ml + (liquid_g + sugar_g) / syrup.g_ml +
                 (liquid_g + salt_g) / pottlei_brine_density(percent) -
                 2 * liquid_g / water.g_ml;
    return POTTLE_OK;
}

static bool
takes(const pottle_ingredient *i, const char *food)
{
    bool found = strcmp(i->food, food) == 0;
    for (size_t k = 0; k < i->alternatives && !found; k++)
        found = strcmp(i->alternative[k].food, food) == 0;
    return found;
}

/* How many times the published liquid an amount is, at its low and its high
 * end. */
static pottle_status
times_of(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
         const pottle_line *line, size_t count, const pottle_phrase *phrase,
         bool *free, double times[2], pottle_error *error)
{
    double ml = 0, g = 0;
    bool volumes =
        phrase->unit->dimension == POTTLE_VOLUME && phrase->then[0] == '\0';
    const char *form = "";
    size_t lines = 0;
    *free = true;
    for (size_t i = 0; i < count; i++) {
        const pottle_ingredient *in = line[i].ingredient;
        if (!takes(in, phrase->food))
            continue;
        form = lines++ == 0 ? in->form : form;
        ml += line[i].volume_ml;
        g += line[i].mass_g;
        volumes =
            volumes && in->unit->dimension == POTTLE_VOLUME &&
            (phrase->form[0] == '\0' || strcmp(phrase->form, in->form) == 0);
        *free = *free && in->keep == POTTLE_FREE;
    }
    if (lines == 0)
        return pottlei_refuse(catalogue, error, "not-in-brine", "pickle-02",
                              NULL, "%s is no part of the liquid of %s",
                              phrase->food, pottle_recipe_id(recipe));
    if (volumes && ml > 0) {
        times[0] = phrase->low * phrase->unit->factor / ml;
        times[1] = phrase->high * phrase->unit->factor / ml;
        return POTTLE_OK;
    }
    pottle_food *food = NULL;
    pottle_status status =
        pottle_food_read(catalogue, phrase->food, &food, error);
    for (int end = 0; end < 2 && status == POTTLE_OK; end++) {
        pottle_phrase one = *phrase;
        pottle_estimate mass = { 0, 0 };
        one.low = one.high = end == 0 ? phrase->low : phrase->high;
        status = pottle_phrase_mass(catalogue, food, &one, POTTLE_PREPARED, "",
                                    form, &mass, NULL, error);
        times[end] = mass.median / g;
    }
    pottle_food_free(food);
    return status;
}

static pottle_status
check_strength(const pottle_catalogue *catalogue, const pottle_phrase *phrase,
               pottle_error *error)
{
    const double least = pottlei_figure(catalogue, "vinegar-strength", 5);
    if (!(phrase->percent > 0 && phrase->percent < least))
        return POTTLE_OK;
    return pottlei_refuse(
        catalogue, error, "vinegar-strength", "vinegar-5-percent", NULL,
        "%s of %g percent is weaker than the %g percent of the tested recipe",
        phrase->food, phrase->percent, least);
}

/* Finds the factor, or that the amounts are not in one proportion. */
static pottle_status
find_factor(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
            const pottle_line *line, size_t count, double volume_ml,
            const pottle_brine_request *request, double *factor,
            pottle_error *error)
{
    double k = request->volume_ml > 0 ? request->volume_ml / volume_ml : 0;
    /* the second round judges all by the factor that the first one found */
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < request->amounts; i++) {
            const pottle_phrase *p = &request->amount[i];
            double times[2] = { 0, 0 };
            bool free = false;
            pottle_status status = check_strength(catalogue, p, error);
            if (status == POTTLE_OK)
                status = times_of(catalogue, recipe, line, count, p, &free,
                                  times, error);
            if (status != POTTLE_OK)
                return status;
            if (pass == 0 && !free && !(k > 0))
                k = 0.5 * (times[0] + times[1]);
            const pottle_estimate low = { times[0], 0 }, high = { times[1], 0 };
            if (pass == 1 && !free &&
                !(pottlei_keep_holds(POTTLE_EXACT, low, k) &&
                  pottlei_keep_holds(POTTLE_EXACT, high, k)))
                return pottlei_refuse(
                    catalogue, error, "brine-ratio", "pickle-02", NULL,
                    "%s would be %.3g times the tested amount, and the rest of "
                    "the liquid of %s %.3g times",
                    p->food, 0.5 * (times[0] + times[1]),
                    pottle_recipe_id(recipe), k);
        }
        if (!(k > 0))
            return pottlei_fail(error, POTTLE_EMISUSE, "how-much",
                                "say how much by a volume or by the amount of "
                                "one ingredient that is not free");
    }
    *factor = k;
    return POTTLE_OK;
}

static void
fill_line(const pottle_line *from, pottle_brine_line *to)
{
    *to = (pottle_brine_line){ .ingredient = from->ingredient,
                               .mass_g = from->mass_g,
                               .volume_ml = from->volume_ml,
                               .count = from->count,
                               .has_measure = from->has_measure,
                               .measure = from->measure };
}

pottle_status
pottle_brine_of_recipe(const pottle_catalogue *catalogue,
                       const pottle_recipe *recipe,
                       const pottle_brine_request *request,
                       pottle_brine_plan *out, pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || request == NULL || out == NULL ||
        request->version != POTTLE_BRINE_REQUEST_VERSION ||
        (request->amounts > 0 && request->amount == NULL))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, recipe, request or place for the "
                            "result, or a request of another version");
    /* 0 is what was not asked */
    if (!(request->volume_ml >= 0 && request->volume_ml <= POTTLE_NUMBER_MAX))
        return pottlei_volume_check((pottle_volume){ request->volume_ml },
                                    error);
    pottle_status status = pottlei_tested_only(catalogue, recipe, error);
    if (status != POTTLE_OK)
        return status;
    if (!has_brine(recipe))
        return pottlei_fail(error, POTTLE_ENOENT, "no-brine",
                            "%s is not packed in a pickling liquid",
                            pottle_recipe_id(recipe));
    pottle_line line[POTTLE_BRINE_LINES_MAX];
    pottle_brine_plan plan = { .lines = 0 };
    double volume_ml = 0, wanted[POTTLE_BRINE_LINES_MAX];
    status =
        read_brine(catalogue, recipe, line, &plan.lines, &volume_ml, error);
    if (status == POTTLE_OK)
        status = find_factor(catalogue, recipe, line, plan.lines, volume_ml,
                             request, &plan.factor, error);
    if (status != POTTLE_OK)
        return status;
    for (size_t i = 0; i < plan.lines; i++) {
        pottle_line *l = &line[i];
        l->mass_g *= plan.factor;
        l->volume_ml *= plan.factor;
        l->count *= plan.factor;
        const pottle_dimension d = l->ingredient->unit->dimension;
        wanted[i] = d == POTTLE_VOLUME ? l->volume_ml
                  : d == POTTLE_COUNT  ? l->count
                                       : l->mass_g;
        l->has_measure = false;
        l->title = "";
    }
    pottlei_round_lines(line, wanted, plan.lines);
    for (size_t i = 0; i < plan.lines && status == POTTLE_OK; i++) {
        pottle_food *food = NULL;
        fill_line(&line[i], &plan.line[i]);
        status =
            pottle_food_read(catalogue, line[i].ingredient->food, &food, error);
        if (status == POTTLE_OK)
            POTTLEI_SET(plan.line[i].title, pottle_food_title(food));
        pottle_food_free(food);
    }
    plan.volume_ml = volume_ml * plan.factor;
    const double least = pottlei_figure(catalogue, "vinegar-strength", 5);
    for (size_t i = 0; i < request->amounts; i++)
        if (request->amount[i].percent > least)
            plan.vinegar_percent =
                fmax(plan.vinegar_percent, request->amount[i].percent);
    if (status == POTTLE_OK)
        *out = plan;
    return status;
}

/* -- Acid in the jars ------------------------------------------------------ */

/* The dose of a size, or of the next larger that has one. */
static const pottle_jar_dose *
dose_for(const pottle_catalogue *catalogue, const pottle_jar_choice *choice,
         const pottle_jar *jar, const pottle_jar **from)
{
    const pottle_jar_dose *best = NULL;
    for (size_t i = 0; i < choice->doses; i++) {
        const pottle_jar *listed = NULL;
        if (pottle_jar_find(catalogue, choice->dose[i].jar, &listed, NULL) !=
                POTTLE_OK ||
            listed->nominal_ml < jar->nominal_ml)
            continue;
        if (best == NULL || listed->nominal_ml < (*from)->nominal_ml) {
            best = &choice->dose[i];
            *from = listed;
        }
    }
    return best;
}

static pottle_status
total_of(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
         const pottle_per_jar *per, const pottle_jar_choice *choice,
         const pottle_jar_number *jars, size_t count, pottle_acid_total *t,
         pottle_error *error)
{
    *t = (pottle_acid_total){ .food = choice->food,
                              .rule = per->rule,
                              .cite = per->cite };
    double base = 0;
    for (size_t i = 0; i < count; i++) {
        const pottle_jar *from = NULL;
        const pottle_jar_dose *dose =
            dose_for(catalogue, choice, jars[i].jar, &from);
        if (dose == NULL)
            return pottlei_refuse(
                catalogue, error, "jar-larger", "jar-size-larger", NULL,
                "%s has no amount of %s for a jar as large as %s",
                pottle_recipe_id(recipe), choice->food, jars[i].jar->id);
        if (t->unit != NULL && t->unit->dimension != dose->unit->dimension)
            return pottlei_fail(error, POTTLE_EDATA, "unit-dimension",
                                "the amounts of %s cannot be added up",
                                choice->food);
        /* the first size tells the unit of the total */
        t->unit = t->unit != NULL ? t->unit : dose->unit;
        t->dose[t->doses].jar = jars[i].jar;
        t->dose[t->doses].taken_from = from;
        t->dose[t->doses].count = jars[i].count;
        t->dose[t->doses].each = dose->amount;
        t->dose[t->doses++].unit = dose->unit;
        base += jars[i].count * dose->amount * dose->unit->factor;
        if (i == 0)
            t->cite = dose->cite;
    }
    if (t->unit == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse", "no jars");
    t->total = base / t->unit->factor;
    t->has_measure =
        pottle_measure_round(base, t->unit->dimension, POTTLE_AT_LEAST,
                             &t->measure) == POTTLE_OK;
    pottle_food *food = NULL;
    const pottle_status status =
        pottle_food_read(catalogue, choice->food, &food, error);
    if (status == POTTLE_OK)
        POTTLEI_SET(t->title, pottle_food_title(food));
    pottle_food_free(food);
    return status;
}

pottle_status
pottle_acid_for_jars(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe, const pottle_jar_number *jars,
                     size_t count, pottle_acid_total *out, size_t *totals,
                     pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || out == NULL || totals == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, recipe or place for the result");
    pottle_status status = pottlei_jar_numbers_check(jars, count, error);
    if (status == POTTLE_OK)
        status = pottlei_tested_only(catalogue, recipe, error);
    if (status != POTTLE_OK)
        return status;
    pottle_acid_total list[POTTLE_ACID_TOTALS_MAX];
    size_t n = 0, pers = 0;
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &pers);
    for (size_t i = 0; i < pers; i++) {
        if (strcmp(per[i].role, "acid") != 0)
            continue;
        for (size_t k = 0; k < per[i].choices && n < POTTLE_ACID_TOTALS_MAX &&
                           status == POTTLE_OK;
             k++)
            status = total_of(catalogue, recipe, &per[i], &per[i].choice[k],
                              jars, count, &list[n++], error);
    }
    if (status != POTTLE_OK)
        return status;
    if (n == 0)
        return pottlei_fail(error, POTTLE_ENOENT, "no-acid",
                            "%s puts no acid into its jars",
                            pottle_recipe_id(recipe));
    memcpy(out, list, n * sizeof *out);
    *totals = n;
    return POTTLE_OK;
}
