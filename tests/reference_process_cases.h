/* reference_process_cases.h - the parts of test_reference_process, and what
 * they share. */
#ifndef POTTLE_TESTS_REFERENCE_PROCESS_CASES_H
#define POTTLE_TESTS_REFERENCE_PROCESS_CASES_H

#include <check.h>

#include "reference.h"

typedef struct row {
    char recipe[64];
    bool raw;
    pottle_method method;
    const char *jars; /* parted by | */
    double headspace_in;
    int from_ft, to_ft, minutes, psi; /* as pottle_band */
} row;

/* A row in words, and a table of the catalogue. */
typedef struct words {
    char text[400];
} words;

extern csv table;
extern row *rows;
extern pottle_catalogue *catalogue;
extern pottle_recipe *recipe;
extern size_t first, last;
void read_rows(void);
void free_rows(void);
bool have_recipe(size_t i, findings *f);
words say_row(size_t i);

TCase *reference_process_lookup(void);

#endif
