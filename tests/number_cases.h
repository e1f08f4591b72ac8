/* number_cases.h - the parts of test_number, and what they share. */
#ifndef POTTLE_TESTS_NUMBER_CASES_H
#define POTTLE_TESTS_NUMBER_CASES_H

#include <check.h>

#include "internal.h"

TCase *number_write(void);

#endif
