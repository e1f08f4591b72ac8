/* recipe_read.h - from a parsed file to a recipe; only lib/catalogue includes
 * it. */
#ifndef POTTLE_CATALOGUE_RECIPE_READ_H
#define POTTLE_CATALOGUE_RECIPE_READ_H

#include "xml.h"

/* Fills a zeroed recipe, whose arena is the reader's. */
pottle_status pottlei_recipe_build(pottlei_reader *reader,
                                   pottle_recipe *recipe);

#endif
