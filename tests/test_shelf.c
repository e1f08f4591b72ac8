/* test_shelf.c - the expected volume in the jars on the shelf.
 *
 * The search is held against trying everything, on random shelves small enough
 * for that. Fillings are worked by hand from the nominal volumes (US gallon
 * 3785.411784 mL, exact), and properties are tried over the whole catalogue. */
#include <config.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "shelf_cases.h"
#include "suite.h"

/* -- Fillings -------------------------------------------------------------- */

filled
fill_with(const wish *w, const pottle_kitchen *house,
          const pottle_kitchen_canner *canner)
{
    const asked a = { .recipe = w->recipe,
                      .fill = w->fill,
                      .jar = w->jar,
                      .batches = w->fill > 0 ? 0 : 1 };
    filled out = { .answer = kitchen_plan(&a) };
    pottle_shelf_size size[SIZES_MAX];
    pottle_shelf_request r = { .version = POTTLE_SHELF_REQUEST_VERSION,
                               .size = size,
                               .pack = w->pack,
                               .canner = canner,
                               .cooked_ml = w->cooked_ml };
    pottle_method method = POTTLE_BOILING_WATER;
    while (r.sizes < SIZES_MAX && w->shelf[r.sizes] != NULL) {
        pottle_error error;
        ck_assert_msg(pottle_shelf_read(kitchen, house, w->shelf[r.sizes],
                                        &size[r.sizes], &error) == POTTLE_OK,
                      "%s", error.what);
        r.sizes++;
    }
    if (w->altitude != NULL) {
        pottle_quantity altitude;
        ck_assert_int_eq(
            pottle_quantity_read(w->altitude, POTTLE_LENGTH, &altitude, NULL),
            POTTLE_OK);
        r.has_altitude = true;
        r.altitude_m = altitude.low * altitude.unit->factor / 1000;
    }
    if (w->canner != NULL) {
        ck_assert_int_eq(pottle_method_find(w->canner, &method, NULL),
                         POTTLE_OK);
        r.method = &method;
    }
    out.status = pottle_shelf_fill(kitchen, out.answer.plan, &r, &out.filling,
                                   &out.error);
    ck_assert((out.status == POTTLE_OK) == (out.filling != NULL));
    if (out.filling != NULL) {
        out.size = pottle_filling_sizes(out.filling, &out.sizes);
        out.facts = pottle_filling_facts_of(out.filling);
    }
    return out;
}

filled
fill_well(const wish *w)
{
    const filled f = fill_with(w, NULL, NULL);
    ck_assert_msg(f.status == POTTLE_OK, "%s: %s (%s)", w->recipe, f.error.what,
                  f.error.code);
    return f;
}

void
filled_free(filled *f)
{
    pottle_filling_free(f->filling);
    answer_free(&f->answer);
}

bool
warned(const pottle_filling *f, const char *code)
{
    size_t n = 0;
    const pottle_warning *w = pottle_filling_warnings(f, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(w[i].code, code) == 0)
            return true;
    return false;
}

/* 14 quarts of crushed tomatoes: 13248.94 mL at 1/2 in. */
START_TEST(as_many_as_there_are)
{
    filled f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                  .fill = 14,
                                  .jar = "quart",
                                  .altitude = "900 m",
                                  .shelf = { "14 quart", "3 pint" } });
    ck_assert(fabs(f.facts->volume_ml.median - 14 * QUART_ML) < 1e-6);
    ck_assert(f.size[0].jars == 14 && f.size[1].jars == 0 &&
              f.facts->jars == 14);
    ck_assert(fabs(f.facts->left_ml) < 1e-6);
    filled_free(&f);
    /* 10 quarts, 6 pints and 4 half-pints are 10 + 3 + 1 quarts */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 14,
                           .jar = "quart",
                           .altitude = "900 m",
                           .shelf = { "10 quart", "6 pint", "4 half-pint" } });
    ck_assert(f.size[0].jars == 10 && f.size[1].jars == 6 &&
              f.size[2].jars == 4 && f.facts->jars == 20);
    ck_assert(fabs(f.facts->left_ml) < 1e-6 &&
              fabs(f.facts->capacity_ml - 14 * QUART_ML) < 1e-6);
    /* which are exactly enough for the expected volume: an even chance */
    ck_assert(fabs(f.facts->suffices - 0.5) < 1e-9);
    filled_free(&f);
    /* 3 quarts too few: all are filled and the rest is left */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 14,
                           .jar = "quart",
                           .altitude = "900 m",
                           .shelf = { "10 quart", "2 pint" } });
    ck_assert(f.size[0].jars == 10 && f.size[1].jars == 2 &&
              fabs(f.facts->left_ml - 3 * QUART_ML) < 1e-6 &&
              f.facts->suffices < 0.5);
    filled_free(&f);
    /* the same size twice is added up; none of a size is none */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 14,
                           .jar = "quart",
                           .altitude = "900 m",
                           .shelf = { "10 quart", "4 quart" } });
    ck_assert(f.sizes == 1 && f.size[0].of.count == 14 && f.size[0].jars == 14);
    filled_free(&f);
}
END_TEST

/* Fewest jars among equals, and half a quart left when there is no smaller jar.
 */
START_TEST(fewest_of_equals)
{
    filled f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                  .fill = 4.5,
                                  .jar = "quart",
                                  .shelf = { "9 pint", "9 quart" } });
    ck_assert(f.size[0].jars == 1 && f.size[1].jars == 4);
    filled_free(&f);
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 4.5,
                           .jar = "quart",
                           .shelf = { "9 quart" } });
    ck_assert(f.size[0].jars == 4 && fabs(f.facts->left_ml - PINT_ML) < 1e-6);
    filled_free(&f);
}
END_TEST

/* The chance that the shelf suffices, by the error function: the volume is
 * lognormal. */
START_TEST(chance_that_it_suffices)
{
    static const struct {
        const char *shelf;
        double quarts;
    } shelves[] = {
        { "8 quart", 8 },   { "12 quart", 12 }, { "14 quart", 14 },
        { "15 quart", 15 }, { "20 quart", 20 }, { "40 quart", 40 }
    };
    double before = 0;
    for (int i = 0; i < COUNT(shelves); i++) {
        filled f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                      .fill = 14,
                                      .jar = "quart",
                                      .shelf = { shelves[i].shelf } });
        const double sd = pottle_plan_jars(f.answer.plan)->volume_ml.sd,
                     p = 0.5 *
                         erfc(-log(shelves[i].quarts / 14) / sd / sqrt(2));
        ck_assert_msg(sd > 0 && fabs(f.facts->suffices - p) < 1e-9,
                      "%s: expected %.6f, found %.6f", shelves[i].shelf, p,
                      f.facts->suffices);
        ck_assert(f.facts->suffices > before);
        before = f.facts->suffices;
        /* 90 % lies 1.2815516 standard deviations up; so many more quarts take
         * it */
        const double prepare = 14 * QUART_ML * exp(1.2815515655 * sd);
        ck_assert(fabs(f.facts->prepare_ml / prepare - 1) < 1e-8);
        const double more = ceil((prepare - f.facts->filled_ml) / QUART_ML);
        ck_assert_msg(f.facts->next == 0 && (double)f.facts->ready <= more &&
                          (double)f.facts->ready >= more,
                      "%s: %lu", shelves[i].shelf, f.facts->ready);
        ck_assert_uint_eq(f.facts->spare, f.size[0].of.count - f.size[0].jars);
        filled_free(&f);
    }
}
END_TEST

/* The pot was measured: 9.9 L are 10 quarts of 946.353 mL (NIST Handbook 44)
 * and 436 mL over, less than a pint. A level errs by 5 % (practice), and jars
 * of a size by 3 % (practice), so that 12 quarts suffice by the error function
 * of ln(12 * 946.353 / 9900) / hypot(0.05, 0.03). */
START_TEST(measured_pot_decides)
{
    filled f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                  .fill = 14,
                                  .jar = "quart",
                                  .shelf = { "12 quart", "1 pint" },
                                  .cooked_ml = 9900 });
    ck_assert(f.size[0].jars == 10 && f.size[1].jars == 0);
    ck_assert(fabs(f.facts->volume_ml.median - 9900) < 1e-9);
    ck_assert(fabs(f.facts->volume_ml.sd - 0.05) < 1e-12);
    ck_assert(fabs(f.facts->left_ml - 436.47) < 0.01);
    const double sd = hypot(0.05, 0.03),
                 p = 0.5 * erfc(-log((12 * QUART_ML + PINT_ML) / 9900) / sd /
                                sqrt(2));
    ck_assert_msg(fabs(f.facts->suffices - p) < 1e-6, "%.6f, found %.6f", p,
                  f.facts->suffices);
    filled_free(&f);
}
END_TEST

/* Three standard deviations of the difference (practice) from the forecast, up
 * and down: just inside it is taken, just outside both numbers are named. */
START_TEST(measured_pot_that_contradicts)
{
    wish w = { .recipe = "tomatoes-crushed",
               .fill = 14,
               .jar = "quart",
               .shelf = { "40 quart" } };
    filled f = fill_well(&w);
    const pottle_estimate v = pottle_plan_jars(f.answer.plan)->volume_ml;
    const double three = 3 * hypot(v.sd, 0.05);
    filled_free(&f);
    static const double sides[] = { -1, 1 };
    for (int i = 0; i < COUNT(sides); i++) {
        w.cooked_ml = v.median * exp(sides[i] * three * 0.999);
        f = fill_well(&w);
        filled_free(&f);
        w.cooked_ml = v.median * exp(sides[i] * three * 1.001);
        f = fill_with(&w, NULL, NULL);
        ck_assert_int_eq(f.status, POTTLE_EDOMAIN);
        ck_assert_str_eq(f.error.code, "contradiction");
        ck_assert_ptr_nonnull(strstr(f.error.what, "13.2 L are expected"));
        ck_assert_ptr_nonnull(strstr(f.error.what, "3.0 standard"));
        filled_free(&f);
    }
}
END_TEST

START_TEST(next_size_to_have_ready)
{
    /* quarts are used and some are left */
    filled f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                  .fill = 4.5,
                                  .jar = "quart",
                                  .shelf = { "9 pint", "9 quart" } });
    ck_assert(f.facts->next == 1 && f.facts->spare == 5);
    filled_free(&f);
    /* all quarts are used: pints are next, used themselves or not */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 4.5,
                           .jar = "quart",
                           .shelf = { "9 pint", "4 quart" } });
    ck_assert(f.facts->next == 0 && f.facts->spare == 8);
    filled_free(&f);
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 4,
                           .jar = "quart",
                           .shelf = { "9 pint", "4 quart", "2 half-pint" } });
    ck_assert(f.facts->next == 0 && f.facts->spare == 9);
    filled_free(&f);
    /* nothing is left: more of the largest */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 9,
                           .jar = "quart",
                           .shelf = { "2 pint", "4 quart" } });
    ck_assert(f.facts->next == 1 && f.facts->spare == 0 && f.facts->ready >= 4);
    filled_free(&f);
    /* nothing fills a jar: the smallest */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 0.2,
                           .jar = "quart",
                           .shelf = { "2 pint", "4 quart", "1 half-pint" } });
    ck_assert(f.facts->jars == 0 && f.facts->next == 2 && f.facts->spare == 1);
    filled_free(&f);
}
END_TEST

/* -- Over the whole catalogue ---------------------------------------------- */

START_TEST(every_recipe_keeps_the_rules)
{
    static const char *const shelves[][4] = {
        { "20 quart", "20 pint", "20 half-pint", "6 12-oz" },
        { "9 pint", "9 500-ml", "9 250-ml", "9 1-l" },
        { "3 half-gallon", "2 quarter-pint", "5 28-oz", "1 pint" }
    };
    static const char *const altitudes[] = { "0 ft", "1000 ft", "1001 ft",
                                             "6200 ft" };
    for (int s = 0; s < COUNT(shelves); s++) {
        const char *altitude = altitudes[(_i + s) % COUNT(altitudes)];
        const asked a = { .recipe = kitchen_id[_i], .batches = 1 };
        answer plan = kitchen_ask(&a);
        if (plan.status != POTTLE_OK) {
            answer_free(&plan);
            continue;
        }
        const bool known = pottle_plan_jars(plan.plan) != NULL;
        answer_free(&plan);
        filled f =
            fill_with(&(wish){ .recipe = kitchen_id[_i],
                               .altitude = altitude,
                               .shelf = { shelves[s][0], shelves[s][1],
                                          shelves[s][2], shelves[s][3] } },
                      NULL, NULL);
        if (!known) {
            ck_assert_msg(f.status == POTTLE_ENOENT &&
                              strcmp(f.error.code, "no-yield") == 0,
                          "%s: %d", kitchen_id[_i], (int)f.status);
            filled_free(&f);
            continue;
        }
        if (f.status != POTTLE_OK) {
            ck_assert_msg(f.status == POTTLE_EBOUNDS &&
                              f.error.code[0] != '\0' &&
                              f.error.what[0] != '\0',
                          "%s, shelf %d: %d %s", kitchen_id[_i], s,
                          (int)f.status, f.error.what);
            filled_free(&f);
            continue;
        }
        unsigned long in_loads[SIZES_MAX] = { 0 }, loads = 0, told = 0;
        double filled_ml = 0, low = 0, high = 0, all_ml = 0;
        for (size_t i = 0; i < f.sizes; i++) {
            const pottle_filled *z = &f.size[i];
            ck_assert_msg(z->jars <= (z->allowed ? z->of.count : 0),
                          "%s: jars that may not be used", kitchen_id[_i]);
            ck_assert(z->allowed || (z->code[0] != '\0' && z->why[0] != '\0'));
            filled_ml += (double)z->jars * z->fill_ml.median;
            all_ml += z->allowed ? (double)z->of.count * z->fill_ml.median : 0;
            if (z->allowed && f.facts->canned) {
                /* the process of this size alone, looked up again */
                pottle_process p[POTTLE_PROCESS_MAX];
                size_t n = 0, k = 0;
                const pottle_pack_style pack =
                    f.facts->raw ? POTTLE_RAW_PACK : POTTLE_HOT_PACK;
                ck_assert_int_eq(
                    pottle_process_find(
                        kitchen, f.answer.recipe, z->of.jar, &f.facts->method,
                        pack,
                        f.facts->canned ? 0.3048 * strtod(altitude, NULL) : 0,
                        p, &n, NULL),
                    POTTLE_OK);
                while (k < n && p[k].band != z->process.band)
                    k++;
                ck_assert_msg(k < n && z->has_process,
                              "%s: a process that is not that of %s",
                              kitchen_id[_i], z->of.jar->id);
            }
        }
        /* a jar that lacks less than a tenth of a millilitre counts as full,
         * and the smallest holds 118 */
        ck_assert(filled_ml <= f.facts->volume_ml.median * (1 + 0.1 / 118));
        ck_assert(fabs(all_ml - f.facts->capacity_ml) < 1e-6 &&
                  f.facts->suffices >= 0 && f.facts->suffices <= 1);
        for (size_t i = 0; i < f.sizes; i++)
            ck_assert_msg(!f.size[i].allowed ||
                              f.size[i].jars == f.size[i].of.count ||
                              f.facts->left_ml < f.size[i].fill_ml.median + 11,
                          "%s: a %s jar could be filled of what is left",
                          kitchen_id[_i], f.size[i].of.jar->id);
        size_t n = 0;
        const pottle_filling_load *l = pottle_filling_loads(f.filling, &n);
        for (size_t k = 0; k < n; k++) {
            double share = 0;
            size_t sizes = 0;
            loads += l[k].times;
            low += (double)l[k].times * l[k].time.total.low;
            high += (double)l[k].times * l[k].time.total.high;
            for (size_t i = 0; i < f.sizes; i++) {
                if (l[k].jars[i] == 0)
                    continue;
                sizes++;
                in_loads[i] += l[k].times * l[k].jars[i];
                share += (double)l[k].jars[i] /
                         (double)pottlei_canner_holds(kitchen, NULL,
                                                      f.size[i].of.jar);
                ck_assert_msg(
                    l[k].process.band->minutes >=
                            f.size[i].process.band->minutes &&
                        l[k].process.band->psi == f.size[i].process.band->psi,
                    "%s: a jar with less than its own process", kitchen_id[_i]);
            }
            ck_assert_msg(share <= 1 + 1e-9 && sizes == l[k].sizes && sizes > 0,
                          "%s: a load that does not fit", kitchen_id[_i]);
        }
        pottle_range minutes;
        told = pottle_filling_time(f.filling, &minutes);
        ck_assert(told == loads && fabs(minutes.low - low) < 1e-9 &&
                  fabs(minutes.high - high) < 1e-9);
        for (size_t i = 0; i < f.sizes; i++)
            ck_assert_msg(n == 0 || in_loads[i] == f.size[i].jars,
                          "%s: jars that are in no load", kitchen_id[_i]);
        ck_assert(n > 0 || !f.facts->canned || f.facts->jars == 0 ||
                  warned(f.filling, "load-unknown"));
        filled_free(&f);
    }
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("shelf");
    suite_add_tcase(suite, shelf_search());

    TCase *t = tcase_create("filling");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, as_many_as_there_are);
    tcase_add_test(t, fewest_of_equals);
    tcase_add_test(t, chance_that_it_suffices);
    tcase_add_test(t, measured_pot_decides);
    tcase_add_test(t, measured_pot_that_contradicts);
    tcase_add_test(t, next_size_to_have_ready);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, shelf_jars());

    t = tcase_create("catalogue");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, every_recipe_keeps_the_rules, 0, kitchen_ids);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, shelf_statuses());

    const int status = suite_run(suite);
    kitchen_unlist();
    return status;
}
