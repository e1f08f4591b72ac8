/* unit_cases.h - the parts of test_unit, and what they share. */
#ifndef POTTLE_TESTS_UNIT_CASES_H
#define POTTLE_TESTS_UNIT_CASES_H

#include <check.h>

#include "internal.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* Exact values, from definitions: 231 in3, 2150.42 in3, 4.54609 L, 0.45359237
 * kg, 25.4 mm. A double holds them to half a unit in the last place; a quotient
 * and a product add as much again. */
#define HB44 "NIST Handbook 44 Appendix C; NIST SP 811"
#define UK "UK imperial gallon = 4.54609 L exactly"
#define YARD "international yard and pound agreement 1959"
#define AU "Standards Association of Australia metric measures"
#define KITCHEN "culinary convention"

bool near(double a, double b, double relative);
const pottle_unit *unit(const char *name);

TCase *unit_names(void);
TCase *unit_quantities(void);

#endif
