/* gel.c - the gel point of jam without added pectin, by the rule and by the
 * physics.
 *
 * The rule is 8 deg F above the boiling point of water at the place and on the
 * day. What that means in sugar is read from two published series that
 * disagree; both are given. */
#include <config.h>

#include <math.h>

#include "internal.h"

enum { ONE_ATMOSPHERE = 101325 };

/* Pressure at which water boils at a temperature: the inverse of
 * pottle_water_boiling, which rises with pressure. */
static pottle_status
pressure_at(double degC, double *pa)
{
    double low = 20e3, high = 400e3;
    pottle_temperature t;
    for (int i = 0; i < 60; i++) {
        const pottle_status status =
            pottle_water_boiling((pottle_pressure){ 0.5 * (low + high) }, &t);
        if (status != POTTLE_OK)
            return status;
        if (t.degC < degC)
            low = 0.5 * (low + high);
        else
            high = 0.5 * (low + high);
    }
    *pa = 0.5 * (low + high);
    return POTTLE_OK;
}

/* Where a solution boils under `pa` that boils `elevation_k` above water at one
 * atmosphere: its water has the same activity, which is the ratio of the air's
 * pressure to that at which plain water boils so hot. */
static pottle_status
boils_at(double pa, double elevation_k, pottle_temperature *out)
{
    pottle_temperature water;
    double hot = 0;
    pottle_status status =
        pottle_water_boiling((pottle_pressure){ ONE_ATMOSPHERE }, &water);
    if (status == POTTLE_OK)
        status = pressure_at(water.degC + elevation_k, &hot);
    return status == POTTLE_OK
             ? pottle_water_boiling(
                   (pottle_pressure){ pa * hot / ONE_ATMOSPHERE }, out)
             : status;
}

/* The reverse: elevation at one atmosphere of a solution that boils at `degC`
 * under `pa`. */
static pottle_status
elevation_of(double pa, double degC, double *elevation_k)
{
    pottle_temperature water, hot;
    double p = 0;
    pottle_status status =
        pottle_water_boiling((pottle_pressure){ ONE_ATMOSPHERE }, &water);
    if (status == POTTLE_OK)
        status = pressure_at(degC, &p);
    if (status == POTTLE_OK)
        status = pottle_water_boiling(
            (pottle_pressure){ ONE_ATMOSPHERE * p / pa }, &hot);
    if (status == POTTLE_OK)
        *elevation_k = hot.degC - water.degC;
    return status;
}

pottle_status
pottle_gel_point(const double *altitude_m, const pottle_temperature *boiling,
                 pottle_gel *out, pottle_error *error)
{
    static const pottle_sugar_series series[2] = { POTTLE_SUGAR_TABLE_1912,
                                                   POTTLE_SUGAR_EQUATION_1997 };
    static const double brix =
        65; /* the usual jam; near what both series make of 8 deg F */
    if (out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no place for the result");
    if (altitude_m != NULL &&
        !(*altitude_m >= 0 && *altitude_m <= POTTLE_ALTITUDE_MAX_M))
        return pottlei_altitude_fail(error);
    if (boiling != NULL && !(boiling->degC >= 85 && boiling->degC <= 102))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "boiling",
            "water boils between 85 and 102 deg C (185 and 216 deg F) where "
            "people cook: read the thermometer again");
    pottle_gel g = { .measured = boiling != NULL };
    pottle_status status =
        pottle_air_pressure(altitude_m != NULL ? *altitude_m : 0, &g.pressure);
    if (status == POTTLE_OK)
        status = pottle_water_boiling(g.pressure, &g.boiling);
    if (status == POTTLE_OK && boiling != NULL) {
        g.has_standard = altitude_m != NULL;
        g.standard = g.boiling;
        g.boiling = *boiling;
        status = pressure_at(boiling->degC, &g.pressure.pa);
    }
    if (status == POTTLE_OK)
        status = pottle_gel_point_rule(g.pressure, &g.rule);
    double elevation = 0;
    if (status == POTTLE_OK)
        status = elevation_of(g.pressure.pa, g.rule.degC, &elevation);
    for (size_t i = 0; i < 2 && status == POTTLE_OK; i++) {
        double k = 0;
        status = pottle_sugar_brix(elevation, series[i], &g.brix[i]);
        if (status == POTTLE_OK)
            status = pottle_sugar_elevation(brix, series[i], &k);
        if (status == POTTLE_OK)
            status = boils_at(g.pressure.pa, k, &g.at_65[i]);
    }
    if (status != POTTLE_OK)
        return pottlei_fail(error, status, "gel",
                            "the gel point cannot be worked out there");
    g.apart = fabs(g.brix[1] - g.brix[0]);
    *out = g;
    return POTTLE_OK;
}

pottle_temperature
pottle_thermometer_shows(pottle_misreading thermometer, pottle_temperature t)
{
    return (pottle_temperature){ t.degC + pottle_misreading_base(thermometer) };
}
