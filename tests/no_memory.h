/* no_memory.h - the n-th allocation of this program fails. For programs that
 * are linked with --wrap=malloc,--wrap=calloc. */
#ifndef POTTLE_TESTS_NO_MEMORY_H
#define POTTLE_TESTS_NO_MEMORY_H

/* Which allocation fails, counted from 0 since `allocations` was set to 0; -1:
 * none. */
extern long fail_at, allocations;

#endif
