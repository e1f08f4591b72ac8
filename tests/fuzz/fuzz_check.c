/* fuzz_check.c - what `pottle check` says of a file that nobody chose. What it
 * passes the readers take; what they refuse it has told. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "targets.h"

typedef struct findings {
    size_t errors, warnings;
} findings;

static void
tell(void *context, bool warning, const pottle_error *finding)
{
    findings *f = context;
    if (warning)
        f->warnings++;
    else
        f->errors++;
    fuzz_expect(finding->code[0] != '\0' && finding->what[0] != '\0' &&
                    finding->where[0] != '\0' && finding->line >= 0,
                "a finding that does not say what or where");
    fuzz_text(finding->code, "code");
    fuzz_text(finding->where, "where");
    fuzz_text(finding->what, "what");
    fuzz_text(finding->source, "source");
    fuzz_text(finding->at, "at");
    fuzz_text(finding->instead, "instead");
}

/* A draft and a part of the batch may be refused; a tested batch as published
 * is scaled, when no check finds fault with the file. */
static void
check_use(const pottle_recipe *recipe, const findings *f)
{
    static const pottle_status allowed[] = {
        POTTLE_EBOUNDS,    POTTLE_ENOENT, POTTLE_EDOMAIN,
        POTTLE_EAMBIGUOUS, POTTLE_EUNIT,  POTTLE_OK,
    };
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1 };
    pottle_plan *plan = NULL;
    pottle_error error;
    const pottle_status status =
        pottle_scale(fuzz_catalogue(), recipe, &request, &plan, &error);
    if (status != POTTLE_OK && f->errors == 0)
        fuzz_failure(status, &error, allowed, "scaling a checked recipe");
    pottle_plan_free(plan);
}

int
target_check(const uint8_t *data, size_t size)
{
    static const pottle_status allowed[] = { POTTLE_EDATA, POTTLE_OK };
    const bool food = fuzz_has(data, size, "<food ");
    const bool recipe = !food && fuzz_has(data, size, "<recipe ");
    char path[FUZZ_PATH_SIZE];
    fuzz_put(food     ? "foods/food.xml"
             : recipe ? "recipe.xml"
                      : "kitchen.xml",
             data, size, path);
    findings f = { 0, 0 };
    size_t errors = 0;
    pottle_error error;
    pottle_status status =
        pottle_file_check(fuzz_catalogue(), path, tell, &f, &errors, &error);
    if (!fuzz_expect(status == POTTLE_OK, "the check fails: %s", error.what))
        return fuzz_verdict();
    fuzz_expect(errors == f.errors, "%zu errors are told and %zu counted",
                f.errors, errors);
    pottle_recipe *r = NULL;
    if (recipe) {
        status = pottle_recipe_read_file(fuzz_catalogue(), path, &r, &error);
        if (status != POTTLE_OK)
            fuzz_failure(status, &error, allowed, "a recipe");
        fuzz_expect((status == POTTLE_OK) || errors > 0,
                    "passed by the check, refused by the reader: %s",
                    error.what);
        if (status == POTTLE_OK)
            check_use(r, &f);
    }
    pottle_recipe_free(r);
    return fuzz_verdict();
}
