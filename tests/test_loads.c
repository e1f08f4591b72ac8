/* test_loads.c - the dial gauge, canner loads and their times, and the clock.
 *
 * Process times are those printed in the USDA Complete Guide for the recipes
 * used here; times of a load are summed by hand from the published parts. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "loads_cases.h"
#include "suite.h"

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
    ck_assert(l.status == POTTLE_EBOUNDS &&
              strcmp(l.error.code, "gauge-error") == 0);
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

int
main(void)
{
    Suite *suite = suite_create("loads");
    suite_add_tcase(suite, loads_gauge());

    TCase *t = tcase_create("time");
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

    suite_add_tcase(suite, loads_clock());
    return suite_run(suite);
}
