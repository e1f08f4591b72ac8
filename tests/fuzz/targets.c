/* targets.c - the table of targets, and those that read a line of text. */
#include <config.h>

#include <libxml/xmlerror.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

const fuzz_target fuzz_targets[] = {
    { "chain", target_chain, false },
    { "check", target_check, true },
    { "command", target_command, false },
    { "food", target_food, true },
    { "kitchen", target_kitchen, true },
    { "names", target_names, true },
    { "number", target_number, false },
    { "phrase", target_phrase, false },
    { "recipe", target_recipe, true },
    { "rescue", target_rescue, true },
    { "scale", target_scale, false },
    { "shared", target_shared, true },
    { "unit", target_unit, false },
    { "words", target_words, false },
    { NULL, NULL, false },
};

/* -- Promises ------------------------------------------------------------- */

static bool broken;

bool
fuzz_expect(bool holds, const char *promise, ...)
{
    if (holds)
        return true;
    broken = true;
    va_list args;
    va_start(args, promise);
    fputs("broken: ", stderr);
    vfprintf(stderr, promise, args);
    fputc('\n', stderr);
    va_end(args);
    return false;
}

int
fuzz_verdict(void)
{
    const bool was = broken;
    broken = false;
    return was ? 1 : 0;
}

void
fuzz_text(const char *text, const char *what)
{
    if (fuzz_expect(text != NULL, "%s is NULL", what))
        fuzz_expect(pottlei_utf8_valid(text, strlen(text)),
                    "%s is not printable text", what);
}

bool
fuzz_untouched(const void *bytes, size_t n, unsigned char filled)
{
    const unsigned char *b = bytes;
    size_t i = 0;
    while (i < n && b[i] == filled)
        i++;
    return i == n;
}

void
fuzz_amount(double x, const char *what)
{
    fuzz_expect(isfinite(x) && x >= 0, "%s is %g", what, x);
}

void
fuzz_failure(pottle_status status, const pottle_error *error,
             const pottle_status *allowed, const char *what)
{
    size_t i = 0;
    while (allowed[i] != POTTLE_OK && allowed[i] != status)
        i++;
    fuzz_expect(allowed[i] == status,
                "%s gives '%s', which it does not promise", what,
                pottle_strerror((int)status));
    fuzz_expect(error->status == status, "%s gives %d, its error says %d", what,
                (int)status, (int)error->status);
    fuzz_expect(error->code[0] != '\0' && error->what[0] != '\0',
                "%s fails and does not say why", what);
    fuzz_text(error->code, "code");
    fuzz_text(error->where, "where");
    fuzz_text(error->what, "what");
    fuzz_text(error->source, "source");
    fuzz_text(error->at, "at");
    fuzz_text(error->instead, "instead");
    fuzz_expect(error->line >= 0, "%s fails in line %ld", what, error->line);
}

void
fuzz_refusal(pottle_status status, const pottle_error *error)
{
    if (status != POTTLE_EBOUNDS)
        return;
    fuzz_expect(error->source[0] != '\0', "refused without a source: %s",
                error->what);
    fuzz_expect(error->instead[0] != '\0', "refused without a way out: %s",
                error->what);
}

/* -- The catalogue -------------------------------------------------------- */

static pottle_catalogue *shipped;

/* The library prints nothing, so libxml2 may not either. */
static void
libxml2_speaks(void *context, const char *message, ...)
{
    (void)context;
    fuzz_expect(false, "libxml2 prints: %s", message);
}

static void
close_catalogue(void)
{
    pottle_catalogue_free(shipped);
    shipped = NULL;
}

const pottle_catalogue *
fuzz_catalogue(void)
{
    if (shipped != NULL)
        return shipped;
    xmlSetGenericErrorFunc(NULL, libxml2_speaks);
    const char *srcdir = getenv("srcdir");
    char folder[512];
    pottle_error error;
    snprintf(folder, sizeof folder, "%s/recipes",
             srcdir != NULL ? srcdir : ".");
    if (pottle_catalogue_open(folder, NULL, POTTLE_WITH_ALL, &shipped,
                              &error) != POTTLE_OK) {
        fprintf(stderr, "%s: %s\n", error.where, error.what);
        exit(99); /* broken set-up */
    }
    atexit(close_catalogue);
    return shipped;
}

char *
fuzz_line(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text == NULL)
        exit(99);
    if (size > 0)
        memcpy(text, data, size);
    text[size] = '\0';
    return text;
}

/* -- Numbers -------------------------------------------------------------- */

static void
check_range(pottle_range r, const char *text)
{
    fuzz_expect(r.low >= 0 && r.low <= r.high && r.high <= POTTLE_NUMBER_MAX,
                "'%s' is read as %g to %g", text, r.low, r.high);
    fuzz_expect(!(r.low > 0 && r.low < POTTLE_NUMBER_MIN),
                "'%s' is read as %g, under the smallest", text, r.low);
}

/* What is written with nine decimals is read again as that number, to half a
 * unit of the ninth. */
static void
check_written(double x)
{
    char buf[64];
    pottle_range again = { 0, 0 };
    const size_t n = pottle_number_write(x, 9, buf, sizeof buf);
    fuzz_expect(n == strlen(buf), "%g is written with %zu bytes", x, n);
    fuzz_expect(pottle_number_read(buf, &again) == POTTLE_OK,
                "%g is written as '%s', which cannot be read", x, buf);
    fuzz_expect(fabs(again.low - x) <= 0.5000001e-9 + 1e-15 * x,
                "%.17g is written as '%s'", x, buf);
}

int
target_number(const uint8_t *data, size_t size)
{
    char *text = fuzz_line(data, size);
    pottle_range r = { -1, -2 };
    const pottle_status status = pottle_number_read(text, &r);
    if (status == POTTLE_OK) {
        check_range(r, text);
        check_written(r.low);
        check_written(r.high);
        /* what is a number is no less one with blanks around it */
        char *wide = malloc(strlen(text) + 3);
        if (wide == NULL)
            exit(99);
        sprintf(wide, " %s ", text);
        pottle_range same = { -1, -2 };
        fuzz_expect(pottle_number_read(wide, &same) == POTTLE_OK &&
                        !(same.low < r.low || same.low > r.low ||
                          same.high < r.high || same.high > r.high),
                    "'%s' is another number between blanks", text);
        free(wide);
    } else {
        fuzz_expect(status == POTTLE_ESYNTAX || status == POTTLE_EDOMAIN,
                    "'%s' gives status %d", text, (int)status);
        fuzz_expect(r.low < 0 && r.high < -1, "'%s' fails and writes", text);
    }
    const char *at = text;
    const pottle_status scanned = pottlei_number_scan(&at, &r);
    fuzz_expect(at >= text && at <= text + strlen(text),
                "'%s': the scan leaves the text", text);
    fuzz_expect(scanned == POTTLE_OK || at == text, "'%s': a failed scan moves",
                text);
    fuzz_expect(status != POTTLE_OK || scanned == POTTLE_OK,
                "'%s' is a number and does not begin with one", text);
    free(text);
    return fuzz_verdict();
}

/* -- Units and quantities ------------------------------------------------- */

/* There and back through every unit of the dimension. */
static void
check_conversion(double value, const pottle_unit *from)
{
    const pottle_unit *to = pottle_unit_at(0);
    for (size_t i = 0; to != NULL; to = pottle_unit_at(++i)) {
        pottle_error error;
        double there = -1, back = -1;
        const pottle_status status =
            pottle_unit_convert(value, from, to, &there, &error);
        if (status != POTTLE_OK) {
            static const pottle_status allowed[] = { POTTLE_EUNIT, POTTLE_OK };
            fuzz_failure(status, &error, allowed, "a conversion");
            fuzz_expect(to != from, "%s is no %s", from->id, to->id);
            continue;
        }
        fuzz_expect(to->dimension == from->dimension, "%s becomes %s", from->id,
                    to->id);
        fuzz_expect(pottle_unit_convert(there, to, from, &back, NULL) ==
                            POTTLE_OK &&
                        fabs(back - value) <= 1e-12 * (fabs(value) + 500),
                    "%.17g %s is %.17g %s and %.17g back", value, from->id,
                    there, to->id, back);
    }
}

int
target_unit(const uint8_t *data, size_t size)
{
    static const pottle_status allowed[] = { POTTLE_ESYNTAX, POTTLE_EDOMAIN,
                                             POTTLE_EUNIT, POTTLE_OK };
    char *text = fuzz_line(data, size);
    pottle_quantity any = { -1, -2, NULL };
    pottle_error error;
    const pottle_status status = pottle_quantity_read(text, -1, &any, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, allowed, "a quantity");
        fuzz_expect(any.unit == NULL && any.low < 0 && any.high < -1,
                    "'%s' fails and writes", text);
    } else {
        check_range((pottle_range){ any.low, any.high }, text);
        check_conversion(any.low, any.unit);
    }
    for (int d = POTTLE_NUMBER; d <= POTTLE_CONTAINER; d++) {
        pottle_quantity q = { -1, -2, NULL };
        const pottle_status s = pottle_quantity_read(text, d, &q, &error);
        const bool right = status == POTTLE_OK && (int)any.unit->dimension == d;
        fuzz_expect((s == POTTLE_OK) == right,
                    "'%s' is read as dimension %d with status %d", text, d,
                    (int)s);
        if (s != POTTLE_OK)
            fuzz_failure(s, &error, allowed, "a quantity");
    }
    const pottle_unit *unit = pottle_unit_find(text);
    if (unit != NULL) {
        fuzz_expect(pottle_unit_find(unit->id) == unit, "'%s' finds '%s'", text,
                    unit->id);
        check_conversion(1, unit);
    }
    const char *at = text;
    unit = pottlei_unit_scan(&at);
    fuzz_expect(at >= text && at <= text + strlen(text),
                "'%s': the scan leaves the text", text);
    fuzz_expect((unit == NULL) == (at == text),
                "'%s': the scan moves over nothing", text);
    free(text);
    return fuzz_verdict();
}

/* -- Phrases -------------------------------------------------------------- */

/* Every amount that can be read has a mass, or a reason why it has none. */
static void
check_amount(const pottle_phrase *phrase)
{
    static const pottle_status allowed[] = { POTTLE_ENOENT, POTTLE_EAMBIGUOUS,
                                             POTTLE_EUNIT, POTTLE_OK };
    static const char *const units[] = { "g", "cup", "count", "bushel" };
    pottle_food *food = NULL;
    pottle_error error;
    if (!fuzz_expect(pottle_food_read(fuzz_catalogue(), phrase->food, &food,
                                      &error) == POTTLE_OK,
                     "'%s' cannot be read", phrase->food))
        return;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        pottle_conversion c;
        const pottle_status status =
            pottle_convert(fuzz_catalogue(), food, phrase,
                           pottle_unit_find(units[i]), NULL, &c, &error);
        if (status != POTTLE_OK) {
            fuzz_failure(status, &error, allowed, "a conversion of food");
            continue;
        }
        const pottle_interval v = pottle_estimate_interval(c.value);
        fuzz_expect(v.low > 0 && v.low <= v.expected && v.expected <= v.high &&
                        isfinite(v.high),
                    "%s of %s: %g, %g, %g", units[i], phrase->food, v.low,
                    v.expected, v.high);
    }
    pottle_food_free(food);
}

/* A word that nobody knows is never skipped, wherever it stands. */
static void
check_unknown_word(const char *text)
{
    static const char *const words[] = {
        "zzqx",
        "qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq"
        "qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq",
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        char longer[POTTLE_PHRASE_MAX + 1];
        pottle_phrase p;
        const int n = snprintf(longer, sizeof longer, "%s %s", text, words[i]);
        if (n > 0 && (size_t)n < sizeof longer)
            fuzz_expect(pottle_phrase_read(fuzz_catalogue(), longer, NULL, 0,
                                           &p, NULL) != POTTLE_OK,
                        "an unknown word is skipped: '%s'", longer);
    }
}

int
target_phrase(const uint8_t *data, size_t size)
{
    static const pottle_status allowed[] = {
        POTTLE_ESYNTAX, POTTLE_EDOMAIN,    POTTLE_EUNIT,
        POTTLE_ENOENT,  POTTLE_EAMBIGUOUS, POTTLE_OK,
    };
    char *text = fuzz_line(data, size);
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    pottle_error error;
    const pottle_status status =
        pottle_phrase_read(fuzz_catalogue(), text, NULL, 0, &p, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, allowed, "a phrase");
        fuzz_expect(fuzz_untouched(&p, sizeof p, 0x5A), "'%s' fails and writes",
                    text);
    } else {
        check_range((pottle_range){ p.low, p.high }, text);
        fuzz_expect(p.low > 0, "'%s' is an amount of nothing", text);
        fuzz_text(p.food, "food");
        fuzz_text(p.form, "form");
        fuzz_text(p.then, "then");
        fuzz_text(p.size, "size");
        fuzz_expect(p.percent >= 0 && p.percent <= POTTLE_NUMBER_MAX,
                    "'%s' has %g percent", text, p.percent);
        fuzz_expect(pottle_food_name(fuzz_catalogue(), p.food, 0) != NULL,
                    "'%s' is of '%s', which has no name", text, p.food);
        check_amount(&p);
        check_unknown_word(text);
        const char *const preferred[] = { p.food };
        pottle_phrase same;
        fuzz_expect(pottle_phrase_read(fuzz_catalogue(), text, preferred, 1,
                                       &same, NULL) == POTTLE_OK &&
                        strcmp(same.food, p.food) == 0,
                    "'%s' means another food when it is preferred", text);
    }
    free(text);
    return fuzz_verdict();
}
