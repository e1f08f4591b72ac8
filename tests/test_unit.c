/* test_unit.c - units: factors against their standards and two reference
 * programs, names, quantities, conversion. */
#include <config.h>

#include <check.h>
#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#ifdef HAVE_UDUNITS2
#include <sys/types.h>
#include <sys/wait.h>
#include <udunits2.h>
#include <unistd.h>
#endif

#include "internal.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static bool
near(double a, double b, double relative)
{
    return fabs(a - b) <= relative * fabs(b);
}

static const pottle_unit *
unit(const char *name)
{
    const pottle_unit *found = pottle_unit_find(name);
    ck_assert_msg(found != NULL, "no unit '%s'", name);
    return found;
}

/* -- Factors --------------------------------------------------------------- */

/* Exact values, from definitions: 231 in3, 2150.42 in3, 4.54609 L, 0.45359237
 * kg, 25.4 mm. A double holds them to half a unit in the last place; a quotient
 * and a product add as much again. */
#define HB44 "NIST Handbook 44 Appendix C; NIST SP 811"
#define UK "UK imperial gallon = 4.54609 L exactly"
#define YARD "international yard and pound agreement 1959"
#define AU "Standards Association of Australia metric measures"
#define KITCHEN "culinary convention"

static const struct {
    const char *unit;
    double factor, relative;
    const char *source;
} factors[] = {
    { "gallon", 3785.411784, 4e-16, HB44 },
    { "half gallon", 1892.705892, 4e-16, HB44 },
    { "quart", 946.352946, 4e-16, HB44 },
    { "pint", 473.176473, 4e-16, HB44 },
    { "cup", 236.5882365, 4e-16, HB44 },
    { "gill", 118.29411825, 4e-16, HB44 },
    { "fluid ounce", 29.5735295625, 4e-16, HB44 },
    { "tablespoon", 14.78676478125, 4e-16, HB44 },
    { "teaspoon", 4.92892159375, 4e-16, HB44 },
    { "bushel", 35239.07016688, 4e-16, HB44 },
    { "peck", 8809.76754172, 4e-16, HB44 },
    { "dry quart", 1101.220942715, 4e-16, HB44 },
    { "dry pint", 550.6104713575, 4e-16, HB44 },
    { "imperial gallon", 4546.09, 4e-16, UK },
    { "imperial quart", 1136.5225, 4e-16, UK },
    { "imperial pint", 568.26125, 4e-16, UK },
    { "imperial gill", 142.0653125, 4e-16, UK },
    { "imperial fluid ounce", 28.4130625, 4e-16, UK },
    { "imperial cup", 284.130625, 4e-16, KITCHEN ", 1/16 imperial gallon" },
    { "metric cup", 250, 0, AU },
    { "australian tablespoon", 20, 0, AU },
    { "metric teaspoon", 5, 0, AU },
    { "metric tablespoon", 15, 0, KITCHEN },
    { "pound", 453.59237, 4e-16, YARD },
    { "ounce", 28.349523125, 4e-16, YARD },
    { "stone", 6350.29318, 4e-16, YARD },
    { "g", 1, 0, "SI" },
    { "kg", 1000, 0, "SI" },
    { "mg", 0.001, 0, "SI" },
    { "ml", 1, 0, "SI" },
    { "cl", 10, 0, "SI" },
    { "dl", 100, 0, "SI" },
    { "litre", 1000, 0, "SI (CGPM 1964)" },
    { "mm", 1, 0, "SI" },
    { "cm", 10, 0, "SI" },
    { "m", 1000, 0, "SI" },
    { "km", 1e6, 0, "SI" },
    { "inch", 25.4, 0, "NIST SP 811" },
    { "foot", 304.8, 0, "NIST SP 811" },
    { "pascal", 1, 0, "SI" },
    { "kpa", 1000, 0, "SI" },
    { "bar", 100000, 0, "NIST SP 811" },
    /* 0.45359237 kg x 9.80665 m/s2 = 4.4482216152605 N, over 6.4516e-4 m2;
       printed to 13 digits */
    { "psi", 6894.757293168, 5e-10 / 6894.757293168, "NIST SP 811" },
    { "dozen", 12, 0, "a dozen" },
    { "count", 1, 0, "a piece" },
    { "percent", 0.01, 0, "a hundredth" },
};

START_TEST(factor_is_that_of_its_standard)
{
    const pottle_unit *u = unit(factors[_i].unit);
    ck_assert_msg(near(u->factor, factors[_i].factor, factors[_i].relative),
                  "%s: %.17g, but %s has %.17g", factors[_i].unit, u->factor,
                  factors[_i].source, factors[_i].factor);
}
END_TEST

/* Every unit of the table with a fixed size stands in the list above, or is a
 * temperature. */
START_TEST(every_factor_is_checked)
{
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++) {
        const pottle_unit *u = pottle_unit_at(i);
        bool checked = u->dimension == POTTLE_TEMPERATURE || !(u->factor > 0);
        for (size_t k = 0; k < COUNT(factors); k++)
            checked = checked || unit(factors[k].unit) == u;
        ck_assert_msg(checked, "%s", u->id);
    }
}
END_TEST

#ifdef HAVE_UDUNITS2
/* What UDUNITS-2 calls them. Its database keeps 7 digits where the exact value
 * has more, so half a unit of the seventh is allowed: 5e-7. */
static const struct {
    const char *unit, *theirs, *their_base;
} udunits[] = {
    { "gal", "US_liquid_gallon", "mL" },
    { "qt", "US_liquid_quart", "mL" },
    { "pt", "US_liquid_pint", "mL" },
    { "cup", "US_liquid_cup", "mL" },
    { "gill", "US_liquid_gill", "mL" },
    { "fl oz", "US_fluid_ounce", "mL" },
    { "tbsp", "tablespoon", "mL" },
    { "tsp", "teaspoon", "mL" },
    { "imp gal", "UK_liquid_gallon", "mL" },
    { "imp qt", "UK_liquid_quart", "mL" },
    { "imp pt", "UK_liquid_pint", "mL" },
    { "imp cup", "UK_liquid_cup", "mL" },
    { "imp gill", "UK_liquid_gill", "mL" },
    { "imp fl oz", "UK_fluid_ounce", "mL" },
    { "bushel", "bushel", "mL" },
    { "peck", "peck", "mL" },
    { "dry quart", "US_dry_quart", "mL" },
    { "dry pint", "US_dry_pint", "mL" },
    { "l", "litre", "mL" },
    { "lb", "pound", "g" },
    { "oz", "avoirdupois_ounce", "g" },
    { "kg", "kg", "g" },
    { "in", "inch", "mm" },
    { "ft", "international_foot", "mm" },
    { "psi", "psi", "Pa" },
    { "bar", "bar", "Pa" },
    { "deg F", "degF", "degC" },
};

static const double udunits_values[] = { 1, 2.5, 212, 1e6 };
static double udunits_answers[COUNT(udunits)][COUNT(
    udunits_values)]; /* NAN where it has no answer */

/* Asks for all of them; false when UDUNITS-2 has no database here. It never
 * frees its table of prefixes, so it is asked in a child, which becomes another
 * program before a leak check sees that. */
static bool
ask_udunits(void)
{
    int end[2];
    if (pipe(end) != 0)
        return false;
    fflush(NULL);
    const pid_t child = fork();
    if (child == 0) {
        ut_set_error_message_handler(ut_ignore);
        ut_system *system = ut_read_xml(NULL);
        for (size_t i = 0; system != NULL && i < COUNT(udunits); i++) {
            ut_unit *from = ut_parse(system, udunits[i].theirs, UT_ASCII);
            ut_unit *to = ut_parse(system, udunits[i].their_base, UT_ASCII);
            cv_converter *converter =
                from == NULL || to == NULL ? NULL : ut_get_converter(from, to);
            for (size_t k = 0; k < COUNT(udunits_values); k++)
                udunits_answers[i][k] =
                    converter == NULL
                        ? (double)NAN
                        : cv_convert_double(converter, udunits_values[k]);
        }
        if (system != NULL &&
            write(end[1], udunits_answers, sizeof udunits_answers) < 0)
            perror("write");
        execlp("true", "true", (char *)NULL);
        _exit(0);
    }
    close(end[1]);
    size_t n = 0;
    for (ssize_t k = 1;
         k > 0 && n<sizeof udunits_answers; n += k> 0 ? (size_t)k : 0)
        k = read(end[0], (char *)udunits_answers + n,
                 sizeof udunits_answers - n);
    close(end[0]);
    if (child > 0)
        waitpid(child, NULL, 0);
    return n == sizeof udunits_answers;
}

START_TEST(udunits_agrees)
{
    const pottle_unit *u = unit(udunits[_i].unit), *base = u;
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++)
        if (pottle_unit_at(i)->dimension == u->dimension &&
            near(pottle_unit_at(i)->factor, 1, 0) &&
            near(pottle_unit_at(i)->offset, 0, 0))
            base = pottle_unit_at(i);
    for (size_t k = 0; k < COUNT(udunits_values); k++) {
        const double theirs = udunits_answers[_i][k];
        ck_assert_msg(isfinite(theirs), "UDUNITS-2 has no %s",
                      udunits[_i].theirs);
        double ours = -1;
        if (u->dimension == POTTLE_CONTAINER)
            ours = udunits_values[k] *
                   u->factor; /* mL, but no unit of this dimension */
        else
            ck_assert_int_eq(
                pottle_unit_convert(udunits_values[k], u, base, &ours, NULL),
                POTTLE_OK);
        ck_assert_msg(near(ours, theirs, 5e-7),
                      "%g %s: %.12g, UDUNITS-2 has %.12g", udunits_values[k],
                      u->id, ours, theirs);
    }
}
END_TEST
#endif

/* What GNU units calls them. It prints 15 digits here. */
static const struct {
    const char *unit, *theirs, *their_base;
} gnu_units[] = {
    { "gal", "usgallon", "ml" },
    { "qt", "usquart", "ml" },
    { "pt", "uspint", "ml" },
    { "cup", "uscup", "ml" },
    { "gill", "usgill", "ml" },
    { "fl oz", "usfloz", "ml" },
    { "tbsp", "ustablespoon", "ml" },
    { "tsp", "usteaspoon", "ml" },
    { "imp gal", "brgallon", "ml" },
    { "imp qt", "brquart", "ml" },
    { "imp pt", "brpint", "ml" },
    { "imp gill", "brgill", "ml" },
    { "imp fl oz", "brfloz", "ml" },
    { "imp cup", "brcup", "ml" },
    { "metric cup", "metriccup", "ml" },
    { "au tbsp", "australiatablespoon", "ml" },
    { "bushel", "bushel", "ml" },
    { "peck", "peck", "ml" },
    { "dry quart", "dryquart", "ml" },
    { "dry pint", "drypint", "ml" },
    { "cl", "cl", "ml" },
    { "dl", "dl", "ml" },
    { "l", "liter", "ml" },
    { "lb", "pound", "g" },
    { "oz", "ounce", "g" },
    { "stone", "stone", "g" },
    { "kg", "kg", "g" },
    { "mg", "mg", "g" },
    { "in", "inch", "mm" },
    { "ft", "foot", "mm" },
    { "cm", "cm", "mm" },
    { "km", "km", "mm" },
    { "psi", "psi", "Pa" },
    { "bar", "bar", "Pa" },
    { "kpa", "kPa", "Pa" },
    { "dozen", "dozen", "1" },
    { "percent", "percent", "1" },
};

/* What the program answers; false when it does not answer with a number. */
static bool
ask_gnu_units(const char *have, const char *want, double *out)
{
    char command[160], answer[160] = "";
    snprintf(command, sizeof command,
             "LC_ALL=C units -t -d 15 '%s' '%s' 2>/dev/null", have, want);
    FILE *pipe = popen(command, "r");
    if (pipe == NULL)
        return false;
    const bool read = fgets(answer, (int)sizeof answer, pipe) != NULL;
    pclose(pipe);
    char *end = answer;
    *out = strtod(answer, &end);
    return read && end != answer && (*end == '\n' || *end == '\0');
}

START_TEST(gnu_units_agrees)
{
    double theirs = 0;
    ck_assert_msg(
        ask_gnu_units(gnu_units[_i].theirs, gnu_units[_i].their_base, &theirs),
        "no answer for %s", gnu_units[_i].theirs);
    const double ours = unit(gnu_units[_i].unit)->factor;
    ck_assert_msg(near(ours, theirs, 5e-15), "%s: %.17g, GNU units has %.17g",
                  gnu_units[_i].unit, ours, theirs);
}
END_TEST

static const double fahrenheit[] = { -40, 0, 32, 98.6, 180, 212, 220, 240 };

START_TEST(gnu_units_agrees_on_temperatures)
{
    char have[40];
    snprintf(have, sizeof have, "tempF(%g)", fahrenheit[_i]);
    double theirs = 0, ours = 0;
    ck_assert(ask_gnu_units(have, "tempC", &theirs));
    ck_assert_int_eq(pottle_unit_convert(fahrenheit[_i], unit("degf"),
                                         unit("degc"), &ours, NULL),
                     POTTLE_OK);
    ck_assert_msg(fabs(ours - theirs) <= 1e-12,
                  "%s: %.17g, GNU units has %.17g", have, ours, theirs);
}
END_TEST

/* -- The table ------------------------------------------------------------- */

START_TEST(table_is_sound)
{
    size_t n = 0;
    for (; pottle_unit_at(n) != NULL; n++) {
        const pottle_unit *u = pottle_unit_at(n);
        ck_assert_ptr_nonnull(u->id);
        ck_assert_ptr_nonnull(u->symbol);
        ck_assert_ptr_nonnull(u->names);
        ck_assert_ptr_nonnull(u->standard);
        ck_assert_uint_gt(strlen(u->standard), 0);
        ck_assert(u->factor >= 0);
        ck_assert(u->factor > 0 || u->dimension == POTTLE_CONTAINER);
        ck_assert(u->dimension == POTTLE_TEMPERATURE || near(u->offset, 0, 0));
        for (size_t k = 0; k < n; k++)
            ck_assert_str_ne(u->id, pottle_unit_at(k)->id);
    }
    ck_assert_uint_gt(n, 50);
    ck_assert_ptr_null(pottle_unit_at(n));
    ck_assert_ptr_null(pottle_unit_at(SIZE_MAX));
}
END_TEST

/* Every unit answers to its id, its symbol and each of its names: as written,
 * in capitals, with an s or a point behind; and no other unit answers to them.
 */
START_TEST(every_name_finds_its_unit)
{
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++) {
        const pottle_unit *u = pottle_unit_at(i);
        ck_assert_msg(pottle_unit_find(u->id) == u, "id %s", u->id);
        ck_assert_msg(u->symbol[0] == '\0' || pottle_unit_find(u->symbol) == u,
                      "symbol %s", u->symbol);
        for (const char *s = u->names; *s != '\0';) {
            const size_t n = strcspn(s, "|");
            char name[80];
            ck_assert_uint_lt(n + 3, sizeof name);
            memcpy(name, s, n);
            name[n] = '\0';
            ck_assert_msg(pottle_unit_find(name) == u, "%s: name %s", u->id,
                          name);
            memcpy(name + n, ".", 2);
            ck_assert_msg(pottle_unit_find(name) == u, "%s: name %s", u->id,
                          name);
            /* (psi has no plural, and degrees have theirs inside) */
            if (n > 1 && name[n - 1] >= 'a' && name[n - 1] <= 'z' &&
                name[n - 1] != 'i' && u->dimension != POTTLE_TEMPERATURE) {
                memcpy(name + n,
                       name[n - 1] == 'h' || name[n - 1] == 'x' ? "es" : "s",
                       name[n - 1] == 'h' || name[n - 1] == 'x' ? 3 : 2);
                ck_assert_msg(name[n - 1] == 's' || pottle_unit_find(name) == u,
                              "%s: plural %s", u->id, name);
            }
            name[n] = '\0';
            for (size_t k = 0; k < n && n > 1; k++)
                if (name[k] >= 'a' && name[k] <= 'z')
                    name[k] = (char)(name[k] - 'a' + 'A');
            ck_assert_msg(pottle_unit_find(name) == u, "%s: capitals %s", u->id,
                          name);
            s += n + (s[n] == '|');
        }
    }
}
END_TEST

/* The sorted names are in order, and each stands in the list of its unit. */
START_TEST(sorted_names_are_those_of_the_units)
{
    const char *id = NULL, *before = "";
    size_t n = 0, listed = 0;
    for (const char *name; (name = pottlei_unit_name_at(n, &id)) != NULL; n++) {
        ck_assert_msg(strcmp(before, name) < 0, "%s behind %s", name, before);
        before = name;
        const pottle_unit *u = pottle_unit_find(name);
        ck_assert_msg(u != NULL && strcmp(u->id, id) == 0, "%s", name);
        char wanted[80], among[400];
        snprintf(wanted, sizeof wanted, "|%s|", name);
        snprintf(among, sizeof among, "|%s|", u->names);
        ck_assert_msg(strstr(among, wanted) != NULL, "%s: %s", id, name);
    }
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++) {
        listed++;
        for (const char *s = pottle_unit_at(i)->names; *s != '\0'; s++)
            listed += *s == '|';
    }
    ck_assert_uint_eq(n, listed);
}
END_TEST

static const struct {
    const char *name, *id;
} finds[] = {
    { "T", "tbsp" },
    { "t", "tsp" },
    { "T.", "tbsp" },
    { "t.", "tsp" },
    { "C", "cup" },
    { "Tbsp.", "tbsp" },
    { "TBSP", "tbsp" },
    { "Tsps.", "tsp" },
    { "fl. oz.", "fl-oz" },
    { "Fl-Oz", "fl-oz" },
    { "fluid ounces", "fl-oz" },
    { "cups.", "cup" },
    { "lbs.", "lb" },
    { "pts", "pt" },
    { "qts.", "qt" },
    { "ozs", "oz" },
    { "inches", "in" },
    { "feet", "ft" },
    { "boxes", "box" },
    { "bushels", "bushel" },
    { "half-gallons", "pottle" },
    { "pounds per square inch", "psi" },
    { "p.s.i.", "psi" },
    { "\xC2\xB0"
      "C",
      "degc" },
    { "\xC2\xB0"
      "F",
      "degf" },
    { "degrees C", "degc" },
    { "degrees Fahrenheit", "degf" },
    { "%", "percent" },
    { "  dry   PINTS ", "dry-pint" },
    { "Litre", "l" },
    { "liters", "l" },
};

START_TEST(finds_what_people_write)
{
    ck_assert_msg(pottle_unit_find(finds[_i].name) == unit(finds[_i].id), "%s",
                  finds[_i].name);
}
END_TEST

static const char *const unknown[] = {
    "",
    " ",
    ".",
    "...",
    "furlong",
    "cupp",
    "|",
    "g|kg",
    "kg|",
    "pint of",
    "s",
    "ss",
    "a",
    "handful",
    "\xFF",
    "\xC2\xB0",
    "gggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg",
    "ggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg",
    "cup                                                              ",
};

START_TEST(unknown_units_are_not_found)
{
    ck_assert_ptr_null(pottle_unit_find(unknown[_i]));
}
END_TEST

START_TEST(null_is_no_unit) { ck_assert_ptr_null(pottle_unit_find(NULL)); }
END_TEST

START_TEST(dimension_names_are_total)
{
    for (int d = POTTLE_NUMBER; d <= POTTLE_CONTAINER; d++)
        for (int k = POTTLE_NUMBER; k < d; k++)
            ck_assert_str_ne(pottle_dimension_name(d),
                             pottle_dimension_name(k));
    ck_assert_str_eq(pottle_dimension_name(-1), "something unknown");
    ck_assert_str_eq(pottle_dimension_name(POTTLE_CONTAINER + 1),
                     "something unknown");
    ck_assert_str_eq(pottle_dimension_name(POTTLE_MASS), "a mass");
}
END_TEST

/* -- Scanning and quantities ----------------------------------------------- */

static const struct {
    const char *text, *id, *rest;
} scans[] = {
    { "cups sugar", "cup", " sugar" },
    { " cups sugar", "cup", " sugar" },
    { "\tcup\tsugar", "cup", "\tsugar" },
    { "-oz jar", "oz", " jar" },
    { "fl oz of juice", "fl-oz", " of juice" },
    { "fluid ounces juice", "fl-oz", " juice" },
    { "imperial fluid ounces", "imp-fl-oz", "" },
    { "pounds per square inch", "psi", "" },
    { "pounds per square foot", "lb", " per square foot" },
    { "dry pints, level", "dry-pint", ", level" },
    { "kg,", "kg", "," },
    { "T butter", "tbsp", " butter" },
    { "t salt", "tsp", " salt" },
    { "gallons", "gal", "" },
    { "apples", NULL, "apples" },
    { "", NULL, "" },
    { ", cup", NULL, ", cup" },
    { "cupful of", "cup", " of" },
    { "lbsugar", NULL, "lbsugar" },
};

START_TEST(scan)
{
    const char *at = scans[_i].text;
    const pottle_unit *u = pottlei_unit_scan(&at);
    ck_assert_msg(u == (scans[_i].id == NULL ? NULL : unit(scans[_i].id)),
                  "'%s' gives %s", scans[_i].text, u == NULL ? "none" : u->id);
    ck_assert_str_eq(at, scans[_i].rest);
}
END_TEST

static const struct {
    const char *text;
    int dimension;
    double low, high;
    const char *id;
} quantities[] = {
    { "3 1/2 cups", POTTLE_VOLUME, 3.5, 3.5, "cup" },
    { "3-1/2 cups", -1, 3.5, 3.5, "cup" },
    { "3\xC2\xBD"
      "cups",
      -1, 3.5, 3.5, "cup" },
    { "1900 m", POTTLE_LENGTH, 1900, 1900, "m" },
    { "6200 ft", POTTLE_LENGTH, 6200, 6200, "ft" },
    { "2-3 lb", POTTLE_MASS, 2, 3, "lb" },
    { "2 to 3 lbs.", POTTLE_MASS, 2, 3, "lb" },
    { "1.2 kg", POTTLE_MASS, 1.2, 1.2, "kg" },
    { "1.2kg", -1, 1.2, 1.2, "kg" },
    { "1/4 in", POTTLE_LENGTH, 0.25, 0.25, "in" },
    { "1/4-inch", POTTLE_LENGTH, 0.25, 0.25, "in" },
    { "12-oz", POTTLE_MASS, 12, 12, "oz" },
    { "12 fl. oz.", POTTLE_VOLUME, 12, 12, "fl-oz" },
    { "3\xC2\xA0"
      "cups",
      -1, 3, 3, "cup" },
    { "3\xE2\x80\x89kg ", -1, 3, 3, "kg" },
    { "500 ml", POTTLE_VOLUME, 500, 500, "ml" },
    { "5 %", POTTLE_NUMBER, 5, 5, "percent" },
    { "220\xC2\xB0"
      "F",
      POTTLE_TEMPERATURE, 220, 220, "degf" },
    { "11 psi", POTTLE_PRESSURE, 11, 11, "psi" },
    { "2 bushels", POTTLE_CONTAINER, 2, 2, "bushel" },
    { "2 dozen", POTTLE_COUNT, 2, 2, "dozen" },
    { "0 m", POTTLE_LENGTH, 0, 0, "m" },
};

START_TEST(quantity)
{
    pottle_quantity q = { -1, -1, NULL };
    pottle_error error = { .code = "untouched" };
    ck_assert_msg(pottle_quantity_read(quantities[_i].text,
                                       quantities[_i].dimension, &q,
                                       &error) == POTTLE_OK,
                  "'%s': %s", quantities[_i].text, error.what);
    ck_assert_msg(near(q.low, quantities[_i].low, 0) &&
                      near(q.high, quantities[_i].high, 0),
                  "'%s'", quantities[_i].text);
    ck_assert_msg(q.unit == unit(quantities[_i].id), "'%s' gives %s",
                  quantities[_i].text, q.unit->id);
    ck_assert_str_eq(error.code, "untouched");
}
END_TEST

static const struct {
    const char *text;
    int dimension;
    pottle_status status;
    const char *code;
} refused[] = {
    { "", -1, POTTLE_ESYNTAX, "no-number" },
    { "cups", -1, POTTLE_ESYNTAX, "no-number" },
    { "-3 cups", -1, POTTLE_ESYNTAX, "no-number" },
    { "1/x cups", -1, POTTLE_ESYNTAX, "no-number" },
    { "nan kg", -1, POTTLE_ESYNTAX, "no-number" },
    { "1/0 cups", -1, POTTLE_EDOMAIN, "number-range" },
    { "2000000000 kg", -1, POTTLE_EDOMAIN, "number-range" },
    { "3-2 kg", -1, POTTLE_EDOMAIN, "number-range" },
    { "3", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 furlongs", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 cups sugar", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 cups 2 tbsp", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3,5 kg", -1, POTTLE_ESYNTAX, "comma" },
    { "1e3 kg", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 \xFF", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 kg", POTTLE_VOLUME, POTTLE_EUNIT, "dimension" },
    { "3 cups", POTTLE_MASS, POTTLE_EUNIT, "dimension" },
    { "3 cups", 99, POTTLE_EUNIT, "dimension" },
    { "3 oz", POTTLE_VOLUME, POTTLE_EUNIT, "dimension" },
};

START_TEST(quantity_refused)
{
    pottle_quantity q = { -1, -2, unit("kg") };
    pottle_error error;
    const pottle_status status = pottle_quantity_read(
        refused[_i].text, refused[_i].dimension, &q, &error);
    ck_assert_msg(status == refused[_i].status, "'%s' gives status %d",
                  refused[_i].text, (int)status);
    ck_assert_int_eq(error.status, status);
    ck_assert_str_eq(error.code, refused[_i].code);
    ck_assert_uint_gt(strlen(error.what), 0);
    ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
    ck_assert(near(q.low, -1, 0) && near(q.high, -2, 0) &&
              q.unit == unit("kg"));
    ck_assert_int_eq(
        pottle_quantity_read(refused[_i].text, refused[_i].dimension, &q, NULL),
        status);
}
END_TEST

START_TEST(quantity_error_names_both_dimensions)
{
    pottle_quantity q;
    pottle_error error;
    ck_assert_int_eq(pottle_quantity_read("3 kg", POTTLE_VOLUME, &q, &error),
                     POTTLE_EUNIT);
    ck_assert_ptr_nonnull(strstr(error.what, "a mass"));
    ck_assert_ptr_nonnull(strstr(error.what, "a volume"));
}
END_TEST

START_TEST(quantity_misuse)
{
    pottle_quantity q = { -1, -2, NULL };
    pottle_error error;
    ck_assert_int_eq(pottle_quantity_read(NULL, -1, &q, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(error.status, POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_quantity_read("3 kg", -1, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(near(q.low, -1, 0));
}
END_TEST

/* A message quotes the text cut short; it must not be cut in a character. */
START_TEST(quantity_error_is_valid_text)
{
    for (size_t shift = 0; shift < 2; shift++) {
        char text[200] = "3 x";
        for (size_t i = 2 + shift; i + 3 < sizeof text; i += 2)
            memcpy(text + i, "\xC3\xA9", 3);
        pottle_quantity q;
        pottle_error error;
        ck_assert_int_eq(pottle_quantity_read(text, -1, &q, &error),
                         POTTLE_EUNIT);
        ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
        ck_assert_ptr_nonnull(strstr(error.what, "\xC3\xA9"));
    }
}
END_TEST

/* -- Conversion ------------------------------------------------------------ */

static const struct {
    double value;
    const char *from, *to;
    double result, relative;
    const char *source;
} conversions[] = {
    { 1, "lb", "g", 453.59237, 4e-16, YARD },
    { 1, "gal", "qt", 4, 4e-16, HB44 },
    { 1, "qt", "pt", 2, 4e-16, HB44 },
    { 1, "pt", "cup", 2, 4e-16, HB44 },
    { 1, "cup", "tbsp", 16, 4e-16, HB44 },
    { 1, "tbsp", "tsp", 3, 4e-16, HB44 },
    { 1, "bushel", "peck", 4, 4e-16, HB44 },
    { 1, "peck", "dry-quart", 8, 4e-16, HB44 },
    { 1, "imp-gal", "imp-fl-oz", 160, 4e-16, UK },
    { 2, "dozen", "count", 24, 0, "a dozen" },
    { 6200, "ft", "m", 1889.76, 4e-16, "6200 x 0.3048" },
    { 32, "degf", "degc", 0, 0, "t_C = (t_F - 32) / 1.8" },
    { 212, "degf", "degc", 100, 4e-16, "t_C = (t_F - 32) / 1.8" },
    { 220, "degf", "degc", 104.444444444444444, 4e-16,
      "t_C = (t_F - 32) / 1.8" },
    { 100, "degc", "degf", 212, 4e-16, "t_C = (t_F - 32) / 1.8" },
    { -40, "degc", "degf", -40, 4e-16, "t_C = (t_F - 32) / 1.8" },
    { 5, "percent", "percent", 5, 0, "itself" },
    { 7, "lug", "lug", 7, 0, "itself, whatever it holds" },
    { -3, "kg", "g", -3000, 0, "SI" },
    { 0, "cup", "ml", 0, 0, "nothing" },
};

START_TEST(convert)
{
    double out = 1e99;
    ck_assert_int_eq(pottle_unit_convert(conversions[_i].value,
                                         unit(conversions[_i].from),
                                         unit(conversions[_i].to), &out, NULL),
                     POTTLE_OK);
    /* a difference of large numbers cannot be exact to the last place of a
     * small one */
    const double absolute =
        conversions[_i].result > 0 || conversions[_i].result < 0 ? 0 : 1e-14;
    ck_assert_msg(fabs(out - conversions[_i].result) <=
                      absolute + conversions[_i].relative *
                                     fabs(conversions[_i].result),
                  "%g %s in %s: %.17g, not %.17g (%s)", conversions[_i].value,
                  conversions[_i].from, conversions[_i].to, out,
                  conversions[_i].result, conversions[_i].source);
}
END_TEST

/* Every pair of units of one dimension, there and back. */
START_TEST(there_and_back)
{
    static const double values[] = { 1e-6, 0.25, 1, 3.7, 212, 1e9 };
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++)
        for (size_t k = 0; pottle_unit_at(k) != NULL; k++) {
            const pottle_unit *a = pottle_unit_at(i), *b = pottle_unit_at(k);
            if (a->dimension != b->dimension ||
                (a != b && !(a->factor > 0 && b->factor > 0)))
                continue;
            double there = 0, back = 0;
            ck_assert_int_eq(
                pottle_unit_convert(values[_i], a, b, &there, NULL), POTTLE_OK);
            ck_assert_int_eq(pottle_unit_convert(there, b, a, &back, NULL),
                             POTTLE_OK);
            /* a temperature passes through the offset: an error of the last
             * place of 32 */
            const double absolute =
                a->dimension == POTTLE_TEMPERATURE ? 32 * 4e-16 : 0;
            ck_assert_msg(fabs(back - values[_i]) <=
                              absolute + 8e-16 * values[_i],
                          "%g %s to %s: %.17g", values[_i], a->id, b->id, back);
        }
}
END_TEST

/* Units of two dimensions never convert, whichever they are; nor do containers
 * without a size. */
START_TEST(dimensions_do_not_mix)
{
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++)
        for (size_t k = 0; pottle_unit_at(k) != NULL; k++) {
            const pottle_unit *a = pottle_unit_at(i), *b = pottle_unit_at(k);
            if (a == b || (a->dimension == b->dimension && a->factor > 0 &&
                           b->factor > 0))
                continue;
            double out = -1;
            pottle_error error;
            ck_assert_int_eq(pottle_unit_convert(1, a, b, &out, &error),
                             POTTLE_EUNIT);
            ck_assert_int_eq(error.status, POTTLE_EUNIT);
            ck_assert_ptr_nonnull(strstr(error.what, a->id));
            ck_assert_ptr_nonnull(strstr(error.what, b->id));
            ck_assert(near(out, -1, 0));
        }
}
END_TEST

static const struct {
    double value;
    const char *from, *to;
} not_finite[] = {
    { (double)NAN, "g", "kg" },
    { (double)INFINITY, "g", "kg" },
    { -(double)INFINITY, "g", "g" },
    { DBL_MAX, "kg", "g" }, /* the result is not */
    { -DBL_MAX, "km", "mm" },
};

START_TEST(convert_not_finite)
{
    double out = -1;
    pottle_error error;
    ck_assert_int_eq(pottle_unit_convert(not_finite[_i].value,
                                         unit(not_finite[_i].from),
                                         unit(not_finite[_i].to), &out, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(error.status, POTTLE_EDOMAIN);
    ck_assert(near(out, -1, 0));
}
END_TEST

START_TEST(convert_misuse)
{
    double out = -1;
    ck_assert_int_eq(pottle_unit_convert(1, NULL, unit("g"), &out, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_unit_convert(1, unit("g"), NULL, &out, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_unit_convert(1, unit("g"), unit("g"), NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(near(out, -1, 0));
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("unit");
    TCase *t = tcase_create("factors");
    tcase_add_loop_test(t, factor_is_that_of_its_standard, 0, COUNT(factors));
    tcase_add_test(t, every_factor_is_checked);
    suite_add_tcase(suite, t);

#ifdef HAVE_UDUNITS2
    if (ask_udunits()) {
        t = tcase_create("udunits");
        tcase_add_loop_test(t, udunits_agrees, 0, COUNT(udunits));
        suite_add_tcase(suite, t);
    } else {
        puts("not tested: UDUNITS-2 has no database here");
    }
#else
    puts("not tested: built without UDUNITS-2");
#endif

    double inch = 0;
    if (ask_gnu_units("inch", "mm", &inch)) {
        t = tcase_create("gnu units");
        tcase_set_timeout(t, 60);
        tcase_add_loop_test(t, gnu_units_agrees, 0, COUNT(gnu_units));
        tcase_add_loop_test(t, gnu_units_agrees_on_temperatures, 0,
                            COUNT(fahrenheit));
        suite_add_tcase(suite, t);
    } else {
        puts("not tested: GNU units is not installed");
    }

    t = tcase_create("names");
    tcase_add_test(t, table_is_sound);
    tcase_add_test(t, every_name_finds_its_unit);
    tcase_add_test(t, sorted_names_are_those_of_the_units);
    tcase_add_loop_test(t, finds_what_people_write, 0, COUNT(finds));
    tcase_add_loop_test(t, unknown_units_are_not_found, 0, COUNT(unknown));
    tcase_add_test(t, null_is_no_unit);
    tcase_add_test(t, dimension_names_are_total);
    suite_add_tcase(suite, t);

    t = tcase_create("quantities");
    tcase_add_loop_test(t, scan, 0, COUNT(scans));
    tcase_add_loop_test(t, quantity, 0, COUNT(quantities));
    tcase_add_loop_test(t, quantity_refused, 0, COUNT(refused));
    tcase_add_test(t, quantity_error_names_both_dimensions);
    tcase_add_test(t, quantity_misuse);
    tcase_add_test(t, quantity_error_is_valid_text);
    suite_add_tcase(suite, t);

    t = tcase_create("conversion");
    tcase_add_loop_test(t, convert, 0, COUNT(conversions));
    tcase_add_loop_test(t, there_and_back, 0, 6);
    tcase_add_test(t, dimensions_do_not_mix);
    tcase_add_loop_test(t, convert_not_finite, 0, COUNT(not_finite));
    tcase_add_test(t, convert_misuse);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
