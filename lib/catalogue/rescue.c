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
    if (pottle_process_exists(
            c, recipe, facts->followed != POTTLE_FOLLOWED_WRONG ? jar : NULL,
            POTTLE_ANY_PACK, NULL, NULL) != POTTLE_OK)
        facts->followed = POTTLE_FOLLOWED_UNTESTED;
    for (size_t i = 0; i < recipe->per_jar_count; i++)
        facts->jar_acid =
            facts->jar_acid || strcmp(recipe->per_jar[i].role, "acid") == 0;
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
    if ((c->hot_pack && !f->hot_pack) || (c->dense && !f->dense) ||
        (c->jar_acid && !f->jar_acid))
        return false;
    return !(c->lost_under > 0) || (f->has_lost && f->lost < c->lost_under);
}

/* Whether there is acid in a recipe, in the pot or in the jars. */
static bool
has_acid(const pottle_recipe *recipe)
{
    for (size_t i = 0; i < recipe->per_jar_count; i++)
        if (strcmp(recipe->per_jar[i].role, "acid") == 0)
            return true;
    for (size_t i = 0; i < recipe->ingredient_count; i++)
        if (strcmp(recipe->ingredient[i].role, "acid") == 0)
            return true;
    return false;
}

/* Sets *is where a food is a vinegar. */
static pottle_status
look_for_vinegar(const pottle_catalogue *c, const char *id, bool *is,
                 pottle_error *error)
{
    pottle_food *food = NULL;
    if (*is)
        return POTTLE_OK;
    const pottle_status status = pottle_food_read(c, id, &food, error);
    *is =
        status == POTTLE_OK && strcmp(pottle_food_group(food), "vinegar") == 0;
    pottle_food_free(food);
    return status;
}

/* The same of all that a recipe takes or may take. */
static pottle_status
has_vinegar(const pottle_catalogue *c, const pottle_recipe *recipe, bool *has,
            pottle_error *error)
{
    pottle_status status = POTTLE_OK;
    *has = false;
    for (size_t i = 0; i < recipe->ingredient_count; i++) {
        const pottle_ingredient *in = &recipe->ingredient[i];
        if (status == POTTLE_OK)
            status = look_for_vinegar(c, in->food, has, error);
        for (size_t k = 0; k < in->alternatives && status == POTTLE_OK; k++)
            status = look_for_vinegar(c, in->alternative[k].food, has, error);
    }
    for (size_t i = 0; i < recipe->per_jar_count; i++)
        for (size_t k = 0;
             k < recipe->per_jar[i].choices && status == POTTLE_OK; k++)
            status = look_for_vinegar(c, recipe->per_jar[i].choice[k].food, has,
                                      error);
    return status;
}

/* Kinds that are cooked until they gel (the guide's part on jams and jellies).
 */
static bool
gels(const pottle_recipe *recipe)
{
    static const char *const kinds[] = {
        "conserve", "jam-liquid-pectin", "jam-no-added-pectin",
        "jelly",    "marmalade",         "jam-powdered-pectin",
        "preserves"
    };
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(recipe->kind, kinds[i]) == 0)
            return true;
    return false;
}

pottle_status
pottle_mishap_suits(const pottle_catalogue *c, const pottle_mishap *mishap,
                    const pottle_recipe *recipe, pottle_error *error)
{
    bool vinegar = false;
    if (c == NULL || mishap == NULL || recipe == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, mishap or recipe");
    if (strcmp(mishap->id, "acid-forgotten") == 0 && !has_acid(recipe))
        return pottlei_fail(error, POTTLE_EDOMAIN, "mishap",
                            "%s has no acid that could be forgotten",
                            recipe->id);
    if (strcmp(mishap->id, "jam-not-set") == 0 && !gels(recipe))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "mishap",
            "%s is of the kind %s, and jam-not-set is for a cooked jam, jelly, "
            "marmalade, preserves or conserve",
            recipe->id, recipe->kind);
    if (strcmp(mishap->id, "vinegar-weak") != 0)
        return POTTLE_OK;
    const pottle_status status = has_vinegar(c, recipe, &vinegar, error);
    return status != POTTLE_OK || vinegar
             ? status
             : pottlei_fail(error, POTTLE_EDOMAIN, "mishap",
                            "%s has no vinegar that could be too weak",
                            recipe->id);
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
