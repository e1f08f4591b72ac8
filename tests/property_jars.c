/* property_jars.c - test_property: jars and processes. */
#include <config.h>

#include <math.h>
#include <stdint.h>

#include "property_cases.h"

/* -- Jars ------------------------------------------------------------------ */

START_TEST(jars_count_what_there_is)
{
    uint64_t chance = (uint64_t)_i;
    for (int round = 0; round < ROUNDS; round++) {
        const pottle_estimate fill = { spread_out(&chance, 50, 4000), 0 };
        const double sd = once_in(&chance, 4) ? 0
                                              : spread_out(&chance, 0.01, 0.6),
                     volume = spread_out(&chance, 1, 1e6);
        pottle_jar_count less, more;
        ck_assert_int_eq(
            pottle_jars_count((pottle_estimate){ volume, sd }, fill, &less),
            POTTLE_OK);
        ck_assert_int_eq(
            pottle_jars_count(
                (pottle_estimate){ volume * spread_out(&chance, 1, 3), sd },
                fill, &more),
            POTTLE_OK);
        asked_for[0] = '\0';
        tell("seed %d, round %d: %.10g mL, spread %.4f, jars of %.10g mL", _i,
             round, volume, sd, fill.median);
        HOLDS(more.full >= less.full && more.promise >= less.promise &&
                  more.prepare >= less.prepare,
              "more volume, fewer jars");
        HOLDS(less.promise <= less.full && less.full <= less.prepare,
              "%lu, %lu, %lu", less.promise, less.full, less.prepare);
        HOLDS(fabs((double)less.full * fill.median + less.remainder_ml -
                   volume) <= 1e-8 * volume,
              "%lu jars and %.10g mL", less.full, less.remainder_ml);
        HOLDS(less.remainder_ml >= 0 &&
                  less.remainder_ml < fill.median * (1 + TINY),
              "%.10g mL left over", less.remainder_ml);
    }
}
END_TEST

/* -- Processes ------------------------------------------------------------- */

/* Bands run on from 0 without a gap; higher up it is never less. */
START_TEST(bands_run_on_and_never_fall)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        asked_for[0] = '\0';
        tell("%s, %s, %s pack, first jar %s", kitchen_id[_i],
             pottle_method_name((int)t[i].method), t[i].raw ? "raw" : "hot",
             t[i].jar[0]);
        HOLDS(t[i].bands > 0 && t[i].jars > 0 && t[i].band[0].from_ft == 0,
              "begins at %d ft", t[i].bands > 0 ? t[i].band[0].from_ft : -1);
        for (size_t k = 0; k < t[i].bands; k++) {
            const pottle_band *b = &t[i].band[k];
            HOLDS(b->minutes > 0 &&
                      (t[i].method == POTTLE_BOILING_WATER) == (b->psi == 0),
                  "%d min at %d psi", b->minutes, b->psi);
            HOLDS(b->to_ft < 0 ? k + 1 == t[i].bands : b->to_ft > b->from_ft,
                  "band %d to %d ft", b->from_ft, b->to_ft);
            if (k > 0) {
                HOLDS(b->from_ft == b[-1].to_ft + 1, "%d ft follows on %d",
                      b->from_ft, b[-1].to_ft);
                /* two bands of the same time are printed for some fruits: 1,001
                 * to 3,000 and 3,001 to 6,000 ft */
                HOLDS(b->minutes >= b[-1].minutes && b->psi >= b[-1].psi,
                      "%d min, %d psi after %d min, %d psi", b->minutes, b->psi,
                      b[-1].minutes, b[-1].psi);
            }
        }
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* Every jar of every recipe, by every method, at altitudes across all bands: a
 * process of a tested size that is not smaller, never a shorter one higher up,
 * and none for a jar larger than all that were tested. */
START_TEST(jars_take_a_larger_size_never_a_smaller)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    size_t tables = 0, jars = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &tables);
    const pottle_jar *jar = pottle_jars(kitchen, &jars);
    double largest = 0;
    for (size_t i = 0; i < tables; i++)
        for (size_t k = 0; k < t[i].jars; k++)
            largest = fmax(largest, kitchen_jar(t[i].jar[k])->nominal_ml);
    static const double altitudes_ft[] = { 0,    1,     999,   1000, 1001,
                                           1999, 2000,  2001,  3000, 3001,
                                           4000, 4001,  6000,  6001, 8000,
                                           8001, 10000, 12000, 14763 };
    for (size_t j = 0; j < jars; j++) {
        for (int m = POTTLE_BOILING_WATER; m <= (int)POTTLE_WEIGHTED_GAUGE;
             m++) {
            const pottle_method method = (pottle_method)m;
            int minutes = 0;
            bool ended = false;
            for (size_t a = 0; a < sizeof altitudes_ft / sizeof altitudes_ft[0];
                 a++) {
                const double altitude_m = altitudes_ft[a] * FOOT_M;
                pottle_process p[POTTLE_PROCESS_MAX];
                size_t n = 77;
                pottle_error error = { .status = POTTLE_OK };
                asked_for[0] = '\0';
                tell("%s in %s, %s, %g ft", kitchen_id[_i], jar[j].id,
                     pottle_method_name(m), altitudes_ft[a]);
                const pottle_status status = pottle_process_find(
                    kitchen, recipe, &jar[j], &method, POTTLE_ANY_PACK,
                    altitude_m, p, &n, &error);
                HOLDS(status == POTTLE_OK || (status == POTTLE_EBOUNDS &&
                                              n == 77 && error.what[0] != '\0'),
                      "%s, %s", pottle_strerror((int)status), error.what);
                HOLDS(status == POTTLE_EBOUNDS || jar[j].nominal_ml <= largest,
                      "a process for a jar larger than tested");
                HOLDS(status == POTTLE_EBOUNDS || !ended,
                      "a process above the end of the table");
                ended = status != POTTLE_OK;
                if (ended)
                    continue;
                HOLDS(n >= 1 && n <= POTTLE_PROCESS_MAX, "%zu processes", n);
                int least = p[0].band->minutes;
                for (size_t i = 0; i < n; i++) {
                    check_process(&p[i], &altitude_m);
                    HOLDS(p[i].table->method == method && p[i].jar == &jar[j],
                          "another method or jar");
                    least =
                        p[i].band->minutes < least ? p[i].band->minutes : least;
                }
                HOLDS(least >= minutes, "%d min, and %d lower down", least,
                      minutes);
                minutes = least;
            }
        }
    }
    pottle_recipe_free(recipe);
}
END_TEST

TCase *
property_jars(void)
{
    TCase *t = tcase_create("jars and processes");
    tcase_set_timeout(t, 120);
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, jars_count_what_there_is, 0, SEEDS);
    tcase_add_loop_test(t, bands_run_on_and_never_fall, 0, kitchen_ids);
    tcase_add_loop_test(t, jars_take_a_larger_size_never_a_smaller, 0,
                        kitchen_ids);
    return t;
}
