/* liquid_print.c - what pottle liquid answers: first what goes in, then what it
 * makes, then why. */
#include "cli.h"

#include <string.h>

/* -- Writing --------------------------------------------------------------- */

/* "2.4 L (10 1/4 cups)" */
static void
volume_text(double ml, char *buf, size_t size)
{
    char number[40], measure[100];
    pottle_measure m;
    const bool litres = ml >= 999.5;
    double litre = 0;
    if (!litres ||
        pottle_unit_convert(ml, pottle_unit_find("ml"), pottle_unit_find("l"),
                            &litre, NULL) != POTTLE_OK)
        litre = ml;
    pottle_number_write(litre, litres ? 2 : 0, number, sizeof number);
    snprintf(buf, size, "%s %s", number, litres ? "L" : "mL");
    if (pottle_measure_round(ml, POTTLE_VOLUME, POTTLE_FREE, &m) == POTTLE_OK) {
        const size_t n = strlen(buf);
        pottle_measure_write(&m, measure, sizeof measure);
        snprintf(buf + n, size - n, " (%s)", measure);
    }
}

static void
print_part(double mass_g, bool has_measure, const pottle_measure *measure,
           const char *what)
{
    char mass[40] = "", text[100] = "", left[160];
    if (mass_g > 0)
        mass_text(mass_g, mass, sizeof mass);
    /* a measure in grams says the mass again */
    if (has_measure && measure != NULL &&
        measure->part[0].unit->dimension != POTTLE_MASS)
        pottle_measure_write(measure, text, sizeof text);
    snprintf(left, sizeof left, "  %9s  %-21s ", mass, text);
    print_folded(stdout, left, what);
}

static json_t *
json_part(const char *food, double mass_g, double volume_ml, bool has_measure,
          const pottle_measure *measure)
{
    char text[100] = "";
    if (has_measure)
        pottle_measure_write(measure, text, sizeof text);
    return json_pack("{s:s, s:o, s:o, s:o}", "food", food, "mass_g",
                     mass_g > 0 ? json_number(mass_g) : json_null(),
                     "volume_ml",
                     volume_ml > 0 ? json_number(volume_ml) : json_null(),
                     "measure", json_text(text));
}

static void
print_source(const liquid_asked *k, const char *first, const pottle_cite *cite)
{
    char text[500];
    source_text(k->catalogue, cite->source, cite->at, text, sizeof text);
    print_folded(stdout, first, text);
}

static void
print_rule(const liquid_asked *k, const char *id)
{
    const pottle_rule *rule = pottle_rule_find(k->catalogue, id);
    if (rule != NULL)
        print_folded(stdout, "", rule->text);
}

static void
print_cautions(void)
{
    for (size_t i = 0; cautions[i] != NULL; i++)
        print_folded(stdout, "", cautions[i]);
}

static const char *
jar_name(const liquid_asked *k, size_t i)
{
    return k->own[i] != NULL ? k->own[i]->id : k->jar[i].jar->id;
}

/* "14 pint, 3 quart" */
static void
jars_list(const liquid_asked *k, char *buf, size_t size)
{
    size_t n = 0;
    buf[0] = '\0';
    for (size_t i = 0; i < k->jars && n < size; i++) {
        char count[40];
        pottle_number_write(k->jar[i].count, 2, count, sizeof count);
        n += (size_t)snprintf(buf + n, size - n, "%s%s %s", i == 0 ? "" : ", ",
                              count, jar_name(k, i));
    }
}

static json_t *
json_jar_list(const liquid_asked *k)
{
    json_t *list = json_array();
    for (size_t i = 0; i < k->jars; i++)
        json_array_append_new(list, json_pack("{s:s, s:o, s:s}", "jar",
                                              jar_name(k, i), "count",
                                              json_number(k->jar[i].count),
                                              "size", k->jar[i].jar->id));
    return list;
}

/* What the kitchen file had to do with it. */
static void
print_notes(const liquid_asked *k)
{
    char text[300];
    kitchen_note(&k->house, true);
    for (size_t i = 0; i < k->jars; i++) {
        if (k->own[i] == NULL)
            continue;
        snprintf(text, sizeof text,
                 "%s is a measured jar and takes what is published for a %s.",
                 k->own[i]->id, k->jar[i].jar->title);
        print_folded(stdout, "", text);
    }
}

static int
answer(const liquid_asked *k, json_t *root)
{
    kitchen_add_cup(&k->house, root, true);
    return print_json(root);
}

/* -- The answers ----------------------------------------------------------- */

static int
syrup_json(const liquid_asked *k, const pottle_syrup_mix *m,
           const pottle_estimate *need)
{
    json_t *root = json_pack(
        "{s:s, s:o, s:o, s:o, s:o, s:o, s:b}", "liquid", "syrup", "class",
        m->syrup != NULL ? json_string(m->syrup->id) : json_null(),
        "nominal_percent",
        m->nominal > 0 ? json_number(m->nominal) : json_null(), "brix",
        json_number(m->brix), "volume_ml", json_number(m->volume_ml), "jars",
        json_jar_list(k), "derived", m->derived);
    json_object_set_new(root, "parts",
                        json_pack("[o, o]",
                                  json_part("water", m->water_g, m->water_ml,
                                            m->has_water, &m->water),
                                  json_part("sugar", m->sugar_g, m->sugar_ml,
                                            m->has_sugar, &m->sugar)));
    json_object_set_new(root, "need_ml",
                        need != NULL ? json_interval(*need) : json_null());
    json_object_set_new(root, "source",
                        m->syrup != NULL
                            ? json_source(k->catalogue, m->syrup->cite.source,
                                          m->syrup->cite.at)
                            : json_null());
    json_object_set_new(root, "cautions", json_cautions());
    return answer(k, root);
}

int
liquid_print_syrup(const liquid_asked *k, const pottle_syrup_mix *m,
                   const pottle_estimate *need)
{
    const char *title = m->syrup != NULL ? m->syrup->title : "syrup";
    if (k->json)
        return syrup_json(k, m, need);
    print_notes(k);
    char text[500], list[200], volume[140], brix[40], nominal[40];
    jars_list(k, list, sizeof list);
    volume_text(m->volume_ml, volume, sizeof volume);
    pottle_number_write(m->brix, 1, brix, sizeof brix);
    pottle_number_write(m->nominal, 0, nominal, sizeof nominal);
    snprintf(text, sizeof text, "%s%s%s: makes %s", title,
             k->jars > 0 ? " for " : "", list, volume);
    print_folded(stdout, "", text);
    print_part(m->water_g, m->has_water, &m->water, "water");
    print_part(m->sugar_g, m->has_sugar, &m->sugar, "sugar");
    if (m->nominal > 0)
        snprintf(text, sizeof text,
                 "Its source calls it %s percent; by weight it holds %s "
                 "percent of sugar, because such names go by cups.",
                 nominal, brix);
    else
        snprintf(text, sizeof text,
                 "That is %s percent of sugar by weight; the classes of the "
                 "books are named by cups and hold less than they say.",
                 brix);
    print_folded(stdout, "", text);
    if (need != NULL) {
        const pottle_interval i = pottle_estimate_interval(*need);
        char low[140], high[140];
        volume_text(i.low, low, sizeof low);
        volume_text(i.high, high, sizeof high);
        snprintf(text, sizeof text,
                 "The published loads give those jars %s to %s, by the class; "
                 "the pack of the fruit makes more of a difference.",
                 low, high);
        print_folded(stdout, "", text);
    }
    if (m->derived)
        print_folded(stdout, "",
                     "A size of jar without a published amount takes its share "
                     "of the nearest that has one.");
    if (m->syrup != NULL)
        print_source(k, "Source: ", &m->syrup->cite);
    print_cautions();
    return DONE;
}

int
liquid_print_brine(const liquid_asked *k, const pottle_brine_mix *m)
{
    if (k->json) {
        json_t *root = json_pack("{s:s, s:o, s:o}", "liquid", "brine",
                                 "percent", json_number(m->percent),
                                 "volume_ml", json_number(m->volume_ml));
        json_object_set_new(
            root, "parts",
            json_pack("[o, o]",
                      json_part("water", m->water_g, m->water_ml, m->has_water,
                                &m->water),
                      json_part("canning-salt", m->salt_g, m->salt_ml.median,
                                false, NULL)));
        json_object_set_new(root, "salt_ml", json_interval(m->salt_ml));
        json_object_set_new(root, "source",
                            json_source(k->catalogue, "salt-density-1974",
                                        "sodium chloride at 20 degC"));
        json_object_set_new(root, "cautions", json_cautions());
        return answer(k, root);
    }
    print_notes(k);
    const pottle_interval i = pottle_estimate_interval(m->salt_ml);
    const pottle_unit *ml = pottle_unit_find("ml"),
                      *spoon = pottle_unit_find("tbsp");
    char text[300], percent[40], volume[140], low[40] = "", high[40] = "";
    double x = 0;
    pottle_number_write(m->percent, 2, percent, sizeof percent);
    volume_text(m->volume_ml, volume, sizeof volume);
    snprintf(text, sizeof text, "brine of %s percent by weight: makes %s",
             percent, volume);
    print_folded(stdout, "", text);
    print_part(m->water_g, m->has_water, &m->water, "water");
    print_part(m->salt_g, false, NULL, "canning salt: weigh it");
    if (pottle_unit_convert(i.low, ml, spoon, &x, NULL) == POTTLE_OK)
        pottle_number_write(x, 1, low, sizeof low);
    if (pottle_unit_convert(i.high, ml, spoon, &x, NULL) == POTTLE_OK)
        pottle_number_write(x, 1, high, sizeof high);
    snprintf(text, sizeof text,
             "Without a scale that is %s to %s tablespoons: salts fill a spoon "
             "differently. Percent is of salt and water together.",
             low, high);
    print_folded(stdout, "", text);
    print_folded(stdout, "", "A strength alone is no tested recipe.");
    print_rule(k, "pickle-03");
    print_cautions();
    return DONE;
}

int
liquid_print_recipe_brine(const liquid_asked *k, const pottle_recipe *recipe,
                          const pottle_brine_plan *p)
{
    const pottle_cite *cite = pottle_recipe_cite(recipe);
    if (k->json) {
        json_t *root = json_pack("{s:s, s:s, s:s, s:o, s:o}", "liquid", "brine",
                                 "recipe", pottle_recipe_id(recipe), "title",
                                 pottle_recipe_title(recipe), "factor",
                                 json_number(p->factor), "volume_ml",
                                 json_number(p->volume_ml));
        json_t *parts = json_array();
        for (size_t i = 0; i < p->lines; i++)
            json_array_append_new(
                parts, json_part(p->line[i].ingredient->food, p->line[i].mass_g,
                                 p->line[i].volume_ml, p->line[i].has_measure,
                                 &p->line[i].measure));
        json_object_set_new(root, "parts", parts);
        json_object_set_new(root, "vinegar_percent",
                            p->vinegar_percent > 0
                                ? json_number(p->vinegar_percent)
                                : json_null());
        json_object_set_new(root, "source",
                            json_source(k->catalogue, cite->source, cite->at));
        json_object_set_new(root, "cautions", json_cautions());
        return answer(k, root);
    }
    print_notes(k);
    char text[400], factor[40], volume[140];
    short_number(p->factor, factor, sizeof factor);
    volume_text(p->volume_ml, volume, sizeof volume);
    snprintf(text, sizeof text,
             "%s, the liquid alone: %s times that of the %s, makes about %s",
             pottle_recipe_title(recipe), factor, batch_word(recipe), volume);
    print_folded(stdout, "", text);
    for (size_t i = 0; i < p->lines; i++)
        print_part(p->line[i].mass_g, p->line[i].has_measure,
                   &p->line[i].measure, p->line[i].title);
    if (p->vinegar_percent > 0) {
        pottle_number_write(p->vinegar_percent, 2, factor, sizeof factor);
        snprintf(
            text, sizeof text,
            "The vinegar is told as the recipe has it, of 5 percent. Yours "
            "has %s: more acid is allowed and less is not, but vinegar "
            "that is sold for cleaning is too strong to be used (Kansas "
            "State University). Buy vinegar whose label says 5 percent.",
            factor);
        print_folded(stdout, "", text);
        print_rule(k, "vinegar-dilution");
    }
    print_rule(k, "pickle-02");
    print_rule(k, "brine-left-over");
    print_source(k, "Source: ", cite);
    print_cautions();
    return DONE;
}

static void
print_acid(const liquid_asked *k, const pottle_acid_total *t, size_t totals)
{
    for (size_t i = 0; i < totals; i++) {
        char text[300], total[40], measure[100] = "";
        short_number(t[i].total, total, sizeof total);
        if (t[i].has_measure)
            pottle_measure_write(&t[i].measure, measure, sizeof measure);
        snprintf(text, sizeof text, "%s%s: %s %s in all%s%s",
                 i == 0 ? "" : "or ", t[i].title, total, t[i].unit->symbol,
                 measure[0] != '\0' ? ", as a measure " : "", measure);
        print_folded(stdout, "", text);
        for (size_t d = 0; d < t[i].doses; d++) {
            char each[40], count[40];
            pottle_number_write(t[i].dose[d].each, 3, each, sizeof each);
            pottle_number_write(t[i].dose[d].count, 2, count, sizeof count);
            printf("  %s %s: %s %s each%s%s%s\n", count, t[i].dose[d].jar->id,
                   each, t[i].dose[d].unit->symbol,
                   t[i].dose[d].taken_from != t[i].dose[d].jar
                       ? " (the amount of "
                       : "",
                   t[i].dose[d].taken_from != t[i].dose[d].jar
                       ? t[i].dose[d].taken_from->id
                       : "",
                   t[i].dose[d].taken_from != t[i].dose[d].jar ? ")" : "");
        }
    }
    print_rule(k, t[0].rule);
    print_source(k, "Source: ", &t[0].cite);
    print_cautions();
}

static json_t *
json_acid(const liquid_asked *k, const pottle_acid_total *t, size_t totals)
{
    json_t *list = json_array();
    for (size_t i = 0; i < totals; i++) {
        char measure[100] = "";
        json_t *doses = json_array();
        if (t[i].has_measure)
            pottle_measure_write(&t[i].measure, measure, sizeof measure);
        for (size_t d = 0; d < t[i].doses; d++)
            json_array_append_new(
                doses, json_pack("{s:s, s:o, s:o, s:s, s:s}", "jar",
                                 t[i].dose[d].jar->id, "count",
                                 json_number(t[i].dose[d].count), "each",
                                 json_number(t[i].dose[d].each), "unit",
                                 t[i].dose[d].unit->id, "taken_from",
                                 t[i].dose[d].taken_from->id));
        json_array_append_new(
            list,
            json_pack(
                "{s:s, s:o, s:s, s:o, s:o, s:o}", "food", t[i].food, "total",
                json_number(t[i].total), "unit", t[i].unit->id, "measure",
                json_text(measure), "doses", doses, "source",
                json_source(k->catalogue, t[i].cite.source, t[i].cite.at)));
    }
    return list;
}

int
liquid_print_acid(const liquid_asked *k, const pottle_recipe *recipe,
                  const pottle_acid_total *totals, size_t count)
{
    if (k->json)
        return answer(k, json_pack("{s:s, s:s, s:o, s:o}", "liquid", "acid",
                                   "recipe", pottle_recipe_id(recipe),
                                   "choices", json_acid(k, totals, count),
                                   "cautions", json_cautions()));
    print_folded(stdout, "", pottle_recipe_title(recipe));
    print_notes(k);
    print_acid(k, totals, count);
    return DONE;
}

static void
print_juice(const liquid_asked *k, const pottle_juice *j)
{
    char text[800], low[140], middle[140], high[140], guide[140], mass[40];
    const bool fruit = j->least_ml > 0;
    const pottle_interval i =
        pottle_estimate_interval(fruit ? j->juice_ml : j->fruit_g);
    if (fruit) {
        mass_text(j->fruit_g.median, mass, sizeof mass);
        volume_text(i.low, low, sizeof low);
        volume_text(i.expected, middle, sizeof middle);
        volume_text(i.high, high, sizeof high);
        volume_text(j->least_ml, guide, sizeof guide);
        snprintf(text, sizeof text, "%s of fruit: expect %s of juice, %s to %s",
                 mass, middle, low, high);
    } else {
        volume_text(j->juice_ml.median, guide, sizeof guide);
        mass_text(i.low, low, sizeof low);
        mass_text(i.expected, middle, sizeof middle);
        mass_text(i.high, high, sizeof high);
        mass_text(j->sure_g, mass, sizeof mass);
        snprintf(text, sizeof text,
                 "%s of juice: take %s of fruit to have it with nine chances "
                 "in ten; expect to need %s, %s to %s",
                 guide, mass, middle, low, high);
        mass_text(j->guide_g, guide, sizeof guide);
    }
    print_folded(stdout, "", text);
    snprintf(text, sizeof text,
             "By the guide's 1 cup of clear juice from each pound, which it "
             "calls the least: %s.",
             guide);
    print_folded(stdout, "", text);
    const pottle_figure *f = pottle_figure_find(k->catalogue, "juice-least");
    if (f != NULL)
        print_source(k, "Source: ", &f->cite);
    print_folded(stdout, "",
                 "Measure the juice before the sugar goes in: it, and not the "
                 "fruit, decides the batch.");
}

int
liquid_print_juice(const liquid_asked *k, const pottle_juice *j)
{
    if (!k->json) {
        print_notes(k);
        print_juice(k, j);
        return DONE;
    }
    const pottle_figure *f = pottle_figure_find(k->catalogue, "juice-least");
    return answer(
        k,
        json_pack(
            "{s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "liquid", "juice", "fruit_g",
            json_interval(j->fruit_g), "juice_ml", json_interval(j->juice_ml),
            "least_ml",
            j->least_ml > 0 ? json_number(j->least_ml) : json_null(), "guide_g",
            j->guide_g > 0 ? json_number(j->guide_g) : json_null(), "sure_g",
            j->sure_g > 0 ? json_number(j->sure_g) : json_null(), "source",
            f != NULL ? json_source(k->catalogue, f->cite.source, f->cite.at)
                      : json_null()));
}

int
liquid_print_vinegar(const liquid_asked *k, double strength)
{
    if (k->json)
        return print_json(json_pack("{s:s, s:o, s:b}", "liquid", "vinegar",
                                    "strength", json_number(strength),
                                    "as_it_is", true));
    print_folded(stdout, "",
                 "Vinegar of that strength is used as it is, in the amounts of "
                 "the recipe.");
    print_rule(k, "vinegar-5-percent");
    return DONE;
}
