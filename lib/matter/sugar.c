/* sugar.c - sucrose solutions: density, boiling point.
 *
 * Two published series of boiling points are kept side by side, since they part
 * above 60 Brix and neither is known to be wrong; the caller says which. */
#include <config.h>

#include <gsl/gsl_interp.h>
#include <gsl/gsl_poly.h>
#include <math.h>

#include "internal.h"

/* Density (kg/m^3) of aqueous sucrose at 20 deg C against percent by mass, as
 * printed.
 *
 * Source:    CRC Handbook of Chemistry and Physics, aqueous solutions, sucrose (read as carried
 *            by an open-source property library; percent times density reproduces the g/L
 *            column listed there) */
enum { DENSITY_ROWS = 63 };
static const double density_brix[DENSITY_ROWS] = {
    0,  0.5, 1,  1.5, 2,  2.5, 3,  3.5, 4,  4.5, 5,  5.5, 6,  6.5, 7,  7.5,
    8,  8.5, 9,  9.5, 10, 11,  12, 13,  14, 15,  16, 17,  18, 19,  20, 22,
    24, 26,  28, 30,  32, 34,  36, 38,  40, 42,  44, 46,  48, 50,  52, 54,
    56, 58,  60, 62,  64, 66,  68, 70,  72, 74,  76, 78,  80, 82,  84,
};
static const double density_kg_m3[DENSITY_ROWS] = {
    998.2,  1000.2, 1002.1, 1004.0, 1006.0, 1007.9, 1009.9, 1011.9, 1013.9,
    1015.8, 1017.8, 1019.8, 1021.8, 1023.8, 1025.9, 1027.9, 1029.9, 1032.0,
    1034.0, 1036.1, 1038.1, 1042.3, 1046.5, 1050.7, 1054.9, 1059.2, 1063.5,
    1067.8, 1072.2, 1076.6, 1081.0, 1089.9, 1099.0, 1108.2, 1117.5, 1127.0,
    1136.6, 1146.4, 1156.2, 1166.3, 1176.5, 1186.8, 1197.2, 1207.9, 1218.6,
    1229.5, 1240.6, 1251.8, 1263.2, 1274.7, 1286.4, 1298.3, 1310.3, 1322.4,
    1334.8, 1347.2, 1359.9, 1372.6, 1385.5, 1398.6, 1411.7, 1425.0, 1438.3,
};

/* The cubic through the four rows around brix, two on each side where there are
 * two. It needs no allocation, which GSL's spline does, and GSL answers a
 * failed allocation by aborting. */
pottle_status
pottle_sugar_density(double brix, pottle_density *out)
{
    enum { POINTS = 4 };
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(brix >= density_brix[0] && brix <= density_brix[DENSITY_ROWS - 1]))
        return POTTLE_EDOMAIN;

    const size_t row =
        gsl_interp_bsearch(density_brix, brix, 0, DENSITY_ROWS - 1);
    size_t first = row > 0 ? row - 1 : 0;
    if (first > DENSITY_ROWS - POINTS)
        first = DENSITY_ROWS - POINTS;
    double differences[POINTS];
    gsl_poly_dd_init(differences, density_brix + first, density_kg_m3 + first,
                     POINTS);
    out->g_ml = 1e-3 * gsl_poly_dd_eval(differences, density_brix + first,
                                        POINTS, brix);
    return POTTLE_OK;
}

/* Elevation (K) at 1 atm for 2, 4, ... 90 percent by mass, as printed.
 *
 * Source:    handbook of sugar analysis, 1912, smoothed table of boiling points (read in copies) */
enum { TABLE_ROWS = 45 };
static const double table_step = 2.0, table_first = 2.0, table_last = 90.0;
static const double table_k[TABLE_ROWS] = {
    0.3, 0.3, 0.3,  0.4,  0.4,  0.4,  0.5,  0.5,  0.5,  0.6, 0.7, 0.7,
    0.8, 0.9, 1.0,  1.1,  1.2,  1.3,  1.4,  1.5,  1.6,  1.7, 1.8, 1.9,
    2.0, 2.1, 2.3,  2.4,  2.7,  3.0,  3.4,  4.0,  4.8,  5.6, 6.5, 7.4,
    8.4, 9.4, 10.6, 12.0, 13.9, 16.3, 19.3, 23.1, 27.8,
};
/* Row from which the table rises at every step: 26 percent, 0.8 K. Below it is
 * printed too coarsely to be read backwards. */
enum { TABLE_RISING = 12 };

static double
table_elevation(double brix)
{
    const double at = (brix - table_first) / table_step;
    size_t row = (size_t)at;
    if (row > TABLE_ROWS - 2)
        row = TABLE_ROWS - 2;
    return table_k[row] +
           (at - (double)row) * (table_k[row + 1] - table_k[row]);
}

static double
table_brix(double elevation_k)
{
    const size_t row =
        gsl_interp_bsearch(table_k, elevation_k, TABLE_RISING, TABLE_ROWS - 1);
    const double part =
        (elevation_k - table_k[row]) / (table_k[row + 1] - table_k[row]);
    return table_first + table_step * ((double)row + part);
}

/* Logarithm of the activity of water, ln(a) = ln(1 - x) + Q/(R T) x^2 (1 + a x
 * + b x^2).
 *
 * Given:     brix    sucrose (percent by mass)
 *            t_k     temperature (K)
 * Source:    M. Starzak and S. D. Peacock, "Water activity coefficient in aqueous solutions of
 *            sucrose", Zuckerindustrie 122 (1997) (place from memory). Q, a, b and the meaning of
 *            x, the mole fraction of sucrose, were read in an abstract; the form of the equation,
 *            which is that of Margules with four suffixes, is from memory */
static double
ln_activity(double brix, double t_k)
{
    static const double q = -17638.0, a = -1.0038,
                        b = -0.24653;    /* J/mol, as printed */
    static const double r = 8.314462618; /* J/(mol K), CODATA 2018 */
    static const double sucrose = 342.2965,
                        water = 18.01528; /* g/mol, C12H22O11 and H2O */

    const double ns = brix / sucrose, nw = (100.0 - brix) / water;
    const double x = ns / (ns + nw);
    return log(nw / (ns + nw)) +
           q / (r * t_k) * x * x * (1.0 + x * (a + b * x));
}

enum { ONE_ATMOSPHERE = 101325 };

/* A solution boils where water of its activity does: at the saturation
 * temperature of p / a. The activity depends so little on temperature that each
 * round leaves 4 % of the error of the last at 90 percent, less below. */
static pottle_status
equation_elevation(double brix, double *elevation_k)
{
    enum { ROUNDS = 16 };
    pottle_temperature water = { 0 }, t = { 0 };
    pottle_status status =
        pottle_water_boiling((pottle_pressure){ ONE_ATMOSPHERE }, &water);
    t = water;
    for (int i = 0; i < ROUNDS && status == POTTLE_OK; i++) {
        const double activity = exp(ln_activity(brix, t.degC + 273.15));
        status = pottle_water_boiling(
            (pottle_pressure){ ONE_ATMOSPHERE / activity }, &t);
    }
    if (status == POTTLE_OK)
        *elevation_k = t.degC - water.degC;
    return status;
}

/* Bisection: the elevation rises with every percent (tests/test_matter.c), and
 * 60 halvings of 90 percent are below the spacing of doubles. */
static pottle_status
equation_brix(double elevation_k, double *brix)
{
    double low = 0.0, high = table_last;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        double k = 0;
        const pottle_status status = equation_elevation(middle, &k);
        if (status != POTTLE_OK)
            return status;
        if (k < elevation_k)
            low = middle;
        else
            high = middle;
    }
    *brix = 0.5 * (low + high);
    return POTTLE_OK;
}

pottle_status
pottle_sugar_elevation(double brix, pottle_sugar_series series,
                       double *elevation_k)
{
    if (elevation_k == NULL)
        return POTTLE_EMISUSE;
    switch (series) {
    case POTTLE_SUGAR_TABLE_1912:
        if (!(brix >= table_first && brix <= table_last))
            return POTTLE_EDOMAIN;
        *elevation_k = table_elevation(brix);
        return POTTLE_OK;
    case POTTLE_SUGAR_EQUATION_1997:
        if (!(brix >= 0.0 && brix <= table_last))
            return POTTLE_EDOMAIN;
        return equation_elevation(brix, elevation_k);
    default: return POTTLE_EMISUSE;
    }
}

pottle_status
pottle_sugar_brix(double elevation_k, pottle_sugar_series series, double *brix)
{
    if (brix == NULL)
        return POTTLE_EMISUSE;
    double greatest = 0;
    switch (series) {
    case POTTLE_SUGAR_TABLE_1912:
        if (!(elevation_k >= table_k[TABLE_RISING] &&
              elevation_k <= table_k[TABLE_ROWS - 1]))
            return POTTLE_EDOMAIN;
        *brix = table_brix(elevation_k);
        return POTTLE_OK;
    case POTTLE_SUGAR_EQUATION_1997:
        if (equation_elevation(table_last, &greatest) != POTTLE_OK ||
            !(elevation_k >= 0.0 && elevation_k <= greatest))
            return POTTLE_EDOMAIN;
        return equation_brix(elevation_k, brix);
    default: return POTTLE_EMISUSE;
    }
}

pottle_status
pottle_gel_point_rule(pottle_pressure p, pottle_temperature *out)
{
    static const double above = 8.0 / 1.8; /* 8 deg F */
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(p.pa >= 57000.0 && p.pa <= 110000.0))
        return POTTLE_EDOMAIN;
    pottle_temperature water = { 0 };
    const pottle_status status = pottle_water_boiling(p, &water);
    if (status == POTTLE_OK)
        out->degC = water.degC + above;
    return status;
}
