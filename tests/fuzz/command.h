/* command.h - an argument vector that nobody typed, and what became of it. */
#ifndef POTTLE_FUZZ_COMMAND_H
#define POTTLE_FUZZ_COMMAND_H

#include <cli.h>

#include "targets.h"

/* -- command_words.c ------------------------------------------------------- */

enum { COMMAND_WORDS = 100, COMMAND_TEXT = 16384 };
typedef struct command_line {
    char *word[COMMAND_WORDS + 2]; /* the program's name first; NULL ends */
    int words;
    const uint8_t *input; /* standard input */
    size_t input_size;
    char text[COMMAND_TEXT]; /* where the words stand */
    size_t used;
} command_line;

/* One word more, of so many bytes, or as printf writes it. */
void command_add(command_line *c, const char *text, size_t n);
void command_say(command_line *c, const char *format, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 2, 3)))
#endif
    ;
/* Words that the bytes of an input choose (command_choose.c). */
void command_choose(const uint8_t *data, size_t size, command_line *out);
/* The words of an input: as they stand there, or chosen by it. */
void command_read(const uint8_t *data, size_t size, command_line *out);
/* The command that the words name, or NULL. */
const command *command_named(const command_line *c);
bool command_has(const command_line *c, const char *word);

/* What the command calls for pottle_catalogue_open and _free (Makefile.am):
 * each set of parts of the shipped catalogue is read once for all inputs. */
pottle_status fuzz_lend_catalogue(const char *folder, const char *own_folder,
                                  unsigned parts, pottle_catalogue **out,
                                  pottle_error *error);
void fuzz_return_catalogue(pottle_catalogue *catalogue);

/* -- command_run.c --------------------------------------------------------- */

typedef struct command_answer {
    int status;
    char *out, *err; /* as long as they say, and with an end */
    size_t out_size, err_size;
} command_answer;

/* Runs the command in a folder of its own, where nothing that it could change
 * is anybody's; with --json in front of all words when `json`. */
void command_run(const command_line *c, bool json, command_answer *out);
void command_answer_free(command_answer *a);
/* Whether a file of that folder is not as it was; puts it right again. */
bool command_changed(void);

#endif
