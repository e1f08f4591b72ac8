/* own_jar_cases.h - the parts of test_own_jar, and what they share. */
#ifndef POTTLE_TESTS_OWN_JAR_CASES_H
#define POTTLE_TESTS_OWN_JAR_CASES_H

#include "kitchen_help.h"

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))
#define RHO20 0.9982067

pottle_quantity q(double value, const char *unit);
pottle_own_jar tall(void);
void lighter(pottle_own_jar *j);

TCase *own_jar_shelf(void);
TCase *own_jar_refused(void);

#endif
