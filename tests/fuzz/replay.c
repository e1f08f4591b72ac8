/* replay.c - runs the kept inputs of every target, with any compiler.
 *
 * Every file of $srcdir/tests/fuzz/corpus/TARGET goes through its target; files
 * that are named are run instead, their folder names the target. */
#include <config.h>

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

enum { INPUT_MAX = 1 << 20, FILES_MAX = 4096, BROKEN_SETUP = 99 };

static size_t passed, failed;

static void
run_file(const fuzz_target *target, const char *path)
{
    static uint8_t input[INPUT_MAX];
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        fprintf(stderr, "%s: cannot be opened\n", path);
        exit(BROKEN_SETUP);
    }
    const size_t n = fread(input, 1, sizeof input, file);
    fclose(file);
    /* a copy of the exact size, so that a read past its end is seen */
    uint8_t *data = malloc(n > 0 ? n : 1);
    if (data == NULL)
        exit(BROKEN_SETUP);
    memcpy(data, input, n);
    /* where a crash is, is seen by the last name */
    if (getenv("POTTLE_REPLAY_NAMES") != NULL)
        fprintf(stderr, "%s\n", path);
    if (target->run(data, n) == 0) {
        passed++;
    } else {
        failed++;
        fprintf(stderr, "FAIL %s\n", path);
    }
    free(data);
}

static int
by_text(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* All files of a target's folder, in the order of their names. A target
 * without any is a broken set-up, or it would pass for nothing. */
static void
run_folder(const fuzz_target *target, const char *folder)
{
    static char *path[FILES_MAX];
    size_t n = 0;
    DIR *dir = opendir(folder);
    for (struct dirent *e = NULL;
         dir != NULL && n < FILES_MAX && (e = readdir(dir)) != NULL;) {
        const size_t size = strlen(folder) + strlen(e->d_name) + 2;
        if (e->d_name[0] == '.')
            continue;
        path[n] = malloc(size);
        if (path[n] == NULL)
            exit(BROKEN_SETUP);
        snprintf(path[n++], size, "%s/%s", folder, e->d_name);
    }
    if (dir != NULL)
        closedir(dir);
    if (n == 0) {
        fprintf(stderr, "%s: no inputs\n", folder);
        exit(BROKEN_SETUP);
    }
    qsort(path, n, sizeof path[0], by_text);
    for (size_t i = 0; i < n; i++) {
        run_file(target, path[i]);
        free(path[i]);
    }
}

/* The target whose name is the folder of the file. */
static const fuzz_target *
target_of(const char *path)
{
    for (const fuzz_target *t = fuzz_targets; t->name != NULL; t++) {
        char part[64];
        snprintf(part, sizeof part, "%s/", t->name);
        const char *at = strstr(path, part);
        if (at != NULL && (at == path || at[-1] == '/'))
            return t;
    }
    fprintf(stderr, "%s: in no target's folder\n", path);
    exit(BROKEN_SETUP);
}

int
main(int argc, char **argv)
{
    const char *srcdir = getenv("srcdir");
    for (int i = 1; i < argc; i++)
        run_file(target_of(argv[i]), argv[i]);
    for (const fuzz_target *t = fuzz_targets; argc < 2 && t->name != NULL;
         t++) {
        char folder[512];
        snprintf(folder, sizeof folder, "%s/tests/fuzz/corpus/%s",
                 srcdir != NULL ? srcdir : ".", t->name);
        run_folder(t, folder);
    }
    printf("%zu passed, %zu failed\n", passed, failed);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
