/* print.c - text for people: folding, short numbers, sources. */
#include "cli.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

const char *const cautions[] = {
    "Follow the source itself: it has the whole procedure, and this is only "
    "its arithmetic.",
    "Your local extension office and your food authority have the last word.",
    "Never change times, jar sizes, acid or proportions; never process a "
    "part-filled jar.",
    NULL,
};

/* Columns of UTF-8 text: its bytes less the continuation bytes. */
static size_t
columns(const char *text, size_t n)
{
    size_t count = 0;
    for (size_t i = 0; i < n; i++)
        count += ((unsigned char)text[i] & 0xC0u) != 0x80u;
    return count;
}

const char *
printable(const char *text, char *buf, size_t size)
{
    size_t n = 0;
    for (const unsigned char *s = (const unsigned char *)text;
         *s != '\0' && n + 5 < size;) {
        const size_t more = *s < 0x80u                 ? 0
                          : *s >= 0xC2u && *s <= 0xDFu ? 1
                          : *s >= 0xE0u && *s <= 0xEFu ? 2
                          : *s >= 0xF0u && *s <= 0xF4u ? 3
                                                       : 9;
        bool whole = more < 9 && !(more == 0 && (*s < 0x20u || *s == 0x7Fu));
        for (size_t k = 1; whole && k <= more; k++)
            whole = (s[k] & 0xC0u) == 0x80u;
        /* the second set of control characters; overlong forms, surrogates,
         * beyond U+10FFFF */
        whole =
            whole &&
            !((*s == 0xC2u && s[1] < 0xA0u) || (*s == 0xE0u && s[1] < 0xA0u) ||
              (*s == 0xEDu && s[1] > 0x9Fu) || (*s == 0xF0u && s[1] < 0x90u) ||
              (*s == 0xF4u && s[1] > 0x8Fu));
        if (whole) {
            memcpy(buf + n, s, more + 1);
            n += more + 1;
            s += more + 1;
        } else {
            buf[n++] = '?';
            s++;
        }
    }
    buf[n] = '\0';
    return buf;
}

void
complain(const char *message, ...)
{
    char text[2048], shown[2048];
    va_list list;
    va_start(list, message);
    vsnprintf(text, sizeof text, message, list);
    va_end(list);
    fprintf(stderr, "pottle: %s\n", printable(text, shown, sizeof shown));
}

void
print_folded(FILE *to, const char *first, const char *text)
{
    const size_t begin = columns(first, strlen(first));
    /* words in front of a text hang by two; a label or a column by its width */
    const size_t indent =
        first[0] != ' ' && begin > 24 && begin < 34 ? 2 : begin;
    fputs(first, to);
    size_t at = begin;
    bool fresh = true;
    for (const char *s = text; *s != '\0';) {
        const size_t n = strcspn(s, " "), wide = columns(s, n);
        if (!fresh && at + 1 + wide > WIDTH) {
            fprintf(to, "\n%*s", (int)indent, "");
            at = indent;
        } else if (!fresh) {
            fputc(' ', to);
            at++;
        }
        fresh = false;
        fwrite(s, 1, n, to);
        at += wide;
        s += n;
        s += strspn(s, " ");
    }
    fputc('\n', to);
}

void
wash_text(const char *indent, const pottle_jar_count *j, const char *jar)
{
    const pottle_interval i = pottle_estimate_interval(j->count);
    char first[20], text[200];
    snprintf(first, sizeof first, "%swash ", indent);
    snprintf(text, sizeof text,
             "%lu %s jar%s; expect %lu full (%.0f to %.0f), %lu with nine "
             "chances in ten",
             j->prepare, jar, j->prepare == 1 ? "" : "s", j->full, floor(i.low),
             ceil(i.high), j->promise);
    print_folded(stdout, first, text);
}

void
short_number(double value, char *buf, size_t size)
{
    const double a = fabs(value);
    pottle_number_write(value,
                        a >= 100   ? 0
                        : a >= 10  ? 1
                        : a >= 0.1 ? 2
                                   : 3,
                        buf, size);
}

void
dose_text(double each, const pottle_unit *unit, const char *size,
          unsigned long jars, pottle_keep keep, char *buf, size_t buf_size)
{
    pottle_measure m;
    char number[40];
    if (pottle_measure_jars(each, unit, size, jars, keep, &m) == POTTLE_OK) {
        pottle_measure_write(&m, buf, buf_size);
        return;
    }
    pottle_number_write(each, 2, number, sizeof number);
    const char *name = unit->dimension == POTTLE_COUNT ? size : unit->symbol;
    if (jars == 1)
        snprintf(buf, buf_size, "%s %s", number, name);
    else
        snprintf(buf, buf_size, "%lu times %s %s", jars, number, name);
}

void
mass_text(double g, char *buf, size_t size)
{
    char number[40];
    const bool kilos = g >= 999.5;
    if (g > 0 && g < 0.05) { /* no kitchen scale shows it */
        snprintf(buf, size, "<0.1 g");
        return;
    }
    pottle_number_write(kilos ? g / 1000.0 : g,
                        g >= 999995 ? 0
                        : kilos     ? 2
                        : g >= 10   ? 0
                                    : 1,
                        number, sizeof number);
    snprintf(buf, size, "%s %s", number, kilos ? "kg" : "g");
}

void
about_text(double g, char *buf, size_t size)
{
    char number[40];
    const bool kilos = g > 990;
    /* up, so that what is told is enough */
    pottle_number_write(kilos ? ceil(g / 100 - 1e-9) / 10
                              : ceil(g / 10 - 1e-9) * 10,
                        kilos ? 1 : 0, number, sizeof number);
    snprintf(buf, size, "%s %s", number, kilos ? "kg" : "g");
}

void
source_text(const pottle_catalogue *catalogue, const char *key, const char *at,
            char *buf, size_t size)
{
    const pottle_source *s =
        catalogue != NULL ? pottle_source_find(catalogue, key) : NULL;
    if (s == NULL)
        snprintf(buf, size, "%s%s%s", key, at[0] != '\0' ? ", " : "", at);
    else
        snprintf(buf, size, "%s, %s%s%s%s%s%s%s [%s]", s->author, s->title,
                 s->part[0] != '\0' ? ", " : "", s->part,
                 s->year[0] != '\0' ? ", " : "", s->year,
                 at[0] != '\0' ? "; " : "", at, key);
}

void
food_text(const pottle_catalogue *catalogue, const char *food,
          const char *title, const char *said, double pieces, const char *size,
          char *buf, size_t buf_size)
{
    static const char *const sizes[] = { "one", "small", "medium", "large",
                                         "extra-large" };
    const char *name = title, *one = pottle_food_name(catalogue, food, 0);
    const size_t n = strlen(title);
    bool sized = false;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        sized = sized || strcmp(size, sizes[i]) == 0;
    if (pieces > 0 && pieces <= 1 && sized && one != NULL && n > 0 &&
        title[n - 1] == 's')
        name = one;
    snprintf(buf, buf_size, "%s%s%s", name, said[0] != '\0' ? ", " : "", said);
}

void
count_text(double count, char *buf, size_t size)
{
    pottle_measure m = { .parts = 1, .part = { { .count = count } } };
    m.part[0].unit = pottle_unit_find("count");
    pottle_measure_write(&m, buf, size);
}

void
unit_text(double count, const pottle_unit *unit, const char *size, char *buf,
          size_t buf_size)
{
    char text[100];
    pottle_measure m = { .parts = 1, .part = { { .count = count } } };
    m.part[0].unit = unit;
    snprintf(m.part[0].size, sizeof m.part[0].size, "%s", size);
    pottle_measure_write(&m, text, sizeof text);
    const char *space = strrchr(text, ' ');
    /* "1 1/2" ends in a number, and so do mere pieces */
    const bool word = space != NULL && !(space[1] >= '0' && space[1] <= '9');
    if (unit->dimension == POTTLE_VOLUME && strcmp(unit->symbol, "fl oz") == 0)
        snprintf(buf, buf_size, "fl oz");
    else
        snprintf(buf, buf_size, "%s", word ? space + 1 : "");
}
