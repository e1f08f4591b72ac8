/* cmd_check.c - pottle check: is a catalogue file in order? */
#include "cli.h"

static const option options[] = {
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

typedef struct findings {
    json_t *list;
    const char *path;
} findings;

static void
tell(void *context, bool warning, const pottle_error *e)
{
    findings *f = context;
    char shown[400];
    const char *where = printable(e->where[0] != '\0' ? e->where : f->path,
                                  shown, sizeof shown);
    if (f->list != NULL)
        json_array_append_new(
            f->list,
            json_pack("{s:s, s:I, s:s, s:s, s:s, s:o}", "file", where, "line",
                      (json_int_t)e->line, "level",
                      warning ? "warning" : "error", "code", e->code, "text",
                      e->what, "instead", json_text(e->instead)));
    fprintf(stderr, "pottle: %s:%ld: %s%s (%s)%s%s\n", where, e->line,
            warning ? "warning: " : "", e->what, e->code,
            e->instead[0] != '\0' ? "; " : "", e->instead);
}

static int
run(const command *self, const args *a, bool json)
{
    if (a->operands == 0)
        return usage_error(self, "check takes one or more files");
    pottle_catalogue *catalogue = NULL;
    int result = open_catalogue(a, POTTLE_WITH_ALL, &catalogue);
    if (result != DONE)
        return result;
    json_t *list = json ? json_array() : NULL;
    for (size_t i = 0; i < a->operands; i++) {
        size_t errors = 0;
        char shown[400];
        pottle_error error;
        findings f = { list, a->operand[i] };
        const pottle_status status = pottle_file_check(
            catalogue, a->operand[i], tell, &f, &errors, &error);
        const int this_one = status != POTTLE_OK
                               ? report(catalogue, &error, false)
                           : errors > 0 ? BAD_DATA
                                        : DONE;
        if (this_one == DONE && !json)
            printf("%s: in order\n",
                   printable(a->operand[i], shown, sizeof shown));
        /* the worst answer is the answer */
        result = this_one == BAD_DATA || result == DONE ? this_one : result;
    }
    if (json) {
        const int printed = print_json(json_pack("{s:O}", "findings", list));
        result = result == DONE ? printed : result;
    }
    json_decref(list);
    pottle_catalogue_free(catalogue);
    return result;
}

const command check_command = { "check", run, "FILE...",
                                "is a catalogue file in order?", options };
