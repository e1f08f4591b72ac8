/* fuzzer.c - the targets as a program of clang's libFuzzer (`make fuzz`).
 *
 * POTTLE_FUZZ_TARGET in the environment names the one to run, so that they are
 * built once for all. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

/* Called by libFuzzer, which has no header for them. */
int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

const fuzz_target *fuzz_running;

int
LLVMFuzzerInitialize(int *argc, char ***argv)
{
    (void)argc;
    (void)argv;
    const char *name = getenv("POTTLE_FUZZ_TARGET");
    for (const fuzz_target *t = fuzz_targets; t->name != NULL; t++)
        if (name != NULL && strcmp(t->name, name) == 0)
            fuzz_running = t;
    if (fuzz_running == NULL) {
        fputs("POTTLE_FUZZ_TARGET names none of:", stderr);
        for (const fuzz_target *t = fuzz_targets; t->name != NULL; t++)
            fprintf(stderr, " %s", t->name);
        fputc('\n', stderr);
        exit(99);
    }
    return 0;
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (fuzz_running->run(data, size) != 0)
        abort(); /* what libFuzzer takes for a find */
    return 0;
}
