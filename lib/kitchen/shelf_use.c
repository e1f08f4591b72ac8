/* shelf_use.c - which of the jars that are there may be used at all, by one
 * method and one style of pack for all of them. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "kitchen/shelf.h"

void
pottlei_filling_warn(const pottle_catalogue *catalogue, pottle_filling *f,
                     const char *code, const char *rule, const char *text)
{
    if (f->warnings == POTTLEI_SHELF_WARNINGS)
        return;
    const pottle_rule *r =
        rule != NULL ? pottle_rule_find(catalogue, rule) : NULL;
    pottle_warning *w = &f->warning[f->warnings++];
    POTTLEI_SET(w->code, code);
    char whole[640];
    snprintf(whole, sizeof whole, "%s%s%s", text,
             r != NULL && text[0] != '\0' ? " " : "", r != NULL ? r->text : "");
    POTTLEI_SET(w->text, whole);
    w->source = r != NULL ? r->cite.source : "";
    w->at = r != NULL ? r->cite.at : "";
}

bool
pottlei_low_acid(const pottle_recipe *recipe)
{
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (t[i].method == POTTLE_BOILING_WATER)
            return false;
    return n > 0;
}

pottle_status
pottlei_shelf_check(const pottle_shelf_request *r, pottle_error *error)
{
    if (r->version != POTTLE_SHELF_REQUEST_VERSION ||
        (r->sizes > 0 && r->size == NULL))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no sizes, or a request of another version");
    if (r->sizes == 0)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "how-much",
            "there are no jars on the shelf: say which there are");
    if (!(r->cooked_ml >= 0 && r->cooked_ml <= POTTLE_NUMBER_MAX))
        return pottlei_fail(error, POTTLE_EDOMAIN, "cooked",
                            "what is cooked must lie above 0 and up to "
                            "1,000,000,000 mL");
    if (r->has_altitude &&
        !(r->altitude_m >= 0 && r->altitude_m <= POTTLE_ALTITUDE_MAX_M))
        return pottlei_altitude_fail(error);
    if (r->canner != NULL && r->method != NULL &&
        *r->method != r->canner->method)
        return pottlei_fail(error, POTTLE_EDOMAIN, "canner",
                            "%s is %s, and %s is asked for", r->canner->id,
                            pottle_method_name((int)r->canner->method),
                            pottle_method_name((int)*r->method));
    for (size_t i = 0; i < r->sizes; i++) {
        if ((r->size[i].jar == NULL) == (r->size[i].own == NULL))
            return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                                "a size is a listed one or one of one's own");
        if (r->size[i].count > POTTLE_KITCHEN_COUNT_MAX)
            return pottlei_fail(error, POTTLE_EDOMAIN, "count",
                                "more than %d jars of one size",
                                (int)POTTLE_KITCHEN_COUNT_MAX);
    }
    return POTTLE_OK;
}

/* Adds the sizes up and finds the listed size of each. One whose listed size
 * there is not keeps the refusal. */
pottle_status
pottlei_shelf_take(const pottle_catalogue *catalogue, pottle_filling *f,
                   const pottle_shelf_request *r, pottle_error *error)
{
    for (size_t i = 0; i < r->sizes; i++) {
        const pottle_shelf_size *from = &r->size[i];
        size_t k = 0;
        while (k < f->sizes &&
               !(f->size[k].of.own == from->own &&
                 (from->own != NULL || f->size[k].of.jar == from->jar)))
            k++;
        if (k == POTTLE_SHELF_MAX)
            return pottlei_fail(error, POTTLE_EDOMAIN, "shelf",
                                "more than %d sizes of jar",
                                (int)POTTLE_SHELF_MAX);
        pottle_filled *to = &f->size[k];
        if (k < f->sizes) {
            to->of.count += from->count;
            if (to->of.count > POTTLE_KITCHEN_COUNT_MAX)
                return pottlei_fail(error, POTTLE_EDOMAIN, "count",
                                    "more than %d jars of one size",
                                    (int)POTTLE_KITCHEN_COUNT_MAX);
            continue;
        }
        f->sizes++;
        to->of = *from;
        to->allowed = true;
        if (from->own == NULL)
            continue;
        pottle_error why;
        const pottle_status status =
            pottle_own_jar_size(catalogue, from->own, &to->of.jar, &why);
        if (status == POTTLE_OK)
            continue;
        if (status != POTTLE_EBOUNDS) {
            if (error != NULL)
                *error = why;
            return status;
        }
        to->allowed = false;
        POTTLEI_SET(to->code, why.code);
        POTTLEI_SET(to->why, why.what);
    }
    return POTTLE_OK;
}

/* Processes of all sizes by one method and style; how much the jars that have
 * one hold, at their nominal sizes. */
typedef struct option {
    pottle_method method;
    pottle_pack_style pack;
} option;
static double
look_up(const pottle_catalogue *catalogue, const pottle_filling *f,
        const pottle_shelf_request *r, option o,
        pottle_process (*found)[POTTLE_PROCESS_MAX], size_t *founds)
{
    double holds = 0;
    for (size_t i = 0; i < f->sizes; i++) {
        const pottle_filled *s = &f->size[i];
        founds[i] = 0;
        if (s->of.jar == NULL ||
            pottle_process_find(catalogue, f->recipe, s->of.jar, &o.method,
                                o.pack, r->has_altitude ? r->altitude_m : 0,
                                found[i], &founds[i], NULL) != POTTLE_OK)
            founds[i] = 0;
        if (founds[i] > 0)
            holds += (double)s->of.count * s->of.jar->nominal_ml;
    }
    return holds;
}

/* The method and style by which most of the shelf may be used, the first of
 * equals; what stands in the way of the other sizes. */
pottle_status
pottlei_shelf_choose(const pottle_catalogue *catalogue, pottle_filling *f,
                     const pottle_shelf_request *r,
                     pottle_process (*found)[POTTLE_PROCESS_MAX],
                     size_t *founds, pottle_error *error)
{
    const pottle_method *only =
        r->canner != NULL ? &r->canner->method : r->method;
    option best = { POTTLE_BOILING_WATER, POTTLE_HOT_PACK };
    double most = 0;
    for (int m = POTTLE_BOILING_WATER; m <= (int)POTTLE_WEIGHTED_GAUGE; m++)
        for (int p = POTTLE_HOT_PACK; p <= (int)POTTLE_RAW_PACK; p++) {
            const option o = { (pottle_method)m, (pottle_pack_style)p };
            if ((only != NULL && *only != o.method) ||
                (r->pack != POTTLE_ANY_PACK && r->pack != o.pack))
                continue;
            const double holds = look_up(catalogue, f, r, o, found, founds);
            if (holds > most) {
                most = holds;
                best = o;
            }
        }
    const bool none = !(most > 0);
    (void)look_up(catalogue, f, r, best, found, founds);
    if (none) /* the one looked up last may be one that was not asked for */
        memset(founds, 0, f->sizes * sizeof founds[0]);
    for (size_t i = 0; i < f->sizes; i++) {
        pottle_filled *s = &f->size[i];
        pottle_error why;
        pottle_process p[POTTLE_PROCESS_MAX];
        size_t n = 0;
        s->allowed = s->allowed && founds[i] > 0;
        if (s->allowed || s->of.jar == NULL)
            continue;
        const pottle_status status = pottle_process_find(
            catalogue, f->recipe, s->of.jar, none ? only : &best.method,
            none ? r->pack : best.pack, r->has_altitude ? r->altitude_m : 0, p,
            &n, &why);
        if (status != POTTLE_OK && status != POTTLE_EBOUNDS) {
            if (error != NULL)
                *error = why;
            return status;
        }
        POTTLEI_SET(s->code, status == POTTLE_OK ? "no-jars" : why.code);
        POTTLEI_SET(s->why,
                    status == POTTLE_OK ? "none of it is there" : why.what);
        if (none && error != NULL && status == POTTLE_EBOUNDS && i == 0)
            *error = why;
    }
    f->facts.method = best.method;
    f->facts.raw = best.pack == POTTLE_RAW_PACK;
    if (!none)
        return POTTLE_OK;
    if (f->size[0].of.jar == NULL || strcmp(f->size[0].code, "no-jars") == 0)
        return pottlei_refuse(catalogue, error, f->size[0].code,
                              "jar-size-larger", NULL, "%s", f->size[0].why);
    return POTTLE_EBOUNDS;
}
