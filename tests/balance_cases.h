/* balance_cases.h - the parts of test_balance, and what they share. */
#ifndef POTTLE_TESTS_BALANCE_CASES_H
#define POTTLE_TESTS_BALANCE_CASES_H

#include "kitchen/stove.h"
#include "kitchen_help.h"

TCase *balance_sums(void);

#endif
