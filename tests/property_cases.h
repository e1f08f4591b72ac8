/* property_cases.h - the parts of test_property, and what they share. */
#ifndef POTTLE_TESTS_PROPERTY_CASES_H
#define POTTLE_TESTS_PROPERTY_CASES_H

#include <check.h>

#include "plan_check.h"

enum { AMOUNTS = 200, SEEDS = 20, ROUNDS = 1000 };

TCase *property_jars(void);

#endif
