/* no_memory.c - malloc and calloc of a program whose n-th allocation fails. */
#include <config.h>

#include <stdbool.h>
#include <stddef.h>

#include "no_memory.h"

long fail_at = -1, allocations;

static bool
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
