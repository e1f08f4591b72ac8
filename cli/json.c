/* json.c - pieces of JSON that several commands print; the keys are the
 * command's contract. */
#include "cli.h"

#include <math.h>
#include <stdlib.h>

/* An answer is put together from many small pieces. One that there is no memory
 * for jansson leaves out of its list, so that is remembered for all of them:
 * what is not whole is not printed. */
static bool incomplete;

static void *
take_memory(size_t size)
{
    void *p = malloc(size);
    if (p == NULL)
        incomplete = true;
    return p;
}

void
json_begin(void)
{
    json_set_alloc_funcs(take_memory, free);
    incomplete = false;
}

int
json_whole(void)
{
    if (!incomplete)
        return DONE;
    complain("no memory for the answer");
    return FAILED;
}

int
print_json(json_t *value)
{
    char *text =
        value == NULL
            ? NULL
            : json_dumps(value, JSON_INDENT(2) | JSON_REAL_PRECISION(12));
    incomplete = incomplete || text == NULL;
    const int result = json_whole();
    if (result == DONE)
        puts(text);
    free(text);
    json_decref(value);
    return result;
}

json_t *
json_text(const char *text)
{
    return text == NULL || text[0] == '\0' ? json_null() : json_string(text);
}

json_t *
json_number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

json_t *
json_span(pottle_interval i)
{
    return json_pack("{s:o, s:o, s:o}", "low", json_number(i.low), "expected",
                     json_number(i.expected), "high", json_number(i.high));
}

json_t *
json_interval(pottle_estimate e)
{
    return json_span(pottle_estimate_interval(e));
}

json_t *
json_psi(int psi)
{
    return psi > 0 ? json_integer(psi) : json_null();
}

json_t *
json_source(const pottle_catalogue *catalogue, const char *key, const char *at)
{
    char text[400];
    if (key == NULL || key[0] == '\0')
        return json_null();
    source_text(catalogue, key, at, text, sizeof text);
    return json_string(text);
}

json_t *
json_process(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
             const pottle_process *p, double altitude_m)
{
    return json_pack(
        "{s:s, s:s, s:s, s:s, s:s, s:o, s:i, s:o, s:o, s:o}", "recipe",
        pottle_recipe_id(recipe), "method",
        pottle_method_name((int)p->table->method), "pack",
        p->table->raw ? "raw" : "hot", "jar", p->jar->id, "tested_as",
        p->tested_as->id, "altitude_m", json_number(altitude_m), "minutes",
        p->band->minutes, "psi", json_psi(p->band->psi), "headspace_mm",
        json_number(p->headspace.mm), "source",
        json_source(catalogue, p->table->cite.source, p->table->cite.at));
}

json_t *
json_jars(const pottle_jar_count *j, const household *h)
{
    pottle_shelf_stock stock;
    json_t *jars =
        json_pack("{s:s, s:o, s:o, s:o, s:o, s:I, s:I, s:I, s:o}", "jar",
                  jars_name(j), "headspace_mm", json_number(j->headspace.mm),
                  "fill_ml", json_number(j->fill_ml.median), "volume_ml",
                  json_interval(j->volume_ml), "count", json_interval(j->count),
                  "promise", (json_int_t)j->promise, "prepare",
                  (json_int_t)j->prepare, "full", (json_int_t)j->full,
                  "remainder_ml", json_number(j->remainder_ml));
    if (j->own != NULL)
        json_object_set_new(jars, "process_as", json_string(j->jar->id));
    if (h != NULL && pottle_shelf_has(&h->kitchen, j, &stock)) {
        json_object_set_new(jars, "on_shelf",
                            json_integer((json_int_t)stock.there));
        json_object_set_new(jars, "lacking",
                            json_integer((json_int_t)stock.lacking));
    }
    return jars;
}

void
json_add_warnings(json_t *list, const pottle_catalogue *catalogue,
                  const pottle_warning *w, size_t count)
{
    for (size_t i = 0; i < count; i++)
        json_array_append_new(
            list,
            json_pack("{s:s, s:s, s:o}", "code", w[i].code, "text", w[i].text,
                      "source", json_source(catalogue, w[i].source, w[i].at)));
}

void
json_add_basis(json_t *to, const pottle_basis *basis)
{
    json_t *source = json_array(), *notes = json_array();
    for (size_t i = 0; i < basis->cites; i++)
        json_array_append_new(
            source,
            json_pack("{s:s, s:s, s:s}", "ref", basis->cite[i].source, "at",
                      basis->cite[i].at, "standing",
                      pottle_standing_name((int)basis->cite[i].standing)));
    for (size_t i = 0; i < basis->notes; i++)
        json_array_append_new(notes, json_string(basis->note[i]));
    json_object_set_new(to, "source", source);
    json_object_set_new(to, "notes", notes);
}

json_t *
json_cautions(void)
{
    json_t *list = json_array();
    for (size_t i = 0; cautions[i] != NULL; i++)
        json_array_append_new(list, json_string(cautions[i]));
    return list;
}
