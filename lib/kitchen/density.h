/* density.h - shared between density.c and convert.c. */
#ifndef POTTLE_KITCHEN_DENSITY_H
#define POTTLE_KITCHEN_DENSITY_H

#include "kitchen/kitchen.h"

/* Adds a note to what an answer rests on, as pottlei_basis_cite does. */
void pottlei_basis_note(pottle_basis *basis, const char *text, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 2, 3)))
#endif
    ;

/* Refuses a volume whose form is not said ("") or has no weight. */
pottle_status pottlei_form_missing(const pottle_food *food, const char *wanted,
                                   pottle_error *error);

#endif
