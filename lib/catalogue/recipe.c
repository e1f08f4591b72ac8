/* recipe.c - recipes by id, the walk over all of them, and what they give out.
 *
 * A recipe lies at FOLDER/KIND/ID.xml; the kinds are few, so its file is found
 * by trying them and no other recipe file is opened. */
#include <config.h>

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "recipe_read.h"

static const char *const kinds[] = {
    "butter",
    "chutney",
    "conserve",
    "freezer-jam",
    "fruit-pack",
    "fruit-sauce",
    "jam-liquid-pectin",
    "jam-no-added-pectin",
    "jam-powdered-pectin",
    "jelly",
    "ketchup-sauce",
    "marmalade",
    "meat-pack",
    "pickle",
    "pickled-fruit",
    "pie-filling",
    "preserves",
    "relish",
    "salsa",
    "stewed-fruit",
    "syrup",
    "tomato-pack",
    "vegetable-pack",
};
enum { KIND_COUNT = sizeof kinds / sizeof kinds[0], PATH_SIZE = 512 };

pottle_status
pottle_recipe_read_file(const pottle_catalogue *catalogue, const char *path,
                        pottle_recipe **out, pottle_error *error)
{
    if (catalogue == NULL || path == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, path or place for the result");
    pottle_recipe *recipe = calloc(1, sizeof *recipe);
    if (recipe == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    pottlei_reader reader;
    pottle_status status =
        pottlei_xml_open(&reader, path, &recipe->arena, error);
    if (status == POTTLE_OK)
        status = pottlei_recipe_build(&reader, recipe);
    if (status != POTTLE_OK) {
        pottle_recipe_free(recipe);
        return status;
    }
    *out = recipe;
    return POTTLE_OK;
}

void
pottle_recipe_free(pottle_recipe *recipe)
{
    if (recipe == NULL)
        return;
    pottlei_arena_free(&recipe->arena);
    free(recipe);
}

static bool
is_file(const char *path)
{
    struct stat info;
    return stat(path, &info) == 0;
}

/* Path of a catalogue recipe, or false. */
static bool
tested_path(const pottle_catalogue *c, const char *id, char *path)
{
    char file[80];
    snprintf(file, sizeof file, "%s.xml", id);
    for (size_t i = 0; i < KIND_COUNT; i++)
        if (pottlei_path(path, PATH_SIZE, NULL, c->folder, kinds[i], file,
                         (char *)NULL) == POTTLE_OK &&
            is_file(path))
            return true;
    return false;
}

/* The file must be named after the id and lie in the folder of its kind. */
static pottle_status
check_place(const pottle_recipe *recipe, const char *path, bool own,
            pottle_error *error)
{
    char stem[64];
    pottlei_stem(path, stem, sizeof stem);
    pottle_status status = POTTLE_OK;
    if (strcmp(stem, recipe->id) != 0) {
        status =
            pottlei_fail(error, POTTLE_EDATA, "file-name",
                         "the file of '%s' must be named after it", recipe->id);
    } else if (own && recipe->status != POTTLE_OWN) {
        status = pottlei_fail(
            error, POTTLE_EDATA, "own",
            "a recipe in a folder of your own must have status=\"own\"");
    } else if (!own && recipe->status == POTTLE_OWN) {
        status = pottlei_fail(
            error, POTTLE_EDATA, "own",
            "a recipe of the catalogue may not have status=\"own\"");
    } else if (!own) {
        const char *file = strrchr(path, '/');
        const size_t n = strlen(recipe->kind);
        if (file == NULL || (size_t)(file - path) < n + 1 ||
            file[-(ptrdiff_t)n - 1] != '/' ||
            memcmp(file - n, recipe->kind, n) != 0)
            status = pottlei_fail(
                error, POTTLE_EDATA, "kind",
                "'%s' lies in another folder than that of its kind '%s'",
                recipe->id, recipe->kind);
    }
    if (status != POTTLE_OK && error != NULL)
        pottlei_set_where(error, path);
    return status;
}

static pottle_status
read_placed(const pottle_catalogue *c, const char *path, bool own,
            pottle_recipe **out, pottle_error *error)
{
    pottle_recipe *recipe = NULL;
    pottle_status status = pottle_recipe_read_file(c, path, &recipe, error);
    if (status != POTTLE_OK || recipe == NULL)
        return status;
    status = check_place(recipe, path, own, error);
    char other[PATH_SIZE];
    if (status == POTTLE_OK && own &&
        (tested_path(c, recipe->id, other) ||
         pottlei_recipe_alias(c, recipe->id) != NULL)) {
        status = pottlei_fail(
            error, POTTLE_EDATA, "hides-tested",
            "'%s' is the id of a tested recipe; give your own another",
            recipe->id);
        if (error != NULL)
            pottlei_set_where(error, path);
    }
    if (status != POTTLE_OK)
        pottle_recipe_free(recipe);
    else
        *out = recipe;
    return status;
}

/* -- Walking --------------------------------------------------------------- */

typedef struct list {
    char (*id)[64];
    size_t count, room;
} list;

static int
by_text(const void *a, const void *b)
{
    return strcmp(a, b);
}

/* The analyzer of gcc 12 loses sight of a list in an array of them, which
 * unknown_recipe frees one by one. */
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* Ids of the XML files of a folder, sorted; a folder that is not there has
 * none. */
static pottle_status
list_folder(const char *folder, list *l, pottle_error *error)
{
    l->count = 0;
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return errno == ENOENT
                 ? POTTLE_OK
                 : pottlei_fail(error, POTTLE_EIO, "file",
                                "cannot read the folder '%.200s'", folder);
    pottle_status status = POTTLE_OK;
    struct dirent *e = NULL;
    while (status == POTTLE_OK && (errno = 0, e = readdir(dir)) != NULL) {
        const size_t n = strlen(e->d_name);
        if (n < 5 || n - 4 >= sizeof l->id[0] ||
            strcmp(e->d_name + n - 4, ".xml") != 0)
            continue;
        if (l->count == l->room) {
            const size_t room = l->room == 0 ? 64 : 2 * l->room;
            void *bigger = realloc(l->id, room * sizeof l->id[0]);
            if (bigger == NULL) {
                status =
                    pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
                break;
            }
            l->id = bigger;
            l->room = room;
        }
        memcpy(l->id[l->count], e->d_name, n - 4);
        l->id[l->count++][n - 4] = '\0';
    }
    /* the end of the folder leaves errno alone */
    if (status == POTTLE_OK && errno != 0)
        status = pottlei_fail(error, POTTLE_EIO, "file",
                              "cannot read the folder '%.200s'", folder);
    closedir(dir);
    if (status == POTTLE_OK && l->count > 0)
        qsort(l->id, l->count, sizeof l->id[0], by_text);
    return status;
}

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic pop
#endif

static pottle_status
visit_folder(const pottle_catalogue *c, const char *folder, bool own, list *l,
             pottle_visit visit, void *context, pottle_error *error)
{
    pottle_status status = list_folder(folder, l, error);
    for (size_t i = 0; status == POTTLE_OK && i < l->count; i++) {
        char path[PATH_SIZE], file[80];
        snprintf(file, sizeof file, "%s.xml", l->id[i]);
        pottle_recipe *recipe = NULL;
        pottle_error wrong;
        memset(&wrong, 0, sizeof wrong);
        status =
            pottlei_path(path, sizeof path, error, folder, file, (char *)NULL);
        if (status != POTTLE_OK)
            break;
        status = read_placed(c, path, own, &recipe, &wrong);
        if (status == POTTLE_ENOMEM) {
            if (error != NULL)
                *error = wrong;
            break;
        }
        status = visit(context, recipe, &wrong);
        pottle_recipe_free(recipe);
    }
    return status;
}

pottle_status
pottle_recipes_each(const pottle_catalogue *c, pottle_visit visit,
                    void *context, pottle_error *error)
{
    if (c == NULL || visit == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue or nothing to call");
    list l = { NULL, 0, 0 };
    pottle_status status = POTTLE_OK;
    size_t files = 0;
    if (c->own != NULL)
        status = visit_folder(c, c->own, true, &l, visit, context, error);
    for (size_t k = 0; status == POTTLE_OK && k < KIND_COUNT; k++) {
        char folder[PATH_SIZE];
        status = pottlei_path(folder, sizeof folder, error, c->folder, kinds[k],
                              (char *)NULL);
        if (status == POTTLE_OK)
            status = visit_folder(c, folder, false, &l, visit, context, error);
        files += l.count;
    }
    free(l.id);
    if (status == POTTLE_OK && files == 0)
        status =
            pottlei_fail(error, POTTLE_EIO, "catalogue",
                         "the folder '%.200s' holds no recipes", c->folder);
    return status;
}

/* Near ids for an error message, from the names of the files alone. */
static void
unknown_recipe(const pottle_catalogue *c, const char *id, pottle_error *error)
{
    list all[KIND_COUNT];
    memset(all, 0, sizeof all);
    char wanted[64];
    pottlei_copy(wanted, sizeof wanted, id);
    pottlei_near near;
    pottlei_near_init(&near, wanted);
    for (size_t k = 0; k < KIND_COUNT; k++) {
        char folder[PATH_SIZE];
        if (pottlei_path(folder, sizeof folder, NULL, c->folder, kinds[k],
                         (char *)NULL) != POTTLE_OK ||
            list_folder(folder, &all[k], NULL) != POTTLE_OK)
            continue;
        for (size_t i = 0; i < all[k].count; i++)
            pottlei_near_try(&near, all[k].id[i]);
    }
    char text[256];
    pottlei_near_write(&near, text, sizeof text);
    for (size_t k = 0; k < KIND_COUNT; k++)
        free(all[k].id);
    pottlei_fail(error, POTTLE_ENOENT, "unknown-recipe",
                 "there is no recipe '%.60s'%s", id, text);
}

pottle_status
pottle_recipe_read(const pottle_catalogue *c, const char *id,
                   pottle_recipe **out, pottle_error *error)
{
    if (c == NULL || id == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, id or place for the result");
    char path[PATH_SIZE], file[80];
    if (pottlei_id_valid(id)) {
        snprintf(file, sizeof file, "%s.xml", id);
        if (c->own != NULL &&
            pottlei_path(path, sizeof path, NULL, c->own, file, (char *)NULL) ==
                POTTLE_OK &&
            is_file(path))
            return read_placed(c, path, true, out, error);
        if (tested_path(c, id, path))
            return read_placed(c, path, false, out, error);
    }
    const char *alias = pottlei_recipe_alias(c, id);
    if (alias != NULL && tested_path(c, alias, path))
        return read_placed(c, path, false, out, error);
    unknown_recipe(c, id, error);
    return POTTLE_ENOENT;
}

pottle_status
pottle_recipe_again(const pottle_catalogue *c, const pottle_recipe *seen,
                    pottle_recipe **out, pottle_error *error)
{
    if (c == NULL || seen == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, recipe or place for the result");
    const bool own = seen->status == POTTLE_OWN;
    if (own && c->own == NULL)
        return pottlei_fail(error, POTTLE_ENOENT, "unknown-recipe",
                            "'%s' is of no folder that is open", seen->id);
    char path[PATH_SIZE], file[80];
    snprintf(file, sizeof file, "%s.xml", seen->id);
    const pottle_status status =
        own ? pottlei_path(path, sizeof path, error, c->own, file, (char *)NULL)
            : pottlei_path(path, sizeof path, error, c->folder, seen->kind,
                           file, (char *)NULL);
    return status == POTTLE_OK ? read_placed(c, path, own, out, error) : status;
}

/* -- Getters --------------------------------------------------------------- */

const char *
pottle_recipe_id(const pottle_recipe *r)
{
    return r->id;
}
const char *
pottle_recipe_title(const pottle_recipe *r)
{
    return r->title;
}
const char *
pottle_recipe_kind(const pottle_recipe *r)
{
    return r->kind;
}
bool
pottle_recipe_is_kind(const pottle_recipe *r, const char *kind)
{
    char all[80], asked[80];
    pottlei_fold_singular(r->kind, all, sizeof all);
    const size_t n = pottlei_fold_singular(kind, asked, sizeof asked);
    for (const char *at = all; n > 0 && (at = strstr(at, asked)) != NULL; at++)
        if ((at == all || at[-1] == ' ') && (at[n] == ' ' || at[n] == '\0'))
            return true;
    return false;
}
pottle_recipe_status
pottle_recipe_standing(const pottle_recipe *r)
{
    return r->status;
}
const pottle_cite *
pottle_recipe_cite(const pottle_recipe *r)
{
    return &r->cite;
}
const pottle_batch *
pottle_recipe_batch(const pottle_recipe *r)
{
    return &r->batch;
}
const pottle_quantities *
pottle_recipe_quantities(const pottle_recipe *r)
{
    return &r->quantities;
}
const pottle_cook *
pottle_recipe_cook(const pottle_recipe *r)
{
    return &r->cook;
}

#define ARRAY_GETTER(type, name, member)                                       \
    const type *name(const pottle_recipe *r, size_t *count)                    \
    {                                                                          \
        *count = r->member##_count;                                            \
        return r->member;                                                      \
    }
ARRAY_GETTER(pottle_cite, pottle_recipe_witnesses, witness)
ARRAY_GETTER(pottle_ingredient, pottle_recipe_ingredients, ingredient)
ARRAY_GETTER(pottle_per_jar, pottle_recipe_per_jar, per_jar)
ARRAY_GETTER(char *const, pottle_recipe_covers, cover)
ARRAY_GETTER(pottle_yield, pottle_recipe_yields, yield)
ARRAY_GETTER(pottle_process_table, pottle_recipe_processes, process)
ARRAY_GETTER(pottle_step, pottle_recipe_steps, step)
ARRAY_GETTER(pottle_note, pottle_recipe_notes, note)
