/* kitchen_help.c - the shipped catalogue, and plans asked for in words. */
#include <config.h>

#include "kitchen_help.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PATH_ROOM = 1024, NAMES_MAX = 128 };

pottle_catalogue *kitchen;
const char *kitchen_id[256];
int kitchen_ids;
static char *id_text[256];

static pottle_status
open_shipped(unsigned parts, pottle_catalogue **out, pottle_error *error)
{
    char folder[PATH_ROOM];
    const char *sources = getenv("srcdir");
    snprintf(folder, sizeof folder, "%s/recipes",
             sources != NULL && sources[0] != '\0' ? sources : ".");
    return pottle_catalogue_open(folder, NULL, parts, out, error);
}

static pottle_status
take_id(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    (void)context;
    (void)error;
    if (recipe == NULL || pottle_recipe_standing(recipe) != POTTLE_TESTED ||
        kitchen_ids == (int)(sizeof id_text / sizeof id_text[0]))
        return POTTLE_OK;
    char *text = strdup(pottle_recipe_id(recipe));
    if (text == NULL)
        return POTTLE_ENOMEM;
    id_text[kitchen_ids] = text;
    kitchen_id[kitchen_ids++] = text;
    return POTTLE_OK;
}

bool
kitchen_list(void)
{
    pottle_catalogue *catalogue = NULL;
    pottle_error error = { .status = POTTLE_OK };
    pottle_status status = open_shipped(POTTLE_WITH_ALL, &catalogue, &error);
    if (status == POTTLE_OK)
        status = pottle_recipes_each(catalogue, take_id, NULL, &error);
    pottle_catalogue_free(catalogue);
    if (status != POTTLE_OK || kitchen_ids == 0)
        fprintf(stderr, "%d recipes: %s %s\n", kitchen_ids, error.where,
                error.what);
    return status == POTTLE_OK && kitchen_ids > 0;
}

void
kitchen_unlist(void)
{
    while (kitchen_ids > 0)
        free(id_text[--kitchen_ids]);
}

pottle_catalogue *
kitchen_catalogue(unsigned parts)
{
    pottle_catalogue *catalogue = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = open_shipped(parts, &catalogue, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s:%ld: %s",
                  pottle_strerror((int)status), error.where, error.line,
                  error.what);
    return catalogue;
}

void
kitchen_open(void)
{
    kitchen = kitchen_catalogue(POTTLE_WITH_ALL);
}

void
kitchen_close(void)
{
    pottle_catalogue_free(kitchen);
    kitchen = NULL;
}

pottle_recipe *
kitchen_recipe(const char *id)
{
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(kitchen, id, &recipe, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s: %s:%ld: %s", id,
                  pottle_strerror((int)status), error.where, error.line,
                  error.what);
    return recipe;
}

const pottle_jar *
kitchen_jar(const char *id)
{
    const pottle_jar *jar = NULL;
    const pottle_status status = pottle_jar_find(kitchen, id, &jar, NULL);
    ck_assert_msg(status == POTTLE_OK, "no jar %s", id);
    return jar;
}

static void
add_name(const char **names, size_t *count, const char *name)
{
    for (size_t i = 0; i < *count; i++)
        if (strcmp(names[i], name) == 0)
            return;
    if (*count < NAMES_MAX)
        names[(*count)++] = name;
}

pottle_phrase
kitchen_phrase(const pottle_recipe *recipe, const char *text)
{
    const char *names[NAMES_MAX];
    size_t count = 0, n = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        add_name(names, &count, list[i].food);
        for (size_t k = 0; k < list[i].alternatives; k++)
            add_name(names, &count, list[i].alternative[k].food);
    }
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < per[i].choices; k++)
            add_name(names, &count, per[i].choice[k].food);
    pottle_phrase phrase;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_phrase_read(kitchen, text, names, count, &phrase, &error);
    ck_assert_msg(status == POTTLE_OK, "'%s': %s: %s", text,
                  pottle_strerror((int)status), error.what);
    return phrase;
}

answer
kitchen_ask(const asked *a)
{
    answer out = { .recipe = kitchen_recipe(a->recipe) };
    pottle_phrase have[ASKED_MAX], set[ASKED_MAX];
    pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                               .have = have,
                               .set = set,
                               .batches = a->batches,
                               .fill = a->fill,
                               .pack = a->pack };
    while (request.haves < ASKED_MAX && a->have[request.haves] != NULL) {
        have[request.haves] =
            kitchen_phrase(out.recipe, a->have[request.haves]);
        request.haves++;
    }
    while (request.sets < ASKED_MAX && a->set[request.sets] != NULL) {
        set[request.sets] = kitchen_phrase(out.recipe, a->set[request.sets]);
        request.sets++;
    }
    if (a->jar != NULL)
        request.jar = kitchen_jar(a->jar);
    if (a->altitude != NULL) {
        pottle_quantity altitude;
        ck_assert_int_eq(
            pottle_quantity_read(a->altitude, POTTLE_LENGTH, &altitude, NULL),
            POTTLE_OK);
        request.has_altitude = true;
        request.altitude_m = altitude.low * altitude.unit->factor / 1000.0;
    }
    pottle_method method = POTTLE_BOILING_WATER;
    if (a->canner != NULL) {
        ck_assert_int_eq(pottle_method_find(a->canner, &method, NULL),
                         POTTLE_OK);
        request.method = &method;
    }
    out.status =
        pottle_scale(kitchen, out.recipe, &request, &out.plan, &out.error);
    ck_assert_msg((out.status == POTTLE_OK) == (out.plan != NULL),
                  "%s: status %d and plan %p", a->recipe, (int)out.status,
                  (void *)out.plan);
    return out;
}

answer
kitchen_plan(const asked *a)
{
    const answer out = kitchen_ask(a);
    ck_assert_msg(out.status == POTTLE_OK,
                  "%s: expected a plan, found %s (%s): %s", a->recipe,
                  pottle_strerror((int)out.status), out.error.code,
                  out.error.what);
    return out;
}

void
answer_free(answer *a)
{
    pottle_plan_free(a->plan);
    pottle_recipe_free(a->recipe);
    a->plan = NULL;
    a->recipe = NULL;
}

const pottle_line *
line_in(const pottle_plan *plan, size_t pot, const char *food)
{
    size_t n = 0;
    const pottle_line *line = pottle_plan_lines(plan, pot, &n);
    for (size_t i = 0; i < n; i++)
        if (food == NULL || strcmp(line[i].food, food) == 0)
            return &line[i];
    ck_abort_msg("the plan has no line of %s",
                 food != NULL ? food : "anything");
    return NULL;
}

const pottle_line *
line_of_food(const pottle_plan *plan, const char *food)
{
    return line_in(plan, POTTLE_ALL_POTS, food);
}

const pottle_rest *
rest_of(const pottle_plan *plan, const char *food)
{
    size_t n = 0;
    const pottle_rest *rest = pottle_plan_rests(plan, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(rest[i].food, food) == 0)
            return &rest[i];
    return NULL;
}

bool
has_warning(const pottle_plan *plan, const char *code)
{
    size_t n = 0;
    const pottle_warning *warning = pottle_plan_warnings(plan, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(warning[i].code, code) == 0)
            return true;
    return false;
}

double
published_amount(const pottle_ingredient *ingredient)
{
    return 0.5 * (ingredient->amount + ingredient->amount_to) *
           ingredient->unit->factor;
}

double
line_amount(const pottle_line *line)
{
    const pottle_dimension d = line->ingredient->unit->dimension;
    return d == POTTLE_VOLUME ? line->volume_ml
         : d == POTTLE_COUNT  ? line->count
                              : line->mass_g;
}

double
measured_amount(const pottle_line *line)
{
    return line->has_measure ? line->measure.base : line_amount(line);
}

bool
within(double a, double b, double share)
{
    return fabs(a - b) <= share * fabs(b);
}
