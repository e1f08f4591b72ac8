/* test_gel.c - the gel point against its published table, and by the physics.
 */
#include <config.h>

#include <math.h>

#include "kitchen_help.h"
#include "suite.h"

/* Rule jam-08: USDA Complete Guide, guide 7, gelling points (read in
 * copies); it is printed in whole degrees, and 1 deg F is asked. */
static const struct {
    double feet, degF;
} printed_gel[] = { { 0, 220 },    { 1000, 218 }, { 2000, 216 },
                    { 3000, 214 }, { 4000, 212 }, { 5000, 211 },
                    { 6000, 209 }, { 7000, 207 }, { 8000, 205 } };
enum { PRINTED_GEL = sizeof printed_gel / sizeof printed_gel[0] };

static double
in_degF(pottle_temperature t)
{
    return 1.8 * t.degC + 32;
}

START_TEST(gel_point_is_as_printed)
{
    const double altitude = printed_gel[_i].feet * FOOT_M;
    pottle_gel g;
    ck_assert_int_eq(pottle_gel_point(&altitude, NULL, &g, NULL), POTTLE_OK);
    ck_assert_msg(fabs(in_degF(g.rule) - printed_gel[_i].degF) <= 1,
                  "USDA guide 7, %.0f ft: %.0f deg F; found %.2f",
                  printed_gel[_i].feet, printed_gel[_i].degF, in_degF(g.rule));
    ck_assert_double_eq_tol(in_degF(g.rule) - in_degF(g.boiling), 8, 1e-9);
    ck_assert(!g.measured && !g.has_standard);
    /* the physics lies within 2 deg F of the rule, and the two series disagree
     * by 2 to 4 Brix */
    for (size_t i = 0; i < 2; i++)
        ck_assert_msg(fabs(in_degF(g.at_65[i]) - in_degF(g.rule)) < 2 &&
                          g.brix[i] > 64 && g.brix[i] < 70,
                      "%.0f ft: %.2f deg F, %.1f Brix", printed_gel[_i].feet,
                      in_degF(g.at_65[i]), g.brix[i]);
    ck_assert(g.brix[1] - g.brix[0] > 2 && g.brix[1] - g.brix[0] < 4 &&
              g.at_65[0].degC > g.at_65[1].degC);
}
END_TEST

/* 8 deg F (4.44 K) is 65.1 Brix in the table of 1912 and 67.9 by the equation
 * of 1997; 65 Brix boils 4.4 K and 3.8 K above water (both worked out beside
 * the figures they come from, before this code). A jelly of 65 Brix was
 * measured at 3.9 K (experimental cookery, 1930s). Measured with a
 * thermometer: 89.932 deg C is 70 kPa, and 93.485 is 80 kPa (IAPWS-IF97). At
 * sea level 3.8 K more are 103.774 deg C, which is 115 + 5 x (103.774 -
 * 103.560) / (104.784 - 103.560) = 115.87 kPa, so the water's activity is
 * 101.325 / 115.87; under 70 kPa such a solution boils where water does
 * under 80.05 kPa: at 93.50 deg C, 3.57 K above water and not 3.8. */
START_TEST(gel_point_by_thermometer)
{
    pottle_gel g, high;
    ck_assert_int_eq(pottle_gel_point(NULL, NULL, &g, NULL), POTTLE_OK);
    ck_assert_msg(fabs(g.brix[0] - 65.1) <= 0.1 &&
                      fabs(g.brix[1] - 67.9) <= 0.1,
                  "8 deg F: 65.1 and 67.9 Brix; found %.2f and %.2f", g.brix[0],
                  g.brix[1]);
    ck_assert_msg(fabs(g.at_65[0].degC - g.boiling.degC - 4.4) <= 0.05 &&
                      fabs(g.at_65[1].degC - g.boiling.degC - 3.8) <= 0.05,
                  "65 Brix: 4.4 and 3.8 K; found %.2f and %.2f",
                  g.at_65[0].degC - g.boiling.degC,
                  g.at_65[1].degC - g.boiling.degC);
    const double altitude = 500;
    const pottle_temperature boiling = { 89.932 };
    ck_assert_int_eq(pottle_gel_point(&altitude, &boiling, &high, NULL),
                     POTTLE_OK);
    ck_assert(high.measured && high.has_standard);
    ck_assert_double_eq_tol(high.boiling.degC, 89.932, 1e-12);
    ck_assert_double_eq_tol(high.rule.degC, 89.932 + 8 / 1.8, 1e-6);
    ck_assert_msg(within(high.pressure.pa, 70000, 1e-4),
                  "IAPWS-IF97: 70 kPa; found %.1f Pa", high.pressure.pa);
    ck_assert_msg(fabs(high.at_65[1].degC - 93.50) <= 0.05,
                  "93.50 deg C by hand, found %.3f", high.at_65[1].degC);
    ck_assert(high.standard.degC > 98 && high.standard.degC < 99);
    ck_assert(high.at_65[0].degC - high.boiling.degC <
              g.at_65[0].degC - g.boiling.degC);
}
END_TEST

START_TEST(gel_point_is_refused)
{
    static const double altitudes[] = { -1, 4501, (double)NAN, HUGE_VAL },
                        boilings[] = { 84.9, 102.1, (double)NAN, 212 };
    pottle_gel g = { .brix = { 77, 78 } };
    pottle_error error = { .status = POTTLE_OK };
    for (size_t i = 0; i < 4; i++) {
        const pottle_temperature t = { boilings[i] };
        ck_assert_int_eq(pottle_gel_point(&altitudes[i], NULL, &g, &error),
                         POTTLE_EDOMAIN);
        ck_assert_str_eq(error.code, "altitude");
        ck_assert_int_eq(pottle_gel_point(NULL, &t, &g, &error),
                         POTTLE_EDOMAIN);
        ck_assert_str_eq(error.code, "boiling");
    }
    ck_assert(g.brix[0] > 76.9 && g.brix[0] < 77.1);
    ck_assert_int_eq(pottle_gel_point(NULL, NULL, NULL, NULL), POTTLE_EMISUSE);
    /* the ends of both ranges are answered */
    const double top = 4500;
    const pottle_temperature cold = { 85 }, hot = { 102 };
    ck_assert_int_eq(pottle_gel_point(&top, NULL, &g, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_gel_point(NULL, &cold, &g, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_gel_point(NULL, &hot, &g, NULL), POTTLE_OK);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("gel");
    TCase *tcase = tcase_create("point");
    tcase_add_loop_test(tcase, gel_point_is_as_printed, 0, PRINTED_GEL);
    tcase_add_test(tcase, gel_point_by_thermometer);
    tcase_add_test(tcase, gel_point_is_refused);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
