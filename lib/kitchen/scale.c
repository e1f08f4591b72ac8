/* scale.c - scaling a recipe: what is asked, checked, and the order in which a
 * plan is made.
 *
 * The factor multiplies the whole recipe. Only a set total changes a single
 * line, and it is judged by the line's keep rule (totals.c). */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/density.h"
#include "kitchen/plan.h"

/* -- What is asked --------------------------------------------------------- */

static bool
recipe_uses(const pottle_recipe *recipe, const char *food)
{
    return pottle_recipe_uses(recipe, &food, 1);
}

/* The food of an id when it is of a group; one that cannot be read is not. */
static const pottle_food *
of_group(const pottle_catalogue *catalogue, pottle_plan *plan, const char *id,
         const char *group)
{
    const pottle_food *food = NULL;
    return pottlei_plan_food(plan, catalogue, id, &food, NULL) == POTTLE_OK &&
                   strcmp(pottle_food_group(food), group) == 0
             ? food
             : NULL;
}

/* What the recipe has of the kind of a food that it has not: another vinegar,
 * sugar or salt; NULL when there is none. It only betters a way out, so that
 * what fails here is passed over. */
static const pottle_food *
find_like(const pottle_catalogue *catalogue, pottle_plan *plan,
          const pottle_recipe *recipe, const char *food)
{
    static const char *const groups[] = { "vinegar", "sugar", "salt" };
    const pottle_food *like = NULL;
    for (size_t g = 0; g < sizeof groups / sizeof groups[0]; g++) {
        if (of_group(catalogue, plan, food, groups[g]) == NULL)
            continue;
        size_t n = 0;
        const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
        for (size_t i = 0; like == NULL && i < n; i++)
            like = of_group(catalogue, plan, list[i].food, groups[g]);
        const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &n);
        for (size_t i = 0; i < n; i++)
            for (size_t k = 0; like == NULL && k < per[i].choices; k++)
                like =
                    of_group(catalogue, plan, per[i].choice[k].food, groups[g]);
    }
    return like;
}

/* A food that is not in the recipe: refused by name where a rule forbids it in
 * place of one that is. */
static pottle_status
not_part(const pottle_catalogue *catalogue, pottle_plan *plan,
         const pottle_recipe *recipe, const char *food, bool set,
         pottle_error *error)
{
    const pottle_food *like = find_like(catalogue, plan, recipe, food);
    size_t rules = 0;
    const pottle_rule *rule = pottle_rules(catalogue, &rules);
    /* what stands beside one of its own kind is no stand-in for another */
    for (size_t r = 0; r < rules; r++)
        for (size_t k = 0; k < rule[r].nevers; k++)
            if (strcmp(rule[r].never[k].put, food) == 0 &&
                recipe_uses(recipe, rule[r].never[k].wanted) &&
                (like == NULL ||
                 strcmp(rule[r].never[k].wanted, pottle_food_id(like)) == 0))
                return pottlei_refuse(catalogue, error, "never-for", rule[r].id,
                                      NULL, "%s may not stand in for %s in %s",
                                      food, rule[r].never[k].wanted,
                                      pottle_recipe_id(recipe));
    char instead[200];
    if (like != NULL)
        snprintf(instead, sizeof instead,
                 "use what it has, %.60s; or choose a tested recipe with %.60s",
                 pottle_food_title(like), food);
    else
        snprintf(instead, sizeof instead,
                 "add it to taste when the jar is opened, or choose a tested "
                 "recipe that has it");
    if (set)
        return pottlei_refuse(catalogue, error, "not-in-recipe", "whole-recipe",
                              instead, "%s is not part of the tested recipe %s",
                              food, pottle_recipe_id(recipe));
    size_t n = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    char names[300] = "";
    for (size_t i = 0; i < n; i++)
        pottlei_list_add(names, sizeof names, list[i].food);
    return pottlei_fail(error, POTTLE_ENOENT, "not-in-recipe",
                        "%s does not use %s; it uses %s",
                        pottle_recipe_id(recipe), food, names);
}

/* Vinegar weaker than the recipes are tested with; a strength of something that
 * is not sold by it; juice and vinegar that were frozen or cooked. */
static pottle_status
check_acid(const pottle_catalogue *catalogue, const pottle_phrase *phrase,
           const pottle_food *food, pottle_error *error)
{
    const double needed = pottlei_figure(catalogue, "vinegar-strength", 5);
    const bool vinegar = strcmp(pottle_food_group(food), "vinegar") == 0,
               juice = strcmp(pottle_food_group(food), "juice") == 0;
    if ((vinegar || juice) && phrase->form[0] != '\0' &&
        pottle_food_form(food, phrase->form) == NULL)
        return pottlei_form_missing(food, phrase->form, error);
    if (!vinegar && phrase->percent > 0)
        return pottlei_fail(error, POTTLE_EDOMAIN, "strength",
                            "%s of %g %%: a strength is told of vinegar only; "
                            "the recipes are tested with %s as it is sold",
                            pottle_food_title(food), phrase->percent,
                            pottle_food_title(food));
    if (!vinegar)
        return POTTLE_OK;
    /* a vinegar whose strength nobody states is not known to be strong enough
     */
    const double strength = phrase->percent > 0
                              ? phrase->percent
                              : pottle_food_acid(food)->strength;
    if (strength >= needed)
        return POTTLE_OK;
    return pottlei_refuse(
        catalogue, error, "vinegar-strength", "vinegar-5-percent", NULL,
        "%s of %g %% is weaker than the %g %% of the tested recipe",
        pottle_food_title(food), strength, needed);
}

/* -- The whole ------------------------------------------------------------- */

/* Less of a recipe than this is nothing. */
static const double least_asked = 1e-12;

static pottle_status
check_request(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
              const pottle_request *r, pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || r == NULL ||
        r->version != POTTLE_REQUEST_VERSION ||
        (r->haves > 0 && r->have == NULL) || (r->sets > 0 && r->set == NULL))
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, recipe or request, or one of another version");
    /* NaN and negative numbers are given, and wrong */
    const bool batches = r->batches < 0 || r->batches > 0 || isnan(r->batches),
               fill = r->fill < 0 || r->fill > 0 || isnan(r->fill);
    if ((r->haves > 0) + batches + fill != 1)
        return pottlei_fail(error, POTTLE_EMISUSE, "how-much",
                            "say how much by one of: what is on hand, a number "
                            "of batches, a number of jars");
    if ((batches &&
         !(r->batches >= least_asked && r->batches <= POTTLE_NUMBER_MAX)) ||
        (fill && !(r->fill >= least_asked && r->fill <= POTTLE_NUMBER_MAX)))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "how-much",
            "a number of batches or jars lies above 0 and up to 1,000,000,000");
    if (r->has_altitude &&
        !(r->altitude_m >= 0 && r->altitude_m <= POTTLE_ALTITUDE_MAX_M))
        return pottlei_fail(error, POTTLE_EDOMAIN, "altitude",
                            "the altitude must lie between 0 and %d m",
                            POTTLE_ALTITUDE_MAX_M);
    if (pottle_recipe_standing(recipe) == POTTLE_DRAFT)
        return pottlei_refuse(catalogue, error, "draft", "draft-recipe", NULL,
                              "%s is a draft: its source is incomplete",
                              pottle_recipe_id(recipe));
    return POTTLE_OK;
}

/* Every phrase must name a food of the recipe, and vinegars must be strong
 * enough. */
static pottle_status
check_phrases(const pottle_catalogue *catalogue, pottle_plan *plan,
              const pottle_recipe *recipe, const pottle_request *r,
              pottle_error *error)
{
    for (int pass = 0; pass < 2; pass++) {
        const pottle_phrase *phrase = pass == 0 ? r->have : r->set;
        const size_t n = pass == 0 ? r->haves : r->sets;
        for (size_t k = 0; k < n; k++) {
            const pottle_food *food = NULL;
            if (phrase[k].unit == NULL)
                return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                                    "a phrase without a unit");
            if (!(phrase[k].low >= POTTLE_NUMBER_MIN &&
                  phrase[k].low <= phrase[k].high &&
                  phrase[k].high <= POTTLE_NUMBER_MAX))
                return pottlei_fail(
                    error, POTTLE_EDOMAIN, "amount-range",
                    "an amount of %s lies above 0 and up to 1,000,000,000",
                    phrase[k].food);
            if (!recipe_uses(recipe, phrase[k].food))
                return not_part(catalogue, plan, recipe, phrase[k].food,
                                pass == 1, error);
            pottle_status status = pottlei_plan_food(
                plan, catalogue, phrase[k].food, &food, error);
            if (status == POTTLE_OK)
                status = check_acid(catalogue, &phrase[k], food, error);
            if (status != POTTLE_OK)
                return status;
        }
    }
    return POTTLE_OK;
}

/* Phrases of foods that only go into the jars do not decide how much is made,
 * and one place takes one food. */
static pottle_status
check_lines(const pottle_plan *plan, const pottle_request *r,
            pottle_error *error)
{
    for (size_t k = 0; k < r->haves; k++) {
        bool there = false;
        for (size_t i = 0; i < plan->lines; i++)
            there = there || strcmp(plan->list[i].food, r->have[k].food) == 0;
        if (there)
            continue;
        const char *rule, *form;
        for (size_t i = 0; i < plan->lines; i++)
            if (pottlei_takes(plan->recipe, plan->list[i].ingredient,
                              r->have[k].food, &rule, &form))
                return pottlei_fail(
                    error, POTTLE_EAMBIGUOUS, "one-place",
                    "%s and %s take the same place in %s: give one of them",
                    r->have[k].food, plan->list[i].food,
                    pottle_recipe_id(plan->recipe));
        return pottlei_fail(error, POTTLE_ENOENT, "per-jar-only",
                            "%s goes into the jars one by one; it does not "
                            "decide how much is made",
                            r->have[k].food);
    }
    return POTTLE_OK;
}

/* A whole batch is asked for by name where the recipe allows no part of one. */
static pottle_status
check_asked(const pottle_catalogue *catalogue, const pottle_plan *plan,
            double asked, pottle_error *error)
{
    const pottle_batch *batch = pottle_recipe_batch(plan->recipe);
    if (plan->pots.factor >= asked * (1 - 1e-9))
        return POTTLE_OK;
    char instead[160];
    snprintf(instead, sizeof instead, "ask for %g or %g batches",
             plan->pots.factor, plan->pots.factor + batch->smallest);
    return pottlei_refuse(
        catalogue, error, "batch-whole", batch->smallest_rule, instead,
        "%s is not made in %g batches: the rest of %.3g is "
        "under the smallest tested batch",
        pottle_recipe_id(plan->recipe), asked, asked - plan->pots.factor);
}

pottle_status
pottle_scale(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
             const pottle_request *request, pottle_plan **out,
             pottle_error *error)
{
    pottle_status status = check_request(catalogue, recipe, request, error);
    if (status != POTTLE_OK)
        return status;
    if (out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no place for the result");
    pottle_plan *plan = calloc(1, sizeof *plan);
    if (plan == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    plan->recipe = recipe;
    double factor = request->batches;
    POTTLEI_SET(plan->limit, request->batches > 0 ? "batches" : "fill");

    status = check_phrases(catalogue, plan, recipe, request, error);
    if (status == POTTLE_OK)
        status = pottlei_read_lines(catalogue, plan, recipe, request, error);
    if (status == POTTLE_OK)
        status = check_lines(plan, request, error);
    if (status == POTTLE_OK)
        status = pottlei_check_prepared(catalogue, plan, request, error);
    if (status == POTTLE_OK)
        status = pottlei_plan_jar(catalogue, plan, request, error);
    if (status == POTTLE_OK && request->haves > 0)
        status =
            pottlei_factor_from_have(catalogue, plan, request, &factor, error);
    if (status == POTTLE_OK && request->fill > 0)
        status = pottlei_plan_fill_factor(plan, request->fill, &factor, error);
    if (status == POTTLE_OK)
        status =
            pottlei_pots_split(catalogue, recipe, factor, &plan->pots, error);
    if (status == POTTLE_OK && request->batches > 0)
        status = check_asked(catalogue, plan, factor, error);
    if (status == POTTLE_OK) {
        plan->factor = plan->pots.factor;
        status = pottlei_apply_sets(catalogue, plan, request, error);
    }
    if (status == POTTLE_OK)
        status = pottlei_fill_pots(plan, error);
    if (status == POTTLE_OK)
        status = pottlei_leave_over(catalogue, plan, request, error);
    if (status == POTTLE_OK)
        status = pottlei_plan_count_jars(catalogue, plan, error);
    if (status == POTTLE_OK)
        status = pottlei_plan_add_doses(catalogue, plan, request, error);
    if (status != POTTLE_OK) {
        pottle_plan_free(plan);
        return status;
    }
    pottlei_plan_add_warnings(catalogue, plan, request);
    *out = plan;
    return POTTLE_OK;
}
