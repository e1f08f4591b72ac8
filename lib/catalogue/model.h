/* model.h - the inside of the catalogue's objects; only lib/catalogue includes
 * it. */
#ifndef POTTLE_CATALOGUE_MODEL_H
#define POTTLE_CATALOGUE_MODEL_H

#include "internal.h"

/* A name as folded by pottlei_fold_singular, and what it means. */
typedef struct pottlei_name {
    const char *folded, *id;
    bool recipe; /* else a food */
} pottlei_name;
/* All names of one id in the order of the file. */
typedef struct pottlei_named {
    const char *id;
    bool recipe;
    size_t names;
    const char **name;
    const char *under; /* food that it is a kind of, or made of; or NULL */
} pottlei_named;

/* A kind of recipe or a food that is too dense to be processed twice; the other
 * is NULL. */
typedef struct pottlei_dense {
    const char *kind, *food;
} pottlei_dense;

struct pottle_catalogue {
    pottlei_arena arena;
    const char *folder, *own; /* own may be NULL */
    size_t named_count, name_count;
    const pottlei_named *named; /* as in the file: foods by id, then recipes */
    const pottlei_name *name;   /* sorted by folded */
    size_t name_words;          /* of the longest name or id */
    size_t figure_count, jar_count, rule_count, source_count, syrup_count;
    const pottle_figure *figure; /* sorted by id */
    const pottle_jar *jar;       /* by nominal volume */
    const pottle_rule *rule;     /* sorted by id */
    const pottle_source *source; /* sorted by key */
    const pottle_syrup *syrup;
    double mouth_mm[2]; /* regular, wide */
    size_t mishap_count, dense_count;
    const pottle_mishap *mishap; /* sorted by id */
    const pottlei_dense *dense;
    const pottle_remaking *remaking;
};

struct pottle_food {
    pottlei_arena arena;
    const char *id, *title, *group;
    pottle_acid acid;
    pottle_composition composition;
    size_t trim_count, form_count, piece_count, container_count, note_count;
    const pottle_trim *trim;
    const pottle_form *form;
    const pottle_piece *piece;
    const pottle_container *container;
    const pottle_note *note;
};

struct pottle_recipe {
    pottlei_arena arena;
    const char *id, *title, *kind;
    pottle_recipe_status status;
    pottle_cite cite;
    pottle_batch batch;
    size_t witness_count, ingredient_count, per_jar_count, cover_count,
        yield_count, process_count, step_count, note_count;
    const pottle_cite *witness;
    const pottle_ingredient *ingredient;
    const pottle_per_jar *per_jar;
    pottle_quantities quantities;
    const char *const *cover;
    pottle_cook cook;
    const pottle_yield *yield;
    const pottle_process_table *process;
    const pottle_step *step;
    const pottle_note *note;
};

/* words.c: the words for pottle_standing (from 1 up), pottle_state,
 * pottle_keep, pottle_method and pottle_rescue_action (from 0 up), in their
 * order; NULL ends each. */
extern const char *const pottlei_standings[],
    *const pottlei_states[], *const pottlei_keeps[],
                                 *const pottlei_methods[],
                                     *const pottlei_actions[];

/* The size of jar of an id, or NULL. */
const pottle_jar *pottlei_jar_by_id(const pottle_catalogue *catalogue,
                                    const char *id);

/* Joins the parts of a path; POTTLE_EIO when it does not fit. The list ends
 * with NULL. */
pottle_status pottlei_path(char *buf, size_t size, pottle_error *error, ...);

/* The last part of a path less ".xml". */
void pottlei_stem(const char *path, char *buf, size_t size);

/* Readers of the shared files; each fills its part of the catalogue. */
pottle_status pottlei_names_read(pottle_catalogue *catalogue, const char *path,
                                 pottle_error *error);
pottle_status pottlei_figures_read(pottle_catalogue *catalogue,
                                   const char *path, pottle_error *error);
pottle_status pottlei_jars_read(pottle_catalogue *catalogue, const char *path,
                                pottle_error *error);
pottle_status pottlei_rules_read(pottle_catalogue *catalogue, const char *path,
                                 pottle_error *error);
pottle_status pottlei_sources_read(pottle_catalogue *catalogue,
                                   const char *path, pottle_error *error);
pottle_status pottlei_syrups_read(pottle_catalogue *catalogue, const char *path,
                                  pottle_error *error);
pottle_status pottlei_rescue_read(pottle_catalogue *catalogue, const char *path,
                                  pottle_error *error);
pottle_status pottlei_food_read_file(const char *path, pottle_food **out,
                                     pottle_error *error);

/* The id a recipe's other id stands for, or NULL. */
const char *pottlei_recipe_alias(const pottle_catalogue *catalogue,
                                 const char *name);

/* Binary search in a sorted array of structs whose first member is a const char
 * *. */
const void *pottlei_find(const void *array, size_t count, size_t size,
                         const char *key);

/* An id of the schema's pattern, so that it can be a file name. */
bool pottlei_id_valid(const char *id);

#endif
