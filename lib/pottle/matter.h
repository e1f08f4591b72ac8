/* matter.h part of pottle.h: physical properties. */
#ifndef POTTLE_H_INTERNAL
#error "include <pottle.h>, not its parts"
#endif

/* Every function here gives POTTLE_EMISUSE when the place for its result is
 * NULL. */

/* Density of air-free pure water at 101325 Pa.
 *
 * Given:     t_degC  temperature, ITS-90, 0 to 40 (deg C)
 * Returned:  out     density (g/mL)
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN when t_degC is NaN or outside 0 to 40
 * Source:    Tanaka, Girard, Davis, Peuto and Bignell, "Recommended table for
 *            the density of water between 0 C and 40 C", Metrologia 38 (2001)
 *            301-309, the recommended formula
 * Checked:   tests/test_matter.c, against its table */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_water_density(double t_degC, pottle_density *out);

/* Boiling point of water at a pressure.
 *
 * Given:     p       pressure, 611.213 Pa to 22.064 MPa
 * Returned:  out     saturation temperature (deg C)
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN outside the range
 * Source:    IAPWS Industrial Formulation 1997, region 4, equation 31
 * Checked:   tests/test_matter.c, check values of its tables 35 and 36 */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_water_boiling(pottle_pressure p, pottle_temperature *out);

/* Pressure of the standard atmosphere.
 *
 * Given:     altitude_m  geopotential altitude, -1000 to 11000 (m)
 * Returned:  out         pressure (Pa)
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN outside the range
 * Source:    U.S. Standard Atmosphere 1976, troposphere layer, equation 33a
 * Checked:   tests/test_matter.c, against its table I
 * Notes:     1) A height on a map, taken for the geopotential altitude, gives
 *            13 Pa too little
 *               at 3000 m (equation 18 of the same source). */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_air_pressure(double altitude_m, pottle_pressure *out);

/* Density of a sucrose solution at 20 deg C.
 *
 * Given:     brix    sucrose, 0 to 84 (percent by mass)
 * Returned:  out     density (g/mL)
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN outside the range
 * Valid:     the table is printed to 0.0001 g/mL; between its 63 rows the cubic
 *            through the four
 *            nearest, which stays within 0.00015 g/mL of the NBS Circular 440
 *            polynomial
 * Source:    CRC Handbook of Chemistry and Physics, aqueous solutions, sucrose
 *            at 20 deg C
 * Checked:   tests/test_matter.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_sugar_density(double brix, pottle_density *out);

/* Two published series of boiling points of sucrose solutions. They agree
 * within 0.4 K up to 64 percent and part above: 4.4 K against 3.8 K at 65, 6.5
 * against 5.0 at 70, 12.0 against 9.5 at 80. Single measurements published
 * elsewhere (65 percent: 3.9 K) lie nearer the equation. */
typedef enum pottle_sugar_series {
    /* A smoothed table in a handbook of sugar analysis, 1912, printed to 0.1 K.
     */
    POTTLE_SUGAR_TABLE_1912 = 1,
    /* The water-activity equation of Starzak and Peacock, 1997, with IAPWS-IF97
     * for the steam. Its parameters were read in an abstract; its algebraic
     * form is from memory. */
    POTTLE_SUGAR_EQUATION_1997 = 2
} pottle_sugar_series;

/* How much hotter than water a sucrose solution boils, at 101325 Pa.
 *
 * Given:     brix         sucrose (percent by mass): 2 to 90 for the table, 0
 *                         to 90 for the equation
 *            series       which of the two
 * Returned:  elevation_k  boiling point less that of water (K)
 * Status:    POTTLE_OK; POTTLE_EDOMAIN outside the range; POTTLE_EMISUSE for
 *            another series
 * Valid:     pure sucrose. Acids, pectin and inverted sugar raise the boiling
 *            point of a jam
 *            beyond this
 * Source:    as said at the two series; the table is read in a straight line
 *            between its rows
 * Checked:   tests/test_matter.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_sugar_elevation(
    double brix, pottle_sugar_series series, double *elevation_k);

/* Sucrose in a solution that boils so much hotter than water, at 101325 Pa: the
 * inverse of pottle_sugar_elevation.
 *
 * Given:     elevation_k  boiling point less that of water (K): 0.8 to 27.8 for
 *                         the table, 0 to what
 *                         it gives at 90 percent, 22.4, for the equation
 *            series       which of the two
 * Returned:  brix         sucrose (percent by mass)
 * Status:    POTTLE_OK; POTTLE_EDOMAIN outside the range; POTTLE_EMISUSE for
 *            another series
 * Checked:   tests/test_matter.c
 * Notes:     1) Under 0.8 K (26 percent) the table stands still over several
 *            rows and cannot be
 *               read backwards. */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_sugar_brix(double elevation_k, pottle_sugar_series series, double *brix);

/* Temperature at which a jelly without added pectin is taken to gel: 8 deg F
 * (4.44 K) above the boiling point of water at the same place.
 *
 * Given:     p       pressure of the air, 57000 to 110000: from 15,000 ft, the
 *                    highest line of the published
 *                    boiling points, to below sea level (Pa)
 * Returned:  out     gel point (deg C)
 * Status:    POTTLE_OK, or POTTLE_EDOMAIN outside the range
 * Valid:     the published table, in whole deg F from 0 to 8,000 ft, within 1
 *            deg F
 * Source:    USDA Complete Guide to Home Canning, guide 7, jelly gelling points
 *            (read in copies)
 * Checked:   tests/test_matter.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_gel_point_rule(pottle_pressure p, pottle_temperature *out);
