/* rescue.c - what the publications allow when something went wrong.
 *
 * A mishap is a list of cases, and the first that holds is the answer. A case
 * holds by what is known: an unknown hour is in no case that has a clock, an
 * unknown process in none that asks for one. Reading (rescue_read.c) sees to it
 * that the last case asks nothing, so there always is an answer. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "model.h"

const pottle_mishap *
pottle_mishaps(const pottle_catalogue *c, size_t *count)
{
    *count = c->mishap_count;
    return c->mishap;
}

pottle_status
pottle_mishap_find(const pottle_catalogue *c, const char *name,
                   const pottle_mishap **out, pottle_error *error)
{
    if (c == NULL || name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, name or place for the result");
    char folded[64], id[64];
    pottlei_fold(name, folded, sizeof folded);
    pottlei_near near;
    pottlei_near_init(&near, folded);
    for (size_t i = 0; i < c->mishap_count; i++) {
        pottlei_fold(c->mishap[i].id, id, sizeof id);
        if (strcmp(id, folded) == 0) {
            *out = &c->mishap[i];
            return POTTLE_OK;
        }
        pottlei_near_try(&near, c->mishap[i].id);
    }
    char list[200];
    pottlei_near_write(&near, list, sizeof list);
    if (list[0] == '\0') /* nothing near: there are few of them */
        for (size_t i = 0, n = 0; i < c->mishap_count && n < sizeof list; i++)
            n += (size_t)snprintf(list + n, sizeof list - n, "%s%s",
                                  i == 0 ? "; there are " : ", ",
                                  c->mishap[i].id);
    return pottlei_fail(error, POTTLE_ENOENT, "unknown-mishap",
                        "'%.60s' is not a mishap that is known%s", name, list);
}

const pottle_remaking *
pottle_remaking_of(const pottle_catalogue *c)
{
    return c->remaking;
}

void
pottle_jar_facts_add(const pottle_catalogue *c, const pottle_recipe *recipe,
                     const pottle_jar *jar, pottle_jar_facts *facts)
{
    if (recipe->status != POTTLE_TESTED)
        facts->followed = POTTLE_FOLLOWED_UNTESTED;
    for (size_t i = 0; i < recipe->process_count; i++) {
        const pottle_process_table *t = &recipe->process[i];
        bool takes = jar == NULL;
        for (size_t k = 0; k < t->jars && !takes; k++) {
            const pottle_jar *tested = NULL;
            takes = pottle_jar_find(c, t->jar[k], &tested, NULL) == POTTLE_OK &&
                    tested->nominal_ml >= jar->nominal_ml;
        }
        facts->hot_pack = facts->hot_pack ||
                          (takes && !t->raw && recipe->status == POTTLE_TESTED);
    }
    for (size_t i = 0; i < c->dense_count && !facts->dense; i++) {
        const pottlei_dense *d = &c->dense[i];
        facts->dense = d->kind != NULL && strcmp(d->kind, recipe->kind) == 0;
        for (size_t k = 0;
             d->food != NULL && k < recipe->ingredient_count && !facts->dense;
             k++)
            facts->dense = strcmp(d->food, recipe->ingredient[k].food) == 0;
    }
}

static bool
holds(const pottle_rescue_case *c, const pottle_jar_facts *f)
{
    if (c->has_hours && !(f->has_hours && (c->under ? f->hours < c->hours
                                                    : f->hours <= c->hours)))
        return false;
    if (c->followed != POTTLE_FOLLOWED_UNKNOWN && c->followed != f->followed)
        return false;
    if ((c->hot_pack && !f->hot_pack) || (c->dense && !f->dense))
        return false;
    return !(c->lost_under > 0) || (f->has_lost && f->lost < c->lost_under);
}

pottle_status
pottle_rescue_find(const pottle_mishap *mishap, const pottle_jar_facts *facts,
                   const pottle_rescue_case **out, pottle_error *error)
{
    if (mishap == NULL || facts == NULL || out == NULL ||
        facts->version != POTTLE_JAR_FACTS_VERSION)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no mishap, facts or place for the result, or "
                            "facts of another version");
    if (facts->has_hours && !(facts->hours >= 0 && facts->hours < HUGE_VAL))
        return pottlei_fail(error, POTTLE_EDOMAIN, "hours",
                            "the hours must be a number from 0 upwards");
    if (facts->has_lost && !(facts->lost >= 0 && facts->lost <= 1))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "share",
            "the share of the liquid that was lost lies between 0 and 1");
    size_t i = 0;
    while (i + 1 < mishap->cases && !holds(&mishap->list[i], facts))
        i++;
    *out = &mishap->list[i]; /* the last asks nothing */
    return POTTLE_OK;
}

pottle_status
pottle_remaking_process(const pottle_catalogue *c, const pottle_jar *jar,
                        double altitude_m, pottle_process *out,
                        pottle_error *error)
{
    if (c == NULL || jar == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, jar or place for the result");
    if (c->remaking == NULL)
        return pottlei_fail(error, POTTLE_ENOENT, "no-remaking",
                            "the processes of remade spreads were not read");
    /* dressed as a recipe, so that one look-up serves all */
    const pottle_recipe remade = { .id = "a remade jam or jelly",
                                   .status = POTTLE_TESTED,
                                   .process_count = 1,
                                   .process = &c->remaking->process };
    pottle_process found[POTTLE_PROCESS_MAX];
    size_t n = 0;
    const pottle_status status = pottle_process_find(
        c, &remade, jar, NULL, POTTLE_ANY_PACK, altitude_m, found, &n, error);
    if (status == POTTLE_OK)
        *out = found[0];
    return status;
}
