/* cover.c - which foods somebody does without who does without a name.
 *
 * "No nuts" is no walnuts either. A name covers what it means, what is usually
 * called by it with a word before ("green tomato", "pine nut"), and what
 * names.xml puts under one of these. Only the usual name counts: a tomato is
 * also a love apple, and is no apple. */
#include <config.h>

#include <string.h>

#include "catalogue/model.h"

enum { MEANT_MAX = 64, DEEPEST = 8 };

typedef struct cover {
    const pottle_catalogue *catalogue;
    const char *folded; /* the name */
    const char *meant[MEANT_MAX];
    size_t count;
} cover;

static bool
ends_in(const char *text, const char *word)
{
    const size_t n = strlen(text), length = strlen(word);
    return n > length + 1 && text[n - length - 1] == ' ' &&
           strcmp(text + n - length, word) == 0;
}

/* One that is put under itself by some way round is covered by nothing. */
static bool
covers(const cover *c, const pottlei_named *food)
{
    for (int depth = 0; depth < DEEPEST && food != NULL && !food->recipe;
         depth++) {
        char usual[256] = "";
        if (food->names > 0)
            pottlei_fold_singular(food->name[0], usual, sizeof usual);
        if (ends_in(usual, c->folded))
            return true;
        for (size_t i = 0; i < c->count && i < MEANT_MAX; i++)
            if (strcmp(c->meant[i], food->id) == 0)
                return true;
        food = food->under == NULL
                 ? NULL
                 : pottlei_find(c->catalogue->named, c->catalogue->named_count,
                                sizeof *food, food->under);
    }
    return false;
}

const char *
pottle_food_under(const pottle_catalogue *catalogue, const char *id)
{
    const pottlei_named *food = pottlei_find(
        catalogue->named, catalogue->named_count, sizeof *food, id);
    return food != NULL ? food->under : NULL;
}

pottle_status
pottle_names_cover(const pottle_catalogue *catalogue, const char *name,
                   const char **ids, size_t room, size_t *count,
                   pottle_error *error)
{
    if (catalogue == NULL || name == NULL || count == NULL ||
        (ids == NULL && room > 0))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, name or place for the result");
    char folded[256];
    cover c = { .catalogue = catalogue, .folded = folded };
    const pottle_status status =
        pottle_names_find(catalogue, name, c.meant, MEANT_MAX, &c.count, error);
    if (status != POTTLE_OK)
        return status;
    pottlei_fold_singular(name, folded, sizeof folded);
    size_t n = 0;
    for (size_t i = 0; i < catalogue->named_count; i++) {
        if (!covers(&c, &catalogue->named[i]))
            continue;
        if (n < room)
            ids[n] = catalogue->named[i].id;
        n++;
    }
    *count = n;
    return POTTLE_OK;
}
