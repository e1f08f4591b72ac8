/* process_cases.h - the parts of test_process, and what they share. */
#ifndef POTTLE_TESTS_PROCESS_CASES_H
#define POTTLE_TESTS_PROCESS_CASES_H

#include "internal.h"
#include "kitchen_help.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* A canner of a table: a method, or any. */
typedef enum canner { BW, DIAL, WEIGHTED, ANY } canner;

#define GUIDE "USDA Complete Guide to Home Canning (AIB 539), "
#define G2 GUIDE "Guide 2, "
#define G3 GUIDE "Guide 3, "
#define G4 GUIDE "Guide 4, "
#define G5 GUIDE "Guide 5, "
#define G6 GUIDE "Guide 6, "
#define G7 GUIDE "Guide 7, "
#define HOT POTTLE_HOT_PACK
#define RAW POTTLE_RAW_PACK

extern const double foot_m;
extern const double inch_mm;
extern pottle_catalogue *catalogue;
void open_catalogue(void);
void close_catalogue(void);
pottle_recipe *recipe_of(const char *id);
const pottle_jar *jar_of(const char *name);
const pottle_method *method_of(canner c);
void fill_outputs(pottle_process out[POTTLE_PROCESS_MAX], size_t *count);
bool untouched(const pottle_process out[POTTLE_PROCESS_MAX], size_t count);

TCase *process_made(void);
TCase *process_rows(void);
TCase *process_refusals(void);

#endif
