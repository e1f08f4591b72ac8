/* convert_cases.h - the parts of test_convert, and what they share. */
#ifndef POTTLE_TESTS_CONVERT_CASES_H
#define POTTLE_TESTS_CONVERT_CASES_H

#include "kitchen_help.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static const double lb_g =
    453.59237; /* international yard and pound agreement 1959 */
static const double cup_ml = 236.5882365; /* NIST Handbook 44 */

#define SR28 "USDA SR28, NDB "

/* Names, foods and figures; a fixture opens it. */
extern pottle_catalogue *catalogue;

void open_catalogue(void);
void close_catalogue(void);
pottle_food *food_of(const char *id);
const pottle_unit *unit_of(const char *name);
pottle_phrase amount_of(double amount, const char *unit, const char *form,
                        const char *size);
pottle_phrase amount_in(double amount, const char *unit, const char *form,
                        pottle_state state);
pottle_conversion convert(const pottle_food *food, const pottle_phrase *p,
                          const char *to, const char *as);
bool near(double a, double b, double relative);

TCase *convert_trim(void);
TCase *convert_between(void);
TCase *convert_refusals(void);
TCase *convert_pounds(void);

#endif
