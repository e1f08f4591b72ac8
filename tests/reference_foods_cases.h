/* reference_foods_cases.h - the parts of test_reference_foods, and what they
 * share. */
#ifndef POTTLE_TESTS_REFERENCE_FOODS_CASES_H
#define POTTLE_TESTS_REFERENCE_FOODS_CASES_H

#include <check.h>

#include "reference.h"

enum { NUMBER_LENGTH = 5 };

typedef struct words {
    char text[600];
} words;

typedef void (*compare)(const pottle_food *food, findings *f);

extern csv portions, densities, acids;
extern pottle_catalogue *catalogue;
void open_all(void);
void close_all(void);
extern const char edition[], earlier[];
bool entry_of(const pottle_cite *cite, const char *source,
              char number[NUMBER_LENGTH + 1]);
size_t next_row(const char *number, size_t row);
void compare_all(const char *section, compare one);

TCase *reference_foods_composition(void);

#endif
