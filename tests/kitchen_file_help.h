/* kitchen_file_help.h - what the tests of the kitchen file share: a folder to
 * write into, and kitchens to compare. */
#ifndef POTTLE_TESTS_KITCHEN_FILE_HELP_H
#define POTTLE_TESTS_KITCHEN_FILE_HELP_H

#include <check.h>

#include "catalogue/kitchen_file.h"

enum { PATHS = 200, PATH_SIZE = 600, TEXT_SIZE = 1 << 18 };

/* The folder a program writes into, in the build folder; each program defines
 * its own. */
extern const char work_folder[];
/* Emptied. */
void clear_work(void);
/* How many names there are in it. */
int names_in_work(void);

/* The catalogue with its jars, open between set_up and tear_down, and an empty
 * work folder. */
extern pottle_catalogue *catalogue;
void set_up(void);
void tear_down(void);

/* A path below the sources; in static memory, until the next call. */
const char *source_path(const char *rest);
/* XML files of a folder below the sources; how many. */
int scan(const char *rest, char (*list)[PATH_SIZE]);
void write_text(const char *path, const char *text, size_t n);
/* A file's text in one of two static places, so that two can be compared. */
const char *text_of(const char *path, int place);
bool is_there(const char *path);

/* Reads and writes where it must succeed. */
pottle_kitchen read_kitchen(const char *path);
void write_kitchen(const pottle_kitchen *k, const char *path);

pottle_quantity q(double value, const char *unit);
bool is(pottle_quantity have, double value, const char *unit);
bool same_kitchen(const pottle_kitchen *a, const pottle_kitchen *b);

/* A kitchen and the text that it is written as. */
pottle_kitchen small_kitchen(void);
extern const char small_text[];

#endif
