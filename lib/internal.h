/* internal.h - shared between files of the library; never installed.
 *
 * Names here begin with pottlei_. Sorted by storey, like pottle.h. */
#ifndef POTTLE_INTERNAL_H
#define POTTLE_INTERNAL_H

#include <stdint.h>

#include "pottle.h"

/* -- base: errors --------------------------------------------------------- */

/* Fills an error, printf style for `what`; error may be NULL. Returns status,
 * so that a caller can write `return pottlei_fail(...)`. */
pottle_status pottlei_fail(pottle_error *error, pottle_status status,
                           const char *code, const char *what, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 4, 5)))
#endif
    ;
/* The same of a height outside 0 to POTTLE_ALTITUDE_MAX_M. */
pottle_status pottlei_altitude_fail(pottle_error *error);

/* Says where a failure was: a path as somebody typed it. error may be NULL. */
void pottlei_set_where(pottle_error *error, const char *where);

/* Copies text into an array member, cut at a whole UTF-8 character. */
void pottlei_copy(char *to, size_t size, const char *from);
#define POTTLEI_SET(member, text) pottlei_copy((member), sizeof(member), (text))

/* -- base: text ----------------------------------------------------------- */

/* Whether the n bytes are valid UTF-8 without NUL or control characters other
 * than blanks. */
bool pottlei_utf8_valid(const char *text, size_t n);

/* Folds a name so that equal names are equal bytes: ASCII lower case, hyphens,
 * underscores and runs of blanks to one space, ends trimmed. Returns its
 * length; text longer than size-1 is cut. */
size_t pottlei_fold(const char *text, char *buf, size_t size);

/* Singular of one folded English word, in place: -ies to -y, -oes to -o,
 * -ches/-shes/-xes/-sses less -es, -s less s. Used on both sides of a
 * comparison only. */
void pottlei_singular(char *word);

/* Fold, then every word singular. */
size_t pottlei_fold_singular(const char *text, char *buf, size_t size);

/* Optimal-string-alignment distance of two short texts; texts over 63 bytes are
 * far from everything (255). */
unsigned pottlei_distance(const char *a, const char *b);

/* Keeps the nearest few of many names, for an error message. */
typedef struct pottlei_near {
    const char *wanted;
    const char *name[3];
    unsigned distance[3];
} pottlei_near;
void pottlei_near_init(pottlei_near *near, const char *wanted);
void pottlei_near_try(pottlei_near *near, const char *name);
/* "; nearest: a, b" or nothing */
void pottlei_near_write(const pottlei_near *near, char *buf, size_t size);

/* Adds a name to "a, b, c" where it fits whole. */
void pottlei_list_add(char *list, size_t size, const char *name);

/* -- base: numbers -------------------------------------------------------- */

/* Reads a number or range from the start of *text and moves it past it.
 * POTTLE_ENOENT: no number begins here (and *text stays). Else as
 * pottle_number_read. */
pottle_status pottlei_number_scan(const char **text, pottle_range *out);

/* Bytes of the no-break, thin or narrow no-break space at the start of a text,
 * or 0: typesetters put them between a number and its unit. */
size_t pottlei_typeset_space(const char *text);

/* Refuses a comma between two digits: a decimal sign to one half of the world,
 * a thousands sign to the other, and so never read. POTTLE_ESYNTAX. */
pottle_status pottlei_check_commas(const char *text, pottle_error *error);

/* Reads a unit's name from the start of *text (longest match of whole words).
 * NULL: none. */
const pottle_unit *pottlei_unit_scan(const char **text);

/* Names of units, sorted by their bytes: the i-th and the id it stands for, or
 * NULL past the end; the id a folded name stands for, or NULL; whether some
 * name begins so. */
const char *pottlei_unit_name_at(size_t i, const char **id);
const char *pottlei_unit_name_find(const char *folded);
bool pottlei_unit_name_begins(const char *text);

/* The international inch and foot (agreement of 1959; exact), and a circle. */
#define POTTLEI_INCH_MM 25.4
#define POTTLEI_FOOT_M 0.3048
#define POTTLEI_PI 3.141592653589793

/* -- base: memory --------------------------------------------------------- */

/* Everything an object holds lives in its arena and is freed with it. */
typedef struct pottlei_arena {
    struct pottlei_chunk *last;
} pottlei_arena;

/* Zeroed memory, aligned for any object; NULL when there is none or n * size
 * overflows. */
void *pottlei_arena_new(pottlei_arena *arena, size_t n, size_t size);
char *pottlei_arena_text(pottlei_arena *arena, const char *text);
void pottlei_arena_free(pottlei_arena *arena);

/* -- catalogue: limits ---------------------------------------------------- */

/* Ingredients of a recipe, and foods to choose from that go into its jars. More
 * are refused when it is read, so that a plan need leave none out. */
enum { POTTLEI_LINES_MAX = 48, POTTLEI_DOSES_MAX = 32 };

#endif
