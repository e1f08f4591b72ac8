/* cmd_check.c - pottle check: is a catalogue file in order? */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

typedef struct findings {
    json_t *list;
    const char *path;
    bool yield_told; /* that more is printed than goes in */
} findings;

static void
tell(void *context, bool warning, const pottle_error *e)
{
    findings *f = context;
    char shown[400];
    const char *where = printable(e->where[0] != '\0' ? e->where : f->path,
                                  shown, sizeof shown);
    f->yield_told = f->yield_told || strcmp(e->code, "yield-mass") == 0;
    if (f->list != NULL)
        json_array_append_new(
            f->list,
            json_pack("{s:s, s:I, s:s, s:s, s:s, s:o}", "file", where, "line",
                      (json_int_t)e->line, "level",
                      warning ? "warning" : "error", "code", e->code, "text",
                      e->what, "instead", json_text(e->instead)));
    char line[30] = "";
    if (e->line > 0) /* none of a file that is empty */
        snprintf(line, sizeof line, ":%ld", e->line);
    fprintf(stderr, "pottle: %s%s: %s%s (%s)%s%s\n", where, line,
            warning ? "warning: " : "", e->what, e->code,
            e->instead[0] != '\0' ? "; " : "", e->instead);
}

/* -- The printed yield ----------------------------------------------------- */

/* What the two numbers mean for the file. */
static const char *
judgement(const pottle_yield_comparison *c)
{
    const bool cannot = c->verdict == POTTLE_YIELD_TOO_MANY ||
                        c->verdict == POTTLE_YIELD_TOO_FEW;
    if (!c->printed->possible)
        return cannot ? "it is marked possible=\"no\" and not used"
                      : "it is marked possible=\"no\", and yet it may be";
    if (c->verdict == POTTLE_YIELD_TOO_MANY)
        return "more than what goes in can fill; read the print again, and "
               "mark it possible=\"no\" if it is so";
    if (c->verdict == POTTLE_YIELD_TOO_FEW)
        return "fewer than the pieces alone fill; read the print again, and "
               "mark it possible=\"no\" if it is so";
    return "it may be, and both are used together";
}

static void
tell_yield(const findings *f, const pottle_yield_comparison *c)
{
    const pottle_interval i = pottle_estimate_interval(c->balance_jars);
    char text[500], shown[400], print[90], low[40], middle[40], high[40],
        factor[40];
    const char *where = printable(f->path, shown, sizeof shown);
    pottle_number_write(i.low, 1, low, sizeof low);
    pottle_number_write(i.expected, 1, middle, sizeof middle);
    pottle_number_write(i.high, 1, high, sizeof high);
    pottle_number_write(c->factor, 2, factor, sizeof factor);
    if (c->printed->high > c->printed->low)
        snprintf(print, sizeof print, "%g to %g", c->printed->low,
                 c->printed->high);
    else
        snprintf(print, sizeof print, "%g", c->printed->low);
    snprintf(text, sizeof text,
             "printed yield %s %s jars, by mass balance %s (%s to %s): %s "
             "times the print; %s",
             print, c->jar->id, middle, low, high, factor, judgement(c));
    if (f->list != NULL)
        json_array_append_new(
            f->list,
            json_pack("{s:s, s:n, s:s, s:s, s:s, s:n, s:s, s:{s:o, s:o}, s:o, "
                      "s:o, s:s, s:b}",
                      "file", where, "line", "level", "note", "code", "yield",
                      "text", text, "instead", "jar", c->jar->id, "printed",
                      "low", json_number(c->printed->low), "high",
                      json_number(c->printed->high), "balance",
                      json_interval(c->balance_jars), "factor",
                      json_number(c->factor), "verdict",
                      pottle_yield_verdict_name((int)c->verdict), "possible",
                      (int)c->printed->possible));
    fprintf(stderr, "pottle: %s: note: %s (yield)\n", where, text);
}

/* Where print and mass balance disagree; a note, since either may be right and
 * the file is in order. */
static int
compare_yield(const pottle_catalogue *catalogue, const findings *f)
{
    pottle_recipe *recipe = NULL;
    pottle_yield_comparison c;
    pottle_error error;
    pottle_status status =
        pottle_recipe_read_file(catalogue, f->path, &recipe, &error);
    if (status == POTTLE_OK)
        status = pottle_yield_compare(catalogue, recipe, &c, &error);
    if (status == POTTLE_OK &&
        (c.outside || c.verdict != POTTLE_YIELD_AGREES || !c.printed->possible))
        tell_yield(f, &c);
    pottle_recipe_free(recipe);
    /* Of another file, or one without a yield, there is nothing to compare. A
     * file that was in order a moment ago is not ill-formed now: libxml2 says
     * so where it has no memory. */
    return status == POTTLE_ENOMEM || status == POTTLE_EIO ||
                   (status == POTTLE_EDATA && strcmp(error.code, "xml") == 0)
             ? report(catalogue, &error)
             : DONE;
}

/* -- The command ----------------------------------------------------------- */

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
    bool whole = true;
    for (size_t i = 0; i < a->operands; i++) {
        size_t errors = 0;
        char shown[400];
        pottle_error error;
        findings f = { .list = list, .path = a->operand[i] };
        const pottle_status status = pottle_file_check(
            catalogue, a->operand[i], tell, &f, &errors, &error);
        int this_one = status != POTTLE_OK ? report(catalogue, &error)
                     : errors > 0          ? BAD_DATA
                                           : DONE;
        if (this_one == DONE && !f.yield_told)
            this_one = compare_yield(catalogue, &f);
        if (this_one == DONE && !json)
            printf("%s: in order\n",
                   printable(a->operand[i], shown, sizeof shown));
        whole =
            whole && status == POTTLE_OK && (errors > 0 || this_one == DONE);
        /* the worst answer is the answer */
        result = this_one == BAD_DATA || result == DONE ? this_one : result;
    }
    /* a file that could not be read at all has no findings, and would look as
     * if it were in order */
    if (json && whole) {
        const int printed = print_json(json_pack("{s:O}", "findings", list));
        result = printed == DONE ? result : printed;
    }
    json_decref(list);
    pottle_catalogue_free(catalogue);
    return result;
}

const command check_command = { "check", run, "FILE...",
                                "is a catalogue file in order?", options };
