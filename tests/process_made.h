/* process_made.h - a part of test_process. */
#ifndef POTTLE_TESTS_PROCESS_MADE_H
#define POTTLE_TESTS_PROCESS_MADE_H

#include <check.h>

TCase *process_made(void);

#endif
