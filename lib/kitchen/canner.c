/* canner.c - which canner somebody means, and the ways of heating jars that no
 * table here covers. */
#include <config.h>

#include <string.h>

#include "kitchen/kitchen.h"

pottle_status
pottle_canner_method(const pottle_catalogue *catalogue, const char *name,
                     pottle_method *out, pottle_error *error)
{
    static const struct {
        const char *name, *rule;
    } others[] = {
        { "steam", "steam-canner-out-of-scope" },
        { "steam canner", "steam-canner-out-of-scope" },
        { "atmospheric steam", "steam-canner-out-of-scope" },
        { "atmospheric steam canner", "steam-canner-out-of-scope" },
        { "open kettle", "heating-not-recommended" },
        { "oven", "heating-not-recommended" },
        { "microwave", "heating-not-recommended" },
        { "microwave oven", "heating-not-recommended" },
        { "dishwasher", "heating-not-recommended" },
    };
    if (catalogue == NULL || name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, no name or no place for the result");
    char folded[64];
    pottlei_fold(name, folded, sizeof folded);
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (strcmp(folded, others[i].name) == 0)
            return pottlei_refuse(catalogue, error, "canner", others[i].rule,
                                  NULL, "there is no tested process for '%s'",
                                  folded);
    return pottle_method_find(name, out, error);
}
