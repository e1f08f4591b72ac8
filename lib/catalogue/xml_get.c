/* xml_get.c - taking values out of a parsed file.
 *
 * Every getter checks what it gives; the first failure is kept and the others
 * give harmless values, so that a reader is straight code. */
#include <config.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "xml.h"

static void
fail(pottlei_reader *reader, const pottlei_node *node, pottle_status status,
     const char *code, const char *what)
{
    if (reader->status != POTTLE_OK)
        return;
    reader->status = pottlei_fail(reader->error, status, code, "%s", what);
    if (reader->error != NULL) {
        pottlei_set_where(reader->error, reader->path);
        reader->error->line = node != NULL ? node->line : 0;
    }
}

void
pottlei_xml_fail(pottlei_reader *reader, const pottlei_node *node,
                 const char *code, const char *what, ...)
{
    char text[400];
    va_list args;
    va_start(args, what);
    const int n = vsnprintf(text, sizeof text, what, args);
    va_end(args);
    fail(reader, node, POTTLE_EDATA, code, n < 0 ? "invalid" : text);
}

bool
pottlei_xml_is(const pottlei_node *node, const char *name)
{
    return strcmp(node->name, name) == 0;
}

const pottlei_node *
pottlei_xml_root(pottlei_reader *reader, const char *name)
{
    if (reader->root == NULL || !pottlei_xml_is(reader->root, name)) {
        pottlei_xml_fail(reader, reader->root, "element",
                         "the root element must be <%s>", name);
        return NULL;
    }
    return reader->root;
}

const pottlei_node *
pottlei_xml_first(pottlei_reader *reader, const pottlei_node *parent)
{
    if (parent == NULL || reader->status != POTTLE_OK)
        return NULL;
    if (parent->mixed || (parent->text[0] != '\0'))
        pottlei_xml_fail(reader, parent, "text",
                         "text where only elements may stand");
    return reader->status == POTTLE_OK ? parent->first : NULL;
}

const pottlei_node *
pottlei_xml_next(pottlei_reader *reader, const pottlei_node *node)
{
    return reader->status == POTTLE_OK ? node->next : NULL;
}

/* Itself when it has that name, else NULL and a failure. */
static const pottlei_node *
only_of(pottlei_reader *reader, const pottlei_node *node, const char *name)
{
    if (node == NULL || pottlei_xml_is(node, name))
        return node;
    pottlei_xml_unknown(reader, node);
    return NULL;
}

const pottlei_node *
pottlei_xml_first_of(pottlei_reader *reader, const pottlei_node *parent,
                     const char *name)
{
    return only_of(reader, pottlei_xml_first(reader, parent), name);
}

const pottlei_node *
pottlei_xml_next_of(pottlei_reader *reader, const pottlei_node *node)
{
    return only_of(reader, pottlei_xml_next(reader, node), node->name);
}

size_t
pottlei_xml_count(pottlei_reader *reader, const pottlei_node *parent,
                  const char *name)
{
    size_t n = 0;
    for (const pottlei_node *e = pottlei_xml_first(reader, parent); e != NULL;
         e = pottlei_xml_next(reader, e))
        n += pottlei_xml_is(e, name);
    return n;
}

/* Whether a name is a word of a blank-separated list. */
static bool
is_listed(const char *name, const char *list)
{
    const size_t n = strlen(name);
    /* by hand: strcspn takes longer to begin than a short word to its end */
    for (const char *s = list; *s != '\0';) {
        size_t k = 0;
        while (s[k] != '\0' && s[k] != ' ')
            k++;
        if (k == n && memcmp(s, name, n) == 0)
            return true;
        s += k + (s[k] == ' ');
    }
    return false;
}

void
pottlei_xml_once(pottlei_reader *reader, const pottlei_node *parent,
                 const char *single)
{
    for (const pottlei_node *e = pottlei_xml_first(reader, parent); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (!is_listed(e->name, single))
            continue;
        const pottlei_node *before = pottlei_xml_first(reader, parent);
        while (before != e && strcmp(before->name, e->name) != 0)
            before = pottlei_xml_next(reader, before);
        if (before != e) {
            pottlei_xml_fail(reader, e, "twice", "<%.40s> stands twice",
                             e->name);
            return;
        }
    }
}

void
pottlei_xml_unknown(pottlei_reader *reader, const pottlei_node *node)
{
    pottlei_xml_fail(
        reader, node, "element", "<%.40s> may not stand in <%.40s>", node->name,
        node->parent != NULL && node->parent->name != NULL ? node->parent->name
                                                           : "the document");
}

void
pottlei_xml_only(pottlei_reader *reader, const pottlei_node *node,
                 const char *allowed)
{
    for (size_t i = 0; i < node->attributes; i++) {
        const char *name = node->attribute[i].name;
        if (!is_listed(name, allowed))
            pottlei_xml_fail(reader, node, "attribute",
                             "<%.40s> may not have an attribute '%.40s'",
                             node->name, name);
    }
}

const char *
pottlei_xml_peek(const pottlei_node *node, const char *name)
{
    for (size_t i = 0; i < node->attributes; i++)
        if (strcmp(node->attribute[i].name, name) == 0)
            return node->attribute[i].value;
    return NULL;
}

static void
missing(pottlei_reader *reader, const pottlei_node *node, const char *name)
{
    pottlei_xml_fail(reader, node, "attribute",
                     "<%.40s> needs an attribute '%s'", node->name, name);
}

const char *
pottlei_xml_attr(pottlei_reader *reader, const pottlei_node *node,
                 const char *name, const char *fallback)
{
    const char *text = pottlei_xml_peek(node, name);
    if (text != NULL)
        return text;
    if (fallback != NULL)
        return fallback;
    missing(reader, node, name);
    return "";
}

double
pottlei_xml_number(pottlei_reader *reader, const pottlei_node *node,
                   const char *name, double fallback)
{
    const char *text = pottlei_xml_peek(node, name);
    if (text == NULL) {
        if (fallback < 0)
            missing(reader, node, name);
        return fallback < 0 ? 0 : fallback;
    }
    pottle_range range = { 0, 0 };
    if (pottle_number_read(text, &range) != POTTLE_OK ||
        range.high > range.low) {
        pottlei_xml_fail(
            reader, node, "number",
            "'%.40s' of '%s' is not a number such as 5, 10.5 or 3 1/2", text,
            name);
        return 0;
    }
    return range.low;
}

int
pottlei_xml_whole(pottlei_reader *reader, const pottlei_node *node,
                  const char *name, double fallback, double most)
{
    const double x = pottlei_xml_number(reader, node, name, fallback);
    if (!(x >= 0 && x <= most && !(fabs(x - floor(x)) > 0))) {
        pottlei_xml_fail(reader, node, "number",
                         "'%s' must be a whole number up to %g", name, most);
        return 0;
    }
    return (int)x;
}

const pottle_unit *
pottlei_xml_unit(pottlei_reader *reader, const pottlei_node *node,
                 const char *name, int dimension)
{
    const char *text = pottlei_xml_peek(node, name);
    if (text == NULL) {
        missing(reader, node, name);
        return pottle_unit_at(0);
    }
    const pottle_unit *unit = pottle_unit_find(text);
    if (unit == NULL || (dimension >= 0 && (int)unit->dimension != dimension)) {
        pottlei_xml_fail(reader, node, "unit",
                         "'%.40s' is not a unit that may stand here", text);
        return pottle_unit_at(0);
    }
    return unit;
}

int
pottlei_xml_choice(pottlei_reader *reader, const pottlei_node *node,
                   const char *name, const char *const *list, int fallback)
{
    const char *text = pottlei_xml_peek(node, name);
    if (text == NULL) {
        if (fallback < 0)
            missing(reader, node, name);
        return fallback < 0 ? 0 : fallback;
    }
    for (int i = 0; list[i] != NULL; i++)
        if (strcmp(list[i], text) == 0)
            return i;
    pottlei_xml_fail(reader, node, "value", "'%.40s' is not a value of '%s'",
                     text, name);
    return 0;
}

bool
pottlei_xml_flag(pottlei_reader *reader, const pottlei_node *node,
                 const char *name, bool fallback)
{
    static const char *const yes_no[] = { "no", "yes", NULL };
    return pottlei_xml_choice(reader, node, name, yes_no, fallback ? 1 : 0) ==
           1;
}

bool
pottlei_id_valid(const char *id)
{
    size_t n = 0;
    for (; id[n] != '\0'; n++) {
        const char c = id[n];
        const bool word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (n >= 63 || (!word && !(c == '-' && n > 0 && id[n - 1] != '-')))
            return false;
    }
    return n > 0 && id[n - 1] != '-';
}

const char *
pottlei_xml_id(pottlei_reader *reader, const pottlei_node *node,
               const char *name, const char *fallback)
{
    const char *text = pottlei_xml_attr(reader, node, name, fallback);
    if (text != fallback && !pottlei_id_valid(text))
        pottlei_xml_fail(reader, node, "id",
                         "'%.40s' of '%s' is not an id (lower case letters, "
                         "digits, single hyphens)",
                         text, name);
    return text;
}

const char *
pottlei_xml_text(pottlei_reader *reader, const pottlei_node *node)
{
    if (node->first != NULL || node->mixed)
        pottlei_xml_fail(reader, node, "text", "<%.40s> may hold text only",
                         node->name);
    else if (node->text[0] == '\0')
        pottlei_xml_fail(reader, node, "text", "<%.40s> is empty", node->name);
    return node->text;
}

pottle_cite
pottlei_xml_cite(pottlei_reader *reader, const pottlei_node *node,
                 const pottle_cite *parent)
{
    const pottle_cite none = { "", "", "", (pottle_standing)0 };
    if (parent == NULL)
        parent = &none;
    pottle_cite cite;
    cite.source = pottlei_xml_id(reader, node, "source", parent->source);
    cite.at = pottlei_xml_attr(reader, node, "at", parent->at);
    cite.note = pottlei_xml_attr(reader, node, "note", "");
    cite.standing =
        pottlei_xml_peek(node, "standing") == NULL
            ? parent->standing
            : (pottle_standing)(pottlei_xml_choice(reader, node, "standing",
                                                   pottlei_standings, -1) +
                                1);
    if (reader->status == POTTLE_OK &&
        (cite.source[0] == '\0' || cite.at[0] == '\0' ||
         cite.standing == (pottle_standing)0))
        pottlei_xml_fail(reader, node, "cited",
                         "<%.40s> has no source, place and standing, and its "
                         "parents have none",
                         node->name);
    return cite;
}

void *
pottlei_xml_array(pottlei_reader *reader, size_t count, size_t size)
{
    void *p = pottlei_arena_new(reader->arena, count > 0 ? count : 1, size);
    if (p == NULL)
        fail(reader, NULL, POTTLE_ENOMEM, "memory", "no memory");
    return p;
}

void *
pottlei_xml_room(pottlei_reader *reader, const pottlei_node *parent,
                 const char *name, size_t size)
{
    return pottlei_xml_array(reader, pottlei_xml_count(reader, parent, name),
                             size);
}

const char *const *
pottlei_xml_ids(pottlei_reader *reader, const pottlei_node *node,
                const char *name, size_t *count)
{
    char *list = pottlei_arena_text(reader->arena,
                                    pottlei_xml_attr(reader, node, name, NULL));
    size_t n = 0;
    for (const char *s = list; s != NULL && *s != '\0'; s++)
        n += *s == ' ';
    const char **id = pottlei_xml_array(reader, n + 1, sizeof *id);
    if (list == NULL || id == NULL) {
        fail(reader, NULL, POTTLE_ENOMEM, "memory", "no memory");
        return NULL;
    }
    size_t k = 0;
    for (char *s = list;;) {
        const size_t length = strcspn(s, " ");
        const bool last = s[length] == '\0';
        s[length] = '\0';
        if (!pottlei_id_valid(s))
            pottlei_xml_fail(reader, node, "id", "'%.40s' in '%s' is not an id",
                             s, name);
        id[k++] = s;
        if (last)
            break;
        s += length + 1;
    }
    *count = k;
    return id;
}
