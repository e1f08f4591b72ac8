/* matter_sugar.c - test_matter: sucrose solutions. */
#include <config.h>

#include <math.h>

#include "matter_cases.h"

/* percent by mass, kg/m3 at 20 deg C.
 * Source: CRC Handbook of Chemistry and Physics, aqueous sucrose at 20 deg C. */
static const struct {
    double brix, kg_m3;
} sugar[] = {
    { 0, 998.2 },   { 0.5, 1000.2 }, { 1, 1002.1 },  { 1.5, 1004.0 },
    { 2, 1006.0 },  { 2.5, 1007.9 }, { 3, 1009.9 },  { 3.5, 1011.9 },
    { 4, 1013.9 },  { 4.5, 1015.8 }, { 5, 1017.8 },  { 5.5, 1019.8 },
    { 6, 1021.8 },  { 6.5, 1023.8 }, { 7, 1025.9 },  { 7.5, 1027.9 },
    { 8, 1029.9 },  { 8.5, 1032.0 }, { 9, 1034.0 },  { 9.5, 1036.1 },
    { 10, 1038.1 }, { 11, 1042.3 },  { 12, 1046.5 }, { 13, 1050.7 },
    { 14, 1054.9 }, { 15, 1059.2 },  { 16, 1063.5 }, { 17, 1067.8 },
    { 18, 1072.2 }, { 19, 1076.6 },  { 20, 1081.0 }, { 22, 1089.9 },
    { 24, 1099.0 }, { 26, 1108.2 },  { 28, 1117.5 }, { 30, 1127.0 },
    { 32, 1136.6 }, { 34, 1146.4 },  { 36, 1156.2 }, { 38, 1166.3 },
    { 40, 1176.5 }, { 42, 1186.8 },  { 44, 1197.2 }, { 46, 1207.9 },
    { 48, 1218.6 }, { 50, 1229.5 },  { 52, 1240.6 }, { 54, 1251.8 },
    { 56, 1263.2 }, { 58, 1274.7 },  { 60, 1286.4 }, { 62, 1298.3 },
    { 64, 1310.3 }, { 66, 1322.4 },  { 68, 1334.8 }, { 70, 1347.2 },
    { 72, 1359.9 }, { 74, 1372.6 },  { 76, 1385.5 }, { 78, 1398.6 },
    { 80, 1411.7 }, { 82, 1425.0 },  { 84, 1438.3 },
};

START_TEST(sugar_density)
{
    pottle_density d = { -1 };
    ck_assert_int_eq(pottle_sugar_density(sugar[_i].brix, &d), POTTLE_OK);
    ck_assert_msg(near(1e3 * d.g_ml, sugar[_i].kg_m3, 1e-9),
                  "%g percent: %.6f kg/m3, the CRC Handbook has %.1f",
                  sugar[_i].brix, 1e3 * d.g_ml, sugar[_i].kg_m3);
}
END_TEST

/* percent by mass, g of sucrose in a litre, printed to 0.1; the density itself
 * is printed to 0.1, half of which counts by the percentage.
 * Source: CRC Handbook of Chemistry and Physics, aqueous sucrose at 20 deg C. */
static const struct {
    double brix, g_l;
} sugar_in_a_litre[] = {
    { 5, 50.9 },   { 10, 103.8 }, { 15, 158.9 }, { 20, 216.2 },
    { 30, 338.1 }, { 40, 470.6 }, { 50, 614.8 }, { 60, 771.9 },
    { 66, 872.8 }, { 68, 907.6 }, { 70, 943.1 }, { 80, 1129.4 },
};

START_TEST(sugar_mass_in_a_litre)
{
    pottle_density d = { -1 };
    const double brix = sugar_in_a_litre[_i].brix;
    ck_assert_int_eq(pottle_sugar_density(brix, &d), POTTLE_OK);
    const double g_l = 1e3 * d.g_ml * brix / 100;
    ck_assert_msg(
        near(g_l, sugar_in_a_litre[_i].g_l, 0.05 + 0.05 * brix / 100 + 1e-9),
        "%g percent: %.3f g/L, the CRC Handbook has %.1f", brix, g_l,
        sugar_in_a_litre[_i].g_l);
}
END_TEST

/* Between the rows, by a source that is not the table: percent from the
 * apparent specific gravity at 20/20 deg C, up to 40. Weighing in air of 0.0012
 * g/mL makes it (d - 0.0012)/(0.998203 - 0.0012).
 * Source: fit to NBS Circular 440, S from 1 to 1.17874, coefficients as published; its check value is
 * 9.99325 percent at 1.040, its error 0.0009. Tolerance 0.15 kg/m3, as the
 * header says: half the table's last digit and 0.1 between the two sources. */
static double
nbs_brix(double s)
{
    return ((182.4601 * s - 775.6821) * s + 1262.7794) * s - 669.5622;
}

START_TEST(sugar_density_between_rows)
{
    const double brix = 0.1 * _i;
    pottle_density d = { -1 }, more = { -1 };
    ck_assert_int_eq(pottle_sugar_density(brix, &d), POTTLE_OK);
    const double apparent = (d.g_ml - 0.0012) / (0.998203 - 0.0012);
    ck_assert_int_eq(pottle_sugar_density(brix + 0.01, &more), POTTLE_OK);
    const double slope = (more.g_ml - d.g_ml) / 0.01;
    ck_assert_msg(fabs(nbs_brix(apparent) - brix) * slope <= 0.00015,
                  "%g percent: %.6f g/mL is %.4f percent by NBS Circular 440",
                  brix, d.g_ml, nbs_brix(apparent));
}
END_TEST

START_TEST(nbs_check_value)
{
    /* the coefficients have four decimals: 0.0002 over four terms */
    ck_assert(near(nbs_brix(1.040), 9.99325, 0.0002 + 0.5e-5));
}
END_TEST

START_TEST(sugar_density_rises)
{
    double last = 0.998;
    for (int i = 0; i <= 8400; i++) {
        pottle_density d = { -1 };
        ck_assert_int_eq(pottle_sugar_density(0.01 * i, &d), POTTLE_OK);
        ck_assert_msg(d.g_ml > last && d.g_ml - last < 0.001, "at %g percent",
                      0.01 * i);
        last = d.g_ml;
    }
}
END_TEST

static const double no_sugar[] = {
    -1e-9, -1, 84.0000001, 100, (double)NAN, (double)INFINITY, -(double)INFINITY
};

START_TEST(sugar_density_refused)
{
    pottle_density d = { -1 };
    ck_assert_int_eq(pottle_sugar_density(no_sugar[_i], &d), POTTLE_EDOMAIN);
    ck_assert(near(d.g_ml, -1, 0));
    ck_assert_int_eq(pottle_sugar_density(20, NULL), POTTLE_EMISUSE);
}
END_TEST

/* percent by mass, K at 1 atm.
 * Source: handbook of sugar analysis, 1912, smoothed table. */
static const struct {
    double brix, kelvin;
} table_1912[] = {
    { 2, 0.3 },   { 4, 0.3 },   { 6, 0.3 },   { 8, 0.4 },   { 10, 0.4 },
    { 12, 0.4 },  { 14, 0.5 },  { 16, 0.5 },  { 18, 0.5 },  { 20, 0.6 },
    { 22, 0.7 },  { 24, 0.7 },  { 26, 0.8 },  { 28, 0.9 },  { 30, 1.0 },
    { 32, 1.1 },  { 34, 1.2 },  { 36, 1.3 },  { 38, 1.4 },  { 40, 1.5 },
    { 42, 1.6 },  { 44, 1.7 },  { 46, 1.8 },  { 48, 1.9 },  { 50, 2.0 },
    { 52, 2.1 },  { 54, 2.3 },  { 56, 2.4 },  { 58, 2.7 },  { 60, 3.0 },
    { 62, 3.4 },  { 64, 4.0 },  { 66, 4.8 },  { 68, 5.6 },  { 70, 6.5 },
    { 72, 7.4 },  { 74, 8.4 },  { 76, 9.4 },  { 78, 10.6 }, { 80, 12.0 },
    { 82, 13.9 }, { 84, 16.3 }, { 86, 19.3 }, { 88, 23.1 }, { 90, 27.8 },
};

START_TEST(elevation_of_the_table)
{
    double k = -1;
    ck_assert_int_eq(pottle_sugar_elevation(table_1912[_i].brix,
                                            POTTLE_SUGAR_TABLE_1912, &k),
                     POTTLE_OK);
    ck_assert_msg(near(k, table_1912[_i].kelvin, ROUNDING),
                  "%g percent: %.6f K, the table of 1912 has %.1f",
                  table_1912[_i].brix, k, table_1912[_i].kelvin);
}
END_TEST

/* percent by mass, K at 101.325 kPa, printed to 0.01.
 * Source: the equation of 1997, solved with an independent program and its IAPWS-IF97. */
static const struct {
    double brix, kelvin;
} equation_1997[] = {
    { 5, 0.08 },   { 10, 0.17 },  { 15, 0.27 },  { 20, 0.39 },  { 25, 0.53 },
    { 30, 0.70 },  { 35, 0.90 },  { 40, 1.15 },  { 45, 1.45 },  { 50, 1.82 },
    { 55, 2.31 },  { 60, 2.94 },  { 62, 3.25 },  { 64, 3.60 },  { 65, 3.79 },
    { 66, 4.00 },  { 67, 4.22 },  { 68, 4.46 },  { 69, 4.71 },  { 70, 4.99 },
    { 72, 5.61 },  { 74, 6.33 },  { 75, 6.74 },  { 76, 7.19 },  { 78, 8.22 },
    { 80, 9.46 },  { 82, 10.99 }, { 84, 12.89 }, { 85, 14.02 }, { 86, 15.29 },
    { 88, 18.39 }, { 90, 22.43 },
};

START_TEST(elevation_of_the_equation)
{
    double k = -1;
    ck_assert_int_eq(pottle_sugar_elevation(equation_1997[_i].brix,
                                            POTTLE_SUGAR_EQUATION_1997, &k),
                     POTTLE_OK);
    ck_assert_msg(near(k, equation_1997[_i].kelvin, 0.005 + ROUNDING),
                  "%g percent: %.5f K, the equation of 1997 gives %.2f",
                  equation_1997[_i].brix, k, equation_1997[_i].kelvin);
}
END_TEST

START_TEST(water_is_not_elevated)
{
    double k = -1;
    ck_assert_int_eq(pottle_sugar_elevation(0, POTTLE_SUGAR_EQUATION_1997, &k),
                     POTTLE_OK);
    ck_assert(near(k, 0, 0));
}
END_TEST

/* K, percent printed to 0.1: derived from either series elsewhere. */
static const struct {
    double kelvin;
    pottle_sugar_series series;
    double brix;
    const char *source;
} inverses[] = {
    { 4.44, POTTLE_SUGAR_TABLE_1912, 65.1,
      "1912 table, straight between 64 and 66" },
    { 5, POTTLE_SUGAR_TABLE_1912, 66.5,
      "1912 table, straight between 66 and 68" },
    { 4.444, POTTLE_SUGAR_EQUATION_1997, 67.9, "1997 equation, 8 deg F" },
    { 5, POTTLE_SUGAR_EQUATION_1997, 70.0, "1997 equation, 5 K" },
    { 4.5, POTTLE_SUGAR_EQUATION_1997, 68.2, "1997 equation, 4.5 K" },
    { 3.9, POTTLE_SUGAR_EQUATION_1997, 65.5, "1997 equation, 3.9 K" },
    { 3.889, POTTLE_SUGAR_EQUATION_1997, 65.5, "1997 equation, 7 deg F" },
    { 0.8, POTTLE_SUGAR_TABLE_1912, 26, "1912 table, row" },
    { 27.8, POTTLE_SUGAR_TABLE_1912, 90, "1912 table, last row" },
    { 0, POTTLE_SUGAR_EQUATION_1997, 0, "water" },
};

START_TEST(brix_of_an_elevation)
{
    double brix = -1;
    ck_assert_int_eq(
        pottle_sugar_brix(inverses[_i].kelvin, inverses[_i].series, &brix),
        POTTLE_OK);
    ck_assert_msg(near(brix, inverses[_i].brix, 0.05 + ROUNDING),
                  "%g K: %.4f percent, not %.1f (%s)", inverses[_i].kelvin,
                  brix, inverses[_i].brix, inverses[_i].source);
}
END_TEST

/* _i percent, there and back, by both series. */
START_TEST(elevation_there_and_back)
{
    const double brix = _i;
    for (int series = POTTLE_SUGAR_TABLE_1912;
         series <= POTTLE_SUGAR_EQUATION_1997; series++) {
        const pottle_sugar_series s = (pottle_sugar_series)series;
        if (s == POTTLE_SUGAR_TABLE_1912 && brix < 26)
            continue;
        double k = -1, back = -1;
        ck_assert_int_eq(pottle_sugar_elevation(brix, s, &k), POTTLE_OK);
        ck_assert_int_eq(pottle_sugar_brix(k, s, &back), POTTLE_OK);
        /* the equation is solved to the rounding of temperatures near 400 K,
         * 6e-14, over its slope, 0.015 K a percent at least */
        ck_assert_msg(near(back, brix, 1e-10),
                      "series %d, %g percent: %.3g more", series, brix,
                      back - brix);
    }
}
END_TEST

START_TEST(elevation_rises)
{
    double table = 0, equation = -1;
    for (int i = 0; i <= 900; i++) {
        const double brix = 0.1 * i;
        double k = -1;
        ck_assert_int_eq(pottle_sugar_elevation(fmin(brix, 90),
                                                POTTLE_SUGAR_EQUATION_1997, &k),
                         POTTLE_OK);
        ck_assert_msg(k > equation, "at %g percent", brix);
        equation = k;
        if (brix < 2)
            continue;
        ck_assert_int_eq(
            pottle_sugar_elevation(fmin(brix, 90), POTTLE_SUGAR_TABLE_1912, &k),
            POTTLE_OK);
        ck_assert_msg(k >= table - ROUNDING, "at %g percent", brix);
        table = k;
    }
}
END_TEST

/* percent, K: single measurements published elsewhere. The series part here;
 * these lie nearer the equation, as the header says. */
static const struct {
    double brix, kelvin;
    const char *source;
} singles[] = {
    { 65, 3.9,
      "experimental cookery textbook of the 1930s, jelly research: 103.9 deg "
      "C" },
    { 66, 7 / 1.8,
      "USDA maple syrup standard and extension practice: about 7 deg F above "
      "water" },
    { 68, 5.0, "technical brief on jams: 105 deg C" },
};

START_TEST(single_measurements_lie_nearer_the_equation)
{
    double table = -1, equation = -1;
    ck_assert_int_eq(pottle_sugar_elevation(singles[_i].brix,
                                            POTTLE_SUGAR_TABLE_1912, &table),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_sugar_elevation(singles[_i].brix,
                                            POTTLE_SUGAR_EQUATION_1997,
                                            &equation),
                     POTTLE_OK);
    ck_assert_msg(fabs(equation - singles[_i].kelvin) <
                      fabs(table - singles[_i].kelvin),
                  "%g percent: table %.2f, equation %.2f, %s", singles[_i].brix,
                  table, equation, singles[_i].source);
}
END_TEST

/* The header says that the series agree within 0.4 K up to 64 percent, and
 * where they part. */
START_TEST(series_agree_and_part)
{
    for (int i = 2; i <= 64; i++) {
        double table = -1, equation = -1;
        ck_assert_int_eq(
            pottle_sugar_elevation(i, POTTLE_SUGAR_TABLE_1912, &table),
            POTTLE_OK);
        ck_assert_int_eq(
            pottle_sugar_elevation(i, POTTLE_SUGAR_EQUATION_1997, &equation),
            POTTLE_OK);
        ck_assert_msg(near(table, equation, 0.4 + 0.005),
                      "%d percent: %.3f and %.3f", i, table, equation);
    }
    double table = -1, equation = -1;
    ck_assert_int_eq(
        pottle_sugar_elevation(70, POTTLE_SUGAR_TABLE_1912, &table), POTTLE_OK);
    ck_assert_int_eq(
        pottle_sugar_elevation(70, POTTLE_SUGAR_EQUATION_1997, &equation),
        POTTLE_OK);
    ck_assert(table - equation > 1.4);
}
END_TEST

static const struct {
    double brix;
    int series;
    pottle_status status;
} no_elevation[] = {
    { 1.9999, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { 0, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { 90.0001, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { (double)NAN, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { (double)INFINITY, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { -1e-9, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { 90.0001, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { 100, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { (double)NAN, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { -(double)INFINITY, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { 60, 0, POTTLE_EMISUSE },
    { 60, 3, POTTLE_EMISUSE },
};

START_TEST(elevation_refused)
{
    double k = -1;
    const pottle_sugar_series series =
        (pottle_sugar_series)no_elevation[_i].series;
    ck_assert_int_eq(pottle_sugar_elevation(no_elevation[_i].brix, series, &k),
                     no_elevation[_i].status);
    ck_assert(near(k, -1, 0));
    ck_assert_int_eq(pottle_sugar_elevation(60, series, NULL), POTTLE_EMISUSE);
}
END_TEST

static const struct {
    double kelvin;
    int series;
    pottle_status status;
} no_brix[] = {
    { 0.7999, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { 0.3, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { 27.8001, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { (double)NAN, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { (double)INFINITY, POTTLE_SUGAR_TABLE_1912, POTTLE_EDOMAIN },
    { -1e-9, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { 22.5, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { (double)NAN, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { -(double)INFINITY, POTTLE_SUGAR_EQUATION_1997, POTTLE_EDOMAIN },
    { 4, 0, POTTLE_EMISUSE },
    { 4, 3, POTTLE_EMISUSE },
};

START_TEST(brix_refused)
{
    double brix = -1;
    const pottle_sugar_series series = (pottle_sugar_series)no_brix[_i].series;
    ck_assert_int_eq(pottle_sugar_brix(no_brix[_i].kelvin, series, &brix),
                     no_brix[_i].status);
    ck_assert(near(brix, -1, 0));
    ck_assert_int_eq(pottle_sugar_brix(4, series, NULL), POTTLE_EMISUSE);
}
END_TEST

TCase *
matter_sugar(void)
{
    TCase *t = tcase_create("sugar");
    tcase_set_timeout(t, 60);
    tcase_add_loop_test(t, sugar_density, 0, COUNT(sugar));
    tcase_add_loop_test(t, sugar_mass_in_a_litre, 0, COUNT(sugar_in_a_litre));
    tcase_add_loop_test(t, sugar_density_between_rows, 0, 400);
    tcase_add_test(t, nbs_check_value);
    tcase_add_test(t, sugar_density_rises);
    tcase_add_loop_test(t, sugar_density_refused, 0, COUNT(no_sugar));
    tcase_add_loop_test(t, elevation_of_the_table, 0, COUNT(table_1912));
    tcase_add_loop_test(t, elevation_of_the_equation, 0, COUNT(equation_1997));
    tcase_add_test(t, water_is_not_elevated);
    tcase_add_loop_test(t, brix_of_an_elevation, 0, COUNT(inverses));
    tcase_add_loop_test(t, elevation_there_and_back, 0, 91);
    tcase_add_test(t, elevation_rises);
    tcase_add_loop_test(t, single_measurements_lie_nearer_the_equation, 0,
                        COUNT(singles));
    tcase_add_test(t, series_agree_and_part);
    tcase_add_loop_test(t, elevation_refused, 0, COUNT(no_elevation));
    tcase_add_loop_test(t, brix_refused, 0, COUNT(no_brix));
    return t;
}
