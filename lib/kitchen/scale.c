/* scale.c - scaling a recipe: what is asked, the lines of the published batch,
 * the factor, the pots.
 *
 * The factor multiplies the whole recipe. Only a set total changes a single
 * line, and it is judged by the line's keep rule (totals.c). A plan owns the
 * foods it read and everything it gives out. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/plan.h"

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

/* -- Ingredients ----------------------------------------------------------- */

bool
pottlei_takes(const pottle_recipe *recipe, const pottle_ingredient *i,
              const char *food, const char **rule, const char **form)
{
    *rule = i->rule;
    *form = i->form;
    if (strcmp(i->food, food) == 0)
        return true;
    size_t n = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    for (size_t k = 0; k < n; k++)
        if (strcmp(list[k].food, food) == 0)
            return false; /* it has a place of its own */
    for (size_t k = 0; k < i->alternatives; k++) {
        if (strcmp(i->alternative[k].food, food) == 0) {
            *rule = i->alternative[k].rule;
            *form = i->alternative[k].form;
            return true;
        }
    }
    return false;
}

static bool
recipe_uses(const pottle_recipe *recipe, const char *food)
{
    return pottle_recipe_uses(recipe, &food, 1);
}

/* A food that is not in the recipe: refused by name where a rule forbids it in
 * place of one that is. */
static pottle_status
not_part(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
         const char *food, bool set, pottle_error *error)
{
    size_t rules = 0;
    const pottle_rule *rule = pottle_rules(catalogue, &rules);
    for (size_t r = 0; r < rules; r++)
        for (size_t k = 0; k < rule[r].nevers; k++)
            if (strcmp(rule[r].never[k].put, food) == 0 &&
                recipe_uses(recipe, rule[r].never[k].wanted))
                return pottlei_refuse(catalogue, error, "never-for", rule[r].id,
                                      NULL, "%s may not stand in for %s in %s",
                                      food, rule[r].never[k].wanted,
                                      pottle_recipe_id(recipe));
    if (set)
        return pottlei_refuse(catalogue, error, "not-in-recipe", "whole-recipe",
                              "add it to taste when the jar is opened, or "
                              "choose a tested recipe that has it",
                              "%s is not part of the tested recipe %s", food,
                              pottle_recipe_id(recipe));
    size_t n = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    char names[300] = "";
    for (size_t i = 0, k = 0; i < n && k + 64 < sizeof names; i++)
        k += (size_t)snprintf(names + k, sizeof names - k, "%s%s",
                              i == 0 ? "" : ", ", list[i].food);
    return pottlei_fail(error, POTTLE_ENOENT, "not-in-recipe",
                        "%s does not use %s; it uses %s",
                        pottle_recipe_id(recipe), food, names);
}

/* Vinegar weaker than the recipes are tested with. */
static pottle_status
check_strength(const pottle_catalogue *catalogue, const pottle_phrase *phrase,
               const pottle_food *food, pottle_error *error)
{
    const double needed = pottlei_figure(catalogue, "vinegar-strength", 5);
    if (strcmp(pottle_food_group(food), "vinegar") != 0)
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

/* Mass, volume and count of an ingredient in the published batch, in the state
 * the recipe measures. A range is taken at its middle. */
static pottle_status
measure_ingredient(const pottle_catalogue *catalogue,
                   const pottle_ingredient *i, const pottle_food *food,
                   const char *form, pottlei_amount *out, pottle_error *error)
{
    const double amount = 0.5 * (i->amount + i->amount_to);
    *out = (pottlei_amount){ { 0, 0 }, 0, 0 };
    if (!(amount > 0))
        return POTTLE_OK;
    pottle_phrase p = { .low = amount,
                        .high = amount,
                        .unit = i->unit,
                        .state = i->state,
                        .state_said = true };
    POTTLEI_SET(p.form, form);
    POTTLEI_SET(p.size, i->size);
    /* a volume was measured ready to use, whatever the state says of a weight
     */
    if (i->unit->dimension == POTTLE_VOLUME)
        p.state = POTTLE_PREPARED;
    const pottle_status status =
        pottle_phrase_mass(catalogue, food, &p, i->state, i->trim, form,
                           &out->mass_g, NULL, error);
    if (status != POTTLE_OK)
        return status;
    if (i->unit->dimension == POTTLE_VOLUME) {
        out->volume_ml = amount * i->unit->factor;
    } else if (i->unit->dimension == POTTLE_COUNT) {
        out->count = amount;
    } else if (form[0] != '\0') {
        pottle_estimate density, prepared;
        if (pottle_form_density(catalogue, food, form, &density, NULL, NULL) ==
                POTTLE_OK &&
            pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED, i->trim,
                               form, &prepared, NULL, NULL) == POTTLE_OK)
            out->volume_ml = prepared.median / density.median;
    }
    return POTTLE_OK;
}

/* A rate ("1/2 cup for each quart of cut rhubarb") becomes the amount of the
 * published batch. */
static pottle_status
resolve_rate(const pottle_catalogue *catalogue, pottle_plan *plan, size_t i,
             pottle_error *error)
{
    const pottle_ingredient *rate = plan->list[i].ingredient;
    if (rate->per == NULL)
        return POTTLE_OK;
    for (size_t k = 0; k < plan->lines; k++) {
        const pottle_ingredient *base = plan->list[k].ingredient;
        if (k == i || strcmp(base->food, rate->per_food) != 0)
            continue;
        pottle_phrase p = { .low = 1,
                            .high = 1,
                            .unit = pottle_unit_find("g"),
                            .state = base->state,
                            .state_said = true };
        p.low = p.high = plan->amount[k].mass_g.median;
        if (!(p.low > 0))
            return POTTLE_OK;
        pottle_estimate ready;
        pottle_status status = pottle_phrase_mass(
            catalogue, plan->line_food[k], &p,
            rate->per->dimension == POTTLE_VOLUME ? POTTLE_PREPARED
                                                  : base->state,
            base->trim, "", &ready, NULL, error);
        double units = ready.median / rate->per->factor;
        if (status == POTTLE_OK && rate->per->dimension == POTTLE_VOLUME) {
            pottle_estimate density;
            const char *form =
                rate->per_form[0] != '\0' ? rate->per_form : base->form;
            status = pottle_form_density(catalogue, plan->line_food[k], form,
                                         &density, NULL, error);
            units /= status == POTTLE_OK ? density.median : 1;
        }
        if (status != POTTLE_OK)
            return status;
        plan->amount[i].mass_g.median *= units;
        plan->amount[i].volume_ml *= units;
        plan->amount[i].count *= units;
        return POTTLE_OK;
    }
    /* a rate of something the batch does not hold (water for each pound of
     * fruit whose juice is measured): not part of the batch */
    plan->amount[i] = (pottlei_amount){ { 0, 0 }, 0, 0 };
    return POTTLE_OK;
}

/* The foods that an ingredient is made of: what the person sets, else has, else
 * the recipe's own. Several that are set are a mix. */
typedef struct chosen {
    const char *food, *form;
} chosen;
enum { MIX_MAX = 16 };

static size_t
choose_foods(const pottle_recipe *recipe, const pottle_request *request,
             const pottle_ingredient *in, chosen *out)
{
    size_t n = 0;
    const char *rule, *form;
    for (size_t k = 0; k < request->sets && n < MIX_MAX; k++) {
        bool known =
            !pottlei_takes(recipe, in, request->set[k].food, &rule, &form);
        for (size_t m = 0; m < n; m++)
            known = known || strcmp(out[m].food, request->set[k].food) == 0;
        if (!known)
            out[n++] = (chosen){ request->set[k].food, form };
    }
    for (size_t k = 0; n == 0 && k < request->haves; k++)
        if (pottlei_takes(recipe, in, request->have[k].food, &rule, &form))
            out[n++] = (chosen){ request->have[k].food, form };
    if (n == 0)
        out[n++] = (chosen){ in->food, in->form };
    return n;
}

static pottle_status
add_line(const pottle_catalogue *catalogue, pottle_plan *plan,
         const pottle_ingredient *in, chosen c, pottle_error *error)
{
    const pottle_food *food = NULL;
    if (plan->lines == POTTLEI_LINES_MAX)
        return pottlei_fail(error, POTTLE_EDATA, "too-many-lines",
                            "a recipe of more than %d ingredients",
                            (int)POTTLEI_LINES_MAX);
    pottle_status status =
        pottlei_plan_food(plan, catalogue, c.food, &food, error);
    if (status != POTTLE_OK)
        return status;
    const size_t i = plan->lines;
    plan->line_food[i] = food;
    plan->list[i] = (pottle_line){ .ingredient = in,
                                   .food = pottle_food_id(food),
                                   .title = pottle_food_title(food),
                                   .form = c.form };
    status = measure_ingredient(catalogue, in, food, c.form, &plan->amount[i],
                                error);
    plan->lines++;
    return status;
}

/* Shares of a mix: what is set of each food over what is set of all. */
static pottle_status
share_out(const pottle_catalogue *catalogue, pottle_plan *plan,
          const pottle_request *request, size_t first, pottle_error *error)
{
    double part[MIX_MAX] = { 0 }, all = 0;
    for (size_t i = first; i < plan->lines; i++) {
        for (size_t k = 0; k < request->sets; k++) {
            pottle_estimate batches = { 0, 0 };
            if (strcmp(request->set[k].food, plan->list[i].food) != 0)
                continue;
            const pottle_status status = pottlei_batches_of(
                catalogue, plan, i, &request->set[k], &batches, error);
            if (status != POTTLE_OK)
                return status;
            part[i - first] += batches.median;
        }
        all += part[i - first];
    }
    for (size_t i = first; i < plan->lines && all > 0; i++) {
        plan->amount[i].mass_g.median *= part[i - first] / all;
        plan->amount[i].volume_ml *= part[i - first] / all;
        plan->amount[i].count *= part[i - first] / all;
    }
    return POTTLE_OK;
}

static pottle_status
read_lines(const pottle_catalogue *catalogue, pottle_plan *plan,
           const pottle_recipe *recipe, const pottle_request *request,
           pottle_error *error)
{
    size_t n = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    pottle_status status = POTTLE_OK;
    for (size_t i = 0; status == POTTLE_OK && i < n; i++) {
        chosen c[MIX_MAX];
        const size_t foods = choose_foods(recipe, request, &list[i], c),
                     first = plan->lines;
        for (size_t k = 0; status == POTTLE_OK && k < foods; k++)
            status = add_line(catalogue, plan, &list[i], c[k], error);
        if (status == POTTLE_OK && foods > 1)
            status = share_out(catalogue, plan, request, first, error);
    }
    for (size_t i = 0; status == POTTLE_OK && i < plan->lines; i++)
        status = resolve_rate(catalogue, plan, i, error);
    return status;
}

/* -- Phrases as batches ---------------------------------------------------- */

pottle_status
pottlei_batches_of(const pottle_catalogue *catalogue, const pottle_plan *plan,
                   size_t i, const pottle_phrase *phrase, pottle_estimate *out,
                   pottle_error *error)
{
    const pottle_ingredient *ingredient = plan->list[i].ingredient;
    const pottlei_amount *amount = &plan->amount[i];
    const char *form = plan->list[i].form;
    /* a cup of blackberries is of whole ones, though the recipe has them
     * crushed; where no form goes without saying it is the recipe's */
    const bool produce = strcmp(ingredient->role, "produce") == 0 ||
                         strcmp(ingredient->role, "low-acid") == 0;
    const char *unsaid =
        produce ? pottlei_default_form(plan->line_food[i]) : "";
    const char *said_form = phrase->form[0] != '\0' ? phrase->form
                          : unsaid[0] != '\0'       ? unsaid
                                                    : form;
    const bool same_form = strcmp(said_form, form) == 0;
    const bool basket = phrase->state_said && phrase->state != POTTLE_PREPARED;
    if (phrase->unit->dimension == POTTLE_VOLUME &&
        ingredient->unit->dimension == POTTLE_VOLUME && same_form && !basket &&
        amount->volume_ml > 0) {
        pottle_estimate said = { phrase->low, 0 };
        if (phrase->high > phrase->low &&
            pottle_estimate_between(phrase->low, phrase->high, &said) !=
                POTTLE_OK)
            return POTTLE_EDOMAIN;
        *out = pottle_estimate_multiple(said, phrase->unit->factor /
                                                  amount->volume_ml);
        return POTTLE_OK;
    }
    const bool same_size =
        phrase->size[0] == '\0' || strcmp(phrase->size, ingredient->size) == 0;
    if (phrase->unit->dimension == POTTLE_COUNT && amount->count > 0 &&
        same_size) {
        pottle_estimate said = { phrase->low, 0 };
        if (phrase->high > phrase->low &&
            pottle_estimate_between(phrase->low, phrase->high, &said) !=
                POTTLE_OK)
            return POTTLE_EDOMAIN;
        *out = pottle_estimate_multiple(said,
                                        phrase->unit->factor / amount->count);
        return POTTLE_OK;
    }
    /* of two foods that share a place each is weighed as what it is */
    const pottle_food *food = plan->line_food[i];
    for (size_t k = 0; k < plan->foods; k++)
        if (strcmp(pottle_food_id(plan->food[k]), phrase->food) == 0)
            food = plan->food[k];
    pottle_estimate mass;
    const pottle_status status = pottle_phrase_mass(
        catalogue, food, phrase, ingredient->state,
        strcmp(phrase->food, ingredient->food) == 0 ? ingredient->trim : "",
        said_form, &mass, NULL, error);
    if (status != POTTLE_OK)
        return status;
    if (!(amount->mass_g.median > 0))
        return pottlei_fail(error, POTTLE_EDOMAIN, "no-amount",
                            "the amount of %s in %s is not published",
                            plan->list[i].title,
                            pottle_recipe_id(plan->recipe));
    *out = pottle_estimate_over(
        mass, (pottle_estimate){ amount->mass_g.median,
                                 ingredient->unit->dimension == POTTLE_MASS
                                     ? 0
                                     : amount->mass_g.sd });
    return POTTLE_OK;
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
    if (r->has_altitude && !(r->altitude_m >= 0 && r->altitude_m <= 10000))
        return pottlei_fail(error, POTTLE_EDOMAIN, "altitude",
                            "the altitude must lie between 0 and 10000 m");
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
                return not_part(catalogue, recipe, phrase[k].food, pass == 1,
                                error);
            pottle_status status = pottlei_plan_food(
                plan, catalogue, phrase[k].food, &food, error);
            if (status == POTTLE_OK)
                status = check_strength(catalogue, &phrase[k], food, error);
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
    return pottlei_refuse(catalogue, error, "batch-whole", batch->rule, instead,
                          "%s is not made in %g batches: the rest of %.3g is "
                          "under the smallest tested batch",
                          pottle_recipe_id(plan->recipe), asked,
                          asked - plan->pots.factor);
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
        status = read_lines(catalogue, plan, recipe, request, error);
    if (status == POTTLE_OK)
        status = check_lines(plan, request, error);
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
        status = pottlei_plan_finish(catalogue, plan, request, error);
    if (status != POTTLE_OK) {
        pottle_plan_free(plan);
        return status;
    }
    *out = plan;
    return POTTLE_OK;
}
