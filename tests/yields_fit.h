/* yields_fit.h - the recipes whose yield is printed, and the fit that leaves
 * each of them out. */
#ifndef POTTLE_TESTS_YIELDS_FIT_H
#define POTTLE_TESTS_YIELDS_FIT_H

#include "kitchen/stove.h"
#include "kitchen_help.h"

enum { ITEMS_MAX = 200, PARAMETERS = 11 };

typedef struct item {
    pottle_recipe *recipe;
    pottle_plan *plan; /* owns the foods */
    const char *id, *kind;
    pottlei_part part[POTTLEI_LINES_MAX];
    pottle_yield_comparison c;
    double fill_ml,
        filled_ml; /* of a jar: as the print counts it, and as it is filled */
    bool possible;
    double left_out; /* jars, without its own print */
} item;

extern item list[ITEMS_MAX];
extern size_t items;
/* One line for each recipe that prints a yield of which no balance can be made.
 */
extern char not_told[2000];

/* A fixture: reads them all and opens the catalogue; the other gives back. */
void read_items(void);
void drop_items(void);

typedef struct yield_parameter {
    const char *name, *figure;
    size_t at;
    double start, sd;
} yield_parameter;
extern const yield_parameter parameter[PARAMETERS];
/* Where the k-th parameter stands among the values. */
double *parameter_of(pottlei_cook_values *values, size_t k);

/* Fits to all possible prints, and again without each one: fills `fitted`,
 * `jackknife` (log sd of each estimate) and the left_out of every item. */
extern pottlei_cook_values fitted;
extern double jackknife[PARAMETERS];
void leave_each_out(void);

typedef struct score {
    size_t n, inside, within_15, within_25;
    double median, median_abs, mean_abs, rms, wide;
} score;

/* How well the medians meet the prints.
 *
 * Given:     kind           of kind_words, or NULL for all
 *            possible_only  leave out the prints that cannot be
 *            left_out       the left-out predictions, else those as shipped
 *            only           ids to look at, or NULL for all */
score score_of(const char *kind, bool possible_only, bool left_out,
               const char *const *only, size_t only_count);

#endif
