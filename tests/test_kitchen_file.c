/* test_kitchen_file.c - what may stand in a kitchen file, and what a person
 * types for it.
 *
 * The files of tests/data/kitchen are all run; the comment of a bad one says
 * the code it is refused with. */
#include <config.h>

#include <libxml/parser.h>
#include <libxml/relaxng.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen_file_cases.h"
#include "suite.h"

const char work_folder[] = WORK;
static char good[PATHS][PATH_SIZE], bad[PATHS][PATH_SIZE];
static int goods, bads;

/* -- Stored files ---------------------------------------------------------- */

static const char alone[] = ", by the reader alone";

static bool
expected_code(const char *path, char *code, size_t size)
{
    const char *text = text_of(path, 0), *line = strstr(text, "\n<!-- code: ");
    ck_assert_msg(line != NULL, "%s does not say its code in the second line",
                  path);
    line += strlen("\n<!-- code: ");
    const char *end = strstr(line, " - ");
    ck_assert_ptr_nonnull(end);
    snprintf(code, size, "%.*s", (int)(end - line), line);
    char *by = strstr(code, alone);
    if (by != NULL)
        *by = '\0';
    return by != NULL;
}

static void
quiet(void *context, const char *message, ...)
{
    (void)context;
    (void)message;
}

/* Whether the schema takes a file; what is not XML it does not take. */
static bool
schema_takes(const char *path)
{
    xmlInitParser();
    xmlSetGenericErrorFunc(NULL, quiet);
    xmlRelaxNGParserCtxt *parser =
        xmlRelaxNGNewParserCtxt(source_path("recipes/schema/kitchen.rng"));
    xmlRelaxNG *schema = xmlRelaxNGParse(parser);
    ck_assert_ptr_nonnull(schema);
    xmlRelaxNGFreeParserCtxt(parser);
    xmlDoc *doc = xmlReadFile(
        path, NULL, XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
    bool takes = false;
    if (doc != NULL) {
        xmlRelaxNGValidCtxt *valid = xmlRelaxNGNewValidCtxt(schema);
        xmlRelaxNGSetValidErrors(valid, quiet, quiet, NULL);
        takes = xmlRelaxNGValidateDoc(valid, doc) == 0;
        xmlRelaxNGFreeValidCtxt(valid);
        xmlFreeDoc(doc);
    }
    xmlRelaxNGFree(schema);
    return takes;
}

START_TEST(bad_file_is_refused)
{
    char code[60];
    const char *path = bad[_i];
    const bool by_reader = expected_code(path, code, sizeof code);
    pottle_kitchen k, kept;
    pottle_error error = { .status = POTTLE_OK };
    memset(&k, 0x5A, sizeof k);
    kept = k;
    const pottle_status status =
        pottle_kitchen_read(catalogue, path, &k, &error);
    ck_assert_msg(status == POTTLE_EDATA,
                  "%s: expected POTTLE_EDATA (%s), found %d", path, code,
                  (int)status);
    ck_assert_msg(strcmp(error.code, code) == 0,
                  "%s: expected %s, found %s: %s", path, code, error.code,
                  error.what);
    ck_assert_int_eq(error.status, POTTLE_EDATA);
    ck_assert_msg(error.where[0] != '\0' && error.what[0] != '\0' &&
                      (error.line > 2 || strcmp(code, "encoding") == 0 ||
                       strcmp(code, "dtd") == 0),
                  "%s: %ld: %s", error.where, error.line, error.what);
    ck_assert_mem_eq(&k, &kept, sizeof k);
    /* the same without a place for the words */
    ck_assert_int_eq(pottle_kitchen_read(catalogue, path, &k, NULL),
                     POTTLE_EDATA);
    if (strcmp(code, "dtd") !=
        0) /* the schema has nothing to say of what stands before the root */
        ck_assert_msg(schema_takes(path) == by_reader, "%s: the schema %s",
                      path, by_reader ? "refuses it too" : "takes it");
}
END_TEST

START_TEST(good_file_comes_back)
{
    ck_assert_msg(schema_takes(good[_i]), "the schema refuses %s", good[_i]);
    const pottle_kitchen k = read_kitchen(good[_i]);
    write_kitchen(&k, HERE);
    ck_assert_msg(schema_takes(HERE),
                  "the schema refuses what was written of %s", good[_i]);
    const pottle_kitchen again = read_kitchen(HERE);
    ck_assert_msg(same_kitchen(&k, &again), "%s is not what it was", good[_i]);
    write_kitchen(&again, WORK "/again.xml");
    ck_assert_str_eq(text_of(HERE, 0), text_of(WORK "/again.xml", 1));
    /* without the sizes of jar it is the same file */
    pottle_kitchen plain;
    ck_assert_int_eq(pottle_kitchen_read(NULL, good[_i], &plain, NULL),
                     POTTLE_OK);
    ck_assert(same_kitchen(&k, &plain));
}
END_TEST

/* Each value as it stands in kitchen-hill-village.xml, read by eye. */
START_TEST(every_value_is_read)
{
    const pottle_kitchen k = read_kitchen(
        source_path("tests/data/kitchen/good/kitchen-hill-village.xml"));
    ck_assert(is(k.altitude, 6200, "ft"));
    ck_assert_int_eq(k.cup, POTTLE_CUP_METRIC);
    ck_assert(is(k.scale, 0.5, "percent"));
    ck_assert(!k.thermometer.high && is(k.thermometer.by, 1, "degf"));
    ck_assert_uint_eq(k.canners, 2);
    const pottle_kitchen_canner *big = pottle_kitchen_canner_find(&k, "Big"),
                                *kettle =
                                    pottle_kitchen_canner_find(&k, "kettle");
    ck_assert(big != NULL && kettle != NULL);
    ck_assert_str_eq(big->title, "the \"big\" one & its weights");
    ck_assert(big->method == POTTLE_DIAL_GAUGE && big->gauge.high &&
              is(big->gauge.by, 1.5, "psi"));
    ck_assert_uint_eq(big->holds, 2);
    ck_assert(strcmp(big->hold[0].jar, "quart") == 0 &&
              big->hold[0].count == 7);
    ck_assert(strcmp(big->hold[1].jar, "pint") == 0 &&
              big->hold[1].count == 18);
    ck_assert(kettle->method == POTTLE_BOILING_WATER && kettle->holds == 0 &&
              kettle->gauge.by.unit == NULL);
    const pottle_kitchen_pot *pan = pottle_kitchen_pot_find(&k, "jam pan");
    ck_assert_ptr_nonnull(pan);
    ck_assert_str_eq(pan->title, "K\xC3\xBC"
                                 "che <1920>");
    ck_assert(is(pan->tare, 2.1, "kg") && is(pan->width, 26, "cm"));
    ck_assert_uint_eq(k.shelves, 2);
    ck_assert(strcmp(k.shelf[0].jar, "half-pint") == 0 &&
              k.shelf[0].count == 24);
    ck_assert(strcmp(k.shelf[1].jar, "quart") == 0 && k.shelf[1].count == 14);
    ck_assert_uint_eq(k.own_jars, 1);
    const pottle_own_jar *tall = pottle_own_jar_find(&k, "Tall honey jar");
    ck_assert_ptr_nonnull(tall);
    ck_assert(strcmp(tall->near, "pint") == 0 && tall->count == 6);
    ck_assert(is(tall->empty, 452, "g") && is(tall->full, 934, "g") &&
              is(tall->to_mark, 880, "g") && is(tall->mark, 13, "mm"));
    ck_assert(is(tall->mouth, 60, "mm") && is(tall->water, 68, "degf") &&
              is(tall->scale, 1, "g"));
    ck_assert_ptr_null(pottle_own_jar_find(&k, "short honey jar"));
    ck_assert_ptr_null(pottle_kitchen_pot_find(&k, "<>"));
    ck_assert_ptr_null(pottle_kitchen_canner_find(&k, NULL));
}
END_TEST

START_TEST(what_a_misreading_is_in_base_units)
{
    /* 1 psi = 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)^2 = 6894.757 Pa; 1 degF
     * = 5/9 K, without the 32 */
    const pottle_misreading high = { true, q(1, "psi") },
                            low = { false, q(1.8, "degf") },
                            none = { true, { 0, 0, NULL } };
    ck_assert_double_eq_tol(pottle_misreading_base(high), 6894.757, 0.001);
    ck_assert_double_eq_tol(pottle_misreading_base(low), -1.0, 1e-12);
    ck_assert_double_eq_tol(pottle_misreading_base(none), 0, 1e-300);
}
END_TEST

/* -- What is written ------------------------------------------------------- */

START_TEST(text_is_as_the_schema_has_it)
{
    const pottle_kitchen k = small_kitchen();
    write_kitchen(&k, HERE);
    ck_assert_str_eq(text_of(HERE, 0), small_text);
    ck_assert_int_eq(names_in_work(), 1);
}
END_TEST

/* Every kind of character in a title. */
START_TEST(title_is_escaped)
{
    static const char *const titles[] = {
        "a",
        "&amp;",
        "&#38;",
        "&#38;#38;",
        "]]>",
        "<!-- -->",
        "<?pi?>",
        "a  b",
        " led by a blank",
        "\"\"''",
        "&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&&"
        "&&&&&&&&&",
        "\xE2\x82\xAC \xF0\x9F\xAB\x99",
        ("K\xC3\xBC"
         "che"),
        "%s%n%d",
        "\xEF\xBF\xBD",
    };
    for (int i = 0; i < COUNT(titles); i++) {
        pottle_kitchen k = small_kitchen();
        strcpy(k.pot[0].title, titles[i]);
        write_kitchen(&k, HERE);
        ck_assert_msg(schema_takes(HERE), "the schema refuses the title '%s'",
                      titles[i]);
        const pottle_kitchen again = read_kitchen(HERE);
        ck_assert_str_eq(again.pot[0].title, titles[i]);
    }
}
END_TEST

/* A fuller kitchen than anyone has fits. */
START_TEST(the_fullest_kitchen_fits)
{
    pottle_kitchen k;
    memset(&k, 0, sizeof k);
    k.canners = POTTLE_KITCHEN_CANNERS;
    k.pots = POTTLE_KITCHEN_POTS;
    k.shelves = POTTLE_KITCHEN_SHELF;
    k.own_jars = POTTLE_KITCHEN_OWN;
    for (size_t i = 0; i < k.own_jars; i++) {
        char id[64];
        snprintf(id, sizeof id, "%02zu-%.*s", i, 60,
                 "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
                 "aaaaaaa");
        char title[80];
        memset(title, '"', sizeof title - 1);
        title[sizeof title - 1] = '\0';
        if (i < k.canners) {
            pottle_kitchen_canner *c = &k.canner[i];
            strcpy(c->id, id);
            strcpy(c->title, title);
            c->method = POTTLE_DIAL_GAUGE;
            c->gauge = (pottle_misreading){ true, q(1.23456789, "psi") };
            c->holds = POTTLE_KITCHEN_HOLDS;
            for (size_t h = 0; h < c->holds; h++)
                c->hold[h] =
                    (pottle_kitchen_hold){ .count = POTTLE_KITCHEN_COUNT_MAX };
            for (size_t h = 0; h < c->holds; h++)
                snprintf(c->hold[h].jar, sizeof c->hold[h].jar, "%02u-%.59s",
                         (unsigned)h % 100, id + 3);
        }
        if (i < k.pots) {
            strcpy(k.pot[i].id, id);
            strcpy(k.pot[i].title, title);
            k.pot[i].tare = q(1234.56789012, "g");
            k.pot[i].width = q(123.456789012, "mm");
        }
        if (i < k.shelves) {
            strcpy(k.shelf[i].jar, id);
            k.shelf[i].count = POTTLE_KITCHEN_COUNT_MAX;
        }
        pottle_own_jar *o = &k.own[i];
        strcpy(o->id, id);
        strcpy(o->title, title);
        strcpy(o->near, id);
        o->count = POTTLE_KITCHEN_COUNT_MAX;
        o->empty = q(1234.56789012, "g");
        o->full = q(2234.56789012, "g");
        o->to_mark = q(2200.12345678, "g");
        o->mark = q(12.3456789, "mm");
        o->mouth = q(60.12345678, "mm");
        o->water = q(20.12345678, "degc");
        o->scale = q(0.12345678, "percent");
    }
    write_kitchen(&k, HERE);
    pottle_kitchen again;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_kitchen_read(NULL, HERE, &again, &error) == POTTLE_OK,
                  "%ld: %s", error.line, error.what);
    ck_assert(same_kitchen(&k, &again));
    /* the catalogue knows none of these sizes */
    ck_assert_int_eq(pottle_kitchen_read(catalogue, HERE, &again, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "unknown-jar");
    /* and one more of each is refused */
    pottle_kitchen_canner canner = k.canner[0];
    pottle_kitchen_pot pot = k.pot[0];
    pottle_own_jar own = k.own[0];
    strcpy(canner.id, "zz");
    strcpy(pot.id, "zz");
    strcpy(own.id, "zz");
    const pottle_kitchen kept = k;
    ck_assert_int_eq(pottle_kitchen_put_canner(&k, &canner, &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "too-many");
    ck_assert_int_eq(pottle_kitchen_put_pot(&k, &pot, &error), POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &own, &error), POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "zz", 1, &error),
                     POTTLE_EDOMAIN);
    ck_assert(same_kitchen(&k, &kept));
    /* but one of a name that is there takes its place */
    strcpy(pot.id, k.pot[3].id);
    ck_assert_int_eq(pottle_kitchen_put_pot(&k, &pot, &error), POTTLE_OK);
    ck_assert_uint_eq(k.pots, POTTLE_KITCHEN_POTS);
}
END_TEST

/* -- Random kitchens and random damage ------------------------------------- */

static unsigned
roll(unsigned *seed, unsigned below)
{
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 8) % below;
}

static pottle_quantity
any(unsigned *seed, double low, double high, const char *unit)
{
    /* what eight decimals can hold */
    const double x = low + (high - low) * (double)roll(seed, 100000) / 100000;
    return roll(seed, 4) == 0 ? (pottle_quantity){ 0, 0, NULL }
                              : q(floor(x * 1e6) / 1e6, unit);
}

START_TEST(random_kitchen_comes_back)
{
    static const char *const ids[] = { "pint", "quart", "half-pint", "250-ml",
                                       "1-l" };
    unsigned seed = (unsigned)_i * 7919u + 1;
    pottle_kitchen k;
    memset(&k, 0, sizeof k);
    k.altitude = any(&seed, 0, 4500, "m");
    k.cup = (pottle_cup)roll(&seed, 4);
    k.scale = any(&seed, 0.01, 20, "percent");
    k.thermometer =
        (pottle_misreading){ roll(&seed, 2) == 0, any(&seed, 0, 20, "degc") };
    for (unsigned i = roll(&seed, 5); i > 0; i--) {
        ck_assert_int_eq(pottle_kitchen_put_jars(&k, ids[i - 1],
                                                 1 + roll(&seed, 1000), NULL),
                         POTTLE_OK);
        pottle_kitchen_canner canner;
        memset(&canner, 0, sizeof canner);
        snprintf(canner.id, sizeof canner.id, "canner-%u", roll(&seed, 1000));
        snprintf(canner.title, sizeof canner.title, "%c<%c&\"",
                 (char)(' ' + roll(&seed, 95)), (char)(' ' + roll(&seed, 95)));
        canner.method = (pottle_method)roll(&seed, 3);
        if (canner.method == POTTLE_DIAL_GAUGE)
            canner.gauge = (pottle_misreading){ roll(&seed, 2) == 0,
                                                any(&seed, 0, 15, "psi") };
        for (; canner.holds < roll(&seed, 6) && canner.holds < 5;
             canner.holds++) {
            strcpy(canner.hold[canner.holds].jar, ids[canner.holds]);
            canner.hold[canner.holds].count = 1 + roll(&seed, 20);
        }
        ck_assert_int_eq(pottle_kitchen_put_canner(&k, &canner, NULL),
                         POTTLE_OK);
        pottle_own_jar own;
        memset(&own, 0, sizeof own);
        snprintf(own.id, sizeof own.id, "jar-%u", roll(&seed, 1000));
        own.empty = q(100 + roll(&seed, 500), "g");
        own.full = q(own.empty.low + 100 + roll(&seed, 1000), "g");
        own.count = roll(&seed, 50);
        own.mouth = any(&seed, 40, 100, "mm");
        own.water = any(&seed, 0, 40, "degc");
        own.scale = any(&seed, 0.1, 5, "g");
        ck_assert_int_eq(pottle_kitchen_put_own(&k, &own, NULL), POTTLE_OK);
    }
    write_kitchen(&k, HERE);
    const pottle_kitchen again = read_kitchen(HERE);
    ck_assert_msg(same_kitchen(&k, &again), "seed %d", _i);
    ck_assert(schema_takes(HERE));
}
END_TEST

/* Bytes changed, taken out and doubled: it is refused, or what was read can be
 * written and read again. */
START_TEST(damaged_file_does_no_harm)
{
    unsigned seed = (unsigned)_i * 104729u + 3;
    static char text[TEXT_SIZE];
    snprintf(
        text, sizeof text, "%s",
        text_of(source_path("tests/data/kitchen/good/kitchen-hill-village.xml"),
                0));
    size_t n = strlen(text);
    for (unsigned i = 1 + roll(&seed, 4); i > 0; i--) {
        const size_t at = roll(&seed, (unsigned)n), k = 1 + roll(&seed, 30);
        switch (roll(&seed, 4)) {
        case 0: text[at] = (char)roll(&seed, 256); break;
        case 1: text[at] = "<>\"&0 ="[roll(&seed, 7)]; break;
        case 2:
            if (at + k < n) {
                memmove(text + at, text + at + k, n - at - k);
                n -= k;
            }
            break;
        default:
            if (at + k < n) {
                memmove(text + at + k, text + at, n - at);
                n += k;
            }
        }
    }
    write_text(HERE, text, n);
    pottle_kitchen k;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_kitchen_read(catalogue, HERE, &k, &error);
    if (status != POTTLE_OK) {
        ck_assert_msg(status == POTTLE_EDATA && error.code[0] != '\0' &&
                          error.what[0] != '\0',
                      "seed %d: %d: %s", _i, (int)status, error.what);
        return;
    }
    write_kitchen(&k, WORK "/again.xml");
    const pottle_kitchen again = read_kitchen(WORK "/again.xml");
    ck_assert_msg(same_kitchen(&k, &again), "seed %d", _i);
}
END_TEST

int
main(void)
{
    goods = scan("tests/data/kitchen/good", good);
    bads = scan("tests/data/kitchen/bad", bad);
    if (goods < 3 || bads < 50) {
        fprintf(stderr, "tests/data/kitchen is not there: set srcdir\n");
        return 99;
    }
    Suite *suite = suite_create("kitchen file");
    TCase *t = tcase_create("stored files");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_loop_test(t, bad_file_is_refused, 0, bads);
    tcase_add_loop_test(t, good_file_comes_back, 0, goods);
    tcase_add_test(t, every_value_is_read);
    tcase_add_test(t, what_a_misreading_is_in_base_units);
    suite_add_tcase(suite, t);

    t = tcase_create("text");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, text_is_as_the_schema_has_it);
    tcase_add_test(t, title_is_escaped);
    tcase_add_test(t, the_fullest_kitchen_fits);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, kitchen_file_typed());

    t = tcase_create("random");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_loop_test(t, random_kitchen_comes_back, 0, 60);
    tcase_add_loop_test(t, damaged_file_does_no_harm, 0, 400);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
