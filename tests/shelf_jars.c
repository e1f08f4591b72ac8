/* shelf_jars.c - test_shelf: which jars may be used, and what goes into each.
 */
#include <config.h>

#include <math.h>
#include <string.h>

#include "shelf_cases.h"

/* -- What may be used ------------------------------------------------------ */

START_TEST(only_tested_sizes)
{
    /* chile salsa is tested in pints; half-pints take the pint's time; quarts
     * are larger than tested */
    filled f =
        fill_well(&(wish){ .recipe = "chile-salsa",
                           .altitude = "0 m",
                           .shelf = { "9 quart", "9 pint", "9 half-pint" } });
    ck_assert(!f.size[0].allowed && f.size[0].jars == 0 &&
              strcmp(f.size[0].code, "jar-larger") == 0 &&
              f.size[0].why[0] != '\0');
    ck_assert(f.size[1].allowed && f.size[2].allowed);
    ck_assert(f.facts->capacity_ml < 9 * PINT_ML + 9 * PINT_ML / 2 + 1);
    if (f.size[2].jars > 0)
        ck_assert(strcmp(f.size[2].process.tested_as->id, "pint") == 0 &&
                  warned(f.filling, "jar-tested-as"));
    filled_free(&f);
    /* none of the shelf: refused, with the rule's source and way out */
    f = fill_with(&(wish){ .recipe = "chile-salsa",
                           .altitude = "0 m",
                           .shelf = { "9 quart", "2 1-l" } },
                  NULL, NULL);
    ck_assert_int_eq(f.status, POTTLE_EBOUNDS);
    ck_assert(strcmp(f.error.code, "jar-larger") == 0 &&
              strcmp(f.error.source, "nchfp") == 0 &&
              f.error.instead[0] != '\0' && f.filling == NULL);
    filled_free(&f);
    /* no process in that canner */
    f = fill_with(&(wish){ .recipe = "beans-snap",
                           .altitude = "0 m",
                           .canner = "boiling-water",
                           .shelf = { "9 pint" } },
                  NULL, NULL);
    ck_assert_int_eq(f.status, POTTLE_EBOUNDS);
    ck_assert_str_eq(f.error.code, "no-process-method");
    filled_free(&f);
    /* no raw pack of crushed tomatoes */
    f = fill_with(&(wish){ .recipe = "tomatoes-crushed",
                           .altitude = "0 m",
                           .pack = POTTLE_RAW_PACK,
                           .shelf = { "9 pint" } },
                  NULL, NULL);
    ck_assert_int_eq(f.status, POTTLE_EBOUNDS);
    ck_assert_str_eq(f.error.code, "no-process-pack");
    filled_free(&f);
    /* dial gauges end at 8,000 ft */
    f = fill_with(&(wish){ .recipe = "beans-snap",
                           .altitude = "8500 ft",
                           .canner = "dial-gauge",
                           .shelf = { "9 pint" } },
                  NULL, NULL);
    ck_assert_int_eq(f.status, POTTLE_EBOUNDS);
    ck_assert_str_eq(f.error.code, "altitude-above");
    filled_free(&f);
}
END_TEST

/* What is kept cold has no process and no loads, and goes into the size that
 * its source prints or smaller ones. */
START_TEST(without_a_process)
{
    filled f = fill_well(&(wish){ .recipe = "berry-freezer-jam-powdered-pectin",
                                  .altitude = "900 m",
                                  .shelf = { "9 half-pint" } });
    size_t loads = 7;
    (void)pottle_filling_loads(f.filling, &loads);
    ck_assert(!f.facts->canned && f.size[0].allowed && f.size[0].jars > 0 &&
              !f.size[0].has_process && loads == 0);
    ck_assert_uint_eq(pottle_filling_time(f.filling, NULL), 0);
    filled_free(&f);
    /* the source of this jam counts half-pints; a larger size is taken when it
     * was asked for */
    f = fill_well(
        &(wish){ .recipe = "berry-freezer-jam-powdered-pectin",
                 .shelf = { "9 quart", "9 half-pint", "2 quarter-pint" } });
    ck_assert(!f.size[0].allowed && f.size[0].jars == 0 &&
              strcmp(f.size[0].code, "jar-larger") == 0 && f.size[1].allowed &&
              f.size[2].allowed);
    filled_free(&f);
    f = fill_well(&(wish){ .recipe = "berry-freezer-jam-powdered-pectin",
                           .jar = "pint",
                           .shelf = { "9 pint", "9 quart" } });
    ck_assert(f.size[0].allowed && !f.size[1].allowed);
    filled_free(&f);
    f = fill_with(&(wish){ .recipe = "berry-freezer-jam-powdered-pectin",
                           .shelf = { "9 quart" } },
                  NULL, NULL);
    ck_assert(f.status == POTTLE_EBOUNDS &&
              strcmp(f.error.code, "jar-larger") == 0);
    filled_free(&f);
}
END_TEST

START_TEST(without_an_altitude)
{
    filled f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                  .fill = 14,
                                  .jar = "quart",
                                  .shelf = { "14 quart" } });
    size_t loads = 7;
    (void)pottle_filling_loads(f.filling, &loads);
    ck_assert(f.facts->canned && !f.size[0].has_process && loads == 0 &&
              warned(f.filling, "altitude"));
    filled_free(&f);
}
END_TEST

/* A jar of one's own: its own volume, the process of the size it stands for. */
START_TEST(own_jar_on_the_shelf)
{
    pottle_kitchen k;
    memset(&k, 0, sizeof k);
    pottle_own_jar jar;
    memset(&jar, 0, sizeof jar);
    strcpy(jar.id, "tall-honey-jar");
    const pottle_unit *g = pottle_unit_find("g");
    jar.empty = (pottle_quantity){ 452, 452, g };
    jar.full = (pottle_quantity){ 934, 934, g };
    jar.scale = (pottle_quantity){ 1, 1, g };
    jar.mouth = (pottle_quantity){ 60, 60, pottle_unit_find("mm") };
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &jar, NULL), POTTLE_OK);
    filled f = fill_with(&(wish){ .recipe = "tomatoes-crushed",
                                  .fill = 5,
                                  .jar = "quart",
                                  .altitude = "900 m",
                                  .shelf = { "4 quart", "5 tall honey jar" } },
                         &k, NULL);
    ck_assert_msg(f.status == POTTLE_OK, "%s", f.error.what);
    /* 5 quarts 4731.8 mL = 4 quarts 3785.4 + 2 x 446.9 of the jar (482.8
     * less 12.7 mm x 2827 mm2 = 35.9 mL) and 52.5 over */
    ck_assert(f.size[0].jars == 4 && f.size[1].jars == 2);
    ck_assert_msg(fabs(f.size[1].fill_ml.median - 446.9) < 0.2 &&
                      f.size[1].fill_ml.sd < 0.005,
                  "%g", f.size[1].fill_ml.median);
    ck_assert_msg(fabs(f.facts->left_ml - (4731.76 - 3785.41 - 2 * 446.9)) < 1,
                  "%g", f.facts->left_ml);
    ck_assert(f.size[1].of.own == &k.own[0] &&
              strcmp(f.size[1].of.jar->id, "pint") == 0 &&
              strcmp(f.size[1].process.tested_as->id, "pint") == 0);
    ck_assert(warned(f.filling, "jar-tested-as"));
    filled_free(&f);
    /* measured jars have no 3 % of doubt, so an even chance is better known */
    filled own = fill_with(&(wish){ .recipe = "tomatoes-crushed",
                                    .fill = 5,
                                    .jar = "quart",
                                    .altitude = "900 m",
                                    .shelf = { "20 tall honey jar" } },
                           &k, NULL);
    filled listed = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                                       .fill = 5,
                                       .jar = "quart",
                                       .altitude = "900 m",
                                       .shelf = { "20 pint" } });
    ck_assert(own.facts->prepare_ml < listed.facts->prepare_ml);
    filled_free(&own);
    filled_free(&listed);
    /* larger than anything that is listed: not allowed, and alone refused */
    jar.full = (pottle_quantity){ 3452, 3452, g };
    ck_assert_int_eq(pottle_kitchen_put_own(&k, &jar, NULL), POTTLE_OK);
    f = fill_with(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 5,
                           .jar = "quart",
                           .shelf = { "5 tall honey jar", "5 quart" } },
                  &k, NULL);
    ck_assert(f.status == POTTLE_OK && !f.size[0].allowed &&
              strcmp(f.size[0].code, "jar-larger") == 0 && f.size[1].jars == 5);
    filled_free(&f);
    f = fill_with(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 5,
                           .jar = "quart",
                           .shelf = { "5 tall honey jar" } },
                  &k, NULL);
    ck_assert(f.status == POTTLE_EBOUNDS &&
              strcmp(f.error.code, "jar-larger") == 0);
    filled_free(&f);
    /* readings that cannot be of one jar are named, not refused as a size */
    k.own[0].full = (pottle_quantity){ 400, 400, g };
    f = fill_with(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 5,
                           .jar = "quart",
                           .shelf = { "5 tall honey jar", "5 quart" } },
                  &k, NULL);
    ck_assert(f.status == POTTLE_EDOMAIN &&
              strcmp(f.error.code, "contradiction") == 0);
    filled_free(&f);
}
END_TEST

/* -- Into each jar --------------------------------------------------------- */

static const pottle_filling_dose *
dose_of(const filled *f, const char *food)
{
    size_t n = 0;
    const pottle_filling_dose *d = pottle_filling_doses(f->filling, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(d[i].food, food) == 0)
            return &d[i];
    ck_abort_msg("no %s", food);
    return NULL;
}

/* USDA Complete Guide, guide 3, acidification: a quart takes 2 tablespoons of
 * bottled lemon juice, 1/2 teaspoon of citric acid or 4 tablespoons of vinegar,
 * a pint half of each; a half-pint takes the pint's, since acid is never less.
 */
START_TEST(acid_over_mixed_jars)
{
    filled f =
        fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 14,
                           .jar = "quart",
                           .altitude = "900 m",
                           .shelf = { "10 quart", "6 pint", "4 half-pint" } });
    static const struct {
        const char *food, *unit;
        double quart, pint;
    } doses[] = {
        { "bottled-lemon-juice", "tbsp", 2, 1 },
        { "citric-acid", "tsp", 0.5, 0.25 },
        { "vinegar", "tbsp", 4, 2 },
    };
    for (int i = 0; i < COUNT(doses); i++) {
        const pottle_filling_dose *d = dose_of(&f, doses[i].food);
        const double ml =
            d->unit->factor / pottle_unit_find(doses[i].unit)->factor;
        ck_assert_msg(fabs(d->each[0] * ml - doses[i].quart) < 1e-9 &&
                          fabs(d->each[1] * ml - doses[i].pint) < 1e-9 &&
                          fabs(d->each[2] * ml - doses[i].pint) < 1e-9,
                      "%s: %g, %g, %g %s", doses[i].food, d->each[0],
                      d->each[1], d->each[2], d->unit->id);
        ck_assert_msg(
            fabs(d->total * ml - (10 * doses[i].quart + 6 * doses[i].pint +
                                  4 * doses[i].pint)) < 1e-9,
            "%s: %g", doses[i].food, d->total);
    }
    filled_free(&f);
    /* only for what is filled */
    f = fill_well(&(wish){ .recipe = "tomatoes-crushed",
                           .fill = 3,
                           .jar = "quart",
                           .altitude = "900 m",
                           .shelf = { "10 pint", "3 quart" } });
    const pottle_filling_dose *d = dose_of(&f, "bottled-lemon-juice");
    ck_assert(d->each[0] < 1e-12 &&
              fabs(d->total * d->unit->factor / TBSP_ML - 6) < 1e-9);
    filled_free(&f);
}
END_TEST

/* The total that was set comes first among the alternatives, as in the plan. */
START_TEST(chosen_acid_comes_first)
{
    const asked a = { .recipe = "tomatoes-crushed",
                      .fill = 14,
                      .jar = "quart",
                      .set = { "12 tsp citric acid" } };
    answer plan = kitchen_plan(&a);
    const pottle_shelf_size size = { kitchen_jar("quart"), NULL, 20 };
    const pottle_shelf_request r = { .version = POTTLE_SHELF_REQUEST_VERSION,
                                     .size = &size,
                                     .sizes = 1 };
    pottle_filling *f = NULL;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, NULL),
                     POTTLE_OK);
    size_t n = 0;
    const pottle_filling_dose *d = pottle_filling_doses(f, &n);
    ck_assert(n >= 3 && strcmp(d[0].food, "citric-acid") == 0 &&
              d[0].choice == 0);
    pottle_filling_free(f);
    answer_free(&plan);
}
END_TEST

TCase *
shelf_jars(void)
{
    TCase *t = tcase_create("filling");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, only_tested_sizes);
    tcase_add_test(t, without_a_process);
    tcase_add_test(t, without_an_altitude);
    tcase_add_test(t, own_jar_on_the_shelf);
    tcase_add_test(t, acid_over_mixed_jars);
    tcase_add_test(t, chosen_acid_comes_first);
    return t;
}
