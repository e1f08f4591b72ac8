/* test_unit.c - units: factors against their standards and two reference
 * programs, names, quantities, conversion. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <udunits2.h>
#include <unistd.h>

#include "unit_cases.h"
#include "suite.h"

bool
near(double a, double b, double relative)
{
    return fabs(a - b) <= relative * fabs(b);
}

const pottle_unit *
unit(const char *name)
{
    const pottle_unit *found = pottle_unit_find(name);
    ck_assert_msg(found != NULL, "no unit '%s'", name);
    return found;
}

/* -- Factors --------------------------------------------------------------- */

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

    suite_add_tcase(suite, unit_names());
    suite_add_tcase(suite, unit_quantities());

    return suite_run(suite);
}
