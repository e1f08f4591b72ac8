/* test_matter.c - water, air and sugar against published values.
 *
 * Values stand as printed; a tolerance is half a unit of the last printed
 * digit, or the error the source states. ROUNDING is for the doubles between.
 */
#include <config.h>

#include <math.h>

#include "matter_cases.h"
#include "suite.h"

bool
near(double a, double b, double tolerance)
{
    return fabs(a - b) <= tolerance;
}

/* -- Water ----------------------------------------------------------------- */

/* kg/m3 at 0, 1, ... 40 deg C, printed to 0.0001.
 * Source: Tanaka et al., Metrologia 38 (2001) 301-309, table (as carried by two test programs). */
static const double tanaka[] = {
    999.8428, 999.9017, 999.9429, 999.9672, 999.9749, 999.9668, 999.9431,
    999.9045, 999.8513, 999.7839, 999.7027, 999.6081, 999.5005, 999.3801,
    999.2474, 999.1026, 998.9459, 998.7778, 998.5984, 998.4079, 998.2067,
    997.9950, 997.7730, 997.5408, 997.2988, 997.0470, 996.7857, 996.5151,
    996.2353, 995.9465, 995.6488, 995.3424, 995.0275, 994.7041, 994.3724,
    994.0326, 993.6847, 993.3290, 992.9654, 992.5941, 992.2152,
};

START_TEST(water_density)
{
    pottle_density d = { -1 };
    ck_assert_int_eq(pottle_water_density((double)_i, &d), POTTLE_OK);
    ck_assert_msg(near(d.g_ml, 1e-3 * tanaka[_i], 0.5e-7 + ROUNDING),
                  "%d deg C: %.9f g/mL, Tanaka et al. 2001 have %.4f kg/m3", _i,
                  d.g_ml, tanaka[_i]);
}
END_TEST

/* Another equation of state, at 0.1 MPa. The paper gives its own error as
 * 0.00083 kg/m3 and water is denser by 0.0007 at the 1325 Pa more that it is
 * for (compressibility 5e-10/Pa).
 * Source: IAPWS SR7-09, computed with an independent program, printed to 0.0001 kg/m3. */
static const struct {
    double t_degc, kg_m3;
} sr7[] = {
    { 0, 999.8424 },  { 1, 999.9011 },  { 2, 999.9423 },  { 3, 999.9665 },
    { 4, 999.9742 },  { 5, 999.9660 },  { 10, 999.7019 }, { 15, 999.1020 },
    { 16, 998.9455 }, { 18, 998.5980 }, { 20, 998.2065 }, { 22, 997.7729 },
    { 24, 997.2987 }, { 25, 997.0470 }, { 26, 996.7857 }, { 28, 996.2353 },
    { 30, 995.6488 }, { 35, 994.0327 }, { 37, 993.3292 }, { 38, 992.9657 },
    { 40, 992.2158 },
};

START_TEST(water_density_of_another_equation)
{
    pottle_density d = { -1 };
    ck_assert_int_eq(pottle_water_density(sr7[_i].t_degc, &d), POTTLE_OK);
    ck_assert_msg(near(1e3 * d.g_ml, sr7[_i].kg_m3, 0.00083 + 0.0007 + 0.00005),
                  "%g deg C: %.4f kg/m3, IAPWS SR7-09 has %.4f", sr7[_i].t_degc,
                  1e3 * d.g_ml, sr7[_i].kg_m3);
}
END_TEST

static const double no_water[] = {
    -1e-9, -1, 40.0000001, 100, (double)NAN, (double)INFINITY, -(double)INFINITY
};

START_TEST(water_density_refused)
{
    pottle_density d = { -1 };
    ck_assert_int_eq(pottle_water_density(no_water[_i], &d), POTTLE_EDOMAIN);
    ck_assert(near(d.g_ml, -1, 0));
    ck_assert_int_eq(pottle_water_density(20, NULL), POTTLE_EMISUSE);
}
END_TEST

static const struct {
    double pa, kelvin, tolerance;
    const char *source;
} boiling[] = {
    { 0.1e6, 372.755919, 0.5e-6, "IAPWS-IF97 table 36" },
    { 1e6, 453.035632, 0.5e-6, "IAPWS-IF97 table 36" },
    { 10e6, 584.149488, 0.5e-6, "IAPWS-IF97 table 36" },
    /* table 35 has the pressures to 9 digits: half of the last over the slope
     * of the curve there, 210 Pa/K, 48 kPa/K and 156 kPa/K */
    { 0.353658941e4, 300, 2.5e-8, "IAPWS-IF97 table 35" },
    { 2.63889776e6, 500, 1.1e-7, "IAPWS-IF97 table 35" },
    { 12.3443146e6, 600, 3.3e-7, "IAPWS-IF97 table 35" },
    /* the equation has 611.213 Pa at 273.15 K: 0.0005 Pa are 1.1e-5 K there */
    { 611.213, 273.15, 1.2e-5, "IAPWS-IF97 section 8, lower end" },
};

START_TEST(water_boiling)
{
    pottle_temperature t = { -1 };
    ck_assert_int_eq(
        pottle_water_boiling((pottle_pressure){ boiling[_i].pa }, &t),
        POTTLE_OK);
    ck_assert_msg(near(t.degC + 273.15, boiling[_i].kelvin,
                       boiling[_i].tolerance + ROUNDING),
                  "%.9g Pa: %.7f K, %s has %.6f", boiling[_i].pa,
                  t.degC + 273.15, boiling[_i].source, boiling[_i].kelvin);
}
END_TEST

/* kPa, deg C. Source: IAPWS-IF97 computed with an independent program, printed
 * to 0.001 deg C. */
static const struct {
    double kpa, t_degc;
} saturation[] = {
    { 50, 81.317 },   { 55, 83.709 },      { 60, 85.926 },
    { 65, 87.993 },   { 70, 89.932 },      { 75, 91.758 },
    { 80, 93.485 },   { 85, 95.125 },      { 90, 96.687 },
    { 92.5, 97.441 }, { 95, 98.178 },      { 97.5, 98.900 },
    { 100, 99.606 },  { 101.325, 99.974 }, { 102.5, 100.298 },
    { 105, 100.976 }, { 107.5, 101.640 },  { 110, 102.292 },
    { 115, 103.560 }, { 120, 104.784 },    { 125, 105.966 },
    { 130, 107.109 }, { 140, 109.292 },    { 150, 111.350 },
    { 160, 113.298 }, { 170, 115.149 },    { 180, 116.912 },
    { 190, 118.597 }, { 200, 120.212 },    { 205, 120.994 },
    { 210, 121.761 },
};

START_TEST(water_boiling_of_another_program)
{
    pottle_temperature t = { -1 };
    ck_assert_int_eq(
        pottle_water_boiling((pottle_pressure){ 1e3 * saturation[_i].kpa }, &t),
        POTTLE_OK);
    ck_assert_msg(near(t.degC, saturation[_i].t_degc, 0.5e-3 + ROUNDING),
                  "%g kPa: %.5f deg C, not %.3f", saturation[_i].kpa, t.degC,
                  saturation[_i].t_degc);
}
END_TEST

/* deg C, kPa printed to 0.01. Source: a university's steam table. Water boils
 * between half a unit less and half a unit more. */
static const struct {
    double t_degc, kpa;
} steam[] = {
    { 50, 12.35 }, { 60, 19.95 }, { 70, 31.20 }, { 75, 38.60 },
    { 80, 47.41 }, { 85, 57.87 }, { 90, 70.18 }, { 95, 84.61 },
};

START_TEST(water_boiling_of_a_steam_table)
{
    pottle_temperature low = { -1 }, high = { -1 };
    ck_assert_int_eq(
        pottle_water_boiling((pottle_pressure){ 1e3 * (steam[_i].kpa - 0.005) },
                             &low),
        POTTLE_OK);
    ck_assert_int_eq(
        pottle_water_boiling((pottle_pressure){ 1e3 * (steam[_i].kpa + 0.005) },
                             &high),
        POTTLE_OK);
    ck_assert_msg(low.degC <= steam[_i].t_degc && high.degC >= steam[_i].t_degc,
                  "%g kPa: %.3f to %.3f deg C, the steam table has %g",
                  steam[_i].kpa, low.degC, high.degC, steam[_i].t_degc);
}
END_TEST

static const double no_pressure[] = {
    0,   -1,          611.2129,         22.0640001e6,
    1e9, (double)NAN, (double)INFINITY, -(double)INFINITY
};

START_TEST(water_boiling_refused)
{
    pottle_temperature t = { -1 };
    ck_assert_int_eq(
        pottle_water_boiling((pottle_pressure){ no_pressure[_i] }, &t),
        POTTLE_EDOMAIN);
    ck_assert(near(t.degC, -1, 0));
    ck_assert_int_eq(pottle_water_boiling((pottle_pressure){ 1e5 }, NULL),
                     POTTLE_EMISUSE);
}
END_TEST

START_TEST(water_boiling_takes_its_ends)
{
    pottle_temperature t = { -1 };
    ck_assert_int_eq(pottle_water_boiling((pottle_pressure){ 22.064e6 }, &t),
                     POTTLE_OK);
    /* the critical temperature, 647.096 K, printed to 0.001 */
    ck_assert(near(t.degC + 273.15, 647.096, 0.5e-3));
}
END_TEST

START_TEST(water_boiling_rises)
{
    double last = -1;
    for (double pa = 611.213; pa <= 22.064e6; pa *= 1.01) {
        pottle_temperature t = { -1 };
        ck_assert_int_eq(pottle_water_boiling((pottle_pressure){ pa }, &t),
                         POTTLE_OK);
        ck_assert(t.degC > last);
        last = t.degC;
    }
}
END_TEST

/* -- Air ------------------------------------------------------------------- */

/* Geometric altitude (m), pressure (mb) to five digits, which that table cuts
 * and does not round: 226.9996 stands as 226.99. unit is one of the last digit.
 * Source: U.S. Standard Atmosphere 1976, table I, metric (as carried by three programs). */
static const struct {
    double z_m, mb, unit;
} air_table[] = {
    { -1000, 1139.3, 0.1 },  { -500, 1074.7, 0.1 },   { 0, 1013.25, 0.01 },
    { 500, 954.61, 0.01 },   { 1000, 898.76, 0.01 },  { 1500, 845.59, 0.01 },
    { 2000, 795.01, 0.01 },  { 2500, 746.91, 0.01 },  { 3000, 701.21, 0.01 },
    { 3500, 657.80, 0.01 },  { 4000, 616.60, 0.01 },  { 4500, 577.52, 0.01 },
    { 5000, 540.48, 0.01 },  { 5500, 505.39, 0.01 },  { 6000, 472.17, 0.01 },
    { 6500, 440.75, 0.01 },  { 7000, 411.05, 0.01 },  { 7500, 382.99, 0.01 },
    { 8000, 356.51, 0.01 },  { 8500, 331.54, 0.01 },  { 9000, 308.00, 0.01 },
    { 9500, 285.84, 0.01 },  { 10000, 264.99, 0.01 }, { 10500, 245.40, 0.01 },
    { 11000, 226.99, 0.01 },
};

START_TEST(air_pressure)
{
    /* geopotential altitude by equation 18 of the same source, r0 = 6356766 m
     */
    const double r0 = 6356766,
                 h = r0 * air_table[_i].z_m / (r0 + air_table[_i].z_m);
    pottle_pressure p = { -1 };
    ck_assert_int_eq(pottle_air_pressure(fmax(h, -1000), &p), POTTLE_OK);
    /* -1000 m of geometric altitude lie 0.16 m under the range: 0.02 mb */
    const double below = h < -1000 ? 0.02 : 0;
    const double mb = 1e-2 * p.pa;
    ck_assert_msg(mb >= air_table[_i].mb - below - ROUNDING &&
                      mb < air_table[_i].mb + air_table[_i].unit,
                  "%g m: %.4f mb, U.S. Standard Atmosphere 1976 has %g",
                  air_table[_i].z_m, mb, air_table[_i].mb);
}
END_TEST

/* Geopotential altitude (m), Pa printed to 0.1.
 * Source: computed with an independent program by ISO 2533, which is the same equation but for the
 * gas constant of air, 287.05287 J/(kg K): 0.022 Pa apart at 4000 m, less
 * below. */
static const struct {
    double h_m, pa;
} air_computed[] = {
    { 0, 101325.0 },   { 250, 98357.5 },  { 500, 95460.8 },  { 750, 92633.6 },
    { 1000, 89874.6 }, { 1250, 87182.4 }, { 1500, 84556.0 }, { 1750, 81994.0 },
    { 2000, 79495.2 }, { 2250, 77058.4 }, { 2500, 74682.5 }, { 2750, 72366.3 },
    { 3000, 70108.5 }, { 3250, 67908.2 }, { 3500, 65764.1 }, { 3750, 63675.1 },
    { 4000, 61640.2 },
};

START_TEST(air_pressure_of_another_program)
{
    pottle_pressure p = { -1 };
    ck_assert_int_eq(pottle_air_pressure(air_computed[_i].h_m, &p), POTTLE_OK);
    ck_assert_msg(near(p.pa, air_computed[_i].pa, 0.05 + 0.022),
                  "%g m: %.3f Pa, not %.1f", air_computed[_i].h_m, p.pa,
                  air_computed[_i].pa);
}
END_TEST

START_TEST(air_pressure_at_the_tropopause)
{
    pottle_pressure p = { -1 };
    ck_assert_int_eq(pottle_air_pressure(11000, &p), POTTLE_OK);
    ck_assert_msg(p.pa >= 22632 && p.pa < 22633,
                  "%.3f Pa, U.S. Standard Atmosphere 1976 has 226.32 mb, cut",
                  p.pa);
}
END_TEST

static const double no_altitude[] = {
    -1000.0001,       11000.0001,       1e9, -1e9, (double)NAN,
    (double)INFINITY, -(double)INFINITY
};

START_TEST(air_pressure_refused)
{
    pottle_pressure p = { -1 };
    ck_assert_int_eq(pottle_air_pressure(no_altitude[_i], &p), POTTLE_EDOMAIN);
    ck_assert(near(p.pa, -1, 0));
    ck_assert_int_eq(pottle_air_pressure(0, NULL), POTTLE_EMISUSE);
}
END_TEST

/* ft, deg F: published boiling points of water. They are rounded, and differ
 * from each other by 0.1 deg F and from the standard atmosphere by up to 0.4,
 * so 1 deg F is allowed. */
#define USDA "USDA Complete Guide to Home Canning, altitude table"
#define NOAA "US government (NOAA/NASA) table"
#define CSU "Colorado State University Extension"
#define FSIS "USDA FSIS"
#define EXT "USDA-derived extension table"
static const struct {
    double ft, t_degf;
    const char *source;
} altitude_boiling[] = {
    { 0, 212.0, USDA },     { 1000, 210.2, USDA },  { 2000, 208.5, USDA },
    { 3000, 206.7, USDA },  { 4000, 204.9, USDA },  { 0, 212, NOAA },
    { 500, 211.1, NOAA },   { 1000, 210.2, NOAA },  { 2000, 208.4, NOAA },
    { 5000, 203, NOAA },    { 6000, 201.1, NOAA },  { 8000, 197.4, NOAA },
    { 10000, 193.6, NOAA }, { 12000, 189.8, NOAA }, { 14000, 185.9, NOAA },
    { 15000, 184.1, NOAA }, { 5000, 203, CSU },     { 2000, 208, FSIS },
    { 2000, 208, EXT },     { 5000, 203, EXT },     { 7500, 198, EXT },
    { 10000, 194, EXT },
};

static double
boiling_degf(double ft)
{
    pottle_pressure p = { -1 };
    pottle_temperature t = { -1 };
    ck_assert_int_eq(pottle_air_pressure(0.3048 * ft, &p), POTTLE_OK);
    ck_assert_int_eq(pottle_water_boiling(p, &t), POTTLE_OK);
    return 1.8 * t.degC + 32;
}

START_TEST(boiling_at_altitude)
{
    const double t = boiling_degf(altitude_boiling[_i].ft);
    ck_assert_msg(near(t, altitude_boiling[_i].t_degf, 1),
                  "%g ft: %.2f deg F, %s has %.1f", altitude_boiling[_i].ft, t,
                  altitude_boiling[_i].source, altitude_boiling[_i].t_degf);
}
END_TEST

/* ft, deg F. Source: USDA Complete Guide to Home Canning, guide 7, jelly
 * gelling points (read in copies), whole degrees, within 1 deg F of the rule at
 * every line. */
static const struct {
    double ft, t_degf;
} gel[] = {
    { 0, 220 },    { 1000, 218 }, { 2000, 216 }, { 3000, 214 }, { 4000, 212 },
    { 5000, 211 }, { 6000, 209 }, { 7000, 207 }, { 8000, 205 },
};

START_TEST(gel_point)
{
    pottle_pressure p = { -1 };
    pottle_temperature t = { -1 };
    ck_assert_int_eq(pottle_air_pressure(0.3048 * gel[_i].ft, &p), POTTLE_OK);
    ck_assert_int_eq(pottle_gel_point_rule(p, &t), POTTLE_OK);
    ck_assert_msg(near(1.8 * t.degC + 32, gel[_i].t_degf, 1),
                  "%g ft: %.2f deg F, the USDA guide has %g", gel[_i].ft,
                  1.8 * t.degC + 32, gel[_i].t_degf);
    /* 8 deg F over water, whatever the place */
    ck_assert(near(1.8 * t.degC + 32 - boiling_degf(gel[_i].ft), 8, 1e-9));
}
END_TEST

static const double no_gel[] = { 56999.9, 110000.1,    0,
                                 -1,      (double)NAN, (double)INFINITY };

START_TEST(gel_point_refused)
{
    pottle_temperature t = { -1 };
    ck_assert_int_eq(pottle_gel_point_rule((pottle_pressure){ no_gel[_i] }, &t),
                     POTTLE_EDOMAIN);
    ck_assert(near(t.degC, -1, 0));
    ck_assert_int_eq(pottle_gel_point_rule((pottle_pressure){ 1e5 }, NULL),
                     POTTLE_EMISUSE);
}
END_TEST

START_TEST(gel_point_covers_the_published_altitudes)
{
    pottle_pressure p = { -1 };
    pottle_temperature t = { -1 };
    ck_assert_int_eq(pottle_air_pressure(0.3048 * 15000, &p), POTTLE_OK);
    ck_assert_int_eq(pottle_gel_point_rule(p, &t), POTTLE_OK);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("matter");
    TCase *t = tcase_create("water");
    tcase_add_loop_test(t, water_density, 0, COUNT(tanaka));
    tcase_add_loop_test(t, water_density_of_another_equation, 0, COUNT(sr7));
    tcase_add_loop_test(t, water_density_refused, 0, COUNT(no_water));
    tcase_add_loop_test(t, water_boiling, 0, COUNT(boiling));
    tcase_add_loop_test(t, water_boiling_of_another_program, 0,
                        COUNT(saturation));
    tcase_add_loop_test(t, water_boiling_of_a_steam_table, 0, COUNT(steam));
    tcase_add_loop_test(t, water_boiling_refused, 0, COUNT(no_pressure));
    tcase_add_test(t, water_boiling_takes_its_ends);
    tcase_add_test(t, water_boiling_rises);
    suite_add_tcase(suite, t);

    t = tcase_create("air");
    tcase_add_loop_test(t, air_pressure, 0, COUNT(air_table));
    tcase_add_loop_test(t, air_pressure_of_another_program, 0,
                        COUNT(air_computed));
    tcase_add_test(t, air_pressure_at_the_tropopause);
    tcase_add_loop_test(t, air_pressure_refused, 0, COUNT(no_altitude));
    tcase_add_loop_test(t, boiling_at_altitude, 0, COUNT(altitude_boiling));
    tcase_add_loop_test(t, gel_point, 0, COUNT(gel));
    tcase_add_loop_test(t, gel_point_refused, 0, COUNT(no_gel));
    tcase_add_test(t, gel_point_covers_the_published_altitudes);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, matter_sugar());

    return suite_run(suite);
}
