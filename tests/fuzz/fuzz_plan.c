/* fuzz_plan.c - what holds for every plan, whoever asked for it. Tested amounts
 * are computed from the figures of the recipe, never taken from the plan. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "targets.h"

/* Of sums and quotients of a few hundred doubles. */
static const double rounding = 1e-9;

/* -- Tested amounts ------------------------------------------------------- */

/* What the published batch takes, in the base unit of the ingredient's own
 * dimension; a range is taken at its middle. 0: a rate, or no amount. */
static double
tested(const pottle_ingredient *in)
{
    if (in->per != NULL)
        return 0;
    return 0.5 * (in->amount + in->amount_to) * in->unit->factor;
}

static double
own_amount(const pottle_line *l)
{
    const pottle_dimension d = l->ingredient->unit->dimension;
    return d == POTTLE_VOLUME ? l->volume_ml
         : d == POTTLE_COUNT  ? l->count
                              : l->mass_g;
}

static bool
is_one_of(const pottle_ingredient *in, const char *food)
{
    bool found = strcmp(in->food, food) == 0;
    for (size_t k = 0; k < in->alternatives; k++)
        found = found || strcmp(in->alternative[k].food, food) == 0;
    return found;
}

static bool
is_set(const pottle_request *request, const pottle_ingredient *in)
{
    for (size_t k = 0; k < request->sets; k++)
        if (is_one_of(in, request->set[k].food))
            return true;
    return false;
}

/* -- Lines ---------------------------------------------------------------- */

/* No kept amount is worse than the tested one. Where the source prints a range
 * its middle is taken, and a total that is set may lie anywhere in it. */
static void
check_kept(const pottle_request *request, const pottle_line *l, double factor)
{
    const pottle_ingredient *in = l->ingredient;
    const double middle = factor * tested(in), got = own_amount(l);
    fuzz_amount(l->mass_g, in->food);
    fuzz_amount(l->volume_ml, in->food);
    fuzz_amount(l->count, in->food);
    if (!(middle > 0))
        return;
    const bool set = is_set(request, in), range = in->amount < in->amount_to;
    const double unit = factor * in->unit->factor;
    double low = middle, high = middle, wide = rounding;
    if (set && range) {
        low = unit * in->amount;
        high = unit * in->amount_to;
        wide = in->keep == POTTLE_EXACT ? POTTLE_EXACT_TOLERANCE : rounding;
    }
    const bool bound_below = in->keep == POTTLE_EXACT ||
                             in->keep == POTTLE_AT_LEAST ||
                             (in->keep == POTTLE_FREE && !set);
    const bool bound_above = in->keep == POTTLE_EXACT ||
                             in->keep == POTTLE_AT_MOST ||
                             (in->keep == POTTLE_FREE && !set);
    fuzz_expect(!bound_below || got >= low * (1 - wide),
                "%s %s: %.12g is under %.12g", pottle_keep_name((int)in->keep),
                in->food, got, low);
    fuzz_expect(!bound_above || got <= high * (1 + wide),
                "%s %s: %.12g is over %.12g", pottle_keep_name((int)in->keep),
                in->food, got, high);
}

static void
check_measure(const pottle_line *l)
{
    const pottle_measure *m = &l->measure;
    double sum = 0;
    char text[160];
    if (!fuzz_expect(m->parts >= 1 && m->parts <= 3, "%zu parts", m->parts))
        return;
    for (size_t i = 0; i < m->parts; i++) {
        /* in the recipe's own kind of measure, or weighed */
        fuzz_expect(
            m->part[i].unit->dimension == l->ingredient->unit->dimension ||
                (m->parts == 1 && m->part[i].unit->dimension == POTTLE_MASS),
            "%s is measured in %s", l->food, m->part[i].unit->id);
        fuzz_expect(m->part[i].count > 0 && isfinite(m->part[i].count),
                    "%g %s of %s", m->part[i].count, m->part[i].unit->id,
                    l->food);
        sum += m->part[i].count * m->part[i].unit->factor;
    }
    fuzz_expect(fabs(sum - m->base) <= rounding * sum,
                "the parts of %s add up to %g, not %g", l->food, sum, m->base);
    const size_t n = pottle_measure_write(m, text, sizeof text);
    fuzz_expect(n > 0 && n == strlen(text), "a measure of %zu bytes", n);
    fuzz_text(text, "measure");
}

/* After rounding no kept ratio is worse than tested: what must not be too
 * little is rounded up at least as far as anything exact, what must not be too
 * much down. What has no measure is weighed, and stands at its amount. */
static void
check_ratios(const pottle_line *line, size_t count)
{
    double low = 1, high = 1;
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < count; i++) {
            const pottle_ingredient *in = line[i].ingredient;
            const bool weighed =
                line[i].has_measure &&
                line[i].measure.part[0].unit->dimension == POTTLE_MASS;
            const double wanted =
                weighed ? line[i].mass_g : own_amount(&line[i]);
            if (!line[i].has_measure || !(wanted > 0) ||
                (in->keep == POTTLE_EXACT) != (pass == 0))
                continue;
            const double r = line[i].measure.base / wanted;
            if (pass == 0) {
                low = fmin(low, r);
                high = fmax(high, r);
            }
            fuzz_expect(in->keep != POTTLE_EXACT ||
                            fabs(r - 1) <= POTTLE_EXACT_TOLERANCE + rounding,
                        "exact %s is rounded by %g", in->food, r);
            fuzz_expect(in->keep != POTTLE_AT_LEAST || r >= high - 1e-7,
                        "at least %s is rounded by %g, something exact by %g",
                        in->food, r, high);
            fuzz_expect(in->keep != POTTLE_AT_MOST || r <= low + 1e-7,
                        "at most %s is rounded by %g, something exact by %g",
                        in->food, r, low);
        }
    }
}

static void
check_lines(const pottle_recipe *recipe, const pottle_request *request,
            const pottle_plan *plan)
{
    size_t n = 0, count = 0, pots = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    const double *pot = pottle_plan_pots(plan, &pots);
    const pottle_line *all = pottle_plan_lines(plan, POTTLE_ALL_POTS, &count);
    /* a mix of foods in one place has a line for each of them */
    if (count > n)
        return;
    if (!fuzz_expect(count == n, "%zu lines of %zu ingredients", count, n))
        return;
    for (size_t i = 0; i < n; i++) {
        double mass = 0, volume = 0, pieces = 0;
        fuzz_expect(all[i].ingredient == &in[i], "line %zu is another", i);
        fuzz_expect(is_one_of(&in[i], all[i].food), "%s in place of %s",
                    all[i].food, in[i].food);
        fuzz_text(all[i].title, "title");
        fuzz_text(all[i].form, "form");
        check_kept(request, &all[i], pottle_plan_factor(plan));
        if (all[i].has_measure)
            check_measure(&all[i]);
        for (size_t p = 0; p < pots; p++) {
            const pottle_line *l = &pottle_plan_lines(plan, p, &count)[i];
            check_kept(request, l, pot[p]);
            if (l->has_measure)
                check_measure(l);
            mass += l->mass_g;
            volume += l->volume_ml;
            pieces += l->count;
        }
        fuzz_expect(fabs(mass - all[i].mass_g) <= rounding * mass &&
                        fabs(volume - all[i].volume_ml) <= rounding * volume &&
                        fabs(pieces - all[i].count) <= rounding * pieces,
                    "the pots of %s hold %g g, all hold %g g", in[i].food, mass,
                    all[i].mass_g);
    }
    check_ratios(all, n);
    for (size_t p = 0; p < pots; p++)
        check_ratios(pottle_plan_lines(plan, p, &count), n);
}

/* -- What was said -------------------------------------------------------- */

/* The middle of a phrase in its base unit, as a lognormal has it. */
static double
said(const pottle_phrase *p)
{
    return sqrt(p->low * p->high) * p->unit->factor;
}

/* How often a food stands in the lines, and what they take of it. */
static size_t
uses_of(const pottle_plan *plan, const char *food, const pottle_line **one,
        double *mass_g, double *own)
{
    size_t n = 0, found = 0;
    const pottle_line *l = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    *mass_g = *own = 0;
    for (size_t i = 0; i < n; i++) {
        if (strcmp(l[i].food, food) != 0)
            continue;
        *one = &l[i];
        *mass_g += l[i].mass_g;
        *own += own_amount(&l[i]);
        found++;
    }
    return found;
}

static size_t
phrases_of(const pottle_phrase *p, size_t count, const char *food)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++)
        n += strcmp(p[i].food, food) == 0;
    return n;
}

/* What is on hand is what is used and what is left. A weight of something that
 * the recipe weighs in the same state is compared, so that no density and no
 * trim loss comes between. */
static void
check_conserved(const pottle_request *request, const pottle_plan *plan)
{
    size_t rests = 0;
    const pottle_rest *rest = pottle_plan_rests(plan, &rests);
    for (size_t i = 0; i < rests; i++) {
        fuzz_expect(rest[i].mass_g > 0 && isfinite(rest[i].mass_g),
                    "%g g of %s are left", rest[i].mass_g, rest[i].food);
        fuzz_amount(rest[i].volume_ml, "volume left");
        fuzz_text(rest[i].title, "title");
        fuzz_expect(phrases_of(request->have, request->haves, rest[i].food) > 0,
                    "%s is left and was not there", rest[i].food);
    }
    for (size_t k = 0; k < request->haves; k++) {
        const pottle_phrase *p = &request->have[k];
        const pottle_line *l = NULL;
        double used = 0, own = 0, left = 0;
        const size_t uses = uses_of(plan, p->food, &l, &used, &own);
        if (!fuzz_expect(uses > 0, "%s is on hand and has no line", p->food) ||
            l == NULL ||
            phrases_of(request->have, request->haves, p->food) != 1 ||
            is_set(request, l->ingredient) ||
            p->unit->dimension != POTTLE_MASS ||
            l->ingredient->unit->dimension != POTTLE_MASS ||
            p->state != l->ingredient->state)
            continue;
        for (size_t i = 0; i < rests; i++)
            if (strcmp(rest[i].food, p->food) == 0)
                left += rest[i].mass_g;
        const bool may_lack = l->ingredient->keep == POTTLE_FREE;
        fuzz_expect(used + left <= said(p) * (1 + 1e-6) || may_lack,
                    "%g g of %s: %g g are used and %g g are left", said(p),
                    p->food, used, left);
        fuzz_expect(used + left >= said(p) * (1 - 2e-6),
                    "%g g of %s: %g g are used and only %g g are left", said(p),
                    p->food, used, left);
    }
}

/* A total that was set and let pass is the total that is taken. Compared where
 * it was said in the measure that the recipe uses. */
static void
check_sets(const pottle_request *request, const pottle_plan *plan)
{
    for (size_t k = 0; k < request->sets; k++) {
        const pottle_phrase *p = &request->set[k];
        const pottle_line *l = NULL;
        double used = 0, own = 0;
        if (uses_of(plan, p->food, &l, &used, &own) == 0)
            continue; /* goes into the jars */
        const pottle_ingredient *in = l->ingredient;
        size_t same = 0;
        for (size_t i = 0; i < request->sets; i++)
            same += is_one_of(in, request->set[i].food);
        if (same != 1 || p->unit->dimension != in->unit->dimension ||
            in->per != NULL || !(tested(in) > 0))
            continue;
        if (in->unit->dimension == POTTLE_MASS && p->state != in->state)
            continue;
        if (in->unit->dimension == POTTLE_VOLUME &&
            (p->form[0] != '\0' || p->state != POTTLE_PREPARED))
            continue;
        if (in->unit->dimension == POTTLE_COUNT && p->size[0] != '\0')
            continue;
        const double r = own / said(p);
        const double wide =
            in->keep == POTTLE_EXACT ? POTTLE_EXACT_TOLERANCE + 1e-3 : 1e-6;
        fuzz_expect(r >= 1 - wide &&
                        (r <= 1 + wide || in->keep == POTTLE_AT_LEAST),
                    "%s was set to %g and is %g", p->food, said(p), own);
    }
}

/* -- Processes ------------------------------------------------------------ */

static bool
lists(const pottle_process_table *t, const pottle_jar *jar)
{
    for (size_t i = 0; i < t->jars; i++)
        if (strcmp(t->jar[i], jar->id) == 0)
            return true;
    return false;
}

void
fuzz_processes(const pottle_recipe *recipe, const pottle_jar *jar,
               const pottle_method *method, pottle_pack_style pack,
               double altitude_m, const pottle_process *process, size_t count)
{
    size_t tables = 0, jars = 0;
    const pottle_process_table *table =
        pottle_recipe_processes(recipe, &tables);
    const pottle_jar *size = pottle_jars(fuzz_catalogue(), &jars);
    const double feet = altitude_m / 0.3048;
    fuzz_expect(count >= 1 && count <= POTTLE_PROCESS_MAX, "%zu processes",
                count);
    for (size_t i = 0; i < count; i++) {
        const pottle_process *p = &process[i];
        const pottle_process_table *t = p->table;
        if (!fuzz_expect(t >= table && t < table + tables &&
                             p->band >= t->band && p->band < t->band + t->bands,
                         "a process that is not the recipe's"))
            continue;
        fuzz_expect(method == NULL || t->method == *method, "another canner");
        fuzz_expect(pack == POTTLE_ANY_PACK ||
                        t->raw == (pack == POTTLE_RAW_PACK),
                    "another pack");
        fuzz_expect(p->jar == jar, "of another jar");
        fuzz_expect(lists(t, p->tested_as) &&
                        p->tested_as->nominal_ml >= jar->nominal_ml,
                    "%s as %s, which is not tested or smaller", jar->id,
                    p->tested_as->id);
        for (size_t k = 0; k < jars; k++)
            fuzz_expect(!lists(t, &size[k]) ||
                            size[k].nominal_ml < jar->nominal_ml ||
                            size[k].nominal_ml >= p->tested_as->nominal_ml,
                        "%s as %s, though %s is tested", jar->id,
                        p->tested_as->id, size[k].id);
        /* 1,000 ft is in 0-1,000, anything above it in the next */
        fuzz_expect(
            (p->band->to_ft < 0 || feet <= p->band->to_ft + 2e-6) &&
                (p->band->from_ft == 0 || feet > p->band->from_ft - 1 + 1e-7),
            "%.9g ft in the band %d to %d", feet, p->band->from_ft,
            p->band->to_ft);
        fuzz_expect(fabs(p->headspace.mm - t->headspace_in * 25.4) <= rounding,
                    "a headspace of %g mm", p->headspace.mm);
    }
}

static void
check_processes(const pottle_recipe *recipe, const pottle_request *request,
                const pottle_plan *plan)
{
    size_t listed = 0, count = 0, tables = 0;
    pottle_recipe_processes(recipe, &listed);
    const pottle_process *p = pottle_plan_processes(plan, &count);
    const pottle_process *t = pottle_plan_tables(plan, &tables);
    const bool canned =
        listed > 0 && pottle_recipe_standing(recipe) == POTTLE_TESTED;
    fuzz_expect(pottle_recipe_standing(recipe) != POTTLE_DRAFT,
                "a draft is scaled");
    fuzz_expect((tables > 0) == canned, "%zu tables of %zu", tables, listed);
    fuzz_expect((count > 0) == (canned && request->has_altitude),
                "%zu processes", count);
    if (tables > 0)
        fuzz_processes(recipe, t[0].jar, request->method, request->pack, 0, t,
                       tables);
    if (count > 0)
        fuzz_processes(recipe, p[0].jar, request->method, request->pack,
                       request->altitude_m, p, count);
    fuzz_expect(tables == 0 || request->jar == NULL || t[0].jar == request->jar,
                "another jar than the one asked for");
}

/* -- Jars ----------------------------------------------------------------- */

static void
check_jars(const pottle_request *request, const pottle_plan *plan)
{
    const pottle_jar_count *j = pottle_plan_jars(plan);
    unsigned long per_load = 0;
    const unsigned long loads = pottle_plan_loads(plan, &per_load);
    const pottle_jar *smaller = pottle_plan_smaller(plan);
    if (j == NULL) {
        fuzz_expect(!(request->fill > 0) && smaller == NULL && loads == 0,
                    "jars are not known and are counted");
        return;
    }
    const double n = j->count.median;
    fuzz_expect(n > 0 && isfinite(n) && j->count.sd >= 0 && j->count.sd < 10,
                "%g jars, spread %g", n, j->count.sd);
    fuzz_expect(j->promise <= j->full && j->full <= j->prepare,
                "promise %lu, full %lu, prepare %lu", j->promise, j->full,
                j->prepare);
    fuzz_expect(j->fill_ml.median > 0 && j->remainder_ml >= 0 &&
                    j->remainder_ml <= j->fill_ml.median * (1 + 1e-6) +
                                           1e-6 * j->volume_ml.median,
                "%g mL are left over of jars of %g mL", j->remainder_ml,
                j->fill_ml.median);
    fuzz_expect(request->jar == NULL || j->jar == request->jar,
                "another jar than the one asked for");
    fuzz_expect(!(request->fill > 0) || n >= request->fill * (1 - 1e-6),
                "%g jars were asked for, %g are filled", request->fill, n);
    fuzz_expect(smaller == NULL || smaller->nominal_ml < j->jar->nominal_ml,
                "the smaller jar is not smaller");
    if (per_load > 0)
        fuzz_expect(loads >= 1 &&
                        (double)loads * (double)per_load >= n - 1e-6 * n &&
                        (double)(loads - 1) * (double)per_load < ceil(n),
                    "%g jars in %lu loads of %lu", n, loads, per_load);
}

/* What goes into each jar: acid is that of this size or of the next larger. */
static void
check_doses(const pottle_plan *plan)
{
    size_t n = 0;
    const pottle_dose *d = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_expect(d[i].count > 0 && isfinite(d[i].count), "%g %s of %s a jar",
                    d[i].count, d[i].unit->id, d[i].food);
        fuzz_amount(d[i].total, "total of a dose");
        fuzz_text(d[i].title, "title");
        fuzz_text(d[i].printed, "printed");
        const pottle_per_jar *per = d[i].per_jar;
        const pottle_jar_choice *c = NULL;
        for (size_t k = 0; k < per->choices; k++)
            if (strcmp(per->choice[k].food, d[i].food) == 0)
                c = &per->choice[k];
        fuzz_expect(c != NULL, "a dose of %s is no choice", d[i].food);
        if (c == NULL)
            continue;
        for (size_t k = 0; k < c->doses; k++)
            fuzz_expect(strcmp(c->dose[k].jar, d[i].taken_from->id) != 0 ||
                            per->keep != POTTLE_AT_LEAST ||
                            d[i].count >= c->dose[k].amount * (1 - rounding),
                        "%g %s of %s a jar, less than is printed", d[i].count,
                        d[i].unit->id, d[i].food);
    }
}

/* -- The whole ------------------------------------------------------------ */

static void
check_pots(const pottle_recipe *recipe, const pottle_plan *plan)
{
    const double factor = pottle_plan_factor(plan);
    const pottle_batch *batch = pottle_recipe_batch(recipe);
    size_t n = 0;
    const double *pot = pottle_plan_pots(plan, &n);
    double sum = 0;
    fuzz_expect(factor > 0 && isfinite(factor), "a factor of %g", factor);
    for (size_t i = 0; i < n; i++) {
        fuzz_expect(pot[i] > 0 && pot[i] <= batch->largest * (1 + rounding) &&
                        pot[i] >= batch->smallest * (1 - rounding),
                    "a pot of %g, tested from %g to %g", pot[i],
                    batch->smallest, batch->largest);
        sum += pot[i];
    }
    fuzz_expect(n > 0 && fabs(sum - factor) <= rounding * factor,
                "%zu pots of %g in all make %g", n, sum, factor);
}

void
fuzz_plan(const pottle_recipe *recipe, const pottle_request *request,
          const pottle_plan *plan)
{
    check_pots(recipe, plan);
    check_lines(recipe, request, plan);
    check_conserved(request, plan);
    check_sets(request, plan);
    check_processes(recipe, request, plan);
    check_jars(request, plan);
    check_doses(plan);
    fuzz_text(pottle_plan_limit(plan), "limit");
    size_t n = 0;
    const pottle_warning *w = pottle_plan_warnings(plan, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_text(w[i].code, "code");
        fuzz_text(w[i].text, "warning");
        fuzz_text(w[i].source, "source");
        fuzz_text(w[i].at, "at");
        fuzz_expect(w[i].text[0] != '\0', "a warning of nothing");
    }
}
