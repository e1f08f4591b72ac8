/* test_loads.c - the dial gauge, canner loads and their times, and the clock.
 *
 * Process times are those printed in the USDA Complete Guide for the recipes
 * used here; times of a load are summed by hand from the published parts. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/shelf.h"
#include "kitchen_help.h"
#include "suite.h"

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

/* -- The dial gauge -------------------------------------------------------- */

static pottle_misreading
reads(const char *text)
{
    pottle_misreading m = { false, { 0, 0, NULL } };
    if (text != NULL)
        ck_assert_int_eq(
            pottle_misreading_read(text, POTTLE_PRESSURE, &m, NULL), POTTLE_OK);
    return m;
}

/* Snap beans at 900 m, 2,953 ft: 12 psi on a dial gauge (guide 4, 2,001 to
 * 4,000 ft). Tomatoes and spaghetti sauce at sea level: 11 psi (guide 3). That
 * a gauge which reads 1 psi high is held 1 psi higher: Iowa State University,
 * testing dial gauges. */
static const struct {
    const char *recipe, *altitude;
    int tested;
    const char *gauge;
    pottle_status status;
    double psi;
    bool strict, over;
} gauges[] = {
    { "beans-snap", "900 m", 12, NULL, POTTLE_OK, 12, false, false },
    { "beans-snap", "900 m", 12, "0 psi", POTTLE_OK, 12, false, false },
    { "beans-snap", "900 m", 12, "1/2 psi high", POTTLE_OK, 12.5, false,
      false },
    { "beans-snap", "900 m", 12, "0.9 psi low", POTTLE_OK, 11.1, false, false },
    { "beans-snap", "900 m", 12, "1 psi high", POTTLE_OK, 13, true, false },
    { "beans-snap", "900 m", 12, "1 psi low", POTTLE_OK, 11, true, false },
    { "beans-snap", "900 m", 12, "2 psi high", POTTLE_OK, 14, true, false },
    { "beans-snap", "900 m", 12, "2 psi low", POTTLE_OK, 10, true, false },
    /* 2 psi are 13.78951 kPa */
    { "beans-snap", "900 m", 12, "13.789514586 kPa high", POTTLE_OK, 14, true,
      false },
    { "beans-snap", "900 m", 12, "13.80 kPa high", POTTLE_EBOUNDS, 0, false,
      false },
    { "beans-snap", "900 m", 12, "2.1 psi high", POTTLE_EBOUNDS, 0, false,
      false },
    { "beans-snap", "900 m", 12, "2.1 psi low", POTTLE_EBOUNDS, 0, false,
      false },
    /* tomatoes have a boiling-water process: not refused, but said */
    { "tomatoes-crushed", "0 m", 11, "2.5 psi high", POTTLE_OK, 13.5, true,
      true },
    { "tomatoes-crushed", "0 m", 11, "1 psi high", POTTLE_OK, 12, true, false },
    /* pressure only, though of tomatoes: counts as low-acid */
    { "spaghetti-sauce-no-meat", "0 m", 11, "2.5 psi high", POTTLE_EBOUNDS, 0,
      false, false },
};

START_TEST(set_point_by_hand)
{
    pottle_recipe *recipe = kitchen_recipe(gauges[_i].recipe);
    pottle_quantity altitude;
    pottle_process p[POTTLE_PROCESS_MAX];
    size_t n = 0, k = 0;
    const pottle_method dial = POTTLE_DIAL_GAUGE;
    ck_assert_int_eq(pottle_quantity_read(gauges[_i].altitude, POTTLE_LENGTH,
                                          &altitude, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(
        pottle_process_find(
            kitchen, recipe, kitchen_jar("pint"), &dial, POTTLE_ANY_PACK,
            altitude.low * altitude.unit->factor / 1000, p, &n, NULL),
        POTTLE_OK);
    while (k < n && p[k].band->psi != gauges[_i].tested)
        k++;
    ck_assert_msg(k < n, "no process at %d psi is printed", gauges[_i].tested);
    pottle_set_point out = { 7, 7, false, false };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_gauge_set_point(
        kitchen, recipe, &p[k], reads(gauges[_i].gauge), &out, &error);
    ck_assert_msg(status == gauges[_i].status, "%s, %s: %d %s",
                  gauges[_i].recipe, gauges[_i].gauge, (int)status, error.what);
    if (status == POTTLE_OK) {
        ck_assert_msg(fabs(out.psi - gauges[_i].psi) < 1e-6,
                      "%s: expected %g psi, found %.8g", gauges[_i].gauge,
                      gauges[_i].psi, out.psi);
        ck_assert(out.strict == gauges[_i].strict &&
                  out.over == gauges[_i].over);
        ck_assert(fabs(out.off_psi - fabs(gauges[_i].psi - gauges[_i].tested)) <
                  1e-6);
    } else {
        ck_assert_str_eq(error.code, "gauge-error");
        ck_assert_str_eq(error.source, "isu-ext"); /* of the rule gauge-error */
        ck_assert(error.instead[0] != '\0' && out.psi > 6.9 && out.psi < 7.1);
    }
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(set_point_statuses)
{
    pottle_recipe *recipe = kitchen_recipe("beans-snap");
    pottle_process p[POTTLE_PROCESS_MAX];
    size_t n = 0;
    const pottle_method weights = POTTLE_WEIGHTED_GAUGE;
    pottle_set_point out;
    ck_assert_int_eq(pottle_process_find(kitchen, recipe, kitchen_jar("pint"),
                                         &weights, POTTLE_ANY_PACK, 0, p, &n,
                                         NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_gauge_set_point(kitchen, recipe, p,
                                            reads("1 psi high"), &out, NULL),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(
        pottle_canner_set_point(kitchen, recipe, p, NULL, &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(NULL, recipe, p, reads(NULL), &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(kitchen, NULL, p, reads(NULL), &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(kitchen, recipe, NULL, reads(NULL), &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(kitchen, recipe, p, reads(NULL), NULL, NULL),
        POTTLE_EMISUSE);
    pottle_recipe_free(recipe);
}
END_TEST

/* Vegetables and meat have no boiling-water process, fruit has one. */
START_TEST(low_acid_is_what_has_no_boiling_water_process)
{
    static const struct {
        const char *recipe;
        bool low;
    } recipes[] = {
        { "beans-snap", true },
        { "chicken-rabbit-boneless", true },
        { "spaghetti-sauce-no-meat", true },
        { "tomatoes-crushed", false },
        { "peaches", false },
        { "chile-salsa", false },
        { "berry-freezer-jam-powdered-pectin", false },
    };
    for (int i = 0; i < COUNT(recipes); i++) {
        pottle_recipe *recipe = kitchen_recipe(recipes[i].recipe);
        ck_assert_msg(pottlei_low_acid(recipe) == recipes[i].low, "%s",
                      recipes[i].recipe);
        pottle_recipe_free(recipe);
    }
}
END_TEST

/* -- The time of a load ---------------------------------------------------- */

START_TEST(load_time_by_hand)
{
    pottle_load_time t;
    /* boiling water: 20 to 30 to the boil, 50 process, 5 rest (USDA guide 1;
     * University of Florida sheets) */
    ck_assert_int_eq(
        pottle_load_minutes(kitchen, POTTLE_BOILING_WATER, 50, &t, NULL),
        POTTLE_OK);
    ck_assert(fabs(t.total.low - 75) < TINY && fabs(t.total.high - 85) < TINY);
    ck_assert(fabs(t.heat_up.low - 20) < TINY &&
              fabs(t.heat_up.high - 30) < TINY && fabs(t.wait.low - 5) < TINY &&
              fabs(t.wait.high - 5) < TINY);
    ck_assert(fabs(t.vent.high) < TINY && fabs(t.pressurise.high) < TINY &&
              fabs(t.cool.high) < TINY && fabs(t.process.low - 50) < TINY);
    /* pressure: 12 to 15 until it vents, 10 vent, 3 to 5 to the pressure, 25
     * process, 20 to 60 cooling, 10 after the weight: 80 to 125 */
    for (int m = POTTLE_DIAL_GAUGE; m <= (int)POTTLE_WEIGHTED_GAUGE; m++) {
        ck_assert_int_eq(
            pottle_load_minutes(kitchen, (pottle_method)m, 25, &t, NULL),
            POTTLE_OK);
        ck_assert(fabs(t.total.low - 80) < TINY &&
                  fabs(t.total.high - 125) < TINY);
        ck_assert(fabs(t.vent.low - 10) < TINY &&
                  fabs(t.pressurise.low - 3) < TINY &&
                  fabs(t.pressurise.high - 5) < TINY);
        ck_assert(fabs(t.cool.low - 20) < TINY &&
                  fabs(t.cool.high - 60) < TINY &&
                  fabs(t.wait.low - 10) < TINY);
    }
}
END_TEST

START_TEST(load_time_statuses)
{
    pottle_load_time t = { .total = { 7, 7 } };
    static const int none[] = { 0, -5, 1001 };
    for (int i = 0; i < COUNT(none); i++)
        ck_assert_int_eq(pottle_load_minutes(kitchen, POTTLE_BOILING_WATER,
                                             none[i], &t, NULL),
                         POTTLE_EDOMAIN);
    ck_assert_int_eq(
        pottle_load_minutes(NULL, POTTLE_BOILING_WATER, 10, &t, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_load_minutes(kitchen, POTTLE_BOILING_WATER, 10, NULL, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_load_minutes(kitchen, (pottle_method)9, 10, &t, NULL),
        POTTLE_EMISUSE);
    pottle_catalogue *bare = kitchen_catalogue(POTTLE_WITH_JARS);
    ck_assert_int_eq(
        pottle_load_minutes(bare, POTTLE_BOILING_WATER, 10, &t, NULL),
        POTTLE_ENOENT);
    ck_assert_int_eq(pottle_load_minutes(bare, POTTLE_DIAL_GAUGE, 10, &t, NULL),
                     POTTLE_ENOENT);
    pottle_catalogue_free(bare);
    ck_assert(fabs(t.total.low - 7) < TINY);
}
END_TEST

/* A longer process is a longer load, by as much. */
START_TEST(load_time_is_monotonic)
{
    pottle_load_time a, b;
    for (int m = POTTLE_BOILING_WATER; m <= (int)POTTLE_WEIGHTED_GAUGE; m++)
        for (int minutes = 1; minutes < 1000; minutes += 37) {
            ck_assert_int_eq(pottle_load_minutes(kitchen, (pottle_method)m,
                                                 minutes, &a, NULL),
                             POTTLE_OK);
            ck_assert_int_eq(pottle_load_minutes(kitchen, (pottle_method)m,
                                                 minutes + 1, &b, NULL),
                             POTTLE_OK);
            ck_assert(fabs(b.total.low - a.total.low - 1) < TINY &&
                      fabs(b.total.high - a.total.high - 1) < TINY &&
                      a.total.low <= a.total.high);
        }
}
END_TEST

/* -- What a canner takes --------------------------------------------------- */

START_TEST(canner_by_size)
{
    /* a standard canner: 7 quarts or 9 pints (guide 1); a litre is a quart to
     * it, and nothing is published for half-gallons */
    static const struct {
        const char *jar;
        unsigned long standard, own;
    } jars[] = {
        { "quarter-pint", 9, 12 }, { "half-pint", 9, 12 },  { "250-ml", 9, 18 },
        { "pint", 9, 18 },         { "500-ml", 9, 7 },      { "quart", 7, 7 },
        { "1-l", 7, 0 },           { "half-gallon", 0, 0 },
    };
    const pottle_kitchen_canner own = { .id = "own",
                                        .holds = 3,
                                        .hold = { { "quart", 7 },
                                                  { "half-pint", 12 },
                                                  { "pint", 18 } } },
                                bare = { .id = "bare" };
    for (int i = 0; i < COUNT(jars); i++) {
        const pottle_jar *jar = kitchen_jar(jars[i].jar);
        ck_assert_msg(pottlei_canner_holds(kitchen, NULL, jar) ==
                          jars[i].standard,
                      "%s", jars[i].jar);
        ck_assert_msg(pottlei_canner_holds(kitchen, &bare, jar) ==
                          jars[i].standard,
                      "%s, canner without a list", jars[i].jar);
        ck_assert_msg(pottlei_canner_holds(kitchen, &own, jar) == jars[i].own,
                      "%s, own canner", jars[i].jar);
    }
    pottle_catalogue *none = kitchen_catalogue(POTTLE_WITH_JARS);
    ck_assert_uint_eq(pottlei_canner_holds(none, NULL, kitchen_jar("quart")),
                      0);
    pottle_catalogue_free(none);
}
END_TEST

/* -- Loads ----------------------------------------------------------------- */

enum { MOST = 6 };
typedef struct loaded {
    answer answer;
    pottle_filling *filling;
    pottle_status status;
    pottle_error error;
    const pottle_filling_load *load;
    size_t loads;
    pottle_range minutes;
    unsigned long count;
} loaded;

static loaded
load_up(const char *recipe, double fill, const char *jar, const char *altitude,
        const pottle_kitchen_canner *canner, const char *const *shelf)
{
    const asked a = { .recipe = recipe, .fill = fill, .jar = jar };
    loaded out = { .answer = kitchen_plan(&a) };
    pottle_shelf_size size[MOST];
    pottle_quantity height;
    pottle_shelf_request r = { .version = POTTLE_SHELF_REQUEST_VERSION,
                               .size = size,
                               .canner = canner,
                               .has_altitude = true };
    for (; shelf[r.sizes] != NULL; r.sizes++)
        ck_assert_int_eq(pottle_shelf_read(kitchen, NULL, shelf[r.sizes],
                                           &size[r.sizes], NULL),
                         POTTLE_OK);
    ck_assert_int_eq(
        pottle_quantity_read(altitude, POTTLE_LENGTH, &height, NULL),
        POTTLE_OK);
    r.altitude_m = height.low * height.unit->factor / 1000;
    out.status = pottle_shelf_fill(kitchen, out.answer.plan, &r, &out.filling,
                                   &out.error);
    if (out.status == POTTLE_OK) {
        out.load = pottle_filling_loads(out.filling, &out.loads);
        out.count = pottle_filling_time(out.filling, &out.minutes);
    }
    return out;
}

static void
loaded_free(loaded *l)
{
    pottle_filling_free(l->filling);
    answer_free(&l->answer);
}

static const pottle_warning *
warning_of(const pottle_filling *f, const char *code)
{
    size_t n = 0;
    const pottle_warning *w = pottle_filling_warnings(f, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(w[i].code, code) == 0)
            return &w[i];
    return NULL;
}

/* Crushed tomatoes in boiling water at 1,001 to 3,000 ft: pints 40, quarts 50
 * minutes (guide 3). */
START_TEST(loads_of_one_size)
{
    loaded l = load_up("tomatoes-crushed", 14, "quart", "900 m", NULL,
                       (const char *const[]){ "14 quart", NULL });
    ck_assert(l.loads == 1 && l.load[0].times == 2 && l.load[0].jars[0] == 7 &&
              l.load[0].sizes == 1 && l.count == 2);
    ck_assert(l.load[0].process.band->minutes == 50 &&
              l.load[0].process.table->method == POTTLE_BOILING_WATER &&
              fabs(l.load[0].psi) < TINY);
    /* twice 20 to 30, 50 and 5 */
    ck_assert(fabs(l.minutes.low - 150) < TINY &&
              fabs(l.minutes.high - 170) < TINY);
    ck_assert_ptr_null(warning_of(l.filling, "mixed-load"));
    loaded_free(&l);
    /* one more jar is one more load */
    l = load_up("tomatoes-crushed", 15, "quart", "900 m", NULL,
                (const char *const[]){ "15 quart", NULL });
    ck_assert(l.count == 3 && l.loads == 2 && l.load[0].times == 2 &&
              l.load[1].times == 1 && l.load[1].jars[0] == 1);
    loaded_free(&l);
}
END_TEST

START_TEST(loads_of_mixed_sizes)
{
    loaded l = load_up(
        "tomatoes-crushed", 14, "quart", "900 m", NULL,
        (const char *const[]){ "10 quart", "6 pint", "4 half-pint", NULL });
    /* 7 quarts; then 6 pints, 2/3 of a load, by themselves, and 4 half-pints
     * with 3 quarts: 4/9 + 3/7 = 0.87 */
    ck_assert_uint_eq(l.count, 3);
    ck_assert(l.load[0].jars[0] == 7 && l.load[0].sizes == 1 &&
              l.load[0].process.band->minutes == 50);
    ck_assert(l.load[1].jars[1] == 6 && l.load[1].sizes == 1 &&
              l.load[1].process.band->minutes == 40);
    ck_assert(l.load[2].jars[0] == 3 && l.load[2].jars[2] == 4 &&
              l.load[2].sizes == 2 && l.load[2].process.band->minutes == 50);
    /* 75 + 65 + 75 to 85 + 75 + 85 */
    ck_assert(fabs(l.minutes.low - 215) < TINY &&
              fabs(l.minutes.high - 245) < TINY);
    ck_assert_ptr_nonnull(warning_of(l.filling, "mixed-load"));
    loaded_free(&l);
}
END_TEST

/* Sizes are mixed only where that saves a load, and parted only where that
 * saves one more. */
START_TEST(loads_are_not_mixed_for_nothing)
{
    /* 6 of 7 quarts and 8 of 9 pints: 1.75 loads, two either way */
    loaded l = load_up("tomatoes-crushed", 10, "quart", "900 m", NULL,
                       (const char *const[]){ "6 quart", "8 pint", NULL });
    ck_assert(l.count == 2 && l.load[0].sizes == 1 && l.load[1].sizes == 1 &&
              warning_of(l.filling, "mixed-load") == NULL);
    loaded_free(&l);
    /* 5 of 7, 5 of 9 and 6 of 9: 0.71 + 0.56 + 0.67 = 1.94, no two of which go
     * together whole, yet all into two */
    l = load_up(
        "tomatoes-crushed", 9, "quart", "900 m", NULL,
        (const char *const[]){ "5 quart", "5 pint", "6 half-pint", NULL });
    ck_assert_uint_eq(pottle_filling_facts_of(l.filling)->jars, 16);
    ck_assert_uint_eq(l.count, 2);
    ck_assert(l.load[0].jars[0] == 5 && l.load[0].sizes == 2 &&
              l.load[0].process.band->minutes == 50 &&
              l.load[1].process.band->minutes == 40);
    loaded_free(&l);
}
END_TEST

/* The rule stands in the catalogue, and the warning says it. */
START_TEST(mixed_load_says_its_rule)
{
    loaded l = load_up("tomatoes-crushed", 5, "quart", "900 m", NULL,
                       (const char *const[]){ "4 quart", "2 pint", NULL });
    const pottle_warning *w = warning_of(l.filling, "mixed-load");
    const pottle_rule *rule = pottle_rule_find(kitchen, "mixed-load");
    ck_assert(w != NULL && strstr(w->text, "longest") != NULL);
    ck_assert_msg(rule != NULL, "rules.xml has no rule mixed-load");
    ck_assert_str_eq(w->source, rule->cite.source);
    loaded_free(&l);
}
END_TEST

/* Snap beans on a dial gauge at 900 m: 12 psi, pints 20 and quarts 25 minutes;
 * the gauge reads 1 psi high. */
START_TEST(loads_on_a_dial_gauge)
{
    pottle_kitchen_canner canner = { .id = "big",
                                     .method = POTTLE_DIAL_GAUGE,
                                     .gauge = reads("1 psi high"),
                                     .holds = 2,
                                     .hold = { { "quart", 7 },
                                               { "pint", 18 } } };
    loaded l = load_up("beans-snap", 9, "quart", "900 m", &canner,
                       (const char *const[]){ "7 quart", "4 pint", NULL });
    ck_assert_msg(l.status == POTTLE_OK, "%s", l.error.what);
    ck_assert_uint_eq(l.count, 2);
    ck_assert(l.load[0].jars[0] == 7 && l.load[0].process.band->minutes == 25 &&
              l.load[0].process.band->psi == 12 &&
              fabs(l.load[0].psi - 13) < TINY);
    ck_assert(l.load[1].jars[1] == 4 && l.load[1].process.band->minutes == 20 &&
              fabs(l.load[1].psi - 13) < TINY);
    /* 12 + 10 + 3 + 25 + 20 + 10 = 80 and 75; 15 + 10 + 5 + 25 + 60 + 10 = 125
     * and 120 */
    ck_assert(fabs(l.minutes.low - 155) < TINY &&
              fabs(l.minutes.high - 245) < TINY);
    const pottle_filling_facts *facts = pottle_filling_facts_of(l.filling);
    ck_assert(facts->has_set_point && facts->gauge.high &&
              facts->method == POTTLE_DIAL_GAUGE);
    const pottle_warning *strict = warning_of(l.filling, "gauge-strict");
    ck_assert(strict != NULL && strcmp(strict->source, "usda-aib539-g1") ==
                                    0); /* of the figure gauge-limit-strict */
    loaded_free(&l);

    canner.gauge = reads("1/2 psi low");
    l = load_up("beans-snap", 9, "quart", "900 m", &canner,
                (const char *const[]){ "9 quart", NULL });
    ck_assert(warning_of(l.filling, "gauge-strict") == NULL &&
              fabs(l.load[0].psi - 11.5) < TINY);
    loaded_free(&l);

    canner.gauge = reads("2.5 psi high");
    l = load_up("beans-snap", 9, "quart", "900 m", &canner,
                (const char *const[]){ "9 quart", NULL });
    ck_assert(l.status == POTTLE_EBOUNDS &&
              strcmp(l.error.code, "gauge-error") == 0);
    loaded_free(&l);
    l = load_up("tomatoes-crushed", 9, "quart", "900 m", &canner,
                (const char *const[]){ "9 quart", NULL });
    ck_assert(l.status == POTTLE_OK &&
              warning_of(l.filling, "gauge-over") != NULL);
    loaded_free(&l);

    canner.gauge = reads(NULL);
    l = load_up("beans-snap", 9, "quart", "900 m", &canner,
                (const char *const[]){ "9 quart", NULL });
    ck_assert(l.status == POTTLE_OK &&
              warning_of(l.filling, "gauge-untested") != NULL &&
              fabs(l.load[0].psi - 12) < TINY);
    loaded_free(&l);
}
END_TEST

/* Weights are not adjusted: what they hang at is what is printed. */
START_TEST(loads_on_a_weighted_gauge)
{
    const pottle_kitchen_canner canner = { .id = "old",
                                           .method = POTTLE_WEIGHTED_GAUGE };
    loaded l = load_up("beans-snap", 9, "quart", "900 m", &canner,
                       (const char *const[]){ "9 quart", NULL });
    ck_assert(l.status == POTTLE_OK && l.count == 2 &&
              fabs(l.load[0].psi - 15) < TINY);
    ck_assert(warning_of(l.filling, "gauge-untested") == NULL);
    loaded_free(&l);
}
END_TEST

/* Of tomatoes' pairs of minutes and pressure one whole pair holds for the load:
 * 15 minutes at 12 psi or 20 at 7 on a dial gauge at 2,001 to 4,000 ft (guide
 * 3), for pints and quarts alike. */
START_TEST(one_pressure_for_all)
{
    const pottle_kitchen_canner canner = { .id = "big",
                                           .method = POTTLE_DIAL_GAUGE,
                                           .gauge = reads("0 psi") };
    loaded l = load_up("tomatoes-crushed", 5, "quart", "900 m", &canner,
                       (const char *const[]){ "4 quart", "2 pint", NULL });
    ck_assert(l.status == POTTLE_OK && l.count == 1 && l.load[0].sizes == 2);
    ck_assert((l.load[0].process.band->minutes == 15 &&
               l.load[0].process.band->psi == 12) ||
              (l.load[0].process.band->minutes == 20 &&
               l.load[0].process.band->psi == 7));
    ck_assert_ptr_null(warning_of(l.filling, "apart"));
    loaded_free(&l);
}
END_TEST

/* Apple juice goes into half-gallons, and nobody says how many of them a canner
 * takes. */
START_TEST(loads_that_are_not_known)
{
    loaded l = load_up("apple-juice", 4, "half-gallon", "0 m", NULL,
                       (const char *const[]){ "9 half-gallon", NULL });
    ck_assert(l.status == POTTLE_OK && l.loads == 0 && l.count == 0 &&
              warning_of(l.filling, "load-unknown") != NULL);
    loaded_free(&l);
}
END_TEST

/* -- The clock ------------------------------------------------------------- */

static const struct {
    const char *text;
    int minutes;
} clocks[] = {
    { "14:30", 870 },
    { "9:05", 545 },
    { "09:05", 545 },
    { "00:00", 0 },
    { "23:59", 1439 },
    { "2:30 pm", 870 },
    { "2:30PM", 870 },
    { "2 pm", 840 },
    { "12 am", 0 },
    { "12 pm", 720 },
    { "12:01 am", 1 },
    { " 8:00 ", 480 },
    { "24:00", -1 },
    { "14:60", -1 },
    { "14", -1 },
    { "14:3", -1 },
    { "14:300", -1 },
    { "014:30", -1 },
    { "14:30 pm", -1 },
    { "0 am", -1 },
    { "", -1 },
    { "noon", -1 },
    { "-1:30", -1 },
    { "14:30:00", -1 },
    { "14.30", -1 },
    { "14:30 h", -1 },
    { "1e1:00", -1 },
    { "14:30                                              x", -1 },
};

START_TEST(clock_as_typed)
{
    int out = 77;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_clock_read(clocks[_i].text, &out, &error);
    ck_assert_msg(status ==
                      (clocks[_i].minutes < 0 ? POTTLE_ESYNTAX : POTTLE_OK),
                  "'%s': %d", clocks[_i].text, (int)status);
    ck_assert_msg(out == (clocks[_i].minutes < 0 ? 77 : clocks[_i].minutes),
                  "'%s': %d", clocks[_i].text, out);
}
END_TEST

static const struct {
    int start;
    double later;
    const char *text;
} laters[] = {
    { 870, 0, "14:30" },
    { 870, 95, "16:05" },
    { 870, 569, "23:59" },
    { 870, 570, "00:00 next day" },
    { 870, 2010.4, "2 days later at 00:00" },
    { 0, 1439.6, "00:00 next day" },
    { 5, 0.4, "00:05" },
    { -1, 5, "?" },
    { 1440, 5, "?" },
    { 5, -1, "?" },
    { 5, 1e7, "?" },
};

START_TEST(clock_later)
{
    char buf[40];
    const size_t n =
        pottle_clock_write(laters[_i].start, laters[_i].later, buf, sizeof buf);
    ck_assert_str_eq(buf, laters[_i].text);
    ck_assert_uint_eq(n, strlen(buf));
}
END_TEST

START_TEST(clock_edges)
{
    char buf[40] = "kept", small[4] = "abc";
    int out = 5;
    ck_assert_int_eq(pottle_clock_read(NULL, &out, NULL), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_clock_read("14:30", NULL, NULL), POTTLE_EMISUSE);
    pottle_clock_write(5, NOT_A_NUMBER, buf, sizeof buf);
    ck_assert_str_eq(buf, "?");
    ck_assert_uint_eq(pottle_clock_write(870, 0, small, sizeof small), 5);
    ck_assert_str_eq(small, "14:");
    /* there and back */
    for (int m = 0; m < 1440; m += 7) {
        pottle_clock_write(m, 0, buf, sizeof buf);
        ck_assert(pottle_clock_read(buf, &out, NULL) == POTTLE_OK && out == m);
    }
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("loads");
    TCase *t = tcase_create("gauge");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, set_point_by_hand, 0, COUNT(gauges));
    tcase_add_test(t, set_point_statuses);
    tcase_add_test(t, low_acid_is_what_has_no_boiling_water_process);
    suite_add_tcase(suite, t);

    t = tcase_create("time");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, load_time_by_hand);
    tcase_add_test(t, load_time_statuses);
    tcase_add_test(t, load_time_is_monotonic);
    suite_add_tcase(suite, t);

    t = tcase_create("loads");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, canner_by_size);
    tcase_add_test(t, loads_of_one_size);
    tcase_add_test(t, loads_of_mixed_sizes);
    tcase_add_test(t, loads_are_not_mixed_for_nothing);
    tcase_add_test(t, mixed_load_says_its_rule);
    tcase_add_test(t, loads_on_a_dial_gauge);
    tcase_add_test(t, loads_on_a_weighted_gauge);
    tcase_add_test(t, one_pressure_for_all);
    tcase_add_test(t, loads_that_are_not_known);
    suite_add_tcase(suite, t);

    t = tcase_create("clock");
    tcase_add_loop_test(t, clock_as_typed, 0, COUNT(clocks));
    tcase_add_loop_test(t, clock_later, 0, COUNT(laters));
    tcase_add_test(t, clock_edges);
    suite_add_tcase(suite, t);
    return suite_run(suite);
}
