/* fuzz_scale.c - a request that nobody chose, of any shipped recipe.
 *
 * An input is text. From # to the end of the line is for the reader; a first
 * line "@id" names the recipe. Every other printable character is one choice,
 * its value less that of '$', modulo the number of things to choose from;
 * blanks and line ends are skipped, and what is missing is the first choice.
 * The order is that of `choose_request`. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

enum { RECIPES_MAX = 1024, HAVES_MAX = 3, SETS_MAX = 3 };

/* -- The recipes ---------------------------------------------------------- */

static pottle_recipe *recipe_list[RECIPES_MAX];
static size_t recipes;

static void
free_recipes(void)
{
    while (recipes > 0)
        pottle_recipe_free(recipe_list[--recipes]);
}

static pottle_status
keep_recipe(void *context, const pottle_recipe *recipe,
            const pottle_error *error)
{
    (void)context;
    if (recipe == NULL) {
        fprintf(stderr, "%s: %s\n", error->where, error->what);
        return POTTLE_OK;
    }
    if (recipes < RECIPES_MAX &&
        pottle_recipe_read(fuzz_catalogue(), pottle_recipe_id(recipe),
                           &recipe_list[recipes], NULL) == POTTLE_OK)
        recipes++;
    return POTTLE_OK;
}

static void
read_recipes(void)
{
    if (recipes > 0)
        return;
    if (pottle_recipes_each(fuzz_catalogue(), keep_recipe, NULL, NULL) !=
            POTTLE_OK ||
        recipes == 0) {
        fputs("the recipes cannot be read\n", stderr);
        exit(99);
    }
    atexit(free_recipes);
}

/* -- Choices -------------------------------------------------------------- */

typedef struct input {
    const uint8_t *at, *end;
} input;

/* One of n things. */
static size_t
pick(input *in, size_t n)
{
    while (in->at < in->end && (*in->at <= ' ' || *in->at == '#')) {
        if (*in->at == '#')
            while (in->at < in->end && *in->at != '\n')
                in->at++;
        else
            in->at++;
    }
    if (in->at == in->end || n == 0)
        return 0;
    return (size_t)(*in->at++ + 94 - '$') % 94 % n;
}

/* One of more things than there are characters. */
static size_t
pick_many(input *in, size_t n)
{
    const size_t high = pick(in, 94);
    return n == 0 ? 0 : (high * 94 + pick(in, 94)) % n;
}

static const pottle_recipe *
pick_recipe(input *in)
{
    input line = *in;
    while (line.at < line.end && *line.at == '#') {
        while (line.at < line.end && *line.at++ != '\n')
            ;
    }
    if (line.at < line.end && *line.at == '@') {
        const uint8_t *id = ++line.at;
        while (line.at < line.end && *line.at != '\n')
            line.at++;
        const size_t n = (size_t)(line.at - id);
        for (size_t i = 0; i < recipes; i++) {
            const char *known = pottle_recipe_id(recipe_list[i]);
            if (strlen(known) == n && memcmp(known, id, n) == 0) {
                *in = line;
                return recipe_list[i];
            }
        }
    }
    return recipe_list[pick_many(in, recipes)];
}

/* An amount from a teaspoon's part to a lorry's load, and what is no amount. */
static double
pick_number(input *in)
{
    static const double odd[] = {
        0, -1, 1e9, 1e-6, 3e12, (double)NAN, HUGE_VAL
    };
    const size_t shape = pick(in, 20);
    const double digits = 1 + (double)pick(in, 94) / 8;
    if (shape >= 18)
        return odd[pick(in, sizeof odd / sizeof odd[0])];
    return digits * pow(10, (double)(shape % 6) - 2);
}

/* A food of the recipe, what may stand in its place, what goes into its jars,
 * or any food at all. */
static const char *
pick_food(input *in, const pottle_recipe *recipe)
{
    size_t n = 0, doses = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &doses);
    const size_t which = pick(in, n + doses + 1);
    if (which < n) {
        const pottle_ingredient *i = &list[which];
        const size_t k = pick(in, i->alternatives + 1);
        return k == 0 ? i->food : i->alternative[k - 1].food;
    }
    if (which < n + doses) {
        const pottle_per_jar *p = &per[which - n];
        return p->choice[pick(in, p->choices)].food;
    }
    size_t foods = 0;
    while (pottle_food_at(fuzz_catalogue(), foods) != NULL)
        foods++;
    return pottle_food_at(fuzz_catalogue(), pick_many(in, foods));
}

static void
pick_phrase(input *in, const pottle_recipe *recipe, pottle_phrase *p)
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
    snprintf(p->food, sizeof p->food, "%s", pick_food(in, recipe));
    p->low = p->high = pick_number(in);
    if (pick(in, 8) == 1)
        p->high = 1.25 * p->low;
    p->unit = pottle_unit_find(units[pick(in, sizeof units / sizeof units[0])]);
    snprintf(p->form, sizeof p->form, "%s",
             forms[pick(in, sizeof forms / sizeof forms[0])]);
    snprintf(p->size, sizeof p->size, "%s",
             sizes[pick(in, sizeof sizes / sizeof sizes[0])]);
    p->state = (pottle_state)pick(in, 3);
    p->state_said = pick(in, 2) == 0;
    p->percent = strengths[pick(in, sizeof strengths / sizeof strengths[0])];
}

typedef struct wish {
    pottle_request request;
    pottle_phrase have[HAVES_MAX], set[SETS_MAX];
    pottle_method method;
} wish;

static void
choose_request(input *in, const pottle_recipe *recipe, wish *w)
{
    static const double heights_m[] = { 0,    304.8,  304.9,  609.6,
                                        1000, 1828.8, 1829.0, 2438.4,
                                        3048, 9999,   -1,     (double)NAN };
    memset(w, 0, sizeof *w);
    pottle_request *r = &w->request;
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(fuzz_catalogue(), &jars);
    r->version = POTTLE_REQUEST_VERSION;
    const size_t how = pick(in, 6);
    if (how == 0)
        r->batches = pick_number(in);
    else if (how == 1)
        r->fill = pick_number(in);
    else
        r->haves = 1 + how % HAVES_MAX;
    const size_t which = pick(in, jars + 1);
    r->jar = which == 0 ? NULL : &jar[which - 1];
    const size_t height = pick(in, sizeof heights_m / sizeof heights_m[0] + 1);
    r->has_altitude = height > 0;
    r->altitude_m = height > 0 ? heights_m[height - 1] : 0;
    const size_t method = pick(in, 4);
    w->method = (pottle_method)(method > 0 ? method - 1 : 0);
    r->method = method > 0 ? &w->method : NULL;
    r->pack = (pottle_pack_style)pick(in, 3);
    r->sets = pick(in, SETS_MAX + 1);
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
    read_recipes();
    input in = { data, data + size };
    const pottle_recipe *recipe = pick_recipe(&in);
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
