/* test_catalogue.c - opening a catalogue, and finding foods, recipes and jars
 * in it by what people type. */
#include <config.h>

#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "catalogue_cases.h"
#include "suite.h"

/* -- Files ----------------------------------------------------------------- */

static const char *
source_path(const char *rest)
{
    static char path[2 * PATH_SIZE];
    const char *folder = getenv("srcdir");
    snprintf(path, sizeof path, "%s/%s",
             folder != NULL && folder[0] != '\0' ? folder : ".", rest);
    return path;
}

void
write_file(const char *path, const char *text, size_t n)
{
    FILE *f = fopen(path, "wb");
    ck_assert_msg(f != NULL, "cannot write %s", path);
    ck_assert_uint_eq(fwrite(text, 1, n, f), n);
    ck_assert_int_eq(fclose(f), 0);
}

/* Copies a file and replaces one piece of its text where `old` is given. */
void
copy_file(const char *from, const char *to, const char *old, const char *new)
{
    static char text[1 << 20], changed[1 << 20];
    FILE *f = fopen(from, "rb");
    ck_assert_msg(f != NULL, "cannot read %s", from);
    size_t n = fread(text, 1, sizeof text - 1, f);
    fclose(f);
    text[n] = '\0';
    if (old == NULL) {
        write_file(to, text, n);
        return;
    }
    char *at = strstr(text, old);
    ck_assert_msg(at != NULL, "%s has no '%s'", from, old);
    *at = '\0';
    const int k = snprintf(changed, sizeof changed, "%s%s%s", text, new,
                           at + strlen(old));
    ck_assert(k > 0 && (size_t)k < sizeof changed);
    write_file(to, changed, (size_t)k);
}

static int
remove_one(const char *path, const struct stat *info, int type,
           struct FTW *walk)
{
    (void)info;
    (void)type;
    (void)walk;
    return remove(path);
}

static void
remove_work(void)
{
    nftw(WORK, remove_one, 8, FTW_DEPTH | FTW_PHYS);
}

static const char *const shared[] = { "foods/names.xml", "figures.xml",
                                      "jars.xml",        "rules.xml",
                                      "sources.xml",     "syrups.xml",
                                      "rescue.xml" };
static const unsigned parts[] = { POTTLE_WITH_NAMES,   POTTLE_WITH_FIGURES,
                                  POTTLE_WITH_JARS,    POTTLE_WITH_RULES,
                                  POTTLE_WITH_SOURCES, POTTLE_WITH_SYRUPS,
                                  POTTLE_WITH_RESCUE };

/* A small catalogue in the build folder: the shared files, one food, two
 * recipes of two kinds. */
void
make_work(void)
{
    static const char *const folders[] = {
        WORK, FOLDER, OWN, FOLDER "/foods", FOLDER "/salsa", FOLDER "/relish"
    };
    static const char *const files[] = { "foods/tomato.xml",
                                         "salsa/chile-salsa.xml",
                                         "relish/rummage-relish.xml" };
    remove_work();
    for (size_t i = 0; i < COUNT(folders); i++)
        ck_assert_int_eq(mkdir(folders[i], 0777), 0);
    char from[PATH_SIZE], to[PATH_SIZE];
    for (size_t i = 0; i < COUNT(shared) + COUNT(files); i++) {
        const char *file =
            i < COUNT(shared) ? shared[i] : files[i - COUNT(shared)];
        snprintf(from, sizeof from, "recipes/%s", file);
        snprintf(to, sizeof to, FOLDER "/%s", file);
        copy_file(source_path(from), to, NULL, NULL);
    }
}

pottle_catalogue *
open_folder(const char *folder, const char *own, unsigned with)
{
    pottle_catalogue *c = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_catalogue_open(folder, own, with, &c, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s:%ld: %s", folder, error.where,
                  error.line, error.what);
    ck_assert_ptr_nonnull(c);
    return c;
}

pottle_catalogue *
open_shipped(unsigned with)
{
    return open_folder(source_path("recipes"), NULL, with);
}

/* 10,000 times a letter, then the end. */
char *
long_text(void)
{
    char *text = malloc(10001);
    ck_assert_ptr_nonnull(text);
    memset(text, 'a', 10000);
    text[10000] = '\0';
    return text;
}

/* -- Opening --------------------------------------------------------------- */

/* Refused: the status, a word for scripts, a sentence, and the output as it
 * was. */
static void
expect_closed(const char *folder, const char *own, unsigned with,
              pottle_status wanted, pottle_error *error)
{
    pottle_catalogue *const before = (pottle_catalogue *)error, *c = before;
    memset(error, 0, sizeof *error);
    const pottle_status status =
        pottle_catalogue_open(folder, own, with, &c, error);
    ck_assert_msg(status == wanted, "%.60s: %s: %s",
                  folder != NULL ? folder : "NULL",
                  pottle_strerror((int)status), error->what);
    ck_assert_ptr_eq(c, before);
    ck_assert_int_eq(error->status, wanted);
    ck_assert_str_ne(error->code, "");
    ck_assert_str_ne(error->what, "");
    ck_assert_int_eq(pottle_catalogue_open(folder, own, with, &c, NULL),
                     wanted);
    ck_assert_ptr_eq(c, before);
}

START_TEST(open_refuses)
{
    make_work();
    pottle_error error;
    pottle_catalogue *c = NULL;
    expect_closed(NULL, NULL, 0, POTTLE_EMISUSE, &error);
    expect_closed(FOLDER, NULL, POTTLE_WITH_ALL + 1, POTTLE_EMISUSE, &error);
    expect_closed(FOLDER, NULL, 1u << 31, POTTLE_EMISUSE, &error);
    ck_assert_int_eq(pottle_catalogue_open(FOLDER, NULL, 0, NULL, &error),
                     POTTLE_EMISUSE);
    expect_closed(WORK "/nowhere", NULL, 0, POTTLE_EIO, &error);
    ck_assert_msg(strstr(error.what, WORK "/nowhere") != NULL, "%s",
                  error.what);
    expect_closed("", NULL, 0, POTTLE_EIO, &error);
    expect_closed(FOLDER "/jars.xml", NULL, 0, POTTLE_EIO,
                  &error); /* a file is no folder */
    expect_closed(FOLDER, WORK "/nowhere", 0, POTTLE_EIO, &error);
    ck_assert_str_eq(error.code, "own-folder");
    expect_closed(FOLDER, FOLDER "/jars.xml", 0, POTTLE_EIO, &error);
    char *far = long_text();
    expect_closed(far, NULL, POTTLE_WITH_ALL, POTTLE_EIO, &error);
    expect_closed(FOLDER, far, POTTLE_WITH_ALL, POTTLE_EIO, &error);
    free(far);
    /* an error is not written when all went well */
    memset(&error, 'x', sizeof error);
    const pottle_error before = error;
    ck_assert_int_eq(
        pottle_catalogue_open(FOLDER, OWN, POTTLE_WITH_ALL, &c, &error),
        POTTLE_OK);
    ck_assert_mem_eq(&error, &before, sizeof error);
    pottle_catalogue_free(c);
    pottle_catalogue_free(NULL);
}
END_TEST

/* Each shared file, gone, broken, empty or replaced by a folder; and no other
 * part asks for it. */
START_TEST(open_with_a_part_missing)
{
    make_work();
    char path[PATH_SIZE];
    snprintf(path, sizeof path, FOLDER "/%s", shared[_i]);
    const unsigned others = POTTLE_WITH_ALL & ~parts[_i];
    pottle_error error;

    ck_assert_int_eq(remove(path), 0);
    expect_closed(FOLDER, NULL, parts[_i], POTTLE_EIO, &error);
    ck_assert_str_eq(error.where, path);
    expect_closed(FOLDER, NULL, POTTLE_WITH_ALL, POTTLE_EIO, &error);
    pottle_catalogue_free(open_folder(FOLDER, NULL, others));

    ck_assert_int_eq(mkdir(path, 0777), 0);
    expect_closed(FOLDER, NULL, parts[_i], POTTLE_EIO, &error);
    ck_assert_int_eq(rmdir(path), 0);

    static const struct {
        const char *text;
        bool line;
    } broken[] = {
        { "", false },
        { "not XML", true },
        { "<?xml version=\"1.0\"?>\n<jars", true },
        { "<?xml version=\"1.0\"?>\n\n<other/>", true },
        { "<!DOCTYPE jars>\n<jars/>", false },
        { "\xFF", false },
    };
    for (size_t i = 0; i < COUNT(broken); i++) {
        write_file(path, broken[i].text, strlen(broken[i].text));
        expect_closed(FOLDER, NULL, parts[_i], POTTLE_EDATA, &error);
        ck_assert_str_eq(error.where, path);
        ck_assert_msg(!broken[i].line || error.line > 0, "%s: no line: %s",
                      path, error.what);
        pottle_catalogue_free(open_folder(FOLDER, NULL, others));
    }
}
END_TEST

/* The line is that of the fault: the third here. */
START_TEST(open_tells_the_line)
{
    make_work();
    static const char text[] =
        "<?xml version=\"1.0\"?>\n<jars>\n  <jug/>\n</jars>\n";
    write_file(FOLDER "/jars.xml", text, strlen(text));
    pottle_error error;
    expect_closed(FOLDER, NULL, POTTLE_WITH_JARS, POTTLE_EDATA, &error);
    ck_assert_int_eq(error.line, 3);
    ck_assert_str_eq(error.code, "element");
    ck_assert_msg(strstr(error.what, "jug") != NULL, "%s", error.what);
}
END_TEST

/* -- Finders --------------------------------------------------------------- */

START_TEST(finders)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_ALL);
    size_t n = 0;
    const pottle_source *source = pottle_sources(c, &n);
    ck_assert_uint_gt(n, 0);
    for (size_t i = 0; i < n; i++) {
        ck_assert_ptr_eq(pottle_source_find(c, source[i].key), &source[i]);
        ck_assert(i == 0 || strcmp(source[i - 1].key, source[i].key) < 0);
        ck_assert(source[i].author[0] != '\0' && source[i].title[0] != '\0');
    }
    const pottle_rule *rule = pottle_rules(c, &n);
    ck_assert_uint_gt(n, 0);
    for (size_t i = 0; i < n; i++) {
        ck_assert_ptr_eq(pottle_rule_find(c, rule[i].id), &rule[i]);
        ck_assert_ptr_nonnull(pottle_source_find(c, rule[i].cite.source));
    }
    const pottle_figure *figure = pottle_figures(c, &n);
    ck_assert_uint_gt(n, 0);
    for (size_t i = 0; i < n; i++) {
        ck_assert_ptr_eq(pottle_figure_find(c, figure[i].id), &figure[i]);
        ck_assert(figure[i].to >= figure[i].value);
    }
    const pottle_syrup *syrup = pottle_syrups(c, &n);
    ck_assert_uint_gt(n, 0);
    for (size_t i = 0; i < n; i++)
        ck_assert(syrup[i].percent > 0 && syrup[i].percent < 100 &&
                  syrup[i].loads > 0);
    static const char *const unknown[] = { "", "nobody", "~", " ", "USDA" };
    for (size_t i = 0; i < COUNT(unknown); i++) {
        ck_assert_ptr_null(pottle_source_find(c, unknown[i]));
        ck_assert_ptr_null(pottle_rule_find(c, unknown[i]));
        ck_assert_ptr_null(pottle_figure_find(c, unknown[i]));
    }
    pottle_catalogue_free(c);
}
END_TEST

/* Without their files there is nothing to find, and no crash. */
START_TEST(finders_of_parts_not_read)
{
    pottle_catalogue *c = open_shipped(0);
    size_t n = 7;
    ck_assert_ptr_null(pottle_source_find(c, "nchfp"));
    ck_assert_ptr_null(pottle_rule_find(c, "no-process"));
    ck_assert_ptr_null(pottle_figure_find(c, "spread-cut"));
    pottle_sources(c, &n);
    ck_assert_uint_eq(n, 0);
    n = 7;
    pottle_jars(c, &n);
    ck_assert_uint_eq(n, 0);
    n = 7;
    pottle_syrups(c, &n);
    ck_assert_uint_eq(n, 0);
    ck_assert_ptr_null(pottle_food_at(c, 0));
    ck_assert_ptr_null(pottle_food_name(c, "apple", 0));
    pottle_length mouth = { -1 };
    ck_assert_int_eq(pottle_mouth_diameter(c, false, &mouth), POTTLE_ENOENT);
    ck_assert(mouth.mm < 0);
    const pottle_jar *jar = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_jar_find(c, "pint", &jar, &error), POTTLE_ENOENT);
    ck_assert_ptr_null(jar);
    const char *id = NULL;
    size_t count = 7;
    ck_assert_int_eq(pottle_names_find(c, "apple", &id, 1, &count, &error),
                     POTTLE_ENOENT);
    ck_assert_uint_eq(count, 7);
    pottle_catalogue_free(c);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("catalogue");
    TCase *t = tcase_create("catalogue");
    tcase_set_timeout(t, 300);
    tcase_add_test(t, open_refuses);
    tcase_add_loop_test(t, open_with_a_part_missing, 0, (int)COUNT(shared));
    tcase_add_test(t, open_tells_the_line);
    tcase_add_test(t, finders);
    tcase_add_test(t, finders_of_parts_not_read);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, catalogue_names());
    suite_add_tcase(suite, catalogue_recipes());
    const int result = suite_run(suite);
    remove_work();
    return result;
}
