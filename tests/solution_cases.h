/* solution_cases.h - the parts of test_solution, and what they share. */
#ifndef POTTLE_TESTS_SOLUTION_CASES_H
#define POTTLE_TESTS_SOLUTION_CASES_H

#include "kitchen/solution.h"
#include "kitchen_help.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* Density of water at 20 deg C: Tanaka et al. 2001, table (g/mL). Sugar weighs
 * 200 g a cup: USDA SR28 19335. */
#define WATER_G_ML 0.9982067
#define SUGAR_G_CUP 200.0

pottle_jar_number jars_of(const char *jar, double count);

TCase *solution_brine(void);
TCase *solution_acid(void);
TCase *solution_juice(void);

#endif
