/* test_data.c - every bad file is refused for the reason in its comment, every
 * good and every shipped one accepted.
 *
 * The folders are scanned, so a file that is added is a file that is run. The
 * comment of a bad file says the code it must be refused with; of a good one,
 * the warnings it must raise. What would be too large or too odd to store is
 * made here, in the build folder. */
#include <config.h>

#include <check.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "catalogue/model.h"
#include "suite.h"

#define WORK "test_data.tmp"
enum { MOST_FILES = 2000, PATH_SIZE = 600, MOST_FOUND = 64 };

/* -- Files ----------------------------------------------------------------- */

typedef struct files {
    char *path[MOST_FILES];
    size_t count;
} files;
static files bad, good, shipped;

static const char *
source_folder(void)
{
    const char *folder = getenv("srcdir");
    return folder != NULL && folder[0] != '\0' ? folder : ".";
}

/* A path below the sources; in static memory, until the next call. */
static const char *
source_path(const char *rest)
{
    static char path[PATH_SIZE];
    snprintf(path, sizeof path, "%s/%s", source_folder(), rest);
    return path;
}

static int
by_text(const void *a, const void *b)
{
    const char *const *x = a, *const *y = b;
    return strcmp(*x, *y);
}

/* All XML files of a folder and of those below it. */
static void
scan(const char *folder, files *all)
{
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return;
    for (struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        char path[PATH_SIZE];
        struct stat info;
        const size_t n = strlen(e->d_name);
        const int length =
            snprintf(path, sizeof path, "%s/%s", folder, e->d_name);
        if (e->d_name[0] == '.' || length < 0 ||
            (size_t)length >= sizeof path || stat(path, &info) != 0)
            continue;
        if (S_ISDIR(info.st_mode))
            scan(path, all);
        else if (n > 4 && strcmp(e->d_name + n - 4, ".xml") == 0 &&
                 all->count < MOST_FILES)
            all->path[all->count++] = strdup(path);
    }
    closedir(dir);
    if (all->count > 0)
        qsort(all->path, all->count, sizeof all->path[0], by_text);
}

static void
forget(files *all)
{
    for (size_t i = 0; i < all->count; i++)
        free(all->path[i]);
}

static void
write_file(const char *path, const char *text, size_t n)
{
    FILE *f = fopen(path, "wb");
    ck_assert_msg(f != NULL, "cannot write %s", path);
    ck_assert_uint_eq(fwrite(text, 1, n, f), n);
    ck_assert_int_eq(fclose(f), 0);
}

/* The whole file; the caller frees it. */
static char *
read_file(const char *path)
{
    FILE *f = fopen(path, "rb");
    ck_assert_msg(f != NULL, "cannot read %s", path);
    char *text = calloc(1, (1 << 20) + 1);
    ck_assert_ptr_nonnull(text);
    const size_t n = fread(text, 1, 1 << 20, f);
    ck_assert_uint_lt(n, 1 << 20);
    fclose(f);
    return text;
}

static void
copy_file(const char *from, const char *to)
{
    char *text = read_file(from);
    write_file(to, text, strlen(text));
    free(text);
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

static void
make_work(void)
{
    remove_work();
    ck_assert_int_eq(mkdir(WORK, 0777), 0);
}

/* The word after `label` in the comment that begins a test file, and the words
 * up to " - ". */
static void
read_comment(const char *path, const char *label, char *words, size_t size)
{
    char *text = read_file(path);
    char begin[40];
    snprintf(begin, sizeof begin, "<!-- %s: ", label);
    const char *line = strchr(text, '\n');
    ck_assert_msg(line != NULL && strncmp(line + 1, begin, strlen(begin)) == 0,
                  "%s: the second line must be %s... -->", path, begin);
    line += 1 + strlen(begin);
    const char *end = strstr(line, " - ");
    const char *closed = strstr(line, " -->\n");
    ck_assert_msg(end != NULL && closed != NULL && end < closed,
                  "%s: the comment says no reason", path);
    snprintf(words, size, "%.*s", (int)(end - line), line);
    free(text);
}

/* -- Findings -------------------------------------------------------------- */

typedef struct found {
    const char *path;
    pottle_error list[MOST_FOUND];
    bool warning[MOST_FOUND];
    size_t count, errors;
} found;

static void
tell(void *context, bool warning, const pottle_error *finding)
{
    found *f = context;
    ck_assert_uint_lt(f->count, MOST_FOUND);
    f->warning[f->count] = warning;
    f->list[f->count++] = *finding;
    f->errors += !warning;
}

/* What holds of any finding. A finding about the bytes of a file or about two
 * of its entries has no line. */
static void
check_finding(const char *path, const pottle_error *e)
{
    static const char *const whole[] = { "dtd", "encoding", "file-size",
                                         "twice" };
    bool lineless = false;
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++)
        lineless = lineless || strcmp(whole[i], e->code) == 0;
    char where[sizeof e->where];
    pottlei_copy(where, sizeof where, path);
    ck_assert_str_eq(e->where, where);
    ck_assert_msg(e->line > 0 || lineless, "%s: %s: no line: %s", path, e->code,
                  e->what);
    ck_assert_msg(e->code[0] != '\0' && e->what[0] != '\0',
                  "%s: a finding without words", path);
    ck_assert_msg(strchr(e->what, '\n') == NULL,
                  "%s: a finding over two lines: %s", path, e->what);
    ck_assert_int_eq(e->status, POTTLE_EDATA);
}

static pottle_catalogue *
open_catalogue(const char *folder, const char *own, unsigned parts)
{
    pottle_catalogue *c = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_catalogue_open(folder, own, parts, &c, &error);
    ck_assert_msg(status == POTTLE_OK, "%s:%ld: %s", error.where, error.line,
                  error.what);
    return c;
}

/* Checks a file that can be read. */
static void
check_file(const pottle_catalogue *c, const char *path, found *f)
{
    *f = (found){ .path = path };
    size_t errors = 999;
    pottle_error error = { .line = -7 };
    const pottle_status status =
        pottle_file_check(c, path, tell, f, &errors, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s: %s", path,
                  pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.line, -7); /* untouched when all went well */
    ck_assert_uint_eq(errors, f->errors);
    for (size_t i = 0; i < f->count; i++)
        check_finding(path, &f->list[i]);
}

static bool
told(const found *f, const char *code, bool warning)
{
    for (size_t i = 0; i < f->count; i++)
        if (f->warning[i] == warning && strcmp(f->list[i].code, code) == 0)
            return true;
    return false;
}

static void
print(const found *f)
{
    for (size_t i = 0; i < f->count; i++)
        printf("%s:%ld: %s: %s: %s\n", f->list[i].where, f->list[i].line,
               f->warning[i] ? "warning" : "error", f->list[i].code,
               f->list[i].what);
    fflush(stdout);
}

/* -- Stored files ---------------------------------------------------------- */

static const char alone[] = ", by the check alone";

/* The comment's code, and whether only the check can find it. */
static bool
expected_code(const char *path, char *code, size_t size)
{
    read_comment(path, "code", code, size);
    char *by = strstr(code, alone);
    if (by != NULL)
        *by = '\0';
    return by != NULL;
}

START_TEST(bad_file_is_refused)
{
    const char *path = bad.path[_i];
    char code[60];
    expected_code(path, code, sizeof code);
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_ALL);
    static found f;
    check_file(c, path, &f);
    ck_assert_msg(f.errors > 0, "%s was accepted", path);
    if (!told(&f, code, false))
        print(&f);
    ck_assert_msg(told(&f, code, false), "%s: no error is called '%s'", path,
                  code);
    /* and nothing else is wrong with it */
    for (size_t i = 0; i < f.count; i++)
        if (!f.warning[i])
            ck_assert_msg(strcmp(f.list[i].code, code) == 0 ||
                              strcmp(f.list[i].code, "schema") == 0,
                          "%s: also '%s': %s", path, f.list[i].code,
                          f.list[i].what);
    pottle_catalogue_free(c);
}
END_TEST

/* Reads a file as the commands do, without schema; POTTLE_OK when it can be
 * worked with. */
static pottle_status
read_plainly(const pottle_catalogue *c, const char *path, pottle_error *error)
{
    static const struct {
        const char *begin;
        pottle_status (*read)(pottle_catalogue *, const char *, pottle_error *);
    } shared[] = {
        { "names-", pottlei_names_read },
        { "figures-", pottlei_figures_read },
        { "jars-", pottlei_jars_read },
        { "rules-", pottlei_rules_read },
        { "sources-", pottlei_sources_read },
        { "syrups-", pottlei_syrups_read },
    };
    char stem[80];
    pottlei_stem(path, stem, sizeof stem);
    for (size_t i = 0; i < sizeof shared / sizeof shared[0]; i++) {
        if (strncmp(stem, shared[i].begin, strlen(shared[i].begin)) != 0)
            continue;
        pottle_catalogue scratch;
        memset(&scratch, 0, sizeof scratch);
        const pottle_status status = shared[i].read(&scratch, path, error);
        pottlei_arena_free(&scratch.arena);
        return status;
    }
    pottle_status status;
    if (strncmp(stem, "food-", 5) == 0) {
        pottle_food *food = NULL;
        status = pottlei_food_read_file(path, &food, error);
        ck_assert(status == POTTLE_OK || food == NULL);
        pottle_food_free(food);
    } else {
        pottle_recipe *recipe = NULL;
        status = pottle_recipe_read_file(c, path, &recipe, error);
        ck_assert(status == POTTLE_OK || recipe == NULL);
        pottle_recipe_free(recipe);
    }
    return status;
}

/* What decides about bounds and processes must not hang on a schema that no
 * command reads. */
START_TEST(bad_file_is_refused_by_the_reader)
{
    const char *path = bad.path[_i];
    char code[60];
    const bool by_check = expected_code(path, code, sizeof code);
    pottle_catalogue *c = open_catalogue(source_path("recipes"), NULL, 0);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = read_plainly(c, path, &error);
    pottle_catalogue_free(c);
    if (by_check) {
        ck_assert_msg(status == POTTLE_OK,
                      "%s: refused by the reader too: %s: %s", path, error.code,
                      error.what);
        return;
    }
    ck_assert_msg(status == POTTLE_EDATA, "%s was accepted by the reader",
                  path);
    ck_assert_str_eq(error.code, code);
    check_finding(path, &error);
}
END_TEST

START_TEST(good_file_is_accepted)
{
    const char *path = good.path[_i];
    char words[120];
    read_comment(path, "warns", words, sizeof words);
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_ALL);
    static found f;
    check_file(c, path, &f);
    if (f.errors > 0)
        print(&f);
    ck_assert_msg(f.errors == 0, "%s was refused", path);
    size_t wanted = 0;
    for (char *word = strtok(words, " "); word != NULL;
         word = strtok(NULL, " ")) {
        if (strcmp(word, "nothing") == 0)
            continue;
        wanted++;
        ck_assert_msg(told(&f, word, true), "%s: the warning '%s' is missing",
                      path, word);
    }
    if (f.count != wanted)
        print(&f);
    ck_assert_uint_eq(f.count, wanted);
    pottle_catalogue_free(c);
}
END_TEST

/* Every shipped file; all findings are printed before the test fails. */
START_TEST(shipped_files_are_valid)
{
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_ALL);
    static found f;
    size_t errors = 0, warnings = 0;
    for (size_t i = 0; i < shipped.count; i++) {
        check_file(c, shipped.path[i], &f);
        print(&f);
        errors += f.errors;
        warnings += f.count - f.errors;
    }
    printf("%zu files, %zu errors, %zu warnings\n", shipped.count, errors,
           warnings);
    fflush(stdout);
    pottle_catalogue_free(c);
    ck_assert_uint_eq(errors, 0);
}
END_TEST

/* A file is found by its id: it lies in the folder of its kind and is named
 * after it. */
START_TEST(shipped_files_are_where_their_id_says)
{
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_NAMES);
    size_t foods = 0, recipes = 0;
    for (size_t i = 0; i < shipped.count; i++) {
        const char *path = shipped.path[i];
        const char *inside = path + strlen(source_path("recipes")) + 1;
        char stem[80];
        pottlei_stem(path, stem, sizeof stem);
        pottle_error error = { .status = POTTLE_OK };
        if (strchr(inside, '/') == NULL ||
            strcmp(inside, "foods/names.xml") == 0)
            continue;
        if (strncmp(inside, "foods/", 6) == 0) {
            pottle_food *food = NULL;
            ck_assert_msg(pottle_food_read(c, stem, &food, &error) == POTTLE_OK,
                          "%s: %s", path, error.what);
            ck_assert_str_eq(pottle_food_id(food), stem);
            ck_assert_msg(pottle_food_name(c, stem, 0) != NULL,
                          "%s has no name", path);
            pottle_food_free(food);
            foods++;
        } else {
            pottle_recipe *recipe = NULL;
            ck_assert_msg(pottle_recipe_read(c, stem, &recipe, &error) ==
                              POTTLE_OK,
                          "%s: %s", path, error.what);
            ck_assert_str_eq(pottle_recipe_id(recipe), stem);
            ck_assert_msg(strncmp(inside, pottle_recipe_kind(recipe),
                                  strcspn(inside, "/")) == 0,
                          "%s is of kind %s", path, pottle_recipe_kind(recipe));
            pottle_recipe_free(recipe);
            recipes++;
        }
    }
    ck_assert_uint_gt(foods, 0);
    ck_assert_uint_gt(recipes, 0);
    /* and the names lead to no food that has no file */
    size_t named = 0;
    while (pottle_food_at(c, named) != NULL)
        named++;
    ck_assert_uint_eq(named, foods);
    pottle_catalogue_free(c);
}
END_TEST

/* -- What words the findings have ------------------------------------------ */

static const pottle_error *
first_of(const found *f, const char *code)
{
    for (size_t i = 0; i < f->count; i++)
        if (strcmp(f->list[i].code, code) == 0)
            return &f->list[i];
    ck_abort_msg("no finding '%s'", code);
    return NULL;
}

/* The lines are counted in the stored files by hand; the second line is the
 * comment. */
static const struct {
    const char *file, *code;
    long line;
    const char *what, *instead;
} words[] = {
    { "bad/unknown-food.xml", "unknown-food", 8, "vinegar", "" },
    { "bad/unknown-rule.xml", "unknown-rule", 8, "acid-at-least", "" },
    { "bad/unknown-rule-of-batch.xml", "unknown-rule", 5, "as-much-as-fits",
      "" },
    { "bad/unknown-form.xml", "unknown-form", 7, "pureed", "chopped" },
    { "bad/unknown-form-instead.xml", "unknown-form", 9, "citric-acid",
      "ground" },
    { "bad/unknown-size.xml", "unknown-size", 9, "ear", "clove" },
    { "bad/unknown-trim.xml", "unknown-trim", 7, "peeled-cored", "trimmed" },
    { "bad/weak-acid.xml", "weak-acid", 8, "cucumber", "citric acid" },
    { "bad/minutes-order.xml", "order", 21, "minutes-to", "" },
    { "bad/unknown-jar-of-process.xml", "unknown-jar", 14, "demijohn", "" },
    { "bad/kind-unknown.xml", "schema", 3, "recipe", "recipe.rng" },
    /* 1 kg of water is 1,001.8 mL at 20 deg C, 1 kg of sugar in it 628 mL:
     * 1,630 mL. Eight times 236.59 mL are 1,893 mL, of which nine tenths are
     * 1,703 mL; seven times are 1,656 mL, nine tenths 1,490 mL:
     * yield-that-fits.xml is not doubted. */
    { "good/yield-too-high.xml", "yield-mass", 11, "1630 mL", "" },
    { "good/own-pickle.xml", "own-acidified", 7, "cucumber", "" },
    { "good/short-process.xml", "sterile", 11, "5 minutes", "" },
    /* 100 g a cup and twice 76 g a cup: 1.52; twice 74 g is 1.48 and not told
     */
    { "good/two-densities.xml", "densities", 15, "76 g", "" },
};

START_TEST(finding_says_what_where_and_how)
{
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_ALL);
    static found f;
    char path[PATH_SIZE];
    snprintf(path, sizeof path, "%s/tests/data/%s", source_folder(),
             words[_i].file);
    check_file(c, path, &f);
    const pottle_error *e = first_of(&f, words[_i].code);
    ck_assert_int_eq(e->line, words[_i].line);
    ck_assert_msg(strstr(e->what, words[_i].what) != NULL, "%s: %s",
                  words[_i].file, e->what);
    ck_assert_msg(strstr(e->instead, words[_i].instead) != NULL, "%s: %s",
                  words[_i].file, e->instead);
    pottle_catalogue_free(c);
}
END_TEST

/* A warning that rests on a rule names the rule's source, so that it can be
 * looked up. */
START_TEST(warning_names_its_source)
{
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_ALL);
    static found f;
    check_file(c, source_path("tests/data/good/own-pickle.xml"), &f);
    const pottle_rule *rule = pottle_rule_find(c, "own-recipe");
    ck_assert_ptr_nonnull(rule);
    ck_assert_str_eq(first_of(&f, "own-recipe")->source, rule->cite.source);
    ck_assert_str_eq(first_of(&f, "own-recipe")->instead, rule->instead);
    ck_assert_str_ne(rule->cite.source, "");
    pottle_catalogue_free(c);
}
END_TEST

/* Parts that were not read are not asked: no source is called unknown because
 * sources.xml was not opened. */
START_TEST(parts_that_were_not_read_are_not_asked)
{
    static const char *const silent[] = { "unknown-source", "unknown-rule",
                                          "unknown-jar", "unknown-syrup" };
    pottle_catalogue *c = open_catalogue(source_path("recipes"), NULL, 0);
    static found f;
    for (size_t i = 0; i < sizeof silent / sizeof silent[0]; i++) {
        char path[PATH_SIZE];
        snprintf(path, sizeof path, "%s/tests/data/bad/%s.xml", source_folder(),
                 silent[i]);
        check_file(c, path, &f);
        ck_assert_msg(!told(&f, silent[i], false), "%s: %s", path, silent[i]);
    }
    for (size_t i = 0; i < good.count; i++) {
        check_file(c, good.path[i], &f);
        ck_assert_uint_eq(f.errors, 0);
    }
    pottle_catalogue_free(c);
}
END_TEST

/* An own recipe in its folder is still no tested one. */
START_TEST(own_folder_hides_nothing)
{
    make_work();
    copy_file(source_path("tests/data/bad/own-hides-tested.xml"),
              WORK "/chile-salsa.xml");
    copy_file(source_path("tests/data/good/own-pickle.xml"),
              WORK "/own-pickle.xml");
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), WORK, POTTLE_WITH_ALL);
    static found f;
    check_file(c, WORK "/chile-salsa.xml", &f);
    ck_assert(told(&f, "hides-tested", false));
    check_file(c, WORK "/own-pickle.xml", &f);
    ck_assert_uint_eq(f.errors, 0);
    pottle_catalogue_free(c);
}
END_TEST

/* -- Files made here ------------------------------------------------------- */

/* A long text, piece by piece. */
typedef struct text {
    char *s;
    size_t n, room;
} text;

static void
add(text *t, const char *piece, size_t times)
{
    const size_t k = strlen(piece);
    if (t->n + k * times + 1 > t->room) {
        t->room = 2 * (t->n + k * times + 1);
        t->s = realloc(t->s, t->room);
        ck_assert_ptr_nonnull(t->s);
    }
    for (size_t i = 0; i < times; i++, t->n += k)
        memcpy(t->s + t->n, piece, k + 1);
}

static void
check_made(text *t, const char *path, const char *code)
{
    write_file(path, t->s, t->n);
    free(t->s);
    pottle_catalogue *c =
        open_catalogue(source_path("recipes"), NULL, POTTLE_WITH_ALL);
    static found f;
    check_file(c, path, &f);
    if (!told(&f, code, false))
        print(&f);
    ck_assert_msg(told(&f, code, false), "%s: no error is called '%s'", path,
                  code);
    pottle_catalogue_free(c);
}

/* The reader stops at 16 levels, long before libxml2 does (256,
 * xmlParserMaxDepth) or the stack ends. */
static const size_t nestings[] = { 20, 200, 300, 20000 };

START_TEST(deep_nesting)
{
    make_work();
    text t = { NULL, 0, 0 };
    add(&t,
        "<recipe id=\"deep\" kind=\"relish\" status=\"tested\" source=\"a\" "
        "at=\"b\" standing=\"memory\">\n",
        1);
    add(&t, "<step>", nestings[_i]);
    add(&t, "</step>", nestings[_i]);
    add(&t, "</recipe>\n", 1);
    check_made(&t, WORK "/deep.xml", "depth");
}
END_TEST

START_TEST(ten_megabytes)
{
    make_work();
    text t = { NULL, 0, 0 };
    add(&t, "<recipe>", 1);
    add(&t, "0123456789abcdef", 10 * 65536);
    add(&t, "</recipe>", 1);
    check_made(&t, WORK "/large.xml", "file-size");
}
END_TEST

/* More of a thing than memory for it, if the odd one after the last were
 * counted as one. */
START_TEST(odd_child_after_many)
{
    static const struct {
        const char *file, *before, *one, *after;
    } many[] = {
        { "names", "<names><food id=\"apple\">", "<name>a</name>\n",
          "<nickname>b</nickname></food></names>" },
        { "roots",
          "<food id=\"roots\" group=\"vegetable\" source=\"a\" at=\"b\" "
          "standing=\"memory\"><title>r</title><acid class=\"low-acid\"/><form "
          "id=\"diced\" bulk=\"cut\">",
          "<weight of=\"1\" measure=\"cup\" value=\"140\" unit=\"g\"/>\n",
          "<size of=\"1\"/></form></food>" },
        { "syrups",
          "<syrups><syrup id=\"a\" sugar-percent=\"1\" source=\"a\" at=\"b\" "
          "standing=\"memory\"><title>s</title>",
          "<load jar=\"pint\" jars=\"9\" water=\"6\" sugar=\"1\" "
          "unit=\"cup\"/>\n",
          "<honey jar=\"pint\" jars=\"9\" water=\"6\" sugar=\"1\" "
          "unit=\"cup\"/></syrup></syrups>" },
        { "rules",
          "<rules><rule id=\"a\" source=\"a\" at=\"b\" "
          "standing=\"memory\"><text>t</text>",
          "<never put=\"apple\" for=\"pear\"/>\n", "<ever/></rule></rules>" },
    };
    make_work();
    for (size_t i = 0; i < sizeof many / sizeof many[0]; i++) {
        /* sizes around the 4,096 bytes in which the library asks for memory */
        for (size_t n = 500; n <= 516; n += 4) {
            text t = { NULL, 0, 0 };
            char path[PATH_SIZE];
            add(&t, many[i].before, 1);
            add(&t, many[i].one, n);
            add(&t, many[i].after, 1);
            snprintf(path, sizeof path, WORK "/%s.xml", many[i].file);
            check_made(&t, path, "element");
        }
    }
}
END_TEST

/* UTF-8 is what a catalogue file is, whatever it says of itself: its words are
 * not to be changed by another name. */
START_TEST(declared_encoding_changes_no_word)
{
    static const char *const encodings[] = {
        "UTF-8", "utf-8",  "ISO-8859-1", "windows-1252", "US-ASCII",
        "UTF-7", "UTF-16", "EBCDIC-US",  "nonsense"
    };
    make_work();
    char *from = read_file(source_path("tests/data/good/kept-cold.xml"));
    const char *body = strchr(from, '\n');
    ck_assert_ptr_nonnull(body);
    static const char old[] = "<title>Made-up freezer jam</title>",
                      new[] = "<title>Gel\xC3\xA9"
                              "e</title>";
    const char *title = strstr(body, old);
    ck_assert_ptr_nonnull(title);
    pottle_catalogue *c = open_catalogue(source_path("recipes"), NULL, 0);
    for (size_t i = 0; i < sizeof encodings / sizeof encodings[0]; i++) {
        char first[80];
        snprintf(first, sizeof first, "<?xml version=\"1.0\" encoding=\"%s\"?>",
                 encodings[i]);
        text t = { NULL, 0, 0 };
        add(&t, first, 1);
        add(&t, body, 1);
        t.n -= strlen(title);
        add(&t, new, 1);
        add(&t, title + strlen(old), 1);
        write_file(WORK "/kept-cold.xml", t.s, t.n);
        free(t.s);
        pottle_recipe *recipe = NULL;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_recipe_read_file(c, WORK "/kept-cold.xml", &recipe, &error);
        if (status == POTTLE_OK)
            ck_assert_msg(strcmp(pottle_recipe_title(recipe), "Gel\xC3\xA9"
                                                              "e") == 0,
                          "as %s the title is '%s'", encodings[i],
                          pottle_recipe_title(recipe));
        else
            ck_assert_msg(status == POTTLE_EDATA && i >= 2, "as %s: %s",
                          encodings[i], error.what);
        pottle_recipe_free(recipe);
    }
    pottle_catalogue_free(c);
    free(from);
}
END_TEST

/* -- What cannot be read --------------------------------------------------- */

static void
expect_status(const pottle_catalogue *c, const char *path, pottle_status wanted,
              pottle_error *error)
{
    static found f;
    f = (found){ .path = path };
    size_t errors = 999;
    *error = (pottle_error){ .status = POTTLE_OK };
    const pottle_status status =
        pottle_file_check(c, path, tell, &f, &errors, error);
    ck_assert_msg(status == wanted, "%.80s: %s: %s", path,
                  pottle_strerror((int)status), error->what);
    ck_assert_int_eq(error->status, wanted);
    ck_assert_uint_eq(f.count, 0);
    ck_assert_uint_eq(errors, 999); /* written only when the file was read */
    ck_assert_str_ne(error->what, "");
    /* and no error at all is fine too */
    ck_assert_int_eq(pottle_file_check(c, path, tell, &f, &errors, NULL),
                     wanted);
}

START_TEST(no_plain_file)
{
    make_work();
    pottle_catalogue *c = open_catalogue(source_path("recipes"), NULL, 0);
    pottle_error error;
    expect_status(c, WORK, POTTLE_EIO, &error);
    expect_status(c, WORK "/missing.xml", POTTLE_EIO, &error);
    ck_assert_str_eq(error.where, WORK "/missing.xml");
    expect_status(c, WORK "/missing/missing.xml", POTTLE_EIO, &error);
    expect_status(c, "", POTTLE_EIO, &error);
    ck_assert_int_eq(mkfifo(WORK "/pipe.xml", 0666), 0);
    expect_status(c, WORK "/pipe.xml", POTTLE_EIO,
                  &error); /* and does not wait for a writer */
    char *far = malloc(10001);
    ck_assert_ptr_nonnull(far);
    memset(far, 'x', 10000);
    far[10000] = '\0';
    expect_status(c, far, POTTLE_EIO, &error);
    free(far);
    write_file(WORK "/secret.xml", "<recipe/>", 9);
    ck_assert_int_eq(chmod(WORK "/secret.xml", 0), 0);
    if (geteuid() != 0) /* who may read everything cannot see this */
        expect_status(c, WORK "/secret.xml", POTTLE_EIO, &error);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(misuse)
{
    pottle_catalogue *c = open_catalogue(source_path("recipes"), NULL, 0);
    const char *path = source_path("recipes/jars.xml");
    static found f;
    size_t errors = 999;
    pottle_error error;
    ck_assert_int_eq(pottle_file_check(NULL, path, tell, &f, &errors, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_file_check(c, NULL, tell, &f, &errors, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_file_check(c, path, NULL, &f, &errors, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_file_check(c, path, tell, &f, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_uint_eq(errors, 999);
    pottle_catalogue_free(c);
}
END_TEST

/* -- The schema itself ----------------------------------------------------- */

/* A catalogue folder with nothing but a schema. */
static void
make_schema(const char *folder)
{
    char from[PATH_SIZE], to[PATH_SIZE];
    make_work();
    ck_assert(mkdir(folder, 0777) == 0 || errno == EEXIST);
    snprintf(to, sizeof to, "%s/schema", folder);
    ck_assert_int_eq(mkdir(to, 0777), 0);
    static const char *const names[] = { "common.rng", "recipe.rng", "jars.rng",
                                         "names.rng" };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        snprintf(from, sizeof from, "%s/recipes/schema/%s", source_folder(),
                 names[i]);
        snprintf(to, sizeof to, "%s/schema/%s", folder, names[i]);
        copy_file(from, to);
    }
}

static const struct {
    const char *file, *text;
    bool works;
} schemas[] = {
    { "recipe.rng", NULL, false },
    { "common.rng", NULL, false },
    { "recipe.rng", "", false },
    { "recipe.rng", "<grammar", false },
    { "common.rng", "<grammar", false },
    { "recipe.rng",
      "<grammar xmlns=\"http://relaxng.org/ns/structure/1.0\"><start><ref "
      "name=\"nowhere\"/></start></grammar>",
      false },
    { "recipe.rng",
      "<grammar "
      "xmlns=\"http://relaxng.org/ns/structure/1.0\"><start><anything/></"
      "start></grammar>",
      false },
    { "common.rng", "<grammar xmlns=\"http://relaxng.org/ns/structure/1.0\"/>",
      false },
    { "recipe.rng", "<!DOCTYPE grammar><grammar/>", false },
    { "jars.rng", "<grammar", true }, /* which a recipe does not need */
};

/* A broken schema is told as such, and never on stderr, which belongs to the
 * command. */
START_TEST(broken_schema)
{
    make_schema(WORK "/catalogue");
    char path[PATH_SIZE];
    snprintf(path, sizeof path, WORK "/catalogue/schema/%s", schemas[_i].file);
    ck_assert_int_eq(remove(path), 0);
    if (schemas[_i].text != NULL)
        write_file(path, schemas[_i].text, strlen(schemas[_i].text));
    pottle_catalogue *c = open_catalogue(WORK "/catalogue", NULL, 0);
    char file[PATH_SIZE];
    snprintf(file, sizeof file, "%s",
             source_path("tests/data/bad/band-gap.xml"));

    fflush(stderr);
    const int saved = dup(2),
              silent = open(WORK "/stderr", O_RDWR | O_CREAT, 0666);
    ck_assert(saved >= 0 && silent >= 0 && dup2(silent, 2) == 2);
    static found f;
    f = (found){ .path = file };
    size_t errors = 999;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_file_check(c, file, tell, &f, &errors, &error);
    fflush(stderr);
    dup2(saved, 2);
    close(saved);
    const off_t written = lseek(silent, 0, SEEK_END);
    close(silent);

    ck_assert_int_eq(written, 0);
    ck_assert_int_eq(status, schemas[_i].works ? POTTLE_OK : POTTLE_EDATA);
    ck_assert_uint_eq(f.count, schemas[_i].works ? 1 : 0);
    if (!schemas[_i].works) {
        ck_assert_str_ne(error.what, "");
        ck_assert_msg(strstr(error.where, "schema/") != NULL, "where: '%s'",
                      error.where);
        ck_assert_uint_eq(errors, 999);
    }
    pottle_catalogue_free(c);
}
END_TEST

/* The schema includes another file, by a path that libxml2 reads as an address.
 */
static const char *const folders[] = { WORK "/a folder", WORK "/100%",
                                       WORK "/%41", WORK "/c#1?",
                                       WORK "/b\xC3\xA9"
                                            "ch" };

START_TEST(odd_folder)
{
    make_schema(folders[_i]);
    pottle_catalogue *c = open_catalogue(folders[_i], NULL, 0);
    static found f;
    check_file(c, source_path("recipes/jars.xml"), &f);
    ck_assert_uint_eq(f.errors, 0);
    check_file(c, source_path("tests/data/bad/jars-size.xml"), &f);
    ck_assert(told(&f, "range", false));
    pottle_catalogue_free(c);
}
END_TEST

/* A file that is sound, but names one that is not there or cannot be used. */
START_TEST(broken_file_beside_it)
{
    static const char names[] =
        "<names>\n  <recipe id=\"kept-cold\">\n    <name>kept-cool</name>\n  "
        "</recipe>\n</names>\n";
    make_schema(WORK "/catalogue");
    char recipe[PATH_SIZE];
    snprintf(recipe, sizeof recipe, "%s",
             source_path("tests/data/good/kept-cold.xml"));
    write_file(WORK "/names.xml", names, strlen(names));
    pottle_catalogue *c = open_catalogue(WORK "/catalogue", NULL, 0);
    static found f;
    check_file(c, recipe, &f);
    ck_assert_uint_eq(f.errors, 1);
    ck_assert_int_eq(first_of(&f, "unknown-food")->line, 7);
    check_file(c, WORK "/names.xml", &f);
    ck_assert_int_eq(first_of(&f, "unknown-recipe")->line, 2);

    ck_assert_int_eq(mkdir(WORK "/catalogue/foods", 0777), 0);
    ck_assert_int_eq(mkdir(WORK "/catalogue/freezer-jam", 0777), 0);
    write_file(WORK "/catalogue/foods/rhubarb.xml", "<food", 5);
    write_file(WORK "/catalogue/freezer-jam/kept-cold.xml", "<recipe", 7);
    check_file(c, recipe, &f);
    ck_assert_uint_eq(f.errors, 1);
    ck_assert_int_eq(first_of(&f, "food-file")->line, 7);
    check_file(c, WORK "/names.xml", &f);
    ck_assert_uint_eq(f.errors, 1);
    ck_assert_int_eq(first_of(&f, "recipe-file")->line, 2);

    copy_file(source_path("recipes/foods/rhubarb.xml"),
              WORK "/catalogue/foods/rhubarb.xml");
    copy_file(recipe, WORK "/catalogue/freezer-jam/kept-cold.xml");
    check_file(c, recipe, &f);
    ck_assert_uint_eq(f.errors, 0);
    check_file(c, WORK "/names.xml", &f);
    ck_assert_uint_eq(f.errors, 0);
    pottle_catalogue_free(c);
}
END_TEST

/* ------------------------------------------------------------------------- */

#define COUNT(table) ((int)(sizeof(table) / sizeof((table)[0])))

int
main(void)
{
    scan(source_path("tests/data/bad"), &bad);
    scan(source_path("tests/data/good"), &good);
    scan(source_path("recipes"), &shipped);
    if (bad.count == 0 || good.count == 0 || shipped.count == 0 ||
        bad.count >= MOST_FILES || shipped.count >= MOST_FILES) {
        printf("no test data in %s\n", source_folder());
        return 99;
    }
    Suite *suite = suite_create("data");
    TCase *stored = tcase_create("stored");
    tcase_set_timeout(stored, 600);
    tcase_add_loop_test(stored, bad_file_is_refused, 0, (int)bad.count);
    tcase_add_loop_test(stored, bad_file_is_refused_by_the_reader, 0,
                        (int)bad.count);
    tcase_add_loop_test(stored, good_file_is_accepted, 0, (int)good.count);
    tcase_add_test(stored, shipped_files_are_valid);
    tcase_add_test(stored, shipped_files_are_where_their_id_says);
    tcase_add_loop_test(stored, finding_says_what_where_and_how, 0,
                        COUNT(words));
    tcase_add_test(stored, warning_names_its_source);
    tcase_add_test(stored, parts_that_were_not_read_are_not_asked);
    suite_add_tcase(suite, stored);
    TCase *made = tcase_create("made");
    tcase_set_timeout(made, 600);
    tcase_add_test(made, own_folder_hides_nothing);
    tcase_add_loop_test(made, deep_nesting, 0, COUNT(nestings));
    tcase_add_test(made, ten_megabytes);
    tcase_add_test(made, odd_child_after_many);
    tcase_add_test(made, declared_encoding_changes_no_word);
    tcase_add_test(made, no_plain_file);
    tcase_add_test(made, misuse);
    tcase_add_loop_test(made, broken_schema, 0, COUNT(schemas));
    tcase_add_loop_test(made, odd_folder, 0, COUNT(folders));
    tcase_add_test(made, broken_file_beside_it);
    suite_add_tcase(suite, made);
    const int result = suite_run(suite);
    remove_work();
    forget(&bad);
    forget(&good);
    forget(&shipped);
    return result;
}
