/* shelf_cases.h - the parts of test_shelf, and what they share. */
#ifndef POTTLE_TESTS_SHELF_CASES_H
#define POTTLE_TESTS_SHELF_CASES_H

#include "kitchen/shelf.h"
#include "kitchen_help.h"

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))
#define QUART_ML (3785.411784 / 4)
#define PINT_ML (3785.411784 / 8)

enum { SIZES_MAX = 8 };
typedef struct wish {
    const char *recipe;
    double fill;
    const char *jar, *altitude;
    const char *shelf[SIZES_MAX];
    const char *canner;
    pottle_pack_style pack;
    double cooked_ml;
} wish;

typedef struct filled {
    answer answer;
    pottle_status status;
    pottle_error error;
    pottle_filling *filling;
    const pottle_filled *size;
    size_t sizes;
    const pottle_filling_facts *facts;
} filled;

filled fill_with(const wish *w, const pottle_kitchen *house,
                 const pottle_kitchen_canner *canner);
filled fill_well(const wish *w);
void filled_free(filled *f);
bool warned(const pottle_filling *f, const char *code);

TCase *shelf_search(void);
TCase *shelf_jars(void);
TCase *shelf_statuses(void);

#endif
