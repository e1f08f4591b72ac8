/* scale_cases.h - the parts of test_scale. */
#ifndef POTTLE_TESTS_SCALE_CASES_H
#define POTTLE_TESTS_SCALE_CASES_H

#include "kitchen_help.h"

TCase *scale_totals(void);
TCase *scale_refusals(void);
TCase *scale_holdings(void);

#endif
