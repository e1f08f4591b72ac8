/* reference.h - what the comparisons with the reference files share.
 *
 * The reference files are figures read in publications. They are not part of
 * the project, so each of these programs is skipped where they are absent. The
 * folder is named by POTTLE_REFERENCE, else it is ../shared/reference beside
 * the sources. */
#ifndef POTTLE_TESTS_REFERENCE_H
#define POTTLE_TESTS_REFERENCE_H

#include <check.h>
#include <pottle.h>

#include "csv.h"

#if defined(__GNUC__)
#define REFERENCE_PRINTF(text, first)                                          \
    __attribute__((format(printf, text, first)))
#else
#define REFERENCE_PRINTF(text, first)
#endif

/* Runs a suite: 0 when all passed, 1 when not, 77 when `file` of the reference
 * is absent. */
int reference_run(Suite *suite, const char *file);

/* Opens a reference file, or the catalogue; a failure ends the test. */
csv reference_csv(const char *file);
char *reference_text(const char *file);
pottle_catalogue *reference_catalogue(unsigned parts);

/* All mismatches of one section. The first 60 are printed, all are counted. */
typedef struct findings {
    const char *section;
    size_t looked_at, found;
} findings;
void findings_add(findings *f, const char *format, ...) REFERENCE_PRINTF(2, 3);
/* Prints how much was compared, and fails the test when there were findings or
 * nothing was compared. */
void findings_end(const findings *f);

/* Reads a recipe of the catalogue; NULL is a finding. */
pottle_recipe *reference_recipe(const pottle_catalogue *catalogue,
                                const char *id, findings *f);

/* The id of a product of the reference's canning files in the catalogue. */
const char *reference_product(const char *product, char *buf, size_t size);

/* Equal but for the last digits of a conversion. */
bool nearly(double a, double b);

/* A list parted by '|' or blanks: how many, and whether it names a thing. */
size_t list_count(const char *list);
bool list_has(const char *list, const char *name);

/* Whether two lists of jars name the same jars, in any order. */
bool same_jars(const char *list, const char *const *jar, size_t jars);

/* One more piece at the end of a text in a buffer; what does not fit is cut. */
void text_add(char *buf, size_t size, const char *format, ...)
    REFERENCE_PRINTF(3, 4);

#define POUND_G 453.59237
#define CUP_ML 236.5882365
#define FOOT_M 0.3048

#endif
