/* test_reference_process.c - every published process, against the reference's
 * process.csv.
 *
 * Each row of the publication must stand in the catalogue as printed, the packs
 * of the catalogue must have nothing else, and the look-up must find each row,
 * give nothing that is not printed, and refuse what lies above. */
#include <config.h>

#include <stdlib.h>
#include <string.h>

#include "reference_process_cases.h"
#include "suite.h"

static const char process_file[] = "canning/process.csv";

csv table;
row *rows;
pottle_catalogue *catalogue;
pottle_recipe *recipe;
size_t first, last; /* rows of it; last is one past */

void
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

void
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
bool
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

words
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

int
main(void)
{
    Suite *suite = suite_create("reference: processes");
    TCase *tcase = tcase_create("process.csv");
    tcase_add_checked_fixture(tcase, read_rows, free_rows);
    tcase_set_timeout(tcase, 120);
    tcase_add_test(tcase, every_row_is_in_the_catalogue);
    tcase_add_test(tcase, packs_have_nothing_else);
    suite_add_tcase(suite, tcase);
    suite_add_tcase(suite, reference_process_lookup());
    return reference_run(suite, process_file);
}
