/* scale_cases.h - the parts of test_scale. */
#ifndef POTTLE_TESTS_SCALE_CASES_H
#define POTTLE_TESTS_SCALE_CASES_H

#include "kitchen_help.h"

#define RHUBARB_CUP 122.0
#define SUGAR_CUP 200.0
#define ONION 110.0

#define NEAR(a, b)                                                             \
    ck_assert_double_eq_tol(a, b, 1e-6 * (fabs((double)(b)) + 1e-6))

extern const pottle_request no_request; /* an empty one */

void check_pots(const pottle_plan *plan, const double *pot, size_t pots);

TCase *scale_places(void);
TCase *scale_totals(void);
TCase *scale_refusals(void);
TCase *scale_senseless(void);
TCase *scale_holdings(void);
TCase *scale_made(void);
TCase *scale_mixes(void);
TCase *scale_edges(void);
TCase *scale_raw(void);
TCase *scale_batches(void);

/* scale_made.c: recipes by hand. */
pottle_ingredient made_part(const char *food, double amount, const char *unit,
                            const char *form);
pottle_recipe made_recipe(const pottle_ingredient *list, size_t count);
pottle_phrase made_phrase(const char *food, double low, double high,
                          const char *unit);
pottle_plan *made_lines(const pottle_recipe *recipe,
                        const pottle_request *request, pottle_status expected,
                        pottle_error *error);

#endif
