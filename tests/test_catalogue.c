/* test_catalogue.c - opening a catalogue, and finding foods, recipes and jars
 * in it by what people type. */
#include <config.h>

#include <check.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "internal.h"
#include "suite.h"

#define WORK "test_catalogue.tmp"
#define FOLDER WORK "/catalogue"
#define OWN WORK "/own"
#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
enum { PATH_SIZE = 600 };

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

static void
write_file(const char *path, const char *text, size_t n)
{
    FILE *f = fopen(path, "wb");
    ck_assert_msg(f != NULL, "cannot write %s", path);
    ck_assert_uint_eq(fwrite(text, 1, n, f), n);
    ck_assert_int_eq(fclose(f), 0);
}

/* Copies a file and replaces one piece of its text where `old` is given. */
static void
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
static void
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

static pottle_catalogue *
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

static pottle_catalogue *
open_shipped(unsigned with)
{
    return open_folder(source_path("recipes"), NULL, with);
}

/* 10,000 times a letter, then the end. */
static char *
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

/* -- Names of foods -------------------------------------------------------- */

/* Which food a name means is common English usage, British, American or
 * Australian (from memory). */
static const struct {
    const char *name;
    const char *ids[3];
} names[] = {
    { "apple", { "apple" } },
    { "Apples", { "apple" } },
    { "  APPLES ", { "apple" } },
    { "tomatoes", { "tomato" } },
    { "potatoes", { "potato" } },
    { "peaches", { "peach" } },
    { "radishes", { "radish" } },
    { "strawberries", { "strawberry" } },
    { "pickling-cucumbers", { "pickling-cucumber" } },
    { "pickling_cucumber", { "pickling-cucumber" } },
    { "asparagus", { "asparagus" } },
    { "brussels sprouts", { "brussels-sprout" } },
    { "courgette", { "zucchini" } },
    { "courgettes", { "zucchini" } },
    { "zucchini", { "zucchini" } },
    { "aubergine", { "eggplant" } },
    { "eggplants", { "eggplant" } },
    { "swede", { "rutabaga" } },
    { "rutabagas", { "rutabaga" } },
    { "beetroot", { "beet" } },
    { "beets", { "beet" } },
    { "spring onions", { "scallion" } },
    { "spring-onion", { "scallion" } },
    { "green onion", { "scallion" } },
    { "scallions", { "scallion" } },
    { "coriander leaf", { "cilantro" } },
    { "coriander leaves", { "cilantro" } },
    { "rocket", { "arugula" } },
    { "cornflour", { "cornstarch" } },
    { "icing sugar", { "powdered-sugar" } },
    { "capsicums", { "sweet-pepper" } },
    { "bell pepper", { "sweet-pepper" } },
    { "broad beans", { "fava-bean" } },
    { "french beans", { "snap-bean" } },
    { "sultanas", { "golden-raisin" } },
    { "silverbeet", { "chard" } },
    { "rockmelon", { "melon-cantaloupe" } },
    { "chillies", { "chile-pepper" } },
    { "blackcurrants", { "currant-black" } },
    { "kumara", { "sweet-potato" } },
    { "celery root", { "celeriac" } },
    /* an id is a name too */
    { "melon-cantaloupe", { "melon-cantaloupe" } },
    { "currant black", { "currant-black" } },
    /* two foods of one name: the caller must ask which */
    { "lemon juice", { "bottled-lemon-juice", "fresh-lemon-juice" } },
    { "Lemon  Juice", { "bottled-lemon-juice", "fresh-lemon-juice" } },
    { "lime juice", { "bottled-lime-juice", "fresh-lime-juice" } },
    { "coriander", { "cilantro", "coriander-seed" } },
    { "cherries", { "cherry-sour", "cherry-sweet" } },
};

START_TEST(names_find)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *ids[8] = { NULL };
    size_t count = 0, wanted = 0;
    pottle_error error = { .status = POTTLE_OK };
    while (wanted < 3 && names[_i].ids[wanted] != NULL)
        wanted++;
    const pottle_status status =
        pottle_names_find(c, names[_i].name, ids, COUNT(ids), &count, &error);
    ck_assert_msg(status == POTTLE_OK, "'%s': %s", names[_i].name, error.what);
    ck_assert_msg(count == wanted, "'%s' means %zu foods, the first %s",
                  names[_i].name, count, ids[0]);
    for (size_t i = 0; i < wanted; i++) {
        bool found = false;
        for (size_t k = 0; k < count; k++)
            found = found || strcmp(ids[k], names[_i].ids[i]) == 0;
        ck_assert_msg(found, "'%s' is not %s", names[_i].name,
                      names[_i].ids[i]);
    }
    /* less room than foods: the count still says how many there are, and
     * nothing is written past it */
    const char *one[2] = { NULL, "untouched" };
    size_t all = 0;
    ck_assert_int_eq(pottle_names_find(c, names[_i].name, one, 1, &all, NULL),
                     POTTLE_OK);
    ck_assert_uint_eq(all, wanted);
    ck_assert_str_eq(one[1], "untouched");
    ck_assert_int_eq(pottle_names_find(c, names[_i].name, NULL, 0, &all, NULL),
                     POTTLE_OK);
    ck_assert_uint_eq(all, wanted);
    pottle_catalogue_free(c);
}
END_TEST

/* A slip of the keyboard: the name that was meant is among the near ones.
 * Empty: nothing is near; NULL: not asked. */
static const struct {
    const char *name, *near;
} misses[] = {
    { "tomatoe", "tomato" }, /* the e of the plural */
    { "zuchini", "zucchini" },
    { "brocolli", "broccoli" },
    { "cinammon stick", "cinnamon stick" },
    { "rubarb", "rhubarb" },
    { "aple", "apple" },
    { "xylophone orchestra", "" },
    { "", "" },
    { "   ", "" },
    { "-", "" },
    { "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", "" },
    { "apple\napple apple apple", "" },
    { "chile-salsa", NULL }, /* a recipe is no food */
};

START_TEST(names_miss)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *id = "untouched";
    size_t count = 99;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottle_names_find(c, misses[_i].name, &id, 1, &count, &error),
        POTTLE_ENOENT);
    ck_assert_uint_eq(count, 99);
    ck_assert_str_eq(id, "untouched");
    ck_assert_str_eq(error.code, "unknown-food");
    const char *near = strstr(error.what, "nearest: ");
    if (misses[_i].near == NULL)
        ck_assert_msg(strstr(error.what, "nearest: chile-salsa") == NULL, "%s",
                      error.what);
    else if (misses[_i].near[0] == '\0')
        ck_assert_msg(near == NULL, "%s", error.what);
    else
        ck_assert_msg(near != NULL && strstr(near, misses[_i].near) != NULL,
                      "%s", error.what);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(names_of_any_length)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    char *far = long_text();
    size_t count = 99;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_names_find(c, far, NULL, 0, &count, &error),
                     POTTLE_ENOENT);
    ck_assert_uint_lt(strlen(error.what), sizeof error.what);
    /* a known name at the end or the beginning of a long text is not the name
     */
    memcpy(far, "apple ", 6);
    ck_assert_int_eq(pottle_names_find(c, far, NULL, 0, &count, &error),
                     POTTLE_ENOENT);
    memset(far, ' ', 10000);
    memcpy(far + 9995, "apple", 5);
    ck_assert_int_eq(pottle_names_find(c, far, NULL, 0, &count, &error),
                     POTTLE_OK); /* blanks do not count */
    ck_assert_uint_eq(count, 1);
    free(far);
    ck_assert_int_eq(pottle_names_find(NULL, "apple", NULL, 0, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_find(c, NULL, NULL, 0, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_find(c, "apple", NULL, 1, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_find(c, "apple", NULL, 0, NULL, &error),
                     POTTLE_EMISUSE);
    pottle_catalogue_free(c);
}
END_TEST

/* Every name of every food finds that food, in the singular as listed and in
 * capitals. */
START_TEST(names_all_lead_back)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *id, *before = "", *name;
    size_t foods = 0;
    for (; (id = pottle_food_at(c, foods)) != NULL; foods++) {
        ck_assert_msg(strcmp(before, id) < 0, "%s comes before %s", before, id);
        before = id;
        size_t n = 0;
        for (; (name = pottle_food_name(c, id, n)) != NULL; n++) {
            char loud[128];
            const char *ids[16];
            size_t count = 0;
            bool found = false;
            snprintf(loud, sizeof loud, "%s", name);
            for (char *s = loud; *s != '\0'; s++)
                *s = *s >= 'a' && *s <= 'z' ? (char)(*s - 'a' + 'A') : *s;
            ck_assert_msg(pottle_names_find(c, loud, ids, COUNT(ids), &count,
                                            NULL) == POTTLE_OK,
                          "%s", loud);
            ck_assert_uint_le(count, COUNT(ids));
            for (size_t i = 0; i < count; i++)
                found = found || strcmp(ids[i], id) == 0;
            ck_assert_msg(found, "'%s' does not lead to %s", loud, id);
        }
        ck_assert_msg(n > 0, "%s has no name", id);
    }
    ck_assert_uint_gt(foods, 100);
    ck_assert_ptr_null(pottle_food_name(c, "chile-salsa", 0)); /* a recipe */
    ck_assert_ptr_null(pottle_food_name(c, "no-such-food", 0));
    pottle_catalogue_free(c);
}
END_TEST

/* -- Foods and recipes by id ----------------------------------------------- */

/* No id is a way out of the catalogue. foods/names.xml is no food, and
 * schema/recipe.rng no recipe. */
static const char *const tricks[] = {
    "",
    " ",
    ".",
    "..",
    "/",
    "../x",
    "../rules",
    "foods/apple",
    "./apple",
    "apple.xml",
    "apple/",
    "/etc/passwd",
    "APPLE",
    "apple ",
    " apple",
    "apple\n",
    "appl\xC3\xA9",
    "apple--pie",
    "-apple",
    "apple-",
    "apple%",
    "%s%n",
    "ap\\ple",
    "..\\x",
    "no-such-thing",
    "names",
    "common",
    "0",
};

START_TEST(food_by_no_id)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    pottle_food *food = (pottle_food *)c, *const before = food;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_food_read(c, tricks[_i], &food, &error);
    ck_assert_msg(status == POTTLE_ENOENT, "'%s': %s: %s", tricks[_i],
                  pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-food");
    ck_assert_ptr_eq(food, before);
    ck_assert_int_eq(pottle_food_read(c, tricks[_i], &food, NULL),
                     POTTLE_ENOENT);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(recipe_by_no_id)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    pottle_recipe *recipe = (pottle_recipe *)c, *const before = recipe;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(c, tricks[_i], &recipe, &error);
    ck_assert_msg(status == POTTLE_ENOENT, "'%s': %s: %s", tricks[_i],
                  pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-recipe");
    ck_assert_ptr_eq(recipe, before);
    ck_assert_int_eq(pottle_recipe_read(c, tricks[_i], &recipe, NULL),
                     POTTLE_ENOENT);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(form_said)
{
    /* what a person reads behind the title, by hand: the form is said wherever
     * another would be another amount */
    static const struct {
        const char *food, *form, *said;
    } cases[] = {
        { "onion", "finely-chopped", "finely chopped" },
        { "onion", "ground", "ground" },
        { "sugar", "ground", "" },
        { "brown-sugar", "packed", "packed" },
        { "butter", "packed", "" },
        { "clove-whole", "whole", "" },
        { "celery-seed", "whole", "" },
        { "mustard-seed", "ground", "ground" },
        { "red-pepper-flakes", "flaked", "" },
        { "strawberry", "whole", "whole" },
        { "liquid-pectin", "liquid", "" },
        { "onion", "liquid", "" },
        { "onion", "no such form", "" },
        { "onion", "", "" },
    };
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pottle_food *food = NULL;
        ck_assert_int_eq(pottle_food_read(c, cases[i].food, &food, NULL),
                         POTTLE_OK);
        const char *said = pottle_form_said(food, cases[i].form);
        ck_assert_msg(strcmp(said, cases[i].said) == 0, "%s %s: '%s'",
                      cases[i].food, cases[i].form, said);
        pottle_food_free(food);
    }
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(food_read)
{
    make_work();
    pottle_catalogue *c = open_folder(FOLDER, NULL, POTTLE_WITH_NAMES);
    pottle_food *food = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_food_read(c, "tomato", &food, &error), POTTLE_OK);
    ck_assert_str_eq(pottle_food_id(food), "tomato");
    ck_assert_str_ne(pottle_food_title(food), "");
    ck_assert_str_eq(pottle_food_group(food), "vegetable");
    /* US Food and Drug Administration, approximate pH of foods: tomatoes 4.30
     * to 4.90, on both sides of 4.6 */
    ck_assert_int_eq(pottle_food_acid(food)->class_, POTTLE_BORDERLINE);
    ck_assert_double_eq_tol(pottle_food_acid(food)->ph_low, 4.30, 1e-9);
    ck_assert_double_eq_tol(pottle_food_acid(food)->ph_high, 4.90, 1e-9);
    /* USDA Standard Reference 28, 11529: 1 cup of chopped tomatoes weighs 180
     * g; a cup is 236.5882365 mL */
    const pottle_form *form = pottle_food_form(food, "chopped");
    ck_assert_ptr_nonnull(form);
    ck_assert_str_eq(form->id, "chopped");
    ck_assert_double_eq_tol(form->weight[0].grams, 180, 1e-9);
    ck_assert_double_eq_tol(form->weight[0].volume_ml, 236.5882365, 1e-9);
    ck_assert_str_eq(form->weight[0].measure, "1 cup");
    /* the words of an id and no part of them */
    ck_assert_ptr_null(pottle_food_form(food, "chop"));
    ck_assert_ptr_null(pottle_food_form(food, ""));
    /* what is found is an entry of the list */
    size_t n = 0;
    const pottle_form *list = pottle_food_forms(food, &n);
    for (size_t i = 0; i < n; i++)
        ck_assert_ptr_eq(pottle_food_form(food, list[i].id), &list[i]);
    pottle_food_free(food);
    pottle_food_free(NULL);

    food = NULL;
    ck_assert_int_eq(pottle_food_read(NULL, "tomato", &food, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_food_read(c, NULL, &food, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_food_read(c, "tomato", NULL, &error),
                     POTTLE_EMISUSE);
    char *far = long_text();
    ck_assert_int_eq(pottle_food_read(c, far, &food, &error), POTTLE_ENOENT);
    far[64] = '\0'; /* one more than an id may have */
    ck_assert_int_eq(pottle_food_read(c, far, &food, &error), POTTLE_ENOENT);
    far[63] = '\0';
    ck_assert_int_eq(pottle_food_read(c, far, &food, &error), POTTLE_ENOENT);
    free(far);

    copy_file(FOLDER "/foods/tomato.xml", FOLDER "/foods/apple.xml", NULL,
              NULL);
    ck_assert_int_eq(pottle_food_read(c, "apple", &food, &error), POTTLE_EDATA);
    ck_assert_str_eq(error.code, "file-name");
    ck_assert_str_eq(error.where, FOLDER "/foods/apple.xml");
    ck_assert_int_gt(error.line, 0);
    ck_assert_int_eq(mkdir(FOLDER "/foods/pear.xml", 0777), 0);
    ck_assert_int_eq(pottle_food_read(c, "pear", &food, &error), POTTLE_EIO);
    ck_assert_ptr_null(food);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(recipe_read)
{
    make_work();
    pottle_catalogue *c = open_folder(FOLDER, NULL, POTTLE_WITH_NAMES);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &recipe, &error),
                     POTTLE_OK);
    ck_assert_str_eq(pottle_recipe_id(recipe), "chile-salsa");
    ck_assert_str_eq(pottle_recipe_kind(recipe), "salsa");
    ck_assert(pottle_recipe_is_kind(recipe, "Salsas"));
    ck_assert(!pottle_recipe_is_kind(recipe, "sal"));
    ck_assert(!pottle_recipe_is_kind(recipe, ""));
    ck_assert(!pottle_recipe_is_kind(recipe, "salsa jam"));
    ck_assert_int_eq(pottle_recipe_standing(recipe), POTTLE_TESTED);
    /* USDA Bulletin 539, guide 3, Chile salsa: pints, hot pack, 15, 20 and 25
     * minutes at 0 to 1,000, 1,001 to 6,000, above 6,000 ft */
    size_t n = 0;
    const pottle_process_table *table = pottle_recipe_processes(recipe, &n);
    ck_assert_uint_eq(n, 1);
    ck_assert_uint_eq(table[0].bands, 3);
    ck_assert_int_eq(table[0].band[0].minutes, 15);
    ck_assert_int_eq(table[0].band[1].minutes, 20);
    ck_assert_int_eq(table[0].band[1].to_ft, 6000);
    ck_assert_int_eq(table[0].band[2].minutes, 25);
    ck_assert_int_lt(table[0].band[2].to_ft, 0);
    pottle_recipe_free(recipe);
    pottle_recipe_free(NULL);

    /* another id that names.xml lists for it, and how it may be typed */
    static const char *const others[] = { "salsa-chile", "salsa chile",
                                          "Salsa-Chile" };
    for (size_t i = 0; i < COUNT(others); i++) {
        recipe = NULL;
        ck_assert_msg(pottle_recipe_read(c, others[i], &recipe, &error) ==
                          POTTLE_OK,
                      "%s: %s", others[i], error.what);
        ck_assert_str_eq(pottle_recipe_id(recipe), "chile-salsa");
        pottle_recipe_free(recipe);
    }

    recipe = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "chille-salsa", &recipe, &error),
                     POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "nearest: ") != NULL &&
                      strstr(error.what, "chile-salsa") != NULL,
                  "%s", error.what);
    ck_assert_int_eq(pottle_recipe_read(c, "tomato", &recipe, &error),
                     POTTLE_ENOENT); /* a food */
    ck_assert_int_eq(pottle_recipe_read(NULL, "chile-salsa", &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read(c, NULL, &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(NULL,
                                             FOLDER "/salsa/chile-salsa.xml",
                                             &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(c, NULL, &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(c, FOLDER "/salsa/chile-salsa.xml",
                                             NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(c, FOLDER "/salsa/nothing.xml",
                                             &recipe, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(
        pottle_recipe_read_file(c, FOLDER "/salsa", &recipe, &error),
        POTTLE_EIO);
    char *far = long_text();
    ck_assert_int_eq(pottle_recipe_read(c, far, &recipe, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(pottle_recipe_read_file(c, far, &recipe, &error),
                     POTTLE_EIO);
    free(far);
    ck_assert_ptr_null(recipe);
    pottle_catalogue_free(c);
}
END_TEST

/* A recipe of the catalogue lies where its id and kind say, and is not
 * somebody's own. */
START_TEST(recipe_out_of_place)
{
    make_work();
    static const struct {
        const char *to, *id, *old, *new, *code;
    } moves[] = {
        { FOLDER "/relish/chile-salsa-two.xml", "chile-salsa-two",
          "id=\"chile-salsa\"", "id=\"chile-salsa-two\"", "kind" },
        { FOLDER "/salsa/hot-salsa.xml", "hot-salsa", "<title>", "<title>",
          "file-name" },
        { FOLDER "/salsa/our-salsa.xml", "our-salsa",
          "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
          "id=\"our-salsa\" kind=\"salsa\" status=\"own\"", "own" },
    };
    pottle_catalogue *c = open_folder(FOLDER, NULL, 0);
    for (size_t i = 0; i < COUNT(moves); i++) {
        copy_file(FOLDER "/salsa/chile-salsa.xml", moves[i].to, moves[i].old,
                  moves[i].new);
        pottle_recipe *recipe = NULL;
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(pottle_recipe_read(c, moves[i].id, &recipe, &error),
                         POTTLE_EDATA);
        ck_assert_str_eq(error.code, moves[i].code);
        ck_assert_str_eq(error.where, moves[i].to);
        ck_assert_ptr_null(recipe);
        /* from a file of any name it can be read */
        ck_assert_int_eq(
            pottle_recipe_read_file(c, moves[i].to, &recipe, &error),
            POTTLE_OK);
        pottle_recipe_free(recipe);
    }
    pottle_catalogue_free(c);
}
END_TEST

/* -- A folder of one's own ------------------------------------------------- */

START_TEST(own_recipes)
{
    static const char tested[] =
        "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"";
    make_work();
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/our-salsa.xml", tested,
              "id=\"our-salsa\" kind=\"salsa\" status=\"own\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/chile-salsa.xml", tested,
              "id=\"chile-salsa\" kind=\"salsa\" status=\"own\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/bold-salsa.xml", tested,
              "id=\"bold-salsa\" kind=\"salsa\" status=\"tested\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/draft-salsa.xml", tested,
              "id=\"draft-salsa\" kind=\"salsa\" status=\"draft\"");
    pottle_catalogue *c = open_folder(FOLDER, OWN, POTTLE_WITH_ALL);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };

    ck_assert_int_eq(pottle_recipe_read(c, "our-salsa", &recipe, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_standing(recipe), POTTLE_OWN);
    /* the copied times are there to be read and are given to nobody */
    size_t n = 0;
    const pottle_jar *jar = NULL;
    pottle_process process[POTTLE_PROCESS_MAX];
    pottle_recipe_processes(recipe, &n);
    ck_assert_uint_eq(n, 1);
    ck_assert_int_eq(pottle_jar_find(c, "pint", &jar, &error), POTTLE_OK);
    ck_assert_int_eq(pottle_process_find(c, recipe, jar, NULL, POTTLE_ANY_PACK,
                                         100, process, &n, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "own-recipe");
    pottle_recipe_free(recipe);

    recipe = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &recipe, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "hides-tested");
    ck_assert_str_eq(error.where, OWN "/chile-salsa.xml");
    ck_assert_int_eq(pottle_recipe_read(c, "bold-salsa", &recipe, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "own");
    ck_assert_int_eq(pottle_recipe_read(c, "draft-salsa", &recipe, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "own");
    ck_assert_ptr_null(recipe);
    /* once it is gone the tested one is found again */
    ck_assert_int_eq(remove(OWN "/chile-salsa.xml"), 0);
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &recipe, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_standing(recipe), POTTLE_TESTED);
    pottle_recipe_free(recipe);
    pottle_catalogue_free(c);

    /* without the folder there is no such recipe */
    c = open_folder(FOLDER, NULL, 0);
    recipe = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "our-salsa", &recipe, &error),
                     POTTLE_ENOENT);
    pottle_catalogue_free(c);
}
END_TEST

/* An own recipe under another id of a tested one would be met where the tested
 * one is meant. */
START_TEST(own_recipe_under_an_alias)
{
    make_work();
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/salsa-chile.xml",
              "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
              "id=\"salsa-chile\" kind=\"salsa\" status=\"own\"");
    pottle_catalogue *c = open_folder(FOLDER, OWN, POTTLE_WITH_ALL);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(c, "salsa-chile", &recipe, &error);
    ck_assert_msg(status == POTTLE_EDATA,
                  "an own recipe hides the tested one of that other id: %s",
                  pottle_strerror((int)status));
    ck_assert_str_eq(error.code, "hides-tested");
    pottle_catalogue_free(c);
}
END_TEST

/* -- The walk -------------------------------------------------------------- */

typedef struct walk {
    size_t recipes, broken, stop_after;
    char order[40][64];
    pottle_error last;
} walk;

static pottle_status
visit(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    walk *w = context;
    if (recipe != NULL) {
        if (w->recipes < 40)
            snprintf(w->order[w->recipes], sizeof w->order[0], "%s",
                     pottle_recipe_id(recipe));
        w->recipes++;
    } else {
        w->broken++;
        w->last = *error;
    }
    return w->stop_after > 0 && w->recipes + w->broken == w->stop_after
             ? POTTLE_EDOMAIN
             : POTTLE_OK;
}

START_TEST(walk_goes_on)
{
    make_work();
    pottle_catalogue *c = open_folder(FOLDER, OWN, 0);
    pottle_error error = { .status = POTTLE_OK };
    walk w = { .recipes = 0 };
    ck_assert_int_eq(pottle_recipes_each(c, visit, &w, &error), POTTLE_OK);
    ck_assert_uint_eq(w.recipes, 2);
    ck_assert_uint_eq(w.broken, 0);

    /* a broken one among them, one in a wrong folder, one of one's own, and
     * things that are no recipes */
    copy_file(FOLDER "/salsa/chile-salsa.xml", FOLDER "/salsa/amber-salsa.xml",
              "id=\"chile-salsa\"", "id=\"amber-salsa\"");
    write_file(FOLDER "/salsa/broken-salsa.xml", "<recipe", 7);
    copy_file(FOLDER "/salsa/chile-salsa.xml", FOLDER "/relish/zesty-salsa.xml",
              "id=\"chile-salsa\"", "id=\"zesty-salsa\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/our-salsa.xml",
              "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
              "id=\"our-salsa\" kind=\"salsa\" status=\"own\"");
    write_file(FOLDER "/salsa/notes.txt", "notes", 5);
    write_file(FOLDER "/salsa/.xml", "hidden", 6);
    w = (walk){ .recipes = 0 };
    ck_assert_int_eq(pottle_recipes_each(c, visit, &w, &error), POTTLE_OK);
    ck_assert_uint_eq(w.recipes, 4);
    ck_assert_uint_eq(w.broken, 2);
    ck_assert_str_ne(w.last.what, "");
    ck_assert_str_ne(w.last.where, "");
    /* of one kind they come by their ids, whatever order the folder has */
    size_t amber = 99, chile = 0;
    for (size_t i = 0; i < w.recipes; i++) {
        amber = strcmp(w.order[i], "amber-salsa") == 0 ? i : amber;
        chile = strcmp(w.order[i], "chile-salsa") == 0 ? i : chile;
    }
    ck_assert_uint_lt(amber, chile);

    /* a status ends the walk and is handed on */
    for (size_t n = 1; n <= 6; n++) {
        w = (walk){ .stop_after = n };
        ck_assert_int_eq(pottle_recipes_each(c, visit, &w, &error),
                         POTTLE_EDOMAIN);
        ck_assert_uint_eq(w.recipes + w.broken, n);
    }
    ck_assert_int_eq(pottle_recipes_each(NULL, visit, &w, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipes_each(c, NULL, &w, &error), POTTLE_EMISUSE);
    pottle_catalogue_free(c);
}
END_TEST

/* -- Jars ------------------------------------------------------------------ */

/* Volumes: a US gallon is 231 cubic inches, 3,785.411784 mL, of 128 fl oz (NIST
 * Handbook 44, appendix C). */
static const struct {
    const char *name, *id;
    double ml;
} jars[] = {
    { "half-pint", "half-pint", 236.5882365 },
    { "half pint", "half-pint", 236.5882365 },
    { "Half-Pints", "half-pint", 236.5882365 },
    { "half-pint jars", "half-pint", 236.5882365 },
    { "8 oz", "half-pint", 236.5882365 },
    { "8-oz", "half-pint", 236.5882365 },
    { "8-ounce jar", "half-pint", 236.5882365 },
    { "1/2 pint", "half-pint", 236.5882365 },
    { "4 oz", "quarter-pint", 118.29411825 },
    { "12-oz", "12-oz", 354.88235475 },
    { "pint", "pint", 473.176473 },
    { "pints", "pint", 473.176473 },
    { "pint jar", "pint", 473.176473 },
    { "pint jars", "pint", 473.176473 },
    { "PINT  JARS", "pint", 473.176473 },
    { "16 oz", "pint", 473.176473 },
    { "quart", "quart", 946.352946 },
    { "quart jars", "quart", 946.352946 },
    { "32 oz", "quart", 946.352946 },
    { "1 1/2 pint", "pint-and-half", 709.7647095 },
    { "half-gallon", "half-gallon", 1892.705892 },
    { "250 ml", "250-ml", 250 },
    { "500 ml", "500-ml", 500 },
    { "500-ml", "500-ml", 500 },
    { "500 ml jars", "500-ml", 500 },
    { "0.5 l", "500-ml", 500 },
    { "1 l", "1-l", 1000 },
    { "1-l", "1-l", 1000 },
};

START_TEST(jar_by_name)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_JARS);
    const pottle_jar *jar = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_jar_find(c, jars[_i].name, &jar, &error) == POTTLE_OK,
                  "'%s': %s", jars[_i].name, error.what);
    ck_assert_msg(strcmp(jar->id, jars[_i].id) == 0, "'%s' is %s",
                  jars[_i].name, jar->id);
    ck_assert_double_eq_tol(jar->nominal_ml, jars[_i].ml, 1e-6);
    pottle_catalogue_free(c);
}
END_TEST

static const char *const no_jars[] = {
    "",        " ", "jar", " jars", "bucket",   "pint bucket", "9 oz",
    "1500 ml", "-", "|",   "pint|", "16 oz|pt", "\xC3\xA9"
};

START_TEST(jar_by_no_name)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_JARS);
    const pottle_jar *jar = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_jar_find(c, no_jars[_i], &jar, &error);
    ck_assert_msg(status == POTTLE_ENOENT, "'%s' is %s", no_jars[_i],
                  jar != NULL ? jar->id : "");
    ck_assert_ptr_null(jar);
    ck_assert_str_eq(error.code, "unknown-jar");
    ck_assert_str_ne(error.what, "");
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(jars_in_order)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_JARS);
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(c, &n);
    ck_assert_uint_ge(n, 8);
    for (size_t i = 0; i < n; i++) {
        const pottle_jar *found = NULL;
        ck_assert(i == 0 || jar[i - 1].nominal_ml < jar[i].nominal_ml);
        ck_assert_int_eq(pottle_jar_find(c, jar[i].id, &found, NULL),
                         POTTLE_OK);
        ck_assert_ptr_eq(found, &jar[i]);
        /* what the command prints it must understand */
        ck_assert_msg(pottle_jar_find(c, jar[i].title, &found, NULL) ==
                          POTTLE_OK,
                      "'%s' finds no jar", jar[i].title);
        ck_assert_ptr_eq(found, &jar[i]);
        ck_assert(jar[i].regular || jar[i].wide);
        if (jar[i].process_as[0] == '\0')
            continue;
        /* National Center for Home Food Preservation: a smaller jar takes the
         * time of the next larger tested one, never the reverse */
        ck_assert_int_eq(pottle_jar_find(c, jar[i].process_as, &found, NULL),
                         POTTLE_OK);
        ck_assert_msg(found->nominal_ml > jar[i].nominal_ml, "%s as %s",
                      jar[i].id, found->id);
    }
    const pottle_jar *jar_found = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_jar_find(c, "pinte", &jar_found, &error),
                     POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "nearest: pint") != NULL, "%s",
                  error.what);
    char *far = long_text();
    ck_assert_int_eq(pottle_jar_find(c, far, &jar_found, &error),
                     POTTLE_ENOENT);
    free(far);
    ck_assert_int_eq(pottle_jar_find(NULL, "pint", &jar_found, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_jar_find(c, NULL, &jar_found, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_jar_find(c, "pint", NULL, &error), POTTLE_EMISUSE);
    /* a wide mouth is the wider: USDA Bulletin 539, guide 1, "about 2-3/8 in"
     * and "about 3 in" */
    pottle_length regular = { 0 }, wide = { 0 };
    ck_assert_int_eq(pottle_mouth_diameter(c, false, &regular), POTTLE_OK);
    ck_assert_int_eq(pottle_mouth_diameter(c, true, &wide), POTTLE_OK);
    ck_assert_double_eq_tol(regular.mm, 2.375 * 25.4, 1.0);
    ck_assert_double_eq_tol(wide.mm, 3 * 25.4, 1.0);
    pottle_catalogue_free(c);
}
END_TEST

/* -- Words ----------------------------------------------------------------- */

/* Any int has a word; those of the catalogue's files are the schema's. */
START_TEST(words_are_total)
{
    static const struct {
        const char *(*word)(int);
        int from;
        const char *words[5];
    } all[] = {
        { pottle_standing_name,
          POTTLE_PUBLISHED,
          { "published", "derived", "practice", "memory", NULL } },
        { pottle_state_name,
          POTTLE_PREPARED,
          { "prepared", "purchased", "picked", NULL } },
        { pottle_keep_name,
          POTTLE_FREE,
          { "free", "exact", "at-least", "at-most", NULL } },
        { pottle_method_name,
          POTTLE_BOILING_WATER,
          { "boiling-water", "dial-gauge", "weighted-gauge", NULL } },
    };
    for (size_t i = 0; i < COUNT(all); i++) {
        int n = 0;
        for (; all[i].words[n] != NULL; n++)
            ck_assert_str_eq(all[i].word(all[i].from + n), all[i].words[n]);
        ck_assert_str_eq(all[i].word(all[i].from + n), "unknown");
        ck_assert_str_eq(all[i].word(-1), "unknown");
        ck_assert_str_eq(all[i].word(1000), "unknown");
    }
    pottle_method method = POTTLE_DIAL_GAUGE;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_method_find("oven", &method, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(method, POTTLE_DIAL_GAUGE);
    ck_assert_msg(
        strstr(error.what, "boiling-water, dial-gauge, weighted-gauge") != NULL,
        "%s", error.what);
    ck_assert_int_eq(pottle_method_find("Boiling Water", &method, &error),
                     POTTLE_OK);
    ck_assert_int_eq(method, POTTLE_BOILING_WATER);
    ck_assert_int_eq(pottle_method_find(NULL, &method, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_method_find("dial-gauge", NULL, &error),
                     POTTLE_EMISUSE);
}
END_TEST

/* ------------------------------------------------------------------------- */

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
    tcase_add_loop_test(t, names_find, 0, (int)COUNT(names));
    tcase_add_loop_test(t, names_miss, 0, (int)COUNT(misses));
    tcase_add_test(t, names_of_any_length);
    tcase_add_test(t, names_all_lead_back);
    tcase_add_loop_test(t, food_by_no_id, 0, (int)COUNT(tricks));
    tcase_add_loop_test(t, recipe_by_no_id, 0, (int)COUNT(tricks));
    tcase_add_test(t, form_said);
    tcase_add_test(t, food_read);
    tcase_add_test(t, recipe_read);
    tcase_add_test(t, recipe_out_of_place);
    tcase_add_test(t, own_recipes);
    tcase_add_test(t, own_recipe_under_an_alias);
    tcase_add_test(t, walk_goes_on);
    tcase_add_loop_test(t, jar_by_name, 0, (int)COUNT(jars));
    tcase_add_loop_test(t, jar_by_no_name, 0, (int)COUNT(no_jars));
    tcase_add_test(t, jars_in_order);
    tcase_add_test(t, words_are_total);
    suite_add_tcase(suite, t);
    const int result = suite_run(suite);
    remove_work();
    return result;
}
