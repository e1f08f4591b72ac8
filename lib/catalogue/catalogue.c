/* catalogue.c - opening a catalogue and finding things by name. */
#include <config.h>

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "model.h"

pottle_status
pottlei_path(char *buf, size_t size, pottle_error *error, ...)
{
    size_t n = 0;
    va_list args;
    va_start(args, error);
    for (const char *part = va_arg(args, const char *); part != NULL;
         part = va_arg(args, const char *)) {
        const size_t k = strlen(part);
        if (n + k + 2 > size) {
            va_end(args);
            return pottlei_fail(error, POTTLE_EIO, "file",
                                "the path is too long");
        }
        if (n > 0)
            buf[n++] = '/';
        memcpy(buf + n, part, k + 1);
        n += k;
    }
    va_end(args);
    return POTTLE_OK;
}

void
pottlei_stem(const char *path, char *buf, size_t size)
{
    const char *slash = strrchr(path, '/');
    pottlei_copy(buf, size, slash != NULL ? slash + 1 : path);
    const size_t n = strlen(buf);
    if (n > 4 && strcmp(buf + n - 4, ".xml") == 0)
        buf[n - 4] = '\0';
}

/* The shared files that are asked for. */
static pottle_status
read_shared(pottle_catalogue *c, unsigned parts, pottle_error *error)
{
    static const struct {
        unsigned part;
        const char *file;
        pottle_status (*read)(pottle_catalogue *, const char *, pottle_error *);
    } shared[] = {
        { POTTLE_WITH_NAMES, "foods/names.xml", pottlei_names_read },
        { POTTLE_WITH_FIGURES, "figures.xml", pottlei_figures_read },
        { POTTLE_WITH_JARS, "jars.xml", pottlei_jars_read },
        { POTTLE_WITH_RULES, "rules.xml", pottlei_rules_read },
        { POTTLE_WITH_SOURCES, "sources.xml", pottlei_sources_read },
        { POTTLE_WITH_SYRUPS, "syrups.xml", pottlei_syrups_read },
        { POTTLE_WITH_RESCUE, "rescue.xml", pottlei_rescue_read },
    };
    pottle_status status = POTTLE_OK;
    for (size_t i = 0;
         status == POTTLE_OK && i < sizeof shared / sizeof shared[0]; i++) {
        if ((parts & shared[i].part) == 0)
            continue;
        char path[512];
        status = pottlei_path(path, sizeof path, error, c->folder,
                              shared[i].file, (char *)NULL);
        if (status == POTTLE_OK)
            status = shared[i].read(c, path, error);
        if (status == POTTLE_ENOENT) {
            status = POTTLE_EIO; /* a catalogue without it is not one */
            if (error != NULL)
                error->status = status;
        }
    }
    return status;
}

pottle_status
pottle_catalogue_open(const char *folder, const char *own, unsigned parts,
                      pottle_catalogue **out, pottle_error *error)
{
    if (folder == NULL || out == NULL ||
        (parts & ~(unsigned)POTTLE_WITH_ALL) != 0)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no folder, no place for the result or unknown parts");
    pottle_catalogue *c = calloc(1, sizeof *c);
    if (c == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    pottle_status status = POTTLE_OK;
    c->folder = pottlei_arena_text(&c->arena, folder);
    c->own = own != NULL ? pottlei_arena_text(&c->arena, own) : NULL;
    struct stat info;
    if (c->folder == NULL || (own != NULL && c->own == NULL)) {
        status = pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    } else if (stat(folder, &info) != 0 || !S_ISDIR(info.st_mode)) {
        status = pottlei_fail(error, POTTLE_EIO, "catalogue",
                              "the catalogue folder '%.200s' cannot be opened",
                              folder);
    } else if (own != NULL &&
               (stat(own, &info) != 0 || !S_ISDIR(info.st_mode))) {
        status =
            pottlei_fail(error, POTTLE_EIO, "own-folder",
                         "the recipe folder '%.200s' cannot be opened", own);
    }
    if (status == POTTLE_OK)
        status = read_shared(c, parts, error);
    if (status != POTTLE_OK) {
        pottle_catalogue_free(c);
        return status;
    }
    *out = c;
    return POTTLE_OK;
}

void
pottle_catalogue_free(pottle_catalogue *catalogue)
{
    if (catalogue == NULL)
        return;
    pottlei_arena_free(&catalogue->arena);
    free(catalogue);
}

const pottle_source *
pottle_source_find(const pottle_catalogue *c, const char *key)
{
    return pottlei_find(c->source, c->source_count, sizeof *c->source, key);
}

const pottle_source *
pottle_sources(const pottle_catalogue *c, size_t *count)
{
    *count = c->source_count;
    return c->source;
}

const pottle_rule *
pottle_rule_find(const pottle_catalogue *c, const char *id)
{
    return pottlei_find(c->rule, c->rule_count, sizeof *c->rule, id);
}

const pottle_rule *
pottle_rules(const pottle_catalogue *c, size_t *count)
{
    *count = c->rule_count;
    return c->rule;
}

const pottle_figure *
pottle_figure_find(const pottle_catalogue *c, const char *id)
{
    return pottlei_find(c->figure, c->figure_count, sizeof *c->figure, id);
}

const pottle_figure *
pottle_figures(const pottle_catalogue *c, size_t *count)
{
    *count = c->figure_count;
    return c->figure;
}

const pottle_syrup *
pottle_syrups(const pottle_catalogue *c, size_t *count)
{
    *count = c->syrup_count;
    return c->syrup;
}

const pottle_jar *
pottle_jars(const pottle_catalogue *c, size_t *count)
{
    *count = c->jar_count;
    return c->jar;
}

const pottle_jar *
pottlei_jar_by_id(const pottle_catalogue *c, const char *id)
{
    for (size_t i = 0; i < c->jar_count; i++)
        if (strcmp(c->jar[i].id, id) == 0)
            return &c->jar[i];
    return NULL;
}

pottle_status
pottle_jar_find(const pottle_catalogue *c, const char *name,
                const pottle_jar **out, pottle_error *error)
{
    if (c == NULL || name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, name or place for the result");
    /* an id as it is written, whatever its words would mean */
    const pottle_jar *same = pottlei_jar_by_id(c, name);
    if (same != NULL) {
        *out = same;
        return POTTLE_OK;
    }
    char folded[64], id[64];
    const size_t n = pottlei_fold_singular(name, folded, sizeof folded);
    /* "pint jar", "half-pint jars" */
    if (n > 4 && strcmp(folded + n - 4, " jar") == 0)
        folded[n - 4] = '\0';
    const size_t length = strlen(folded);
    pottlei_near near;
    pottlei_near_init(&near, folded);
    for (size_t i = 0; i < c->jar_count; i++) {
        const pottle_jar *jar = &c->jar[i];
        pottlei_fold_singular(jar->id, id, sizeof id);
        bool found = length > 0 && strcmp(id, folded) == 0;
        for (const char *s = jar->names; !found && *s != '\0';
             s += strcspn(s, "|") + 1)
            found = length > 0 && strcspn(s, "|") == length &&
                    memcmp(s, folded, length) == 0;
        if (found) {
            *out = jar;
            return POTTLE_OK;
        }
        pottlei_near_try(&near, jar->id);
    }
    char list[160];
    pottlei_near_write(&near, list, sizeof list);
    if (list[0] == '\0')
        pottlei_copy(list, sizeof list,
                     "; sizes: quarter-pint, half-pint, 12-oz, pint, "
                     "pint-and-half, quart, half-gallon, 250-ml, 500-ml, 1-l");
    return pottlei_fail(error, POTTLE_ENOENT, "unknown-jar",
                        "'%.60s' is not a size of jar%s", name, list);
}

pottle_status
pottle_mouth_diameter(const pottle_catalogue *c, bool wide, pottle_length *out)
{
    const double mm = c->mouth_mm[wide ? 1 : 0];
    if (!(mm > 0))
        return POTTLE_ENOENT;
    out->mm = mm;
    return POTTLE_OK;
}

/* -- names ----------------------------------------------------------------- */

const char *
pottle_food_at(const pottle_catalogue *c, size_t i)
{
    /* named is sorted by id, foods and recipes together */
    for (size_t k = 0; k < c->named_count; k++)
        if (!c->named[k].recipe && i-- == 0)
            return c->named[k].id;
    return NULL;
}

const char *
pottle_food_name(const pottle_catalogue *c, const char *id, size_t i)
{
    const pottlei_named *named =
        pottlei_find(c->named, c->named_count, sizeof *c->named, id);
    return named != NULL && !named->recipe && i < named->names ? named->name[i]
                                                               : NULL;
}

/* First entry of the sorted names that is not below the folded one. */
static size_t
lower_bound(const pottle_catalogue *c, const char *folded)
{
    size_t low = 0, high = c->name_count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (strcmp(c->name[middle].folded, folded) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const char *
pottlei_recipe_alias(const pottle_catalogue *c, const char *name)
{
    char folded[128];
    pottlei_fold_singular(name, folded, sizeof folded);
    for (size_t i = lower_bound(c, folded);
         i < c->name_count && strcmp(c->name[i].folded, folded) == 0; i++)
        if (c->name[i].recipe)
            return c->name[i].id;
    return NULL;
}

size_t
pottle_name_words(const pottle_catalogue *c)
{
    return c->name_words;
}

pottle_status
pottle_names_find(const pottle_catalogue *c, const char *name, const char **ids,
                  size_t room, size_t *count, pottle_error *error)
{
    if (c == NULL || name == NULL || count == NULL || (ids == NULL && room > 0))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, name or place for the result");
    char folded[256];
    pottlei_fold_singular(name, folded, sizeof folded);
    size_t n = 0;
    for (size_t i = lower_bound(c, folded);
         i < c->name_count && strcmp(c->name[i].folded, folded) == 0; i++) {
        /* "tomato" and "tomatoes" fold to one name of one food */
        if (c->name[i].recipe ||
            (n > 0 && i > 0 && strcmp(c->name[i].id, c->name[i - 1].id) == 0))
            continue;
        if (n < room)
            ids[n] = c->name[i].id;
        n++;
    }
    if (n == 0) {
        /* an id is a name too */
        char id[64];
        pottlei_copy(id, sizeof id, folded);
        for (char *s = id; *s != '\0'; s++)
            if (*s == ' ')
                *s = '-';
        const pottlei_named *named =
            pottlei_find(c->named, c->named_count, sizeof *c->named, id);
        if (named != NULL && !named->recipe) {
            if (room > 0)
                ids[0] = named->id;
            n = 1;
        }
    }
    if (n > 0) {
        *count = n;
        return POTTLE_OK;
    }
    if (error == NULL)
        return POTTLE_ENOENT; /* near names are for a message nobody wants */
    pottlei_near near;
    pottlei_near_init(&near, folded);
    for (size_t i = 0; i < c->name_count; i++)
        if (!c->name[i].recipe)
            pottlei_near_try(&near, c->name[i].folded);
    char list[200];
    pottlei_near_write(&near, list, sizeof list);
    return pottlei_fail(error, POTTLE_ENOENT, "unknown-food",
                        "'%.60s' is not a food that is known%s", name, list);
}
