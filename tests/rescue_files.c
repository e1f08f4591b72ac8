/* rescue_files.c - test_rescue: the shipped file, and files that are refused.
 */
#include <config.h>

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "rescue_cases.h"

/* -- The shipped file ------------------------------------------------------ */

/* Nothing is called safe: not in the words, and no brand of certainty either.
 */
static void
check_words(const char *id, const char *text)
{
    ck_assert_msg(text[0] != '\0', "%s: no words", id);
    for (const char *s = text; (s = strstr(s, "safe")) != NULL; s += 4)
        ck_assert_msg(s != text && s[-1] != ' ' && s[-1] != '(',
                      "%s calls something safe: %s", id, text);
}

static void
check_cite(const char *id, const pottle_cite *c)
{
    ck_assert_msg(pottle_source_find(kitchen, c->source) != NULL,
                  "%s: no source '%s'", id, c->source);
    ck_assert_msg(c->at[0] != '\0', "%s: no place", id);
    ck_assert_msg(c->standing == POTTLE_PUBLISHED ||
                      (c->standing == POTTLE_DERIVED && c->note[0] != '\0'),
                  "%s: %s without a word why", id,
                  pottle_standing_name((int)c->standing));
}

START_TEST(shipped_words_and_sources)
{
    size_t n = 0;
    const pottle_mishap *m = pottle_mishaps(kitchen, &n);
    for (size_t i = 0; i < n; i++) {
        ck_assert(i == 0 || strcmp(m[i - 1].id, m[i].id) < 0);
        check_words(m[i].id, m[i].title);
        check_words(m[i].id, m[i].clock);
        check_words(m[i].id, m[i].supposed);
        for (size_t k = 0; k < m[i].cases; k++) {
            const pottle_rescue_case *c = &m[i].list[k];
            for (size_t o = 0; o < c->options; o++) {
                check_words(m[i].id, c->option[o].text);
                check_cite(m[i].id, &c->option[o].cite);
            }
            for (size_t o = 0; o < c->others; o++) {
                check_words(m[i].id, c->other[o].text);
                check_cite(m[i].id, &c->other[o].cite);
            }
            ck_assert((c->others > 0) == (c->chosen[0] != '\0'));
        }
    }
    const pottle_remaking *r = pottle_remaking_of(kitchen);
    ck_assert_ptr_nonnull(r);
    check_cite("remaking", &r->cite);
    ck_assert_uint_eq(r->ways, 3);
    for (size_t i = 0; i < r->ways; i++) {
        check_words(r->way[i].pectin, r->way[i].text);
        check_cite(r->way[i].pectin, &r->way[i].cite);
    }
    for (size_t i = 0; i < r->others; i++)
        check_cite("remaking", &r->other[i].cite);
}
END_TEST

START_TEST(only_when_it_is_read)
{
    pottle_catalogue *none = kitchen_catalogue(POTTLE_WITH_ALL &
                                               ~(unsigned)POTTLE_WITH_RESCUE),
                     *only = kitchen_catalogue(POTTLE_WITH_RESCUE);
    size_t n = 9;
    pottle_mishaps(none, &n);
    ck_assert_uint_eq(n, 0);
    ck_assert_ptr_null(pottle_remaking_of(none));
    const pottle_mishap *m = NULL;
    ck_assert_int_eq(pottle_mishap_find(none, "jar-not-sealed", &m, NULL),
                     POTTLE_ENOENT);
    pottle_mishaps(only, &n);
    ck_assert_uint_eq(n, 7);
    ck_assert_ptr_nonnull(pottle_remaking_of(only));
    pottle_remake remake;
    ck_assert_int_eq(
        pottle_remake_lot(none, "none", (pottle_volume){ 500 }, &remake, NULL),
        POTTLE_ENOENT);
    pottle_process p;
    ck_assert_int_eq(
        pottle_remaking_process(none, kitchen_jar("pint"), 0, &p, NULL),
        POTTLE_ENOENT);
    pottle_catalogue_free(only);
    pottle_catalogue_free(none);
}
END_TEST

/* -- Stored files ---------------------------------------------------------- */

files bad, good;

static int
by_text(const void *a, const void *b)
{
    const char *const *x = a, *const *y = b;
    return strcmp(*x, *y);
}

bool
scan(const char *kind, files *all)
{
    char folder[PATH_ROOM];
    snprintf(folder, sizeof folder, "%s/tests/data/rescue/%s", source_folder(),
             kind);
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return false;
    for (struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        char path[2 * PATH_ROOM];
        const size_t n = strlen(e->d_name);
        if (n < 5 || strcmp(e->d_name + n - 4, ".xml") != 0 ||
            all->count == FILES_MOST)
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, e->d_name);
        all->path[all->count] = strdup(path);
        all->count += all->path[all->count] != NULL;
    }
    closedir(dir);
    if (all->count > 0)
        qsort(all->path, (size_t)all->count, sizeof all->path[0], by_text);
    return all->count > 0;
}

/* The code in the second line, "code: CODE - reason"; whether only the check
 * can find it. */
static bool
code_of(const char *path, char *code, size_t size)
{
    char line[300] = "";
    FILE *f = fopen(path, "r");
    ck_assert_msg(f != NULL && fgets(line, sizeof line, f) != NULL &&
                      fgets(line, sizeof line, f) != NULL,
                  "%s cannot be read", path);
    fclose(f);
    ck_assert_msg(strncmp(line, "<!-- code: ", 11) == 0 &&
                      strstr(line, " - ") != NULL,
                  "%s: the second line says no code", path);
    snprintf(code, size, "%.*s", (int)strcspn(line + 11, " ,"), line + 11);
    return strstr(line, ", by the check alone - ") != NULL;
}

typedef struct found {
    pottle_error list[FOUND_MOST];
    bool warning[FOUND_MOST];
    size_t count;
} found;

static void
tell(void *context, bool warning, const pottle_error *finding)
{
    found *f = context;
    ck_assert_uint_lt(f->count, FOUND_MOST);
    f->warning[f->count] = warning;
    f->list[f->count++] = *finding;
}

static size_t
check_file(const char *path, found *f)
{
    size_t errors = 0;
    pottle_error error = { .status = POTTLE_OK };
    f->count = 0;
    const pottle_status status =
        pottle_file_check(kitchen, path, tell, f, &errors, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s", path, error.what);
    return errors;
}

START_TEST(bad_file_is_refused)
{
    char code[60];
    found f;
    code_of(bad.path[_i], code, sizeof code);
    ck_assert_msg(check_file(bad.path[_i], &f) > 0, "%s was accepted",
                  bad.path[_i]);
    bool seen = false;
    for (size_t i = 0; i < f.count; i++) {
        ck_assert_msg(strcmp(f.list[i].code, code) == 0 ||
                          strcmp(f.list[i].code, "schema") == 0,
                      "%s: also '%s': %s", bad.path[_i], f.list[i].code,
                      f.list[i].what);
        ck_assert_msg(f.list[i].line > 0, "%s: '%s' without a line",
                      bad.path[_i], f.list[i].code);
        seen = seen || strcmp(f.list[i].code, code) == 0;
    }
    ck_assert_msg(seen, "%s: no error is called '%s'", bad.path[_i], code);
}
END_TEST

/* What decides about a jar must not hang on a schema that no command reads. */
START_TEST(bad_file_is_refused_by_the_reader)
{
    char code[60];
    pottle_catalogue scratch;
    pottle_error error = { .status = POTTLE_OK };
    const bool by_check = code_of(bad.path[_i], code, sizeof code);
    memset(&scratch, 0, sizeof scratch);
    const pottle_status status =
        pottlei_rescue_read(&scratch, bad.path[_i], &error);
    ck_assert(status == POTTLE_OK ||
              (scratch.mishap == NULL && scratch.remaking == NULL &&
               scratch.mishap_count == 0));
    pottlei_arena_free(&scratch.arena);
    if (by_check) {
        ck_assert_msg(status == POTTLE_OK, "%s: refused by the reader too: %s",
                      bad.path[_i], error.what);
        return;
    }
    ck_assert_msg(status == POTTLE_EDATA, "%s was accepted by the reader",
                  bad.path[_i]);
    ck_assert_msg(strcmp(error.code, code) == 0, "%s: '%s', wanted '%s': %s",
                  bad.path[_i], error.code, code, error.what);
    ck_assert_int_gt(error.line, 0);
}
END_TEST

START_TEST(good_file_is_accepted)
{
    found f;
    const size_t errors = check_file(good.path[_i], &f);
    ck_assert_msg(errors == 0 && f.count == 0, "%s: %s", good.path[_i],
                  f.count > 0 ? f.list[0].what : "refused");
}
END_TEST

START_TEST(shipped_file_is_in_order)
{
    char path[PATH_ROOM];
    found f;
    snprintf(path, sizeof path, "%s/recipes/rescue.xml", source_folder());
    ck_assert_msg(check_file(path, &f) == 0 && f.count == 0, "%s: %s", path,
                  f.count > 0 ? f.list[0].what : "refused");
}
END_TEST

/* Everything that the fullest good file says is found again. */
START_TEST(all_parts_are_read)
{
    char path[PATH_ROOM];
    pottle_catalogue c;
    pottle_error error = { .status = POTTLE_OK };
    memset(&c, 0, sizeof c);
    snprintf(path, sizeof path, "%s/tests/data/rescue/good/all-parts.xml",
             source_folder());
    ck_assert_msg(pottlei_rescue_read(&c, path, &error) == POTTLE_OK, "%s",
                  error.what);
    ck_assert_uint_eq(c.mishap_count, 2);
    ck_assert_uint_eq(c.dense_count, 2);
    const pottle_rescue_case *full = &c.mishap[0].list[0];
    ck_assert(full->has_hours && full->under && full->hot_pack && full->dense &&
              full->followed == POTTLE_FOLLOWED);
    ck_assert(fabs(full->hours - 24) < 1e-12 &&
              fabs(full->lost_under - 0.5) < 1e-12);
    ck_assert(full->options == 6 && full->others == 2 &&
              full->chosen[0] != '\0');
    ck_assert(fabs(full->option[1].days - 2) < 1e-12 &&
              fabs(full->option[1].days_to - 3) < 1e-12 &&
              fabs(full->option[2].headspace.mm - 38.1) < 1e-9);
    ck_assert(!c.mishap[0].list[1].under &&
              fabs(c.mishap[0].list[1].hours - 2.5) < 1e-12 &&
              c.mishap[0].list[1].followed == POTTLE_FOLLOWED_WRONG);
    ck_assert_int_eq(c.mishap[1].supposes, POTTLE_FOLLOWED_WRONG);
    ck_assert(c.remaking->ways == 3 && c.remaking->others == 1 &&
              c.remaking->process.sterile && c.remaking->process.jars == 2 &&
              c.remaking->process.bands == 2);
    /* under half lost and under 24 hours, hot pack and dense: the first; at
     * exactly 24 hours or one half: not */
    pottle_jar_facts f = facts_of(23.5, YES, true, true, 0.4);
    const pottle_rescue_case *found_case = NULL;
    ck_assert_int_eq(pottle_rescue_find(&c.mishap[0], &f, &found_case, NULL),
                     POTTLE_OK);
    ck_assert_ptr_eq(found_case, full);
    f.hours = 24;
    ck_assert_int_eq(pottle_rescue_find(&c.mishap[0], &f, &found_case, NULL),
                     POTTLE_OK);
    ck_assert_ptr_ne(found_case, full);
    f.hours = 1;
    f.lost = 0.5;
    ck_assert_int_eq(pottle_rescue_find(&c.mishap[0], &f, &found_case, NULL),
                     POTTLE_OK);
    ck_assert_ptr_ne(found_case, full);
    pottlei_arena_free(&c.arena);
}
END_TEST

TCase *
rescue_files(void)
{
    TCase *t = tcase_create("files");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, shipped_words_and_sources);
    tcase_add_test(t, shipped_file_is_in_order);
    tcase_add_test(t, only_when_it_is_read);
    tcase_add_test(t, all_parts_are_read);
    tcase_add_loop_test(t, bad_file_is_refused, 0, bad.count);
    tcase_add_loop_test(t, bad_file_is_refused_by_the_reader, 0, bad.count);
    tcase_add_loop_test(t, good_file_is_accepted, 0, good.count);
    return t;
}
