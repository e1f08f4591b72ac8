/* choose.c - choices among what the catalogue has, made by the bytes of an
 * input.
 *
 * An input is text. From # to the end of the line is for the reader; a first
 * line "@id" names the recipe. Every other printable character is one choice,
 * its value less that of '$', modulo the number of things to choose from;
 * blanks and line ends are skipped, and what is missing is the first choice. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

enum { RECIPES_MAX = 1024 };

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

size_t
fuzz_pick(fuzz_input *in, size_t n)
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

size_t
fuzz_pick_many(fuzz_input *in, size_t n)
{
    const size_t high = fuzz_pick(in, 94);
    return n == 0 ? 0 : (high * 94 + fuzz_pick(in, 94)) % n;
}

const pottle_recipe *
fuzz_pick_recipe(fuzz_input *in)
{
    read_recipes();
    fuzz_input line = *in;
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
    return recipe_list[fuzz_pick_many(in, recipes)];
}

double
fuzz_pick_number(fuzz_input *in)
{
    static const double odd[] = {
        0, -1, 1e9, 1e-6, 3e12, (double)NAN, HUGE_VAL
    };
    const size_t shape = fuzz_pick(in, 20);
    const double digits = 1 + (double)fuzz_pick(in, 94) / 8;
    if (shape >= 18)
        return odd[fuzz_pick(in, sizeof odd / sizeof odd[0])];
    return digits * pow(10, (double)(shape % 6) - 2);
}

const char *
fuzz_pick_food(fuzz_input *in, const pottle_recipe *recipe)
{
    size_t n = 0, doses = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &doses);
    const size_t which = fuzz_pick(in, n + doses + 1);
    if (which < n) {
        const pottle_ingredient *i = &list[which];
        const size_t k = fuzz_pick(in, i->alternatives + 1);
        return k == 0 ? i->food : i->alternative[k - 1].food;
    }
    if (which < n + doses) {
        const pottle_per_jar *p = &per[which - n];
        return p->choice[fuzz_pick(in, p->choices)].food;
    }
    size_t foods = 0;
    while (pottle_food_at(fuzz_catalogue(), foods) != NULL)
        foods++;
    return pottle_food_at(fuzz_catalogue(), fuzz_pick_many(in, foods));
}
