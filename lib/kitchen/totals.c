/* totals.c - totals of single ingredients that a person sets.
 *
 * Only here may a line leave the scaled recipe, and each total is judged by its
 * line's keep rule: by the end of its spread that is unfavourable, so that a
 * cup guessed in pounds cannot talk its way past a bound. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/plan.h"

static const char *
keep_words(pottle_keep keep)
{
    return keep == POTTLE_AT_LEAST ? "at least"
         : keep == POTTLE_AT_MOST  ? "at most"
                                   : "exactly";
}

static void
amount_text(const pottle_plan *plan, size_t i, double batches, char *buf,
            size_t size)
{
    const pottle_ingredient *in = plan->list[i].ingredient;
    const pottlei_amount *a = &plan->amount[i];
    const double wanted =
        batches * (in->unit->dimension == POTTLE_VOLUME  ? a->volume_ml
                   : in->unit->dimension == POTTLE_COUNT ? a->count
                                                         : a->mass_g.median);
    pottle_measure m;
    if (pottle_measure_round(wanted, in->unit->dimension, in->keep, &m) ==
        POTTLE_OK) {
        if (in->unit->dimension == POTTLE_COUNT)
            POTTLEI_SET(m.part[0].size, in->size);
        pottle_measure_write(&m, buf, size);
    } else {
        snprintf(buf, size, "%.3g g", batches * a->mass_g.median);
    }
}

static pottle_status
refuse(const pottle_catalogue *catalogue, const pottle_plan *plan, size_t i,
       const pottle_phrase *phrase, double batches, const char *rule,
       pottle_error *error)
{
    const pottle_line *l = &plan->list[i];
    const pottle_ingredient *in = l->ingredient;
    char measure[120], instead[320], code[40];
    const char *words = keep_words(in->keep);
    const double need = pottlei_need(plan, i),
                 middle = 0.5 * (in->amount + in->amount_to);
    if (in->keep == POTTLE_EXACT && in->amount_to > in->amount && middle > 0) {
        /* printed as a range: both ends are as tested */
        char low[56], high[56];
        amount_text(plan, i, need * in->amount / middle, low, sizeof low);
        amount_text(plan, i, need * in->amount_to / middle, high, sizeof high);
        snprintf(measure, sizeof measure, "%s to %s", low, high);
        words = "within the range";
    } else {
        amount_text(plan, i, need, measure, sizeof measure);
    }
    snprintf(instead, sizeof instead, "use %s %s of %s for this amount%s",
             strcmp(words, "exactly") == 0 || in->keep != POTTLE_EXACT ? words
                                                                       : "from",
             measure, l->title,
             in->keep == POTTLE_AT_MOST ? ", or make more of the whole recipe"
             : in->keep == POTTLE_AT_LEAST
                 ? ", or make less of the whole recipe"
                 : "");
    snprintf(code, sizeof code, "keep-%s", pottle_keep_name((int)in->keep));
    return pottlei_refuse(catalogue, error, code, rule, instead,
                          "%s: %s would be %.2f times the tested amount, and "
                          "the recipe keeps it %s as tested (%s)",
                          pottle_recipe_id(plan->recipe), phrase->food,
                          batches / need, words, measure);
}

/* Lines that share a total: those of one place (a mix), or the places that one
 * food has in the recipe. */
static bool
together(const pottle_plan *plan, size_t i, size_t k)
{
    return plan->list[i].ingredient == plan->list[k].ingredient ||
           strcmp(plan->list[i].ingredient->food,
                  plan->list[k].ingredient->food) == 0;
}

/* What weighs a line among those of one place: the recipe's own measure. Over
 * several places it is the mass. */
static double
weight_of(const pottle_plan *plan, size_t k)
{
    const pottlei_amount *a = &plan->amount[k];
    const pottle_unit *unit = plan->list[k].ingredient->unit;
    return unit->dimension == POTTLE_VOLUME ? a->volume_ml
         : unit->dimension == POTTLE_COUNT  ? a->count
                                            : a->mass_g.median;
}

/* Judges and keeps the total of line i and of the lines that share it; all are
 * done by the first of them. */
static pottle_status
apply(const pottle_catalogue *catalogue, pottle_plan *plan,
      const pottle_request *request, size_t i, pottle_error *error)
{
    const pottle_recipe *recipe = plan->recipe;
    const pottle_phrase *last = NULL;
    const char *why = plan->list[i].ingredient->rule, *rule, *form;
    pottle_estimate given = { 0, 0 };
    for (size_t k = 0; k < request->sets; k++) {
        pottle_estimate pair[2] = { given, { 0, 0 } };
        if (!pottlei_takes(recipe, plan->list[i].ingredient,
                           request->set[k].food, &rule, &form))
            continue;
        const pottle_status status = pottlei_batches_of(
            catalogue, plan, i, &request->set[k], &pair[1], error);
        if (status != POTTLE_OK)
            return status;
        given = last == NULL ? pair[1] : pottle_estimate_sum(pair, 2);
        last = &request->set[k];
        if (strcmp(request->set[k].food, plan->list[i].ingredient->food) != 0)
            why = rule;
    }
    if (last == NULL)
        return POTTLE_OK;
    /* in batches of the shared lines */
    double all = 0;
    bool places = false;
    for (size_t k = i; k < plan->lines; k++)
        places =
            places || (together(plan, i, k) &&
                       plan->list[k].ingredient != plan->list[i].ingredient);
    for (size_t k = i; k < plan->lines; k++)
        all += together(plan, i, k)
                 ? (places ? plan->amount[k].mass_g.median : weight_of(plan, k))
                 : 0;
    const double own =
        places ? plan->amount[i].mass_g.median : weight_of(plan, i);
    if (own > 0 && all > 0)
        given = pottle_estimate_multiple(given, own / all);
    for (size_t k = i; k < plan->lines; k++) {
        const pottle_ingredient *in = plan->list[k].ingredient;
        if (!together(plan, i, k))
            continue;
        const double need = pottlei_need(plan, k),
                     middle = 0.5 * (in->amount + in->amount_to);
        const double low = middle > 0 ? in->amount / middle : 1,
                     high = middle > 0 ? in->amount_to / middle : 1;
        if (!pottlei_keep_between(in->keep, given, need * low, need * high))
            return refuse(catalogue, plan, k, last, given.median, why, error);
        /* exact ones within the tolerance stay as tested */
        if (in->keep != POTTLE_EXACT ||
            fabs(given.median / need - 1) > POTTLE_EXACT_TOLERANCE)
            plan->total[k] = given.median;
    }
    return POTTLE_OK;
}

pottle_status
pottlei_apply_sets(const pottle_catalogue *catalogue, pottle_plan *plan,
                   const pottle_request *request, pottle_error *error)
{
    for (size_t i = 0; i < plan->lines; i++) {
        bool done = false;
        for (size_t k = 0; k < i; k++)
            done = done || together(plan, i, k);
        const pottle_status status =
            done ? POTTLE_OK : apply(catalogue, plan, request, i, error);
        if (status != POTTLE_OK)
            return status;
    }
    return POTTLE_OK;
}
