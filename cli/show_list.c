/* show_list.c - pottle show --list: the ids of one kind of thing, a line each,
 * for the completion of shells and for scripts. */
#include "cli.h"

#include <string.h>

/* Ids are collected: a list is printed when it is complete, or not at all. */
typedef struct listing {
    json_t *array;
    bool kinds;    /* the kinds of the recipes, not the recipes */
    char last[64]; /* the kind that was listed last */
} listing;

static void
put(listing *l, const char *id)
{
    json_array_append_new(l->array, json_string(id));
}

static pottle_status
visit(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    listing *l = context;
    (void)error; /* `recipes` tells what is wrong with a file */
    if (recipe == NULL)
        return POTTLE_OK;
    if (!l->kinds) {
        put(l, pottle_recipe_id(recipe));
    } else if (pottle_recipe_standing(recipe) != POTTLE_OWN &&
               strcmp(pottle_recipe_kind(recipe), l->last) != 0) {
        snprintf(l->last, sizeof l->last, "%s", pottle_recipe_kind(recipe));
        put(l, l->last);
    }
    return POTTLE_OK;
}

static pottle_status
list_recipes(const pottle_catalogue *c, listing *l, pottle_error *error)
{
    return pottle_recipes_each(c, visit, l, error);
}

static pottle_status
list_kinds(const pottle_catalogue *c, listing *l, pottle_error *error)
{
    l->kinds = true;
    return pottle_recipes_each(c, visit, l, error);
}

static pottle_status
list_foods(const pottle_catalogue *c, listing *l, pottle_error *error)
{
    (void)error;
    const char *id;
    for (size_t i = 0; (id = pottle_food_at(c, i)) != NULL; i++)
        put(l, id);
    return POTTLE_OK;
}

static pottle_status
list_jars(const pottle_catalogue *c, listing *l, pottle_error *error)
{
    (void)error;
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(c, &n);
    for (size_t i = 0; i < n; i++)
        put(l, jar[i].id);
    return POTTLE_OK;
}

static pottle_status
list_mishaps(const pottle_catalogue *c, listing *l, pottle_error *error)
{
    (void)error;
    size_t n = 0;
    const pottle_mishap *mishap = pottle_mishaps(c, &n);
    for (size_t i = 0; i < n; i++)
        put(l, mishap[i].id);
    return POTTLE_OK;
}

/* Those that an amount of food may have. */
static pottle_status
list_units(const pottle_catalogue *c, listing *l, pottle_error *error)
{
    (void)c;
    (void)error;
    const pottle_unit *u;
    for (size_t i = 0; (u = pottle_unit_at(i)) != NULL; i++)
        if (u->dimension == POTTLE_MASS || u->dimension == POTTLE_VOLUME ||
            u->dimension == POTTLE_COUNT || u->dimension == POTTLE_CONTAINER)
            put(l, u->id);
    return POTTLE_OK;
}

/* Each reads no more of the catalogue than it needs: a person waits for it at
 * every press of the tabulator. */
static const struct {
    const char *name;
    unsigned parts;
    pottle_status (*list)(const pottle_catalogue *, listing *, pottle_error *);
} lists[] = {
    { "recipes", POTTLE_WITH_NAMES, list_recipes },
    { "foods", POTTLE_WITH_NAMES, list_foods },
    { "jars", POTTLE_WITH_JARS, list_jars },
    { "units", 0, list_units },
    { "kinds", POTTLE_WITH_NAMES, list_kinds },
    { "mishaps", POTTLE_WITH_RESCUE, list_mishaps },
};

int
show_list(const command *self, const args *a, bool json)
{
    const char *what = args_value(a, "list");
    if (a->operands != 0)
        return usage_error(self, "--list takes no recipe, food or jar");
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        if (strcmp(lists[i].name, what) != 0)
            continue;
        pottle_catalogue *c = NULL;
        int result = open_catalogue(a, lists[i].parts, &c);
        if (result != DONE)
            return result;
        pottle_error error;
        listing l = { .array = json_array() };
        if (lists[i].list(c, &l, &error) != POTTLE_OK) {
            result = report(c, &error);
        } else if (json) {
            result = print_json(json_incref(l.array));
        } else if ((result = json_whole()) == DONE) {
            size_t k;
            json_t *id;
            json_array_foreach(l.array, k, id) { puts(json_string_value(id)); }
        }
        json_decref(l.array);
        pottle_catalogue_free(c);
        return result;
    }
    return usage_error(self,
                       "there is no list of '%.60s'; there are recipes, "
                       "foods, jars, units, kinds and mishaps",
                       what);
}
