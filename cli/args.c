/* args.c - command-line arguments. */
#include "cli.h"

#include <string.h>

static const option *
find(const option *options, const char *name, size_t n)
{
    for (const option *o = options; o->name != NULL; o++)
        if (strlen(o->name) == n && memcmp(o->name, name, n) == 0)
            return o;
    return NULL;
}

/* The option that shares the longest beginning, for the message. */
static const char *
nearest(const option *options, const char *name)
{
    const char *best = NULL;
    size_t most = 0;
    for (const option *o = options; o->name != NULL; o++) {
        size_t n = 0;
        while (o->name[n] != '\0' && o->name[n] == name[n])
            n++;
        if (n > most) {
            most = n;
            best = o->name;
        }
    }
    return best;
}

bool
args_read(int argc, char **argv, const option *options, args *out)
{
    memset(out, 0, sizeof *out);
    bool only_operands = false;
    for (int i = 0; i < argc; i++) {
        const char *word = argv[i];
        if (out->operands == ARGS_MAX || out->givens == ARGS_MAX) {
            fprintf(stderr, "pottle: more than %d arguments\n", (int)ARGS_MAX);
            return false;
        }
        if (only_operands || word[0] != '-' || word[1] == '\0') {
            out->operand[out->operands++] = word;
            continue;
        }
        if (strcmp(word, "--") == 0) {
            only_operands = true;
            continue;
        }
        const char *name = word + (word[1] == '-' ? 2 : 1);
        const size_t n = strcspn(name, "=");
        const option *o = word[1] == '-' ? find(options, name, n) : NULL;
        if (o == NULL) {
            const char *near = nearest(options, name);
            complain("unknown option '%.60s'%s%s", word,
                     near != NULL ? "; nearest: --" : "",
                     near != NULL ? near : "");
            return false;
        }
        const char *value = name[n] == '=' ? name + n + 1 : NULL;
        if (o->value == NULL && value != NULL) {
            fprintf(stderr, "pottle: --%s takes no value\n", o->name);
            return false;
        }
        if (o->value != NULL && value == NULL) {
            if (i + 1 == argc) {
                fprintf(stderr, "pottle: --%s needs a value: %s\n", o->name,
                        o->value);
                return false;
            }
            value = argv[++i];
        }
        out->given[out->givens].name = o->name;
        out->given[out->givens++].value = value;
    }
    return true;
}

const char *
args_nth(const args *a, const char *name, size_t i)
{
    for (size_t k = 0; k < a->givens; k++)
        if (strcmp(a->given[k].name, name) == 0 && i-- == 0)
            return a->given[k].value;
    return NULL;
}

const char *
args_value(const args *a, const char *name)
{
    const char *value = NULL;
    for (size_t k = 0; k < a->givens; k++)
        if (strcmp(a->given[k].name, name) == 0)
            value = a->given[k].value;
    return value;
}

bool
args_has(const args *a, const char *name)
{
    for (size_t k = 0; k < a->givens; k++)
        if (strcmp(a->given[k].name, name) == 0)
            return true;
    return false;
}

int
read_single(const command *self, const args *a, const char *name,
            pottle_dimension dimension, const char *unit, double *out)
{
    const char *text = args_value(a, name);
    pottle_quantity q;
    pottle_error error;
    if (text == NULL)
        return DONE;
    if (pottle_quantity_read(text, (int)dimension, &q, &error) != POTTLE_OK)
        return report(NULL, &error);
    if (q.high > q.low || !(q.low > 0))
        return usage_error(self, "--%s takes one amount above 0", name);
    return pottle_unit_convert(q.low, q.unit, pottle_unit_find(unit), out,
                               &error) == POTTLE_OK
             ? DONE
             : report(NULL, &error);
}
