/* recipe_read.h - from a parsed file to a recipe, in parts; only lib/catalogue
 * includes it. */
#ifndef POTTLE_CATALOGUE_RECIPE_READ_H
#define POTTLE_CATALOGUE_RECIPE_READ_H

#include "xml.h"

/* Fills a zeroed recipe, whose arena is the reader's. */
pottle_status pottlei_recipe_build(pottlei_reader *reader,
                                   pottle_recipe *recipe);

/* ingredients_read.c: the elements of these names. */
void pottlei_read_ingredients(pottlei_reader *reader, const pottlei_node *node,
                              pottle_recipe *recipe);
void pottlei_read_per_jar(pottlei_reader *reader, const pottlei_node *node,
                          const pottle_cite *parent, pottle_per_jar *per);
void pottlei_read_quantities(pottlei_reader *reader, const pottlei_node *node,
                             const pottle_cite *parent, pottle_quantities *q);

/* process_read.c: a pack, whose processes are put behind those that are there;
 * and the jars and bands of one process whose method and headspace are read. */
void pottlei_read_pack(pottlei_reader *reader, const pottlei_node *node,
                       const pottle_cite *parent, pottle_process_table *process,
                       size_t *count);
void pottlei_read_table(pottlei_reader *reader, const pottlei_node *node,
                        pottle_process_table *table);

#endif
