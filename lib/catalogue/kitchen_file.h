/* kitchen_file.h - shared between the files that read, judge and write a
 * kitchen file, and their test. */
#ifndef POTTLE_CATALOGUE_KITCHEN_FILE_H
#define POTTLE_CATALOGUE_KITCHEN_FILE_H

#include <sys/types.h>

#include "internal.h"

/* -- kitchen_value.c: single values ----------------------------------------- */

/* What is wrong with an entry. */
typedef struct pottlei_complaint {
    pottle_status status;
    const char *code;
    char what[300];
} pottlei_complaint;

/* Fills in a complaint; false, so that a check can return it. */
bool pottlei_complain(pottlei_complaint *c, pottle_status status,
                      const char *code, const char *what, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 4, 5)))
#endif
    ;

/* The words for pottle_cup, in its order; NULL ends them. */
extern const char *const pottlei_cup_names[];

/* The kinds of amount in the file, each with its units and its range. */
typedef enum pottlei_amount_kind {
    POTTLEI_ALTITUDE,
    POTTLEI_SCALE_ERROR,
    POTTLEI_GAUGE_ERROR,
    POTTLEI_THERMOMETER_ERROR,
    POTTLEI_MASS_OF_JAR,
    POTTLEI_TARE,
    POTTLEI_WIDTH,
    POTTLEI_DEPTH,
    POTTLEI_MOUTH,
    POTTLEI_WATER_TEMPERATURE
} pottlei_amount_kind;

/* Whether an amount may stand in the file. A unit outside its list: status
 * POTTLE_EUNIT; else POTTLE_EDOMAIN. */
bool pottlei_amount_good(pottlei_amount_kind kind, const pottle_quantity *q,
                         pottlei_complaint *c);
bool pottlei_count_good(unsigned long count, pottlei_complaint *c);

/* -- kitchen_entry.c: the entries ------------------------------------------ */

/* Entries by themselves; whether one stands twice is asked by
 * pottlei_kitchen_good and when it is put in. */
bool pottlei_canner_good(const pottle_kitchen_canner *canner,
                         pottlei_complaint *c);
bool pottlei_pot_good(const pottle_kitchen_pot *pot, pottlei_complaint *c);
bool pottlei_own_jar_good(const pottle_own_jar *jar, pottlei_complaint *c);
/* All of it. */
bool pottlei_kitchen_good(const pottle_kitchen *kitchen, pottlei_complaint *c);

/* -- replace.c: a file in the place of another ----------------------------- */

/* What writing a file asks of the system; a test puts in one that fails or dies
 * half-way. */
typedef struct pottlei_disk {
    ssize_t (*write)(int fd, const void *text, size_t n);
    int (*sync)(int fd);
    int (*rename)(const char *from, const char *to);
} pottlei_disk;
extern const pottlei_disk pottlei_disk_real;

/* Puts a text in the place of a file: beside it first, then under its name. The
 * old file is kept with a ~ behind its name.
 * Status:    POTTLE_OK; POTTLE_EIO; POTTLE_ENOMEM */
pottle_status pottlei_file_replace(const pottlei_disk *disk, const char *path,
                                   const char *text, size_t n,
                                   pottle_error *error);

/* -- kitchen_write.c ------------------------------------------------------- */

pottle_status pottlei_kitchen_write(const pottlei_disk *disk,
                                    const pottle_kitchen *kitchen,
                                    const char *path, pottle_error *error);

#endif
