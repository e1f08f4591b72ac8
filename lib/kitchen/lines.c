/* lines.c - the lines of a plan: which food stands at each ingredient, and how
 * much of it the published batch has.
 *
 * A line is an ingredient made of one food; a mix of several has a line each.
 * Amounts are those of one published batch; what people type is measured
 * against them. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/plan.h"

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

static const pottlei_amount nothing;

/* Mass, volume and count of an ingredient in the published batch, in the state
 * the recipe measures. A range is taken at its middle. */
static pottle_status
measure_ingredient(const pottle_catalogue *catalogue,
                   const pottle_ingredient *i, const pottle_food *food,
                   const char *form, pottlei_amount *out, pottle_error *error)
{
    const double amount = 0.5 * (i->amount + i->amount_to);
    *out = nothing;
    if (!(amount > 0))
        return POTTLE_OK;
    /* what stands in its place cooks down by another share */
    if (i->raw_unit != NULL && strcmp(pottle_food_id(food), i->food) == 0)
        out->raw_g = i->raw * i->raw_unit->factor;
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
    plan->amount[i] = nothing;
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
                                   .form = c.form,
                                   .said = pottle_form_said(food, c.form) };
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
        plan->amount[i].raw_g *= part[i - first] / all;
    }
    return POTTLE_OK;
}

pottle_status
pottlei_read_lines(const pottle_catalogue *catalogue, pottle_plan *plan,
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

/* What was said over an amount in the base unit of its measure. */
static pottle_status
said_over(const pottle_phrase *phrase, double amount, pottle_estimate *out)
{
    pottle_estimate said = { phrase->low, 0 };
    if (phrase->high > phrase->low &&
        pottle_estimate_between(phrase->low, phrase->high, &said) != POTTLE_OK)
        return POTTLE_EDOMAIN;
    *out = pottle_estimate_multiple(said, phrase->unit->factor / amount);
    return POTTLE_OK;
}

/* Of two foods that share a place each is weighed as what it is. */
static const pottle_food *
food_of(const pottle_plan *plan, size_t i, const char *id)
{
    const pottle_food *food = plan->line_food[i];
    for (size_t k = 0; k < plan->foods; k++)
        if (strcmp(pottle_food_id(plan->food[k]), id) == 0)
            food = plan->food[k];
    return food;
}

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
    const char *unsaid = pottlei_is_produce(ingredient)
                           ? pottlei_default_form(plan->line_food[i])
                           : "";
    /* what is not said to be cooked is still to be cooked */
    const bool own = strcmp(phrase->food, ingredient->food) == 0;
    const bool raw =
        amount->raw_g > 0 && own && strcmp(phrase->form, form) != 0;
    const char *said_form = phrase->form[0] != '\0'  ? phrase->form
                          : unsaid[0] != '\0' || raw ? unsaid
                                                     : form;
    const bool same_form = strcmp(said_form, form) == 0 && !raw;
    const bool basket = phrase->state_said && phrase->state != POTTLE_PREPARED;
    if (phrase->unit->dimension == POTTLE_VOLUME &&
        ingredient->unit->dimension == POTTLE_VOLUME && same_form && !basket &&
        amount->volume_ml > 0) {
        return said_over(phrase, amount->volume_ml, out);
    }
    const bool same_size =
        phrase->size[0] == '\0' || strcmp(phrase->size, ingredient->size) == 0;
    if (phrase->unit->dimension == POTTLE_COUNT && amount->count > 0 &&
        same_size) {
        return said_over(phrase, amount->count, out);
    }
    pottle_estimate mass;
    const pottle_status status = pottle_phrase_mass(
        catalogue, food_of(plan, i, phrase->food), phrase,
        raw ? POTTLE_PURCHASED : ingredient->state, own ? ingredient->trim : "",
        said_form, &mass, NULL, error);
    if (status != POTTLE_OK)
        return status;
    if (raw) {
        *out = pottle_estimate_over(
            mass, (pottle_estimate){
                      amount->raw_g,
                      pottlei_figure(catalogue, "error-about", 0.15) });
        return POTTLE_OK;
    }
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

/* -- Lines as parts of the balance ----------------------------------------- */

bool
pottlei_is_produce(const pottle_ingredient *i)
{
    return strcmp(i->role, "produce") == 0 || strcmp(i->role, "low-acid") == 0;
}

pottle_status
pottlei_line_part(const pottle_catalogue *catalogue, const pottle_plan *plan,
                  size_t i, double mass_g, pottlei_part *out,
                  pottle_error *error)
{
    const pottle_ingredient *in = plan->list[i].ingredient;
    const pottle_food *food = plan->line_food[i];
    const char *form = plan->list[i].form;
    *out = (pottlei_part){ in, food, { 0, 0 }, false };
    if (!(mass_g > 0))
        return POTTLE_OK;
    const pottle_phrase p = { .low = mass_g,
                              .high = mass_g,
                              .unit = pottle_unit_find("g"),
                              .state = in->state,
                              .state_said = true };
    const pottle_status status =
        pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED, in->trim, "",
                           &out->prepared_g, NULL, error);
    if (status != POTTLE_OK)
        return status;
    out->prepared_g.sd = hypot(out->prepared_g.sd, plan->amount[i].mass_g.sd);
    out->by_volume_cut = in->unit->dimension == POTTLE_VOLUME &&
                         pottlei_is_produce(in) &&
                         strcmp(form, "crushed") != 0 &&
                         strcmp(pottlei_form_bulk(food, form), "cut") == 0;
    return POTTLE_OK;
}
