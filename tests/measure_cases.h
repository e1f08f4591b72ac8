/* measure_cases.h - the parts of test_measure, and what they share. */
#ifndef POTTLE_TESTS_MEASURE_CASES_H
#define POTTLE_TESTS_MEASURE_CASES_H

#include <check.h>

#include "internal.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* NIST Handbook 44 and the pound of 1959. */
#define CUP 236.5882365
#define TBSP 14.78676478125
#define TSP 4.92892159375
#define QT 946.352946
#define LB 453.59237
#define OZ 28.349523125

extern const pottle_keep keeps[4];
const char *text_of(const pottle_measure *m, char *buf, size_t size);

TCase *measure_properties(void);
TCase *measure_wording(void);

#endif
