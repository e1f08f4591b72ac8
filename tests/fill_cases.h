/* fill_cases.h - the parts of test_fill, and what they share. */
#ifndef POTTLE_TESTS_FILL_CASES_H
#define POTTLE_TESTS_FILL_CASES_H

#include <check.h>

#include "internal.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

bool same(double a, double b);

TCase *fill_count(void);

#endif
