/* water.c - density and boiling point of water. */
#include <config.h>

#include <math.h>

#include "internal.h"

pottle_status
pottle_water_density(double t_degC, pottle_density *out)
{
    /* As printed; a5 is the greatest density (kg/m^3), at -a1 (deg C). */
    static const double a1 = -3.983035, a2 = 301.797, a3 = 522528.9,
                        a4 = 69.34881, a5 = 999.974950;

    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(t_degC >= 0.0 && t_degC <= 40.0)) /* refuses NaN too */
        return POTTLE_EDOMAIN;

    const double d = t_degC + a1;
    out->g_ml =
        1e-3 * a5 * (1.0 - d * d * (t_degC + a2) / (a3 * (t_degC + a4)));
    return POTTLE_OK;
}

/* Saturation temperature (K) at a pressure (MPa).
 *
 * Source:    IAPWS Industrial Formulation 1997, equation 31, coefficients of its table 34 */
static double
saturation(double p_mpa)
{
    static const double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6,
                        n3 = -0.17073846940092e2, n4 = 0.12020824702470e5,
                        n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                        n7 = -0.48232657361591e4, n8 = 0.40511340542057e6,
                        n9 = -0.23855557567849, n10 = 0.65017534844798e3;

    const double beta = sqrt(sqrt(p_mpa));
    const double e = beta * beta + n3 * beta + n6;
    const double f = n1 * beta * beta + n4 * beta + n7;
    const double g = n2 * beta * beta + n5 * beta + n8;
    const double d = 2.0 * g / (-f - sqrt(f * f - 4.0 * e * g));
    return 0.5 * (n10 + d - sqrt((n10 + d) * (n10 + d) - 4.0 * (n9 + n10 * d)));
}

pottle_status
pottle_water_boiling(pottle_pressure p, pottle_temperature *out)
{
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(p.pa >= 611.213 && p.pa <= 22.064e6))
        return POTTLE_EDOMAIN;
    out->degC = saturation(1e-6 * p.pa) - 273.15;
    return POTTLE_OK;
}
