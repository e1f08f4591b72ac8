/* unit.c - units of measure and quantities.
 *
 * One table. Factors that a standard makes exact are written as the exact
 * number or as a quotient of exact numbers; `standard` says which standard.
 * Names are kept folded and singular, as pottlei_fold_singular leaves what a
 * person typed; unit_name.c has them all sorted. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "internal.h"

#define HB44                                                                   \
    "NIST Handbook 44, Appendix C: US gallon 231 in3, dry bushel 2150.42 in3"
#define YARD "international yard and pound agreement 1959"
#define UKWM "UK imperial gallon, 4.54609 L exactly"
#define SI "SI brochure"
#define METRIC                                                                 \
    "metric kitchen measures, 250 mL cup (Standards Association of Australia)"
#define KITCHEN "culinary convention, from memory"

#define US_GALLON 3785.411784
#define UK_GALLON 4546.09
#define DRY_BUSHEL (2150.42 * 16.387064)
#define POUND 453.59237

static const pottle_unit units[] = {
    { "g", "g", "g|gram|gramme|gm", POTTLE_MASS, 1.0, 0, SI },
    { "kg", "kg", "kg|kilogram|kilogramme|kilo", POTTLE_MASS, 1000.0, 0, SI },
    { "mg", "mg", "mg|milligram|milligramme", POTTLE_MASS, 0.001, 0, SI },
    { "oz", "oz", "oz|ounce", POTTLE_MASS, POUND / 16.0, 0, YARD },
    { "lb", "lb", "lb|lbs|pound", POTTLE_MASS, POUND, 0, YARD },
    { "stone", "st", "stone|st", POTTLE_MASS, 14.0 * POUND, 0, YARD },

    { "ml", "mL", "ml|millilitre|milliliter|cc", POTTLE_VOLUME, 1.0, 0, SI },
    { "cl", "cL", "cl|centilitre|centiliter", POTTLE_VOLUME, 10.0, 0, SI },
    { "dl", "dL", "dl|decilitre|deciliter", POTTLE_VOLUME, 100.0, 0, SI },
    { "l", "L", "l|litre|liter", POTTLE_VOLUME, 1000.0, 0, SI },
    { "tsp", "tsp", "tsp|teaspoon|teaspoonful", POTTLE_VOLUME,
      US_GALLON / 768.0, 0, HB44 },
    { "tbsp", "tbsp", "tbsp|tblsp|tbs|tablespoon|tablespoonful", POTTLE_VOLUME,
      US_GALLON / 256.0, 0, HB44 },
    { "fl-oz", "fl oz", "fl oz|floz|fluid ounce|us fluid ounce", POTTLE_VOLUME,
      US_GALLON / 128.0, 0, HB44 },
    { "cup", "cup", "cup|c|us cup|cupful", POTTLE_VOLUME, US_GALLON / 16.0, 0,
      HB44 },
    { "pt", "pt", "pt|pint|us pint|liquid pint", POTTLE_VOLUME, US_GALLON / 8.0,
      0, HB44 },
    { "qt", "qt", "qt|quart|us quart|liquid quart", POTTLE_VOLUME,
      US_GALLON / 4.0, 0, HB44 },
    { "gal", "gal", "gal|gallon|us gallon", POTTLE_VOLUME, US_GALLON, 0, HB44 },
    { "gill", "gill", "gill|us gill", POTTLE_VOLUME, US_GALLON / 32.0, 0,
      HB44 },
    { "pottle", "pottle", "pottle|half gallon", POTTLE_VOLUME, US_GALLON / 2.0,
      0, HB44 },
    { "imp-fl-oz", "imp fl oz",
      "imp fl oz|imperial fl oz|imperial fluid ounce|uk fluid ounce|uk fl oz",
      POTTLE_VOLUME, UK_GALLON / 160.0, 0, UKWM },
    { "imp-gill", "imp gill", "imp gill|imperial gill", POTTLE_VOLUME,
      UK_GALLON / 32.0, 0, UKWM },
    { "imp-pt", "imp pt", "imp pt|imperial pint|imp pint|uk pint",
      POTTLE_VOLUME, UK_GALLON / 8.0, 0, UKWM },
    { "imp-qt", "imp qt", "imp qt|imperial quart|imp quart|uk quart",
      POTTLE_VOLUME, UK_GALLON / 4.0, 0, UKWM },
    { "imp-gal", "imp gal", "imp gal|imperial gallon|imp gallon|uk gallon",
      POTTLE_VOLUME, UK_GALLON, 0, UKWM },
    { "imp-cup", "imp cup", "imp cup|imperial cup|uk cup", POTTLE_VOLUME,
      UK_GALLON / 16.0, 0, KITCHEN },
    { "metric-cup", "metric cup", "metric cup", POTTLE_VOLUME, 250.0, 0,
      METRIC },
    { "metric-tbsp", "metric tbsp", "metric tbsp|metric tablespoon",
      POTTLE_VOLUME, 15.0, 0, KITCHEN },
    { "au-tbsp", "au tbsp", "au tbsp|australian tablespoon|australian tbsp",
      POTTLE_VOLUME, 20.0, 0, METRIC },
    { "metric-tsp", "metric tsp", "metric tsp|metric teaspoon", POTTLE_VOLUME,
      5.0, 0, METRIC },

    { "mm", "mm", "mm|millimetre|millimeter", POTTLE_LENGTH, 1.0, 0, SI },
    { "cm", "cm", "cm|centimetre|centimeter", POTTLE_LENGTH, 10.0, 0, SI },
    { "m", "m", "m|metre|meter", POTTLE_LENGTH, 1000.0, 0, SI },
    { "km", "km", "km|kilometre|kilometer", POTTLE_LENGTH, 1e6, 0, SI },
    { "in", "in", "in|inch", POTTLE_LENGTH, 25.4, 0, YARD },
    { "ft", "ft", "ft|foot|feet", POTTLE_LENGTH, 304.8, 0, YARD },

    { "pa", "Pa", "pa|pascal", POTTLE_PRESSURE, 1.0, 0, SI },
    { "kpa", "kPa", "kpa|kilopascal", POTTLE_PRESSURE, 1000.0, 0, SI },
    { "bar", "bar", "bar", POTTLE_PRESSURE, 1e5, 0, SI },
    { "psi", "psi", "psi|pound per square inch", POTTLE_PRESSURE,
      POUND * 9.80665 / 1000.0 / (0.0254 * 0.0254), 0,
      "lbf/in2 by " YARD " and standard gravity 9.80665 m/s2" },

    { "degc", "deg C",
      "degc|deg c|degree c|degree celsius|celsius|\xC2\xB0"
      "c",
      POTTLE_TEMPERATURE, 1.0, 0, SI },
    { "degf", "deg F",
      "degf|deg f|degree f|degree fahrenheit|fahrenheit|\xC2\xB0"
      "f",
      POTTLE_TEMPERATURE, 5.0 / 9.0, -160.0 / 9.0, "t_C = (t_F - 32) / 1.8" },

    { "count", "", "count|piece|each", POTTLE_COUNT, 1.0, 0, "a count" },
    { "dozen", "dozen", "dozen|doz", POTTLE_COUNT, 12.0, 0, "a count" },

    { "bushel", "bushel", "bushel|bu", POTTLE_CONTAINER, DRY_BUSHEL, 0, HB44 },
    { "peck", "peck", "peck", POTTLE_CONTAINER, DRY_BUSHEL / 4.0, 0, HB44 },
    { "dry-quart", "dry qt", "dry quart|dry qt", POTTLE_CONTAINER,
      DRY_BUSHEL / 32.0, 0, HB44 },
    { "dry-pint", "dry pt", "dry pint|dry pt|punnet", POTTLE_CONTAINER,
      DRY_BUSHEL / 64.0, 0, HB44 },
    { "lug", "lug", "lug", POTTLE_CONTAINER, 0, 0, "by the food" },
    { "flat", "flat", "flat", POTTLE_CONTAINER, 0, 0, "by the food" },
    { "crate", "crate", "crate", POTTLE_CONTAINER, 0, 0, "by the food" },
    { "box", "box", "box|carton", POTTLE_CONTAINER, 0, 0, "by the food" },
    { "bag", "bag", "bag", POTTLE_CONTAINER, 0, 0, "by the food" },
    { "sack", "sack", "sack", POTTLE_CONTAINER, 0, 0, "by the food" },
    { "basket", "basket", "basket", POTTLE_CONTAINER, 0, 0, "by the food" },

    { "percent", "%", "percent|%|per cent", POTTLE_NUMBER, 0.01, 0, "a ratio" },
};

enum { UNIT_COUNT = sizeof units / sizeof units[0], LONGEST_NAME = 64 };

const char *
pottle_dimension_name(int dimension)
{
    switch (dimension) {
    case POTTLE_NUMBER: return "a plain number";
    case POTTLE_MASS: return "a mass";
    case POTTLE_VOLUME: return "a volume";
    case POTTLE_LENGTH: return "a length";
    case POTTLE_PRESSURE: return "a pressure";
    case POTTLE_TEMPERATURE: return "a temperature";
    case POTTLE_COUNT: return "a count";
    case POTTLE_CONTAINER: return "a container";
    default: return "something unknown";
    }
}

const pottle_unit *
pottle_unit_at(size_t i)
{
    return i < UNIT_COUNT ? &units[i] : NULL;
}

static const pottle_unit *
named(const char *folded)
{
    const char *id = pottlei_unit_name_find(folded);
    for (size_t i = 0; id != NULL && i < UNIT_COUNT; i++)
        if (units[i].id[0] == id[0] && strcmp(units[i].id, id) == 0)
            return &units[i];
    return NULL;
}

/* Folds the first n bytes of a name; points only mark what is short: fl. oz.,
 * tsp. False when it is longer than any name. */
static bool
fold_name(const char *name, size_t n, char folded[LONGEST_NAME])
{
    if (n >= LONGEST_NAME)
        return false;
    char plain[LONGEST_NAME];
    size_t k = 0;
    for (size_t i = 0; i < n; i++)
        if (name[i] != '.')
            plain[k++] = name[i];
    plain[k] = '\0';
    /* the one place where case matters: T is a tablespoon, t a teaspoon */
    if (k == 1 && (plain[0] == 'T' || plain[0] == 't'))
        pottlei_copy(folded, LONGEST_NAME, plain[0] == 'T' ? "tbsp" : "tsp");
    else
        pottlei_fold_singular(plain, folded, LONGEST_NAME);
    return true;
}

static const pottle_unit *
find(const char *name, size_t length)
{
    char folded[LONGEST_NAME];
    if (!fold_name(name, length, folded) || folded[0] == '\0')
        return NULL;
    const pottle_unit *unit = named(folded);
    const size_t n = strlen(folded);
    /* pts, fl ozs: a word of three letters is left alone when made singular */
    if (unit == NULL && n >= 3 && folded[n - 1] == 's' &&
        (n == 3 || folded[n - 4] == ' ')) {
        folded[n - 1] = '\0';
        unit = named(folded);
    }
    return unit;
}

const pottle_unit *
pottle_unit_find(const char *name)
{
    return name == NULL ? NULL : find(name, strlen(name));
}

/* Whether some name has more words than this first one. */
static bool
begins_longer(const char *word, size_t length)
{
    char folded[LONGEST_NAME + 1];
    if (!fold_name(word, length, folded))
        return false;
    const size_t n = strlen(folded);
    if (n == 0)
        return true; /* a dash says nothing, so the next words do */
    memcpy(folded + n, " ", 2);
    return pottlei_unit_name_begins(folded);
}

const pottle_unit *
pottlei_unit_scan(const char **text)
{
    const char *s = *text;
    while (*s == ' ' || *s == '\t')
        s++;
    /* ends of the first words, as many as the longest name has: pound per
     * square inch */
    enum { WORDS = 4 };
    const char *end[WORDS] = { s };
    size_t words = 0;
    for (const char *p = s; words < WORDS && *p != '\0' && *p != ',';) {
        while (*p != '\0' && *p != ' ' && *p != '\t' && *p != ',')
            p++;
        end[words++] = p;
        while (*p == ' ' || *p == '\t')
            p++;
    }
    if (words > 1 && !begins_longer(s, (size_t)(end[0] - s)))
        words = 1;
    for (; words > 0; words--) {
        const pottle_unit *unit = find(s, (size_t)(end[words - 1] - s));
        if (unit != NULL) {
            *text = end[words - 1];
            return unit;
        }
    }
    return NULL;
}

pottle_status
pottlei_check_commas(const char *text, pottle_error *error)
{
    for (const char *s = strchr(text, ','); s != NULL; s = strchr(s + 1, ','))
        if (s > text && s[-1] >= '0' && s[-1] <= '9' && s[1] >= '0' &&
            s[1] <= '9')
            return pottlei_fail(error, POTTLE_ESYNTAX, "comma",
                                "'%.60s': a comma inside a number is not "
                                "read; write 1.5 or 1500",
                                text);
    return POTTLE_OK;
}

pottle_status
pottle_quantity_read(const char *text, int dimension, pottle_quantity *out,
                     pottle_error *error)
{
    if (text == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no text or no place for the result");
    pottle_status status = pottlei_check_commas(text, error);
    if (status != POTTLE_OK)
        return status;
    const char *s = text;
    pottle_range range = { 0, 0 };
    status = pottlei_number_scan(&s, &range);
    if (status == POTTLE_EDOMAIN)
        return pottlei_fail(error, status, "number-range",
                            "'%.60s': the number is out of range", text);
    if (status != POTTLE_OK)
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "no-number",
            "'%.60s' does not begin with a number such as 3, 3.5, 1/2 or 3 1/2",
            text);
    const pottle_unit *unit = pottlei_unit_scan(&s);
    while (*s == ' ' || *s == '\t')
        s++;
    if (unit == NULL || *s != '\0')
        return pottlei_fail(error, POTTLE_EUNIT, "unknown-unit",
                            "'%.60s' has no unit that is known", text);
    if (dimension >= 0 && (int)unit->dimension != dimension)
        return pottlei_fail(error, POTTLE_EUNIT, "dimension",
                            "'%.60s' is %s, but %s is wanted", text,
                            pottle_dimension_name((int)unit->dimension),
                            pottle_dimension_name(dimension));
    out->low = range.low;
    out->high = range.high;
    out->unit = unit;
    return POTTLE_OK;
}

pottle_status
pottle_unit_convert(double value, const pottle_unit *from,
                    const pottle_unit *to, double *out, pottle_error *error)
{
    if (from == NULL || to == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no unit or no place for the result");
    if (!isfinite(value))
        return pottlei_fail(error, POTTLE_EDOMAIN, "not-finite",
                            "the value is not a finite number");
    if (from->dimension != to->dimension)
        return pottlei_fail(error, POTTLE_EUNIT, "dimension",
                            "%s is %s, %s is %s", from->id,
                            pottle_dimension_name((int)from->dimension), to->id,
                            pottle_dimension_name((int)to->dimension));
    if (from != to && !(from->factor > 0 && to->factor > 0))
        return pottlei_fail(error, POTTLE_EUNIT, "dimension",
                            "%s and %s are containers without a fixed size",
                            from->id, to->id);
    const double result =
        from == to
            ? value
            : (value * from->factor + from->offset - to->offset) / to->factor;
    if (!isfinite(result))
        return pottlei_fail(error, POTTLE_EDOMAIN, "not-finite",
                            "the result is not a finite number");
    *out = result;
    return POTTLE_OK;
}
