/* stove_words.c - the hob, power and minutes as people type them. */
#include <config.h>

#include <string.h>

#include "internal.h"

pottle_status
pottle_hob_find(const char *name, pottle_hob *out, pottle_error *error)
{
    static const struct {
        const char *name;
        pottle_hob hob;
    } names[] = {
        { "induction", POTTLE_HOB_INDUCTION },
        { "electric", POTTLE_HOB_ELECTRIC },
        { "gas", POTTLE_HOB_GAS },
    };
    if (name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no name or no place for the result");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(name, names[i].name) == 0) {
            *out = names[i].hob;
            return POTTLE_OK;
        }
    return pottlei_fail(
        error, POTTLE_ENOENT, "unknown-hob",
        "there is no hob '%.40s'; there are induction, electric and gas", name);
}

typedef struct measure_word {
    const char *word;
    double factor;
} measure_word;

/* One number and a word of the list; moves *text behind them. */
static pottle_status
scan(const char *text, const char **at, const measure_word *words,
     const char *wanted, double *out, pottle_error *error)
{
    pottle_range range = { 0, 0 };
    const pottle_status status = pottlei_number_scan(at, &range);
    if (status == POTTLE_EDOMAIN ||
        (status == POTTLE_OK && range.high > range.low))
        return pottlei_fail(error, POTTLE_EDOMAIN, "number-range",
                            "'%.60s' is not one number in range", text);
    if (status != POTTLE_OK)
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "no-number",
            "'%.60s' does not begin with a number such as 2, 1.5 or 1 1/2",
            text);
    while (**at == ' ')
        (*at)++;
    char word[16] = "";
    size_t n = 0;
    for (; n + 1 < sizeof word && (((*at)[n] >= 'a' && (*at)[n] <= 'z') ||
                                   ((*at)[n] >= 'A' && (*at)[n] <= 'Z'));
         n++)
        word[n] =
            (char)((*at)[n] >= 'A' && (*at)[n] <= 'Z' ? (*at)[n] - 'A' + 'a'
                                                      : (*at)[n]);
    for (size_t i = 0; words[i].word != NULL; i++)
        if (strcmp(word, words[i].word) == 0) {
            *at += n;
            while (**at == ' ')
                (*at)++;
            *out += range.low * words[i].factor;
            return POTTLE_OK;
        }
    return pottlei_fail(error, POTTLE_EUNIT, "unknown-unit",
                        "'%.60s' is not a %s", text, wanted);
}

static pottle_status
read_words(const char *text, const measure_word *words, size_t terms,
           const char *wanted, double *out, pottle_error *error)
{
    if (text == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no text or no place for the result");
    pottle_status status = pottlei_check_commas(text, error);
    if (status != POTTLE_OK)
        return status;
    const char *at = text;
    double sum = 0;
    for (size_t i = 0; i < terms && (i == 0 || *at != '\0'); i++) {
        status = scan(text, &at, words, wanted, &sum, error);
        if (status != POTTLE_OK)
            return status;
    }
    if (*at != '\0')
        return pottlei_fail(error, POTTLE_ESYNTAX, "more-text",
                            "'%.60s': what stands behind the %s is not read",
                            text, wanted);
    if (!(sum > 0 && sum <= POTTLE_NUMBER_MAX))
        return pottlei_fail(error, POTTLE_EDOMAIN, "number-range",
                            "'%.60s': it must be above 0", text);
    *out = sum;
    return POTTLE_OK;
}

pottle_status
pottle_power_read(const char *text, double *watt, pottle_error *error)
{
    static const measure_word words[] = {
        { "w", 1 },     { "watt", 1 },        { "watts", 1 },
        { "kw", 1000 }, { "kilowatt", 1000 }, { "kilowatts", 1000 },
        { NULL, 0 }
    };
    return read_words(text, words, 1, "power such as 2 kW or 1800 W", watt,
                      error);
}

pottle_status
pottle_minutes_read(const char *text, double *minutes, pottle_error *error)
{
    static const measure_word words[] = {
        { "min", 1 },
        { "mins", 1 },
        { "minute", 1 },
        { "minutes", 1 },
        { "h", 60 },
        { "hr", 60 },
        { "hour", 60 },
        { "hours", 60 },
        { "s", 1 / 60.0 },
        { "sec", 1 / 60.0 },
        { "second", 1 / 60.0 },
        { "seconds", 1 / 60.0 },
        { NULL, 0 },
    };
    return read_words(text, words, 3, "time such as 20 min or 1 h 15 min",
                      minutes, error);
}
