/* loads_cases.h - the parts of test_loads, and what they share. */
#ifndef POTTLE_TESTS_LOADS_CASES_H
#define POTTLE_TESTS_LOADS_CASES_H

#include "kitchen/shelf.h"
#include "kitchen_help.h"

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

pottle_misreading reads(const char *text);

TCase *loads_gauge(void);
TCase *loads_clock(void);

#endif
