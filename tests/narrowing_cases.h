/* narrowing_cases.h - the parts of test_narrowing, and what they share. */
#ifndef POTTLE_TESTS_NARROWING_CASES_H
#define POTTLE_TESTS_NARROWING_CASES_H

#include "kitchen_help.h"

pottle_chain *chain_of(const pottle_recipe *recipe,
                       const pottle_chain_request *request);
pottle_chain_state state_of(const pottle_chain *chain,
                            const pottle_observation *seen, size_t count);

TCase *narrowing_loads(void);

#endif
