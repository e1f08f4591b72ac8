/* kitchen_write_cases.h - the parts of test_kitchen_write, and what they share.
 */
#ifndef POTTLE_TESTS_KITCHEN_WRITE_CASES_H
#define POTTLE_TESTS_KITCHEN_WRITE_CASES_H

#include "kitchen_file_help.h"

#define WORK "test_kitchen_write.tmp"
#define HERE WORK "/kitchen.xml"
#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

extern const char old_text[];
void reset(void);

TCase *kitchen_write_disk(void);
TCase *kitchen_write_refused(void);

#endif
