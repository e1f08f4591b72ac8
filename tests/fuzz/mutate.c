/* mutate.c - changes for libFuzzer that leave an XML file well formed, and the
 * words of a command words.
 *
 * Bytes changed at random seldom get past the parser. So three changes of four
 * to a file are made of whole parts of it: an element is dropped, doubled or
 * put elsewhere, an attribute gets another value, an odd one, or goes. The rest
 * and all other inputs are left to libFuzzer. Of the words of a command, which
 * stand a line each, whole ones are dropped, doubled, put elsewhere. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

/* libFuzzer's, and what it looks for; it has no header. */
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t max_size);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max_size,
                               unsigned int seed);
size_t LLVMFuzzerCustomCrossOver(const uint8_t *data1, size_t size1,
                                 const uint8_t *data2, size_t size2,
                                 uint8_t *out, size_t max_out,
                                 unsigned int seed);

/* A stretch of the input, from `at` up to `end`. */
typedef struct span {
    size_t at, end;
} span;

enum { SPANS_MAX = 2048, DEPTH_MAX = 64 };

/* The parts of a file, as far as they can be told without a parser. */
typedef struct parts {
    span element[SPANS_MAX]; /* first tag to last */
    span tag[SPANS_MAX];     /* from < to behind > */
    span value[SPANS_MAX];   /* between the quotes */
    span attribute[SPANS_MAX];
    span text[SPANS_MAX];
    size_t elements, tags, values, texts;
} parts;

static parts first, second;

static unsigned int state;

static size_t
any(size_t n)
{
    state = state * 1664525u + 1013904223u;
    return n == 0 ? 0 : (state >> 8) % n;
}

static void
find_attributes(const uint8_t *data, span tag, parts *p)
{
    size_t name = tag.at + 1;
    for (size_t i = tag.at; i < tag.end && p->values < SPANS_MAX; i++) {
        if (data[i] == ' ' || data[i] == '\n')
            name = i;
        if (data[i] != '"')
            continue;
        const uint8_t *close = memchr(data + i + 1, '"', tag.end - i - 1);
        if (close == NULL)
            return;
        const size_t end = (size_t)(close - data);
        p->attribute[p->values] = (span){ name, end + 1 };
        p->value[p->values++] = (span){ i + 1, end };
        i = end;
    }
}

static void
find_parts(const uint8_t *data, size_t size, parts *p)
{
    size_t open[DEPTH_MAX], depth = 0, behind = 0;
    p->elements = p->tags = p->values = p->texts = 0;
    for (size_t i = 0; i < size; i++) {
        if (data[i] != '<')
            continue;
        const uint8_t *close = memchr(data + i, '>', size - i);
        if (close == NULL || p->tags == SPANS_MAX)
            return;
        const span tag = { i, (size_t)(close - data) + 1 };
        if (i > behind && p->texts < SPANS_MAX)
            p->text[p->texts++] = (span){ behind, i };
        behind = tag.end;
        i = tag.end - 1;
        if (data[tag.at + 1] == '?' || data[tag.at + 1] == '!')
            continue;
        if (data[tag.at + 1] == '/') {
            if (depth > 0 && p->elements < SPANS_MAX)
                p->element[p->elements++] = (span){ open[--depth], tag.end };
            continue;
        }
        p->tag[p->tags++] = tag;
        find_attributes(data, tag, p);
        if (data[tag.end - 2] == '/') {
            if (p->elements < SPANS_MAX)
                p->element[p->elements++] = tag;
        } else if (depth < DEPTH_MAX) {
            open[depth++] = tag.at;
        }
    }
}

/* Puts n bytes in place of a stretch; the size that comes of it, 0 for no room.
 * `with` lies outside data. */
static size_t
replace(uint8_t *data, size_t size, size_t max_size, span old,
        const uint8_t *with, size_t n)
{
    const size_t now = size - (old.end - old.at) + n;
    if (now > max_size)
        return 0;
    memmove(data + old.at + n, data + old.end, size - old.end);
    if (n > 0)
        memcpy(data + old.at, with, n);
    return now;
}

/* The same with a stretch of other bytes, which may be those of data. */
static size_t
put(uint8_t *data, size_t size, size_t max_size, span old, const uint8_t *from,
    span part)
{
    const size_t n = part.end - part.at;
    uint8_t *copy = malloc(n + 1);
    if (copy == NULL)
        return 0;
    memcpy(copy, from + part.at, n);
    size = replace(data, size, max_size, old, copy, n);
    free(copy);
    return size;
}

/* Bytes of libFuzzer's in one stretch, which stays what it is: markup is taken
 * out again. */
static size_t
mutate_part(uint8_t *data, size_t size, size_t max_size, span part)
{
    enum { ROOM = 512 };
    uint8_t bytes[ROOM];
    const size_t n = part.end - part.at;
    if (n > ROOM)
        return 0;
    memcpy(bytes, data + part.at, n);
    const size_t now = LLVMFuzzerMutate(bytes, n, ROOM);
    for (size_t i = 0; i < now; i++)
        if (bytes[i] == '"' || bytes[i] == '<' || bytes[i] == '&' ||
            bytes[i] == '\0')
            bytes[i] = '0';
    return replace(data, size, max_size, part, bytes, now);
}

static size_t
odd_value(uint8_t *data, size_t size, size_t max_size, span value)
{
    static const char *const odd[] = {
        "",         "0",         "1",          "2",
        "-1",       "0.5",       "100",        "1000000000",
        "1e9",      "0.0000001", "NaN",        "INF",
        "1/2",      "2-3",       "99999999",   "99999999999999999999999",
        "quart",    "pint",      "half-pint",  "gallon",
        "apple",    "sugar",     "vinegar",    "cup",
        "lb",       "g",         "count",      "exact",
        "at-least", "at-most",   "free",       "no",
        "yes",      "published", "derived",    "tested",
        "own",      "draft",     "2147483648", " ",
        "\xC3\xA9", "a|b",       "&#10;",      "&amp;&quot;&lt;",
    };
    const char *text = odd[any(sizeof odd / sizeof odd[0])];
    return replace(data, size, max_size, value, (const uint8_t *)text,
                   strlen(text));
}

/* One change, or 0 where it cannot be made. */
static size_t
change(uint8_t *data, size_t size, size_t max_size)
{
    const parts *p = &first;
    if (p->elements == 0 || p->values == 0)
        return 0;
    const span e = p->element[any(p->elements)];
    const span v = p->value[any(p->values)];
    switch (any(10)) {
    case 0: return replace(data, size, max_size, e, NULL, 0);
    case 1: return put(data, size, max_size, (span){ e.end, e.end }, data, e);
    case 2: { /* before the tag of another */
        const span t = p->tag[any(p->tags)];
        return put(data, size, max_size, (span){ t.at, t.at }, data, e);
    }
    case 3: /* in place of another */
        return put(data, size, max_size, e, data, p->element[any(p->elements)]);
    case 4: return odd_value(data, size, max_size, v);
    case 5: return put(data, size, max_size, v, data, p->value[any(p->values)]);
    case 6:
        return replace(data, size, max_size, p->attribute[any(p->values)], NULL,
                       0);
    case 7: { /* into the tag of another */
        const span a = p->attribute[any(p->values)];
        return put(data, size, max_size, (span){ a.at, a.at }, data,
                   p->attribute[any(p->values)]);
    }
    case 8:
        return p->texts == 0
                 ? 0
                 : mutate_part(data, size, max_size, p->text[any(p->texts)]);
    default: return mutate_part(data, size, max_size, v);
    }
}

/* Some line of the input with its newline, or with `two` that and the next. */
static span
some_line(const uint8_t *data, size_t size, bool two)
{
    span line = { any(size), 0 };
    while (line.at > 0 && data[line.at - 1] != '\n')
        line.at--;
    line.end = line.at;
    for (int n = two ? 2 : 1; n > 0 && line.end < size; n--) {
        while (line.end < size && data[line.end] != '\n')
            line.end++;
        line.end += line.end < size;
    }
    return line;
}

/* One change of the words of a command, or 0. */
static size_t
change_words(uint8_t *data, size_t size, size_t max_size)
{
    if (size == 0)
        return 0;
    const span line = some_line(data, size, false);
    const span other = some_line(data, size, any(2) == 0);
    switch (any(4)) {
    case 0: return replace(data, size, max_size, other, NULL, 0);
    case 1:
        return put(data, size, max_size, (span){ line.at, line.at }, data,
                   other);
    case 2: return put(data, size, max_size, line, data, other);
    default:
        return mutate_part(
            data, size, max_size,
            (span){ line.at, line.end > line.at ? line.end - 1 : line.at });
    }
}

static bool
has_words(const uint8_t *data, size_t size)
{
    return strcmp(fuzz_running->name, "command") == 0 &&
           fuzz_has(data, size, "pottle\n");
}

size_t
LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max_size,
                        unsigned int seed)
{
    state = seed;
    const bool words = has_words(data, size);
    if ((!fuzz_running->xml && !words) || any(4) == 0)
        return LLVMFuzzerMutate(data, size, max_size);
    for (size_t i = 1 + any(3); i > 0; i--) {
        if (!words)
            find_parts(data, size, &first);
        const size_t now = words ? change_words(data, size, max_size)
                                 : change(data, size, max_size);
        if (now > 0)
            size = now;
    }
    return size;
}

/* An element or a value of the second goes into the first. For what is no file:
 * the beginning of one and the end of the other. */
size_t
LLVMFuzzerCustomCrossOver(const uint8_t *data1, size_t size1,
                          const uint8_t *data2, size_t size2, uint8_t *out,
                          size_t max_out, unsigned int seed)
{
    state = seed;
    if (size1 > max_out)
        return 0;
    memcpy(out, data1, size1);
    if (has_words(data1, size1) && has_words(data2, size2)) {
        const span line = some_line(data1, size1, any(2) == 0);
        return put(out, size1, max_out,
                   any(2) == 0 ? line : (span){ line.at, line.at }, data2,
                   some_line(data2, size2, any(2) == 0));
    }
    if (!fuzz_running->xml) {
        const size_t at = any(size1 + 1);
        const span end = { any(size2 + 1), size2 };
        return put(out, size1, max_out, (span){ at, size1 }, data2, end);
    }
    find_parts(data1, size1, &first);
    find_parts(data2, size2, &second);
    if (first.elements == 0 || second.elements == 0)
        return 0;
    if (any(4) == 0 && first.values > 0 && second.values > 0)
        return put(out, size1, max_out, first.value[any(first.values)], data2,
                   second.value[any(second.values)]);
    const span to = first.element[any(first.elements)];
    const span from = second.element[any(second.elements)];
    return put(out, size1, max_out, any(2) == 0 ? to : (span){ to.at, to.at },
               data2, from);
}
