/* plan_check.c - what must hold for any plan, and chance that is the same
 * everywhere. */
#include <config.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "plan_check.h"

/* -- Chance ---------------------------------------------------------------- */

/* A counter hashed by the finaliser of a 64-bit mixing function (Steele, Lea
 * and Flood, "Fast splittable pseudorandom number generators", 2014): the same
 * seed gives the same requests everywhere. */
static uint64_t
next(uint64_t *state)
{
    uint64_t z = (*state += UINT64_C(0x9e3779b97f4a7c15));
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

size_t
below(uint64_t *state, size_t n)
{
    return (size_t)(next(state) % n);
}

bool
once_in(uint64_t *state, size_t n)
{
    return below(state, n) == 0;
}

static double
unit_interval(uint64_t *state)
{
    return (double)(next(state) >> 11) / 9007199254740992.0;
}

double
spread_out(uint64_t *state, double low, double high)
{
    return low * pow(high / low, unit_interval(state));
}

/* -- A plan as it must be -------------------------------------------------- */

char asked_for[2000];

void
tell(const char *format, ...)
{
    const size_t n = strlen(asked_for);
    va_list list;
    va_start(list, format);
    vsnprintf(asked_for + n, sizeof asked_for - n, format, list);
    va_end(list);
}

void
check_holds(bool holds, const char *file, int line, const char *format, ...)
{
    if (holds)
        return;
    char text[600];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    ck_abort_msg("%s:%d: %s: %s", file, line, asked_for, text);
}

static bool
is_amount(double x)
{
    return x >= 0 && x <= 1e15; /* refuses NaN and what has no end */
}

static bool
is_positive(double x)
{
    return x > 0 && x <= 1e15;
}

tested
tested_batch(const pottle_recipe *recipe)
{
    tested t = { .lines = 0 };
    size_t ingredients = 0;
    t.list = pottle_recipe_ingredients(recipe, &ingredients);
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1 };
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_scale(kitchen, recipe, &request, &plan, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: one batch is refused: %s",
                  pottle_recipe_id(recipe), error.what);
    const pottle_line *line =
        pottle_plan_lines(plan, POTTLE_ALL_POTS, &t.lines);
    ck_assert_uint_le(t.lines, PLAN_LINES_MAX);
    ck_assert_uint_eq(t.lines, ingredients);
    for (size_t i = 0; i < t.lines; i++) {
        t.amount[i] = line[i].ingredient->per == NULL
                        ? published_amount(line[i].ingredient)
                        : line_amount(&line[i]);
        t.mass_g[i] = line[i].mass_g;
        t.volume_ml[i] = line[i].volume_ml;
        t.count[i] = line[i].count;
        ck_assert_msg(within(line_amount(&line[i]), t.amount[i], 1e-12) ||
                          (t.amount[i] <= 0 && line_amount(&line[i]) <= 0),
                      "%s: one batch takes %.10g of %s, printed %.10g",
                      pottle_recipe_id(recipe), line_amount(&line[i]),
                      line[i].food, t.amount[i]);
    }
    pottle_plan_free(plan);
    return t;
}

/* What the person measures out, in tested amounts: the kitchen measure, in the
 * dimension of the recipe or weighed, or the bare mass. */
static double
measured_ratio(const pottle_line *line, const tested *t, size_t i)
{
    if (line->has_measure &&
        line->measure.part[0].unit->dimension == POTTLE_MASS &&
        t->mass_g[i] > 0)
        return line->measure.base / line->mass_g *
               (line_amount(line) / t->amount[i]);
    return measured_amount(line) / t->amount[i];
}

/* Which ingredient of the recipe a line is of: several lines are of one where a
 * person mixes foods in its place. */
static size_t
ingredient_of(const pottle_line *line, const tested *t)
{
    const size_t i = (size_t)(line->ingredient - t->list);
    HOLDS(line->ingredient >= t->list && i < t->lines,
          "%s is a line of another recipe", line->food);
    return i;
}

/* Measured amounts over tested ones, by ingredient. */
static void
add_up_ratios(const pottle_line *line, size_t n, const tested *t, double *ratio)
{
    for (size_t i = 0; i < t->lines; i++)
        ratio[i] = 0;
    for (size_t k = 0; k < n; k++) {
        const size_t i = ingredient_of(&line[k], t);
        if (t->amount[i] > 0)
            ratio[i] += measured_ratio(&line[k], t, i);
    }
}

/* The heart of it. Printed measures over tested amounts: what may not fall
 * stands at or above all that is exact and all that may not rise, what may not
 * rise at or below all that is exact, and what is exact within 1 % of the
 * factor. An amount that the source prints as a range may be set anywhere in
 * it, and then is not compared with the others. */
static void
check_kept(const pottle_line *line, size_t n, double factor, const tested *t,
           const char *where)
{
    double least = HUGE_VAL, most = 0, exact_low = HUGE_VAL, exact_high = 0,
           ratio[PLAN_LINES_MAX];
    const char *least_food = "", *most_food = "";
    add_up_ratios(line, n, t, ratio);
    for (size_t i = 0; i < t->lines; i++) {
        const pottle_ingredient *in = &t->list[i];
        if (!(t->amount[i] > 0) || in->keep == POTTLE_FREE)
            continue;
        const double low = 2 * in->amount / (in->amount + in->amount_to),
                     high = 2 * in->amount_to / (in->amount + in->amount_to);
        const double slack =
            in->keep == POTTLE_EXACT ? POTTLE_EXACT_TOLERANCE + TINY : TINY;
        HOLDS(in->keep == POTTLE_AT_MOST ||
                  ratio[i] >= factor * low * (1 - slack),
              "%s: %s is %.9f of the tested amount and may not fall under %.9f",
              where, in->food, ratio[i], factor * low);
        HOLDS(in->keep == POTTLE_AT_LEAST ||
                  ratio[i] <= factor * high * (1 + slack),
              "%s: %s is %.9f of the tested amount and may not rise over %.9f",
              where, in->food, ratio[i], factor * high);
        if (high > low && !within(ratio[i], factor, POTTLE_EXACT_TOLERANCE))
            continue;
        if (in->keep == POTTLE_AT_LEAST && ratio[i] < least) {
            least = ratio[i];
            least_food = in->food;
        } else if (in->keep == POTTLE_AT_MOST && ratio[i] > most) {
            most = ratio[i];
            most_food = in->food;
        } else if (in->keep == POTTLE_EXACT) {
            exact_low = fmin(exact_low, ratio[i]);
            exact_high = fmax(exact_high, ratio[i]);
        }
    }
    HOLDS(least >= fmax(most, exact_high) * (1 - TINY),
          "%s: %s is %.9f of the tested amount, others %.9f: it is less in "
          "proportion than tested",
          where, least_food, least, fmax(most, exact_high));
    HOLDS(most <= exact_low * (1 + TINY),
          "%s: %s is %.9f of the tested amount, exact ones %.9f: it is more in "
          "proportion than tested",
          where, most_food, most, exact_low);
}

/* A pot of a smaller batch for which the source prints an at-least amount of
 * its own gets that much in proportion. */
static void
check_printed_columns(const pottle_line *line, size_t n, double pot,
                      const tested *t)
{
    double ratio[PLAN_LINES_MAX];
    add_up_ratios(line, n, t, ratio);
    for (size_t i = 0; i < t->lines; i++) {
        const pottle_ingredient *in = &t->list[i];
        for (size_t k = 0;
             in->keep == POTTLE_AT_LEAST && k < in->printeds && pot < 1 - TINY;
             k++) {
            const double column = in->other[k].amount *
                                  in->other[k].unit->factor /
                                  in->other[k].batch;
            if (in->other[k].unit->dimension == in->unit->dimension)
                HOLDS(ratio[i] * t->amount[i] >= pot * column * (1 - TINY),
                      "%s: %.9g for a pot of %g, by the printed column %.9g",
                      in->food, ratio[i] * t->amount[i], pot, pot * column);
        }
    }
}

static void
check_numbers(const pottle_line *line, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        HOLDS(is_amount(line[i].mass_g) && is_amount(line[i].volume_ml) &&
                  is_amount(line[i].count),
              "%s: %g g, %g mL, %g pieces", line[i].food, line[i].mass_g,
              line[i].volume_ml, line[i].count);
        if (line[i].has_measure) {
            HOLDS(is_positive(line[i].measure.base) &&
                      line[i].measure.parts >= 1 && line[i].measure.parts <= 3,
                  "%s: a measure of %g", line[i].food, line[i].measure.base);
            double sum = 0;
            for (size_t k = 0; k < line[i].measure.parts; k++)
                sum += line[i].measure.part[k].count *
                       line[i].measure.part[k].unit->factor;
            HOLDS(within(sum, line[i].measure.base, TINY),
                  "%s: the parts of its measure add up to %g, not %g",
                  line[i].food, sum, line[i].measure.base);
        }
    }
}

static void
check_pots(const pottle_plan *plan, const pottle_recipe *recipe,
           const tested *t)
{
    size_t pots = 0, lines = 0, same = 0;
    const pottle_batch *batch = pottle_recipe_batch(recipe);
    const double *pot = pottle_plan_pots(plan, &pots),
                 factor = pottle_plan_factor(plan);
    const pottle_line *total = pottle_plan_lines(plan, POTTLE_ALL_POTS, &lines);
    double sum = 0, mass[PLAN_LINES_MAX] = { 0 },
           volume[PLAN_LINES_MAX] = { 0 }, count[PLAN_LINES_MAX] = { 0 };
    HOLDS(pots > 0 && lines >= t->lines && lines <= PLAN_LINES_MAX,
          "%zu pots, %zu lines", pots, lines);
    check_numbers(total, lines);
    check_kept(total, lines, factor, t, "in all");
    for (size_t p = 0; p < pots; p++) {
        const pottle_line *line = pottle_plan_lines(plan, p, &same);
        HOLDS(pot[p] >= batch->smallest * (1 - TINY) &&
                  pot[p] <= batch->largest * (1 + TINY) && pot[p] > 0,
              "pot %zu is %g of a batch, tested %g to %g", p, pot[p],
              batch->smallest, batch->largest);
        check_numbers(line, same);
        check_kept(line, same, pot[p], t, "in a pot");
        check_printed_columns(line, same, pot[p], t);
        sum += pot[p];
        for (size_t i = 0; i < lines; i++) {
            mass[i] += line[i].mass_g;
            volume[i] += line[i].volume_ml;
            count[i] += line[i].count;
        }
    }
    HOLDS(within(sum, factor, TINY), "pots of %.10g, factor %.10g", sum,
          factor);
    for (size_t i = 0; i < lines; i++)
        HOLDS(
            fabs(mass[i] - total[i].mass_g) <= TINY * mass[i] &&
                fabs(volume[i] - total[i].volume_ml) <= TINY * volume[i] &&
                fabs(count[i] - total[i].count) <= TINY * count[i],
            "%s: pots of %.9g g, %.9g mL, %.9g pieces, total %.9g, %.9g, %.9g",
            total[i].food, mass[i], volume[i], count[i], total[i].mass_g,
            total[i].volume_ml, total[i].count);
}

/* The process of a jar is that of a tested size not smaller, for a band that
 * holds the altitude. */
void
check_process(const pottle_process *p, const double *altitude_m)
{
    bool tested_size = false;
    HOLDS(p->tested_as->nominal_ml >= p->jar->nominal_ml,
          "%s takes the process of %s", p->jar->id, p->tested_as->id);
    for (size_t k = 0; k < p->table->jars; k++)
        tested_size =
            tested_size || strcmp(p->table->jar[k], p->tested_as->id) == 0;
    HOLDS(tested_size, "%s is not tested", p->tested_as->id);
    HOLDS(p->band >= p->table->band &&
              p->band < p->table->band + p->table->bands,
          "a band of another table");
    HOLDS(p->band->minutes > 0 && p->band->psi >= 0 &&
              within(p->headspace.mm, p->table->headspace_in * INCH_MM, TINY),
          "%d min, %d psi, headspace %g mm", p->band->minutes, p->band->psi,
          p->headspace.mm);
    const double ft = altitude_m != NULL ? *altitude_m / FOOT_M : 0;
    HOLDS(p->band->to_ft < 0 || ft <= p->band->to_ft + 1e-5,
          "%.1f ft is above %d", ft, p->band->to_ft);
    HOLDS(p->band->from_ft < ft + 1 + 1e-5, "%.1f ft is under %d", ft,
          p->band->from_ft);
}

/* Against the doses printed for sizes of jar: what may not fall is never less
 * than that of the same or a smaller size, what may not rise never more than
 * that of the same or a larger one, what is exact is that of the same size. */
static void
check_dose(const pottle_dose *dose, const pottle_jar *jar)
{
    size_t found = 0;
    for (size_t c = 0; c < dose->per_jar->choices; c++) {
        const pottle_jar_choice *choice = &dose->per_jar->choice[c];
        if (strcmp(choice->food, dose->food) != 0)
            continue;
        found++;
        for (size_t k = 0; k < choice->doses; k++) {
            const pottle_jar_dose *d = &choice->dose[k];
            const pottle_jar *printed = NULL;
            if (pottle_jar_find(kitchen, d->jar, &printed, NULL) != POTTLE_OK ||
                d->unit->dimension != dose->unit->dimension)
                continue;
            const double there = dose->count * dose->unit->factor,
                         amount = d->amount * d->unit->factor;
            const bool up = dose->per_jar->keep == POTTLE_AT_LEAST &&
                            printed->nominal_ml <= jar->nominal_ml;
            const bool down = dose->per_jar->keep == POTTLE_AT_MOST &&
                              printed->nominal_ml >= jar->nominal_ml;
            const bool same =
                dose->per_jar->keep == POTTLE_EXACT && printed == jar;
            HOLDS(!up || there >= amount * (1 - TINY),
                  "%s: %g %s in a %s, %s %s for a %s", dose->food, dose->count,
                  dose->unit->id, jar->id, d->printed, d->unit->id, d->jar);
            HOLDS(!down || there <= amount * (1 + TINY),
                  "%s: %g %s in a %s, %s %s for a %s", dose->food, dose->count,
                  dose->unit->id, jar->id, d->printed, d->unit->id, d->jar);
            HOLDS(!same || within(there, amount, TINY),
                  "%s: %g %s in a %s, %s %s is printed", dose->food,
                  dose->count, dose->unit->id, jar->id, d->printed,
                  d->unit->id);
        }
    }
    HOLDS(found == 1, "%s is %zu of the choices", dose->food, found);
}

static void
check_jars(const pottle_plan *plan, const pottle_request *request)
{
    const pottle_jar_count *jars = pottle_plan_jars(plan);
    size_t n = 0;
    unsigned long per_load = 0;
    const unsigned long loads = pottle_plan_loads(plan, &per_load);
    if (jars != NULL) {
        HOLDS(is_positive(jars->count.median) && is_amount(jars->count.sd) &&
                  is_positive(jars->volume_ml.median) &&
                  is_positive(jars->fill_ml.median),
              "%g jars of %g mL from %g", jars->count.median,
              jars->fill_ml.median, jars->volume_ml.median);
        HOLDS(jars->promise <= jars->full && jars->full <= jars->prepare,
              "promise %lu, full %lu, prepare %lu", jars->promise, jars->full,
              jars->prepare);
        HOLDS(jars->remainder_ml >= 0 &&
                  jars->remainder_ml <= jars->fill_ml.median,
              "%g mL left of jars of %g", jars->remainder_ml,
              jars->fill_ml.median);
        HOLDS(request->jar == NULL || jars->jar == request->jar,
              "jars of another size");
        const pottle_jar *smaller = pottle_plan_smaller(plan);
        HOLDS(smaller == NULL || smaller->nominal_ml < jars->jar->nominal_ml,
              "the remainder goes into a larger jar");
        HOLDS(per_load == 0 ||
                  (loads * per_load >= jars->full &&
                   (loads == 0 || (loads - 1) * per_load <= jars->full + 1)),
              "%lu loads of %lu for %lu jars", loads, per_load, jars->full);
    }
    const pottle_dose *dose = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++) {
        HOLDS(is_positive(dose[i].count) && is_amount(dose[i].total),
              "%s: %g a jar, %g in all", dose[i].food, dose[i].count,
              dose[i].total);
        for (size_t k = 0; k < i; k++)
            HOLDS(dose[k].per_jar != dose[i].per_jar ||
                      (strcmp(dose[k].food, dose[i].food) != 0 &&
                       dose[k].choice != dose[i].choice),
                  "%s is told twice", dose[i].food);
        if (jars != NULL)
            check_dose(&dose[i], jars->jar);
    }
    const pottle_process *p = pottle_plan_processes(plan, &n);
    HOLDS(n <= POTTLE_PROCESS_MAX, "%zu processes", n);
    for (size_t i = 0; i < n; i++)
        check_process(&p[i], &request->altitude_m);
    p = pottle_plan_tables(plan, &n);
    for (size_t i = 0; i < n; i++)
        check_process(&p[i], NULL);
}

void
check_plan(const pottle_plan *plan, const pottle_recipe *recipe,
           const pottle_request *request, const tested *t)
{
    HOLDS(is_positive(pottle_plan_factor(plan)), "a factor of %g",
          pottle_plan_factor(plan));
    check_pots(plan, recipe, t);
    check_jars(plan, request);
    size_t n = 0;
    const pottle_rest *rest = pottle_plan_rests(plan, &n);
    for (size_t i = 0; i < n; i++)
        HOLDS(is_positive(rest[i].mass_g) && is_amount(rest[i].volume_ml),
              "%g g, %g mL of %s are left", rest[i].mass_g, rest[i].volume_ml,
              rest[i].food);
    const pottle_warning *warning = pottle_plan_warnings(plan, &n);
    for (size_t i = 0; i < n; i++)
        HOLDS(warning[i].code[0] != '\0' && warning[i].text[0] != '\0' &&
                  warning[i].source != NULL && warning[i].at != NULL,
              "warning %zu says nothing", i);
}
