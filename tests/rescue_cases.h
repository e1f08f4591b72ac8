/* rescue_cases.h - the parts of test_rescue. */
#ifndef POTTLE_TESTS_RESCUE_CASES_H
#define POTTLE_TESTS_RESCUE_CASES_H

#include "catalogue/model.h"
#include "kitchen_help.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

enum { PATH_ROOM = 700, FILES_MOST = 200, FOUND_MOST = 32 };

#define NCSU                                                                   \
    "North Carolina State University, 2004: discard after 24 hours; "          \
    "interrupted: full time again"
#define KSU                                                                    \
    "Kansas State University, You asked it, and the national centre's "        \
    "questions page: within 24 hours, tested hot pack; untested: discard"
#define UNL                                                                    \
    "University of Nebraska-Lincoln, jars did not seal: 24 hours, 2 hours "    \
    "when the process was wrong, dense foods not again"
#define ISU                                                                    \
    "Iowa State University, canning mistakes, revised: 2 hours, then dispose"
#define UNL_LIQUID                                                             \
    "University of Nebraska-Lincoln quoting the national centre: under half "  \
    "keep, more: refrigerate 2 to 3 days"
#define NCHFP_JELLY                                                            \
    "National centre, jellied products: not moved for 12 hours, up to 2 "      \
    "weeks to set"
#define NCHFP_VINEGAR                                                          \
    "National centre, 2023: under 24 hours refrigerate, over 24 hours discard"

#define YES POTTLE_FOLLOWED
#define WRONG POTTLE_FOLLOWED_WRONG
#define UNTESTED POTTLE_FOLLOWED_UNTESTED
#define UNKNOWN POTTLE_FOLLOWED_UNKNOWN
#define NO_HOURS (-1)
#define NO_SHARE (-1)

typedef struct files {
    char *path[FILES_MOST];
    int count;
} files;

const char *source_folder(void);
const pottle_mishap *mishap_of(const char *id);
pottle_jar_facts facts_of(double hours, pottle_followed followed, bool hot,
                          bool dense, double lost);
bool offers(const pottle_rescue_case *c, pottle_rescue_action action);
extern files bad, good;
bool scan(const char *kind, files *all);

TCase *rescue_recipe(void);
TCase *rescue_remake(void);
TCase *rescue_files(void);
TCase *rescue_facts(void);

#endif
