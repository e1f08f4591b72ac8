/* plan.c - the plan as a thing: the foods it owns, the warnings it collects,
 * what it gives out. */
#include <config.h>

#include <stdlib.h>
#include <string.h>

#include "kitchen/plan.h"

/* -- What it holds --------------------------------------------------------- */

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

/* -- Getters --------------------------------------------------------------- */

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
