/* reference_json.h - the reference's recipes, a JSON object to a line. */
#ifndef POTTLE_TESTS_REFERENCE_JSON_H
#define POTTLE_TESTS_REFERENCE_JSON_H

#include <jansson.h>

#include "reference.h"

#define REFERENCE_RECIPES_FILE "recipes/recipes.jsonl"

/* A checked fixture: reads all lines and opens the catalogue, with the parts
 * that recipes need. */
void reference_recipes_open(void);
void reference_recipes_close(void);

/* Calls `one` for each recipe of the reference with the catalogue's recipe of
 * the same id, and ends the section; a recipe that the catalogue lacks is a
 * finding. */
typedef void (*reference_compare)(const char *id, const json_t *printed,
                                  const pottle_recipe *recipe, findings *f);
void reference_recipes_each(const char *section, reference_compare one);

/* A member that must be text; a number or a pair of them. Else the test fails.
 */
const char *json_text(const json_t *object, const char *key);
void json_range(const json_t *value, double *low, double *high);

#endif
