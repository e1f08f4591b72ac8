/* reference_process_lookup.c - test_reference_process: every row is looked up.
 */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "reference_process_cases.h"

/* The same, for a look-up: a recipe that is only a draft has rows but refuses
 * them all, which is one finding and not a hundred. */
static bool
have_tested(size_t i, findings *f)
{
    if (!have_recipe(i, f))
        return false;
    const bool tested = pottle_recipe_standing(recipe) == POTTLE_TESTED;
    if (!tested && i == first)
        findings_add(f,
                     "%s: expected a tested recipe, found a draft: none of its "
                     "%zu rows can be looked up",
                     rows[i].recipe, last - first);
    return tested;
}

/* The processes of one recipe and one jar. `any` asks for every method and pack
 * at once. */
typedef struct question {
    const pottle_jar *jar;
    bool any, raw;
    pottle_method method;
    double altitude_ft;
} question;

static size_t lookups, refusals;

static const pottle_jar *
jar_of(const char *list, size_t i)
{
    for (; i > 0; i--) {
        list += strcspn(list, "|");
        list += strspn(list, "|");
    }
    if (list[0] == '\0')
        return NULL;
    char id[32];
    snprintf(id, sizeof id, "%.*s", (int)strcspn(list, "|"), list);
    const pottle_jar *jar = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_jar_find(catalogue, id, &jar, &error) == POTTLE_OK,
                  "jar %s: %s", id, error.what);
    return jar;
}

/* The smallest size tested for a method and pack of the recipe that is not
 * smaller than a jar; NULL when the jar is larger than all. */
static const pottle_jar *
tested_for(const pottle_jar *jar, bool raw, pottle_method method)
{
    const pottle_jar *best = NULL, *tested;
    for (size_t i = first; i < last; i++)
        for (size_t k = 0; rows[i].raw == raw && rows[i].method == method &&
                           (tested = jar_of(rows[i].jars, k)) != NULL;
             k++)
            if (tested->nominal_ml >= jar->nominal_ml &&
                (best == NULL || tested->nominal_ml < best->nominal_ml))
                best = tested;
    return best;
}

/* Whether a row is one of the processes asked for. Edges are as printed: what
 * lies above 1,000 ft belongs to the band from 1,001 ft. */
static bool
answers(const row *r, const question *q)
{
    if (!q->any && (r->raw != q->raw || r->method != q->method))
        return false;
    const bool above =
        r->from_ft == 0 || q->altitude_ft > (double)r->from_ft - 1;
    const bool below = r->to_ft < 0 || q->altitude_ft <= (double)r->to_ft;
    const pottle_jar *tested =
        above && below ? tested_for(q->jar, r->raw, r->method) : NULL;
    return tested != NULL && list_has(r->jars, tested->id);
}

static bool
is_row(const pottle_process *p, const row *r)
{
    return p->table->method == r->method && p->table->raw == r->raw &&
           p->band->minutes == r->minutes && p->band->psi == r->psi &&
           nearly(p->headspace.mm, r->headspace_in * 25.4) &&
           list_has(r->jars, p->tested_as->id);
}

/* Place of an answer among others: by method, hot before raw, shortest first.
 */
static long
place(const pottle_process *p)
{
    return (long)p->table->method * 100000 + (p->table->raw ? 10000 : 0) +
           p->band->minutes;
}

static words
say_question(const question *q)
{
    words w = { "" };
    text_add(w.text, sizeof w.text, "%s in %s, %s, %s, %.2f ft",
             rows[first].recipe, q->jar->id,
             q->any   ? "any pack"
             : q->raw ? "raw"
                      : "hot",
             q->any ? "any method" : pottle_method_name((int)q->method),
             q->altitude_ft);
    return w;
}

static words
say_answers(const pottle_process *p, size_t n)
{
    words w = { "" };
    for (size_t i = 0; i < n; i++)
        text_add(w.text, sizeof w.text, " %s %s %d min %d psi as %s %g mm;",
                 p[i].table->raw ? "raw" : "hot",
                 pottle_method_name((int)p[i].table->method),
                 p[i].band->minutes, p[i].band->psi, p[i].tested_as->id,
                 p[i].headspace.mm);
    return w;
}

static void
compare_answers(const question *q, const pottle_process *p, size_t n,
                size_t expected, findings *f)
{
    if (n != expected)
        findings_add(f, "%s: expected %zu processes, found %zu:%s",
                     say_question(q).text, expected, n, say_answers(p, n).text);
    for (size_t i = first; i < last; i++) {
        size_t times = 0;
        for (size_t k = 0; k < n; k++)
            times += is_row(&p[k], &rows[i]);
        if (answers(&rows[i], q) && times != 1)
            findings_add(f, "%s: expected %s once, found %zu times among%s",
                         say_question(q).text, say_row(i).text, times,
                         say_answers(p, n).text);
    }
    for (size_t k = 0; k < n; k++)
        if (p[k].jar != q->jar || (k > 0 && place(&p[k - 1]) > place(&p[k])))
            findings_add(f,
                         "%s: expected that jar, the shortest first, found%s",
                         say_question(q).text, say_answers(p, n).text);
}

/* Asks the library and compares with all rows that answer: each of them once,
 * nothing else, in order; refused, with the count left alone, where there is
 * none. */
static void
ask(const question *q, findings *f)
{
    enum { UNTOUCHED = 99 };
    pottle_process found[POTTLE_PROCESS_MAX];
    pottle_error error = { .status = POTTLE_OK };
    size_t n = UNTOUCHED, expected = 0;
    const pottle_pack_style pack = q->any ? POTTLE_ANY_PACK
                                 : q->raw ? POTTLE_RAW_PACK
                                          : POTTLE_HOT_PACK;
    const pottle_status status = pottle_process_find(
        catalogue, recipe, q->jar, q->any ? NULL : &q->method, pack,
        q->altitude_ft * FOOT_M, found, &n, &error);
    lookups++;
    f->looked_at++;
    for (size_t i = first; i < last; i++)
        expected += answers(&rows[i], q);
    if (expected == 0) {
        refusals++;
        if (status != POTTLE_EBOUNDS || n != UNTOUCHED ||
            error.status != POTTLE_EBOUNDS || error.what[0] == '\0')
            findings_add(f,
                         "%s: expected a refusal that leaves the count alone, "
                         "found: %s, count %zu",
                         say_question(q).text, pottle_strerror((int)status), n);
    } else if (status != POTTLE_OK) {
        findings_add(f, "%s: expected %zu processes, found: %s, %s",
                     say_question(q).text, expected,
                     pottle_strerror((int)status), error.what);
    } else {
        compare_answers(q, found, n, expected, f);
    }
}

START_TEST(every_row_is_looked_up)
{
    enum { ABOVE_EDGE = 1000, HIGHEST = 10000, POINTS = 6 };
    findings f = { "look-ups of tested jars", 0, 0 };
    lookups = refusals = 0;
    for (size_t i = 0; i < table.rows; i++) {
        const row *r = &rows[i];
        if (!have_tested(i, &f))
            continue;
        const bool open = r->to_ft < 0;
        const double points[POINTS] = {
            r->from_ft,
            open ? r->from_ft + ABOVE_EDGE : (r->from_ft + r->to_ft) / 2.0,
            open ? HIGHEST : r->to_ft,
            /* just above the band below: already in this one */
            r->from_ft == 0 ? 0 : r->from_ft - 1 + 0.01,
            /* just above this one: in the next, or refused */
            open ? HIGHEST : r->to_ft + 0.01,
            open ? HIGHEST : r->to_ft + 1,
        };
        const pottle_jar *jar;
        for (size_t k = 0; (jar = jar_of(r->jars, k)) != NULL; k++) {
            for (size_t p = 0; p < POINTS; p++)
                ask(&(question){ jar, false, r->raw, r->method, points[p] },
                    &f);
            ask(&(question){ jar, true, r->raw, r->method, points[1] }, &f);
        }
    }
    printf("%zu look-ups of tested jars, %zu of them to be refused\n", lookups,
           refusals);
    findings_end(&f);
}
END_TEST

/* Every size of the catalogue, for each method and pack, in each band: one that
 * is larger than all that were tested is refused, a smaller one takes the next
 * larger tested size's process. */
START_TEST(other_jars_are_looked_up)
{
    findings f = { "look-ups of all sizes of jar", 0, 0 };
    lookups = refusals = 0;
    size_t jars = 0, larger = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &jars);
    for (size_t i = 0; i < table.rows; i++) {
        const row *r = &rows[i];
        const bool usable = have_tested(i, &f);
        for (size_t k = 0; usable && k < jars; k++) {
            larger += tested_for(&jar[k], r->raw, r->method) == NULL;
            ask(&(question){ &jar[k], false, r->raw, r->method, r->from_ft },
                &f);
        }
    }
    printf("%zu look-ups of all sizes, %zu to be refused, %zu of them larger "
           "than tested\n",
           lookups, refusals, larger);
    ck_assert_uint_gt(larger, 0);
    findings_end(&f);
}
END_TEST

TCase *
reference_process_lookup(void)
{
    TCase *t = tcase_create("process.csv");
    tcase_set_timeout(t, 120);
    tcase_add_checked_fixture(t, read_rows, free_rows);
    tcase_add_test(t, every_row_is_looked_up);
    tcase_add_test(t, other_jars_are_looked_up);
    return t;
}
