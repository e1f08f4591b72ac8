/* cmd_kitchen.c - pottle kitchen: what the person's kitchen has, so that it
 * need not be said each time. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "holds", "'N JAR'",
      "set canner: so many jars go in at once; once for each size" },
    { "gauge", "'P high|low'",
      "set canner: its dial reads so much too high or low; '0 psi' when it was "
      "tested" },
    { "tare", "M", "set pot: the empty pot on the scale: '2.1 kg'" },
    { "width", "L", "set pot: its inside width: '28 cm'" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* -- Showing --------------------------------------------------------------- */

static void
show_line(const char *name, const char *text)
{
    char left[40];
    snprintf(left, sizeof left, "  %-14s  ", name);
    print_folded(stdout, left, text);
}

static void
show_instruments(const pottle_kitchen *k)
{
    char text[120], amount[60];
    if (k->altitude.unit != NULL) {
        quantity_text(&k->altitude, text, sizeof text);
        show_line("altitude", text);
    }
    if (k->cup != POTTLE_CUP_UNSAID)
        show_line("cup", pottle_cup_name((int)k->cup));
    if (k->scale.unit != NULL) {
        quantity_text(&k->scale, amount, sizeof amount);
        snprintf(text, sizeof text, "out by %s, as often more as less", amount);
        show_line("scale", text);
    }
    if (k->thermometer.by.unit != NULL) {
        misreading_text(&k->thermometer, text, sizeof text);
        show_line("thermometer", text);
    }
}

/* "dial-gauge; reads 1 psi high; 7 quart, 18 pint" */
static void
show_canner(const pottle_kitchen_canner *c)
{
    char text[700], gauge[90] = "";
    size_t n = 0;
    if (c->gauge.by.unit != NULL)
        misreading_text(&c->gauge, gauge, sizeof gauge);
    int k = snprintf(text, sizeof text, "%s%s%s%s",
                     pottle_method_name((int)c->method),
                     gauge[0] != '\0' ? "; " : "", gauge,
                     c->method == POTTLE_DIAL_GAUGE && gauge[0] == '\0'
                         ? "; gauge not tested"
                         : "");
    for (size_t i = 0; i < c->holds && k > 0 && (n += (size_t)k) < sizeof text;
         i++)
        k = snprintf(text + n, sizeof text - n, "%s%lu %s",
                     i == 0 ? "; " : ", ", c->hold[i].count, c->hold[i].jar);
    show_line(c->id, text);
}

static void
show_pot(const pottle_kitchen_pot *p)
{
    char text[160], tare[60] = "", width[60] = "";
    if (p->tare.unit != NULL)
        quantity_text(&p->tare, tare, sizeof tare);
    if (p->width.unit != NULL)
        quantity_text(&p->width, width, sizeof width);
    snprintf(text, sizeof text, "%s%s%s%s%s", tare[0] != '\0' ? "weighs " : "",
             tare, tare[0] != '\0' && width[0] != '\0' ? "; " : "", width,
             width[0] != '\0' ? " wide" : "");
    show_line(p->id, text);
}

static void
show(const household *h)
{
    const pottle_kitchen *k = &h->kitchen;
    char path[sizeof h->path + 8];
    printf("kitchen file %s%s\n",
           h->path[0] != '\0' ? printable(h->path, path, sizeof path)
                              : "of nowhere",
           h->found ? "" : " (not there yet)");
    show_instruments(k);
    if (k->canners > 0)
        puts("\nCanners");
    for (size_t i = 0; i < k->canners; i++)
        show_canner(&k->canner[i]);
    if (k->pots > 0)
        puts("\nPots");
    for (size_t i = 0; i < k->pots; i++)
        show_pot(&k->pot[i]);
    if (k->shelves > 0 || k->own_jars > 0)
        puts("\nJars");
    for (size_t i = 0; i < k->shelves; i++)
        printf("  %4lu %s\n", k->shelf[i].count, k->shelf[i].jar);
    for (size_t i = 0; i < k->own_jars; i++)
        printf("  %4lu %s (measured; see 'pottle jar list')\n", k->own[i].count,
               k->own[i].id);
}

static json_t *
canner_json(const pottle_kitchen_canner *c)
{
    json_t *holds = json_array();
    for (size_t i = 0; i < c->holds; i++)
        json_array_append_new(holds,
                              json_pack("{s:s, s:I}", "jar", c->hold[i].jar,
                                        "count", (json_int_t)c->hold[i].count));
    return json_pack("{s:s, s:o, s:s, s:o, s:o}", "id", c->id, "title",
                     json_text(c->title), "method",
                     pottle_method_name((int)c->method), "gauge",
                     json_misreading(&c->gauge), "holds", holds);
}

static json_t *
kitchen_json(const household *h)
{
    const pottle_kitchen *k = &h->kitchen;
    json_t *canners = json_array(), *pots = json_array(), *shelf = json_array(),
           *own = json_array();
    char path[sizeof h->path + 8];
    for (size_t i = 0; i < k->canners; i++)
        json_array_append_new(canners, canner_json(&k->canner[i]));
    for (size_t i = 0; i < k->pots; i++)
        json_array_append_new(
            pots, json_pack("{s:s, s:o, s:o, s:o}", "id", k->pot[i].id, "title",
                            json_text(k->pot[i].title), "tare",
                            json_quantity(&k->pot[i].tare), "width",
                            json_quantity(&k->pot[i].width)));
    for (size_t i = 0; i < k->shelves; i++)
        json_array_append_new(shelf, json_pack("{s:s, s:I}", "jar",
                                               k->shelf[i].jar, "count",
                                               (json_int_t)k->shelf[i].count));
    for (size_t i = 0; i < k->own_jars; i++)
        json_array_append_new(own,
                              json_pack("{s:s, s:I}", "id", k->own[i].id,
                                        "count", (json_int_t)k->own[i].count));
    return json_pack(
        "{s:o, s:b, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "path",
        json_text(printable(h->path, path, sizeof path)), "found",
        (int)h->found, "altitude", json_quantity(&k->altitude), "cup",
        k->cup != POTTLE_CUP_UNSAID ? json_string(pottle_cup_name((int)k->cup))
                                    : json_null(),
        "scale", json_quantity(&k->scale), "thermometer",
        json_misreading(&k->thermometer), "canners", canners, "pots", pots,
        "shelf", shelf, "measured_jars", own);
}

static int
print(const household *h, bool json)
{
    if (json)
        return print_json(kitchen_json(h));
    show(h);
    return DONE;
}

/* -- Setting --------------------------------------------------------------- */

static int
said(const pottle_catalogue *catalogue, pottle_status status,
     const pottle_error *error)
{
    return status == POTTLE_OK ? DONE : report(catalogue, error);
}

/* '24 half-pint', '6 tall honey jar', '0 quart'. */
static int
set_jars(const pottle_catalogue *catalogue, household *h, const char *text)
{
    pottle_error error;
    pottle_shelf_size size = { NULL, NULL, 0 };
    pottle_status status = POTTLE_OK;
    if (text[0] == '0' &&
        text[1] ==
            ' ') { /* none is left, which no shelf in a request can say */
        size.own = pottle_own_jar_find(&h->kitchen, text + 2);
        if (size.own == NULL)
            status = pottle_jar_find(catalogue, text + 2, &size.jar, &error);
    } else {
        status = pottle_shelf_read(catalogue, &h->kitchen, text, &size, &error);
    }
    if (status == POTTLE_OK && size.own != NULL) {
        pottle_own_jar jar = *size.own;
        jar.count = size.count;
        status = pottle_kitchen_put_own(&h->kitchen, &jar, &error);
    } else if (status == POTTLE_OK) {
        status = pottle_kitchen_put_jars(&h->kitchen, size.jar->id, size.count,
                                         &error);
    }
    return said(catalogue, status, &error);
}

/* The name as it was typed becomes the title when it says more than the id. */
static pottle_status
take_name(const char *name, char id[64], char title[80], pottle_error *error)
{
    const pottle_status status = pottle_kitchen_id(name, id, error);
    title[0] = '\0';
    if (status == POTTLE_OK && strcmp(id, name) != 0)
        snprintf(title, 80, "%.79s", name);
    return status;
}

static int
set_canner(const command *self, const pottle_catalogue *catalogue, household *h,
           const args *a)
{
    pottle_error error;
    pottle_kitchen_canner c;
    if (a->operands != 4)
        return usage_error(self, "set canner takes a name and boiling-water, "
                                 "dial-gauge or weighted-gauge");
    const pottle_kitchen_canner *before =
        pottle_kitchen_canner_find(&h->kitchen, a->operand[2]);
    memset(&c, 0, sizeof c);
    if (before != NULL)
        c = *before;
    pottle_status status = before == NULL
                             ? take_name(a->operand[2], c.id, c.title, &error)
                             : POTTLE_OK;
    if (status == POTTLE_OK)
        status =
            pottle_canner_method(catalogue, a->operand[3], &c.method, &error);
    const char *gauge = args_value(a, "gauge");
    if (status == POTTLE_OK && gauge != NULL)
        status =
            pottle_misreading_read(gauge, POTTLE_PRESSURE, &c.gauge, &error);
    else if (c.method != POTTLE_DIAL_GAUGE)
        memset(&c.gauge, 0, sizeof c.gauge);
    c.holds = args_has(a, "holds") ? 0 : c.holds;
    for (size_t i = 0; status == POTTLE_OK && args_nth(a, "holds", i) != NULL;
         i++) {
        pottle_shelf_size size;
        if (c.holds == POTTLE_KITCHEN_HOLDS)
            return usage_error(self, "a canner is told for at most %d sizes",
                               (int)POTTLE_KITCHEN_HOLDS);
        status = pottle_shelf_read(catalogue, NULL, args_nth(a, "holds", i),
                                   &size, &error);
        if (status == POTTLE_OK) {
            pottle_kitchen_hold *hold = &c.hold[c.holds++];
            snprintf(hold->jar, sizeof hold->jar, "%s", size.jar->id);
            hold->count = size.count;
        }
    }
    if (status == POTTLE_OK)
        status = pottle_kitchen_put_canner(&h->kitchen, &c, &error);
    return said(catalogue, status, &error);
}

static int
set_pot(const command *self, household *h, const args *a)
{
    pottle_error error;
    pottle_kitchen_pot p;
    const char *tare = args_value(a, "tare"), *width = args_value(a, "width");
    if (a->operands != 3 || (tare == NULL && width == NULL))
        return usage_error(self,
                           "set pot takes a name, and --tare, --width or both");
    const pottle_kitchen_pot *before =
        pottle_kitchen_pot_find(&h->kitchen, a->operand[2]);
    memset(&p, 0, sizeof p);
    if (before != NULL)
        p = *before;
    pottle_status status = before == NULL
                             ? take_name(a->operand[2], p.id, p.title, &error)
                             : POTTLE_OK;
    if (status == POTTLE_OK && tare != NULL)
        status = pottle_kitchen_amount(tare, POTTLE_MASS, &p.tare, &error);
    if (status == POTTLE_OK && width != NULL)
        status = pottle_kitchen_amount(width, POTTLE_LENGTH, &p.width, &error);
    if (status == POTTLE_OK)
        status = pottle_kitchen_put_pot(&h->kitchen, &p, &error);
    return said(NULL, status, &error);
}

static int
set(const command *self, const pottle_catalogue *catalogue, household *h,
    const args *a)
{
    pottle_error error;
    pottle_kitchen *k = &h->kitchen;
    const char *what = a->operands > 1 ? a->operand[1] : "";
    if (strcmp(what, "canner") == 0)
        return set_canner(self, catalogue, h, a);
    if (strcmp(what, "pot") == 0)
        return set_pot(self, h, a);
    if (strcmp(what, "jars") == 0 && a->operands > 2) {
        int result = DONE;
        for (size_t i = 2; i < a->operands && result == DONE; i++)
            result = set_jars(catalogue, h, a->operand[i]);
        return result;
    }
    if (a->operands != 3)
        return usage_error(self,
                           "set takes one of altitude, cup, scale, "
                           "thermometer, canner, pot and jars, and what it is");
    const char *value = a->operand[2];
    if (strcmp(what, "altitude") == 0)
        return said(
            catalogue,
            pottle_kitchen_amount(value, POTTLE_LENGTH, &k->altitude, &error),
            &error);
    if (strcmp(what, "cup") == 0)
        return said(catalogue, pottle_cup_find(value, &k->cup, &error), &error);
    if (strcmp(what, "scale") == 0)
        return said(
            catalogue,
            pottle_kitchen_amount(value, POTTLE_NUMBER, &k->scale, &error),
            &error);
    if (strcmp(what, "thermometer") == 0)
        return said(catalogue,
                    pottle_misreading_read(value, POTTLE_TEMPERATURE,
                                           &k->thermometer, &error),
                    &error);
    char shown[60];
    return usage_error(self,
                       "'%s' cannot be set; there are altitude, cup, scale, "
                       "thermometer, canner, pot and jars",
                       printable(what, shown, sizeof shown));
}

static int
take_out(const command *self, household *h, const args *a)
{
    static const struct {
        const char *word;
        pottle_kitchen_part part;
    } parts[] = {
        { "canner", POTTLE_KITCHEN_A_CANNER },
        { "pot", POTTLE_KITCHEN_A_POT },
        { "jar", POTTLE_KITCHEN_AN_OWN_JAR },
    };
    pottle_error error;
    for (size_t i = 0; a->operands == 3 && i < sizeof parts / sizeof parts[0];
         i++)
        if (strcmp(a->operand[1], parts[i].word) == 0)
            return said(NULL,
                        pottle_kitchen_remove(&h->kitchen, parts[i].part,
                                              a->operand[2], &error),
                        &error);
    return usage_error(self, "remove takes canner, pot or jar, and its name");
}

static int
run(const command *self, const args *a, bool json)
{
    const char *verb = a->operands > 0 ? a->operand[0] : "show";
    const bool shows = strcmp(verb, "show") == 0,
               sets = strcmp(verb, "set") == 0,
               removes = strcmp(verb, "remove") == 0;
    if ((!shows && !sets && !removes) || (shows && a->operands > 1))
        return usage_error(self, "kitchen takes show, set or remove");
    pottle_catalogue *catalogue = NULL;
    household h;
    int result = open_catalogue(
        a, POTTLE_WITH_JARS | POTTLE_WITH_RULES | POTTLE_WITH_SOURCES,
        &catalogue);
    if (result == DONE)
        result = kitchen_open(a, catalogue, !shows, &h);
    if (result == DONE && sets)
        result = set(self, catalogue, &h, a);
    if (result == DONE && removes)
        result = take_out(self, &h, a);
    if (result == DONE && !shows)
        result = kitchen_save(&h);
    if (result == DONE)
        result = print(&h, json);
    if (result == DONE && h.replaced && !json)
        print_folded(
            stdout, "",
            "The version before is kept beside it, with a ~ behind its name.");
    pottle_catalogue_free(catalogue);
    return result;
}

const command kitchen_command = {
    "kitchen", run,
    "[show]\n"
    "set altitude H | cup us|imperial|metric | scale E | thermometer 'E "
    "high|low'\n"
    "set canner NAME METHOD [--holds 'N JAR']... [--gauge 'P high|low']\n"
    "set pot NAME [--tare M] [--width L]\n"
    "set jars 'N JAR'...\n"
    "remove canner|pot|jar NAME",
    "what your kitchen has, so that it need not be said again", options
};
