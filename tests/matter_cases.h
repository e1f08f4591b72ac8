/* matter_cases.h - the parts of test_matter, and what they share. */
#ifndef POTTLE_TESTS_MATTER_CASES_H
#define POTTLE_TESTS_MATTER_CASES_H

#include <check.h>

#include "internal.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
#define ROUNDING 1e-11

bool near(double a, double b, double tolerance);

TCase *matter_sugar(void);

#endif
