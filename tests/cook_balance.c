/* cook_balance.c - test_cook: what a balance must keep. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "cook_cases.h"

/* What a finished batch weighs at least for its volume: the solution of what
 * went in, since only water leaves it. */
static double
raw_density(double mass_g, double solids_g)
{
    pottle_density density = { 1 };
    const double brix = 100 * solids_g / mass_g;
    ck_assert_int_eq(pottle_sugar_density(brix < 84 ? brix : 84, &density),
                     POTTLE_OK);
    return density.g_ml;
}

/* Mass and solids of what stays in the pot: mass by the study's rules (section
 * 1, steps 1 and 2; section 2, f_cut and juice); solids are 1 - water, all of a
 * dry thing whose water nobody states, 5 % of vinegar. */
static void
add_up(const batch *b, double *mass_g, double *solids_g)
{
    const double juice_ml = pottle_recipe_cook(b->recipe)->juice_ml;
    bool juice = false;
    *mass_g = *solids_g = 0;
    for (size_t i = 0; i < b->parts; i++) {
        const pottlei_part *p = &b->part[i];
        if (!p->ingredient->stays || p->ingredient->optional ||
            !(p->prepared_g.median > 0))
            continue;
        const pottle_composition *c = pottle_food_composition(p->food);
        const char *group = pottle_food_group(p->food);
        const double share = c->known                      ? 1 - c->water / 100
                           : strcmp(group, "water") == 0   ? 0
                           : strcmp(group, "vinegar") == 0 ? 0.05
                                                           : 1;
        double g = p->prepared_g.median * (p->by_volume_cut ? 1.1 : 1);
        if (juice_ml > 0 && strcmp(p->ingredient->role, "produce") == 0) {
            g = juice ? 0 : juice_ml * raw_density(1, share);
            juice = true;
        }
        *mass_g += g;
        *solids_g += g * share;
    }
}

/* Nothing but water leaves the pot, and never more than there is: the volume
 * lies between that of everything that went in and that of its dry solids
 * (1.587 g/mL, solid sugar), less 3 % in the pot. The solids are counted as
 * sugar; where they are fibre, protein or fat the volume is larger by up to 2
 * %. What packs beside brine may leave some brine over. */
START_TEST(nothing_is_made_of_nothing)
{
    batch b = open_batch(kitchen_id[_i], NULL);
    const pottle_cook *cook = pottle_recipe_cook(b.recipe);
    pottle_estimate volume = { 0, 0 };
    if (cook->end != POTTLE_END_LOAD &&
        pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts, &volume,
                             NULL) == POTTLE_OK) {
        double mass = 0, solids = 0;
        add_up(&b, &mass, &solids);
        ck_assert_msg(mass > 0 && solids <= mass, "%s: %.0f g solids in %.0f g",
                      kitchen_id[_i], solids, mass);
        const double most = 0.97 * mass / raw_density(mass, solids),
                     least = 0.97 * solids / 1.587;
        ck_assert_msg(volume.median <= most * 1.02,
                      "%s: %.0f mL made of %.0f mL: water came from nowhere",
                      kitchen_id[_i], volume.median, most);
        if (cook->end != POTTLE_END_PACKED)
            ck_assert_msg(volume.median >= least * 0.998,
                          "%s: %.0f mL hold %.0f mL of solids", kitchen_id[_i],
                          volume.median, least);
        ck_assert_msg(volume.sd > 0 && volume.sd < 0.6, "%s: spread %.3f",
                      kitchen_id[_i], volume.sd);
    }
    close_batch(&b);
}
END_TEST

/* What goes in is in the jars, in the air, drained away or stuck to the pot,
 * and none of these is less than nothing (study, section 7.5). */
START_TEST(water_and_solids_close)
{
    answer a = kitchen_plan(&(asked){ .recipe = kitchen_id[_i], .batches = 1 });
    pottle_balance b;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_cook_balance(kitchen, a.plan, POTTLE_ALL_POTS, &b, &error);
    ck_assert_msg(status == POTTLE_OK || status == POTTLE_ENOENT, "%s: %s",
                  kitchen_id[_i], error.what);
    if (status == POTTLE_OK) {
        const double water = b.water_jars_g + b.evaporated_g + b.drained_g +
                             b.water_lost_g,
                     solids = b.solids_jars_g + b.solids_lost_g;
        ck_assert_msg(b.evaporated_g >= 0 && b.drained_g >= 0 &&
                          b.water_lost_g >= 0 && b.solids_lost_g >= 0 &&
                          b.water_jars_g >= 0 && b.solids_jars_g >= 0,
                      "%s: %g g boiled off, %g g drained, %g and %g g lost, %g "
                      "and %g g in the jars",
                      kitchen_id[_i], b.evaporated_g, b.drained_g,
                      b.water_lost_g, b.solids_lost_g, b.water_jars_g,
                      b.solids_jars_g);
        ck_assert_msg(within(water, b.water_in_g, 1e-9) ||
                          fabs(water - b.water_in_g) < 1e-6,
                      "%s: %.6f g water in, %.6f g out", kitchen_id[_i],
                      b.water_in_g, water);
        ck_assert_msg(within(solids, b.solids_in_g, 1e-9) ||
                          fabs(solids - b.solids_in_g) < 1e-6,
                      "%s: %.6f g solids in, %.6f g out", kitchen_id[_i],
                      b.solids_in_g, solids);
    }
    answer_free(&a);
}
END_TEST

/* Cooked to a share of solids, more water in the pot changes nothing but the
 * time (study, section 7.5). */
START_TEST(more_water_changes_no_gel)
{
    static const char *const recipes[] = { "berry-jam-no-pectin",
                                           "apple-jelly-no-pectin",
                                           "apple-butter" };
    for (size_t i = 0; i < 3; i++) {
        batch b = open_batch(recipes[i], NULL);
        pottle_estimate before = { 0, 0 }, after = { 0, 0 };
        ck_assert_int_eq(pottlei_cook_balance(kitchen, b.recipe, b.part,
                                              b.parts, &before, NULL),
                         POTTLE_OK);
        pottle_food *plain = NULL;
        ck_assert_int_eq(pottle_food_read(kitchen, "water", &plain, NULL),
                         POTTLE_OK);
        b.part[b.parts] =
            (pottlei_part){ b.part[0].ingredient, plain, { 500, 0 }, false };
        ck_assert_int_eq(pottlei_cook_balance(kitchen, b.recipe, b.part,
                                              b.parts + 1, &after, NULL),
                         POTTLE_OK);
        ck_assert_msg(within(after.median, before.median, 1e-9),
                      "%s: 500 g of water make %.3f mL of %.3f", recipes[i],
                      after.median, before.median);
        /* more sugar does */
        const double sugar = b.part[1].prepared_g.median;
        b.part[1].prepared_g.median = 1.2 * sugar;
        ck_assert_int_eq(pottlei_cook_balance(kitchen, b.recipe, b.part,
                                              b.parts, &after, NULL),
                         POTTLE_OK);
        ck_assert_msg(after.median > before.median * 1.001,
                      "%s: more of %s makes no more", recipes[i],
                      pottle_food_id(b.part[1].food));
        pottle_food_free(plain);
        close_batch(&b);
    }
}
END_TEST

/* A kitchen cup of cut produce weighs 1.1 times the table's (study,
 * section 7.6, f_cut): 10 % more of it, and the same. */
START_TEST(a_cup_of_cut_produce_is_fuller)
{
    batch b = open_batch("peach-pie-filling", NULL);
    pottle_estimate fuller = { 0, 0 }, more = { 0, 0 }, table = { 0, 0 };
    ck_assert(b.part[0].by_volume_cut);
    ck_assert_int_eq(
        pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts, &fuller, NULL),
        POTTLE_OK);
    b.part[0].by_volume_cut = false;
    ck_assert_int_eq(
        pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts, &table, NULL),
        POTTLE_OK);
    b.part[0].prepared_g.median *= 1.1;
    ck_assert_int_eq(
        pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts, &more, NULL),
        POTTLE_OK);
    ck_assert_msg(within(fuller.median, more.median, 1e-9),
                  "%.3f mL of full cups, %.3f mL of 10 %% more", fuller.median,
                  more.median);
    ck_assert_double_gt(fuller.median, 1.02 * table.median);
    close_batch(&b);
}
END_TEST

START_TEST(nothing_to_cook_is_told)
{
    batch b = open_batch("chile-salsa", NULL);
    const pottle_estimate untouched = { 77, 7 };
    pottle_estimate volume = untouched;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottlei_cook_balance(kitchen, b.recipe, b.part, 0, &volume, &error),
        POTTLE_ENOENT);
    ck_assert_int_eq(error.status, POTTLE_ENOENT);
    for (size_t i = 0; i < b.parts; i++)
        b.part[i].prepared_g.median = 0;
    ck_assert_int_eq(
        pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts, &volume, NULL),
        POTTLE_ENOENT);
    ck_assert(volume.median > 76.9 && volume.median < 77.1);
    /* the print alone still tells it: 6 to 8 pints, the middle sqrt(48) of
     * 473.2 mL at 1/2 in */
    ck_assert_int_eq(pottlei_cook_predict(kitchen, b.recipe, b.part, b.parts,
                                          (pottle_length){ 12.7 }, &volume,
                                          NULL),
                     POTTLE_OK);
    ck_assert_msg(within(volume.median, sqrt(48) * 2 * CUP_ML, 1e-6), "%.2f mL",
                  volume.median);
    close_batch(&b);
    /* and nothing does where the print cannot be */
    b = open_batch("rhubarb-stewed", NULL);
    volume = untouched;
    ck_assert_int_eq(pottlei_cook_predict(kitchen, b.recipe, b.part, 0,
                                          (pottle_length){ 12.7 }, &volume,
                                          &error),
                     POTTLE_ENOENT);
    ck_assert(volume.median > 76.9 && volume.median < 77.1);
    close_batch(&b);
}
END_TEST

/* Both together lie between the two, and are surer than either. */
START_TEST(print_and_balance_meet)
{
    batch b = open_batch("chile-salsa", NULL);
    pottle_estimate balance = { 0, 0 }, both = { 0, 0 };
    ck_assert_int_eq(pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts,
                                          &balance, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottlei_cook_predict(kitchen, b.recipe, b.part, b.parts,
                                          (pottle_length){ 12.7 }, &both, NULL),
                     POTTLE_OK);
    const double print = sqrt(48) * 2 * CUP_ML;
    ck_assert_msg(both.median > fmin(print, balance.median) &&
                      both.median < fmax(print, balance.median),
                  "print %.0f, balance %.0f, both %.0f mL", print,
                  balance.median, both.median);
    ck_assert_double_lt(both.sd, balance.sd);
    close_batch(&b);
    /* an impossible print is not used */
    b = open_batch("rhubarb-stewed", NULL);
    ck_assert_int_eq(pottlei_cook_balance(kitchen, b.recipe, b.part, b.parts,
                                          &balance, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottlei_cook_predict(kitchen, b.recipe, b.part, b.parts,
                                          (pottle_length){ 12.7 }, &both, NULL),
                     POTTLE_OK);
    ck_assert_msg(within(both.median, balance.median, 1e-12),
                  "balance %.2f, predicted %.2f", balance.median, both.median);
    close_batch(&b);
}
END_TEST

TCase *
cook_balance(void)
{
    TCase *t = tcase_create("balance");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, nothing_is_made_of_nothing, 0, kitchen_ids);
    tcase_add_loop_test(t, water_and_solids_close, 0, kitchen_ids);
    tcase_add_test(t, more_water_changes_no_gel);
    tcase_add_test(t, a_cup_of_cut_produce_is_fuller);
    tcase_add_test(t, nothing_to_cook_is_told);
    tcase_add_test(t, print_and_balance_meet);
    return t;
}
