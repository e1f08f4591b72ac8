/* check.h - what the parts of the file check share; only lib/catalogue includes
 * it. */
#ifndef POTTLE_CATALOGUE_CHECK_H
#define POTTLE_CATALOGUE_CHECK_H

#include "xml.h"

/* One file while it is checked. */
typedef struct pottlei_check {
    /* the catalogue handed in, but what the file itself defines (jars, sources)
     * taken from the file */
    pottle_catalogue catalogue;
    const char *path;
    pottle_tell tell;
    void *context;
    size_t errors;
    pottle_status status; /* what stops the check, such as no memory */
    pottle_error stop;
    /* foods that were read; NULL for one that could not be, so that it is told
     * once a place and not read again */
    struct pottlei_checked_food {
        const char *id;
        pottle_food *food;
    } * food;
    size_t foods, room;
} pottlei_check;

/* Tells a finding. A rule of rules.xml gives its source, place and way out;
 * `instead` comes before the rule's. Both may be NULL. */
void pottlei_check_tell(pottlei_check *check, bool warning, long line,
                        const char *code, const char *rule, const char *instead,
                        const char *what, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 7, 8)))
#endif
    ;

/* Ends the check; the first reason counts. */
void pottlei_check_stop(pottlei_check *check, pottle_status status,
                        const pottle_error *error);

/* A food by id; NULL when it cannot be read, which was told at its reference.
 * Borrowed. */
const pottle_food *pottlei_check_food(pottlei_check *check, const char *id);

/* The i-th child element of that name, or NULL. */
const pottlei_node *pottlei_check_child(const pottlei_node *parent,
                                        const char *name, size_t i);
long pottlei_check_line(const pottlei_node *node);

/* Whether all that the document names exists. Reads the foods that
 * pottlei_check_food gives. */
void pottlei_check_references(pottlei_check *check, const pottlei_node *root);
void pottlei_check_recipe_parts(pottlei_check *check, const pottlei_node *root,
                                const pottle_recipe *recipe);

/* What a tested source would hardly say, as warnings. */
void pottlei_check_recipe_sense(pottlei_check *check, const pottlei_node *root,
                                const pottle_recipe *recipe);
void pottlei_check_food_sense(pottlei_check *check, const pottlei_node *root,
                              const pottle_food *food);

#endif
