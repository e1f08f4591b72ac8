/* holdings.c - what is on hand: the factor it allows, and what is left of it.
 *
 * Heaps of one food are one heap. A food that a recipe has in several places is
 * shared out among them as the recipe does. The scarcest of what is not free
 * decides. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/plan.h"

static size_t
first_line(const pottle_plan *plan, const char *food)
{
    size_t i = 0;
    while (i < plan->lines && strcmp(plan->list[i].food, food) != 0)
        i++;
    return i;
}

/* All lines of a food in the published batch, as one. */
typedef struct heap {
    size_t first;
    double mass_g, volume_ml, raw_g;
    bool by_volume, binding;
} heap;

static heap
lines_of(const pottle_plan *plan, const char *food)
{
    heap h = { first_line(plan, food), 0, 0, 0, true, false };
    for (size_t i = h.first; i < plan->lines; i++) {
        const pottle_ingredient *in = plan->list[i].ingredient;
        if (strcmp(plan->list[i].food, food) != 0)
            continue;
        h.mass_g += plan->amount[i].mass_g.median;
        h.volume_ml += plan->amount[i].volume_ml;
        h.raw_g += plan->amount[i].raw_g;
        h.by_volume = h.by_volume && in->unit->dimension == POTTLE_VOLUME;
        h.binding = h.binding || in->keep != POTTLE_FREE ||
                    strcmp(in->role, "produce") == 0;
    }
    return h;
}

/* All phrases of a food, in published batches. */
static pottle_status
on_hand(const pottle_catalogue *catalogue, const pottle_plan *plan,
        const pottle_request *request, const char *food, const heap *h,
        pottle_estimate *out, pottle_error *error)
{
    pottle_estimate sum = { 0, 0 };
    for (size_t k = 0; k < request->haves; k++) {
        pottle_estimate pair[2] = { sum, { 0, 0 } };
        if (strcmp(request->have[k].food, food) != 0)
            continue;
        const pottle_status status = pottlei_batches_of(
            catalogue, plan, h->first, &request->have[k], &pair[1], error);
        if (status != POTTLE_OK)
            return status;
        sum = sum.median > 0 ? pottle_estimate_sum(pair, 2) : pair[1];
    }
    const double first = plan->amount[h->first].mass_g.median;
    *out = h->mass_g > first && first > 0
             ? pottle_estimate_multiple(sum, first / h->mass_g)
             : sum;
    return POTTLE_OK;
}

/* The factor that an amount of a line makes. A batch smaller than the published
 * one may take more in proportion. */
static double
factor_of(const pottle_plan *plan, size_t i, double batches)
{
    const double largest = pottle_recipe_batch(plan->recipe)->largest;
    const double whole = floor(batches / largest * (1 + 1e-12)) * largest,
                 part = batches - whole;
    const double more = pottlei_pot_share(plan->list[i].ingredient, 0.5) / 0.5;
    return part > 0 && more > 1 ? whole + part / more : batches;
}

static bool
said_before(const pottle_request *request, size_t k)
{
    for (size_t i = 0; i < k; i++)
        if (strcmp(request->have[i].food, request->have[k].food) == 0)
            return true;
    return false;
}

pottle_status
pottlei_factor_from_have(const pottle_catalogue *catalogue, pottle_plan *plan,
                         const pottle_request *request, double *factor,
                         pottle_error *error)
{
    const char *limit = "";
    double least = HUGE_VAL;
    /* what is free decides only when nothing else was said */
    for (int pass = 0; pass < 2 && !(least < HUGE_VAL); pass++) {
        for (size_t k = 0; k < request->haves; k++) {
            const heap h = lines_of(plan, request->have[k].food);
            pottle_estimate batches;
            const pottle_status status =
                on_hand(catalogue, plan, request, request->have[k].food, &h,
                        &batches, error);
            if (status != POTTLE_OK)
                return status;
            const double f = factor_of(plan, h.first, batches.median);
            if ((h.binding || pass == 1) && f < least) {
                least = f;
                plan->factor_sd = batches.sd;
                limit = plan->list[h.first].title;
            }
        }
    }
    snprintf(plan->limit, sizeof plan->limit, "have %.60s", limit);
    *factor = least;
    return POTTLE_OK;
}

/* Whether any of a food on hand is still to be cooked, of a line that measures
 * it cooked. */
static bool
is_raw(const pottle_plan *plan, const pottle_request *request, const heap *h,
       const char *food)
{
    for (size_t k = 0; k < request->haves; k++)
        if (strcmp(request->have[k].food, food) == 0 &&
            strcmp(request->have[k].form, plan->list[h->first].form) != 0)
            return h->raw_g > 0;
    return false;
}

/* What is left of a heap, in the state in which it lies there. */
static pottle_rest
rest_of(const pottle_plan *plan, const pottle_request *request, const heap *h,
        double batches)
{
    const pottle_line *line = &plan->list[h->first];
    if (is_raw(plan, request, h, line->food))
        return (pottle_rest){ line->food, line->title, batches * h->raw_g, 0,
                              POTTLE_PURCHASED };
    return (pottle_rest){ line->food, line->title, batches * h->mass_g,
                          h->by_volume ? batches * h->volume_ml : 0,
                          line->ingredient->state };
}

pottle_status
pottlei_leave_over(const pottle_catalogue *catalogue, pottle_plan *plan,
                   const pottle_request *request, pottle_error *error)
{
    for (size_t k = 0; k < request->haves; k++) {
        const char *food = request->have[k].food;
        if (said_before(request, k))
            continue;
        const heap h = lines_of(plan, food);
        pottle_estimate batches;
        const pottle_status status =
            on_hand(catalogue, plan, request, food, &h, &batches, error);
        if (status != POTTLE_OK)
            return status;
        double used_g = 0, used_ml = 0, used_count = 0;
        for (size_t i = 0; i < plan->lines; i++) {
            if (strcmp(plan->list[i].food, food) != 0)
                continue;
            used_g += plan->list[i].mass_g;
            used_ml += plan->list[i].volume_ml;
            used_count += plan->list[i].count;
        }
        const double used = h.mass_g > 0    ? used_g / h.mass_g
                          : h.volume_ml > 0 ? used_ml / h.volume_ml
                                            : used_count;
        const double left = batches.median - used;
        const pottle_line *line = &plan->list[h.first];
        if (left < -1e-9 * used) {
            char text[320];
            snprintf(text, sizeof text,
                     "less %s than the recipe has; its amount is free, so what "
                     "there is will do",
                     line->title);
            pottlei_plan_warn(plan, "short-of-free",
                              line->ingredient->cite.source,
                              line->ingredient->cite.at, text);
        } else if (left > 1e-6 * used && plan->rests < POTTLEI_LINES_MAX) {
            plan->rest[plan->rests++] = rest_of(plan, request, &h, left);
        }
    }
    return POTTLE_OK;
}
