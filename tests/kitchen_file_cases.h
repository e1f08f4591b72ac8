/* kitchen_file_cases.h - the parts of test_kitchen_file, and what they share.
 */
#ifndef POTTLE_TESTS_KITCHEN_FILE_CASES_H
#define POTTLE_TESTS_KITCHEN_FILE_CASES_H

#include "kitchen_file_help.h"

#define WORK "test_kitchen_file.tmp"
#define HERE WORK "/kitchen.xml"
#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

TCase *kitchen_file_typed(void);

#endif
