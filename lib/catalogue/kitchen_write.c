/* kitchen_write.c - the text of a kitchen file. */
#include <config.h>

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen_file.h"

/* More than the fullest kitchen takes, with every character of every title
 * escaped. */
enum { TEXT_ROOM = 1 << 17, VALUE_ROOM = 600, DECIMALS = 8 };

typedef struct page {
    char *text;
    size_t n;
    bool full;
} page;

static void add(page *p, const char *format, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 2, 3)))
#endif
    ;

static void
add(page *p, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const int k = vsnprintf(p->text + p->n, TEXT_ROOM - p->n, format, args);
    va_end(args);
    if (k < 0 || (size_t)k >= TEXT_ROOM - p->n)
        p->full = true;
    else
        p->n += (size_t)k;
}

/* The text of an attribute's value. */
static const char *
escaped(const char *text, char buf[VALUE_ROOM])
{
    static const struct {
        char c;
        const char *as;
    } marks[] = { { '&', "&amp;" },
                  { '<', "&lt;" },
                  { '>', "&gt;" },
                  { '"', "&quot;" },
                  { '\'', "&apos;" } };
    size_t n = 0;
    for (const char *s = text; *s != '\0' && n + 7 < VALUE_ROOM; s++) {
        const char *as = NULL;
        for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++)
            if (marks[i].c == *s)
                as = marks[i].as;
        if (as == NULL) {
            buf[n++] = *s;
        } else {
            memcpy(buf + n, as, strlen(as));
            n += strlen(as);
        }
    }
    buf[n] = '\0';
    return buf;
}

static void
add_name(page *p, const char *element, const char *id, const char *title)
{
    char value[VALUE_ROOM];
    add(p, "  <%s id=\"%s\"", element, id);
    if (title[0] != '\0')
        add(p, " title=\"%s\"", escaped(title, value));
}

static void
add_amount(page *p, const char *indent, const char *element,
           const char *attribute, const pottle_quantity *q)
{
    char number[40];
    if (q->unit == NULL)
        return;
    pottle_number_write(q->low, DECIMALS, number, sizeof number);
    add(p, "%s<%s %s=\"%s\" unit=\"%s\"/>\n", indent, element, attribute,
        number, q->unit->id);
}

static void
add_misreading(page *p, const char *indent, const char *element,
               const pottle_misreading *m)
{
    char number[40];
    if (m->by.unit == NULL)
        return;
    pottle_number_write(m->by.low, DECIMALS, number, sizeof number);
    add(p, "%s<%s reads=\"%s\" by=\"%s\" unit=\"%s\"/>\n", indent, element,
        m->high ? "high" : "low", number, m->by.unit->id);
}

static void
add_kitchen(page *p, const pottle_kitchen *k)
{
    add(p, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kitchen>\n");
    add_amount(p, "  ", "altitude", "value", &k->altitude);
    if (k->cup != POTTLE_CUP_UNSAID)
        add(p, "  <cup kind=\"%s\"/>\n", pottle_cup_name((int)k->cup));
    add_amount(p, "  ", "scale", "error", &k->scale);
    add_misreading(p, "  ", "thermometer", &k->thermometer);
    for (size_t i = 0; i < k->canners; i++) {
        const pottle_kitchen_canner *c = &k->canner[i];
        add_name(p, "canner", c->id, c->title);
        add(p, " method=\"%s\">\n", pottle_method_name((int)c->method));
        add_misreading(p, "    ", "gauge", &c->gauge);
        for (size_t h = 0; h < c->holds; h++)
            add(p, "    <holds jar=\"%s\" count=\"%lu\"/>\n", c->hold[h].jar,
                c->hold[h].count);
        add(p, "  </canner>\n");
    }
    for (size_t i = 0; i < k->pots; i++) {
        add_name(p, "pot", k->pot[i].id, k->pot[i].title);
        add(p, ">\n");
        add_amount(p, "    ", "tare", "value", &k->pot[i].tare);
        add_amount(p, "    ", "width", "value", &k->pot[i].width);
        add(p, "  </pot>\n");
    }
    for (size_t i = 0; i < k->shelves; i++)
        add(p, "  <shelf jar=\"%s\" count=\"%lu\"/>\n", k->shelf[i].jar,
            k->shelf[i].count);
    for (size_t i = 0; i < k->own_jars; i++) {
        const pottle_own_jar *o = &k->own[i];
        add_name(p, "measured-jar", o->id, o->title);
        if (o->near[0] != '\0')
            add(p, " near=\"%s\"", o->near);
        if (o->count > 0)
            add(p, " count=\"%lu\"", o->count);
        add(p, ">\n");
        add_amount(p, "    ", "empty", "value", &o->empty);
        add_amount(p, "    ", "full", "value", &o->full);
        add_amount(p, "    ", "to-mark", "value", &o->to_mark);
        add_amount(p, "    ", "mark", "value", &o->mark);
        add_amount(p, "    ", "mouth", "value", &o->mouth);
        add_amount(p, "    ", "water", "value", &o->water);
        add_amount(p, "    ", "scale", "error", &o->scale);
        add(p, "  </measured-jar>\n");
    }
    add(p, "</kitchen>\n");
}

pottle_status
pottlei_kitchen_write(const pottlei_disk *disk, const pottle_kitchen *kitchen,
                      const char *path, pottle_error *error)
{
    pottlei_complaint c;
    if (!pottlei_kitchen_good(kitchen, &c))
        return pottlei_fail(error, c.status, c.code, "%s", c.what);
    page p = { .text = malloc(TEXT_ROOM) };
    if (p.text == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    add_kitchen(&p, kitchen);
    const pottle_status status =
        p.full ? pottlei_fail(error, POTTLE_EDOMAIN, "too-many",
                              "more than a kitchen file holds")
               : pottlei_file_replace(disk, path, p.text, p.n, error);
    free(p.text);
    return status;
}

pottle_status
pottle_kitchen_write(const pottle_kitchen *kitchen, const char *path,
                     pottle_error *error)
{
    if (kitchen == NULL || path == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no kitchen or no path");
    return pottlei_kitchen_write(&pottlei_disk_real, kitchen, path, error);
}
