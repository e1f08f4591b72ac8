/* cmd_gel.c - pottle gel: the gel point at an altitude, or by the boiling point
 * on one's own thermometer. */
#include "cli.h"

static const option options[] = {
    { "altitude", "H", "'900 m' or '6200 ft'" },
    { "boiling", "T",
      "where water boils on your own thermometer today: '208 degF', '97.5 "
      "degC'" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* "104.4 deg C (219.9 deg F)" */
static void
temperature_text(pottle_temperature t, char *buf, size_t size)
{
    char celsius[40], fahrenheit[40];
    double degF = 0;
    if (pottle_unit_convert(t.degC, pottle_unit_find("degC"),
                            pottle_unit_find("degF"), &degF, NULL) != POTTLE_OK)
        degF = 0;
    pottle_number_write(t.degC, 1, celsius, sizeof celsius);
    pottle_number_write(degF, 1, fahrenheit, sizeof fahrenheit);
    snprintf(buf, size, "%s deg C (%s deg F)", celsius, fahrenheit);
}

/* The boiling water that the rule was reckoned from. */
static void
reckoned_from(const pottle_gel *g, const char *altitude, char *buf, size_t size)
{
    char boiling[60];
    temperature_text(g->boiling, boiling, sizeof boiling);
    if (g->measured)
        snprintf(buf, size,
                 "8 deg F above your boiling water, %s as you read it",
                 boiling);
    else if (altitude != NULL)
        snprintf(buf, size,
                 "8 deg F above boiling water, %s at %s in a standard "
                 "atmosphere",
                 boiling, altitude);
    else
        snprintf(buf, size,
                 "8 deg F above boiling water, %s at sea level: give "
                 "--altitude or, better, --boiling",
                 boiling);
}

static void
print_text(const pottle_gel *g, const char *altitude,
           const pottle_misreading *thermometer)
{
    char text[500], rule[60], table[60], equation[60];
    temperature_text(g->rule, rule, sizeof rule);
    temperature_text(g->at_65[0], table, sizeof table);
    temperature_text(g->at_65[1], equation, sizeof equation);
    printf("Gel point: %s\n", rule);
    if (thermometer != NULL) {
        char shows[60], reading[90];
        temperature_text(pottle_thermometer_shows(*thermometer, g->rule), shows,
                         sizeof shows);
        misreading_text(thermometer, reading, sizeof reading);
        snprintf(text, sizeof text,
                 "your thermometer then shows %s: it %s, as the kitchen file "
                 "says",
                 shows, reading);
        print_folded(stdout, "  ", text);
    }
    reckoned_from(g, altitude, text, sizeof text);
    print_folded(stdout, "  ", text);
    if (g->has_standard && altitude != NULL) {
        temperature_text(g->standard, table, sizeof table);
        snprintf(text, sizeof text,
                 "at %s it would be %s on a standard day; weather and "
                 "thermometer make the difference, and yours counts",
                 altitude, table);
        print_folded(stdout, "  ", text);
        temperature_text(g->at_65[0], table, sizeof table);
    }
    snprintf(text, sizeof text,
             "in sugar alone that is %.1f Brix by a table of 1912, %.1f by an "
             "equation of 1997: %.1f apart",
             g->brix[0], g->brix[1], g->apart);
    print_folded(stdout, "  ", text);
    snprintf(text, sizeof text,
             "65 Brix boils at %s by the table, %s by the equation; acid, "
             "pectin and inverted sugar raise it further",
             table, equation);
    print_folded(stdout, "  ", text);
    if (!g->measured)
        print_folded(stdout, "  ",
                     "put the thermometer into boiling water today and give "
                     "--boiling: weather alone moves it by a degree F or more");
    puts("");
    print_folded(
        stdout, "",
        "Rule: USDA Complete Guide to Home Canning, guide 7, 8 deg F above the "
        "boiling point of water. Test the set too: spoon or cold plate.");
}

static int
print_answer(const pottle_gel *g, const double *altitude_m,
             const pottle_misreading *thermometer)
{
    json_t *root = json_pack(
        "{s:b, s:o, s:o, s:o, s:o, s:o}", "measured", g->measured, "altitude_m",
        altitude_m != NULL ? json_number(*altitude_m) : json_null(),
        "pressure_pa", json_number(g->pressure.pa), "boiling_degC",
        json_number(g->boiling.degC), "gel_degC", json_number(g->rule.degC),
        "standard_boiling_degC",
        g->has_standard ? json_number(g->standard.degC) : json_null());
    if (thermometer != NULL)
        json_object_set_new(
            root, "thermometer_shows_degC",
            json_number(pottle_thermometer_shows(*thermometer, g->rule).degC));
    json_object_set_new(root, "brix",
                        json_pack("{s:o, s:o, s:o}", "table_1912",
                                  json_number(g->brix[0]), "equation_1997",
                                  json_number(g->brix[1]), "disagreement",
                                  json_number(g->apart)));
    json_object_set_new(
        root, "brix_65_boils_degC",
        json_pack("{s:o, s:o}", "table_1912", json_number(g->at_65[0].degC),
                  "equation_1997", json_number(g->at_65[1].degC)));
    json_object_set_new(
        root, "source",
        json_string("USDA Complete Guide to Home Canning, guide 7; U.S. "
                    "Standard Atmosphere 1976; IAPWS-IF97"));
    return print_json(root);
}

static int
run(const command *self, const args *a, bool json)
{
    const char *height = args_value(a, "altitude"),
               *boiling = args_value(a, "boiling");
    double altitude_m = 0;
    pottle_temperature t = { 0 };
    pottle_quantity q;
    pottle_gel gel;
    pottle_error error;
    if (a->operands != 0)
        return usage_error(self, "gel takes no operand");
    if (height != NULL && read_altitude(height, &altitude_m) != DONE)
        return USAGE;
    household house;
    bool high = height != NULL;
    int result = kitchen_open(a, NULL, false, &house);
    if (result == DONE)
        result = kitchen_altitude(&house, &high, &altitude_m);
    if (result != DONE)
        return result;
    const double *altitude = high ? &altitude_m : NULL;
    if (boiling != NULL) {
        if (pottle_quantity_read(boiling, POTTLE_TEMPERATURE, &q, &error) !=
            POTTLE_OK)
            return report(NULL, &error);
        if (q.high > q.low ||
            pottle_unit_convert(q.low, q.unit, pottle_unit_find("degC"),
                                &t.degC, &error) != POTTLE_OK)
            return usage_error(self, "--boiling takes one temperature");
    }
    if (pottle_gel_point(altitude, boiling != NULL ? &t : NULL, &gel, &error) !=
        POTTLE_OK)
        return report(NULL, &error);
    /* a boiling point that was read on it has its error in it already */
    const pottle_misreading *thermometer =
        !gel.measured && house.kitchen.thermometer.by.unit != NULL
            ? &house.kitchen.thermometer
            : NULL;
    if (json)
        return print_answer(&gel, altitude, thermometer);
    char told[60];
    altitude_text(a, &house, altitude_m, told, sizeof told);
    print_text(&gel, high ? told : NULL, thermometer);
    return DONE;
}

const command gel_command = { "gel", run, "[--altitude H] [--boiling T]",
                              "the gel point of jam without added pectin",
                              options };
