/* targets.h - what is fed with text that nobody chose.
 *
 * A target reads its input as one part of the library does and says whether
 * what came out keeps its promises. replay.c runs the kept inputs through them
 * in `make check`, with any compiler; the same functions are libFuzzer's. */
#ifndef POTTLE_FUZZ_TARGETS_H
#define POTTLE_FUZZ_TARGETS_H

#include "internal.h"

/* 0 when all promises held, else 1, and stderr says which did not. */
typedef int (*fuzz_run)(const uint8_t *data, size_t size);

int target_chain(const uint8_t *data, size_t size);
int target_check(const uint8_t *data, size_t size);
int target_command(const uint8_t *data, size_t size);
int target_rescue(const uint8_t *data, size_t size);
int target_words(const uint8_t *data, size_t size);
int target_number(const uint8_t *data, size_t size);
int target_unit(const uint8_t *data, size_t size);
int target_phrase(const uint8_t *data, size_t size);
int target_food(const uint8_t *data, size_t size);
int target_names(const uint8_t *data, size_t size);
int target_recipe(const uint8_t *data, size_t size);
int target_scale(const uint8_t *data, size_t size);
int target_kitchen(const uint8_t *data, size_t size);
int target_shared(const uint8_t *data, size_t size);

/* The targets by name, as their corpus folders are called; a NULL name ends. */
typedef struct fuzz_target {
    const char *name;
    fuzz_run run;
    bool xml; /* it reads a file of the catalogue's kind */
} fuzz_target;
extern const fuzz_target fuzz_targets[];

/* The one that libFuzzer runs (fuzzer.c). */
extern const fuzz_target *fuzz_running;

/* -- Shared by the targets ------------------------------------------------ */

/* Notes a broken promise on stderr and returns whether it holds. */
bool fuzz_expect(bool holds, const char *promise, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 2, 3)))
#endif
    ;

/* Broken promises since the last call: 0 or 1, as a target returns it. */
int fuzz_verdict(void);

/* The shipped catalogue, opened on first use; exits where there is none. */
const pottle_catalogue *fuzz_catalogue(void);

/* What every failure must say; `allowed` ends with POTTLE_OK. */
void fuzz_failure(pottle_status status, const pottle_error *error,
                  const pottle_status *allowed, const char *what);

/* What a refusal must say where the rules of a recipe are all there. */
void fuzz_refusal(pottle_status status, const pottle_error *error);

/* Text that may be printed: there, and valid UTF-8. */
void fuzz_text(const char *text, const char *what);

/* Whether n bytes are all one byte, as they were filled before a call. */
bool fuzz_untouched(const void *bytes, size_t n, unsigned char filled);

/* A number that is one, and not negative. */
void fuzz_amount(double x, const char *what);

/* The same for what is cited: source, place and standing are there. */
void fuzz_cite(const pottle_cite *cite, const char *what);

/* Choices made by the bytes of an input (choose.c). */
typedef struct fuzz_input {
    const uint8_t *at, *end;
} fuzz_input;
/* One of n things; the second for more than there are characters. */
size_t fuzz_pick(fuzz_input *in, size_t n);
size_t fuzz_pick_many(fuzz_input *in, size_t n);
/* A shipped recipe. */
const pottle_recipe *fuzz_pick_recipe(fuzz_input *in);
/* An amount from a teaspoon's part to a lorry's load, and what is no amount. */
double fuzz_pick_number(fuzz_input *in);
/* A food of the recipe, what may stand in its place, what goes into its jars,
 * or any food at all. */
const char *fuzz_pick_food(fuzz_input *in, const pottle_recipe *recipe);

/* What a file that a person wrote may be refused with. */
extern const pottle_status fuzz_bad_file[];

/* The input with an end; the caller frees it. */
char *fuzz_line(const uint8_t *data, size_t size);

/* Whether some text stands in the input. */
bool fuzz_has(const uint8_t *data, size_t size, const char *text);

/* Writes the input to a file of a folder of its own; its path is in `path`. */
enum { FUZZ_PATH_SIZE = 128 };
void fuzz_put(const char *name, const uint8_t *data, size_t size, char *path);

/* Opens a catalogue of one part, whose file the input is. */
pottle_status fuzz_open(const char *name, const uint8_t *data, size_t size,
                        unsigned part, pottle_catalogue **out,
                        pottle_error *error);

/* The promises of the mishaps of a catalogue. */
void fuzz_mishaps(const pottle_catalogue *catalogue);

/* The promises of a plan that was made for a request. */
void fuzz_plan(const pottle_recipe *recipe, const pottle_request *request,
               const pottle_plan *plan);

/* The promises of processes that were found for a jar. NULL: any method. */
void fuzz_processes(const pottle_recipe *recipe, const pottle_jar *jar,
                    const pottle_method *method, pottle_pack_style pack,
                    double altitude_m, const pottle_process *process,
                    size_t count);

#endif
