/* show_json.c - a recipe or a food with the source of every figure, for a
 * script. */
#include "cli.h"

static json_t *
ingredients(const pottle_catalogue *c, const pottle_recipe *r)
{
    size_t n = 0;
    json_t *list = json_array();
    const pottle_ingredient *in = pottle_recipe_ingredients(r, &n);
    for (size_t i = 0; i < n; i++) {
        json_t *amount = json_pack(
            "{s:f, s:s, s:s}", "value", in[i].amount, "unit",
            in[i].unit->dimension == POTTLE_COUNT ? in[i].size : in[i].unit->id,
            "printed", in[i].printed);
        if (in[i].amount_to > in[i].amount)
            json_object_set_new(amount, "to", json_real(in[i].amount_to));
        if (in[i].per != NULL)
            json_object_set_new(amount, "per",
                                json_pack("{s:s, s:s}", "unit", in[i].per->id,
                                          "food", in[i].per_food));
        if (in[i].raw_unit != NULL)
            json_object_set_new(amount, "raw",
                                json_pack("{s:f, s:s}", "value", in[i].raw,
                                          "unit", in[i].raw_unit->id));
        json_array_append_new(
            list,
            json_pack("{s:s, s:o, s:s, s:s, s:s, s:s, s:o, s:o, s:s}", "food",
                      in[i].food, "form", json_text(in[i].form), "state",
                      pottle_state_name((int)in[i].state), "role", in[i].role,
                      "keep", pottle_keep_name((int)in[i].keep), "rule",
                      in[i].rule, "amount", amount, "source",
                      json_source(c, in[i].cite.source, in[i].cite.at),
                      "standing",
                      pottle_standing_name((int)in[i].cite.standing)));
    }
    return list;
}

static json_t *
packs(const pottle_catalogue *c, const pottle_recipe *r)
{
    size_t n = 0;
    json_t *list = json_array();
    const pottle_process_table *t = pottle_recipe_processes(r, &n);
    for (size_t i = 0; i < n; i++) {
        json_t *jars = json_array(), *bands = json_array();
        for (size_t k = 0; k < t[i].jars; k++)
            json_array_append_new(jars, json_string(t[i].jar[k]));
        for (size_t k = 0; k < t[i].bands; k++)
            json_array_append_new(
                bands,
                json_pack("{s:i, s:o, s:i, s:o}", "from_ft",
                          t[i].band[k].from_ft, "to_ft",
                          t[i].band[k].to_ft < 0
                              ? json_null()
                              : json_integer(t[i].band[k].to_ft),
                          "minutes", t[i].band[k].minutes, "psi",
                          t[i].band[k].psi > 0 ? json_integer(t[i].band[k].psi)
                                               : json_null()));
        json_t *process =
            json_pack("{s:s, s:o}", "method",
                      pottle_method_name((int)t[i].method), "bands", bands);
        json_array_append_new(
            list, json_pack("{s:s, s:f, s:o, s:[o], s:o}", "style",
                            t[i].raw ? "raw" : "hot", "headspace_mm",
                            t[i].headspace_in * 25.4, "jars", jars, "processes",
                            process, "source",
                            json_source(c, t[i].cite.source, t[i].cite.at)));
    }
    return list;
}

json_t *
show_recipe_json(const pottle_catalogue *c, const pottle_recipe *r)
{
    static const char *const standings[] = { "tested", "draft", "own" };
    size_t n = 0;
    json_t *steps = json_array(), *yields = json_array();
    const pottle_yield *y = pottle_recipe_yields(r, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            yields, json_pack("{s:f, s:f, s:s, s:b, s:o}", "low", y[i].low,
                              "high", y[i].high, "jar", y[i].jar, "possible",
                              (int)y[i].possible, "source",
                              json_source(c, y[i].cite.source, y[i].cite.at)));
    const pottle_step *s = pottle_recipe_steps(r, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            steps, json_pack("{s:s, s:s, s:o}", "do", s[i].action, "text",
                             s[i].text, "minutes",
                             s[i].minutes > 0 ? json_real(s[i].minutes)
                                              : json_null()));
    const pottle_batch *b = pottle_recipe_batch(r);
    const pottle_cite *cite = pottle_recipe_cite(r);
    json_t *batch = json_pack(
        "{s:f, s:f, s:s, s:s, s:o}", "smallest", b->smallest, "largest",
        b->largest, "rule", b->rule, "smallest_rule", b->smallest_rule,
        "source", json_source(c, b->cite.source, b->cite.at));
    json_t *yield = json_array_size(yields) > 0
                      ? json_incref(json_array_get(yields, 0))
                      : json_null();
    return json_pack("{s:s, s:s, s:s, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
                     "id", pottle_recipe_id(r), "title", pottle_recipe_title(r),
                     "kind", pottle_recipe_kind(r), "status",
                     standings[pottle_recipe_standing(r)], "source",
                     json_source(c, cite->source, cite->at), "batch", batch,
                     "ingredients", ingredients(c, r), "yield", yield, "yields",
                     yields, "packs", packs(c, r), "steps", steps);
}

json_t *
show_food_json(const pottle_catalogue *c, const pottle_food *f)
{
    size_t n = 0;
    json_t *forms = json_array(), *trims = json_array(), *pieces = json_array(),
           *boxes = json_array();
    const pottle_form *form = pottle_food_forms(f, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < form[i].weights; k++)
            json_array_append_new(
                forms,
                json_pack("{s:s, s:s, s:s, s:f, s:o}", "form", form[i].id,
                          "measure", form[i].weight[k].measure, "weight",
                          form[i].weight[k].printed, "g_per_ml",
                          form[i].weight[k].grams / form[i].weight[k].volume_ml,
                          "source",
                          json_source(c, form[i].weight[k].cite.source,
                                      form[i].weight[k].cite.at)));
    const pottle_trim *t = pottle_food_trims(f, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            trims, json_pack("{s:s, s:s, s:f, s:o}", "id", t[i].id, "from",
                             pottle_state_name((int)t[i].from), "keeps",
                             t[i].keeps, "source",
                             json_source(c, t[i].cite.source, t[i].cite.at)));
    const pottle_piece *p = pottle_food_pieces(f, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            pieces, json_pack("{s:s, s:f, s:s, s:o}", "size", p[i].size,
                              "mass_g", p[i].grams, "state",
                              pottle_state_name((int)p[i].state), "source",
                              json_source(c, p[i].cite.source, p[i].cite.at)));
    const pottle_container *b = pottle_food_containers(f, &n);
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            boxes,
            json_pack("{s:s, s:f, s:f, s:o}", "unit", b[i].of->id, "low_g",
                      b[i].low_g, "high_g", b[i].high_g, "source",
                      json_source(c, b[i].cite.source, b[i].cite.at)));
    const pottle_acid *a = pottle_food_acid(f);
    static const char *const classes[] = { "neutral", "high-acid", "borderline",
                                           "low-acid" };
    return json_pack("{s:s, s:s, s:s, s:s, s:o, s:o, s:o, s:o, s:o}", "id",
                     pottle_food_id(f), "title", pottle_food_title(f), "kind",
                     pottle_food_group(f), "acid_class", classes[a->class_],
                     "source", json_source(c, a->cite.source, a->cite.at),
                     "forms", forms, "trims", trims, "pieces", pieces,
                     "containers", boxes);
}
