/* plan_json.c - a plan for scripts; the keys are the command's contract. */
#include "cli.h"

static json_t *
measure_json(const pottle_line *l)
{
    char text[100];
    if (!l->has_measure)
        return json_null();
    line_measure(l, text, sizeof text);
    return json_string(text);
}

static json_t *
positive(double value)
{
    return value > 0 ? json_number(value) : json_null();
}

static json_t *
ingredients(const scaled *s)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_line *l = pottle_plan_lines(s->plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            list,
            json_pack("{s:s, s:o, s:s, s:s, s:s, s:o, s:o, s:o, s:o, s:b}",
                      "food", l[i].food, "form", json_text(l[i].form), "state",
                      pottle_state_name((int)l[i].ingredient->state), "role",
                      l[i].ingredient->role, "keep",
                      pottle_keep_name((int)l[i].ingredient->keep), "mass_g",
                      positive(l[i].mass_g), "volume_ml",
                      positive(l[i].volume_ml), "raw_g", positive(l[i].raw_g),
                      "measure", measure_json(&l[i]), "optional",
                      (int)l[i].ingredient->optional));
    return list;
}

static json_t *
per_pot(const scaled *s)
{
    json_t *list = json_array();
    size_t pots = 0, n = 0;
    pottle_plan_pots(s->plan, &pots);
    for (size_t p = 0; p < pots; p++) {
        json_t *pot = json_array();
        const pottle_line *l = pottle_plan_lines(s->plan, p, &n);
        for (size_t i = 0; i < n; i++)
            json_array_append_new(
                pot, json_pack("{s:s, s:o, s:o, s:o}", "food", l[i].food,
                               "mass_g", positive(l[i].mass_g), "volume_ml",
                               positive(l[i].volume_ml), "measure",
                               measure_json(&l[i])));
        json_array_append_new(list, pot);
    }
    return list;
}

/* One entry a place, with the alternatives that may stand there instead. */
static json_t *
per_jar(const scaled *s)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_dose *d = pottle_plan_doses(s->plan, &n);
    for (size_t i = 0; i < n; i++) {
        char number[40], measure[80];
        pottle_number_write(d[i].count, 3, number, sizeof number);
        snprintf(measure, sizeof measure, "%s %s", number,
                 d[i].unit->dimension == POTTLE_COUNT ? d[i].size
                                                      : d[i].unit->id);
        json_t *entry =
            json_pack("{s:s, s:s, s:o, s:s, s:b}", "food", d[i].food, "measure",
                      measure, "total", json_number(d[i].total), "unit",
                      d[i].unit->id, "optional", (int)d[i].per_jar->optional);
        json_t *last = json_array_get(list, json_array_size(list) -
                                                (json_array_size(list) > 0));
        if (d[i].choice == 0 || last == NULL) {
            json_object_set_new(entry, "or", json_array());
            json_array_append_new(list, entry);
        } else {
            json_array_append_new(json_object_get(last, "or"), entry);
        }
    }
    return list;
}

static json_t *
left_over(const scaled *s)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_rest *r = pottle_plan_rests(s->plan, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            list, json_pack("{s:s, s:s, s:o, s:o}", "food", r[i].food, "state",
                            pottle_state_name((int)r[i].state), "mass_g",
                            positive(r[i].mass_g), "volume_ml",
                            positive(r[i].volume_ml)));
    return list;
}

static json_t *
warnings(const scaled *s)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_warning *w = pottle_plan_warnings(s->plan, &n);
    json_add_warnings(list, s->catalogue, w, n);
    return list;
}

static json_t *
bands(const scaled *s)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_process *printed = pottle_plan_tables(s->plan, &n);
    pottle_process t[POTTLE_PROCESS_MAX];
    n = kitchen_usable(&s->house, printed, n, t);
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < t[i].table->bands; k++) {
            const pottle_band *b = &t[i].table->band[k];
            json_array_append_new(
                list,
                json_pack("{s:s, s:s, s:s, s:i, s:o, s:i, s:o, s:o}", "method",
                          pottle_method_name((int)t[i].table->method), "pack",
                          t[i].table->raw ? "raw" : "hot", "tested_as",
                          t[i].tested_as->id, "from_ft", b->from_ft, "to_ft",
                          b->to_ft < 0 ? json_null() : json_integer(b->to_ft),
                          "minutes", b->minutes, "psi", json_psi(b->psi),
                          "source",
                          json_source(s->catalogue, t[i].table->cite.source,
                                      t[i].table->cite.at)));
        }
    }
    return list;
}

static void
add_process(const scaled *s, json_t *root)
{
    size_t n = 0;
    const pottle_process *printed = pottle_plan_processes(s->plan, &n);
    pottle_process p[POTTLE_PROCESS_MAX];
    n = kitchen_usable(&s->house, printed, n, p);
    kitchen_add_unused(&s->house, s->catalogue, root);
    if (n > 0) {
        json_t *alternatives = json_array(),
               *first = json_process(s->catalogue, s->recipe, &p[0],
                                     s->request.altitude_m);
        kitchen_add_set_psi(&s->house, s->catalogue, s->recipe, &p[0], first);
        for (size_t i = 1; i < n; i++) {
            json_t *other = json_process(s->catalogue, s->recipe, &p[i],
                                         s->request.altitude_m);
            kitchen_add_set_psi(&s->house, s->catalogue, s->recipe, &p[i],
                                other);
            json_array_append_new(alternatives, other);
        }
        json_object_set_new(first, "alternatives", alternatives);
        json_object_set_new(root, "process", first);
    } else {
        json_object_set_new(root, "process", json_null());
        json_object_set_new(root, "bands", bands(s));
    }
}

json_t *
plan_json(const scaled *s)
{
    size_t n = 0;
    const double *pot = pottle_plan_pots(s->plan, &n);
    json_t *pots = json_array();
    for (size_t i = 0; i < n; i++)
        json_array_append_new(pots, json_number(pot[i]));
    const pottle_cite *cite = pottle_recipe_cite(s->recipe);
    json_t *root = json_pack(
        "{s:s, s:s, s:s, s:o, s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "recipe",
        pottle_recipe_id(s->recipe), "title", pottle_recipe_title(s->recipe),
        "kind", pottle_recipe_kind(s->recipe), "source",
        json_source(s->catalogue, cite->source, cite->at), "limited_by",
        pottle_plan_limit(s->plan), "factor",
        json_number(pottle_plan_factor(s->plan)), "pots", pots, "ingredients",
        ingredients(s), "per_pot", per_pot(s), "per_jar", per_jar(s),
        "left_over", left_over(s));
    size_t covers = 0;
    const char *const *cover = pottle_recipe_covers(s->recipe, &covers);
    json_t *list = json_array();
    for (size_t i = 0; i < covers; i++)
        json_array_append_new(list, json_string(cover[i]));
    json_object_set_new(root, "covers", list);
    const pottle_jar_count *jars = pottle_plan_jars(s->plan);
    json_object_set_new(
        root, "jars", jars != NULL ? json_jars(jars, &s->house) : json_null());
    const pottle_jar *smaller = pottle_plan_smaller(s->plan);
    if (jars != NULL)
        json_object_set_new(json_object_get(root, "jars"), "smaller_jar",
                            smaller != NULL ? json_string(smaller->id)
                                            : json_null());
    unsigned long per_load = 0;
    const unsigned long loads = pottle_plan_loads(s->plan, &per_load);
    json_object_set_new(root, "loads",
                        json_pack("{s:I, s:I}", "count", (json_int_t)loads,
                                  "jars_per_load", (json_int_t)per_load));
    add_process(s, root);
    json_object_set_new(root, "refused", json_array());
    json_object_set_new(root, "warnings", warnings(s));
    json_object_set_new(root, "cautions", json_cautions());
    kitchen_add_cup(&s->house, root, plan_in_cups(s->plan));
    return root;
}
