/* plan_check.h - what must hold for any plan, and chance that is the same
 * everywhere. */
#ifndef POTTLE_TESTS_PLAN_CHECK_H
#define POTTLE_TESTS_PLAN_CHECK_H

#include <stdint.h>

#include "kitchen_help.h"

#if defined(__GNUC__)
#define PLAN_PRINTF(text, first) __attribute__((format(printf, text, first)))
#else
#define PLAN_PRINTF(text, first)
#endif

/* What is asked, for the message of a failure: emptied by hand, lengthened by
 * tell(). */
extern char asked_for[2000];
void tell(const char *format, ...) PLAN_PRINTF(1, 2);

/* Ends the test with what was asked and what does not hold. */
#define HOLDS(condition, ...)                                                  \
    check_holds((condition), __FILE__, __LINE__, __VA_ARGS__)
void check_holds(bool holds, const char *file, int line, const char *format,
                 ...) PLAN_PRINTF(4, 5);

enum { PLAN_LINES_MAX = 64 };

/* Amounts of the published batch: as printed, where a line is no rate; the rest
 * from a plan of one batch. */
typedef struct tested {
    const pottle_ingredient *list; /* as many as lines */
    double amount[PLAN_LINES_MAX], mass_g[PLAN_LINES_MAX],
        volume_ml[PLAN_LINES_MAX], count[PLAN_LINES_MAX];
    size_t lines;
} tested;
tested tested_batch(const pottle_recipe *recipe);

/* All of it: pots, lines, kept ratios, jars, doses, processes, rests, warnings.
 */
void check_plan(const pottle_plan *plan, const pottle_recipe *recipe,
                const pottle_request *request, const tested *t);
/* A process belongs to a tested size that is not smaller and to a band that
 * holds the altitude; NULL: to the first. */
void check_process(const pottle_process *process, const double *altitude_m);

/* A number below n; true once in n; a number between low and high, even in the
 * logarithm. */
size_t below(uint64_t *state, size_t n);
bool once_in(uint64_t *state, size_t n);
double spread_out(uint64_t *state, double low, double high);

/* Any request at all: property_requests.c. */
TCase *property_requests(void);

#endif
