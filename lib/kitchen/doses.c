/* doses.c - what goes into the jars one by one, such as the acid of tomatoes.
 *
 * A dose is for a size of jar; all of them together must be there when a total
 * of it is set. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/plan.h"

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

/* More jars are washed than are expected: a total that is enough for these may
 * be short for those, and each jar that is filled needs its own. */
static void
warn_of_more_jars(pottle_plan *plan, const pottle_dose *dose,
                  pottle_estimate sum)
{
    const double wash = (double)plan->jars.prepare;
    if (dose->per_jar->keep != POTTLE_AT_LEAST || !(dose->count > 0) ||
        pottlei_keep_holds(POTTLE_AT_LEAST, sum, dose->count * wash))
        return;
    const char *unit =
        dose->unit->dimension == POTTLE_COUNT ? dose->size : dose->unit->id;
    char text[320], each[40], set[40];
    pottle_number_write(dose->count, 3, each, sizeof each);
    pottle_number_write(sum.median, 3, set, sizeof set);
    snprintf(text, sizeof text,
             "the %s %s of %s that were set are enough for %.0f jars, and %.0f "
             "are washed: each jar more needs %s %s more",
             set, unit, dose->title,
             floor(pottle_estimate_interval(sum).low / dose->count + 1e-9),
             wash, each, unit);
    pottlei_plan_warn(plan, "per-jar-set", dose->per_jar->cite.source,
                      dose->per_jar->cite.at, text);
}

/* The totals set of something that goes into the jars, together, must be what
 * all of them need. */
static pottle_status
check_set_dose(const pottle_catalogue *catalogue, pottle_plan *plan,
               const pottle_dose *dose, const pottle_food *food,
               const pottle_cite *cite, const pottle_request *request,
               pottle_error *error)
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
    if (pottlei_keep_holds(dose->per_jar->keep, sum, dose->total)) {
        warn_of_more_jars(plan, dose, sum);
        return POTTLE_OK;
    }
    const double wash = (double)plan->jars.prepare;
    const char *unit =
        dose->unit->dimension == POTTLE_COUNT ? dose->size : dose->unit->id;
    char instead[200], total[40], each[40];
    pottle_number_write(dose->count * wash, 2, total, sizeof total);
    pottle_number_write(dose->count, 3, each, sizeof each);
    snprintf(instead, sizeof instead, "use %s %s of %s for %.0f jars", total,
             unit, dose->title, wash);
    (void)pottlei_refuse(
        catalogue, error, "per-jar",
        cite->source[0] != '\0' ? "" : dose->per_jar->rule, instead,
        "%s of %s is %s what the jars need: %s %s each", dose->food,
        pottle_recipe_id(plan->recipe),
        sum.median < dose->total ? "less than" : "not", each, unit);
    /* the amount is of the publication that prints it, not of the rule */
    if (error != NULL && cite->source[0] != '\0') {
        POTTLEI_SET(error->source, cite->source);
        POTTLEI_SET(error->at, cite->at);
    }
    return POTTLE_EBOUNDS;
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

pottle_status
pottlei_plan_add_doses(const pottle_catalogue *catalogue, pottle_plan *plan,
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
                                dose->amount * times * pottlei_whole_jars(plan),
                                from };
            if (is_set(request, choice->food) &&
                !line_uses(plan, choice->food) && plan->has_jars)
                status = check_set_dose(catalogue, plan, d, food, &dose->cite,
                                        request, error);
            if (status != POTTLE_OK)
                return status;
        }
    }
    return POTTLE_OK;
}
