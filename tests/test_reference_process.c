/* test_reference_process.c - every published process, against the reference's
 * process.csv.
 *
 * Each row of the publication must stand in the catalogue as printed, the packs
 * of the catalogue must have nothing else, and the look-up must find each row,
 * give nothing that is not printed, and refuse what lies above. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reference.h"

static const char process_file[] = "canning/process.csv";

typedef struct row {
    char recipe[64];
    bool raw;
    pottle_method method;
    const char *jars; /* parted by | */
    double headspace_in;
    int from_ft, to_ft, minutes, psi; /* as pottle_band */
} row;

static csv table;
static row *rows;
static pottle_catalogue *catalogue;
static pottle_recipe *recipe;
static size_t first, last; /* rows of it; last is one past */

static void
read_rows(void)
{
    table = reference_csv(process_file);
    catalogue = reference_catalogue(POTTLE_WITH_JARS | POTTLE_WITH_RULES);
    rows = calloc(table.rows, sizeof *rows);
    ck_assert_ptr_nonnull(rows);
    for (size_t i = 0; i < table.rows; i++) {
        row *r = &rows[i];
        reference_product(csv_at(&table, i, "product_id"), r->recipe,
                          sizeof r->recipe);
        const char *style = csv_at(&table, i, "style"),
                   *method = csv_at(&table, i, "method");
        r->raw = strcmp(style, "raw") == 0;
        ck_assert_msg(r->raw || strcmp(style, "hot") == 0, "style %s", style);
        r->method = strcmp(method, "pressure-dial") == 0 ? POTTLE_DIAL_GAUGE
                  : strcmp(method, "pressure-weighted") == 0
                      ? POTTLE_WEIGHTED_GAUGE
                      : POTTLE_BOILING_WATER;
        ck_assert_msg(r->method != POTTLE_BOILING_WATER ||
                          strcmp(method, "boiling-water") == 0,
                      "method %s", method);
        r->jars = csv_at(&table, i, "jars");
        r->headspace_in = csv_number(&table, i, "headspace_in");
        r->from_ft = (int)csv_number(&table, i, "alt_min_ft");
        r->to_ft = csv_blank(&table, i, "alt_max_ft")
                     ? -1
                     : (int)csv_number(&table, i, "alt_max_ft");
        r->minutes = (int)csv_number(&table, i, "minutes");
        r->psi =
            csv_blank(&table, i, "psi") ? 0 : (int)csv_number(&table, i, "psi");
    }
}

static void
free_rows(void)
{
    pottle_recipe_free(recipe);
    recipe = NULL;
    pottle_catalogue_free(catalogue);
    free(rows);
    csv_free(&table);
}

/* Has the recipe of a row at hand, and in first and last the rows of it; false,
 * a finding, when there is none. The rows of one product follow each other, so
 * that no file is read twice. */
static bool
have_recipe(size_t i, findings *f)
{
    const char *id = rows[i].recipe;
    if (recipe != NULL && strcmp(pottle_recipe_id(recipe), id) == 0)
        return true;
    for (first = 0; strcmp(rows[first].recipe, id) != 0; first++)
        continue;
    for (last = first; last < table.rows && strcmp(rows[last].recipe, id) == 0;
         last++)
        continue;
    ck_assert_msg(i >= first && i < last, "the rows of %s are not together",
                  id);
    pottle_recipe_free(recipe);
    recipe = reference_recipe(catalogue, id, f);
    return recipe != NULL;
}

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

/* A row in words, and a table of the catalogue. */
typedef struct words {
    char text[400];
} words;

static void
say_band(words *w, int from_ft, int to_ft, int minutes, int psi)
{
    text_add(w->text, sizeof w->text, " %d-", from_ft);
    if (to_ft >= 0)
        text_add(w->text, sizeof w->text, "%d", to_ft);
    text_add(w->text, sizeof w->text, " ft %d min", minutes);
    if (psi > 0)
        text_add(w->text, sizeof w->text, " %d psi", psi);
}

static words
say_row(size_t i)
{
    const row *r = &rows[i];
    words w = { "" };
    text_add(w.text, sizeof w.text, "%s, line %zu, %s %s %s %g in", r->recipe,
             csv_line(i), r->raw ? "raw" : "hot",
             pottle_method_name((int)r->method), r->jars, r->headspace_in);
    say_band(&w, r->from_ft, r->to_ft, r->minutes, r->psi);
    return w;
}

static words
say_table(const pottle_process_table *t)
{
    words w = { "" };
    text_add(w.text, sizeof w.text, "[%s %s", t->raw ? "raw" : "hot",
             pottle_method_name((int)t->method));
    for (size_t k = 0; k < t->jars; k++)
        text_add(w.text, sizeof w.text, " %s", t->jar[k]);
    text_add(w.text, sizeof w.text, " %g in:", t->headspace_in);
    for (size_t k = 0; k < t->bands; k++)
        say_band(&w, t->band[k].from_ft, t->band[k].to_ft, t->band[k].minutes,
                 t->band[k].psi);
    text_add(w.text, sizeof w.text, "]");
    return w;
}

/* How many bands of how many tables are exactly this row. */
static size_t
times_found(const row *r, const pottle_process_table *t, size_t n)
{
    size_t found = 0;
    for (size_t i = 0; i < n; i++) {
        if (t[i].method != r->method || t[i].raw != r->raw ||
            !nearly(t[i].headspace_in, r->headspace_in) ||
            !same_jars(r->jars, t[i].jar, t[i].jars))
            continue;
        for (size_t k = 0; k < t[i].bands; k++) {
            const pottle_band *b = &t[i].band[k];
            found += b->from_ft == r->from_ft && b->to_ft == r->to_ft &&
                     b->minutes == r->minutes && b->psi == r->psi;
        }
    }
    return found;
}

START_TEST(every_row_is_in_the_catalogue)
{
    findings f = { "process.csv in the catalogue", 0, 0 };
    for (size_t i = 0; i < table.rows; i++) {
        const row *r = &rows[i];
        f.looked_at++;
        if (!have_recipe(i, &f))
            continue;
        size_t n = 0;
        const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
        const size_t times = times_found(r, t, n);
        if (times == 1)
            continue;
        words found = { "" };
        for (size_t k = 0; k < n; k++)
            if (t[k].method == r->method && t[k].raw == r->raw)
                text_add(found.text, sizeof found.text, " %s",
                         say_table(&t[k]).text);
        findings_add(&f, "expected %s once, found %zu times in%s",
                     say_row(i).text, times, found.text);
    }
    ck_assert_uint_eq(f.looked_at, 796);
    findings_end(&f);
}
END_TEST

/* -- Nothing that is not printed ------------------------------------------- */

static bool
in_a_row(const char *id, const pottle_process_table *t, const pottle_band *b)
{
    for (size_t i = 0; i < table.rows; i++) {
        const row *r = &rows[i];
        if (strcmp(r->recipe, id) == 0 && r->method == t->method &&
            r->raw == t->raw && r->from_ft == b->from_ft &&
            r->to_ft == b->to_ft && r->minutes == b->minutes &&
            r->psi == b->psi && nearly(r->headspace_in, t->headspace_in) &&
            same_jars(r->jars, t->jar, t->jars))
            return true;
    }
    return false;
}

static pottle_status
pack_is_printed(void *context, const pottle_recipe *pack,
                const pottle_error *error)
{
    findings *f = context;
    if (pack == NULL) {
        findings_add(f, "a recipe that cannot be used: %s:%ld: %s",
                     error->where, error->line, error->what);
        return POTTLE_OK;
    }
    const char *kind = pottle_recipe_kind(pack);
    /* thick sauce has the processes of the one row "standard tomato sauce" */
    const bool thick =
        strcmp(pottle_recipe_id(pack), "tomato-sauce-thick") == 0;
    const char *product_id =
        thick ? "tomato-sauce-standard" : pottle_recipe_id(pack);
    const size_t length = strlen(kind);
    if (length < 5 || strcmp(kind + length - 5, "-pack") != 0)
        return POTTLE_OK;
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(pack, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < t[i].bands; k++) {
            f->looked_at++;
            if (in_a_row(product_id, &t[i], &t[i].band[k]))
                continue;
            words w = { "" };
            const pottle_band *b = &t[i].band[k];
            say_band(&w, b->from_ft, b->to_ft, b->minutes, b->psi);
            findings_add(f,
                         "%s (%s): expected no band that process.csv lacks, "
                         "found%s in %s",
                         pottle_recipe_id(pack), kind, w.text,
                         say_table(&t[i]).text);
        }
    return POTTLE_OK;
}

START_TEST(packs_have_nothing_else)
{
    findings f = { "bands of the packs in process.csv", 0, 0 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottle_recipes_each(catalogue, pack_is_printed, &f, &error), POTTLE_OK);
    findings_end(&f);
}
END_TEST

/* -- The look-up ----------------------------------------------------------- */

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

int
main(void)
{
    Suite *suite = suite_create("reference: processes");
    TCase *tcase = tcase_create("process.csv");
    tcase_add_checked_fixture(tcase, read_rows, free_rows);
    tcase_set_timeout(tcase, 120);
    tcase_add_test(tcase, every_row_is_in_the_catalogue);
    tcase_add_test(tcase, packs_have_nothing_else);
    tcase_add_test(tcase, every_row_is_looked_up);
    tcase_add_test(tcase, other_jars_are_looked_up);
    suite_add_tcase(suite, tcase);
    return reference_run(suite, process_file);
}
