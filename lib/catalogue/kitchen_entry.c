/* kitchen_entry.c - the entries of a kitchen: each judged by itself, found by
 * name, put in its place and taken out.
 *
 * Entries stand in the order of their ids, which are their first member. Reader
 * and writer ask the same functions, so what was written can be read again. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen_file.h"
#include "model.h"

/* -- Entries --------------------------------------------------------------- */

/* Text that XML can hold. The two characters at the end of the plane are valid
 * UTF-8 and no XML. */
static bool
text_good(const char *title, size_t size, pottlei_complaint *c)
{
    const size_t n = strnlen(title, size);
    if (n == size || !pottlei_utf8_valid(title, n) ||
        strpbrk(title, "\t\n\r") != NULL ||
        strstr(title, "\xEF\xBF\xBE") != NULL ||
        strstr(title, "\xEF\xBF\xBF") != NULL)
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "title",
            "a title is one line of text of at most %d bytes", (int)size - 1);
    return true;
}

static bool
id_good(const char *id, const char *title, pottlei_complaint *c)
{
    if (strnlen(id, 64) == 64 || !pottlei_id_valid(id))
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "id",
            "'%.40s' is not an id (lower case letters, digits, single hyphens)",
            id);
    return text_good(title, 80, c);
}

static bool
jar_good(const char *jar, pottlei_complaint *c)
{
    if (strnlen(jar, 64) == 64 || !pottlei_id_valid(jar))
        return pottlei_complain(c, POTTLE_EDOMAIN, "id",
                                "'%.40s' is not a size of jar", jar);
    return true;
}

bool
pottlei_canner_good(const pottle_kitchen_canner *canner, pottlei_complaint *c)
{
    if (!id_good(canner->id, canner->title, c))
        return false;
    if ((int)canner->method < 0 ||
        (int)canner->method > (int)POTTLE_WEIGHTED_GAUGE ||
        canner->holds > POTTLE_KITCHEN_HOLDS)
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "canner",
            "no such kind of canner, or it holds more than %d sizes",
            (int)POTTLE_KITCHEN_HOLDS);
    if (canner->gauge.by.unit != NULL) {
        if (canner->method != POTTLE_DIAL_GAUGE)
            return pottlei_complain(
                c, POTTLE_EDOMAIN, "gauge",
                "%s has no dial that could read wrong: it is %s", canner->id,
                pottle_method_name((int)canner->method));
        if (!pottlei_amount_good(POTTLEI_GAUGE_ERROR, &canner->gauge.by, c))
            return false;
    }
    for (size_t i = 0; i < canner->holds; i++) {
        if (!jar_good(canner->hold[i].jar, c) ||
            !pottlei_count_good(canner->hold[i].count, c))
            return false;
        for (size_t k = 0; k < i; k++)
            if (strcmp(canner->hold[k].jar, canner->hold[i].jar) == 0)
                return pottlei_complain(
                    c, POTTLE_EDOMAIN, "twice",
                    "how many %s jars %s holds stands twice",
                    canner->hold[i].jar, canner->id);
    }
    return true;
}

bool
pottlei_pot_good(const pottle_kitchen_pot *pot, pottlei_complaint *c)
{
    if (!id_good(pot->id, pot->title, c))
        return false;
    if (pot->tare.unit == NULL && pot->width.unit == NULL)
        return pottlei_complain(c, POTTLE_EDOMAIN, "pot",
                                "neither mass nor width of %s is given",
                                pot->id);
    return (pot->tare.unit == NULL ||
            pottlei_amount_good(POTTLEI_TARE, &pot->tare, c)) &&
           (pot->width.unit == NULL ||
            pottlei_amount_good(POTTLEI_WIDTH, &pot->width, c));
}

static double
base(const pottle_quantity *q)
{
    return q->low * q->unit->factor;
}

/* Weighings that cannot be of one jar; both numbers are named. */
static bool
weighings_agree(const pottle_own_jar *jar, pottlei_complaint *c)
{
    const double empty = base(&jar->empty), full = base(&jar->full);
    if (!(full > empty))
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "contradiction",
            "%s weighs %g g empty and %g g full: full it must weigh more",
            jar->id, empty, full);
    if (!(full - empty >= 10 && full - empty <= 10000))
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "range",
            "%s weighs %g g empty and %g g full: no jar holds %g g of water",
            jar->id, empty, full, full - empty);
    if ((jar->to_mark.unit == NULL) != (jar->mark.unit == NULL))
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "mark",
            "a mark takes two readings: the mass when filled to "
            "it, and its depth below the brim");
    if (jar->to_mark.unit == NULL)
        return true;
    if (!pottlei_amount_good(POTTLEI_MASS_OF_JAR, &jar->to_mark, c) ||
        !pottlei_amount_good(POTTLEI_DEPTH, &jar->mark, c))
        return false;
    const double marked = base(&jar->to_mark);
    if (!(marked > empty && marked < full))
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "contradiction",
            "%s weighs %g g filled to the mark, which does not lie "
            "between %g g empty and %g g full",
            jar->id, marked, empty, full);
    /* 1 g of water is near enough to 1 mL to tell a finger's width from a
     * bucket's */
    const double width =
        sqrt((full - marked) * 1000 / base(&jar->mark) * 4 / POTTLEI_PI);
    if (!(width >= 10 && width <= 400))
        return pottlei_complain(
            c, POTTLE_EDOMAIN, "contradiction",
            "%g g of water over the mark of %s and its depth of %g "
            "mm make a neck %.0f mm wide",
            full - marked, jar->id, base(&jar->mark), width);
    return true;
}

bool
pottlei_own_jar_good(const pottle_own_jar *jar, pottlei_complaint *c)
{
    return id_good(jar->id, jar->title, c) &&
           (jar->near[0] == '\0' || jar_good(jar->near, c)) &&
           (jar->count == 0 || pottlei_count_good(jar->count, c)) &&
           pottlei_amount_good(POTTLEI_MASS_OF_JAR, &jar->empty, c) &&
           pottlei_amount_good(POTTLEI_MASS_OF_JAR, &jar->full, c) &&
           weighings_agree(jar, c) &&
           (jar->mouth.unit == NULL ||
            pottlei_amount_good(POTTLEI_MOUTH, &jar->mouth, c)) &&
           (jar->water.unit == NULL ||
            pottlei_amount_good(POTTLEI_WATER_TEMPERATURE, &jar->water, c)) &&
           (jar->scale.unit == NULL ||
            pottlei_amount_good(POTTLEI_SCALE_ERROR, &jar->scale, c));
}

/* -- The whole ------------------------------------------------------------- */

/* Whether an id, the first member of each entry, stands before entry i. */
static bool
is_new(const char *entries, size_t size, size_t i, const char *what,
       pottlei_complaint *c)
{
    for (size_t k = 0; k < i; k++)
        if (strcmp(entries + k * size, entries + i * size) == 0)
            return pottlei_complain(c, POTTLE_EDOMAIN, "twice",
                                    "the %s '%s' stands twice", what,
                                    entries + i * size);
    return true;
}

bool
pottlei_kitchen_good(const pottle_kitchen *k, pottlei_complaint *c)
{
    if (k->canners > POTTLE_KITCHEN_CANNERS || k->pots > POTTLE_KITCHEN_POTS ||
        k->shelves > POTTLE_KITCHEN_SHELF || k->own_jars > POTTLE_KITCHEN_OWN)
        return pottlei_complain(c, POTTLE_EDOMAIN, "too-many",
                                "more entries than a kitchen file holds");
    if (k->altitude.unit != NULL &&
        !pottlei_amount_good(POTTLEI_ALTITUDE, &k->altitude, c))
        return false;
    if ((int)k->cup < 0 || (int)k->cup > (int)POTTLE_CUP_METRIC)
        return pottlei_complain(c, POTTLE_EDOMAIN, "cup",
                                "no such kind of cup");
    if (k->scale.unit != NULL &&
        !pottlei_amount_good(POTTLEI_SCALE_ERROR, &k->scale, c))
        return false;
    if (k->thermometer.by.unit != NULL &&
        !pottlei_amount_good(POTTLEI_THERMOMETER_ERROR, &k->thermometer.by, c))
        return false;
    for (size_t i = 0; i < k->canners; i++)
        if (!pottlei_canner_good(&k->canner[i], c) ||
            !is_new((const char *)k->canner, sizeof k->canner[0], i, "canner",
                    c))
            return false;
    for (size_t i = 0; i < k->pots; i++)
        if (!pottlei_pot_good(&k->pot[i], c) ||
            !is_new((const char *)k->pot, sizeof k->pot[0], i, "pot", c))
            return false;
    for (size_t i = 0; i < k->shelves; i++)
        if (!jar_good(k->shelf[i].jar, c) ||
            !pottlei_count_good(k->shelf[i].count, c) ||
            !is_new((const char *)k->shelf, sizeof k->shelf[0], i, "size", c))
            return false;
    for (size_t i = 0; i < k->own_jars; i++)
        if (!pottlei_own_jar_good(&k->own[i], c) ||
            !is_new((const char *)k->own, sizeof k->own[0], i, "measured jar",
                    c))
            return false;
    return true;
}

/* -- Finding, putting in, taking out --------------------------------------- */

pottle_status
pottle_kitchen_id(const char *name, char id[64], pottle_error *error)
{
    if (name == NULL || id == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no name or no place for the result");
    char folded[80];
    pottlei_fold(name, folded, sizeof folded);
    for (char *s = folded; *s != '\0'; s++)
        if (*s == ' ')
            *s = '-';
    if (!pottlei_id_valid(folded))
        return pottlei_fail(error, POTTLE_ESYNTAX, "id",
                            "'%.60s' is no name here: letters a to z, digits "
                            "and blanks, at most 63",
                            name);
    memcpy(id, folded, strlen(folded) + 1);
    return POTTLE_OK;
}

/* Index of the entry of a name among entries whose first member is their id;
 * count when there is none. */
static size_t
find_entry(const char *entries, size_t size, size_t count, const char *name)
{
    char id[64];
    if (name == NULL || pottle_kitchen_id(name, id, NULL) != POTTLE_OK)
        return count;
    for (size_t i = 0; i < count; i++)
        if (strcmp(entries + i * size, id) == 0)
            return i;
    return count;
}

const pottle_kitchen_canner *
pottle_kitchen_canner_find(const pottle_kitchen *k, const char *name)
{
    const size_t i = find_entry((const char *)k->canner, sizeof k->canner[0],
                                k->canners, name);
    return i < k->canners ? &k->canner[i] : NULL;
}

const pottle_kitchen_pot *
pottle_kitchen_pot_find(const pottle_kitchen *k, const char *name)
{
    const size_t i =
        find_entry((const char *)k->pot, sizeof k->pot[0], k->pots, name);
    return i < k->pots ? &k->pot[i] : NULL;
}

const pottle_own_jar *
pottle_own_jar_find(const pottle_kitchen *k, const char *name)
{
    const size_t i =
        find_entry((const char *)k->own, sizeof k->own[0], k->own_jars, name);
    return i < k->own_jars ? &k->own[i] : NULL;
}

static pottle_status
refuse_entry(const pottlei_complaint *c, pottle_error *error)
{
    return pottlei_fail(error, c->status, c->code, "%s", c->what);
}

/* The place of an entry, in the order of the ids; where it is not there yet,
 * the others make room. POTTLE_EDOMAIN when there is none. */
static pottle_status
make_place(void *entries, size_t size, size_t *count, size_t most,
           const char *id, void **out, pottle_error *error)
{
    char *at = entries;
    size_t i = 0;
    int order = 1;
    while (i < *count && (order = strcmp(at, id)) < 0) {
        at += size;
        i++;
    }
    if (i == *count || order != 0) {
        if (*count >= most)
            return pottlei_fail(
                error, POTTLE_EDOMAIN, "too-many",
                "a kitchen file holds no more than %zu of these", most);
        memmove(at + size, at, (*count - i) * size);
        ++*count;
    }
    *out = at;
    return POTTLE_OK;
}

pottle_status
pottle_kitchen_put_canner(pottle_kitchen *k,
                          const pottle_kitchen_canner *canner,
                          pottle_error *error)
{
    pottlei_complaint c;
    void *place = NULL;
    if (k == NULL || canner == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no kitchen or no canner");
    const pottle_kitchen_canner copy = *canner;
    if (!pottlei_canner_good(&copy, &c))
        return refuse_entry(&c, error);
    const pottle_status status =
        make_place(k->canner, sizeof k->canner[0], &k->canners,
                   POTTLE_KITCHEN_CANNERS, copy.id, &place, error);
    if (place != NULL)
        memcpy(place, &copy, sizeof copy);
    return status;
}

pottle_status
pottle_kitchen_put_pot(pottle_kitchen *k, const pottle_kitchen_pot *pot,
                       pottle_error *error)
{
    pottlei_complaint c;
    void *place = NULL;
    if (k == NULL || pot == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no kitchen or no pot");
    const pottle_kitchen_pot copy = *pot;
    if (!pottlei_pot_good(&copy, &c))
        return refuse_entry(&c, error);
    const pottle_status status =
        make_place(k->pot, sizeof k->pot[0], &k->pots, POTTLE_KITCHEN_POTS,
                   copy.id, &place, error);
    if (place != NULL)
        memcpy(place, &copy, sizeof copy);
    return status;
}

pottle_status
pottle_kitchen_put_own(pottle_kitchen *k, const pottle_own_jar *jar,
                       pottle_error *error)
{
    pottlei_complaint c;
    void *place = NULL;
    if (k == NULL || jar == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no kitchen or no jar");
    const pottle_own_jar copy = *jar;
    if (!pottlei_own_jar_good(&copy, &c))
        return refuse_entry(&c, error);
    const pottle_status status =
        make_place(k->own, sizeof k->own[0], &k->own_jars, POTTLE_KITCHEN_OWN,
                   copy.id, &place, error);
    if (place != NULL)
        memcpy(place, &copy, sizeof copy);
    return status;
}

pottle_status
pottle_kitchen_put_jars(pottle_kitchen *k, const char *jar, unsigned long count,
                        pottle_error *error)
{
    pottlei_complaint c;
    void *place = NULL;
    if (k == NULL || jar == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no kitchen or no size of jar");
    if (!jar_good(jar, &c) || (count > 0 && !pottlei_count_good(count, &c)))
        return refuse_entry(&c, error);
    if (count == 0) {
        const size_t i = find_entry((const char *)k->shelf, sizeof k->shelf[0],
                                    k->shelves, jar);
        if (i < k->shelves)
            memmove(&k->shelf[i], &k->shelf[i + 1],
                    (--k->shelves - i) * sizeof k->shelf[0]);
        return POTTLE_OK;
    }
    pottle_kitchen_jars fresh = { .count = count };
    POTTLEI_SET(fresh.jar, jar);
    const pottle_status status =
        make_place(k->shelf, sizeof k->shelf[0], &k->shelves,
                   POTTLE_KITCHEN_SHELF, fresh.jar, &place, error);
    if (status == POTTLE_OK && place != NULL)
        memcpy(place, &fresh, sizeof fresh);
    return status;
}

pottle_status
pottle_kitchen_remove(pottle_kitchen *k, pottle_kitchen_part part,
                      const char *name, pottle_error *error)
{
    if (k == NULL || name == NULL || part < POTTLE_KITCHEN_A_CANNER ||
        part > POTTLE_KITCHEN_AN_OWN_JAR)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no kitchen, no name or no such part");
    char *entries = part == POTTLE_KITCHEN_A_CANNER ? (char *)k->canner
                  : part == POTTLE_KITCHEN_A_POT    ? (char *)k->pot
                                                    : (char *)k->own;
    const size_t size = part == POTTLE_KITCHEN_A_CANNER ? sizeof k->canner[0]
                      : part == POTTLE_KITCHEN_A_POT    ? sizeof k->pot[0]
                                                        : sizeof k->own[0];
    size_t *count = part == POTTLE_KITCHEN_A_CANNER ? &k->canners
                  : part == POTTLE_KITCHEN_A_POT    ? &k->pots
                                                    : &k->own_jars;
    const size_t i = find_entry(entries, size, *count, name);
    if (i == *count)
        return pottlei_fail(error, POTTLE_ENOENT, "unknown",
                            "the kitchen file has no '%.60s' there", name);
    memmove(entries + i * size, entries + (i + 1) * size,
            (*count - i - 1) * size);
    --*count;
    return POTTLE_OK;
}
