/* plan.c - what a scaled recipe means for jars, doses, canner loads and the
 * process. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/plan.h"

static const double inch_mm = 25.4;

/* -- Jar and process ------------------------------------------------------- */

/* The size asked for, else that of the published yield, else the first one
 * tested. */
static pottle_status
choose_jar(const pottle_catalogue *catalogue, pottle_plan *plan,
           const pottle_request *request, pottle_error *error)
{
    plan->jar = request->jar;
    if (plan->jar != NULL)
        return POTTLE_OK;
    size_t n = 0;
    const pottle_yield *yield = pottle_recipe_yields(plan->recipe, &n);
    const char *size = n > 0 ? yield[0].jar : "pint";
    const pottle_process_table *table =
        pottle_recipe_processes(plan->recipe, &n);
    bool tested = n == 0;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < table[i].jars; k++)
            tested = tested || strcmp(table[i].jar[k], size) == 0;
    if (!tested)
        size = table[0].jar[0];
    return pottle_jar_find(catalogue, size, &plan->jar, error);
}

static pottle_status
find_processes(const pottle_catalogue *catalogue, pottle_plan *plan,
               const pottle_request *request, pottle_error *error)
{
    size_t tables = 0;
    pottle_recipe_processes(plan->recipe, &tables);
    if (tables == 0 || pottle_recipe_standing(plan->recipe) == POTTLE_OWN)
        return POTTLE_OK;
    /* every table begins at 0 ft, so this gives all that apply to the jar */
    pottle_status status = pottle_process_find(
        catalogue, plan->recipe, plan->jar, request->method, request->pack, 0,
        plan->table, &plan->tables, error);
    if (status == POTTLE_OK && request->has_altitude)
        status = pottle_process_find(
            catalogue, plan->recipe, plan->jar, request->method, request->pack,
            request->altitude_m, plan->process, &plan->processes, error);
    return status;
}

/* Ready-to-use mass of each line of the published batch, for the balance. */
static pottle_status
make_parts(const pottle_catalogue *catalogue, const pottle_plan *plan,
           pottlei_part *part, pottle_error *error)
{
    for (size_t i = 0; i < plan->lines; i++) {
        const pottle_ingredient *in = plan->list[i].ingredient;
        part[i] = (pottlei_part){ in, plan->line_food[i], { 0, 0 }, false };
        const double g = plan->amount[i].mass_g.median;
        if (!(g > 0))
            continue;
        pottle_phrase p = { .low = g,
                            .high = g,
                            .unit = pottle_unit_find("g"),
                            .state = in->state,
                            .state_said = true };
        const pottle_status status = pottle_phrase_mass(
            catalogue, plan->line_food[i], &p, POTTLE_PREPARED, in->trim, "",
            &part[i].prepared_g, NULL, error);
        if (status != POTTLE_OK)
            return status;
        part[i].prepared_g.sd =
            hypot(part[i].prepared_g.sd, plan->amount[i].mass_g.sd);
        const char *form = plan->list[i].form;
        part[i].by_volume_cut =
            in->unit->dimension == POTTLE_VOLUME &&
            strcmp(pottlei_form_bulk(plan->line_food[i], form), "cut") == 0 &&
            (strcmp(in->role, "produce") == 0 ||
             strcmp(in->role, "low-acid") == 0) &&
            strcmp(form, "crushed") != 0;
    }
    return POTTLE_OK;
}

static pottle_status
predict_batch(const pottle_catalogue *catalogue, pottle_plan *plan,
              pottle_error *error)
{
    pottle_status status = pottle_jar_fill(
        catalogue, plan->jar, plan->headspace, &plan->fill_ml, error);
    if (status != POTTLE_OK)
        return status;
    if (pottle_recipe_cook(plan->recipe)->end == POTTLE_END_LOAD) {
        double g = 0;
        for (size_t i = 0; i < plan->lines; i++)
            if (strcmp(plan->list[i].ingredient->food,
                       pottle_recipe_quantities(plan->recipe)->food) == 0)
                g += plan->amount[i].mass_g.median;
        status = pottlei_load_count(catalogue, plan->recipe, plan->jar, g,
                                    &plan->batch_jars, NULL);
        if (status == POTTLE_OK)
            return status;
    }
    pottlei_part part[POTTLEI_LINES_MAX];
    pottle_estimate volume;
    status = make_parts(catalogue, plan, part, error);
    if (status != POTTLE_OK)
        return status;
    /* without a composition or a possible yield nothing is said about jars */
    if (pottlei_cook_predict(catalogue, plan->recipe, part, plan->lines,
                             plan->headspace, &volume, NULL) == POTTLE_OK)
        plan->batch_jars = pottle_estimate_over(volume, plan->fill_ml);
    return POTTLE_OK;
}

pottle_status
pottlei_plan_jar(const pottle_catalogue *catalogue, pottle_plan *plan,
                 const pottle_request *request, pottle_error *error)
{
    pottle_status status = choose_jar(catalogue, plan, request, error);
    if (status == POTTLE_OK)
        status = find_processes(catalogue, plan, request, error);
    if (status != POTTLE_OK)
        return status;
    plan->headspace.mm =
        plan->tables > 0
            ? plan->table[0].headspace.mm
            : pottlei_figure(catalogue, "headspace-fruit", 0.5) * inch_mm;
    if (plan->processes > 0)
        plan->headspace = plan->process[0].headspace;
    return predict_batch(catalogue, plan, error);
}

pottle_status
pottlei_plan_fill_factor(const pottle_plan *plan, double jars, double *factor,
                         pottle_error *error)
{
    if (!(plan->batch_jars.median > 0))
        return pottlei_fail(error, POTTLE_ENOENT, "no-yield",
                            "how many jars %s fills is not known: give what is "
                            "on hand or a number of batches",
                            pottle_recipe_id(plan->recipe));
    const pottle_batch *batch = pottle_recipe_batch(plan->recipe);
    double f = jars / plan->batch_jars.median;
    if (batch->smallest > 0) {
        const double full =
            floor(f / batch->largest * (1 + 1e-9)) * batch->largest;
        const double rest = f - full;
        f = rest < 1e-9 * f ? full : full + fmax(rest, batch->smallest);
    }
    *factor = f;
    return POTTLE_OK;
}

/* -- Per jar --------------------------------------------------------------- */

/* The dose for a size. Acid takes the dose of this size or of the next larger
 * one; what only flavours is taken by volume. */
static bool
find_dose(const pottle_catalogue *catalogue, const pottle_per_jar *per,
          const pottle_jar_choice *choice, const pottle_jar *jar,
          const pottle_jar_dose **out, const pottle_jar **from, double *times)
{
    const pottle_jar *best = NULL;
    *times = 1;
    for (size_t i = 0; i < choice->doses; i++) {
        const pottle_jar *listed = NULL;
        if (pottle_jar_find(catalogue, choice->dose[i].jar, &listed, NULL) !=
            POTTLE_OK)
            continue;
        const bool fits = listed->nominal_ml >= jar->nominal_ml;
        /* the nearest from above, else the largest there is */
        const bool better = best == NULL ||
                            (fits && (best->nominal_ml < jar->nominal_ml ||
                                      listed->nominal_ml < best->nominal_ml)) ||
                            (!fits && best->nominal_ml < jar->nominal_ml &&
                             listed->nominal_ml > best->nominal_ml);
        if (better) {
            best = listed;
            *out = &choice->dose[i];
        }
    }
    if (best == NULL)
        return false;
    *from = best;
    if (per->keep != POTTLE_AT_LEAST || best->nominal_ml < jar->nominal_ml)
        *times = jar->nominal_ml / best->nominal_ml;
    return true;
}

static double
whole_jars(const pottle_plan *plan)
{
    return plan->has_jars ? ceil(plan->jars.count.median * (1 - 1e-9)) : 0;
}

/* A phrase in the unit of a dose, with the spread that converting brings in. */
static pottle_status
in_doses(const pottle_catalogue *catalogue, const pottle_dose *dose,
         const pottle_food *food, const pottle_phrase *phrase,
         pottle_estimate *out, pottle_error *error)
{
    const bool same_piece = phrase->unit->dimension != POTTLE_COUNT ||
                            phrase->size[0] == '\0' ||
                            strcmp(phrase->size, dose->size) == 0;
    if (phrase->unit->dimension == dose->unit->dimension && same_piece) {
        pottle_estimate said = { phrase->low, 0 };
        if (phrase->high > phrase->low &&
            pottle_estimate_between(phrase->low, phrase->high, &said) !=
                POTTLE_OK)
            return pottlei_fail(error, POTTLE_EDOMAIN, "amount-range",
                                "an amount of %s is out of range",
                                phrase->food);
        *out = pottle_estimate_multiple(said, phrase->unit->factor /
                                                  dose->unit->factor);
        return POTTLE_OK;
    }
    pottle_estimate mass, one;
    pottle_phrase unit = { .low = 1,
                           .high = 1,
                           .unit = dose->unit,
                           .state_said = true,
                           .state = POTTLE_PREPARED };
    POTTLEI_SET(unit.size, dose->size);
    pottle_status status = pottle_phrase_mass(
        catalogue, food, phrase, POTTLE_PREPARED, "", "", &mass, NULL, error);
    if (status == POTTLE_OK)
        status = pottle_phrase_mass(catalogue, food, &unit, POTTLE_PREPARED, "",
                                    "", &one, NULL, error);
    if (status == POTTLE_OK)
        *out = pottle_estimate_over(mass, one);
    return status;
}

/* The totals set of something that goes into the jars, together, must be what
 * all of them need. */
static pottle_status
check_set_dose(const pottle_catalogue *catalogue, const pottle_plan *plan,
               const pottle_dose *dose, const pottle_food *food,
               const pottle_request *request, pottle_error *error)
{
    pottle_estimate sum = { 0, 0 };
    for (size_t k = 0; k < request->sets; k++) {
        pottle_estimate pair[2] = { sum, { 0, 0 } };
        if (strcmp(request->set[k].food, dose->food) != 0)
            continue;
        const pottle_status status =
            in_doses(catalogue, dose, food, &request->set[k], &pair[1], error);
        if (status != POTTLE_OK)
            return status;
        sum = sum.median > 0 ? pottle_estimate_sum(pair, 2) : pair[1];
    }
    if (pottlei_keep_holds(dose->per_jar->keep, sum, dose->total))
        return POTTLE_OK;
    char instead[200], total[40];
    pottle_number_write(dose->total, 2, total, sizeof total);
    snprintf(instead, sizeof instead, "use %s %s of %s for %.0f jars", total,
             dose->unit->dimension == POTTLE_COUNT ? dose->size
                                                   : dose->unit->id,
             dose->title, whole_jars(plan));
    return pottlei_refuse(catalogue, error, "per-jar", dose->per_jar->rule,
                          instead, "%s of %s is %s what the jars need",
                          dose->food, pottle_recipe_id(plan->recipe),
                          sum.median < dose->total ? "less than" : "not");
}

static bool
is_set(const pottle_request *request, const char *food)
{
    for (size_t k = 0; k < request->sets; k++)
        if (strcmp(request->set[k].food, food) == 0)
            return true;
    return false;
}

static bool
line_uses(const pottle_plan *plan, const char *food)
{
    for (size_t i = 0; i < plan->lines; i++)
        if (strcmp(plan->list[i].food, food) == 0)
            return true;
    return false;
}

static pottle_status
add_doses(const pottle_catalogue *catalogue, pottle_plan *plan,
          const pottle_request *request, pottle_error *error)
{
    size_t n = 0;
    const pottle_per_jar *per = pottle_recipe_per_jar(plan->recipe, &n);
    for (size_t i = 0; i < n; i++) {
        /* the alternative that was set comes first */
        const size_t choices = per[i].choices;
        size_t first = 0;
        while (first < choices && !is_set(request, per[i].choice[first].food))
            first++;
        first = first < choices ? first : 0;
        for (size_t k = 0; k < choices && plan->doses < POTTLEI_DOSES_MAX;
             k++) {
            const pottle_jar_choice *choice =
                &per[i].choice[k == 0       ? first
                               : k <= first ? k - 1
                                            : k];
            const pottle_jar_dose *dose = NULL;
            const pottle_jar *from = NULL;
            double times = 1;
            if (!find_dose(catalogue, &per[i], choice, plan->jar, &dose, &from,
                           &times))
                continue;
            const pottle_food *food = NULL;
            pottle_status status =
                pottlei_plan_food(plan, catalogue, choice->food, &food, error);
            if (status != POTTLE_OK)
                return status;
            pottle_dose *d = &plan->dose[plan->doses++];
            *d = (pottle_dose){ &per[i],
                                choice->food,
                                pottle_food_title(food),
                                k,
                                dose->amount * times,
                                dose->unit,
                                dose->size,
                                dose->printed,
                                dose->amount * times * whole_jars(plan),
                                from };
            if (is_set(request, choice->food) &&
                !line_uses(plan, choice->food) && plan->has_jars)
                status =
                    check_set_dose(catalogue, plan, d, food, request, error);
            if (status != POTTLE_OK)
                return status;
        }
    }
    return POTTLE_OK;
}

/* -- Loads, remainder ------------------------------------------------------ */

static void
count_loads(const pottle_catalogue *catalogue, pottle_plan *plan)
{
    const pottle_figure *pints =
                            pottle_figure_find(catalogue, "load-pint-jars"),
                        *quarts =
                            pottle_figure_find(catalogue, "load-quart-jars");
    const pottle_jar *pint = NULL, *quart = NULL;
    if (!plan->has_jars || plan->tables == 0 || pints == NULL ||
        quarts == NULL ||
        pottle_jar_find(catalogue, "pint", &pint, NULL) != POTTLE_OK ||
        pottle_jar_find(catalogue, "quart", &quart, NULL) != POTTLE_OK)
        return;
    /* a half litre is a pint to a canner, a litre a quart; nothing is published
     * for larger jars */
    if (plan->jar->nominal_ml <= 1.1 * pint->nominal_ml)
        plan->per_load = (unsigned long)pints->to;
    else if (plan->jar->nominal_ml <= 1.1 * quart->nominal_ml)
        plan->per_load = (unsigned long)quarts->value;
    if (plan->per_load > 0)
        plan->loads =
            (unsigned long)ceil(whole_jars(plan) / (double)plan->per_load);
}

static bool
is_tested(const pottle_plan *plan, const pottle_jar *jar)
{
    for (size_t i = 0; i < plan->tables; i++)
        for (size_t k = 0; k < plan->table[i].table->jars; k++)
            if (strcmp(plan->table[i].table->jar[k], jar->id) == 0)
                return true;
    return false;
}

/* The largest smaller size that the remainder fills; one that was tested before
 * one that takes a larger one's time. */
static void
place_remainder(const pottle_catalogue *catalogue, pottle_plan *plan)
{
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &n);
    const bool metric = strstr(plan->jar->id, "-ml") != NULL ||
                        strcmp(plan->jar->id, "1-l") == 0;
    for (int pass = 0; plan->tables > 0 && pass < 2 && plan->smaller == NULL;
         pass++) {
        for (size_t i = n; i-- > 0;) {
            pottle_estimate fill;
            const bool same_family =
                metric == (strstr(jar[i].id, "-ml") != NULL ||
                           strcmp(jar[i].id, "1-l") == 0);
            if (jar[i].nominal_ml < plan->jar->nominal_ml && same_family &&
                (pass == 1 || is_tested(plan, &jar[i])) &&
                pottle_jar_fill(catalogue, &jar[i], plan->headspace, &fill,
                                NULL) == POTTLE_OK &&
                fill.median <= plan->jars.remainder_ml) {
                plan->smaller = &jar[i];
                break;
            }
        }
    }
}

/* -- Warnings -------------------------------------------------------------- */

static void
warn_rule(const pottle_catalogue *catalogue, pottle_plan *plan,
          const char *code, const char *rule, const char *before)
{
    const pottle_rule *r = pottle_rule_find(catalogue, rule);
    char text[320];
    snprintf(text, sizeof text, "%s%s", before, r != NULL ? r->text : "");
    pottlei_plan_warn(plan, code, r != NULL ? r->cite.source : "",
                      r != NULL ? r->cite.at : "", text);
}

static void
add_warnings(const pottle_catalogue *catalogue, pottle_plan *plan,
             const pottle_request *request)
{
    size_t n = 0;
    char text[320];
    const pottle_process *p = plan->processes > 0 ? plan->process : plan->table;
    if (plan->tables > 0 && !request->has_altitude)
        pottlei_plan_warn(
            plan, "altitude", "", "",
            "no altitude was given: look up the time for yours in the bands");
    if (plan->tables > 0 && p->tested_as != p->jar) {
        snprintf(text, sizeof text,
                 "%s jars are not tested for it and take the process of the "
                 "next larger tested size, %s. ",
                 p->jar->title, p->tested_as->title);
        warn_rule(catalogue, plan, "jar-tested-as", "jar-size-smaller", text);
    }
    if (plan->tables > 0 && p->table->sterile && p->band->minutes < 10)
        warn_rule(catalogue, plan, "sterile-jars", "jam-12", "");
    const double confirmed_ft =
        pottlei_figure(catalogue, "altitude-confirmed", 8000);
    if (plan->processes > 0 && p->band->to_ft < 0 &&
        request->altitude_m > confirmed_ft * 0.3048) {
        const pottle_figure *f =
            pottle_figure_find(catalogue, "altitude-confirmed");
        snprintf(text, sizeof text,
                 "above %.0f ft not every copy of the source confirms this "
                 "band: ask your extension office",
                 confirmed_ft);
        pottlei_plan_warn(plan, "altitude-high",
                          f != NULL ? f->cite.source : "",
                          f != NULL ? f->cite.at : "", text);
    }
    if (pottle_recipe_standing(plan->recipe) == POTTLE_OWN)
        warn_rule(catalogue, plan, "own-recipe", "own-recipe", "");
    const pottle_yield *yield = pottle_recipe_yields(plan->recipe, &n);
    for (size_t i = 0; i < n; i++) {
        if (yield[i].possible)
            continue;
        if (yield[i].high > yield[i].low)
            snprintf(text, sizeof text,
                     "the source prints %g to %g %s jars a batch; by weight "
                     "what goes in cannot come to that, so it is not used here",
                     yield[i].low, yield[i].high, yield[i].jar);
        else
            snprintf(text, sizeof text,
                     "the source prints %g %s jars a batch; by weight what "
                     "goes in cannot come to that, so it is not used here",
                     yield[i].low, yield[i].jar);
        pottlei_plan_warn(plan, "yield-impossible", yield[i].cite.source,
                          yield[i].cite.at, text);
    }
    const pottle_note *note = pottle_recipe_notes(plan->recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(note[i].of, "caution") == 0 ||
            strcmp(note[i].of, "storage") == 0)
            pottlei_plan_warn(plan, note[i].of, note[i].cite.source,
                              note[i].cite.at, note[i].text);
    /* a poisonous part is told once, by the recipe or else by the food */
    bool told = false;
    for (size_t i = 0; i < plan->warnings; i++)
        told = told || strstr(plan->warning[i].text, "poison") != NULL;
    for (size_t f = 0; !told && f < plan->lines; f++) {
        size_t notes = 0;
        const pottle_note *of_food =
            pottle_food_notes(plan->line_food[f], &notes);
        for (size_t i = 0; i < notes; i++)
            if (strstr(of_food[i].text, "poison") != NULL)
                pottlei_plan_warn(plan, "food", of_food[i].cite.source,
                                  of_food[i].cite.at, of_food[i].text);
    }
}

pottle_status
pottlei_plan_finish(const pottle_catalogue *catalogue, pottle_plan *plan,
                    const pottle_request *request, pottle_error *error)
{
    if (plan->batch_jars.median > 0) {
        /* pots of whole batches are measured out; only what takes all that is
         * there shares its uncertainty */
        const double have_sd = pottle_recipe_batch(plan->recipe)->smallest > 0
                                 ? 0
                                 : plan->factor_sd;
        pottle_estimate volume = pottle_estimate_multiple(
            pottle_estimate_times(plan->batch_jars,
                                  (pottle_estimate){ plan->fill_ml.median, 0 }),
            plan->factor);
        volume.sd = hypot(volume.sd, have_sd);
        const pottle_status status = pottle_jars_count(
            volume, (pottle_estimate){ plan->fill_ml.median, 0 }, &plan->jars);
        if (status != POTTLE_OK)
            return pottlei_fail(error, status, "jars",
                                "the number of jars is out of range");
        plan->jars.jar = plan->jar;
        plan->jars.headspace = plan->headspace;
        plan->jars.fill_ml = plan->fill_ml;
        plan->has_jars = true;
        place_remainder(catalogue, plan);
        count_loads(catalogue, plan);
    }
    const pottle_status status = add_doses(catalogue, plan, request, error);
    if (status == POTTLE_OK)
        add_warnings(catalogue, plan, request);
    return status;
}

/* -- Getters --------------------------------------------------------------- */

void
pottle_plan_free(pottle_plan *plan)
{
    if (plan == NULL)
        return;
    for (size_t i = 0; i < plan->foods; i++)
        pottle_food_free(plan->food[i]);
    free(plan->pot_line);
    free(plan->pots.pot);
    free(plan);
}

double
pottle_plan_factor(const pottle_plan *plan)
{
    return plan->factor;
}
const char *
pottle_plan_limit(const pottle_plan *plan)
{
    return plan->limit;
}
const pottle_jar_count *
pottle_plan_jars(const pottle_plan *plan)
{
    return plan->has_jars ? &plan->jars : NULL;
}
const pottle_jar *
pottle_plan_smaller(const pottle_plan *plan)
{
    return plan->smaller;
}

const double *
pottle_plan_pots(const pottle_plan *plan, size_t *count)
{
    *count = plan->pots.count;
    return plan->pots.pot;
}

const pottle_line *
pottle_plan_lines(const pottle_plan *plan, size_t pot, size_t *count)
{
    *count = plan->lines;
    return pot < plan->pots.count ? plan->pot_line + pot * plan->lines
                                  : plan->list;
}

const pottle_dose *
pottle_plan_doses(const pottle_plan *plan, size_t *count)
{
    *count = plan->doses;
    return plan->dose;
}

const pottle_rest *
pottle_plan_rests(const pottle_plan *plan, size_t *count)
{
    *count = plan->rests;
    return plan->rest;
}

const pottle_warning *
pottle_plan_warnings(const pottle_plan *plan, size_t *count)
{
    *count = plan->warnings;
    return plan->warning;
}

const pottle_process *
pottle_plan_processes(const pottle_plan *plan, size_t *count)
{
    *count = plan->processes;
    return plan->process;
}

const pottle_process *
pottle_plan_tables(const pottle_plan *plan, size_t *count)
{
    *count = plan->tables;
    return plan->table;
}

unsigned long
pottle_plan_loads(const pottle_plan *plan, unsigned long *per_load)
{
    if (per_load != NULL)
        *per_load = plan->per_load;
    return plan->loads;
}

/* -- Foods ----------------------------------------------------------------- */

/* The food of an id, read on first use; the plan owns it. */
pottle_status
pottlei_plan_food(pottle_plan *plan, const pottle_catalogue *catalogue,
                  const char *id, const pottle_food **out, pottle_error *error)
{
    for (size_t i = 0; i < plan->foods; i++) {
        if (strcmp(pottle_food_id(plan->food[i]), id) == 0) {
            *out = plan->food[i];
            return POTTLE_OK;
        }
    }
    if (plan->foods == POTTLEI_FOODS_MAX)
        return pottlei_fail(error, POTTLE_EDATA, "too-many-foods",
                            "a recipe of more than %d foods",
                            (int)POTTLEI_FOODS_MAX);
    const pottle_status status =
        pottle_food_read(catalogue, id, &plan->food[plan->foods], error);
    if (status == POTTLE_OK)
        *out = plan->food[plan->foods++];
    /* a food that a recipe names must be there: the catalogue is at fault, not
     * the person */
    return status == POTTLE_ENOENT
             ? pottlei_fail(error, POTTLE_EDATA, "missing-food",
                            "the catalogue has no food '%s'", id)
             : status;
}

void
pottlei_plan_warn(pottle_plan *plan, const char *code, const char *source,
                  const char *at, const char *text)
{
    if (plan->warnings == POTTLEI_WARNINGS_MAX)
        return;
    pottle_warning *w = &plan->warning[plan->warnings++];
    POTTLEI_SET(w->code, code);
    POTTLEI_SET(w->text, text);
    w->source = source;
    w->at = at;
}
