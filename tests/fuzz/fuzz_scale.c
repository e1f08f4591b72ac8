/* fuzz_scale.c - a request that nobody chose, of any shipped recipe.
 *
 * The input is choices (choose.c) in the order of `choose_request`. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

enum { HAVES_MAX = 3, SETS_MAX = 3 };

/* -- The request ---------------------------------------------------------- */

static void
pick_phrase(fuzz_input *in, const pottle_recipe *recipe, pottle_phrase *p)
{
    static const char *const units[] = { "lb",    "g",   "cup",    "count",
                                         "qt",    "kg",  "tbsp",   "oz",
                                         "tsp",   "pt",  "bushel", "dry-pint",
                                         "dozen", "box", "peck",   "mm" };
    static const char *const forms[] = { "",        "whole",   "sliced",
                                         "chopped", "diced",   "liquid",
                                         "ground",  "crushed", "packed",
                                         "leaves" };
    static const char *const sizes[] = { "",      "one",   "small", "medium",
                                         "large", "clove", "box",   "stalk" };
    static const double strengths[] = { 0, 5, 4, 7, 100 };
    memset(p, 0, sizeof *p);
    snprintf(p->food, sizeof p->food, "%s", fuzz_pick_food(in, recipe));
    p->low = p->high = fuzz_pick_number(in);
    if (fuzz_pick(in, 8) == 1)
        p->high = 1.25 * p->low;
    p->unit =
        pottle_unit_find(units[fuzz_pick(in, sizeof units / sizeof units[0])]);
    snprintf(p->form, sizeof p->form, "%s",
             forms[fuzz_pick(in, sizeof forms / sizeof forms[0])]);
    snprintf(p->size, sizeof p->size, "%s",
             sizes[fuzz_pick(in, sizeof sizes / sizeof sizes[0])]);
    p->state = (pottle_state)fuzz_pick(in, 3);
    p->state_said = fuzz_pick(in, 2) == 0;
    p->percent =
        strengths[fuzz_pick(in, sizeof strengths / sizeof strengths[0])];
}

typedef struct wish {
    pottle_request request;
    pottle_phrase have[HAVES_MAX], set[SETS_MAX];
    pottle_method method;
} wish;

static void
choose_request(fuzz_input *in, const pottle_recipe *recipe, wish *w)
{
    static const double heights_m[] = { 0,    304.8,  304.9,  609.6,
                                        1000, 1828.8, 1829.0, 2438.4,
                                        3048, 9999,   -1,     (double)NAN };
    memset(w, 0, sizeof *w);
    pottle_request *r = &w->request;
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(fuzz_catalogue(), &jars);
    r->version = POTTLE_REQUEST_VERSION;
    const size_t how = fuzz_pick(in, 6);
    if (how == 0)
        r->batches = fuzz_pick_number(in);
    else if (how == 1)
        r->fill = fuzz_pick_number(in);
    else
        r->haves = 1 + how % HAVES_MAX;
    const size_t which = fuzz_pick(in, jars + 1);
    r->jar = which == 0 ? NULL : &jar[which - 1];
    const size_t height =
        fuzz_pick(in, sizeof heights_m / sizeof heights_m[0] + 1);
    r->has_altitude = height > 0;
    r->altitude_m = height > 0 ? heights_m[height - 1] : 0;
    const size_t method = fuzz_pick(in, 4);
    w->method = (pottle_method)(method > 0 ? method - 1 : 0);
    r->method = method > 0 ? &w->method : NULL;
    r->pack = (pottle_pack_style)fuzz_pick(in, 3);
    r->sets = fuzz_pick(in, SETS_MAX + 1);
    for (size_t i = 0; i < r->haves; i++)
        pick_phrase(in, recipe, &w->have[i]);
    for (size_t i = 0; i < r->sets; i++)
        pick_phrase(in, recipe, &w->set[i]);
    r->have = w->have;
    r->set = w->set;
}

/* -- The target ----------------------------------------------------------- */

int
target_scale(const uint8_t *data, size_t size)
{
    static const pottle_status allowed[] = {
        POTTLE_EBOUNDS,    POTTLE_ENOENT, POTTLE_EDOMAIN, POTTLE_EMISUSE,
        POTTLE_EAMBIGUOUS, POTTLE_EUNIT,  POTTLE_OK,
    };
    fuzz_input in = { data, data + size };
    const pottle_recipe *recipe = fuzz_pick_recipe(&in);
    wish w;
    choose_request(&in, recipe, &w);
    pottle_plan *plan = NULL;
    pottle_error error;
    const pottle_status status =
        pottle_scale(fuzz_catalogue(), recipe, &w.request, &plan, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, allowed, "scaling");
        fuzz_refusal(status, &error);
        fuzz_expect(plan == NULL, "a plan that is refused is written");
    } else {
        fuzz_plan(recipe, &w.request, plan);
    }
    const int verdict = fuzz_verdict();
    if (verdict != 0)
        fprintf(stderr, "recipe %s, %zu on hand, %zu set\n",
                pottle_recipe_id(recipe), w.request.haves, w.request.sets);
    pottle_plan_free(plan);
    return verdict;
}
