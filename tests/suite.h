/* suite.h - runs one suite as the environment says: CK_FORK, CK_RUN_CASE,
 * CK_VERBOSITY of Check. */
#ifndef POTTLE_TESTS_SUITE_H
#define POTTLE_TESTS_SUITE_H

#include <check.h>
#include <stdlib.h>

/* Takes the suite over; the exit status of the program. */
static inline int
suite_run(Suite *suite)
{
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
