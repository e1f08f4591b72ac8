/* no_memory.h - the n-th allocation of this program fails. For programs that
 * are linked with --wrap=malloc,--wrap=calloc. */
#ifndef POTTLE_TESTS_NO_MEMORY_H
#define POTTLE_TESTS_NO_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

/* Which allocation fails, counted from 0 since `allocations` was set to 0; -1:
 * none. */
static long fail_at = -1, allocations;

static inline bool
denied(void)
{
    return fail_at >= 0 && allocations++ == fail_at;
}

void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *
__wrap_malloc(size_t size)
{
    return denied() ? NULL : __real_malloc(size);
}
void *
__wrap_calloc(size_t n, size_t size)
{
    return denied() ? NULL : __real_calloc(n, size);
}

#endif
