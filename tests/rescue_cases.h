/* rescue_cases.h - the parts of test_rescue. */
#ifndef POTTLE_TESTS_RESCUE_CASES_H
#define POTTLE_TESTS_RESCUE_CASES_H

#include "catalogue/model.h"
#include "kitchen_help.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

TCase *rescue_remake(void);

#endif
