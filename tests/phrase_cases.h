/* phrase_cases.h - the parts of test_phrase, and what they share. */
#ifndef POTTLE_TESTS_PHRASE_CASES_H
#define POTTLE_TESTS_PHRASE_CASES_H

#include "kitchen/phrase.h"
#include "kitchen_help.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
#define NBSP "\xC2\xA0"
#define NARROW_NBSP "\xE2\x80\xAF"
#define THIN "\xE2\x80\x89"

extern pottle_catalogue *catalogue;
void open_catalogue(void);
void close_catalogue(void);
void check_untouched(const pottle_phrase *p);

TCase *phrase_names(void);
TCase *phrase_refused(void);

#endif
