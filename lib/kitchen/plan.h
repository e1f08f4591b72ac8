/* plan.h - the inside of a plan; only lib/kitchen includes it. */
#ifndef POTTLE_KITCHEN_PLAN_H
#define POTTLE_KITCHEN_PLAN_H

#include "kitchen/kitchen.h"

enum { POTTLEI_FOODS_MAX = 128, POTTLEI_WARNINGS_MAX = 24 };

/* An ingredient's amount in the published batch: mass in the state the recipe
 * measures. Of what is cooked before it is measured also the mass that is
 * bought for it; else 0. */
typedef struct pottlei_amount {
    pottle_estimate mass_g;
    double volume_ml, count;
    double raw_g;
} pottlei_amount;

struct pottle_plan {
    const pottle_recipe *recipe; /* borrowed */
    double factor, factor_sd;
    char limit[80];
    pottlei_pots pots;

    size_t foods;
    pottle_food *food[POTTLEI_FOODS_MAX];

    size_t lines;
    pottle_line list[POTTLEI_LINES_MAX]; /* totals */
    pottlei_amount amount[POTTLEI_LINES_MAX];
    const pottle_food *line_food[POTTLEI_LINES_MAX];
    double total[POTTLEI_LINES_MAX]; /* a set total, in batches of the line; 0
                                        for none */
    pottle_line *pot_line;           /* pots.count times lines */

    const pottle_jar *jar;
    const pottle_own_jar *own; /* borrowed; NULL for a listed size */
    pottle_length headspace;
    pottle_estimate batch_jars; /* of the published batch; median 0 when it
                                   cannot be told */
    pottle_estimate fill_ml;
    bool has_jars;
    pottle_jar_count jars;
    const pottle_jar *smaller;
    unsigned long loads, per_load;

    size_t doses, rests, warnings, processes, tables;
    pottle_dose dose[POTTLEI_DOSES_MAX];
    pottle_rest rest[POTTLEI_LINES_MAX];
    pottle_warning warning[POTTLEI_WARNINGS_MAX];
    pottle_process process[POTTLE_PROCESS_MAX], table[POTTLE_PROCESS_MAX];
};

/* Whether an ingredient is made of a food: its own, or one that may stand there
 * and has no place of its own in the recipe. Gives the rule and the form that
 * apply. */
bool pottlei_takes(const pottle_recipe *recipe,
                   const pottle_ingredient *ingredient, const char *food,
                   const char **rule, const char **form);

/* lines.c: the lines of the published batch, with the foods that are set or
 * there in place of the recipe's own. */
pottle_status pottlei_read_lines(const pottle_catalogue *catalogue,
                                 pottle_plan *plan, const pottle_recipe *recipe,
                                 const pottle_request *request,
                                 pottle_error *error);

/* Line i as a part of the balance, when that much of it is taken in the state
 * the recipe measures. */
pottle_status pottlei_line_part(const pottle_catalogue *catalogue,
                                const pottle_plan *plan, size_t i,
                                double mass_g, pottlei_part *out,
                                pottle_error *error);

/* How much of line i a phrase is, in published batches. Volumes of one form and
 * pieces of one size are compared as such, so no density comes between;
 * everything else by mass in the recipe's state. */
pottle_status pottlei_batches_of(const pottle_catalogue *catalogue,
                                 const pottle_plan *plan, size_t i,
                                 const pottle_phrase *phrase,
                                 pottle_estimate *out, pottle_error *error);

/* What a line takes in a pot of a factor: more than the factor where the source
 * prints more for a smaller batch of what may rise. */
double pottlei_pot_share(const pottle_ingredient *ingredient, double pot);

/* What all pots need of line i, in batches. */
double pottlei_need(const pottle_plan *plan, size_t i);

/* prepared.c: refuses what is on hand when it is cut finer, frozen or cooked
 * where the recipe was tested with something else. */
pottle_status pottlei_check_prepared(const pottle_catalogue *catalogue,
                                     const pottle_plan *plan,
                                     const pottle_request *request,
                                     pottle_error *error);

/* holdings.c: the factor that what is on hand allows, and what is left of it.
 */
pottle_status pottlei_factor_from_have(const pottle_catalogue *catalogue,
                                       pottle_plan *plan,
                                       const pottle_request *request,
                                       double *factor, pottle_error *error);
pottle_status pottlei_leave_over(const pottle_catalogue *catalogue,
                                 pottle_plan *plan,
                                 const pottle_request *request,
                                 pottle_error *error);

/* totals.c: judges the totals that were set by the keep rules, and keeps them
 * in plan->total. */
pottle_status pottlei_apply_sets(const pottle_catalogue *catalogue,
                                 pottle_plan *plan,
                                 const pottle_request *request,
                                 pottle_error *error);

/* portions.c: fills and rounds the lines of the pots and the totals. */
pottle_status pottlei_fill_pots(pottle_plan *plan, pottle_error *error);

pottle_status pottlei_plan_food(pottle_plan *plan,
                                const pottle_catalogue *catalogue,
                                const char *id, const pottle_food **out,
                                pottle_error *error);
void pottlei_plan_warn(pottle_plan *plan, const char *code, const char *source,
                       const char *at, const char *text);

/* Rounds lines to kitchen measures so that no kept ratio is worse than that of
 * `wanted` (each in its line's own dimension). */
void pottlei_round_lines(pottle_line *line, const double *wanted, size_t count);

/* plan_jars.c: chooses the jar, finds its processes, and predicts the jars of
 * one published batch. */
pottle_status pottlei_plan_jar(const pottle_catalogue *catalogue,
                               pottle_plan *plan, const pottle_request *request,
                               pottle_error *error);

/* Batches for a number of jars: expected ones; whole batches where the recipe
 * has no smaller. */
pottle_status pottlei_plan_fill_factor(const pottle_plan *plan, double jars,
                                       double *factor, pottle_error *error);

/* Whole jars to make ready; 0 where no number is known. */
double pottlei_whole_jars(const pottle_plan *plan);

/* Jars, remainder and loads of a plan whose lines are filled. */
pottle_status pottlei_plan_count_jars(const pottle_catalogue *catalogue,
                                      pottle_plan *plan, pottle_error *error);

/* doses.c: what goes into each jar of a plan whose jars are counted. */
pottle_status pottlei_plan_add_doses(const pottle_catalogue *catalogue,
                                     pottle_plan *plan,
                                     const pottle_request *request,
                                     pottle_error *error);

/* warnings.c: what bears on a finished plan. */
void pottlei_plan_add_warnings(const pottle_catalogue *catalogue,
                               pottle_plan *plan,
                               const pottle_request *request);

#endif
