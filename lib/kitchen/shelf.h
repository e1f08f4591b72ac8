/* shelf.h - shared between shelf.c, shelf_use.c, pack.c, loads.c and gauge.c,
 * and their tests. */
#ifndef POTTLE_KITCHEN_SHELF_H
#define POTTLE_KITCHEN_SHELF_H

#include "kitchen/kitchen.h"

enum {
    POTTLEI_SHELF_LOADS = 2 * POTTLE_SHELF_MAX,
    POTTLEI_SHELF_DOSES = 32,
    POTTLEI_SHELF_WARNINGS = 16
};

struct pottle_filling {
    const pottle_recipe *recipe; /* borrowed from the plan */
    size_t sizes, doses, loads, warnings;
    pottle_filled size[POTTLE_SHELF_MAX];
    pottle_filling_facts facts;
    pottle_filling_dose dose[POTTLEI_SHELF_DOSES];
    pottle_filling_load load[POTTLEI_SHELF_LOADS];
    pottle_warning warning[POTTLEI_SHELF_WARNINGS];
    pottle_plan
        *doser[POTTLE_SHELF_MAX]; /* one batch in each size: they own the titles
                                     of what goes into the jars */
    unsigned long load_count;
    pottle_range minutes;
};

/* Fills a volume into jars, all in one unit: least left over, of those within
 * `alike` of it the fewest jars, of those again the least left over. Exact.
 *
 * Given:     size    volume of a jar of each kind, above 0
 *            count   how many there are
 *            kinds   up to POTTLE_SHELF_MAX
 * Returned:  jars    how many of each are filled
 * Status:    POTTLE_OK; POTTLE_EDOMAIN when the search would be too large; POTTLE_ENOMEM */
pottle_status pottlei_pack(const unsigned long *size,
                           const unsigned long *count, size_t kinds,
                           unsigned long volume, unsigned long alike,
                           unsigned long *jars, pottle_error *error);

/* Numbers the search of pottlei_pack keeps; SIZE_MAX when they cannot be
 * counted. */
size_t pottlei_pack_room(const unsigned long *size, const unsigned long *count,
                         size_t kinds, unsigned long volume);
enum { POTTLEI_PACK_MAX = 1 << 24 };

/* What the dial gauge of the canner means for a process: kept among the facts,
 * or a warning; nothing for a canner without a dial.
 * Status:    POTTLE_OK; POTTLE_EBOUNDS when it may not be used */
pottle_status pottlei_gauge_judge(const pottle_catalogue *catalogue,
                                  pottle_filling *f,
                                  const pottle_kitchen_canner *canner,
                                  const pottle_process *process,
                                  pottle_error *error);

/* Sorts the jars of a filling into loads. `found` has the processes of each
 * size at the altitude, counts `founds`. */
pottle_status pottlei_loads_make(const pottle_catalogue *catalogue,
                                 pottle_filling *f,
                                 const pottle_kitchen_canner *canner,
                                 pottle_process (*found)[POTTLE_PROCESS_MAX],
                                 const size_t *founds, pottle_error *error);

/* Whether a request can be answered. */
pottle_status pottlei_shelf_check(const pottle_shelf_request *r,
                                  pottle_error *error);

/* Takes the sizes of a request over, those that are listed twice once. */
pottle_status pottlei_shelf_take(const pottle_catalogue *catalogue,
                                 pottle_filling *f,
                                 const pottle_shelf_request *r,
                                 pottle_error *error);

/* Chooses the method and the pack that most jars may have, and looks the
 * processes of each size up: `found`, counts `founds`. */
pottle_status pottlei_shelf_choose(const pottle_catalogue *catalogue,
                                   pottle_filling *f,
                                   const pottle_shelf_request *r,
                                   pottle_process (*found)[POTTLE_PROCESS_MAX],
                                   size_t *founds, pottle_error *error);

/* Adds a warning; of a rule, when there is such a rule, behind `text`. */
void pottlei_filling_warn(const pottle_catalogue *catalogue, pottle_filling *f,
                          const char *code, const char *rule, const char *text);

/* Whether nobody published a boiling-water process for it: it is treated as
 * low-acid. */
bool pottlei_low_acid(const pottle_recipe *recipe);

#endif
