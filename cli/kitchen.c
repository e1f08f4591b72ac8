/* kitchen.c - the person's kitchen file: where it lies, and what need not be
 * said again because it is in it. */
#include "cli.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* The folder that settings go into, with its last part; "" when there is none.
 */
static void
default_path(char *buf, size_t size)
{
    const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
    int n = 0;
    /* a relative folder is not one, says the convention */
    if (config != NULL && config[0] == '/')
        n = snprintf(buf, size, "%s/pottle/kitchen.xml", config);
    else if (home != NULL && home[0] == '/')
        n = snprintf(buf, size, "%s/.config/pottle/kitchen.xml", home);
    if (n <= 0 || (size_t)n >= size)
        buf[0] = '\0';
}

int
kitchen_open(const args *a, const pottle_catalogue *catalogue, bool may_be_new,
             household *out)
{
    const char *named = args_value(a, "kitchen");
    pottle_error error;
    memset(out, 0, sizeof *out);
    out->named = named != NULL;
    if (named == NULL) {
        default_path(out->path, sizeof out->path);
    } else if (named[0] == '\0' || strlen(named) >= sizeof out->path) {
        complain("--kitchen takes the path of a file");
        return USAGE;
    } else {
        memcpy(out->path, named, strlen(named) + 1);
    }
    if (out->path[0] == '\0')
        return DONE;
    const pottle_status status =
        pottle_kitchen_read(catalogue, out->path, &out->kitchen, &error);
    if (status == POTTLE_ENOENT && (named == NULL || may_be_new))
        return DONE;
    /* a file that was named and is not there is as one that cannot be read */
    if (status == POTTLE_ENOENT)
        error.status = POTTLE_EIO;
    if (status != POTTLE_OK)
        return report(NULL, &error);
    out->found = true;
    return DONE;
}

/* Makes the folders of a path, one after the other. Only those of the default
 * place: a path that was typed may be mistyped. */
static int
make_folders(const char *path)
{
    char folder[sizeof((household *)NULL)->path];
    memcpy(folder, path, strlen(path) + 1);
    for (char *s = strchr(folder + 1, '/'); s != NULL; s = strchr(s + 1, '/')) {
        *s = '\0';
        if (mkdir(folder, 0700) != 0 && errno != EEXIST) {
            complain("%s: cannot make the folder: %s", folder, strerror(errno));
            return FAILED;
        }
        *s = '/';
    }
    return DONE;
}

int
kitchen_save(household *h)
{
    pottle_error error;
    if (h->path[0] == '\0') {
        complain("there is no folder for settings (XDG_CONFIG_HOME, HOME): "
                 "name the file by --kitchen");
        return USAGE;
    }
    pottle_status status = pottle_kitchen_write(&h->kitchen, h->path, &error);
    /* the folders of the usual place are made for what can be written only */
    if (status == POTTLE_EIO && !h->named && !h->found) {
        if (make_folders(h->path) != DONE)
            return FAILED;
        status = pottle_kitchen_write(&h->kitchen, h->path, &error);
    }
    if (status != POTTLE_OK)
        return report(NULL, &error);
    h->replaced = h->found;
    h->found = true;
    return DONE;
}

/* -- What need not be said again ------------------------------------------- */

static bool
has_method(const pottle_recipe *recipe, pottle_method method)
{
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (t[i].method == method)
            return true;
    return false;
}

const pottle_kitchen_canner *
kitchen_canner(const household *h, const pottle_recipe *recipe,
               const pottle_method *only)
{
    const pottle_kitchen_canner *best = NULL;
    double least = 0;
    for (size_t i = 0; i < h->kitchen.canners; i++) {
        const pottle_kitchen_canner *c = &h->kitchen.canner[i];
        if (only != NULL ? c->method != *only : !has_method(recipe, c->method))
            continue;
        /* of several the one whose gauge is nearest to right; one that was
         * never tested comes last */
        const double off = c->method != POTTLE_DIAL_GAUGE ? 0
                         : c->gauge.by.unit == NULL
                             ? HUGE_VAL
                             : fabs(pottle_misreading_base(c->gauge));
        if (best == NULL || off < least) {
            best = c;
            least = off;
        }
    }
    return best;
}

/* One kind of canner when the kitchen has one only that the recipe has a
 * process for. Boiling water takes no canner that need be listed, so only a
 * recipe without it is refused for want of one. False: any. */
static bool
choose_method(const household *h, const pottle_recipe *recipe,
              pottle_method *out)
{
    size_t tables = 0, suit = 0;
    (void)pottle_recipe_processes(recipe, &tables);
    if (h->kitchen.canners == 0 || tables == 0)
        return false;
    for (int m = POTTLE_BOILING_WATER; m <= (int)POTTLE_WEIGHTED_GAUGE; m++) {
        const pottle_method method = (pottle_method)m;
        if (has_method(recipe, method) &&
            kitchen_canner(h, recipe, &method) != NULL &&
            !(h->unused != NULL && method == POTTLE_DIAL_GAUGE)) {
            *out = method;
            suit++;
        }
    }
    if (suit == 0 && h->unused != NULL) {
        *out = POTTLE_DIAL_GAUGE; /* which is refused */
        suit = 1;
    } else if (suit == 0 && !has_method(recipe, POTTLE_BOILING_WATER)) {
        *out = h->kitchen.canner[0].method;
        suit = 1;
    }
    return suit == 1;
}

void
kitchen_judge(household *h, const pottle_catalogue *catalogue,
              const pottle_recipe *recipe)
{
    const pottle_method dial = POTTLE_DIAL_GAUGE;
    const pottle_kitchen_canner *c =
        has_method(recipe, dial) ? kitchen_canner(h, recipe, &dial) : NULL;
    h->unused = c != NULL && pottle_canner_usable(catalogue, recipe, c,
                                                  &h->why) != POTTLE_OK
                  ? c
                  : NULL;
}

int
kitchen_altitude(const household *h, bool *has, double *altitude_m)
{
    pottle_error error;
    const pottle_quantity *q = &h->kitchen.altitude;
    if (*has || q->unit == NULL)
        return DONE;
    if (pottle_unit_convert(q->low, q->unit, pottle_unit_find("m"), altitude_m,
                            &error) != POTTLE_OK)
        return report(NULL, &error);
    *has = true;
    return DONE;
}

void
altitude_text(const args *a, const household *h, double altitude_m, char *buf,
              size_t size)
{
    const char *typed = args_value(a, "altitude");
    char number[40];
    pottle_quantity q = h->kitchen.altitude;
    if (typed != NULL &&
        pottle_quantity_read(typed, POTTLE_LENGTH, &q, NULL) != POTTLE_OK)
        q.unit = NULL;
    pottle_number_write(q.unit != NULL ? q.low : altitude_m, 9, number,
                        sizeof number);
    snprintf(buf, size, "%s %s", number, q.unit != NULL ? q.unit->symbol : "m");
}

int
kitchen_defaults(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
                 household *h, pottle_request *request, pottle_method *method)
{
    const int result =
        kitchen_altitude(h, &request->has_altitude, &request->altitude_m);
    if (result != DONE || recipe == NULL)
        return result;
    const bool said = request->method != NULL;
    kitchen_judge(h, catalogue, recipe);
    if (!said && choose_method(h, recipe, method))
        request->method = method;
    if (h->unused != NULL && request->method != NULL &&
        *request->method == POTTLE_DIAL_GAUGE)
        return report(catalogue, &h->why);
    if (said) /* the dial was not asked for */
        h->unused = NULL;
    return DONE;
}

int
kitchen_jar(const household *h, const pottle_catalogue *catalogue,
            const char *text, const pottle_jar **jar,
            const pottle_own_jar **own)
{
    pottle_error error;
    *own = pottle_own_jar_find(&h->kitchen, text);
    const pottle_status status =
        *own != NULL ? pottle_own_jar_size(catalogue, *own, jar, &error)
                     : pottle_jar_find(catalogue, text, jar, &error);
    return status == POTTLE_OK ? DONE : report(catalogue, &error);
}

const char *
jars_name(const pottle_jar_count *jars)
{
    return jars->own != NULL ? jars->own->id : jars->jar->id;
}

void
kitchen_shelf_text(const household *h, const pottle_jar_count *jars)
{
    pottle_shelf_stock stock;
    char text[300];
    if (!pottle_shelf_has(&h->kitchen, jars, &stock))
        return;
    if (stock.there == 0)
        snprintf(text, sizeof text,
                 "the shelf has none of them; 'pottle fill' takes the sizes "
                 "that are there");
    else if (stock.expected > 0)
        snprintf(text, sizeof text,
                 "the shelf has %lu of them, %lu short of the %lu expected: "
                 "'pottle fill' takes other sizes too",
                 stock.there, stock.expected, jars->full);
    else if (stock.lacking > 0)
        snprintf(text, sizeof text,
                 "the shelf has %lu of them, enough for the %lu expected, %lu "
                 "short of the %lu",
                 stock.there, jars->full, stock.lacking, jars->prepare);
    else
        snprintf(text, sizeof text, "the shelf has %lu of them: enough",
                 stock.there);
    print_folded(stdout, "  ", text);
}

void
kitchen_phrase(household *h, const char *text, pottle_phrase *phrase)
{
    if (pottle_kitchen_cup(&h->kitchen, text, phrase))
        h->cup_taken = true;
}

void
kitchen_quantity(household *h, const char *text, pottle_quantity *q)
{
    pottle_phrase phrase = { .low = q->low, .high = q->high, .unit = q->unit };
    kitchen_phrase(h, text, &phrase);
    q->unit = phrase.unit;
}

/* What to know of cups, or NULL: which were taken for those on hand, and that
 * the answer's are those of the published recipes. */
static const char *
cup_words(const household *h, bool measures)
{
    const bool metric = h->kitchen.cup == POTTLE_CUP_METRIC;
    if (h->cup_taken)
        return metric
                 ? "Cups on hand are metric cups of 250 mL, as the kitchen "
                   "file "
                   "says; cups to measure out are US cups."
                 : "Cups on hand are imperial cups of 284 mL, as the kitchen "
                   "file says; cups to measure out are US cups.";
    if (!measures || (!metric && h->kitchen.cup != POTTLE_CUP_IMPERIAL))
        return NULL;
    return metric
             ? "Cups, spoons and quarts to measure out are US ones, a cup of "
               "237 mL, not the metric cup of 250 mL of the kitchen file."
             : "Cups, spoons and quarts to measure out are US ones, a cup of "
               "237 mL, not the imperial cup of 284 mL of the kitchen file.";
}

void
kitchen_note(const household *h, bool measures)
{
    const char *words = cup_words(h, measures);
    if (words != NULL)
        print_folded(stdout, "", words);
}

void
kitchen_add_cup(const household *h, json_t *root, bool measures)
{
    const char *words = cup_words(h, measures);
    if (h->cup_taken)
        json_object_set_new(root, "cup",
                            json_string(pottle_cup_name((int)h->kitchen.cup)));
    if (words == NULL)
        return;
    if (json_object_get(root, "warnings") == NULL)
        json_object_set_new(root, "warnings", json_array());
    json_array_append_new(json_object_get(root, "warnings"),
                          json_pack("{s:s, s:s, s:n}", "code", "us-cups",
                                    "text", words, "source"));
}

/* -- The dial gauge -------------------------------------------------------- */

/* The canner whose gauge was tested, for a process on a dial; NULL when there
 * is none. */
static const pottle_kitchen_canner *
tested_dial(const household *h, const pottle_recipe *recipe,
            const pottle_process *p)
{
    const pottle_method dial = POTTLE_DIAL_GAUGE;
    const pottle_kitchen_canner *c =
        p->table->method == dial ? kitchen_canner(h, recipe, &dial) : NULL;
    return c != NULL && c->gauge.by.unit != NULL ? c : NULL;
}

size_t
kitchen_usable(const household *h, const pottle_process *p, size_t n,
               pottle_process *out)
{
    size_t count = 0;
    for (size_t i = 0; i < n; i++)
        if (h->unused == NULL || p[i].table->method != POTTLE_DIAL_GAUGE)
            out[count++] = p[i];
    return count;
}

void
kitchen_gauge_text(const household *h, const pottle_catalogue *catalogue,
                   const pottle_recipe *recipe, const pottle_process *p,
                   size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const pottle_kitchen_canner *c = tested_dial(h, recipe, &p[i]);
        char text[700], reading[90], psi[40];
        pottle_set_point set;
        bool told = false;
        /* hot and raw pack at one pressure are told once */
        for (size_t k = 0; k < i; k++)
            told = told || (p[k].table->method == p[i].table->method &&
                            p[k].band->psi == p[i].band->psi);
        if (c == NULL || told)
            continue;
        if (pottle_gauge_set_point(catalogue, recipe, &p[i], c->gauge, &set,
                                   NULL) != POTTLE_OK)
            continue; /* not of a process that kitchen_usable left */
        misreading_text(&c->gauge, reading, sizeof reading);
        const pottle_figure *f =
            set.strict ? pottle_figure_find(catalogue, "gauge-limit-strict")
                       : NULL;
        pottle_number_write(set.psi, 1, psi, sizeof psi);
        snprintf(text, sizeof text,
                 "on %s, whose gauge %s, hold %s psi for %d%s%s", c->id,
                 reading, psi, p[i].band->psi, f != NULL ? ". " : "",
                 f != NULL ? f->text : "");
        print_folded(stdout, "  ", text);
    }
    kitchen_unused_text(h);
}

void
kitchen_unused_text(const household *h)
{
    char text[sizeof h->why.what + 120];
    if (h->unused == NULL)
        return;
    snprintf(text, sizeof text, "not in %s: %s", h->unused->id, h->why.what);
    print_folded(stdout, "  ", text);
}

void
kitchen_add_unused(const household *h, const pottle_catalogue *catalogue,
                   json_t *root)
{
    if (h->unused != NULL)
        json_object_set_new(
            root, "not_used",
            json_pack("{s:s, s:s, s:s, s:o}", "canner", h->unused->id, "code",
                      h->why.code, "text", h->why.what, "source",
                      json_source(catalogue, h->why.source, h->why.at)));
}

void
kitchen_add_set_psi(const household *h, const pottle_catalogue *catalogue,
                    const pottle_recipe *recipe, const pottle_process *p,
                    json_t *process)
{
    const pottle_kitchen_canner *c = tested_dial(h, recipe, p);
    pottle_set_point set;
    if (c != NULL && pottle_gauge_set_point(catalogue, recipe, p, c->gauge,
                                            &set, NULL) == POTTLE_OK)
        json_object_set_new(process, "set_psi", json_number(set.psi));
}

bool
kitchen_lacks(const household *h, const pottle_process *p)
{
    const pottle_method method = p->table->method;
    return h->kitchen.canners > 0 && method != POTTLE_BOILING_WATER &&
           kitchen_canner(h, NULL, &method) == NULL;
}

void
kitchen_lacks_text(const household *h, const pottle_process *p, size_t n)
{
    char text[400], list[80] = "";
    bool told[(int)POTTLE_WEIGHTED_GAUGE + 1] = { false };
    size_t at = 0, lacking = 0;
    for (size_t i = 0; i < n; i++) {
        const int method = (int)p[i].table->method;
        const bool lacks = kitchen_lacks(h, &p[i]);
        lacking += lacks;
        if (!lacks || told[method] || at >= sizeof list)
            continue;
        told[method] = true;
        at +=
            (size_t)snprintf(list + at, sizeof list - at, "%s%s",
                             at > 0 ? " or " : "", pottle_method_name(method));
    }
    if (lacking == 0)
        return;
    snprintf(text, sizeof text,
             "the kitchen file has no %s canner%s; 'pottle kitchen set canner "
             "NAME METHOD' adds one",
             list,
             lacking == n ? ", so that none of these can be done"
                          : ", which those take");
    print_folded(stdout, "  ", text);
}

/* -- Amounts as they stand in the file ------------------------------------- */

void
quantity_text(const pottle_quantity *q, char *buf, size_t size)
{
    char number[40];
    pottle_number_write(q->low, 3, number, sizeof number);
    snprintf(buf, size, "%s %s", number, q->unit->symbol);
}

json_t *
json_quantity(const pottle_quantity *q)
{
    return q->unit == NULL
             ? json_null()
             : json_pack("{s:o, s:s}", "value", json_number(q->low), "unit",
                         q->unit->id);
}

json_t *
json_misreading(const pottle_misreading *m)
{
    return m->by.unit == NULL
             ? json_null()
             : json_pack("{s:s, s:o, s:s}", "reads", m->high ? "high" : "low",
                         "by", json_number(m->by.low), "unit", m->by.unit->id);
}

void
misreading_text(const pottle_misreading *m, char *buf, size_t size)
{
    char by[60];
    quantity_text(&m->by, by, sizeof by);
    if (m->by.low > 0)
        snprintf(buf, size, "reads %s %s", by, m->high ? "high" : "low");
    else
        snprintf(buf, size, "reads right");
}
