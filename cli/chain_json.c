/* chain_json.c - a chain for a script. */
#include "cli.h"

static json_t *
node_json(const chain_asked *k, int node)
{
    static const char *const units[POTTLE_CHAIN_NODES] = {
        "", "g", "g", "ml", "batches", "g", "ml", "jars", "loads"
    };
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    const char *unit = node == POTTLE_CHAIN_CONTAINER ? f->container->id
                     : node == POTTLE_CHAIN_MEASURED  ? f->measured->id
                                                      : units[node];
    const char *form =
        node == POTTLE_CHAIN_MEASURED ? (f->form[0] != '\0' ? f->form : f->size)
        : node == POTTLE_CHAIN_PICKED ? pottle_state_name((int)f->picked)
                                      : "";
    json_t *measured = json_array();
    for (size_t i = 0; i < k->count; i++)
        if ((int)k->seen[i].node == node)
            json_array_append_new(
                measured, json_pack("{s:s, s:o, s:o}", "typed", k->typed[i],
                                    "low", json_number(k->seen[i].low), "high",
                                    json_number(k->seen[i].high)));
    json_t *out = json_interval(k->state.node[node]);
    json_object_set_new(out, "node", json_string(pottle_chain_node_name(node)));
    json_object_set_new(out, "unit", json_string(unit));
    json_object_set_new(out, "form", json_text(form));
    json_object_set_new(out, "measured", measured);
    json_object_set_new(out, "factor", json_number(k->state.factor[node]));
    return out;
}

static json_t *
links_json(const chain_asked *k)
{
    size_t n = 0;
    const pottle_chain_link *l = pottle_chain_links(k->chain, &n);
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++) {
        json_t *link = json_interval(l[i].factor);
        json_object_set_new(
            link, "from", json_string(pottle_chain_node_name((int)l[i].from)));
        json_object_set_new(link, "to",
                            json_string(pottle_chain_node_name((int)l[i].to)));
        json_add_basis(link, &l[i].basis);
        json_array_append_new(list, link);
    }
    return list;
}

/* The jars after each further measurement. */
static json_t *
narrowed_json(const chain_asked *k)
{
    json_t *list = json_array();
    for (size_t i = 0; i < k->count; i++) {
        pottle_chain_state s;
        const bool told = pottle_chain_update(k->chain, k->seen, i + 1, &s,
                                              NULL) == POTTLE_OK &&
                          s.has_jars;
        json_array_append_new(
            list, json_pack("{s:s, s:s, s:o}", "node",
                            pottle_chain_node_name((int)k->seen[i].node),
                            "typed", k->typed[i], "jars_factor",
                            told ? json_number(s.factor[POTTLE_CHAIN_JARS])
                                 : json_null()));
    }
    return list;
}

static json_t *
wanted_json(const chain_asked *k)
{
    const pottle_chain_wanted *w = &k->wanted;
    json_t *list = json_array();
    if (!(k->want > 0)) {
        json_decref(list);
        return json_null();
    }
    for (int i = 0; i <= POTTLE_CHAIN_BATCHES; i++)
        if (w->told[i])
            json_array_append_new(
                list, json_pack("{s:s, s:o, s:o, s:o}", "node",
                                pottle_chain_node_name(i), "needed",
                                json_number(w->needed[i]), "expected_jars",
                                json_number(w->expected[i]), "surplus_jars",
                                json_number(w->surplus[i])));
    return json_pack("{s:o, s:o, s:o}", "jars", json_number(w->jars), "one_of",
                     list, "chance",
                     w->has_chance ? json_number(w->chance) : json_null());
}

json_t *
chain_json(const chain_asked *k)
{
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    const pottle_cite *cite = pottle_recipe_cite(k->recipe);
    json_t *nodes = json_array(), *next = json_array(),
           *warnings = json_array();
    for (int i = 0; i < POTTLE_CHAIN_NODES; i++)
        if (k->state.told[i])
            json_array_append_new(nodes, node_json(k, i));
    for (size_t i = 0; i < k->gains; i++)
        json_array_append_new(
            next, json_pack("{s:s, s:o}", "node",
                            pottle_chain_node_name((int)k->gain[i].node),
                            "jars_factor", json_number(k->gain[i].factor)));
    size_t n = 0;
    const pottle_warning *w =
        pottle_plan_warnings(pottle_chain_plan(k->chain), &n);
    json_add_warnings(warnings, k->catalogue, w, n);
    json_t *made = json_null();
    if (k->state.has_made)
        made = json_pack(
            "{s:o, s:o}", "batches", json_number(k->state.made), "jars",
            k->state.made > 0 ? json_jars(&k->state.made_jars, &k->house)
                              : json_null());
    return json_pack(
        "{s:s, s:s, s:s, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, "
        "s:o}",
        "recipe", pottle_recipe_id(k->recipe), "title",
        pottle_recipe_title(k->recipe), "food", f->food, "jar",
        f->own != NULL ? f->own->id : f->jar->id, "source",
        json_source(k->catalogue, cite->source, cite->at), "jars",
        k->state.has_jars ? json_jars(&k->state.jars, &k->house) : json_null(),
        "made", made, "nodes", nodes, "links", links_json(k), "narrowed",
        narrowed_json(k), "next", next, "want", wanted_json(k), "warnings",
        warnings, "cautions", json_cautions());
}
