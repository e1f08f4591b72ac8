/* besides.c - what a recipe takes besides what is on hand, and what it does
 * where something is not there. */
#include "cli.h"

#include <string.h>

enum { SPARES_MAX = 16 };

static bool
among(const char *const *food, size_t count, const char *id)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(food[i], id) == 0)
            return true;
    return false;
}

static bool
on_hand(const besides_asked *k, const char *food)
{
    for (size_t i = 0; i < k->haves; i++)
        if (strcmp(k->have[i].food, food) == 0)
            return true;
    return false;
}

/* Whether a line must be got: it is not there, and is neither left out nor
 * water. What is done without is told by itself. */
static bool
is_missing(const besides_asked *k, const pottle_line *l)
{
    return !on_hand(k, l->food) && !l->ingredient->optional &&
           strcmp(l->food, "water") != 0 && l->mass_g > 0 &&
           !among(k->without, k->withouts, l->food);
}

static bool
dose_missing(const besides_asked *k, const pottle_plan *plan,
             const pottle_dose *d)
{
    const pottle_jar_count *j = pottle_plan_jars(plan);
    return d->choice == 0 && !d->per_jar->optional && !on_hand(k, d->food) &&
           j != NULL && j->prepare > 0 &&
           !among(k->without, k->withouts, d->food);
}

static void
amount_text(const pottle_line *l, char *buf, size_t size)
{
    if (l->has_measure)
        line_measure(l, buf, size);
    else
        mass_text(l->mass_g, buf, size);
}

static void
dose_measure(const pottle_plan *plan, const pottle_dose *d, char *buf,
             size_t size)
{
    dose_text(d->count, d->unit, d->size, pottle_plan_jars(plan)->prepare,
              d->per_jar->keep, buf, size);
}

json_t *
besides_json(const besides_asked *k, const pottle_plan *plan)
{
    json_t *list = json_array();
    size_t n = 0;
    char measure[100];
    if (plan == NULL)
        return list;
    const pottle_line *l = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++) {
        if (!is_missing(k, &l[i]))
            continue;
        amount_text(&l[i], measure, sizeof measure);
        json_array_append_new(
            list,
            json_pack("{s:s, s:s, s:o, s:s, s:o, s:o, s:s}", "food", l[i].food,
                      "title", l[i].title, "form", json_text(l[i].form),
                      "state", pottle_state_name((int)l[i].ingredient->state),
                      "mass_g", json_real(l[i].mass_g), "raw_g",
                      l[i].raw_g > 0 ? json_number(l[i].raw_g) : json_null(),
                      "measure", measure));
    }
    const pottle_dose *d = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++) {
        if (!dose_missing(k, plan, &d[i]))
            continue;
        dose_measure(plan, &d[i], measure, sizeof measure);
        json_array_append_new(
            list, json_pack("{s:s, s:s, s:n, s:n, s:n, s:n, s:s}", "food",
                            d[i].food, "title", d[i].title, "form", "state",
                            "mass_g", "raw_g", "measure", measure));
    }
    return list;
}

static void
add(char *text, size_t size, const char *measure, const char *name)
{
    const size_t n = strlen(text);
    snprintf(text + n, size - n, "%s%s %s", n == 0 ? "" : "; ", measure, name);
}

void
besides_text(const besides_asked *k, const pottle_plan *plan, char *buf,
             size_t size)
{
    size_t n = 0;
    char measure[100], name[200];
    buf[0] = '\0';
    const pottle_line *l = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++) {
        if (!is_missing(k, &l[i]))
            continue;
        amount_text(&l[i], measure, sizeof measure);
        line_name(k->catalogue, &l[i], ", ", name, sizeof name);
        add(buf, size, measure, name);
    }
    const pottle_dose *d = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++) {
        if (!dose_missing(k, plan, &d[i]))
            continue;
        dose_measure(plan, &d[i], measure, sizeof measure);
        add(buf, size, measure, d[i].title);
    }
    if (buf[0] == '\0')
        snprintf(buf, size, "nothing else");
}

/* -- What is not there ----------------------------------------------------- */

/* The wider food of which a recipe must take another kind: "nuts, any kind" of
 * somebody who takes no walnuts. NULL: none. */
static const char *
wider(const besides_asked *k, const pottle_recipe *recipe, const char *food)
{
    const char *above = pottle_food_under(k->catalogue, food);
    return above != NULL && !among(k->without, k->withouts, above) &&
                   pottle_recipe_uses(recipe, &above, 1)
             ? above
             : NULL;
}

json_t *
spares_json(const besides_asked *k, const pottle_recipe *recipe)
{
    pottle_spare s[SPARES_MAX];
    json_t *list = json_array();
    const size_t n =
        pottle_recipe_spares(recipe, k->without, k->withouts, s, SPARES_MAX);
    for (size_t i = 0; i < n && i < SPARES_MAX; i++)
        json_array_append_new(list, json_pack("{s:s, s:s?}", "food", s[i].food,
                                              "instead", s[i].instead));
    for (size_t i = 0; i < k->withouts; i++) {
        const char *above = wider(k, recipe, k->without[i]);
        if (above != NULL)
            json_array_append_new(
                list,
                json_pack("{s:s, s:s}", "food", k->without[i], "among", above));
    }
    return list;
}

/* Title of a food; its id where its file is broken, which a check tells. */
static void
title_of(const pottle_catalogue *catalogue, const char *id, char *buf,
         size_t size)
{
    pottle_food *food = NULL;
    const bool read = pottle_food_read(catalogue, id, &food, NULL) == POTTLE_OK;
    snprintf(buf, size, "%s", read ? pottle_food_title(food) : id);
    pottle_food_free(food);
}

void
spares_text(const besides_asked *k, const pottle_recipe *recipe, char *buf,
            size_t size)
{
    pottle_spare s[SPARES_MAX];
    const size_t n =
        pottle_recipe_spares(recipe, k->without, k->withouts, s, SPARES_MAX);
    buf[0] = '\0';
    for (size_t i = 0; i < n && i < SPARES_MAX; i++) {
        char food[120], instead[120] = "";
        const size_t at = strlen(buf);
        title_of(k->catalogue, s[i].food, food, sizeof food);
        if (s[i].instead != NULL)
            title_of(k->catalogue, s[i].instead, instead, sizeof instead);
        snprintf(buf + at, size - at, "%swithout %s: %s%s", at == 0 ? "" : "; ",
                 food, s[i].instead != NULL ? instead : "leave it out",
                 s[i].instead != NULL ? " instead" : "");
    }
    const char *last = NULL;
    for (size_t i = 0; i < k->withouts; i++) {
        const char *above = wider(k, recipe, k->without[i]),
                   *usual = pottle_food_name(k->catalogue, k->without[i], 0);
        char of[120];
        const size_t at = strlen(buf);
        if (above == NULL)
            continue;
        title_of(k->catalogue, above, of, sizeof of);
        if (last != NULL && strcmp(last, above) == 0)
            snprintf(buf + at, size - at, " or %s", usual);
        else
            snprintf(buf + at, size - at, "%s%s: no %s", at == 0 ? "" : "; ",
                     of, usual);
        last = above;
    }
}
