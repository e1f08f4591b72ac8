/* kitchen_file.c - reading a kitchen file.
 *
 * A person edits it by hand, so the elements may stand in any order, and every
 * complaint has its line. What may stand there at all is decided in
 * kitchen_value.c and kitchen_entry.c, which the writer asks too. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen_file.h"
#include "xml.h"

/* A reader of one kitchen. */
typedef struct taker {
    pottlei_reader reader;
    const pottle_catalogue
        *catalogue; /* NULL when the sizes are not looked up */
    pottle_kitchen *kitchen;
} taker;

static void
fail(taker *t, const pottlei_node *node, const pottlei_complaint *c)
{
    pottlei_xml_fail(&t->reader, node, c->code, "%s", c->what);
}

static void
take_quantity(taker *t, const pottlei_node *node, const char *value,
              const char *unit, pottlei_amount_kind kind, pottle_quantity *out)
{
    pottlei_complaint c;
    if (out->unit != NULL) {
        pottlei_xml_fail(&t->reader, node, "twice", "<%.40s> stands twice",
                         node->name);
        return;
    }
    const pottle_unit *u = pottlei_xml_unit(&t->reader, node, unit, -1);
    const double x = pottlei_xml_number(&t->reader, node, value, -1);
    const pottle_quantity q = { x, x, u };
    if (!pottlei_amount_good(kind, &q, &c))
        fail(t, node, &c);
    else
        *out = q;
}

/* An element without children. */
static void
is_leaf(taker *t, const pottlei_node *node, const char *allowed)
{
    pottlei_xml_only(&t->reader, node, allowed);
    if (node->first != NULL || node->mixed || node->text[0] != '\0')
        pottlei_xml_fail(&t->reader, node, "element",
                         "nothing may stand in <%.40s>", node->name);
}

static void
take_amount(taker *t, const pottlei_node *node, pottlei_amount_kind kind,
            pottle_quantity *out)
{
    is_leaf(t, node, "value unit");
    take_quantity(t, node, "value", "unit", kind, out);
}

static void
take_scale(taker *t, const pottlei_node *node, pottle_quantity *out)
{
    is_leaf(t, node, "error unit");
    take_quantity(t, node, "error", "unit", POTTLEI_SCALE_ERROR, out);
}

static void
take_misreading(taker *t, const pottlei_node *node, pottlei_amount_kind kind,
                pottle_misreading *out)
{
    static const char *const words[] = { "low", "high", NULL };
    is_leaf(t, node, "reads by unit");
    out->high = pottlei_xml_choice(&t->reader, node, "reads", words, -1) == 1;
    take_quantity(t, node, "by", "unit", kind, &out->by);
}

static unsigned long
take_count(taker *t, const pottlei_node *node, bool needed)
{
    pottlei_complaint c;
    if (!needed && pottlei_xml_peek(node, "count") == NULL)
        return 0;
    const double x = pottlei_xml_number(&t->reader, node, "count", -1);
    if (x < floor(x) || x > floor(x) ||
        !(x >= 1 && x <= POTTLE_KITCHEN_COUNT_MAX)) {
        (void)pottlei_count_good(0, &c);
        fail(t, node, &c);
        return 1;
    }
    return (unsigned long)x;
}

/* Texts were cut where they are too long, which must be said and not done. */
static void
take_text(taker *t, const pottlei_node *node, const char *name,
          const char *text, char *to, size_t size)
{
    if (strlen(text) >= size)
        pottlei_xml_fail(&t->reader, node, name,
                         "'%s' is longer than %zu bytes", name, size - 1);
    pottlei_copy(to, size, text);
}

static void
take_id(taker *t, const pottlei_node *node, char id[64], char title[80])
{
    take_text(t, node, "id", pottlei_xml_id(&t->reader, node, "id", NULL), id,
              64);
    take_text(t, node, "title", pottlei_xml_attr(&t->reader, node, "title", ""),
              title, 80);
}

/* A listed size, by its id. */
static void
take_jar(taker *t, const pottlei_node *node, const char *name,
         const char *fallback, char jar[64])
{
    const char *id = pottlei_xml_id(&t->reader, node, name, fallback);
    take_text(t, node, name, id, jar, 64);
    if (t->catalogue == NULL || id == fallback || t->reader.status != POTTLE_OK)
        return;
    if (pottlei_jar_by_id(t->catalogue, id) == NULL)
        pottlei_xml_fail(&t->reader, node, "unknown-jar",
                         "'%.40s' is not a size of jar that is listed", id);
}

/* Keeps a list in the order of the file and without doubles. */
static bool
has_room(taker *t, const pottlei_node *node, size_t count, size_t most)
{
    if (count < most)
        return t->reader.status == POTTLE_OK;
    pottlei_xml_fail(&t->reader, node, "too-many",
                     "more than %zu times <%.40s>", most, node->name);
    return false;
}

static void
take_canner(taker *t, const pottlei_node *node)
{
    pottlei_reader *r = &t->reader;
    pottlei_complaint c;
    pottle_kitchen_canner canner;
    memset(&canner, 0, sizeof canner);
    pottlei_xml_only(r, node, "id title method");
    take_id(t, node, canner.id, canner.title);
    canner.method = (pottle_method)pottlei_xml_choice(r, node, "method",
                                                      pottlei_methods, -1);
    for (const pottlei_node *e = pottlei_xml_first(r, node); e != NULL;
         e = pottlei_xml_next(r, e)) {
        if (pottlei_xml_is(e, "gauge")) {
            take_misreading(t, e, POTTLEI_GAUGE_ERROR, &canner.gauge);
        } else if (pottlei_xml_is(e, "holds")) {
            if (!has_room(t, e, canner.holds, POTTLE_KITCHEN_HOLDS))
                return;
            is_leaf(t, e, "jar count");
            pottle_kitchen_hold *hold = &canner.hold[canner.holds++];
            take_jar(t, e, "jar", NULL, hold->jar);
            hold->count = take_count(t, e, true);
        } else {
            pottlei_xml_unknown(r, e);
        }
    }
    if (!has_room(t, node, t->kitchen->canners, POTTLE_KITCHEN_CANNERS))
        return;
    if (!pottlei_canner_good(&canner, &c))
        fail(t, node, &c);
    else if (pottle_kitchen_canner_find(t->kitchen, canner.id) != NULL)
        pottlei_xml_fail(r, node, "twice", "the canner '%s' stands twice",
                         canner.id);
    else
        t->kitchen->canner[t->kitchen->canners++] = canner;
}

static void
take_pot(taker *t, const pottlei_node *node)
{
    pottlei_reader *r = &t->reader;
    pottlei_complaint c;
    pottle_kitchen_pot pot;
    memset(&pot, 0, sizeof pot);
    pottlei_xml_only(r, node, "id title");
    take_id(t, node, pot.id, pot.title);
    for (const pottlei_node *e = pottlei_xml_first(r, node); e != NULL;
         e = pottlei_xml_next(r, e)) {
        if (pottlei_xml_is(e, "tare"))
            take_amount(t, e, POTTLEI_TARE, &pot.tare);
        else if (pottlei_xml_is(e, "width"))
            take_amount(t, e, POTTLEI_WIDTH, &pot.width);
        else
            pottlei_xml_unknown(r, e);
    }
    if (!has_room(t, node, t->kitchen->pots, POTTLE_KITCHEN_POTS))
        return;
    if (!pottlei_pot_good(&pot, &c))
        fail(t, node, &c);
    else if (pottle_kitchen_pot_find(t->kitchen, pot.id) != NULL)
        pottlei_xml_fail(r, node, "twice", "the pot '%s' stands twice", pot.id);
    else
        t->kitchen->pot[t->kitchen->pots++] = pot;
}

static void
take_shelf(taker *t, const pottlei_node *node)
{
    pottle_kitchen_jars jars;
    memset(&jars, 0, sizeof jars);
    is_leaf(t, node, "jar count");
    take_jar(t, node, "jar", NULL, jars.jar);
    jars.count = take_count(t, node, true);
    for (size_t i = 0; i < t->kitchen->shelves; i++)
        if (strcmp(t->kitchen->shelf[i].jar, jars.jar) == 0)
            pottlei_xml_fail(&t->reader, node, "twice",
                             "how many %s jars there are stands twice",
                             jars.jar);
    if (has_room(t, node, t->kitchen->shelves, POTTLE_KITCHEN_SHELF))
        t->kitchen->shelf[t->kitchen->shelves++] = jars;
}

/* A jar of one's own would hide a listed size of the same name, and with it its
 * process. */
static bool
is_listed(const taker *t, const char *name)
{
    const pottle_jar *jar = NULL;
    return t->catalogue != NULL && name[0] != '\0' &&
           pottle_jar_find(t->catalogue, name, &jar, NULL) == POTTLE_OK;
}

static void
take_own(taker *t, const pottlei_node *node)
{
    pottlei_reader *r = &t->reader;
    pottlei_complaint c;
    pottle_own_jar jar;
    memset(&jar, 0, sizeof jar);
    pottlei_xml_only(r, node, "id title near count");
    take_id(t, node, jar.id, jar.title);
    take_jar(t, node, "near", "", jar.near);
    jar.count = take_count(t, node, false);
    const struct {
        const char *name;
        pottlei_amount_kind kind;
        pottle_quantity *to;
    } parts[] = {
        { "empty", POTTLEI_MASS_OF_JAR, &jar.empty },
        { "full", POTTLEI_MASS_OF_JAR, &jar.full },
        { "to-mark", POTTLEI_MASS_OF_JAR, &jar.to_mark },
        { "mark", POTTLEI_DEPTH, &jar.mark },
        { "mouth", POTTLEI_MOUTH, &jar.mouth },
        { "water", POTTLEI_WATER_TEMPERATURE, &jar.water },
    };
    for (const pottlei_node *e = pottlei_xml_first(r, node); e != NULL;
         e = pottlei_xml_next(r, e)) {
        size_t i = 0;
        while (i < sizeof parts / sizeof parts[0] &&
               !pottlei_xml_is(e, parts[i].name))
            i++;
        if (i < sizeof parts / sizeof parts[0])
            take_amount(t, e, parts[i].kind, parts[i].to);
        else if (pottlei_xml_is(e, "scale"))
            take_scale(t, e, &jar.scale);
        else
            pottlei_xml_unknown(r, e);
    }
    if (!has_room(t, node, t->kitchen->own_jars, POTTLE_KITCHEN_OWN))
        return;
    if (jar.empty.unit == NULL || jar.full.unit == NULL)
        pottlei_xml_fail(r, node, "element",
                         "<measured-jar> needs <empty> and <full>");
    else if (!pottlei_own_jar_good(&jar, &c))
        fail(t, node, &c);
    else if (pottle_own_jar_find(t->kitchen, jar.id) != NULL)
        pottlei_xml_fail(r, node, "twice", "the measured jar '%s' stands twice",
                         jar.id);
    else if (is_listed(t, jar.id) || is_listed(t, jar.title))
        pottlei_xml_fail(r, node, "id-taken",
                         "'%s' is the name of a listed size", jar.id);
    else
        t->kitchen->own[t->kitchen->own_jars++] = jar;
}

static void
take_cup(taker *t, const pottlei_node *node)
{
    if (t->kitchen->cup != POTTLE_CUP_UNSAID)
        pottlei_xml_fail(&t->reader, node, "twice", "<cup> stands twice");
    is_leaf(t, node, "kind");
    t->kitchen->cup =
        (pottle_cup)(pottlei_xml_choice(&t->reader, node, "kind",
                                        pottlei_cup_names + 1, -1) +
                     1);
}

pottle_status
pottle_kitchen_read(const pottle_catalogue *catalogue, const char *path,
                    pottle_kitchen *out, pottle_error *error)
{
    if (path == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no path or no place for the result");
    pottlei_arena arena = { NULL };
    pottle_kitchen kitchen;
    size_t sizes = 0;
    memset(&kitchen, 0, sizeof kitchen);
    if (catalogue != NULL)
        (void)pottle_jars(catalogue, &sizes);
    taker t = { .catalogue = sizes > 0 ? catalogue : NULL,
                .kitchen = &kitchen };
    pottlei_reader *r = &t.reader;
    if (pottlei_xml_open(r, path, &arena, error) == POTTLE_OK) {
        const pottlei_node *root = pottlei_xml_root(r, "kitchen");
        if (root != NULL)
            pottlei_xml_only(r, root, "");
        for (const pottlei_node *e = pottlei_xml_first(r, root); e != NULL;
             e = pottlei_xml_next(r, e)) {
            if (pottlei_xml_is(e, "altitude"))
                take_amount(&t, e, POTTLEI_ALTITUDE, &kitchen.altitude);
            else if (pottlei_xml_is(e, "cup"))
                take_cup(&t, e);
            else if (pottlei_xml_is(e, "scale"))
                take_scale(&t, e, &kitchen.scale);
            else if (pottlei_xml_is(e, "thermometer"))
                take_misreading(&t, e, POTTLEI_THERMOMETER_ERROR,
                                &kitchen.thermometer);
            else if (pottlei_xml_is(e, "canner"))
                take_canner(&t, e);
            else if (pottlei_xml_is(e, "pot"))
                take_pot(&t, e);
            else if (pottlei_xml_is(e, "shelf"))
                take_shelf(&t, e);
            else if (pottlei_xml_is(e, "measured-jar"))
                take_own(&t, e);
            else
                pottlei_xml_unknown(r, e);
        }
    }
    const pottle_status status = r->status;
    pottlei_arena_free(&arena);
    if (status == POTTLE_OK)
        *out = kitchen;
    return status;
}
