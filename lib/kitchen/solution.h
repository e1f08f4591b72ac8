/* solution.h - shared by solution.c, brine.c and remake.c. */
#ifndef POTTLE_KITCHEN_SOLUTION_H
#define POTTLE_KITCHEN_SOLUTION_H

#include "kitchen/kitchen.h"

/* Density of a form of a food, read for the purpose; its title goes into
 * `title` when that is not NULL. */
pottle_status pottlei_food_density(const pottle_catalogue *catalogue,
                                   const char *id, const char *form,
                                   pottle_estimate *out, char *title,
                                   size_t size, pottle_error *error);

/* Density of a brine of 0 to POTTLEI_BRINE_MOST percent of salt by mass, the
 * last line of the table, at 20 deg C (g/mL). */
double pottlei_brine_density(double percent);
#define POTTLEI_BRINE_MOST 26.0

/* A volume that a person may mean. POTTLE_EDOMAIN. */
pottle_status pottlei_volume_check(pottle_volume volume, pottle_error *error);

/* Numbers of jars that a person may mean.
 * Status:    POTTLE_OK; POTTLE_EDOMAIN, POTTLE_EMISUSE */
pottle_status pottlei_jar_numbers_check(const pottle_jar_number *jars,
                                        size_t count, pottle_error *error);

/* Refuses drafts and own recipes, as pottle_process_find does. */
pottle_status pottlei_tested_only(const pottle_catalogue *catalogue,
                                  const pottle_recipe *recipe,
                                  pottle_error *error);

#endif
