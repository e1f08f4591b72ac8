/* unit_name.c - the names of units, sorted, to search in.
 *
 * They are those of the table in unit.c, folded and singular; the test of units
 * goes through both. */
#include <config.h>

#include <string.h>

#include "internal.h"

static const struct {
    const char *name, *id;
} names[] = {
    { "%", "percent" },
    { "au tbsp", "au-tbsp" },
    { "australian tablespoon", "au-tbsp" },
    { "australian tbsp", "au-tbsp" },
    { "bag", "bag" },
    { "bar", "bar" },
    { "basket", "basket" },
    { "box", "box" },
    { "bu", "bushel" },
    { "bushel", "bushel" },
    { "c", "cup" },
    { "carton", "box" },
    { "cc", "ml" },
    { "celsius", "degc" },
    { "centiliter", "cl" },
    { "centilitre", "cl" },
    { "centimeter", "cm" },
    { "centimetre", "cm" },
    { "cl", "cl" },
    { "cm", "cm" },
    { "count", "count" },
    { "crate", "crate" },
    { "cup", "cup" },
    { "cupful", "cup" },
    { "deciliter", "dl" },
    { "decilitre", "dl" },
    { "deg c", "degc" },
    { "deg f", "degf" },
    { "degc", "degc" },
    { "degf", "degf" },
    { "degree c", "degc" },
    { "degree celsius", "degc" },
    { "degree f", "degf" },
    { "degree fahrenheit", "degf" },
    { "dl", "dl" },
    { "doz", "dozen" },
    { "dozen", "dozen" },
    { "dry pint", "dry-pint" },
    { "dry pt", "dry-pint" },
    { "dry qt", "dry-quart" },
    { "dry quart", "dry-quart" },
    { "each", "count" },
    { "fahrenheit", "degf" },
    { "feet", "ft" },
    { "fl oz", "fl-oz" },
    { "flat", "flat" },
    { "floz", "fl-oz" },
    { "fluid ounce", "fl-oz" },
    { "foot", "ft" },
    { "ft", "ft" },
    { "g", "g" },
    { "gal", "gal" },
    { "gallon", "gal" },
    { "gill", "gill" },
    { "gm", "g" },
    { "gram", "g" },
    { "gramme", "g" },
    { "half gallon", "pottle" },
    { "imp cup", "imp-cup" },
    { "imp fl oz", "imp-fl-oz" },
    { "imp gal", "imp-gal" },
    { "imp gallon", "imp-gal" },
    { "imp gill", "imp-gill" },
    { "imp pint", "imp-pt" },
    { "imp pt", "imp-pt" },
    { "imp qt", "imp-qt" },
    { "imp quart", "imp-qt" },
    { "imperial cup", "imp-cup" },
    { "imperial fl oz", "imp-fl-oz" },
    { "imperial fluid ounce", "imp-fl-oz" },
    { "imperial gallon", "imp-gal" },
    { "imperial gill", "imp-gill" },
    { "imperial pint", "imp-pt" },
    { "imperial quart", "imp-qt" },
    { "in", "in" },
    { "inch", "in" },
    { "kg", "kg" },
    { "kilo", "kg" },
    { "kilogram", "kg" },
    { "kilogramme", "kg" },
    { "kilometer", "km" },
    { "kilometre", "km" },
    { "kilopascal", "kpa" },
    { "km", "km" },
    { "kpa", "kpa" },
    { "l", "l" },
    { "lb", "lb" },
    { "lbs", "lb" },
    { "liquid pint", "pt" },
    { "liquid quart", "qt" },
    { "liter", "l" },
    { "litre", "l" },
    { "lug", "lug" },
    { "m", "m" },
    { "meter", "m" },
    { "metre", "m" },
    { "metric cup", "metric-cup" },
    { "metric tablespoon", "metric-tbsp" },
    { "metric tbsp", "metric-tbsp" },
    { "metric teaspoon", "metric-tsp" },
    { "metric tsp", "metric-tsp" },
    { "mg", "mg" },
    { "milligram", "mg" },
    { "milligramme", "mg" },
    { "milliliter", "ml" },
    { "millilitre", "ml" },
    { "millimeter", "mm" },
    { "millimetre", "mm" },
    { "ml", "ml" },
    { "mm", "mm" },
    { "ounce", "oz" },
    { "oz", "oz" },
    { "pa", "pa" },
    { "pascal", "pa" },
    { "peck", "peck" },
    { "per cent", "percent" },
    { "percent", "percent" },
    { "piece", "count" },
    { "pint", "pt" },
    { "pottle", "pottle" },
    { "pound", "lb" },
    { "pound per square inch", "psi" },
    { "psi", "psi" },
    { "pt", "pt" },
    { "punnet", "dry-pint" },
    { "qt", "qt" },
    { "quart", "qt" },
    { "sack", "sack" },
    { "st", "stone" },
    { "stone", "stone" },
    { "tablespoon", "tbsp" },
    { "tablespoonful", "tbsp" },
    { "tblsp", "tbsp" },
    { "tbs", "tbsp" },
    { "tbsp", "tbsp" },
    { "teaspoon", "tsp" },
    { "teaspoonful", "tsp" },
    { "tsp", "tsp" },
    { "uk cup", "imp-cup" },
    { "uk fl oz", "imp-fl-oz" },
    { "uk fluid ounce", "imp-fl-oz" },
    { "uk gallon", "imp-gal" },
    { "uk pint", "imp-pt" },
    { "uk quart", "imp-qt" },
    { "us cup", "cup" },
    { "us fluid ounce", "fl-oz" },
    { "us gallon", "gal" },
    { "us gill", "gill" },
    { "us pint", "pt" },
    { "us quart", "qt" },
    { "\xC2\xB0"
      "c",
      "degc" },
    { "\xC2\xB0"
      "f",
      "degf" },
};

enum { NAME_COUNT = sizeof names / sizeof names[0] };

/* First row that is not below the text. */
static size_t
lower_bound(const char *text)
{
    size_t low = 0, high = NAME_COUNT;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (strcmp(names[middle].name, text) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const char *
pottlei_unit_name_at(size_t i, const char **id)
{
    if (i >= NAME_COUNT)
        return NULL;
    *id = names[i].id;
    return names[i].name;
}

const char *
pottlei_unit_name_find(const char *folded)
{
    const size_t i = lower_bound(folded);
    return i < NAME_COUNT && strcmp(names[i].name, folded) == 0 ? names[i].id
                                                                : NULL;
}

bool
pottlei_unit_name_begins(const char *text)
{
    const size_t i = lower_bound(text);
    return i < NAME_COUNT && strncmp(names[i].name, text, strlen(text)) == 0;
}
