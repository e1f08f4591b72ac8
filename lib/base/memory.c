/* memory.c - an arena: chunks in a list, handed out from the front, freed
 * together.
 *
 * Objects of the library are built once and never change, so one arena an
 * object makes ownership plain and a failure half-way costs one call to undo.
 */
#include <config.h>

#include <stdlib.h>
#include <string.h>

#include "internal.h"

/* The first chunk is small, since most objects are; the next ones double. */
enum { CHUNK_FIRST = 4096, CHUNK_MOST = 65536 };

struct pottlei_chunk {
    struct pottlei_chunk *previous;
    size_t used, size;
    max_align_t data[];
};

/* Room for `want` bytes at a multiple of `align`, a power of two. */
static void *
take(pottlei_arena *arena, size_t want, size_t align)
{
    struct pottlei_chunk *chunk = arena->last;
    size_t from = chunk != NULL ? (chunk->used + align - 1) & ~(align - 1) : 0;
    if (chunk == NULL || from > chunk->size || chunk->size - from < want) {
        const size_t next = chunk == NULL                 ? CHUNK_FIRST
                          : chunk->size >= CHUNK_MOST / 2 ? CHUNK_MOST
                                                          : 2 * chunk->size;
        const size_t room = want > next ? want : next;
        struct pottlei_chunk *fresh = calloc(1, sizeof *fresh + room);
        if (fresh == NULL)
            return NULL;
        fresh->previous = chunk;
        fresh->size = room;
        arena->last = chunk = fresh;
        from = 0;
    }
    chunk->used = from + want;
    return (char *)chunk->data + from;
}

void *
pottlei_arena_new(pottlei_arena *arena, size_t n, size_t size)
{
    if (size != 0 && n > (SIZE_MAX / 4) / size)
        return NULL;
    return take(arena, n * size, sizeof(max_align_t));
}

char *
pottlei_arena_text(pottlei_arena *arena, const char *text)
{
    const size_t n = strlen(text) + 1;
    char *p = take(arena, n, 1);
    if (p != NULL)
        memcpy(p, text, n);
    return p;
}

void
pottlei_arena_free(pottlei_arena *arena)
{
    while (arena->last != NULL) {
        struct pottlei_chunk *previous = arena->last->previous;
        free(arena->last);
        arena->last = previous;
    }
}
