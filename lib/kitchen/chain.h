/* chain.h - the inside of a chain; only lib/kitchen includes it.
 *
 * Every link is a normal step in logarithms. A node is the level (the logarithm
 * of the mass that is ready to use) plus a fixed offset plus a weighted sum of
 * the steps. Where the weights are all one it is a plain chain; a weight
 * between tells how far the cooked amount follows the produce when the rest of
 * the batch is measured out by the recipe. */
#ifndef POTTLE_KITCHEN_CHAIN_H
#define POTTLE_KITCHEN_CHAIN_H

#include "kitchen/stove.h"

/* The steps. FINISH lies between the mass and the volume in the pot, FILL
 * between the pot and the jars. */
enum {
    POTTLEI_STEP_CONTAINER = 0,
    POTTLEI_STEP_TRIM = 1,
    POTTLEI_STEP_FORM = 2,
    POTTLEI_STEP_COOK = 3,
    POTTLEI_STEP_FINISH = 4,
    POTTLEI_STEP_FILL = 5,
    POTTLEI_STEPS = 6
};

/* Smallest error of an observation, which keeps every matrix well away from
 * singular, and the largest of a step and an error; a factor of exp(3) = 20 is
 * no knowledge. */
#define POTTLEI_ERROR_MIN 1e-5
#define POTTLEI_ERROR_MAX 3.0

typedef struct pottlei_chain_model {
    bool has[POTTLE_CHAIN_NODES];
    double offset[POTTLE_CHAIN_NODES]; /* of the logarithm, against the level */
    double weight[POTTLE_CHAIN_NODES][POTTLEI_STEPS];
    double sd[POTTLEI_STEPS]; /* 0: exact */
} pottlei_chain_model;

/* An observed node: logarithm and its error. */
typedef struct pottlei_seen {
    size_t node;
    double log, sd;
} pottlei_seen;

/* What is known after some observations. The last unknown is the error of the
 * first of them. */
enum { POTTLEI_UNKNOWNS = POTTLEI_STEPS + 1 };
typedef struct pottlei_posterior {
    bool level; /* something was observed */
    pottlei_seen first;
    double mean[POTTLEI_UNKNOWNS], cov[POTTLEI_UNKNOWNS][POTTLEI_UNKNOWNS];
} pottlei_posterior;

/* Conditions the chain on those observations whose bit is set in `use`: a flat
 * prior for the level, the steps normal and independent. One linear-Gaussian
 * update.
 *
 * Given:     seen    up to POTTLE_CHAIN_OBSERVED_MAX, errors POTTLEI_ERROR_MIN
 *                    to POTTLEI_ERROR_MAX, nodes the model has
 * Returned:  out     what is known; its level is false when nothing is used
 * Source:    R. E. Kalman, "A new approach to linear filtering and prediction
 *            problems", J. Basic Eng. 82 (1960) 35-45
 *            (from memory); the flat level is eliminated by measuring
 *            everything from the first observation
 * Checked:   tests/test_chain.c, by hand, against sampling and against
 *            one-by-one updates */
void pottlei_chain_condition(const pottlei_chain_model *model,
                             const pottlei_seen *seen, size_t count,
                             unsigned use, pottlei_posterior *out);
#define POTTLEI_USE_ALL (~0u)

/* Logarithm of a node; needs a level. */
pottle_estimate pottlei_chain_node(const pottlei_chain_model *model,
                                   const pottlei_posterior *known, size_t node);
/* How many of node `to` one of node `from` makes. */
pottle_estimate pottlei_chain_ratio(const pottlei_chain_model *model,
                                    const pottlei_posterior *known, size_t from,
                                    size_t to);

/* The observation that disagrees most with what the others together predict. */
typedef struct pottlei_clash {
    size_t seen;               /* index of the observation */
    double sigma;              /* of its residual, with its sign */
    pottle_estimate predicted; /* by the others */
    bool pair; /* `other` alone disagrees with it: sigma and predicted are
                  against that one */
    size_t other;
} pottlei_clash;

/* False when there are fewer than two observations. limit tells from where on a
 * single other one is named. */
bool pottlei_chain_clash(const pottlei_chain_model *model,
                         const pottlei_seen *seen, size_t count, double limit,
                         pottlei_clash *out);

struct pottle_chain {
    pottle_plan *plan; /* one published batch; it owns the foods */
    const pottle_recipe *recipe;
    const pottle_food *food; /* the limiting one */
    pottle_chain_facts facts;
    pottlei_chain_model model;
    size_t links;
    pottle_chain_link link[POTTLE_CHAIN_NODES];
    double error_scale, error_cup, error_level, error_about, error_scale_g,
        limit;
    /* what one batch holds before it is cooked; in_g 0: not known */
    double in_g, in_ml, in_sd;
};

bool pottlei_is_error(double e);

/* The usual error of measuring a node. A count of jars may be half a jar out,
 * for the last one is seldom just full; other counts are exact. */
double pottlei_chain_error(const pottle_chain *chain, pottle_chain_node node,
                           double value);

/* Refuses a node that the recipe does not have. */
pottle_status pottlei_chain_no_node(const pottle_chain *chain, int node,
                                    pottle_error *error);

/* Observations with their errors, in logarithms; seen has room for all of them.
 */
pottle_status pottlei_chain_observe(const pottle_chain *chain,
                                    const pottle_observation *observed,
                                    size_t count, pottlei_seen *seen,
                                    pottle_error *error);

/* Refuses what cannot be true together. */
pottle_status pottlei_chain_check(const pottle_chain *chain,
                                  const pottlei_seen *seen, size_t count,
                                  pottle_error *error);

/* What is gathered on the way to the model. */
typedef struct pottlei_making {
    const pottle_catalogue *catalogue;
    const pottle_chain_request *request;
    pottle_chain *chain;
    size_t at;          /* the limiting line */
    double all_to_main; /* all lines of the food against that one */
    const char *trim;
    pottlei_part part[POTTLEI_LINES_MAX];
    pottle_estimate keeps; /* of the picked mass */
    double raw_g; /* ready to use, of one batch, before it is cooked, where the
                     recipe measures it cooked; else 0 */
    pottle_basis
        basis[POTTLE_CHAIN_NODES]; /* of the link that leads to the node */
} pottlei_making;

/* Links the batches to the pot and the jars (chain_pot.c). */
void pottlei_chain_link_pot(pottlei_making *m);

/* Builds model, links and facts of a chain whose plan is there (chain_model.c).
 */
pottle_status pottlei_chain_model_make(const pottle_catalogue *catalogue,
                                       pottle_chain *chain,
                                       const pottle_chain_request *request,
                                       pottle_error *error);

#endif
