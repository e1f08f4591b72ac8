/* fuzz_kitchen.c - a kitchen file that nobody chose: refused with a reason, or
 * kept as it is when it is written. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "targets.h"

/* The file's bytes; the caller frees them. */
static char *
bytes_of(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    char *bytes = malloc(1 << 20);
    if (file == NULL || bytes == NULL) {
        perror(path);
        exit(99);
    }
    *size = fread(bytes, 1, 1 << 20, file);
    fclose(file);
    return bytes;
}

static bool
same_quantity(const pottle_quantity *a, const pottle_quantity *b)
{
    return a->unit == b->unit && !(a->low < b->low || a->low > b->low) &&
           !(a->high < b->high || a->high > b->high);
}

/* Nothing is lost on the way through a file. */
static void
check_same(const pottle_kitchen *a, const pottle_kitchen *b)
{
    fuzz_expect(same_quantity(&a->altitude, &b->altitude) && a->cup == b->cup &&
                    same_quantity(&a->scale, &b->scale) &&
                    a->thermometer.high == b->thermometer.high &&
                    same_quantity(&a->thermometer.by, &b->thermometer.by),
                "a kitchen that is written has other instruments");
    if (!fuzz_expect(a->canners == b->canners && a->pots == b->pots &&
                         a->shelves == b->shelves && a->own_jars == b->own_jars,
                     "a kitchen that is written has more or less in it"))
        return;
    for (size_t i = 0; i < a->canners; i++) {
        const pottle_kitchen_canner *x = &a->canner[i], *y = &b->canner[i];
        bool same =
            strcmp(x->id, y->id) == 0 && strcmp(x->title, y->title) == 0 &&
            x->method == y->method && x->gauge.high == y->gauge.high &&
            same_quantity(&x->gauge.by, &y->gauge.by) && x->holds == y->holds;
        for (size_t k = 0; same && k < x->holds; k++)
            same = strcmp(x->hold[k].jar, y->hold[k].jar) == 0 &&
                   x->hold[k].count == y->hold[k].count;
        fuzz_expect(same, "the canner '%s' is another when written", x->id);
    }
    for (size_t i = 0; i < a->pots; i++)
        fuzz_expect(strcmp(a->pot[i].id, b->pot[i].id) == 0 &&
                        strcmp(a->pot[i].title, b->pot[i].title) == 0 &&
                        same_quantity(&a->pot[i].tare, &b->pot[i].tare) &&
                        same_quantity(&a->pot[i].width, &b->pot[i].width),
                    "the pot '%s' is another when written", a->pot[i].id);
    for (size_t i = 0; i < a->shelves; i++)
        fuzz_expect(strcmp(a->shelf[i].jar, b->shelf[i].jar) == 0 &&
                        a->shelf[i].count == b->shelf[i].count,
                    "the shelf of '%s' is another when written",
                    a->shelf[i].jar);
    for (size_t i = 0; i < a->own_jars; i++) {
        const pottle_own_jar *x = &a->own[i], *y = &b->own[i];
        fuzz_expect(strcmp(x->id, y->id) == 0 &&
                        strcmp(x->title, y->title) == 0 &&
                        strcmp(x->near, y->near) == 0 && x->count == y->count &&
                        same_quantity(&x->empty, &y->empty) &&
                        same_quantity(&x->full, &y->full) &&
                        same_quantity(&x->to_mark, &y->to_mark) &&
                        same_quantity(&x->mark, &y->mark) &&
                        same_quantity(&x->mouth, &y->mouth) &&
                        same_quantity(&x->water, &y->water) &&
                        same_quantity(&x->scale, &y->scale),
                    "the jar '%s' is another when written", x->id);
    }
}

/* What is read can be written, and read and written again it is the same. */
static void
check_kitchen(const pottle_kitchen *kitchen)
{
    static pottle_kitchen again;
    char path[FUZZ_PATH_SIZE];
    pottle_error error;
    fuzz_put("again.xml", NULL, 0, path);
    unlink(path);
    if (!fuzz_expect(pottle_kitchen_write(kitchen, path, &error) == POTTLE_OK,
                     "a kitchen that was read cannot be written: %s",
                     error.what))
        return;
    size_t n = 0, m = 0;
    char *first = bytes_of(path, &n);
    if (fuzz_expect(pottle_kitchen_read(fuzz_catalogue(), path, &again,
                                        &error) == POTTLE_OK,
                    "a kitchen that was written cannot be read: %s",
                    error.what) &&
        (check_same(kitchen, &again), true) &&
        fuzz_expect(pottle_kitchen_write(&again, path, &error) == POTTLE_OK,
                    "a kitchen cannot be written twice: %s", error.what)) {
        char *second = bytes_of(path, &m);
        fuzz_expect(n == m && memcmp(first, second, n) == 0,
                    "a kitchen changes when it is written again");
        free(second);
    }
    free(first);
}

int
target_kitchen(const uint8_t *data, size_t size)
{
    static pottle_kitchen kitchen;
    char path[FUZZ_PATH_SIZE];
    pottle_error error;
    fuzz_put("kitchen.xml", data, size, path);
    const pottle_status status =
        pottle_kitchen_read(fuzz_catalogue(), path, &kitchen, &error);
    if (status != POTTLE_OK)
        fuzz_failure(status, &error, fuzz_bad_file, "a kitchen");
    else
        check_kitchen(&kitchen);
    return fuzz_verdict();
}
