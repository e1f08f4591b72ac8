/* without.c - what a recipe has of some foods, and what it does where they are
 * not there. A place is impossible when every food that may stand in it is
 * missing; all that is missing is judged together, for two of them may each be
 * the other's way out. */
#include <config.h>

#include <string.h>

#include "kitchen/kitchen.h"

static bool
among(const char *const *food, size_t count, const char *id)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(food[i], id) == 0)
            return true;
    return false;
}

/* A place of a recipe or of its jars: the foods that may stand in it. */
typedef struct place {
    const pottle_ingredient *line; /* or NULL: in the jars */
    const pottle_per_jar *jar;
    bool optional;
    size_t foods;
} place;

static place
place_at(const pottle_recipe *recipe, size_t i)
{
    size_t lines = 0, jars = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &lines);
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &jars);
    if (i < lines)
        return (place){ &in[i], NULL, in[i].optional, in[i].alternatives + 1 };
    i -= lines;
    if (i < jars)
        return (place){ NULL, &per[i], per[i].optional, per[i].choices };
    return (place){ .foods = 0 };
}

static size_t
places(const pottle_recipe *recipe)
{
    size_t lines = 0, jars = 0;
    pottle_recipe_ingredients(recipe, &lines);
    pottle_recipe_per_jar(recipe, &jars);
    return lines + jars;
}

/* The foods of a place, the recipe's own first. */
static const char *
food_at(const place *p, size_t i)
{
    if (p->line == NULL)
        return p->jar->choice[i].food;
    return i == 0 ? p->line->food : p->line->alternative[i - 1].food;
}

/* The first food of a place that is in the list, or is not; NULL for none. */
static const char *
first_of(const place *p, const char *const *food, size_t count, bool in_list)
{
    for (size_t i = 0; i < p->foods; i++)
        if (among(food, count, food_at(p, i)) == in_list)
            return food_at(p, i);
    return NULL;
}

bool
pottlei_place_takes(const pottle_ingredient *ingredient, const char *food)
{
    const place p = { .line = ingredient,
                      .foods = ingredient->alternatives + 1 };
    return first_of(&p, &food, 1, true) != NULL;
}

bool
pottle_recipe_uses(const pottle_recipe *recipe, const char *const *food,
                   size_t count)
{
    const size_t n = places(recipe);
    for (size_t i = 0; i < n; i++) {
        const place p = place_at(recipe, i);
        if (first_of(&p, food, count, true) != NULL)
            return true;
    }
    return false;
}

bool
pottle_recipe_needs(const pottle_recipe *recipe, const char *const *food,
                    size_t count)
{
    const size_t n = places(recipe);
    for (size_t i = 0; i < n; i++) {
        const place p = place_at(recipe, i);
        if (!p.optional && p.foods > 0 &&
            first_of(&p, food, count, false) == NULL)
            return true;
    }
    return false;
}

size_t
pottle_recipe_spares(const pottle_recipe *recipe, const char *const *food,
                     size_t count, pottle_spare *out, size_t room)
{
    const size_t n = places(recipe);
    size_t found = 0;
    for (size_t i = 0; i < n; i++) {
        const place p = place_at(recipe, i);
        if (p.foods == 0 || !among(food, count, food_at(&p, 0)))
            continue; /* it takes another one anyway */
        const pottle_spare s = { food_at(&p, 0),
                                 first_of(&p, food, count, false) };
        bool told = false;
        /* two bottles of colour are left out once */
        for (size_t k = 0; k < found && k < room && !told; k++)
            told =
                strcmp(out[k].food, s.food) == 0 &&
                (out[k].instead == NULL) == (s.instead == NULL) &&
                (s.instead == NULL || strcmp(out[k].instead, s.instead) == 0);
        if (told)
            continue;
        if (found < room)
            out[found] = s;
        found++;
    }
    return found;
}
