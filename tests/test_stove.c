/* test_stove.c - the weight and the time to stop at, by hand and over the whole
 * catalogue. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/stove.h"
#include "kitchen_help.h"
#include "suite.h"

/* -- When to stop ---------------------------------------------------------- */

/* Berry jam by hand. 4 cups of crushed berries at 232 g and 4 of sugar at 200 g
 * are 1728 g; solids 928 x 0.1185 + 800 x 0.9998 = 109.968 + 799.840 = 909.808
 * g (SR26 09042 and 19335). In a pot of 2100 g the scale shows 3828 g. At 62 %
 * solids 1467.43 g are left, so it stops at 3567.4 g and 260.6 g boil off. 3700
 * g after 10 minutes: 12.8 g/min, 132.57 g still to go, 10.36 min. Twice the
 * batch: 2 x 260.57 / 12.8. */
static pottle_stove
berry_stove(void)
{
    return (pottle_stove){ .version = POTTLE_STOVE_VERSION,
                           .tare_g = 2100,
                           .started_g = 3828 };
}

/* Where the pot is to stop; a failure ends the test. */
static void
target(const answer *a, const pottle_stove *s, pottle_cook_goal *out)
{
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_cook_target(kitchen, a->plan, s, out, &error) ==
                      POTTLE_OK,
                  "%s", error.what);
}

START_TEST(stop_by_hand)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin", .batches = 1 });
    pottle_stove s = berry_stove();
    pottle_cook_goal g;
    target(&a, &s, &g);
    ck_assert_int_eq(g.stop, POTTLE_STOP_MASS);
    ck_assert_double_eq_tol(g.net_g, 1728, 1e-9);
    ck_assert_msg(within(g.solids_g.median, 909.808, 1e-5),
                  "909.808 g of solids by hand, found %.3f", g.solids_g.median);
    ck_assert_msg(within(g.reading_g.expected, 3567.43, 1e-5),
                  "3567.43 g by hand, found %.2f", g.reading_g.expected);
    ck_assert_msg(within(g.boil_off_g.expected, 260.57, 1e-4),
                  "260.57 g by hand, found %.2f", g.boil_off_g.expected);
    ck_assert(g.reading_g.low < g.reading_g.expected &&
              g.reading_g.expected < g.reading_g.high &&
              g.reading_g.high <= s.started_g);
    ck_assert(g.boil_off_g.low >= 0 &&
              g.boil_off_g.low < g.boil_off_g.expected &&
              g.boil_off_g.expected < g.boil_off_g.high);
    /* only water goes, at about 1 mL/g */
    ck_assert_msg(fabs(g.start_ml - g.stop_ml.median - 260.57) < 15,
                  "%.0f mL to %.0f mL", g.start_ml, g.stop_ml.median);
    ck_assert_double_eq_tol(g.depth_share.median, g.stop_ml.median / g.start_ml,
                            1e-12);
    ck_assert(!g.has_now && !g.has_forecast && !g.has_twice);

    s.now_g = 3700;
    s.after_min = 10;
    target(&a, &s, &g);
    ck_assert(g.has_now && !g.done && !g.has_forecast);
    ck_assert_double_eq_tol(g.rate_g_min.median, 12.8, 1e-9);
    ck_assert_msg(within(g.left_g.expected, 132.57, 1e-4),
                  "132.57 g by hand, found %.2f", g.left_g.expected);
    ck_assert_msg(within(g.left_min.expected, 10.357, 1e-4),
                  "10.357 min by hand, found %.3f", g.left_min.expected);
    ck_assert_msg(g.has_twice && within(g.twice_min.expected, 40.71, 1e-3),
                  "40.71 min by hand, found %.2f", g.twice_min.expected);
    ck_assert_double_eq_tol(g.twice_factor, 2, 1e-12);
    ck_assert(g.left_min.low < g.left_min.expected &&
              g.left_min.expected < g.left_min.high && g.left_min.low >= 0);

    /* past it */
    s.now_g = 3500;
    target(&a, &s, &g);
    ck_assert(g.done && g.left_g.expected <= 0 && g.left_min.expected <= 0);
    answer_free(&a);
}
END_TEST

/* Chile salsa simmers 10 minutes by the clock. Weighed as the recipe has it (a
 * pot of 2000 g), 40 g lighter after 4 minutes: 10 g/min, so 60 g more go in
 * the 6 minutes left. */
START_TEST(stop_by_the_clock)
{
    answer a = kitchen_plan(&(asked){ .recipe = "chile-salsa", .batches = 1 });
    pottle_balance b;
    pottle_cook_goal g;
    ck_assert_int_eq(pottle_cook_balance(kitchen, a.plan, 0, &b, NULL),
                     POTTLE_OK);
    pottle_stove s = { .version = POTTLE_STOVE_VERSION,
                       .tare_g = 2000,
                       .started_g = 2000 + b.mass_in_g,
                       .now_g = 1960 + b.mass_in_g,
                       .after_min = 4,
                       .burner_w = 2000 };
    target(&a, &s, &g);
    ck_assert_int_eq(g.stop, POTTLE_STOP_CLOCK);
    ck_assert(g.has_now && !g.done && !g.has_forecast && !g.has_twice);
    ck_assert_double_eq_tol(g.left_min.expected, 6, 1e-9);
    ck_assert_double_eq_tol(g.left_g.expected, 60, 1e-6);
    ck_assert_double_eq_tol(g.reading_g.expected, s.now_g - 60, 1e-6);
    ck_assert_double_eq_tol(g.boil_off_g.expected, 100, 1e-6);
    ck_assert_msg(fabs(g.start_ml - g.stop_ml.median - 100) < 3,
                  "%.1f mL to %.1f mL", g.start_ml, g.stop_ml.median);
    s.after_min = 12;
    target(&a, &s, &g);
    ck_assert(g.done && g.left_min.expected <= 0 && g.left_g.expected <= 0);
    answer_free(&a);
}
END_TEST

/* 72 g more than the recipe weighs, by hand: berries 928 g with a spread of
 * 0.08 (74.24 g), sugar 800 g with 0.015 (12 g): variance of the mass 5511.6 +
 * 144 = 5655.6, covariance with the solids 5511.6 x 0.1185 + 144 x 0.9998 =
 * 797.1. The scale errs by 0.005 of 3900 and of 2100 g: 490.6. So the solids
 * move by 797.1 / (5655.6 + 490.6) x 72 = 9.34 g to 919.15 g: mostly fruit, not
 * sugar. */
START_TEST(scale_moves_the_solids)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin", .batches = 1 });
    pottle_stove s = berry_stove();
    pottle_cook_goal g, plain;
    target(&a, &s, &plain);
    s.started_g += 72;
    target(&a, &s, &g);
    ck_assert_msg(fabs(g.solids_g.median - 919.15) <= 0.06,
                  "919.15 g by hand, found %.3f", g.solids_g.median);
    ck_assert(g.solids_g.sd < 0.02);
    /* the pot itself moves nothing but the reading */
    s = berry_stove();
    s.tare_g += 500;
    s.started_g += 500;
    target(&a, &s, &g);
    ck_assert_double_eq_tol(g.reading_g.expected,
                            plain.reading_g.expected + 500, 1e-6);
    answer_free(&a);
}
END_TEST

/* Forecast by hand. 2 kW electric: 74 to 80 % (US Department of Energy, as
 * quoted), middle sqrt(0.74 x 0.80) = 0.76942; latent heat 2256.5 J/g
 * (IAPWS-IF97): 2000 x 0.76942 x 60 / 2256.5 = 40.917 g/min, so 260.57 g
 * take 6.368 min. Warming 1728 g from 20 to 99.974 deg C at 0.837 + 3.349 x
 * 818.19 / 1728 = 2.4227 J/(g K) takes 334,807 J: / 120,000 J/min / 0.76942
 * = 3.626 min. 28 cm alone: 615.75 cm2 x 4.6 / 100 = 28.325 g/min. */
START_TEST(forecast_by_hand)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin", .batches = 1 });
    pottle_stove s = berry_stove();
    pottle_cook_goal burner, pot, both, gas, high, unknown;
    s.burner_w = 2000;
    target(&a, &s, &unknown);
    s.hob = POTTLE_HOB_ELECTRIC;
    target(&a, &s, &burner);
    ck_assert(burner.has_forecast && !burner.has_now);
    ck_assert_msg(within(burner.forecast_rate_g_min.median, 40.917, 1e-4),
                  "40.917 g/min by hand, found %.3f",
                  burner.forecast_rate_g_min.median);
    ck_assert_msg(within(burner.heat_up_min.median, 3.626, 1e-3),
                  "3.626 min by hand, found %.3f", burner.heat_up_min.median);
    ck_assert_msg(within(burner.forecast_min.expected, 3.626 + 6.368, 1e-3),
                  "9.994 min by hand, found %.3f",
                  burner.forecast_min.expected);
    ck_assert_msg(within(burner.twice_min.expected, 2 * 6.368, 1e-3),
                  "12.736 min by hand, found %.3f", burner.twice_min.expected);
    s.hob = POTTLE_HOB_GAS;
    target(&a, &s, &gas);
    ck_assert(gas.forecast_min.expected > burner.forecast_min.expected &&
              unknown.forecast_rate_g_min.sd > gas.forecast_rate_g_min.sd);
    s.hob = POTTLE_HOB_INDUCTION;
    s.pot_width.mm = 280;
    target(&a, &s, &both);
    s.burner_w = 0;
    target(&a, &s, &pot);
    ck_assert_msg(within(pot.forecast_rate_g_min.median, 28.325, 1e-4),
                  "28.325 g/min by hand, found %.3f",
                  pot.forecast_rate_g_min.median);
    ck_assert(both.forecast_rate_g_min.median >
                  pot.forecast_rate_g_min.median &&
              both.forecast_rate_g_min.sd < pot.forecast_rate_g_min.sd);
    /* a weak burner pays for what it boils off, however wide the pot */
    s.burner_w = 300;
    s.hob = POTTLE_HOB_ELECTRIC;
    s.pot_width.mm = 600;
    target(&a, &s, &pot);
    ck_assert_msg(within(pot.forecast_rate_g_min.median, 40.917 * 0.15, 1e-4),
                  "%.3f g/min", pot.forecast_rate_g_min.median);
    /* higher up it boils sooner and gives off a little less: 2282.5 J/g at 90
     * deg C (steam table) */
    s = berry_stove();
    s.burner_w = 2000;
    s.hob = POTTLE_HOB_ELECTRIC;
    s.has_altitude = true;
    s.altitude_m = 2980; /* about 90 deg C */
    target(&a, &s, &high);
    ck_assert(high.heat_up_min.median < burner.heat_up_min.median);
    ck_assert_msg(
        within(high.forecast_rate_g_min.median, 40.917 * 2256.5 / 2282.5, 5e-4),
        "%.3f g/min", high.forecast_rate_g_min.median);
    /* two weighings are surer than any forecast */
    s.now_g = 3700;
    s.after_min = 10;
    target(&a, &s, &pot);
    ck_assert(pot.has_now && !pot.has_forecast &&
              pot.rate_g_min.sd < burner.forecast_rate_g_min.sd);
    answer_free(&a);
}
END_TEST

/* Weighed as the recipe says, the pot stops where the balance ends, for every
 * recipe that is boiled down. */
START_TEST(stop_is_where_the_balance_ends)
{
    answer a = kitchen_plan(&(asked){ .recipe = kitchen_id[_i], .batches = 1 });
    pottle_balance b;
    pottle_cook_goal g;
    pottle_error error = { .status = POTTLE_OK };
    pottle_stove s = { .version = POTTLE_STOVE_VERSION,
                       .tare_g = 1500,
                       .started_g = 1600,
                       .burner_w = 1800 };
    if (pottle_cook_balance(kitchen, a.plan, 0, &b, NULL) == POTTLE_OK) {
        s.started_g = s.tare_g + b.water_in_g + b.solids_in_g - b.drained_g;
        const pottle_status status =
            pottle_cook_target(kitchen, a.plan, &s, &g, &error);
        const pottle_cook *cook = pottle_recipe_cook(a.recipe);
        const bool boils = cook->end == POTTLE_END_GEL_POINT ||
                           cook->end == POTTLE_END_BUTTER ||
                           cook->end == POTTLE_END_REDUCE ||
                           cook->end == POTTLE_END_ADDED_PECTIN ||
                           (cook->end == POTTLE_END_SIMMER && !cook->covered &&
                            cook->minutes > 0);
        ck_assert_msg(status == (boils ? POTTLE_OK : POTTLE_ENOENT), "%s: %s",
                      kitchen_id[_i], error.what);
        if (boils) {
            ck_assert_msg(within(g.stop_g.median, b.finished_g.median, 1e-9),
                          "%s: %.3f g, balance %.3f", kitchen_id[_i],
                          g.stop_g.median, b.finished_g.median);
            ck_assert_msg(within(g.boil_off_g.expected, b.evaporated_g, 1e-6),
                          "%s: %.3f g boil off, balance %.3f", kitchen_id[_i],
                          g.boil_off_g.expected, b.evaporated_g);
            ck_assert_int_eq(g.stop, cook->end == POTTLE_END_SIMMER
                                         ? POTTLE_STOP_CLOCK
                                         : POTTLE_STOP_MASS);
            ck_assert_int_eq(g.has_forecast, g.stop == POTTLE_STOP_MASS);
            ck_assert_msg(g.depth_share.median > 0 &&
                              g.depth_share.median < 1 &&
                              g.forecast_min.low >= 0 &&
                              g.forecast_min.low <= g.forecast_min.expected,
                          "%s: depth %.4f, %.1f to %.1f min", kitchen_id[_i],
                          g.depth_share.median, g.forecast_min.low,
                          g.forecast_min.expected);
        }
    }
    answer_free(&a);
}
END_TEST

/* Readings that cannot be, each with what it is told. */
START_TEST(readings_are_refused)
{
    static const struct {
        const char *recipe;
        pottle_stove stove;
        pottle_status status;
        const char *code;
    } bad[] = {
        { "berry-jam-no-pectin",
          { .version = 2, .tare_g = 2100, .started_g = 3828 },
          POTTLE_EMISUSE,
          "misuse" },
        { "berry-jam-no-pectin",
          { .version = 1, .pot = 1, .tare_g = 2100, .started_g = 3828 },
          POTTLE_ENOENT,
          "no-pot" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 0, .started_g = 3828 },
          POTTLE_EDOMAIN,
          "weights" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = (double)NAN, .started_g = 3828 },
          POTTLE_EDOMAIN,
          "weights" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = HUGE_VAL },
          POTTLE_EDOMAIN,
          "weights" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = 2000 },
          POTTLE_EDOMAIN,
          "contradiction" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = 5400 },
          POTTLE_EDOMAIN,
          "contradiction" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = 3000 },
          POTTLE_EDOMAIN,
          "contradiction" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = 3828, .now_g = 3700 },
          POTTLE_EDOMAIN,
          "second-reading" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = 3828, .after_min = 5 },
          POTTLE_EDOMAIN,
          "second-reading" },
        { "berry-jam-no-pectin",
          { .version = 1,
            .tare_g = 2100,
            .started_g = 3828,
            .now_g = (double)NAN,
            .after_min = 5 },
          POTTLE_EDOMAIN,
          "second-reading" },
        { "berry-jam-no-pectin",
          { .version = 1,
            .tare_g = 2100,
            .started_g = 3828,
            .now_g = 3900,
            .after_min = 5 },
          POTTLE_EDOMAIN,
          "contradiction" },
        { "berry-jam-no-pectin",
          { .version = 1,
            .tare_g = 2100,
            .started_g = 3828,
            .now_g = 2700,
            .after_min = 5 },
          POTTLE_EDOMAIN,
          "contradiction" },
        { "berry-jam-no-pectin",
          { .version = 1,
            .tare_g = 2100,
            .started_g = 3828,
            .now_g = 2000,
            .after_min = 5 },
          POTTLE_EDOMAIN,
          "contradiction" },
        { "berry-jam-no-pectin",
          { .version = 1, .tare_g = 2100, .started_g = 3828, .burner_w = -1 },
          POTTLE_EDOMAIN,
          "burner" },
        { "berry-jam-no-pectin",
          { .version = 1,
            .tare_g = 2100,
            .started_g = 3828,
            .pot_width = { 5000 } },
          POTTLE_EDOMAIN,
          "burner" },
        { "berry-jam-no-pectin",
          { .version = 1,
            .tare_g = 2100,
            .started_g = 3828,
            .has_altitude = true,
            .altitude_m = 5000 },
          POTTLE_EDOMAIN,
          "altitude" },
        { "bread-and-butter-pickles",
          { .version = 1, .tare_g = 2100, .started_g = 3828 },
          POTTLE_ENOENT,
          "no-end-point" },
        { "peach-pie-filling",
          { .version = 1, .tare_g = 2100, .started_g = 3828 },
          POTTLE_ENOENT,
          "no-end-point" },
        { "mexican-tomato-sauce",
          { .version = 1, .tare_g = 2100, .started_g = 3828 },
          POTTLE_ENOENT,
          "no-end-point" },
        { "tomatoes-crushed",
          { .version = 1, .tare_g = 2100, .started_g = 3828 },
          POTTLE_ENOENT,
          "no-end-point" },
        { "tomato-sauce-standard",
          { .version = 1, .tare_g = 2100, .started_g = 3828 },
          POTTLE_ENOENT,
          "no-end-point" },
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        answer a =
            kitchen_plan(&(asked){ .recipe = bad[i].recipe, .batches = 1 });
        pottle_cook_goal g = { .net_g = 77 };
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_msg(pottle_cook_target(kitchen, a.plan, &bad[i].stove, &g,
                                         &error) == bad[i].status,
                      "case %zu: %s", i, error.what);
        ck_assert_msg(strcmp(error.code, bad[i].code) == 0,
                      "case %zu: %s, not %s", i, error.code, bad[i].code);
        ck_assert_msg(bad[i].status != POTTLE_EDOMAIN ||
                          strcmp(error.code, "contradiction") != 0 ||
                          strstr(error.what, "standard deviations") != NULL ||
                          bad[i].stove.started_g < 2100,
                      "case %zu: %s", i, error.what);
        ck_assert(g.net_g > 76.9 && g.net_g < 77.1);
        /* simmered until a third of it has gone (guide 3) */
        ck_assert(strcmp(bad[i].recipe, "tomato-sauce-standard") != 0 ||
                  strstr(error.what, "is boiled down by about a third"));
        answer_free(&a);
    }
    answer a =
        kitchen_plan(&(asked){ .recipe = "berry-jam-no-pectin", .batches = 1 });
    const pottle_stove s = berry_stove();
    pottle_cook_goal g;
    ck_assert_int_eq(pottle_cook_target(NULL, a.plan, &s, &g, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_cook_target(kitchen, NULL, &s, &g, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_cook_target(kitchen, a.plan, NULL, &g, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_cook_target(kitchen, a.plan, &s, NULL, NULL),
                     POTTLE_EMISUSE);
    answer_free(&a);
}
END_TEST

/* -- Words ----------------------------------------------------------------- */

START_TEST(powers_and_times_are_read)
{
    static const struct {
        const char *text;
        bool power;
        double value;
        pottle_status status;
    } words[] = {
        { "2 kW", true, 2000, POTTLE_OK },
        { "1800 W", true, 1800, POTTLE_OK },
        { "1.5kw", true, 1500, POTTLE_OK },
        { " 1 1/2 kilowatts ", true, 1500, POTTLE_OK },
        { "2", true, 0, POTTLE_EUNIT },
        { "2 lb", true, 0, POTTLE_EUNIT },
        { "kW", true, 0, POTTLE_ESYNTAX },
        { "1,5 kW", true, 0, POTTLE_ESYNTAX },
        { "2-3 kW", true, 0, POTTLE_EDOMAIN },
        { "0 W", true, 0, POTTLE_EDOMAIN },
        { "2 kW 3 W", true, 0, POTTLE_ESYNTAX },
        { "", true, 0, POTTLE_ESYNTAX },
        { "20 min", false, 20, POTTLE_OK },
        { "1 h 15 min", false, 75, POTTLE_OK },
        { "1 1/2 hours", false, 90, POTTLE_OK },
        { "90 s", false, 1.5, POTTLE_OK },
        { "20", false, 0, POTTLE_EUNIT },
        { "20 minutes ago", false, 0, POTTLE_ESYNTAX },
        { "0 min", false, 0, POTTLE_EDOMAIN },
        { "20 kW", false, 0, POTTLE_EUNIT },
        { "1000000000000 h", false, 0, POTTLE_EDOMAIN },
        { "-5 min", false, 0, POTTLE_ESYNTAX },
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        double value = 77;
        const pottle_status status =
            words[i].power ? pottle_power_read(words[i].text, &value, NULL)
                           : pottle_minutes_read(words[i].text, &value, NULL);
        ck_assert_msg(status == words[i].status, "'%s': status %d",
                      words[i].text, (int)status);
        ck_assert_msg(
            within(value, status == POTTLE_OK ? words[i].value : 77, 1e-12),
            "'%s': %g", words[i].text, value);
    }
    double value = 0;
    ck_assert_int_eq(pottle_power_read(NULL, &value, NULL), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_minutes_read("1 h", NULL, NULL), POTTLE_EMISUSE);
    pottle_hob hob = POTTLE_HOB_UNKNOWN;
    ck_assert_int_eq(pottle_hob_find("gas", &hob, NULL), POTTLE_OK);
    ck_assert_int_eq(hob, POTTLE_HOB_GAS);
    ck_assert_int_eq(pottle_hob_find("wood", &hob, NULL), POTTLE_ENOENT);
    ck_assert_int_eq(pottle_hob_find(NULL, &hob, NULL), POTTLE_EMISUSE);
    ck_assert_int_eq(hob, POTTLE_HOB_GAS);
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("stove");
    TCase *tcase = tcase_create("words");
    tcase_add_test(tcase, powers_and_times_are_read);
    suite_add_tcase(suite, tcase);
    tcase = tcase_create("stop");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, stop_by_hand);
    tcase_add_test(tcase, stop_by_the_clock);
    tcase_add_test(tcase, scale_moves_the_solids);
    tcase_add_test(tcase, forecast_by_hand);
    tcase_add_loop_test(tcase, stop_is_where_the_balance_ends, 0, kitchen_ids);
    tcase_add_test(tcase, readings_are_refused);
    suite_add_tcase(suite, tcase);
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
