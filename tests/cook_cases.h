/* cook_cases.h - the parts of test_cook, and what they share. */
#ifndef POTTLE_TESTS_COOK_CASES_H
#define POTTLE_TESTS_COOK_CASES_H

#include "kitchen/plan.h"
#include "kitchen_help.h"

/* One published batch: what goes into the balance. */
typedef struct batch {
    pottle_recipe *recipe;
    pottle_plan *plan; /* owns the foods of the parts */
    pottlei_part part[POTTLEI_LINES_MAX];
    size_t parts;
} batch;

batch open_batch(const char *id, const char *jar);
void close_batch(batch *b);

TCase *cook_balance(void);

#endif
