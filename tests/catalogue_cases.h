/* catalogue_cases.h - the parts of test_catalogue, and what they share. */
#ifndef POTTLE_TESTS_CATALOGUE_CASES_H
#define POTTLE_TESTS_CATALOGUE_CASES_H

#include <check.h>

#include "internal.h"

#define WORK "test_catalogue.tmp"
#define FOLDER WORK "/catalogue"
#define OWN WORK "/own"
#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
enum { PATH_SIZE = 600 };

void write_file(const char *path, const char *text, size_t n);
void copy_file(const char *from, const char *to, const char *old,
               const char *new);
void make_work(void);
pottle_catalogue *open_folder(const char *folder, const char *own,
                              unsigned with);
pottle_catalogue *open_shipped(unsigned with);
char *long_text(void);

TCase *catalogue_names(void);
TCase *catalogue_recipes(void);

#endif
