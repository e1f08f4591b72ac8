/* pack.c - which jars to fill.
 *
 * Kinds in rising order, one after the other: fewest[w] is the smallest number
 * of jars that hold exactly w. A kind of which there are c joins as bundles of
 * 1, 2, 4 ... jars that add up to c, so every number up to c can be made of
 * them. A layer is only as long as what its jars can hold together, and the
 * last kind, the largest, needs no layer: each number of it is tried against
 * the layer before. */
#include <config.h>

#include <stdint.h>
#include <stdlib.h>

#include "kitchen/shelf.h"

enum { NONE = 60000 }; /* more jars than there can be */

/* Kinds that are there, in rising order of size. */
typedef struct kinds {
    size_t n, index[POTTLE_SHELF_MAX];
    unsigned long size[POTTLE_SHELF_MAX], count[POTTLE_SHELF_MAX];
} kinds;

static void
sort_kinds(const unsigned long *size, const unsigned long *count, size_t n,
           kinds *k)
{
    k->n = 0;
    for (size_t i = 0; i < n && i < POTTLE_SHELF_MAX; i++) {
        if (count[i] == 0 || size[i] == 0)
            continue;
        size_t at = k->n++;
        for (; at > 0 && k->size[at - 1] > size[i]; at--) {
            k->size[at] = k->size[at - 1];
            k->count[at] = k->count[at - 1];
            k->index[at] = k->index[at - 1];
        }
        k->size[at] = size[i];
        k->count[at] = count[i];
        k->index[at] = i;
    }
}

/* Longest sum of each layer, not above the volume. False when it does not fit a
 * long. */
static bool
reaches(const kinds *k, unsigned long volume, unsigned long *reach)
{
    unsigned long sum = 0;
    for (size_t i = 0; i < k->n; i++) {
        if (k->size[i] > (UINT32_MAX / 2 - sum) / k->count[i])
            return false;
        sum += k->size[i] * k->count[i];
        reach[i] = sum < volume ? sum : volume;
    }
    return true;
}

size_t
pottlei_pack_room(const unsigned long *size, const unsigned long *count,
                  size_t n, unsigned long volume)
{
    kinds k;
    unsigned long reach[POTTLE_SHELF_MAX];
    size_t room = 1;
    sort_kinds(size, count, n, &k);
    if (!reaches(&k, volume, reach))
        return SIZE_MAX;
    for (size_t i = 0; i + 1 < k.n; i++)
        room += reach[i] + 1;
    return room;
}

static void
add_kind(uint16_t *fewest, unsigned long reach, unsigned long size,
         unsigned long count)
{
    for (unsigned long left = count, bundle = 1; left > 0; bundle *= 2) {
        const unsigned long jars = bundle < left ? bundle : left,
                            step = jars * size;
        left -= jars;
        for (unsigned long w = reach; w >= step; w--) {
            const unsigned long with = fewest[w - step] + jars;
            if (with < fewest[w])
                fewest[w] = (uint16_t)with;
        }
    }
}

/* The choice of the last kind: how many of it, and how much the others hold. */
typedef struct best {
    unsigned long of_last, others, left, jars;
    bool any;
} best;

/* Tries every number of the last kind, with what the others hold nearest below
 * the rest. In the first pass only the least left over counts; in the second
 * all within `alike` of it, by the number of jars. */
static void
try_last(const uint16_t *fewest, unsigned long reach, unsigned long size,
         unsigned long count, unsigned long volume, unsigned long alike,
         best *b)
{
    unsigned long least = volume;
    for (unsigned long n = 0; n <= count && n * size <= volume; n++) {
        const unsigned long rest = volume - n * size;
        unsigned long w = rest < reach ? rest : reach;
        while (fewest[w] >= NONE)
            w--;
        if (rest - w < least)
            least = rest - w;
    }
    for (unsigned long n = 0; n <= count && n * size <= volume; n++) {
        const unsigned long rest = volume - n * size,
                            most = rest < reach ? rest : reach;
        /* a rest that even all the others leave too much of */
        if (rest - most > least + alike)
            continue;
        const unsigned long from =
            rest > least + alike ? rest - least - alike : 0;
        for (unsigned long w = from; w <= most; w++) {
            const unsigned long jars = fewest[w] + n;
            if (fewest[w] >= NONE ||
                (b->any &&
                 (jars > b->jars || (jars == b->jars && rest - w >= b->left))))
                continue;
            *b = (best){ n, w, rest - w, jars, true };
        }
    }
}

/* Back through the layers: which number of each kind led to the fewest. */
static void
walk_back(const kinds *k, const uint16_t *table, const size_t *at,
          const unsigned long *reach, unsigned long w, unsigned long *jars)
{
    for (size_t i = k->n - 1; i-- > 0;) {
        const uint16_t *layer = table + at[i],
                       *before = i > 0 ? table + at[i - 1] : table;
        const unsigned long known = i > 0 ? reach[i - 1] : 0;
        unsigned long c = 0;
        while (c <= k->count[i]) {
            const unsigned long rest = w - c * k->size[i];
            if (rest <= known && before[rest] < NONE &&
                before[rest] + c == layer[w])
                break;
            c++;
        }
        jars[k->index[i]] = c;
        w -= c * k->size[i];
    }
}

pottle_status
pottlei_pack(const unsigned long *size, const unsigned long *count, size_t n,
             unsigned long volume, unsigned long alike, unsigned long *jars,
             pottle_error *error)
{
    kinds k;
    unsigned long reach[POTTLE_SHELF_MAX], sum = 0;
    size_t at[POTTLE_SHELF_MAX] = { 0 };
    sort_kinds(size, count, n, &k);
    const size_t room = pottlei_pack_room(size, count, n, volume);
    for (size_t i = 0; i < k.n; i++)
        sum += k.count[i];
    if (!reaches(&k, volume, reach) || sum >= NONE)
        return pottlei_fail(error, POTTLE_EDOMAIN, "shelf",
                            "too many jars to choose from");
    unsigned long all = 0;
    for (size_t i = 0; i < k.n; i++)
        all += k.size[i] * k.count[i];
    /* it holds all there is: nothing to choose */
    if (k.n == 0 || all <= volume) {
        for (size_t i = 0; i < n; i++)
            jars[i] = size[i] > 0 ? count[i] : 0;
        return POTTLE_OK;
    }
    if (room > POTTLEI_PACK_MAX)
        return pottlei_fail(error, POTTLE_EDOMAIN, "shelf",
                            "too many jars to choose from");
    uint16_t *table = calloc(room, sizeof *table);
    if (table == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    /* nothing at all is a layer of one number, and stands for the others when
     * there is one kind */
    table[0] = 0;
    for (size_t i = 0, from = 1; i + 1 < k.n; from += reach[i++] + 1) {
        at[i] = from;
        uint16_t *layer = table + from;
        const uint16_t *before = i > 0 ? table + at[i - 1] : table;
        const unsigned long known = i > 0 ? reach[i - 1] : 0;
        for (unsigned long w = 0; w <= reach[i]; w++)
            layer[w] = w <= known ? before[w] : NONE;
        add_kind(layer, reach[i], k.size[i], k.count[i]);
    }
    const size_t last = k.n - 1;
    best b = { 0, 0, 0, 0, false };
    try_last(last > 0 ? table + at[last - 1] : table,
             last > 0 ? reach[last - 1] : 0, k.size[last], k.count[last],
             volume, alike, &b);
    for (size_t i = 0; i < n; i++)
        jars[i] = 0;
    jars[k.index[last]] = b.of_last;
    walk_back(&k, table, at, reach, b.others, jars);
    free(table);
    return POTTLE_OK;
}
