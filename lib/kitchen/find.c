/* find.c - what can be made of what is on hand.
 *
 * Each tested recipe that uses something of the harvest is scaled to it; the
 * share of the harvest that it uses up, by mass, gives the order. Each
 * candidate owns its recipe and its plan, so the walk reads a file once. */
#include <config.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/kitchen.h"

typedef struct candidate {
    pottle_recipe *recipe;
    pottle_plan *plan;
} candidate;
struct pottle_matches {
    pottle_match *list;
    candidate *owned;
    size_t count, room;
};

void
pottle_matches_free(pottle_matches *m)
{
    if (m == NULL)
        return;
    for (size_t i = 0; i < m->count; i++) {
        pottle_plan_free(m->owned[i].plan);
        pottle_recipe_free(m->owned[i].recipe);
    }
    free(m->list);
    free(m->owned);
    free(m);
}

const pottle_match *
pottle_matches_list(const pottle_matches *m, size_t *count)
{
    *count = m->count;
    return m->list;
}

typedef struct walk {
    const pottle_catalogue *catalogue;
    const pottle_search *search;
    pottle_tell tell;
    void *context;
    pottle_matches *matches;
    pottle_error *error;
    double mass_g[64]; /* of each phrase on hand */
    double total_g;
} walk;

/* Phrases of the harvest that a recipe's lines (not its jars) can take, one for
 * a place. */
static size_t
usable(const walk *w, const pottle_recipe *recipe, pottle_phrase *out)
{
    size_t n = 0, ingredients = 0;
    const pottle_ingredient *in =
        pottle_recipe_ingredients(recipe, &ingredients);
    const char *taken[64] = { NULL };
    for (size_t k = 0; k < w->search->haves && n < 64; k++) {
        const char *food = w->search->have[k].food;
        for (size_t i = 0; i < ingredients && i < 64; i++) {
            /* several heaps of one food are one heap */
            if (pottlei_place_takes(&in[i], food) &&
                (taken[i] == NULL || strcmp(taken[i], food) == 0)) {
                taken[i] = food;
                out[n++] = w->search->have[k];
                break;
            }
        }
    }
    return n;
}

static bool
has_produce(const pottle_recipe *recipe, const pottle_phrase *have,
            size_t haves)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < haves; k++) {
            if (pottlei_place_takes(&in[i], have[k].food) &&
                pottlei_is_produce(&in[i]))
                return true;
        }
    }
    return false;
}

/* Mass of a phrase as it stands, for the share; 0 when it cannot be told. */
static pottle_status
mass_of(const pottle_catalogue *catalogue, const pottle_phrase *phrase,
        double *out, pottle_error *error)
{
    pottle_food *food = NULL;
    pottle_estimate mass = { 0, 0 };
    *out = 0;
    pottle_status status =
        pottle_food_read(catalogue, phrase->food, &food, error);
    if (status == POTTLE_OK &&
        pottle_phrase_mass(catalogue, food, phrase, phrase->state, "", "",
                           &mass, NULL, NULL) == POTTLE_OK)
        *out = mass.median;
    pottle_food_free(food);
    return status;
}

static double
on_hand_g(const walk *w, const char *food)
{
    double g = 0;
    for (size_t k = 0; k < w->search->haves && k < 64; k++)
        g += strcmp(w->search->have[k].food, food) == 0 ? w->mass_g[k] : 0;
    return g;
}

static bool
said_before(const pottle_phrase *have, size_t k)
{
    for (size_t i = 0; i < k; i++)
        if (strcmp(have[i].food, have[k].food) == 0)
            return true;
    return false;
}

/* What a plan leaves of the harvest, in the state the recipe measures, or raw
 * where that is cooked; near enough to the state on hand for an order. */
static double
used_share(const walk *w, const pottle_plan *plan, const pottle_phrase *have,
           size_t haves)
{
    size_t rests = 0, lines = 0;
    const pottle_rest *rest = pottle_plan_rests(plan, &rests);
    const pottle_line *line = pottle_plan_lines(plan, POTTLE_ALL_POTS, &lines);
    double used = 0;
    for (size_t k = 0; k < haves; k++) {
        double taken = 0, left = 0;
        bool raw = false;
        for (size_t i = 0; i < rests; i++) {
            if (strcmp(rest[i].food, have[k].food) != 0)
                continue;
            left += rest[i].mass_g;
            raw = rest[i].state != POTTLE_PREPARED;
        }
        for (size_t i = 0; i < lines; i++)
            if (strcmp(line[i].food, have[k].food) == 0)
                taken +=
                    raw && line[i].raw_g > 0 ? line[i].raw_g : line[i].mass_g;
        if (taken + left > 0 && !said_before(have, k))
            used += on_hand_g(w, have[k].food) * taken / (taken + left);
    }
    return w->total_g > 0 ? fmin(1, used / w->total_g) : 0;
}

/* Mass of the lines that the harvest does not give. */
static double
besides(const pottle_plan *plan, const pottle_phrase *have, size_t haves)
{
    size_t lines = 0;
    const pottle_line *line = pottle_plan_lines(plan, POTTLE_ALL_POTS, &lines);
    double g = 0;
    for (size_t i = 0; i < lines; i++) {
        bool there = strcmp(line[i].food, "water") == 0;
        for (size_t k = 0; k < haves; k++)
            there = there || strcmp(line[i].food, have[k].food) == 0;
        g += there ? 0 : line[i].mass_g;
    }
    return g;
}

static pottle_status
add(walk *w, pottle_recipe *recipe, pottle_plan *plan, double used, size_t uses,
    double besides_g, pottle_error *error)
{
    pottle_matches *m = w->matches;
    if (m->count == m->room) {
        const size_t room = m->room == 0 ? 32 : 2 * m->room;
        pottle_match *list = realloc(m->list, room * sizeof *list);
        if (list != NULL)
            m->list = list;
        candidate *owned =
            list == NULL ? NULL : realloc(m->owned, room * sizeof *owned);
        if (owned == NULL)
            return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
        m->owned = owned;
        m->room = room;
    }
    m->owned[m->count] = (candidate){ recipe, plan };
    m->list[m->count++] = (pottle_match){ recipe, plan, used, uses, besides_g };
    return POTTLE_OK;
}

static bool
wanted(const walk *w, const pottle_recipe *recipe)
{
    const pottle_search *s = w->search;
    if (pottle_recipe_standing(recipe) == POTTLE_DRAFT ||
        (s->kind != NULL && !pottle_recipe_is_kind(recipe, s->kind)))
        return false;
    return !pottle_recipe_needs(recipe, s->without, s->withouts) &&
           has_produce(recipe, s->have, s->haves);
}

static pottle_status
visit(void *context, const pottle_recipe *seen, const pottle_error *wrong)
{
    walk *w = context;
    if (seen == NULL) {
        if (w->tell != NULL)
            w->tell(w->context, false, wrong);
        return POTTLE_OK;
    }
    if (!wanted(w, seen))
        return POTTLE_OK;
    /* the walk keeps its recipe; a match needs its own */
    pottle_recipe *recipe = NULL;
    pottle_plan *plan = NULL;
    pottle_error error;
    pottle_phrase have[64];
    pottle_status status =
        pottle_recipe_again(w->catalogue, seen, &recipe, &error);
    double used = 0;
    size_t haves = 0;
    if (status == POTTLE_OK) {
        haves = usable(w, recipe, have);
        const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                         .have = have,
                                         .haves = haves,
                                         .jar = w->search->jar,
                                         .method = w->search->method };
        status = pottle_scale(w->catalogue, recipe, &request, &plan, &error);
        if (status == POTTLE_OK)
            used = used_share(w, plan, have, haves);
        /* too little for the smallest batch is worth telling; another refusal
         * (jar, canner) means it does not fit the search, and a measure of
         * which no weight is known cannot be compared */
        if (status == POTTLE_OK && pottle_plan_factor(plan) < 0.01)
            status = POTTLE_ENOENT; /* nothing to speak of */
        const bool little = status == POTTLE_EBOUNDS &&
                            strcmp(error.code, "batch-smallest") == 0;
        if (little || status == POTTLE_OK)
            status = add(w, recipe, plan, used, haves,
                         plan != NULL ? besides(plan, have, haves) : 0, &error);
        else if (status == POTTLE_EBOUNDS || status == POTTLE_ENOENT ||
                 status == POTTLE_EAMBIGUOUS || status == POTTLE_EDOMAIN)
            status = POTTLE_ENOENT;
    }
    if (status != POTTLE_OK) {
        pottle_plan_free(plan);
        pottle_recipe_free(recipe);
        if (status == POTTLE_ENOENT)
            return POTTLE_OK;
        if (w->error != NULL)
            *w->error = error;
    }
    return status;
}

static int
by_use(const void *a, const void *b)
{
    const pottle_match *x = a, *y = b;
    if (x->uses != y->uses && (x->plan != NULL) == (y->plan != NULL))
        return x->uses > y->uses ? -1 : 1;
    if ((x->plan != NULL) != (y->plan != NULL))
        return x->plan != NULL ? -1 : 1;
    if (x->used > y->used + 1e-9 || x->used < y->used - 1e-9)
        return x->used > y->used ? -1 : 1;
    if (x->besides_g > y->besides_g || x->besides_g < y->besides_g)
        return x->besides_g < y->besides_g ? -1 : 1;
    return strcmp(pottle_recipe_id(x->recipe), pottle_recipe_id(y->recipe));
}

pottle_status
pottle_recipes_find(const pottle_catalogue *catalogue,
                    const pottle_search *search, pottle_tell tell,
                    void *context, pottle_matches **out, pottle_error *error)
{
    if (catalogue == NULL || search == NULL ||
        search->version != POTTLE_SEARCH_VERSION || out == NULL ||
        search->haves == 0 || search->have == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "how-much",
                            "a search needs something on hand");
    pottle_matches *m = calloc(1, sizeof *m);
    if (m == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    walk w = { .catalogue = catalogue,
               .search = search,
               .tell = tell,
               .context = context,
               .matches = m,
               .error = error };
    pottle_status status = POTTLE_OK;
    for (size_t k = 0; status == POTTLE_OK && k < search->haves && k < 64;
         k++) {
        status = mass_of(catalogue, &search->have[k], &w.mass_g[k], error);
        w.total_g += w.mass_g[k];
    }
    if (status == POTTLE_OK)
        status = pottle_recipes_each(catalogue, visit, &w, error);
    if (status != POTTLE_OK) {
        pottle_matches_free(m);
        return status;
    }
    if (m->count > 0)
        qsort(m->list, m->count, sizeof *m->list, by_use);
    *out = m;
    return POTTLE_OK;
}
