/* cmd_fill.c - pottle fill: which of the jars on the shelf to fill, in how many
 * loads, and when they are done. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "have", "'AMOUNT FOOD'",
      "what is on hand; may be given several times, the scarcest decides" },
    { "batches", "X", "so many published batches" },
    { "fill", "'N JAR'", "what fills so many jars: '14 quart'" },
    { "shelf", "'N JAR'",
      "jars that are there: '6 pint'; once for each size, else the kitchen "
      "file's" },
    { "cooked", "V",
      "what the pots hold when they are done: '9.9 l'; else the forecast" },
    { "start", "TIME", "when the first load goes on: '14:30' or '2:30 pm'" },
    { "jar", "JAR", "size of jar that the forecast is made for" },
    { "altitude", "H", "'900 m' or '6200 ft'" },
    { "canner", "METHOD", "boiling-water, dial-gauge or weighted-gauge" },
    { "pack", "hot|raw", "style of pack" },
    { "set", "'AMOUNT FOOD'",
      "total of one ingredient over all that is made; may be repeated" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* All that was asked and found. */
typedef struct filled {
    scaled s;
    pottle_shelf_size shelf[ARGS_MAX];
    const pottle_kitchen_canner *canner;
    bool has_start;
    int start;
    pottle_filling *filling;
    const pottle_filling_facts *facts;
    const pottle_filled *size;
    size_t sizes;
} filled;

/* -- Arguments ------------------------------------------------------------- */

static int
read_shelf(const command *self, const args *a, filled *f, size_t *count)
{
    pottle_error error;
    *count = 0;
    for (const char *text; (text = args_nth(a, "shelf", *count)) != NULL;
         (*count)++)
        if (pottle_shelf_read(f->s.catalogue, &f->s.house.kitchen, text,
                              &f->shelf[*count], &error) != POTTLE_OK)
            return report(f->s.catalogue, &error);
    if (*count == 0 &&
        pottle_kitchen_shelf(f->s.catalogue, &f->s.house.kitchen, f->shelf,
                             count, &error) != POTTLE_OK)
        return report(f->s.catalogue, &error);
    return *count > 0
             ? DONE
             : usage_error(
                   self,
                   "say which jars there are by --shelf '6 pint', or keep them "
                   "in the kitchen file by 'pottle kitchen set jars'");
}

static int
make(const command *self, const args *a, filled *f)
{
    pottle_error error;
    size_t sizes = 0;
    const char *start = args_value(a, "start");
    int result = scaled_make(self, a, &f->s);
    if (result == DONE)
        result = read_shelf(self, a, f, &sizes);
    double cooked_ml = 0;
    if (result == DONE)
        result =
            read_single(self, a, "cooked", POTTLE_VOLUME, "ml", &cooked_ml);
    if (result == DONE && start != NULL &&
        pottle_clock_read(start, &f->start, &error) != POTTLE_OK)
        result = report(NULL, &error);
    if (result != DONE)
        return result;
    f->has_start = start != NULL;
    const pottle_request *asked = &f->s.request;
    f->canner = kitchen_canner(&f->s.house, f->s.recipe, asked->method);
    const pottle_shelf_request r = { .version = POTTLE_SHELF_REQUEST_VERSION,
                                     .size = f->shelf,
                                     .sizes = sizes,
                                     .has_altitude = asked->has_altitude,
                                     .altitude_m = asked->altitude_m,
                                     .method = asked->method,
                                     .pack = asked->pack,
                                     .canner = f->canner,
                                     .cooked_ml = cooked_ml };
    if (pottle_shelf_fill(f->s.catalogue, f->s.plan, &r, &f->filling, &error) !=
        POTTLE_OK)
        return report(f->s.catalogue, &error);
    f->facts = pottle_filling_facts_of(f->filling);
    f->size = pottle_filling_sizes(f->filling, &f->sizes);
    return DONE;
}

static const char *
name_of(const pottle_filled *z)
{
    return z->of.own != NULL ? z->of.own->id : z->of.jar->id;
}

/* The plan, which is printed too, says that the altitude is missing. */
static bool
of_the_plan(const pottle_warning *w)
{
    return strcmp(w->code, "altitude") == 0;
}

/* -- Text ------------------------------------------------------------------ */

static void
litres(double ml, char *buf, size_t size)
{
    char number[40];
    pottle_number_write(ml >= 1000 ? ml / 1000 : ml, ml >= 1000 ? 1 : 0, number,
                        sizeof number);
    snprintf(buf, size, "%s %s", number, ml >= 1000 ? "L" : "mL");
}

static void
print_jars(const filled *f)
{
    char text[500], left[40], over[40];
    for (size_t i = 0; i < f->sizes; i++) {
        const pottle_filled *z = &f->size[i];
        if (!z->allowed || z->jars == 0)
            continue;
        snprintf(left, sizeof left, "  %4lu ", z->jars);
        snprintf(text, sizeof text,
                 "%s of %lu: %.0f mL each at %.0f mm headspace", name_of(z),
                 z->of.count, z->fill_ml.median, z->headspace.mm);
        print_folded(stdout, left, text);
    }
    for (size_t i = 0; i < f->sizes; i++) {
        if (f->size[i].allowed)
            continue;
        snprintf(text, sizeof text, "%s: %s", name_of(&f->size[i]),
                 f->size[i].why);
        print_folded(stdout, "  not ", text);
    }
    litres(f->facts->left_ml, over, sizeof over);
    if (f->facts->left_ml >= 5)
        printf("  about %s over: refrigerate it; never process a part-filled "
               "jar\n",
               over);
    const pottle_filled *next = &f->size[f->facts->next];
    const char *chance = f->facts->suffices < 0.005 ? "hardly ever suffices"
                       : f->facts->suffices > 0.995 ? "suffices almost surely"
                                                    : NULL;
    if (chance != NULL)
        snprintf(text, sizeof text, "the shelf %s", chance);
    else
        snprintf(text, sizeof text, "the shelf suffices %.0f times in 100",
                 100 * f->facts->suffices);
    /* nine chances in ten are what is asked for everywhere */
    if (f->facts->ready > 0 && f->facts->suffices < 0.9) {
        char there[60] = "";
        if (f->facts->spare == 0)
            snprintf(there, sizeof there, "; the shelf has none left");
        else if (f->facts->spare < f->facts->ready)
            snprintf(there, sizeof there, "; the shelf has %lu left",
                     f->facts->spare);
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 ": the pot may make more than is expected. %lu %s jar%s "
                 "beside those above take%s it nine times in ten%s",
                 f->facts->ready, name_of(next),
                 f->facts->ready == 1 ? "" : "s",
                 f->facts->ready == 1 ? "s" : "", there);
    }
    print_folded(stdout, "  ", text);
}

/* "2 tbsp a quart, 1 tbsp a pint" */
static void
print_doses(const filled *f)
{
    size_t n = 0;
    const pottle_filling_dose *d = pottle_filling_doses(f->filling, &n);
    for (size_t k = 0; k < n; k++) {
        char text[600], count[60];
        const pottle_keep keep = d[k].per_jar->keep;
        int used = snprintf(text, sizeof text, "%s%s:", d[k].title,
                            d[k].per_jar->optional ? " (optional)" : "");
        size_t at = used > 0 ? (size_t)used : 0;
        bool first = true;
        for (size_t i = 0; i < f->sizes && at < sizeof text; i++) {
            if (!(d[k].each[i] > 0))
                continue;
            dose_text(d[k].each[i], d[k].unit, d[k].size, 1, keep, count,
                      sizeof count);
            used = snprintf(text + at, sizeof text - at, "%s %s a %s",
                            first ? "" : ",", count, name_of(&f->size[i]));
            at += used > 0 ? (size_t)used : 0;
            first = false;
        }
        dose_text(d[k].total, d[k].unit, d[k].size, 1, keep, count,
                  sizeof count);
        if (at < sizeof text)
            snprintf(text + at, sizeof text - at, "; %s in all", count);
        print_folded(stdout, d[k].choice == 0 ? "  " : "  or ", text);
    }
}

static void
load_text(const filled *f, const pottle_filling_load *l, char *buf, size_t size)
{
    size_t at = 0;
    for (size_t i = 0; i < f->sizes && at < size; i++) {
        if (l->jars[i] == 0)
            continue;
        const int k =
            snprintf(buf + at, size - at, "%s%lu %s", at > 0 ? " + " : "",
                     l->jars[i], name_of(&f->size[i]));
        at += k > 0 ? (size_t)k : 0;
    }
}

static void
print_loads(const filled *f)
{
    size_t n = 0;
    const pottle_filling_load *l = pottle_filling_loads(f->filling, &n);
    pottle_range minutes;
    const unsigned long count = pottle_filling_time(f->filling, &minutes);
    if (n == 0)
        return;
    printf("\nLoads, %s, %s pack\n",
           f->canner != NULL ? f->canner->id
                             : pottle_method_name((int)f->facts->method),
           f->facts->raw ? "raw" : "hot");
    kitchen_unused_text(&f->s.house);
    for (size_t k = 0; k < n; k++) {
        char jars[300], text[500], psi[40], set[80];
        load_text(f, &l[k], jars, sizeof jars);
        pottle_number_write(l[k].psi, 1, psi, sizeof psi);
        snprintf(set, sizeof set, ", on this gauge %s", psi);
        snprintf(text, sizeof text, "%s: %d min%s", jars,
                 l[k].process.band->minutes,
                 l[k].sizes > 1 ? " (the longest of them)" : "");
        if (l[k].process.band->psi > 0)
            snprintf(text + strlen(text), sizeof text - strlen(text),
                     " at %d psi%s", l[k].process.band->psi,
                     f->facts->has_set_point ? set : "");
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 "; %.0f to %.0f min with heating and cooling",
                 l[k].time.total.low, l[k].time.total.high);
        char left[40];
        snprintf(left, sizeof left, "  %lu x ", l[k].times);
        print_folded(stdout, left, text);
    }
    char low[40], high[40], text[200];
    snprintf(text, sizeof text, "%lu load%s: %.0f to %.0f min", count,
             count > 1 ? "s one after the other" : "", minutes.low,
             minutes.high);
    print_folded(stdout, "  ", text);
    if (f->has_start) {
        char begin[40];
        pottle_clock_write(f->start, 0, begin, sizeof begin);
        pottle_clock_write(f->start, minutes.low, low, sizeof low);
        pottle_clock_write(f->start, minutes.high, high, sizeof high);
        printf("  begun at %s, done between %s and %s\n", begin, low, high);
    }
}

/* Whether what goes into the jars is spooned. */
static bool
in_cups(const filled *f)
{
    size_t n = 0;
    bool any = false;
    const pottle_filling_dose *d = pottle_filling_doses(f->filling, &n);
    for (size_t i = 0; i < n; i++)
        any = any || us_unit(d[i].unit);
    return any;
}

static void
print_text(const filled *f)
{
    char text[400], low[40], middle[40], high[40];
    size_t n = 0;
    const pottle_interval i = pottle_estimate_interval(f->facts->volume_ml);
    litres(i.low, low, sizeof low);
    litres(i.expected, middle, sizeof middle);
    litres(i.high, high, sizeof high);
    snprintf(text, sizeof text, "%s: fill %lu jars; expect %s (%s to %s)",
             pottle_recipe_title(f->s.recipe), f->facts->jars, middle, low,
             high);
    print_folded(stdout, "", text);
    kitchen_note(&f->s.house, in_cups(f));
    puts("\nFill");
    print_jars(f);
    (void)pottle_filling_doses(f->filling, &n);
    if (n > 0)
        puts("\nInto each jar");
    print_doses(f);
    print_loads(f);
    const pottle_warning *w = pottle_filling_warnings(f->filling, &n);
    bool head = false;
    for (size_t k = 0; k < n; k++) {
        if (of_the_plan(&w[k]))
            continue;
        if (!head)
            puts("\nMind the jars");
        head = true;
        print_folded(stdout, "  - ", w[k].text);
    }
    cautions_text(&f->s);
}

/* -- JSON ------------------------------------------------------------------ */

static json_t *
range_json(pottle_range r)
{
    return json_pack("{s:o, s:o}", "low", json_number(r.low), "high",
                     json_number(r.high));
}

static json_t *
sizes_json(const filled *f, bool allowed)
{
    json_t *list = json_array();
    for (size_t i = 0; i < f->sizes; i++) {
        const pottle_filled *z = &f->size[i];
        if (z->allowed != allowed)
            continue;
        if (allowed)
            json_array_append_new(
                list, json_pack("{s:s, s:b, s:I, s:I, s:o, s:o, s:o}", "jar",
                                name_of(z), "own", (int)(z->of.own != NULL),
                                "on_shelf", (json_int_t)z->of.count, "fill",
                                (json_int_t)z->jars, "headspace_mm",
                                json_number(z->headspace.mm), "fill_ml",
                                json_interval(z->fill_ml), "process",
                                z->has_process
                                    ? json_process(f->s.catalogue, f->s.recipe,
                                                   &z->process,
                                                   f->s.request.altitude_m)
                                    : json_null()));
        else
            json_array_append_new(list, json_pack("{s:s, s:s, s:s}", "jar",
                                                  name_of(z), "code", z->code,
                                                  "text", z->why));
    }
    return list;
}

static json_t *
doses_json(const filled *f)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_filling_dose *d = pottle_filling_doses(f->filling, &n);
    for (size_t k = 0; k < n; k++) {
        json_t *each = json_object();
        for (size_t i = 0; i < f->sizes; i++)
            if (d[k].each[i] > 0)
                json_object_set_new(each, name_of(&f->size[i]),
                                    json_number(d[k].each[i]));
        json_array_append_new(
            list,
            json_pack("{s:s, s:b, s:b, s:s, s:o, s:o}", "food", d[k].food,
                      "alternative", (int)(d[k].choice > 0), "optional",
                      (int)d[k].per_jar->optional, "unit",
                      d[k].unit->dimension == POTTLE_COUNT ? d[k].size
                                                           : d[k].unit->id,
                      "each", each, "total", json_number(d[k].total)));
    }
    return list;
}

static json_t *
loads_json(const filled *f)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_filling_load *l = pottle_filling_loads(f->filling, &n);
    for (size_t k = 0; k < n; k++) {
        json_t *jars = json_object();
        for (size_t i = 0; i < f->sizes; i++)
            if (l[k].jars[i] > 0)
                json_object_set_new(jars, name_of(&f->size[i]),
                                    json_integer((json_int_t)l[k].jars[i]));
        json_array_append_new(
            list, json_pack("{s:I, s:o, s:i, s:o, s:o, s:o}", "times",
                            (json_int_t)l[k].times, "jars", jars, "minutes",
                            l[k].process.band->minutes, "psi",
                            json_psi(l[k].process.band->psi), "set_psi",
                            f->facts->has_set_point ? json_number(l[k].psi)
                                                    : json_null(),
                            "total_minutes", range_json(l[k].time.total)));
    }
    return list;
}

static json_t *
warnings_json(const filled *f)
{
    json_t *list = json_array();
    size_t n = 0;
    const pottle_warning *w = pottle_filling_warnings(f->filling, &n);
    for (size_t k = 0; k < n; k++)
        if (!of_the_plan(&w[k]))
            json_add_warnings(list, f->s.catalogue, &w[k], 1);
    w = pottle_plan_warnings(f->s.plan, &n);
    json_add_warnings(list, f->s.catalogue, w, n);
    return list;
}

static json_t *
filled_json(const filled *f)
{
    pottle_range minutes;
    char low[40], high[40];
    const unsigned long count = pottle_filling_time(f->filling, &minutes);
    const pottle_cite *cite = pottle_recipe_cite(f->s.recipe);
    json_t *next = json_pack(
        "{s:s, s:I, s:I}", "jar", name_of(&f->size[f->facts->next]), "ready",
        (json_int_t)f->facts->ready, "on_shelf", (json_int_t)f->facts->spare);
    json_t *root = json_pack(
        "{s:s, s:s, s:o, s:o, s:I, s:o, s:o, s:o, s:o, s:o}", "recipe",
        pottle_recipe_id(f->s.recipe), "title",
        pottle_recipe_title(f->s.recipe), "source",
        json_source(f->s.catalogue, cite->source, cite->at), "volume_ml",
        json_interval(f->facts->volume_ml), "jars", (json_int_t)f->facts->jars,
        "fill", sizes_json(f, true), "not_allowed", sizes_json(f, false),
        "left_over_ml", json_number(f->facts->left_ml), "suffices",
        json_number(f->facts->suffices), "next", next);
    json_object_set_new(root, "per_jar", doses_json(f));
    json_object_set_new(root, "method",
                        f->facts->canned ? json_string(pottle_method_name(
                                               (int)f->facts->method))
                                         : json_null());
    json_object_set_new(root, "pack",
                        f->facts->canned
                            ? json_string(f->facts->raw ? "raw" : "hot")
                            : json_null());
    json_object_set_new(root, "canner",
                        f->canner != NULL ? json_string(f->canner->id)
                                          : json_null());
    kitchen_add_unused(&f->s.house, f->s.catalogue, root);
    json_object_set_new(root, "loads", loads_json(f));
    json_object_set_new(root, "load_count", json_integer((json_int_t)count));
    json_object_set_new(root, "minutes",
                        count > 0 ? range_json(minutes) : json_null());
    if (f->has_start && count > 0) {
        pottle_clock_write(f->start, minutes.low, low, sizeof low);
        pottle_clock_write(f->start, minutes.high, high, sizeof high);
        json_object_set_new(root, "done_by",
                            json_pack("{s:s, s:s}", "low", low, "high", high));
    }
    json_object_set_new(root, "refused", json_array());
    json_object_set_new(root, "warnings", warnings_json(f));
    kitchen_add_cup(&f->s.house, root, in_cups(f));
    json_object_set_new(root, "cautions", json_cautions());
    return root;
}

static int
run(const command *self, const args *a, bool json)
{
    filled f;
    memset(&f, 0, sizeof f);
    int result = make(self, a, &f);
    if (result == DONE && json)
        result = print_json(filled_json(&f));
    else if (result == DONE)
        print_text(&f);
    pottle_filling_free(f.filling);
    scaled_free(&f.s);
    return result;
}

const command fill_command = {
    "fill", run,
    "RECIPE (--have 'AMOUNT FOOD')... | --batches X | --fill 'N JAR'\n"
    "        [--shelf 'N JAR']... [--start TIME] [--altitude H] [--canner "
    "METHOD]\n"
    "        [--pack hot|raw] [--set 'AMOUNT FOOD']... [--kitchen FILE]",
    "which jars on the shelf to fill, and when they are done", options
};
