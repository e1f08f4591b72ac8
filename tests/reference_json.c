/* reference_json.c - the reference's recipes, a JSON object to a line. */
#include "reference_json.h"

#include <stdlib.h>
#include <string.h>

enum { RECIPES = 83 };

static pottle_catalogue *catalogue;
static json_t *recipes[RECIPES];

void
reference_recipes_open(void)
{
    char *text = reference_text(REFERENCE_RECIPES_FILE);
    size_t n = 0;
    for (char *at = strtok(text, "\n"); at != NULL; at = strtok(NULL, "\n")) {
        json_error_t error;
        ck_assert_msg(n < RECIPES, "there are more than %d recipes", RECIPES);
        recipes[n] = json_loads(at, 0, &error);
        ck_assert_msg(recipes[n] != NULL, "recipe %zu: %s", n + 1, error.text);
        n++;
    }
    free(text);
    ck_assert_uint_eq(n, RECIPES);
    catalogue = reference_catalogue(POTTLE_WITH_JARS | POTTLE_WITH_RULES);
}

void
reference_recipes_close(void)
{
    pottle_catalogue_free(catalogue);
    for (size_t i = 0; i < RECIPES; i++)
        json_decref(recipes[i]);
}

void
reference_recipes_each(const char *section, reference_compare one)
{
    findings f = { section, 0, 0 };
    for (size_t i = 0; i < RECIPES; i++) {
        const char *id = json_text(recipes[i], "id");
        pottle_recipe *recipe = reference_recipe(catalogue, id, &f);
        if (recipe != NULL)
            one(id, recipes[i], recipe, &f);
        pottle_recipe_free(recipe);
    }
    findings_end(&f);
}

const char *
json_text(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    ck_assert_msg(text != NULL, "%s is no text", key);
    return text;
}

void
json_range(const json_t *value, double *low, double *high)
{
    const bool pair = json_is_array(value);
    const json_t *first = pair ? json_array_get(value, 0) : value,
                 *last = pair ? json_array_get(value, 1) : value;
    ck_assert(json_is_number(first) && json_is_number(last));
    *low = json_number_value(first);
    *high = json_number_value(last);
}
