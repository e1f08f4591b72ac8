/* cmd_jar.c - pottle jar: jars of one's own, measured with water. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "empty", "M", "measure: the empty jar on the scale: '452 g'" },
    { "full", "M", "measure: filled with water to the brim: '934 g'" },
    { "to-mark", "M", "measure: filled to a mark instead: '880 g'" },
    { "mark", "L", "measure: depth of that mark below the brim: '13 mm'" },
    { "mouth", "L", "measure: inside width of the mouth: '60 mm'" },
    { "temperature", "T",
      "measure: of the water: '20 degC'; else it is from the tap" },
    { "near", "JAR", "measure: the listed size that it passes for" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* Headspaces of jams, fruits and low-acid foods, for the table; the first two
 * in the published words. */
static const struct {
    const char *inches;
    double mm;
} headspaces[] = { { "1/4", 6.35 }, { "1/2", 12.7 }, { "1", 25.4 } };
enum { HEADSPACES = sizeof headspaces / sizeof headspaces[0] };

/* What a jar holds. */
typedef struct measured {
    const pottle_own_jar *jar;
    pottle_estimate brim, fill[HEADSPACES];
    bool has_fill[HEADSPACES];
    const pottle_jar *size; /* NULL: larger than any */
} measured;

static int
measure(const pottle_catalogue *catalogue, const pottle_own_jar *jar,
        measured *out)
{
    pottle_error error;
    memset(out, 0, sizeof *out);
    out->jar = jar;
    if (pottle_own_jar_brim(catalogue, jar, &out->brim, &error) != POTTLE_OK)
        return report(catalogue, &error);
    for (int i = 0; i < HEADSPACES; i++) {
        const pottle_status status = pottle_own_jar_fill(
            catalogue, jar, (pottle_length){ headspaces[i].mm }, &out->fill[i],
            &error);
        if (status != POTTLE_OK && status != POTTLE_EDOMAIN)
            return report(catalogue, &error);
        out->has_fill[i] = status == POTTLE_OK;
    }
    const pottle_status status =
        pottle_own_jar_size(catalogue, jar, &out->size, &error);
    /* too large for any process, or too small for the headspace of the listed
     * ones: it can still be measured */
    return status == POTTLE_OK || status == POTTLE_EBOUNDS ||
                   status == POTTLE_EDOMAIN
             ? DONE
             : report(catalogue, &error);
}

static void
ml_text(pottle_estimate e, char *buf, size_t size)
{
    const pottle_interval i = pottle_estimate_interval(e);
    snprintf(buf, size, "%.0f mL (%.0f to %.0f)", i.expected, i.low, i.high);
}

static void
print_text(const measured *m)
{
    char text[300], ml[80];
    ml_text(m->brim, ml, sizeof ml);
    snprintf(text, sizeof text, "%s: %s to the brim",
             m->jar->title[0] != '\0' ? m->jar->title : m->jar->id, ml);
    print_folded(stdout, "", text);
    for (int i = 0; i < HEADSPACES; i++) {
        if (!m->has_fill[i])
            continue;
        ml_text(m->fill[i], ml, sizeof ml);
        printf("  %s at %s in (%.0f mm) headspace\n", ml, headspaces[i].inches,
               headspaces[i].mm);
    }
    if (m->size != NULL)
        snprintf(text, sizeof text,
                 "takes the process and the additions of a %s, the next listed "
                 "size that is not smaller",
                 m->size->title);
    else
        snprintf(text, sizeof text,
                 "no listed size fits it, so no process does: refrigerate or "
                 "freeze what is in it");
    print_folded(stdout, "  ", text);
}

static json_t *
measured_json(const measured *m)
{
    const pottle_own_jar *j = m->jar;
    json_t *fills = json_array();
    for (int i = 0; i < HEADSPACES; i++)
        if (m->has_fill[i])
            json_array_append_new(
                fills, json_pack("{s:o, s:o}", "headspace_mm",
                                 json_number(headspaces[i].mm), "fill_ml",
                                 json_interval(m->fill[i])));
    return json_pack(
        "{s:s, s:o, s:o, s:I, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "id",
        j->id, "title", json_text(j->title), "near", json_text(j->near),
        "count", (json_int_t)j->count, "brim_ml", json_interval(m->brim),
        "fills", fills, "process_as",
        m->size != NULL ? json_string(m->size->id) : json_null(), "empty",
        json_quantity(&j->empty), "full", json_quantity(&j->full), "mouth",
        json_quantity(&j->mouth), "mark", json_quantity(&j->mark), "water",
        json_quantity(&j->water));
}

/* The readings that were typed. */
static int
read_jar(const command *self, const args *a, const pottle_catalogue *catalogue,
         const household *h, pottle_own_jar *jar)
{
    const struct {
        const char *name;
        int dimension;
        pottle_quantity *to;
    } amounts[] = {
        { "empty", POTTLE_MASS, &jar->empty },
        { "full", POTTLE_MASS, &jar->full },
        { "to-mark", POTTLE_MASS, &jar->to_mark },
        { "mark", POTTLE_LENGTH, &jar->mark },
        { "mouth", POTTLE_LENGTH, &jar->mouth },
        { "temperature", POTTLE_TEMPERATURE, &jar->water },
    };
    pottle_error error;
    const pottle_jar *listed = NULL;
    const char *name = a->operand[1], *near = args_value(a, "near");
    if (pottle_jar_find(catalogue, name, &listed, NULL) == POTTLE_OK)
        return usage_error(
            self, "%s is a listed size: give a jar of your own another name",
            listed->id);
    if (pottle_kitchen_id(name, jar->id, &error) != POTTLE_OK)
        return report(NULL, &error);
    if (strcmp(jar->id, name) != 0)
        snprintf(jar->title, sizeof jar->title, "%.79s", name);
    for (size_t i = 0; i < sizeof amounts / sizeof amounts[0]; i++) {
        const char *text = args_value(a, amounts[i].name);
        if (text != NULL &&
            pottle_kitchen_amount(text, amounts[i].dimension, amounts[i].to,
                                  &error) != POTTLE_OK)
            return report(NULL, &error);
    }
    if (near != NULL) {
        if (pottle_jar_find(catalogue, near, &listed, &error) != POTTLE_OK)
            return report(catalogue, &error);
        snprintf(jar->near, sizeof jar->near, "%s", listed->id);
    }
    const pottle_own_jar *before = pottle_own_jar_find(&h->kitchen, name);
    jar->count = before != NULL ? before->count : 0;
    jar->scale = h->kitchen.scale;
    return DONE;
}

static int
run_measure(const command *self, const args *a, bool json,
            const pottle_catalogue *catalogue, household *h)
{
    pottle_own_jar jar;
    measured m;
    pottle_error error;
    memset(&jar, 0, sizeof jar);
    if (a->operands != 2 || !args_has(a, "empty") || !args_has(a, "full"))
        return usage_error(self, "measure takes a name, --empty and --full");
    int result = read_jar(self, a, catalogue, h, &jar);
    if (result != DONE)
        return result;
    if (pottle_kitchen_put_own(&h->kitchen, &jar, &error) != POTTLE_OK)
        return report(catalogue, &error);
    result = measure(catalogue, &jar, &m);
    if (result == DONE)
        result = kitchen_save(h);
    if (result != DONE)
        return result;
    if (json)
        return print_json(measured_json(&m));
    print_text(&m);
    char path[sizeof h->path + 8];
    printf("kept in %s\n", printable(h->path, path, sizeof path));
    return DONE;
}

static int
run_list(const command *self, const args *a, bool json,
         const pottle_catalogue *catalogue, const household *h)
{
    int result = DONE;
    if (a->operands != 1)
        return usage_error(self, "list takes no name");
    json_t *list = json_array();
    for (size_t i = 0; i < h->kitchen.own_jars && result == DONE; i++) {
        measured m;
        result = measure(catalogue, &h->kitchen.own[i], &m);
        if (result == DONE && json)
            json_array_append_new(list, measured_json(&m));
        else if (result == DONE)
            print_text(&m);
    }
    if (result == DONE && json)
        result = print_json(json_pack("{s:O}", "measured_jars", list));
    else if (result == DONE && h->kitchen.own_jars == 0)
        puts("no measured jars; 'pottle jar measure NAME --empty M --full M' "
             "adds one");
    json_decref(list);
    return result;
}

static int
run(const command *self, const args *a, bool json)
{
    const bool measures =
                   a->operands > 0 && strcmp(a->operand[0], "measure") == 0,
               lists = a->operands > 0 && strcmp(a->operand[0], "list") == 0;
    if (!measures && !lists)
        return usage_error(self, "jar takes measure or list");
    pottle_catalogue *catalogue = NULL;
    household h;
    int result = open_catalogue(a,
                                POTTLE_WITH_JARS | POTTLE_WITH_FIGURES |
                                    POTTLE_WITH_RULES | POTTLE_WITH_SOURCES,
                                &catalogue);
    if (result == DONE)
        result = kitchen_open(a, catalogue, measures, &h);
    if (result == DONE)
        result = measures ? run_measure(self, a, json, catalogue, &h)
                          : run_list(self, a, json, catalogue, &h);
    pottle_catalogue_free(catalogue);
    return result;
}

const command jar_command = {
    "jar", run,
    "measure NAME --empty M --full M [--to-mark M --mark L] [--mouth L]\n"
    "        [--temperature T] [--near JAR]\n"
    "list",
    "jars of your own, measured with water", options
};
