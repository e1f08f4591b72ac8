/* air.c - the standard atmosphere. */
#include <config.h>

#include <math.h>

#include "internal.h"

pottle_status
pottle_air_pressure(double altitude_m, pottle_pressure *out)
{
    /* As printed: sea level pressure (Pa) and temperature (K), lapse rate of
     * the layer (K/m), gravity (m/s^2), molar mass of air (kg/kmol), gas
     * constant (N m/(kmol K)). */
    static const double p0 = 101325.0, t0 = 288.15, lapse = -0.0065,
                        g0 = 9.80665, m0 = 28.9644, r = 8314.32;

    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(altitude_m >= -1000.0 && altitude_m <= 11000.0))
        return POTTLE_EDOMAIN;
    out->pa = p0 * pow(t0 / (t0 + lapse * altitude_m), g0 * m0 / (r * lapse));
    return POTTLE_OK;
}
