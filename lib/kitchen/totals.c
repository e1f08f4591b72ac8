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

/* -- Refusals -------------------------------------------------------------- */

/* Lines that share a total, as one: how many, and whether the recipe's measure
 * is the same for all. */
typedef struct shared {
    size_t first, lines;
    bool mix;     /* several foods at one place */
    bool measure; /* else the total is told by weight */
} shared;

static shared
shared_of(const pottle_plan *plan, size_t i)
{
    shared s = { i, 0, false, true };
    const pottle_line *first = &plan->list[i];
    for (size_t k = i; k < plan->lines; k++) {
        const pottle_line *line = &plan->list[k];
        if (!together(plan, i, k))
            continue;
        const bool mixed = s.lines > 0 && line->ingredient == first->ingredient;
        s.lines++;
        s.mix |= mixed;
        s.measure &= mixed || (line->ingredient->unit->dimension ==
                                   first->ingredient->unit->dimension &&
                               strcmp(line->form, first->form) == 0);
    }
    return s;
}

/* The tested total, of a share of what the pots need: 1, or the ends of a range
 * over its middle. */
static void
total_text(const pottle_plan *plan, const shared *s, bool low_end,
           bool high_end, char *buf, size_t size)
{
    const pottle_ingredient *in = plan->list[s->first].ingredient;
    const pottle_dimension dimension =
        s->measure ? in->unit->dimension : POTTLE_MASS;
    double wanted = 0;
    for (size_t k = s->first; k < plan->lines; k++) {
        const pottle_ingredient *of = plan->list[k].ingredient;
        const double middle = 0.5 * (of->amount + of->amount_to);
        if (!together(plan, s->first, k) || !(middle > 0))
            continue;
        const double end = low_end  ? of->amount
                         : high_end ? of->amount_to
                                    : middle;
        wanted +=
            end / middle * pottlei_need(plan, k) *
            (s->measure ? weight_of(plan, k) : plan->amount[k].mass_g.median);
    }
    pottle_measure m;
    if (pottle_measure_round(wanted, dimension, in->keep, &m) == POTTLE_OK) {
        if (dimension == POTTLE_COUNT)
            POTTLEI_SET(m.part[0].size, in->size);
        pottle_measure_write(&m, buf, size);
    } else {
        snprintf(buf, size, "%.3g g", wanted);
    }
}

/* "crushed strawberries", "bottled lemon juice and white distilled vinegar". */
static void
foods_text(const pottle_plan *plan, const shared *s, char *buf, size_t size)
{
    buf[0] = '\0';
    for (size_t k = s->first; k < plan->lines; k++) {
        const pottle_line *line = &plan->list[k];
        if (!together(plan, s->first, k) || (k > s->first && !s->mix))
            continue;
        /* by weight it does not matter how it is cut */
        const bool cut =
            s->measure && line->ingredient->unit->dimension == POTTLE_VOLUME;
        const size_t n = strlen(buf);
        snprintf(buf + n, size - n, "%s%s%s%.60s", n > 0 ? " and " : "",
                 cut ? line->said : "", cut && line->said[0] != '\0' ? " " : "",
                 line->title);
    }
}

/* How many times the tested amount: in as many digits as show that it is
 * outside. */
static void
times_text(pottle_keep keep, pottle_estimate times, double low, double high,
           char *buf, size_t size)
{
    const pottle_interval i = pottle_estimate_interval(times);
    char ends[2][40];
    for (int end = 0; end < 2; end++) {
        const pottle_estimate value = { end == 0 ? i.low : i.high, 0 };
        double scale = 100;
        for (int digits = 2; digits <= 9; digits++, scale *= 10) {
            const pottle_estimate shown = { round(value.median * scale) / scale,
                                            0 };
            snprintf(ends[end], sizeof ends[end], "%.*f", digits, value.median);
            if (pottlei_keep_between(keep, value, low, high) ==
                pottlei_keep_between(keep, shown, low, high))
                break;
        }
    }
    if (strcmp(ends[0], ends[1]) == 0)
        snprintf(buf, size, "%s times", ends[0]);
    else
        snprintf(buf, size, "%s to %s times", ends[0], ends[1]);
}

/* A total that its rule does not allow; `times` is what was given over what is
 * needed, and low and high are what the recipe has. */
static pottle_status
refuse(const pottle_catalogue *catalogue, const pottle_plan *plan, size_t i,
       const pottle_ingredient *in, pottle_estimate times, double low,
       double high, const char *rule, pottle_error *error)
{
    const shared s = shared_of(plan, i);
    const bool range = in->keep == POTTLE_EXACT && high > low;
    char measure[120], foods[200], by[96], instead[400], code[40];
    const char *words = range ? "within the range" : keep_words(in->keep);
    if (range) {
        /* both ends are as tested */
        char least[56], most[56];
        total_text(plan, &s, true, false, least, sizeof least);
        total_text(plan, &s, false, true, most, sizeof most);
        snprintf(measure, sizeof measure, "%s to %s", least, most);
    } else {
        total_text(plan, &s, false, false, measure, sizeof measure);
    }
    foods_text(plan, &s, foods, sizeof foods);
    times_text(in->keep, times, low, high, by, sizeof by);
    snprintf(
        instead, sizeof instead, "use %s %s of %s%s for this amount%s",
        range ? "from" : words, measure, foods, s.lines > 1 ? " in all" : "",
        in->keep == POTTLE_AT_MOST    ? ", or make more of the whole recipe"
        : in->keep == POTTLE_AT_LEAST ? ", or make less of the whole recipe"
                                      : "");
    snprintf(code, sizeof code, "keep-%s", pottle_keep_name((int)in->keep));
    return pottlei_refuse(
        catalogue, error, code, rule, instead,
        "%s: %s would be %s the tested amount, and the recipe keeps %s %s as "
        "tested (%s%s)",
        pottle_recipe_id(plan->recipe), foods, by, s.mix ? "them" : "it", words,
        measure, s.lines > 1 ? " in all" : "");
}

/* -- Judging --------------------------------------------------------------- */

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
        const pottle_estimate over = pottle_estimate_multiple(given, 1 / need);
        if (!pottlei_keep_between(in->keep, over, low, high))
            return refuse(catalogue, plan, i, in, over, low, high, why, error);
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
