/* scale_holdings.c - test_scale: what a plan holds: pots, measures, warnings,
 * processes, the remainder. */
#include <config.h>

#include <string.h>

#include "scale_cases.h"

START_TEST(pots_add_up)
{
    static const struct {
        const char *recipe;
        double batches;
    } rows[] = {
        { "chile-salsa", 4.7 },       { "apple-pie-filling", 2.3 },
        { "pickled-asparagus", 1.5 }, { "apple-jelly-no-pectin", 3.25 },
        { "cranberry-sauce", 5 },     { "rummage-relish", 0.37 },
    };
    const size_t i = (size_t)_i;
    ck_assert_uint_lt(i, sizeof rows / sizeof rows[0]);
    answer a = kitchen_plan(
        &(asked){ .recipe = rows[i].recipe, .batches = rows[i].batches });
    size_t pots = 0, lines = 0, same = 0;
    const double *pot = pottle_plan_pots(a.plan, &pots);
    const pottle_line *total =
        pottle_plan_lines(a.plan, POTTLE_ALL_POTS, &lines);
    double factor = 0;
    for (size_t p = 0; p < pots; p++)
        factor += pot[p];
    CHECK_NEAR(factor, rows[i].batches, rows[i].recipe);
    for (size_t l = 0; l < lines; l++) {
        double mass = 0, volume = 0, count = 0;
        for (size_t p = 0; p < pots; p++) {
            const pottle_line *line = pottle_plan_lines(a.plan, p, &same);
            ck_assert_uint_eq(same, lines);
            ck_assert(line[l].ingredient == total[l].ingredient);
            mass += line[l].mass_g;
            volume += line[l].volume_ml;
            count += line[l].count;
        }
        CHECK_NEAR(total[l].mass_g, mass, total[l].food);
        CHECK_NEAR(total[l].volume_ml, volume, total[l].food);
        CHECK_NEAR(total[l].count, count, total[l].food);
    }
    ck_assert(pottle_plan_lines(a.plan, pots, &same) == total);
    answer_free(&a);
}
END_TEST

/* A kitchen measure of 1.4 lb onions, that may not rise, and 1.4 cups vinegar,
 * that may not fall: within 3 % on the free side. */
START_TEST(measures_round_to_the_side_that_is_allowed)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "chile-salsa", .batches = 1.4 });
    const pottle_line *onion = line_of_food(a.plan, "onion"),
                      *vinegar = line_of_food(a.plan, "vinegar"),
                      *tomato = line_of_food(a.plan, "tomato");
    ck_assert(onion->has_measure && vinegar->has_measure &&
              tomato->has_measure);
    ck_assert_msg(onion->measure.base <= 1.4 * POUND_G * (1 + TINY) &&
                      onion->measure.base >= 0.97 * 1.4 * POUND_G,
                  "onions %.3f g", onion->measure.base);
    ck_assert_msg(vinegar->measure.base >= 1.4 * CUP_ML * (1 - TINY) &&
                      vinegar->measure.base <= 1.03 * 1.4 * CUP_ML,
                  "vinegar %.3f mL", vinegar->measure.base);
    CHECK_NEAR(tomato->measure.base, 7 * POUND_G,
               "7 lb of tomatoes can be weighed as they are");
    answer_free(&a);
}
END_TEST

START_TEST(warnings_are_given_where_they_belong)
{
    /* jam in boiling water for 5 minutes: the jars are sterilised; 10 minutes
     * and more: not (USDA guide 1) */
    answer a = kitchen_plan(&(asked){
        .recipe = "berry-jam-no-pectin", .batches = 1, .altitude = "100 m" });
    ck_assert(has_warning(a.plan, "sterile-jars"));
    ck_assert(!has_warning(a.plan, "altitude"));
    answer_free(&a);
    a = kitchen_plan(&(asked){
        .recipe = "berry-jam-no-pectin", .batches = 1, .altitude = "1900 m" });
    ck_assert(!has_warning(a.plan, "sterile-jars"));
    answer_free(&a);
    /* without an altitude, all bands and a word about it */
    a = kitchen_plan(&(asked){ .recipe = "chile-salsa", .batches = 1 });
    size_t n = 1, tables = 0;
    pottle_plan_processes(a.plan, &n);
    ck_assert_uint_eq(n, 0);
    pottle_plan_tables(a.plan, &tables);
    ck_assert_uint_eq(tables, 1);
    ck_assert(has_warning(a.plan, "altitude"));
    answer_free(&a);
    /* a half-pint of salsa takes the pint's process */
    a = kitchen_plan(&(asked){ .recipe = "chile-salsa",
                               .batches = 1,
                               .jar = "half-pint",
                               .altitude = "100 m" });
    const pottle_process *p = pottle_plan_processes(a.plan, &n);
    ck_assert_uint_eq(n, 1);
    ck_assert_str_eq(p->tested_as->id, "pint");
    ck_assert_int_eq(p->band->minutes, 15);
    ck_assert(has_warning(a.plan, "jar-tested-as"));
    answer_free(&a);
    /* above 8,000 ft the open band is not confirmed by every copy (figure
     * altitude-confirmed); at 8,000 ft it is */
    a = kitchen_plan(&(asked){
        .recipe = "chile-salsa", .batches = 1, .altitude = "2600 m" });
    ck_assert(has_warning(a.plan, "altitude-high"));
    answer_free(&a);
    a = kitchen_plan(&(asked){
        .recipe = "chile-salsa", .batches = 1, .altitude = "2400 m" });
    ck_assert(!has_warning(a.plan, "altitude-high"));
    answer_free(&a);
}
END_TEST

/* A freezer jam has no process, and any altitude is fine with it. */
START_TEST(what_is_not_canned_has_no_process)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-freezer-jam-powdered-pectin",
                               .batches = 1,
                               .altitude = "3000 m" });
    size_t n = 1;
    pottle_plan_processes(a.plan, &n);
    ck_assert_uint_eq(n, 0);
    pottle_plan_tables(a.plan, &n);
    ck_assert_uint_eq(n, 0);
    unsigned long per_load = 77;
    ck_assert_uint_eq(pottle_plan_loads(a.plan, &per_load), 0);
    ck_assert_uint_eq(per_load, 0);
    answer_free(&a);
}
END_TEST

/* The remainder goes into a smaller tested jar that it fills, never into a
 * larger or an emptier one. */
START_TEST(the_remainder_fills_a_smaller_jar)
{
    size_t found = 0;
    for (int i = 1; i <= 40; i++) {
        answer a = kitchen_plan(
            &(asked){ .recipe = "tomatoes-crushed", .batches = i / 20.0 });
        const pottle_jar *smaller = pottle_plan_smaller(a.plan);
        const pottle_jar_count *jars = pottle_plan_jars(a.plan);
        ck_assert(jars->remainder_ml >= 0 &&
                  jars->remainder_ml < jars->fill_ml.median * (1 + TINY));
        CHECK_NEAR(
            (double)jars->full * jars->fill_ml.median + jars->remainder_ml,
            jars->volume_ml.median, "full jars and the remainder are all");
        if (smaller != NULL) {
            /* at 1/2 in a jar holds its nominal volume (yield study, section 1)
             */
            ck_assert_msg(
                smaller->nominal_ml < jars->jar->nominal_ml &&
                    smaller->nominal_ml <= jars->remainder_ml * (1 + TINY),
                "%g mL are left for a %s", jars->remainder_ml, smaller->id);
            found++;
        }
        answer_free(&a);
    }
    ck_assert_uint_gt(found, 10);
}
END_TEST

TCase *
scale_holdings(void)
{
    TCase *tcase = tcase_create("what a plan holds");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_loop_test(tcase, pots_add_up, 0, 6);
    tcase_add_test(tcase, measures_round_to_the_side_that_is_allowed);
    tcase_add_test(tcase, warnings_are_given_where_they_belong);
    tcase_add_test(tcase, what_is_not_canned_has_no_process);
    tcase_add_test(tcase, the_remainder_fills_a_smaller_jar);
    return tcase;
}
