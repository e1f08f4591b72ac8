/* reference_loads_cases.h - the parts of test_reference_loads, and what they
 * share. */
#ifndef POTTLE_TESTS_REFERENCE_LOADS_CASES_H
#define POTTLE_TESTS_REFERENCE_LOADS_CASES_H

#include <check.h>

#include "reference.h"

extern pottle_catalogue *catalogue;
void open_catalogue(void);
void close_catalogue(void);

TCase *reference_loads_acid(void);

#endif
