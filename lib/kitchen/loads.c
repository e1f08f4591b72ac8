/* loads.c - what the canner takes at once and how long a load lasts.
 *
 * Nothing here makes a time up: a load lasts as long as its published parts,
 * and its process is that of the jar in it that takes longest. Sizes share a
 * load only under one pressure; what the canner's dial means is told by
 * gauge.c.
 */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "kitchen/shelf.h"

/* -- How much and how long ------------------------------------------------- */

unsigned long
pottlei_canner_holds(const pottle_catalogue *catalogue,
                     const pottle_kitchen_canner *canner, const pottle_jar *jar)
{
    if (canner != NULL && canner->holds > 0) {
        const pottle_jar *best = NULL;
        unsigned long count = 0;
        for (size_t i = 0; i < canner->holds; i++) {
            const pottle_jar *listed = NULL;
            if (pottle_jar_find(catalogue, canner->hold[i].jar, &listed,
                                NULL) == POTTLE_OK &&
                listed->nominal_ml >= jar->nominal_ml &&
                (best == NULL || listed->nominal_ml < best->nominal_ml)) {
                best = listed;
                count = canner->hold[i].count;
            }
        }
        return count;
    }
    const pottle_figure *pints =
                            pottle_figure_find(catalogue, "load-pint-jars"),
                        *quarts =
                            pottle_figure_find(catalogue, "load-quart-jars");
    const pottle_jar *pint = NULL, *quart = NULL;
    if (pints == NULL || quarts == NULL ||
        pottle_jar_find(catalogue, "pint", &pint, NULL) != POTTLE_OK ||
        pottle_jar_find(catalogue, "quart", &quart, NULL) != POTTLE_OK)
        return 0;
    /* a half litre is a pint to a canner, a litre a quart; nothing is published
     * for larger jars */
    return jar->nominal_ml <= 1.1 * pint->nominal_ml ? (unsigned long)pints->to
         : jar->nominal_ml <= 1.1 * quart->nominal_ml
             ? (unsigned long)quarts->value
             : 0;
}

/* Adds the figure of a part; false when there is none. */
static bool
add_part(const pottle_catalogue *catalogue, const char *id, pottle_range *part,
         pottle_range *total)
{
    const pottle_figure *f = pottle_figure_find(catalogue, id);
    if (f == NULL)
        return false;
    *part = (pottle_range){ f->value, f->to };
    total->low += part->low;
    total->high += part->high;
    return true;
}

pottle_status
pottle_load_minutes(const pottle_catalogue *catalogue, pottle_method method,
                    int minutes, pottle_load_time *out, pottle_error *error)
{
    if (catalogue == NULL || out == NULL || (int)method < 0 ||
        (int)method > (int)POTTLE_WEIGHTED_GAUGE)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, no such canner or no place for the result");
    if (minutes < 1 || minutes > 1000)
        return pottlei_fail(error, POTTLE_EDOMAIN, "minutes",
                            "a process takes 1 to 1000 minutes");
    pottle_load_time t = { .process = { minutes, minutes },
                           .total = { minutes, minutes } };
    const bool told =
        method == POTTLE_BOILING_WATER
            ? add_part(catalogue, "heat-up-boiling-water", &t.heat_up,
                       &t.total) &&
                  add_part(catalogue, "rest-minutes", &t.wait, &t.total)
            : add_part(catalogue, "heat-up-pressure", &t.heat_up, &t.total) &&
                  add_part(catalogue, "vent-minutes", &t.vent, &t.total) &&
                  add_part(catalogue, "pressurise-minutes", &t.pressurise,
                           &t.total) &&
                  add_part(catalogue, "cool-down-minutes", &t.cool, &t.total) &&
                  add_part(catalogue, "wait-after-weight", &t.wait, &t.total);
    if (!told)
        return pottlei_fail(
            error, POTTLE_ENOENT, "figure",
            "the catalogue does not tell how long a load heats and cools");
    *out = t;
    return POTTLE_OK;
}

/* -- Loads ----------------------------------------------------------------- */

/* The pressure that all filled sizes have a process for, with the shortest
 * longest time; -1 when there is none. */
static int
common_psi(const pottle_filling *f, pottle_process (*found)[POTTLE_PROCESS_MAX],
           const size_t *founds)
{
    int best = -1, shortest = 0;
    size_t first = 0;
    while (first < f->sizes && f->size[first].jars == 0)
        first++;
    for (size_t a = 0; first < f->sizes && a < founds[first]; a++) {
        const int psi = found[first][a].band->psi;
        int longest = 0;
        for (size_t i = first; i < f->sizes && longest >= 0; i++) {
            if (f->size[i].jars == 0)
                continue;
            size_t k = 0;
            while (k < founds[i] && found[i][k].band->psi != psi)
                k++;
            longest = k == founds[i] ? -1
                    : found[i][k].band->minutes > longest
                        ? found[i][k].band->minutes
                        : longest;
        }
        if (longest >= 0 && (best < 0 || longest < shortest)) {
            best = psi;
            shortest = longest;
        }
    }
    return best;
}

static void
choose_pressures(pottle_filling *f, pottle_process (*found)[POTTLE_PROCESS_MAX],
                 const size_t *founds)
{
    const int psi = common_psi(f, found, founds);
    for (size_t i = 0; i < f->sizes; i++) {
        if (founds[i] == 0)
            continue;
        size_t k = 0;
        while (k < founds[i] && psi >= 0 && found[i][k].band->psi != psi)
            k++;
        f->size[i].process = found[i][k < founds[i] ? k : 0];
    }
}

static pottle_status
add_load(const pottle_catalogue *catalogue, pottle_filling *f,
         const unsigned long *jars, unsigned long times, pottle_error *error)
{
    if (f->loads == POTTLEI_SHELF_LOADS)
        return pottlei_fail(error, POTTLE_EDOMAIN, "loads",
                            "too many kinds of load");
    pottle_filling_load *l = &f->load[f->loads++];
    *l = (pottle_filling_load){ .times = times };
    for (size_t i = 0; i < f->sizes; i++) {
        if (jars[i] == 0)
            continue;
        const pottle_process *p = &f->size[i].process;
        l->jars[i] = jars[i];
        if (l->sizes++ == 0 || p->band->minutes > l->process.band->minutes)
            l->process = *p;
    }
    if (l->process.table == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "loads",
                            "a load without jars");
    const pottle_status status =
        pottle_load_minutes(catalogue, l->process.table->method,
                            l->process.band->minutes, &l->time, error);
    if (status != POTTLE_OK)
        return status;
    l->psi = l->process.band->psi;
    pottle_set_point set = { 0 };
    if (f->facts.has_set_point &&
        pottle_gauge_set_point(catalogue, f->recipe, &l->process,
                               f->facts.gauge, &set, NULL) == POTTLE_OK)
        l->psi = set.psi;
    f->load_count += times;
    f->minutes.low += (double)times * l->time.total.low;
    f->minutes.high += (double)times * l->time.total.high;
    return POTTLE_OK;
}

/* Part loads: so many jars of each size in each. */
typedef struct parts {
    size_t count;
    unsigned long jars[POTTLE_SHELF_MAX][POTTLE_SHELF_MAX];
    double share[POTTLE_SHELF_MAX];
    int psi[POTTLE_SHELF_MAX];
} parts;

/* Whether a share of a canner fits into a part load, at the pressure of that
 * load. */
static bool
fits(const parts *p, size_t load, double share, int psi)
{
    return p->psi[load] == psi && p->share[load] + share <= 1 + 1e-9;
}

/* Each size stays whole: the largest share first, into the first load that
 * takes it. */
static void
part_whole(const pottle_filling *f, const unsigned long *rest,
           const unsigned long *holds, parts *out)
{
    bool done[POTTLE_SHELF_MAX] = { false };
    memset(out, 0, sizeof *out);
    for (;;) {
        size_t next = f->sizes;
        double most = 0;
        for (size_t i = 0; i < f->sizes; i++) {
            const double share =
                rest[i] > 0 ? (double)rest[i] / (double)holds[i] : 0;
            if (!done[i] && share > most) {
                next = i;
                most = share;
            }
        }
        if (next == f->sizes)
            return;
        const int psi = f->size[next].process.band->psi;
        size_t load = 0;
        while (load < out->count && !fits(out, load, most, psi))
            load++;
        if (load == out->count)
            out->psi[out->count++] = psi;
        out->jars[load][next] = rest[next];
        out->share[load] += most;
        done[next] = true;
    }
}

/* Jar by jar, those that take longest first: never more loads than there must
 * be but for what does not come out even. */
static void
part_split(const pottle_filling *f, const unsigned long *rest,
           const unsigned long *holds, parts *out)
{
    unsigned long left[POTTLE_SHELF_MAX];
    memset(out, 0, sizeof *out);
    memcpy(left, rest, f->sizes * sizeof left[0]);
    while (out->count < POTTLE_SHELF_MAX) {
        const size_t load = out->count;
        bool any = false;
        for (;;) {
            size_t next = f->sizes;
            for (size_t i = 0; i < f->sizes; i++) {
                const bool may =
                    left[i] > 0 &&
                    (!any || fits(out, load, 1.0 / (double)holds[i],
                                  f->size[i].process.band->psi));
                if (may && (next == f->sizes ||
                            f->size[i].process.band->minutes >
                                f->size[next].process.band->minutes))
                    next = i;
            }
            if (next == f->sizes)
                break;
            out->psi[load] = f->size[next].process.band->psi;
            out->share[load] += 1.0 / (double)holds[next];
            out->jars[load][next]++;
            left[next]--;
            any = true;
        }
        if (!any)
            return;
        out->count++;
    }
}

/* Loads of one size as long as they are full. What remains of the sizes goes
 * together where that saves a load; sizes are parted only where that saves
 * another. */
static pottle_status
arrange(const pottle_catalogue *catalogue, pottle_filling *f,
        const unsigned long *holds, pottle_error *error)
{
    unsigned long rest[POTTLE_SHELF_MAX] = { 0 }, jars[POTTLE_SHELF_MAX];
    pottle_status status = POTTLE_OK;
    for (size_t i = 0; i < f->sizes && status == POTTLE_OK; i++) {
        if (holds[i] == 0) /* none of that size is filled */
            continue;
        rest[i] = f->size[i].jars % holds[i];
        if (f->size[i].jars < holds[i])
            continue;
        memset(jars, 0, sizeof jars);
        jars[i] = holds[i];
        status =
            add_load(catalogue, f, jars, f->size[i].jars / holds[i], error);
    }
    parts whole, split;
    part_whole(f, rest, holds, &whole);
    part_split(f, rest, holds, &split);
    const parts *best = split.count < whole.count ? &split : &whole;
    for (size_t i = 0; i < best->count && status == POTTLE_OK; i++)
        status = add_load(catalogue, f, best->jars[i], 1, error);
    return status;
}

pottle_status
pottlei_loads_make(const pottle_catalogue *catalogue, pottle_filling *f,
                   const pottle_kitchen_canner *canner,
                   pottle_process (*found)[POTTLE_PROCESS_MAX],
                   const size_t *founds, pottle_error *error)
{
    unsigned long holds[POTTLE_SHELF_MAX] = { 0 };
    choose_pressures(f, found, founds);
    size_t any = f->sizes, kinds = 0;
    bool apart = false;
    for (size_t i = 0; i < f->sizes; i++) {
        if (!f->size[i].allowed)
            continue;
        if (any == f->sizes)
            any = i;
        if (f->size[i].jars == 0)
            continue;
        if (kinds++ == 0)
            any = i;
        apart = apart ||
                f->size[i].process.band->psi != f->size[any].process.band->psi;
    }
    if (any == f->sizes)
        return POTTLE_OK;
    pottle_status status =
        pottlei_gauge_judge(catalogue, f, canner, &f->size[any].process, error);
    if (status != POTTLE_OK || !f->size[any].has_process)
        return status;
    if (apart)
        pottlei_filling_warn(catalogue, f, "apart", NULL,
                             "The sizes have processes at different pressures, "
                             "so they do not share a load.");
    for (size_t i = 0; i < f->sizes; i++) {
        if (f->size[i].jars == 0)
            continue;
        holds[i] = pottlei_canner_holds(catalogue, canner, f->size[i].of.jar);
        if (holds[i] == 0) {
            char text[160];
            snprintf(text, sizeof text,
                     "How many %s jars go into the canner is not known, so "
                     "loads are not told.",
                     f->size[i].of.jar->title);
            pottlei_filling_warn(catalogue, f, "load-unknown", NULL, text);
            return POTTLE_OK;
        }
    }
    status = arrange(catalogue, f, holds, error);
    for (size_t i = 0; i < f->loads; i++)
        if (status == POTTLE_OK && f->load[i].sizes > 1) {
            pottlei_filling_warn(catalogue, f, "mixed-load", "mixed-load",
                                 "A load of several sizes takes the longest of "
                                 "their processes.");
            break;
        }
    return status;
}
