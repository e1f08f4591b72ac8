/* test_process.c - the look-up of tested processes: published rows, edges of
 * bands, sizes of jars, refusals. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "process_cases.h"
#include "suite.h"

const double foot_m = 0.3048; /* international yard and pound agreement 1959 */
const double inch_mm = 25.4;

pottle_catalogue *catalogue;

void
open_catalogue(void)
{
    catalogue = kitchen_catalogue(POTTLE_WITH_NAMES | POTTLE_WITH_JARS |
                                  POTTLE_WITH_RULES);
}

void
close_catalogue(void)
{
    pottle_catalogue_free(catalogue);
    catalogue = NULL;
}

pottle_recipe *
recipe_of(const char *id)
{
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(catalogue, id, &recipe, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s:%ld: %s", id, error.where,
                  error.line, error.what);
    return recipe;
}

const pottle_jar *
jar_of(const char *name)
{
    const pottle_jar *jar = NULL;
    ck_assert_msg(pottle_jar_find(catalogue, name, &jar, NULL) == POTTLE_OK,
                  "no jar %s", name);
    return jar;
}

const pottle_method *
method_of(canner c)
{
    static const pottle_method methods[] = { POTTLE_BOILING_WATER,
                                             POTTLE_DIAL_GAUGE,
                                             POTTLE_WEIGHTED_GAUGE };
    return c == ANY ? NULL : &methods[c];
}

/* The outputs before a call that must not touch them. */
void
fill_outputs(pottle_process out[POTTLE_PROCESS_MAX], size_t *count)
{
    memset(out, 0x5A, POTTLE_PROCESS_MAX * sizeof out[0]);
    *count = 4321;
}

bool
untouched(const pottle_process out[POTTLE_PROCESS_MAX], size_t count)
{
    const unsigned char *byte = (const unsigned char *)out;
    for (size_t i = 0; i < POTTLE_PROCESS_MAX * sizeof out[0]; i++)
        if (byte[i] != 0x5A)
            return false;
    return count == 4321;
}

/* -- Sizes of jars --------------------------------------------------------- */

/* A smaller jar takes the next larger size that is tested; the volumes decide,
 * so 250 mL is more than a half-pint (236.6 mL) and 500 mL more than a pint
 * (473.2 mL). tested NULL: refused. Minutes are those printed for the tested
 * size at 0 ft. */
#define SMALLER                                                                \
    "national centre, choice of jar sizes; Kansas State 2019, 2022: 4 oz as "  \
    "half-pint, 12 oz as pint, 24 and 28 oz as quart"
#define LARGER                                                                 \
    "national centre, choice of jar sizes: no process for a jar larger than "  \
    "tested"

static const struct {
    const char *recipe, *jar;
    canner canner;
    pottle_pack_style pack;
    const char *tested;
    int minutes;
    const char *source;
} sizes[] = {
    /* pints are tested, 15 minutes */
    { "chile-salsa", "quarter-pint", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "half-pint", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "250-ml", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "12-oz", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "pint", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "500-ml", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "pint-and-half", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "28-oz", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "quart", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "1-l", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "half-gallon", BW, HOT, NULL, 0, LARGER },
    /* half-pints and pints in one row, 5 minutes */
    { "strawberry-jam-powdered-pectin", "quarter-pint", BW, HOT, "half-pint", 5,
      SMALLER },
    { "strawberry-jam-powdered-pectin", "half-pint", BW, HOT, "half-pint", 5,
      SMALLER },
    { "strawberry-jam-powdered-pectin", "250-ml", BW, HOT, "pint", 5, SMALLER },
    { "strawberry-jam-powdered-pectin", "500-ml", BW, HOT, NULL, 0, LARGER },
    /* half-pints only, 10 minutes */
    { "easy-hot-sauce", "quarter-pint", BW, HOT, "half-pint", 10, SMALLER },
    { "easy-hot-sauce", "250-ml", BW, HOT, NULL, 0, LARGER },
    { "easy-hot-sauce", "12-oz", BW, HOT, NULL, 0, LARGER },
    { "easy-hot-sauce", "pint", BW, HOT, NULL, 0, LARGER },
    /* pints 20, quarts 25 minutes */
    { "peaches", "half-pint", BW, HOT, "pint", 20, SMALLER },
    { "peaches", "12-oz", BW, HOT, "pint", 20, SMALLER },
    { "peaches", "500-ml", BW, HOT, "quart", 25, SMALLER },
    { "peaches", "pint-and-half", BW, HOT, "quart", 25, SMALLER },
    { "peaches", "28-oz", BW, HOT, "quart", 25, SMALLER },
    { "peaches", "1-l", BW, HOT, NULL, 0, LARGER },
    /* half-pints and pints 5, quarts 10 minutes */
    { "apple-butter", "12-oz", BW, HOT, "pint", 5, SMALLER },
    { "apple-butter", "500-ml", BW, HOT, "quart", 10, SMALLER },
    /* half-pints 15, pints 20 minutes */
    { "peach-pineapple-spread", "quarter-pint", BW, HOT, "half-pint", 15,
      SMALLER },
    { "peach-pineapple-spread", "12-oz", BW, HOT, "pint", 20, SMALLER },
    /* pints and quarts 5, half-gallons 10 minutes */
    { "grape-juice", "half-pint", BW, HOT, "pint", 5, SMALLER },
    { "grape-juice", "28-oz", BW, HOT, "quart", 5, SMALLER },
    { "grape-juice", "1-l", BW, HOT, "half-gallon", 10, SMALLER },
    /* quarts only, 90 minutes */
    { "festive-mincemeat-pie-filling", "half-pint", DIAL, HOT, "quart", 90,
      SMALLER },
    { "festive-mincemeat-pie-filling", "pint", WEIGHTED, HOT, "quart", 90,
      SMALLER },
    /* hot: pints only, 5 minutes; raw: pints 10, quarts 15 */
    { "quick-sweet-pickles", "half-pint", BW, HOT, "pint", 5, SMALLER },
    { "quick-sweet-pickles", "quart", BW, HOT, NULL, 0, LARGER },
    { "quick-sweet-pickles", "quart", BW, RAW, "quart", 15, SMALLER },
    { "quick-sweet-pickles", "quart", BW, POTTLE_ANY_PACK, "quart", 15,
      SMALLER },
    /* the one half-gallon of the guide is fruit juice */
    { "tomato-juice", "half-gallon", BW, HOT, NULL, 0,
      "Penn State Extension: half-gallons for apple and grape juice only" },
};

START_TEST(jar_takes_the_next_larger_tested)
{
    pottle_recipe *recipe = recipe_of(sizes[_i].recipe);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of(sizes[_i].jar), method_of(sizes[_i].canner),
        sizes[_i].pack, 0, out, &count, &error);
    if (sizes[_i].tested == NULL) {
        ck_assert_msg(status == POTTLE_EBOUNDS, "%s in %s is not refused (%s)",
                      sizes[_i].recipe, sizes[_i].jar, sizes[_i].source);
        ck_assert_str_eq(error.code, "jar-larger");
        ck_assert(untouched(out, count));
    } else {
        ck_assert_msg(status == POTTLE_OK, "%s in %s: %s (%s)",
                      sizes[_i].recipe, sizes[_i].jar, error.what,
                      sizes[_i].source);
        ck_assert_uint_eq(count, 1);
        ck_assert_str_eq(out[0].jar->id, sizes[_i].jar);
        ck_assert_msg(
            strcmp(out[0].tested_as->id, sizes[_i].tested) == 0 &&
                out[0].band->minutes == sizes[_i].minutes,
            "%s in %s: as %s, %d min; it should be as %s, %d min (%s)",
            sizes[_i].recipe, sizes[_i].jar, out[0].tested_as->id,
            out[0].band->minutes, sizes[_i].tested, sizes[_i].minutes,
            sizes[_i].source);
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Order of alternatives ------------------------------------------------- */

typedef struct choice {
    canner canner;
    bool raw;
    int minutes, psi;
} choice;

static void
check_order(const char *id, const char *jar, canner c, pottle_pack_style pack,
            double altitude_ft, const choice *wanted, size_t n,
            const char *source)
{
    pottle_recipe *recipe = recipe_of(id);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    ck_assert_int_eq(
        pottle_process_find(catalogue, recipe, jar_of(jar), method_of(c), pack,
                            altitude_ft * foot_m, out, &count, NULL),
        POTTLE_OK);
    ck_assert_msg(count == n, "%s at %g ft: %zu processes, %s has %zu", id,
                  altitude_ft, count, source, n);
    for (size_t i = 0; i < n; i++) {
        const pottle_process *p = &out[i];
        ck_assert_msg((int)p->table->method == (int)wanted[i].canner &&
                          p->table->raw == wanted[i].raw &&
                          p->band->minutes == wanted[i].minutes &&
                          p->band->psi == wanted[i].psi,
                      "%s at %g ft, place %zu: %s %s %d min %d psi; it should "
                      "be %s %s %d min %d psi (%s)",
                      id, altitude_ft, i,
                      pottle_method_name((int)p->table->method),
                      p->table->raw ? "raw" : "hot", p->band->minutes,
                      p->band->psi, pottle_method_name((int)wanted[i].canner),
                      wanted[i].raw ? "raw" : "hot", wanted[i].minutes,
                      wanted[i].psi, source);
    }
    pottle_recipe_free(recipe);
}

/* All pairs that the guide prints; by canner, hot before raw, the shortest
 * first. */
/* National Center for Home Food Preservation, Equipment and methods not
 * recommended (USDA Bulletin 539, 2015): open kettle, ovens, microwave ovens,
 * dishwashers; steam canners have directions of their own. */
START_TEST(no_other_way_of_heating)
{
    static const char *const others[] = { "steam",      "Steam canner",
                                          "oven",       "microwave-oven",
                                          "dishwasher", "open kettle" };
    pottle_method method = POTTLE_DIAL_GAUGE;
    pottle_error error;
    for (size_t i = 0; i < COUNT(others); i++) {
        ck_assert_int_eq(
            pottle_canner_method(catalogue, others[i], &method, &error),
            POTTLE_EBOUNDS);
        ck_assert_str_ne(error.source, "");
        ck_assert_str_ne(error.instead, "");
    }
    ck_assert_int_eq(
        pottle_canner_method(catalogue, "bathtub", &method, &error),
        POTTLE_ENOENT);
    ck_assert_int_eq(pottle_canner_method(catalogue, NULL, &method, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(method, POTTLE_DIAL_GAUGE);
    ck_assert_int_eq(
        pottle_canner_method(catalogue, "boiling-water", &method, &error),
        POTTLE_OK);
    ck_assert_int_eq(method, POTTLE_BOILING_WATER);
}
END_TEST

START_TEST(alternatives_are_in_order)
{
    static const choice low[] = {
        { BW, false, 45, 0 },        { DIAL, false, 15, 11 },
        { DIAL, false, 20, 6 },      { WEIGHTED, false, 10, 15 },
        { WEIGHTED, false, 15, 10 }, { WEIGHTED, false, 20, 5 }
    };
    check_order("tomatoes-crushed", "quart", ANY, POTTLE_ANY_PACK, 500, low,
                COUNT(low), G3 "Tomatoes - crushed");
    /* the 15-psi pair of 10 minutes ends at 1,000 ft */
    static const choice middle[] = { { BW, false, 50, 0 },
                                     { DIAL, false, 15, 11 },
                                     { DIAL, false, 20, 6 },
                                     { WEIGHTED, false, 15, 15 },
                                     { WEIGHTED, false, 20, 10 } };
    check_order("tomatoes-crushed", "quart", ANY, POTTLE_ANY_PACK, 2000, middle,
                COUNT(middle), G3 "Tomatoes - crushed");
    /* dial-gauge tables end at 8,000 ft */
    static const choice high[] = { { BW, false, 50, 0 },
                                   { WEIGHTED, false, 15, 15 },
                                   { WEIGHTED, false, 20, 10 } };
    check_order("tomatoes-crushed", "pint", ANY, POTTLE_ANY_PACK, 9000, high,
                COUNT(high), G3 "Tomatoes - crushed");
    static const choice dial[] = { { DIAL, false, 15, 14 },
                                   { DIAL, false, 20, 9 } };
    check_order("tomatoes-crushed", "half-pint", DIAL, POTTLE_ANY_PACK, 8000,
                dial, COUNT(dial), G3 "Tomatoes - crushed");
    static const choice both[] = {
        { BW, false, 40, 0 },       { BW, true, 40, 0 },
        { DIAL, false, 10, 11 },    { DIAL, false, 15, 6 },
        { DIAL, true, 10, 11 },     { DIAL, true, 15, 6 },
        { WEIGHTED, false, 1, 15 }, { WEIGHTED, false, 10, 10 },
        { WEIGHTED, false, 15, 5 }, { WEIGHTED, true, 1, 15 },
        { WEIGHTED, true, 10, 10 }, { WEIGHTED, true, 15, 5 },
    };
    check_order("tomatoes-in-water", "pint", ANY, POTTLE_ANY_PACK, 500, both,
                COUNT(both), G3 "Tomatoes - whole or halved, packed in water");
    static const choice beans[] = { { DIAL, false, 20, 13 },
                                    { DIAL, true, 20, 13 },
                                    { WEIGHTED, false, 20, 15 },
                                    { WEIGHTED, true, 20, 15 } };
    check_order("beans-snap", "pint", ANY, POTTLE_ANY_PACK, 5000, beans,
                COUNT(beans), G4 "Beans, snap and Italian - pieces");
    /* the pint has a row of its own and never takes the quart's */
    static const choice cherries[] = { { BW, false, 15, 0 },
                                       { BW, true, 25, 0 } };
    check_order("cherries-whole", "pint", BW, POTTLE_ANY_PACK, 0, cherries,
                COUNT(cherries), G2 "Cherries - whole");
}
END_TEST

/* -- Properties over the catalogue ----------------------------------------- */

static size_t recipes_seen, processes_seen;

/* What is returned is printed: a band of a table of the recipe, and the
 * altitude lies in it. */
static void
check_printed(const pottle_recipe *recipe, const pottle_process *p,
              double altitude_ft)
{
    size_t tables = 0;
    const pottle_process_table *table =
        pottle_recipe_processes(recipe, &tables);
    ck_assert(p->table >= table && p->table < table + tables);
    ck_assert(p->band >= p->table->band &&
              p->band < p->table->band + p->table->bands);
    ck_assert_msg(p->band->to_ft < 0 || altitude_ft <= (double)p->band->to_ft,
                  "%s: band to %d ft at %g ft", pottle_recipe_id(recipe),
                  p->band->to_ft, altitude_ft);
    ck_assert_msg(p->band == p->table->band ||
                      altitude_ft > (double)p->band[-1].to_ft,
                  "%s: band from %d ft at %g ft", pottle_recipe_id(recipe),
                  p->band->from_ft, altitude_ft);
    ck_assert(p->tested_as->nominal_ml >= p->jar->nominal_ml);
    bool listed = false;
    for (size_t i = 0; i < p->table->jars; i++)
        listed = listed || strcmp(p->table->jar[i], p->tested_as->id) == 0;
    ck_assert_msg(listed, "%s: %s is not tested", pottle_recipe_id(recipe),
                  p->tested_as->id);
    ck_assert((p->band->psi > 0) == (p->table->method != POTTLE_BOILING_WATER));
    ck_assert(fabs(p->headspace.mm - p->table->headspace_in * inch_mm) < 1e-9);
}

/* Shortest minutes for one canner and pack, or -1 when refused. */
static int
shortest(const pottle_recipe *recipe, const pottle_jar *jar, canner c,
         pottle_pack_style pack, double altitude_ft)
{
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    const pottle_status status =
        pottle_process_find(catalogue, recipe, jar, method_of(c), pack,
                            altitude_ft * foot_m, out, &count, NULL);
    if (status != POTTLE_OK) {
        ck_assert_int_eq(status, POTTLE_EBOUNDS);
        return -1;
    }
    ck_assert(count >= 1 && count <= POTTLE_PROCESS_MAX);
    for (size_t i = 0; i < count; i++) {
        check_printed(recipe, &out[i], altitude_ft);
        ck_assert(i == 0 || out[i].band->minutes >= out[i - 1].band->minutes);
    }
    processes_seen += count;
    return out[0].band->minutes;
}

static pottle_status
check_recipe(void *context, const pottle_recipe *recipe,
             const pottle_error *error)
{
    (void)context;
    (void)error; /* a file that cannot be used is for test_data.c to find */
    if (recipe == NULL)
        return POTTLE_OK;
    recipes_seen++;
    static const double altitudes[] = { 0,    999,  1000, 1000.5, 1500, 2000,
                                        2500, 3000, 3500, 4000,   5000, 6000,
                                        6500, 8000, 8500, 12000 };
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &jars);
    for (canner c = BW; c <= WEIGHTED; c++)
        for (int raw = 0; raw < 2; raw++) {
            const pottle_pack_style pack = raw ? RAW : HOT;
            for (size_t a = 0; a < COUNT(altitudes); a++) {
                int smaller = 0;
                for (size_t k = 0; k < jars; k++) {
                    const int minutes =
                        shortest(recipe, &jar[k], c, pack, altitudes[a]);
                    /* once a size is too large every larger one is, and none is
                     * quicker than a smaller one */
                    ck_assert_msg(smaller >= 0 || minutes < 0,
                                  "%s: %s is refused, the larger %s is not",
                                  pottle_recipe_id(recipe), jar[k - 1].id,
                                  jar[k].id);
                    ck_assert_msg(minutes < 0 || minutes >= smaller,
                                  "%s: %s takes %d min, the smaller jar %d",
                                  pottle_recipe_id(recipe), jar[k].id, minutes,
                                  smaller);
                    smaller = minutes;
                    /* nor is a higher place */
                    const int lower = a > 0 ? shortest(recipe, &jar[k], c, pack,
                                                       altitudes[a - 1])
                                            : 0;
                    ck_assert_msg(lower >= 0 || minutes < 0,
                                  "%s: refused lower down, not at %g ft",
                                  pottle_recipe_id(recipe), altitudes[a]);
                    ck_assert_msg(minutes < 0 || minutes >= lower,
                                  "%s: %d min at %g ft, %d lower down",
                                  pottle_recipe_id(recipe), minutes,
                                  altitudes[a], lower);
                }
            }
        }
    return POTTLE_OK;
}

START_TEST(nothing_is_returned_that_is_not_printed)
{
    recipes_seen = processes_seen = 0;
    ck_assert_int_eq(pottle_recipes_each(catalogue, check_recipe, NULL, NULL),
                     POTTLE_OK);
    ck_assert_msg(recipes_seen >= 83, "only %zu recipes",
                  recipes_seen); /* those of the reference alone */
    ck_assert_msg(processes_seen > 10000, "only %zu processes", processes_seen);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("process");
    TCase *t = tcase_create("published");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, jar_takes_the_next_larger_tested, 0, COUNT(sizes));
    tcase_add_test(t, alternatives_are_in_order);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, process_rows());
    suite_add_tcase(suite, process_refusals());

    t = tcase_create("refusals");
    tcase_add_test(t, no_other_way_of_heating);
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    suite_add_tcase(suite, t);

    t = tcase_create("properties");
    tcase_set_timeout(t, 120);
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_test(t, nothing_is_returned_that_is_not_printed);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, process_made());
    return suite_run(suite);
}
