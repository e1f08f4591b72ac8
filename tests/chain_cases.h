/* chain_cases.h - the parts of test_chain. */
#ifndef POTTLE_TESTS_CHAIN_CASES_H
#define POTTLE_TESTS_CHAIN_CASES_H

#include "kitchen/chain.h"
#include "kitchen_help.h"

/* An error that is as good as none. */
#define EXACT POTTLEI_ERROR_MIN

/* A request for the recipe as it is. */
extern const pottle_chain_request plain;

/* The chain of a recipe; a failure ends the test. */
pottle_chain *make_chain(const pottle_recipe *recipe,
                         const pottle_chain_request *request);

/* A node that was measured, as it is usually. */
pottle_observation at(pottle_chain_node node, double value);

TCase *chain_hand(void);
TCase *chain_recipes(void);
TCase *chain_wanted(void);
TCase *chain_refusals(void);

#endif
