/* kitchen_help.h - what the tests of lib/kitchen share: the shipped catalogue,
 * and a plan asked for in the words a person would use. */
#ifndef POTTLE_TESTS_KITCHEN_HELP_H
#define POTTLE_TESTS_KITCHEN_HELP_H

#include <check.h>

#include "internal.h"

/* Exact by definition: 1 lb 453.59237 g, 1 US gallon 231 cubic inches, 1 ft
 * 0.3048 m. */
#define POUND_G 453.59237
#define CUP_ML (3785.411784 / 16.0)
#define TBSP_ML (CUP_ML / 16.0)
#define TSP_ML (CUP_ML / 48.0)
#define INCH_MM 25.4
#define FOOT_M 0.3048

/* The catalogue of this source tree, all parts; a fixture opens it for each
 * test. */
extern pottle_catalogue *kitchen;
void kitchen_open(void);
void kitchen_close(void);

/* Ids of all tested recipes, for loop tests: read before the suite is run, so
 * that nothing is asserted here. False: the catalogue cannot be used, and the
 * set-up is broken (exit status 99). A file that cannot be read is left out;
 * test_data tells why. */
extern const char *kitchen_id[256];
extern int kitchen_ids;
bool kitchen_list(void);
void kitchen_unlist(void);

/* As pottle_catalogue_open for any parts; a failure ends the test. */
pottle_catalogue *kitchen_catalogue(unsigned parts);
pottle_recipe *kitchen_recipe(const char *id);
const pottle_jar *kitchen_jar(const char *id);

/* Reads a phrase; foods of the recipe win where a name fits several. A failure
 * ends the test. */
pottle_phrase kitchen_phrase(const pottle_recipe *recipe, const char *text);

enum { ASKED_MAX = 24 };

/* A request as a person writes it; members left out are not asked. */
typedef struct asked {
    const char *recipe;
    const char *have[ASKED_MAX], *set[ASKED_MAX];
    double batches, fill;
    const char *jar, *altitude, *canner;
    pottle_pack_style pack;
} asked;

/* What came of it. The plan is NULL when it was refused. */
typedef struct answer {
    pottle_status status;
    pottle_error error;
    pottle_recipe *recipe;
    pottle_plan *plan;
} answer;

answer kitchen_ask(const asked *a);
/* The same, where it must succeed. */
answer kitchen_plan(const asked *a);
void answer_free(answer *a);

/* The first line of a food, of one pot or of all; none ends the test. NULL: the
 * first line. */
const pottle_line *line_in(const pottle_plan *plan, size_t pot,
                           const char *food);
const pottle_line *line_of_food(const pottle_plan *plan, const char *food);
/* What is left of a food; NULL when nothing is. */
const pottle_rest *rest_of(const pottle_plan *plan, const char *food);
bool has_warning(const pottle_plan *plan, const char *code);

/* An ingredient's amount in the base unit of its own dimension (g, mL, pieces):
 * as published, a range at its middle; of a line; and of the measure that is
 * printed for it, or what is weighed when it has none. */
double published_amount(const pottle_ingredient *ingredient);
double line_amount(const pottle_line *line);
double measured_amount(const pottle_line *line);

/* |a - b| within a share of b. */
bool within(double a, double b, double share);

/* Double precision, and nothing else, lies between arithmetic by hand and that
 * of the library. */
#define TINY 1e-9
#define CHECK_NEAR(got, expected, what)                                        \
    ck_assert_msg(within((got), (expected), TINY),                             \
                  "%s: expected %.10g, found %.10g", (what),                   \
                  (double)(expected), (double)(got))

/* The NaN of the C library is a float. */
#define NOT_A_NUMBER ((double)NAN)

#endif
