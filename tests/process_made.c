/* process_made.c - the look-up of a process in tables that no publication has:
 * invented ones, for what the shipped catalogue happens not to hold. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "catalogue/model.h"
#include "process_cases.h"

static const pottle_jar jars[] = {
    { .id = "small", .nominal_ml = 200 },
    { .id = "middle", .nominal_ml = 400 },
    { .id = "large", .nominal_ml = 800 },
    { .id = "huge", .nominal_ml = 1600 },
};
static const pottle_rule no_process[] = {
    { .id = "altitude-band",
      .text = "bands",
      .instead = "go down",
      .cite = { .source = "invented", .at = "page 1" } },
};
static const pottle_catalogue invented = {
    .jar_count = 4, .jar = jars, .rule_count = 1, .rule = no_process
};

static const char *const small[] = { "small" }, *const middle[] = { "middle" },
                         *const large[] = { "large" },
                         *const unknown_first[] = { "gone", "middle" },
                         *const falling[] = { "large", "middle" },
                         *const rising[] = { "middle", "large" };

#define LOW(minutes_, psi_)                                                    \
    {                                                                          \
        0, 1000, minutes_, psi_                                                \
    }
static const pottle_band ten[] = { LOW(10, 0) }, twenty[] = { LOW(20, 0) },
                         psi_5[] = { LOW(10, 5) }, psi_15[] = { LOW(10, 15) },
                         up_to_3000[] = { { 0, 3000, 10, 0 } },
                         endless[] = { { 0, 1000, 10, 0 },
                                       { 1001, -1, 15, 0 } };

/* One table: method, pack, jars, band. */
#define TABLE(method_, raw_, jar_, band_)                                      \
    {                                                                          \
        .method = (method_), .raw = (raw_),                                    \
        .jars = sizeof(jar_) / sizeof((jar_)[0]), .jar = (jar_),               \
        .headspace_in = 0.5, .bands = sizeof(band_) / sizeof((band_)[0]),      \
        .band = (band_)                                                        \
    }
#define BW POTTLE_BOILING_WATER
#define DIAL POTTLE_DIAL_GAUGE

static pottle_recipe
recipe_with(const pottle_process_table *table, size_t count)
{
    return (pottle_recipe){ .id = "invented",
                            .status = POTTLE_TESTED,
                            .process = table,
                            .process_count = count };
}

static pottle_status
look_up(const pottle_recipe *recipe, size_t jar, double feet,
        pottle_process *out, size_t *n, pottle_error *error)
{
    return pottle_process_find(&invented, recipe, &jars[jar], NULL,
                               POTTLE_ANY_PACK, feet * 0.3048, out, n, error);
}

/* The order that the header states: method, hot before raw, minutes, pressure,
 * then that of the file; from every order of the file. */
START_TEST(order_is_that_of_the_header)
{
    static const pottle_process_table sorted[] = {
        TABLE(BW, false, small, ten),      TABLE(BW, false, small, twenty),
        TABLE(BW, true, small, ten),       TABLE(DIAL, false, small, psi_5),
        TABLE(DIAL, false, small, psi_15), TABLE(DIAL, true, small, psi_5),
    };
    enum { N = sizeof sorted / sizeof sorted[0] };
    pottle_process_table mixed[N];
    for (size_t i = 0; i < N; i++) /* 5 and 6 have no common factor */
        mixed[i] = sorted[(i * 5 + (size_t)_i) % N];
    const pottle_recipe recipe = recipe_with(mixed, N);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t n = 0;
    ck_assert_int_eq(look_up(&recipe, 0, 0, out, &n, NULL), POTTLE_OK);
    ck_assert_uint_eq(n, N);
    for (size_t i = 0; i < N; i++)
        ck_assert_msg(out[i].table->method == sorted[i].method &&
                          out[i].table->raw == sorted[i].raw &&
                          out[i].band == sorted[i].band,
                      "place %zu", i);
}
END_TEST

START_TEST(equals_stay_as_in_the_file)
{
    static const pottle_process_table same[] = { TABLE(BW, false, small, ten),
                                                 TABLE(BW, false, small, ten),
                                                 TABLE(BW, false, small, ten) };
    const pottle_recipe recipe = recipe_with(same, 3);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t n = 0;
    ck_assert_int_eq(look_up(&recipe, 0, 0, out, &n, NULL), POTTLE_OK);
    ck_assert_uint_eq(n, 3);
    for (size_t i = 0; i < n; i++)
        ck_assert_ptr_eq(out[i].table, &same[i]);
}
END_TEST

/* No more than there is room for. */
START_TEST(room_is_kept)
{
    pottle_process_table many[POTTLE_PROCESS_MAX + 2];
    for (size_t i = 0; i < POTTLE_PROCESS_MAX + 2; i++)
        many[i] = (pottle_process_table)TABLE(BW, false, small, ten);
    const pottle_recipe recipe = recipe_with(many, POTTLE_PROCESS_MAX + 2);
    pottle_process out[POTTLE_PROCESS_MAX + 1];
    memset(out, 0x5A, sizeof out);
    const pottle_process before = out[POTTLE_PROCESS_MAX];
    size_t n = 0;
    ck_assert_int_eq(look_up(&recipe, 0, 0, out, &n, NULL), POTTLE_OK);
    ck_assert_uint_eq(n, POTTLE_PROCESS_MAX);
    ck_assert_int_eq(memcmp(&out[POTTLE_PROCESS_MAX], &before, sizeof before),
                     0);
}
END_TEST

/* A jar that the catalogue does not know is no tested size; of those it knows
 * the smallest that is not smaller counts, in whatever order they stand. */
START_TEST(smallest_that_is_not_smaller)
{
    static const pottle_process_table tables[] = {
        TABLE(BW, false, unknown_first, ten), TABLE(BW, false, falling, ten),
        TABLE(BW, false, rising, ten)
    };
    for (size_t i = 0; i < 3; i++) {
        const pottle_recipe recipe = recipe_with(&tables[i], 1);
        pottle_process out[POTTLE_PROCESS_MAX];
        size_t n = 0;
        for (size_t jar = 0; jar < 2; jar++) {
            ck_assert_int_eq(look_up(&recipe, jar, 0, out, &n, NULL),
                             POTTLE_OK);
            ck_assert_uint_eq(n, 1);
            ck_assert_ptr_eq(out[0].tested_as, &jars[1]);
            ck_assert_ptr_eq(out[0].jar, &jars[jar]);
        }
    }
    const pottle_recipe recipe = recipe_with(tables, 1);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t n = 77;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(look_up(&recipe, 2, 0, out, &n, &error), POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "jar-larger");
    ck_assert_ptr_nonnull(strstr(error.what, "up to middle; large is larger"));
    ck_assert_uint_eq(n, 77);
    /* the largest of all is told, wherever it stands */
    const pottle_process_table last = TABLE(BW, false, small, ten);
    const pottle_process_table both[] = { tables[0], last };
    const pottle_recipe two = recipe_with(both, 2);
    ck_assert_int_eq(look_up(&two, 2, 0, out, &n, &error), POTTLE_EBOUNDS);
    ck_assert_ptr_nonnull(strstr(error.what, "up to middle; large is larger"));
    for (size_t i = 1; i < 3; i++) { /* in a table too */
        const pottle_recipe one = recipe_with(&tables[i], 1);
        ck_assert_int_eq(look_up(&one, 3, 0, out, &n, &error), POTTLE_EBOUNDS);
        ck_assert_ptr_nonnull(
            strstr(error.what, "up to large; huge is larger"));
    }
}
END_TEST

/* Of two tables for one method and pack the nearer size's is taken, in both
 * orders; a table of another pack or method does not come between. */
START_TEST(nearest_table_of_its_own_kind)
{
    const pottle_process_table quart = TABLE(BW, false, large, twenty),
                               pint = TABLE(BW, false, middle, ten),
                               raw = TABLE(BW, true, large, twenty),
                               dial = TABLE(DIAL, false, large, psi_5);
    for (int order = 0; order < 2; order++) {
        const pottle_process_table list[] = { order ? pint : quart,
                                              order ? quart : pint, raw, dial };
        const pottle_recipe recipe = recipe_with(list, 4);
        pottle_process out[POTTLE_PROCESS_MAX];
        size_t n = 0;
        ck_assert_int_eq(look_up(&recipe, 0, 0, out, &n, NULL), POTTLE_OK);
        ck_assert_uint_eq(n, 3);
        ck_assert(out[0].band == ten && out[0].tested_as == &jars[1]);
        ck_assert(out[1].table->raw && out[1].tested_as == &jars[2]);
        ck_assert(out[2].table->method == POTTLE_DIAL_GAUGE &&
                  out[2].tested_as == &jars[2]);
    }
}
END_TEST

/* Above all bands: the highest top is told, in feet that are not below what was
 * asked; a band without a top has no end. */
START_TEST(bands_end_where_they_say)
{
    const pottle_process_table low = TABLE(BW, false, small, ten),
                               high = TABLE(BW, true, small, up_to_3000),
                               open = TABLE(BW, false, small, endless);
    for (int order = 0; order < 2; order++) {
        const pottle_process_table list[] = { order ? high : low,
                                              order ? low : high };
        const pottle_recipe recipe = recipe_with(list, 2);
        pottle_process out[POTTLE_PROCESS_MAX];
        size_t n = 77;
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(look_up(&recipe, 0, 3000, out, &n, &error), POTTLE_OK);
        ck_assert_uint_eq(n, 1);
        n = 77;
        ck_assert_int_eq(look_up(&recipe, 0, 3000.01, out, &n, &error),
                         POTTLE_EBOUNDS);
        ck_assert_str_eq(error.what, "the tested processes of invented end at "
                                     "3000 ft; 3001 ft is above");
        ck_assert_str_eq(error.source, "invented");
        ck_assert_str_eq(error.at, "page 1");
        ck_assert_str_eq(error.instead, "go down");
        ck_assert_uint_eq(n, 77);
        ck_assert_int_eq(look_up(&recipe, 0, 3000.01, out, &n, NULL),
                         POTTLE_EBOUNDS);
    }
    const pottle_recipe recipe = recipe_with(&open, 1);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t n = 0;
    ck_assert_int_eq(look_up(&recipe, 0, 1000.01, out, &n, NULL), POTTLE_OK);
    ck_assert_int_eq(out[0].band->minutes, 15);
    ck_assert_int_eq(pottle_process_find(&invented, &recipe, &jars[0], NULL,
                                         POTTLE_ANY_PACK, 4500, out, &n, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_process_find(&invented, &recipe, &jars[0], NULL,
                                         POTTLE_ANY_PACK, 4500.5, out, &n,
                                         NULL),
                     POTTLE_EDOMAIN);
    /* 25.4 mm an inch */
    ck_assert_double_eq_tol(out[0].headspace.mm, 12.7, 1e-9);
}
END_TEST

/* Feet that come back from metres a hair larger stay in the band that ends with
 * them; a thousandth of an inch more does not. */
START_TEST(feet_come_back_from_metres)
{
    int larger = 0;
    for (int ft = 1; ft <= 10000; ft++) {
        const double m = ft * 0.3048;
        const pottle_band band[] = { { 0, ft, 10, 0 } };
        const pottle_process_table table = TABLE(BW, false, small, band);
        const pottle_recipe recipe = recipe_with(&table, 1);
        pottle_process out[POTTLE_PROCESS_MAX];
        size_t n = 0;
        larger += m / 0.3048 > ft;
        ck_assert_msg(look_up(&recipe, 0, ft, out, &n, NULL) == POTTLE_OK,
                      "%d ft", ft);
        ck_assert_msg(look_up(&recipe, 0, ft + 0.001 / 12, out, &n, NULL) ==
                          POTTLE_EBOUNDS,
                      "%d ft and a hair", ft);
    }
    ck_assert_int_gt(larger, 0);
}
END_TEST

/* A refusal without a rule to name: the catalogue has none of these. */
START_TEST(refused_without_a_rule)
{
    const pottle_process_table hot = TABLE(BW, false, small, ten), lost = {
        .method = BW, .jars = 1, .jar = unknown_first, .bands = 1, .band = ten
    };
    const pottle_method dial = POTTLE_DIAL_GAUGE;
    const pottle_recipe none = recipe_with(NULL, 0), one = recipe_with(&hot, 1),
                        gone = recipe_with(&lost, 1);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t n = 77;
    const struct {
        const pottle_recipe *recipe;
        const pottle_method *method;
        pottle_pack_style pack;
        const char *code, *what;
    } refused[] = {
        { &none, NULL, POTTLE_ANY_PACK, "not-canned",
          "invented has no canning process in its source" },
        { &one, &dial, POTTLE_ANY_PACK, "no-process-method",
          "no tested dial-gauge process is published for invented" },
        { &one, NULL, POTTLE_RAW_PACK, "no-process-pack",
          "no tested raw-pack process is published for invented" },
        { &gone, NULL, POTTLE_ANY_PACK, "jar-larger",
          "invented is tested in jars up to none; small is larger, and there "
          "is no process for it" },
    };
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(pottle_process_find(&invented, refused[i].recipe,
                                             &jars[0], refused[i].method,
                                             refused[i].pack, 0, out, &n,
                                             &error),
                         POTTLE_EBOUNDS);
        ck_assert_str_eq(error.code, refused[i].code);
        ck_assert_str_eq(error.what, refused[i].what);
        ck_assert_str_eq(error.source, "");
        ck_assert_str_eq(error.instead, "");
        ck_assert_uint_eq(n, 77);
    }
}
END_TEST

/* Whether there is any process, of a jar that is named or of one that is
 * listed; a jar that the catalogue does not know is none. */
START_TEST(exists_for_some_jar)
{
    static const char *const gone[] = { "gone" };
    static const pottle_process_table listed[] = {
        TABLE(BW, false, unknown_first, up_to_3000),
        TABLE(DIAL, true, large, psi_5),
    };
    static const pottle_process_table unlisted[] = {
        TABLE(BW, false, gone, ten),
    };
    pottle_recipe recipe = recipe_with(listed, 2);
    const double low = 0, high = 2000 * 0.3048, above = 3001 * 0.3048,
                 below = -1;
    const struct {
        const pottle_jar *jar;
        pottle_pack_style pack;
        const double *altitude;
        pottle_status status;
    } rows[] = {
        { NULL, POTTLE_ANY_PACK, NULL, POTTLE_OK },
        { NULL, POTTLE_ANY_PACK, &high, POTTLE_OK },
        { NULL, POTTLE_ANY_PACK, &above, POTTLE_EBOUNDS },
        { NULL, POTTLE_ANY_PACK, &below, POTTLE_EDOMAIN },
        { NULL, POTTLE_RAW_PACK, &low, POTTLE_OK },
        { NULL, POTTLE_RAW_PACK, &high, POTTLE_EBOUNDS },
        { &jars[0], POTTLE_ANY_PACK, NULL, POTTLE_OK },
        { &jars[2], POTTLE_HOT_PACK, NULL, POTTLE_EBOUNDS },
        { &jars[3], POTTLE_ANY_PACK, NULL, POTTLE_EBOUNDS },
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_msg(pottle_process_exists(&invented, &recipe, rows[i].jar,
                                            rows[i].pack, rows[i].altitude,
                                            NULL) == rows[i].status,
                      "row %zu", i);
    pottle_error error = { .status = POTTLE_OK };
    recipe = recipe_with(unlisted, 1);
    ck_assert_int_eq(pottle_process_exists(&invented, &recipe, NULL,
                                           POTTLE_ANY_PACK, NULL, &error),
                     POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "jars");
    recipe = recipe_with(NULL, 0);
    ck_assert_int_eq(pottle_process_exists(&invented, &recipe, NULL,
                                           POTTLE_ANY_PACK, NULL, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "not-canned");
    recipe.status = POTTLE_OWN;
    ck_assert_int_eq(pottle_process_exists(&invented, &recipe, NULL,
                                           POTTLE_ANY_PACK, NULL, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "own-recipe");
    ck_assert_int_eq(pottle_process_exists(NULL, &recipe, NULL, POTTLE_ANY_PACK,
                                           NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_exists(&invented, NULL, NULL,
                                           POTTLE_ANY_PACK, NULL, &error),
                     POTTLE_EMISUSE);
}
END_TEST

TCase *
process_made(void)
{
    TCase *t = tcase_create("invented tables");
    tcase_add_loop_test(t, order_is_that_of_the_header, 0, 6);
    tcase_add_test(t, exists_for_some_jar);
    tcase_add_test(t, equals_stay_as_in_the_file);
    tcase_add_test(t, room_is_kept);
    tcase_add_test(t, smallest_that_is_not_smaller);
    tcase_add_test(t, nearest_table_of_its_own_kind);
    tcase_add_test(t, bands_end_where_they_say);
    tcase_add_test(t, feet_come_back_from_metres);
    tcase_add_test(t, refused_without_a_rule);
    return t;
}
