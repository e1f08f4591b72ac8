/* process.c - the look-up of a tested process.
 *
 * Nothing here computes a time. A row that the publication prints is found, or
 * the request is refused: no interpolation between jars, altitudes, packs or
 * foods. The one step away from the printed row is the published rule for a
 * smaller jar, which takes the next larger tested size's process. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "model.h"

/* An altitude typed in feet comes back from metres with an error in the last
 * digits; 1,000 ft must stay in 0-1,000. A thousandth of a millimetre is far
 * below anything a map knows. */
static const double rounding_ft = 1e-6;

static pottle_status
refuse(const pottle_catalogue *c, pottle_error *error, const char *code,
       const char *rule, const char *what)
{
    pottlei_fail(error, POTTLE_EBOUNDS, code, "%s", what);
    const pottle_rule *r = pottle_rule_find(c, rule);
    if (error != NULL && r != NULL) {
        POTTLEI_SET(error->source, r->cite.source);
        POTTLEI_SET(error->at, r->cite.at);
        POTTLEI_SET(error->instead, r->instead);
    }
    return POTTLE_EBOUNDS;
}

/* The smallest tested size that is not smaller than the jar; NULL when the jar
 * is larger than all. */
static const pottle_jar *
tested_for(const pottle_catalogue *c, const pottle_process_table *t,
           const pottle_jar *jar)
{
    const pottle_jar *best = NULL;
    for (size_t i = 0; i < t->jars; i++) {
        const pottle_jar *tested = pottlei_jar_by_id(c, t->jar[i]);
        if (tested != NULL && tested->nominal_ml >= jar->nominal_ml &&
            (best == NULL || tested->nominal_ml < best->nominal_ml))
            best = tested;
    }
    return best;
}

/* The tested size whose process a jar takes for one method and pack, over all
 * tables: a pint has its own rows and does not take the quart's, even where
 * those go higher. */
static const pottle_jar *
nearest_for(const pottle_catalogue *c, const pottle_recipe *recipe,
            const pottle_process_table *like, const pottle_jar *jar)
{
    const pottle_jar *best = NULL;
    for (size_t i = 0; i < recipe->process_count; i++) {
        const pottle_process_table *t = &recipe->process[i];
        const pottle_jar *tested =
            t->method == like->method && t->raw == like->raw
                ? tested_for(c, t, jar)
                : NULL;
        if (tested != NULL &&
            (best == NULL || tested->nominal_ml < best->nominal_ml))
            best = tested;
    }
    return best;
}

static const pottle_band *
band_for(const pottle_process_table *t, double altitude_ft)
{
    for (size_t i = 0; i < t->bands; i++)
        if (t->band[i].to_ft < 0 ||
            altitude_ft <= (double)t->band[i].to_ft + rounding_ft)
            return &t->band[i];
    return NULL;
}

/* By method, hot before raw, the size nearest to the jar, shortest first,
 * lowest pressure. */
static int
by_choice(const void *a, const void *b)
{
    const pottle_process *x = a, *y = b;
    if (x->table->method != y->table->method)
        return x->table->method < y->table->method ? -1 : 1;
    if (x->table->raw != y->table->raw)
        return x->table->raw ? 1 : -1;
    if (x->band->minutes != y->band->minutes)
        return x->band->minutes < y->band->minutes ? -1 : 1;
    if (x->band->psi != y->band->psi)
        return x->band->psi < y->band->psi ? -1 : 1;
    /* the order in the file decides between equals, so that the result is
     * always the same */
    return x->table < y->table ? -1 : x->table > y->table ? 1 : 0;
}

/* What stood in the way, for the refusal: the widest reason wins. */
typedef struct obstacles {
    bool any, method, pack, jar;
    int top_ft;
    const pottle_jar *largest;
} obstacles;

static pottle_status
explain(const pottle_catalogue *c, const pottle_recipe *recipe,
        const pottle_jar *jar, const pottle_method *method,
        pottle_pack_style pack, double altitude_ft, const obstacles *o,
        pottle_error *error)
{
    char what[400];
    if (!o->any) {
        snprintf(what, sizeof what, "%s has no canning process in its source",
                 recipe->id);
        return refuse(c, error, "not-canned", "no-process", what);
    }
    if (!o->method) {
        bool pressure_only = method != NULL && *method == POTTLE_BOILING_WATER;
        snprintf(what, sizeof what, "no tested %s process is published for %s",
                 pottle_method_name(method != NULL ? (int)*method : 0),
                 recipe->id);
        return refuse(c, error, "no-process-method",
                      pressure_only ? "low-acid-boiling-water" : "no-process",
                      what);
    }
    if (!o->pack) {
        snprintf(what, sizeof what,
                 "no tested %s-pack process is published for %s",
                 pack == POTTLE_RAW_PACK ? "raw" : "hot", recipe->id);
        return refuse(c, error, "no-process-pack", "no-process", what);
    }
    if (!o->jar) {
        snprintf(what, sizeof what,
                 "%s is tested in jars up to %s; %s is larger, and there is no "
                 "process for it",
                 recipe->id, o->largest != NULL ? o->largest->id : "none",
                 jar->id);
        return refuse(c, error, "jar-larger",
                      strcmp(jar->id, "half-gallon") == 0 ? "jar-half-gallon"
                                                          : "jar-size-larger",
                      what);
    }
    snprintf(what, sizeof what,
             "the tested processes of %s end at %d ft; %.0f ft is above",
             recipe->id, o->top_ft, ceil(altitude_ft - 1e-3));
    return refuse(c, error, "altitude-above", "altitude-band", what);
}

/* Only a tested recipe has a process. */
static pottle_status
check_standing(const pottle_catalogue *c, const pottle_recipe *recipe,
               pottle_error *error)
{
    char what[200];
    if (recipe->status == POTTLE_DRAFT) {
        snprintf(what, sizeof what,
                 "%s is a draft: its source is incomplete, nothing is computed "
                 "from it",
                 recipe->id);
        return refuse(c, error, "draft", "draft-recipe", what);
    }
    if (recipe->status == POTTLE_OWN) {
        snprintf(what, sizeof what,
                 "%s is a recipe of your own: it was never tested and has no "
                 "process",
                 recipe->id);
        return refuse(c, error, "own-recipe", "own-recipe", what);
    }
    return POTTLE_OK;
}

pottle_status
pottle_process_exists(const pottle_catalogue *c, const pottle_recipe *recipe,
                      const pottle_jar *jar, pottle_pack_style pack,
                      const double *altitude_m, pottle_error *error)
{
    if (c == NULL || recipe == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue or recipe");
    const double height_m = altitude_m != NULL ? *altitude_m : 0;
    pottle_process found[POTTLE_PROCESS_MAX];
    size_t n = 0;
    pottle_status status = check_standing(c, recipe, error);
    if (status != POTTLE_OK)
        return status;
    if (recipe->process_count == 0)
        return explain(c, recipe, jar, NULL, pack, 0,
                       &(obstacles){ .top_ft = 0 }, error);
    if (jar != NULL)
        return pottle_process_find(c, recipe, jar, NULL, pack, height_m, found,
                                   &n, error);
    /* any of the jars that are listed */
    status = POTTLE_ENOENT;
    for (size_t i = 0; i < recipe->process_count; i++) {
        const pottle_process_table *t = &recipe->process[i];
        for (size_t k = 0; k < t->jars && status != POTTLE_OK; k++) {
            const pottle_jar *listed = pottlei_jar_by_id(c, t->jar[k]);
            if (listed != NULL)
                status = pottle_process_find(c, recipe, listed, NULL, pack,
                                             height_m, found, &n, error);
        }
    }
    if (status == POTTLE_ENOENT)
        return pottlei_fail(error, status, "jars", "no jar of %s is listed",
                            recipe->id);
    return status;
}

pottle_status
pottle_process_find(const pottle_catalogue *c, const pottle_recipe *recipe,
                    const pottle_jar *jar, const pottle_method *method,
                    pottle_pack_style pack, double altitude_m,
                    pottle_process *out, size_t *count, pottle_error *error)
{
    if (c == NULL || recipe == NULL || jar == NULL || out == NULL ||
        count == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, recipe, jar or place for the result");
    if (!(altitude_m >= 0 && altitude_m <= POTTLE_ALTITUDE_MAX_M))
        return pottlei_altitude_fail(error);
    const pottle_status status = check_standing(c, recipe, error);
    if (status != POTTLE_OK)
        return status;
    const double altitude_ft = altitude_m / POTTLEI_FOOT_M;
    obstacles o = { false, false, false, false, 0, NULL };
    pottle_process found[POTTLE_PROCESS_MAX];
    size_t n = 0;
    for (size_t i = 0; i < recipe->process_count; i++) {
        const pottle_process_table *t = &recipe->process[i];
        o.any = true;
        if (method != NULL && t->method != *method)
            continue;
        o.method = true;
        if (pack != POTTLE_ANY_PACK && t->raw != (pack == POTTLE_RAW_PACK))
            continue;
        o.pack = true;
        for (size_t k = 0; k < t->jars; k++) {
            const pottle_jar *tested = pottlei_jar_by_id(c, t->jar[k]);
            if (tested != NULL && (o.largest == NULL ||
                                   tested->nominal_ml > o.largest->nominal_ml))
                o.largest = tested;
        }
        const pottle_jar *tested_as = tested_for(c, t, jar);
        if (tested_as == NULL)
            continue;
        o.jar = true;
        if (tested_as != nearest_for(c, recipe, t, jar))
            continue;
        const pottle_band *band = band_for(t, altitude_ft);
        if (band == NULL) {
            const int top = t->band[t->bands - 1].to_ft;
            o.top_ft = top > o.top_ft ? top : o.top_ft;
        } else if (n < POTTLE_PROCESS_MAX) {
            found[n++] = (pottle_process){
                t, band, jar, tested_as, { t->headspace_in * POTTLEI_INCH_MM }
            };
        }
    }
    if (n == 0)
        return explain(c, recipe, jar, method, pack, altitude_ft, &o, error);
    qsort(found, n, sizeof found[0], by_choice);
    memcpy(out, found, n * sizeof found[0]);
    *count = n;
    return POTTLE_OK;
}
