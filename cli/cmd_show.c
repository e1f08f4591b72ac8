/* cmd_show.c - pottle show: a recipe, a food or a jar with the source of every
 * figure. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "list", "WHAT",
      "ids, a line each: recipes, foods, jars, units, kinds or mishaps" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* -- Text ------------------------------------------------------------------ */

/* What a measure, a piece and a container of it weigh. */
static void
show_weights(const pottle_food *f)
{
    size_t n = 0;
    char cite[400], text[600];
    const pottle_form *form = pottle_food_forms(f, &n);
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < form[i].weights; k++) {
            char left[60];
            short_cite(&form[i].weight[k].cite, cite, sizeof cite);
            snprintf(left, sizeof left, "%s: ", form[i].id);
            snprintf(text, sizeof text, "%s is %s%s (%s)",
                     form[i].weight[k].measure, form[i].weight[k].printed,
                     k == 0 ? "" : ", not used but covered by the range", cite);
            print_folded(stdout, left, text);
        }
    }
    const pottle_piece *p = pottle_food_pieces(f, &n);
    for (size_t i = 0; i < n; i++) {
        short_cite(&p[i].cite, cite, sizeof cite);
        snprintf(text, sizeof text, "%.4g g, %s (%s)", p[i].grams,
                 p[i].state == POTTLE_PREPARED ? "ready to use" : "as bought",
                 cite);
        char left[60];
        snprintf(left, sizeof left, "one %s: ",
                 strcmp(p[i].size, "one") == 0 ? "piece" : p[i].size);
        print_folded(stdout, left, text);
    }
    const pottle_container *box = pottle_food_containers(f, &n);
    for (size_t i = 0; i < n; i++) {
        short_cite(&box[i].cite, cite, sizeof cite);
        char left[60], low[40], high[40];
        snprintf(left, sizeof left, "one %s: ", box[i].of->id);
        pounds_text(box[i].low_g, low, sizeof low);
        pounds_text(box[i].high_g, high, sizeof high);
        if (box[i].high_g > box[i].low_g)
            snprintf(text, sizeof text, "%s to %s lb (%s)", low, high, cite);
        else
            snprintf(text, sizeof text, "%s lb (%s)", low, cite);
        print_folded(stdout, left, text);
    }
}

static void
show_food(const pottle_catalogue *c, const pottle_food *f)
{
    size_t n = 0;
    char cite[400], text[600];
    static const char *const classes[] = { "neutral", "high-acid",
                                           "borderline: must be acidified",
                                           "low-acid" };
    printf("%s (%s, %s)\n", pottle_food_title(f), pottle_food_id(f),
           pottle_food_group(f));
    size_t at = 0;
    text[0] = '\0';
    for (size_t i = 0; pottle_food_name(c, pottle_food_id(f), i) != NULL &&
                       at + 80 < sizeof text;
         i++)
        at += (size_t)snprintf(text + at, sizeof text - at, "%s%s",
                               i == 0 ? "" : ", ",
                               pottle_food_name(c, pottle_food_id(f), i));
    print_folded(stdout, "names: ", text);
    const pottle_acid *acid = pottle_food_acid(f);
    short_cite(&acid->cite, cite, sizeof cite);
    if (acid->has_ph)
        snprintf(text, sizeof text, "%s, pH %.2f to %.2f (%s)",
                 classes[acid->class_], acid->ph_low, acid->ph_high, cite);
    else
        snprintf(text, sizeof text, "%s (%s)", classes[acid->class_], cite);
    print_folded(stdout, "acid: ", text);
    const pottle_composition *comp = pottle_food_composition(f);
    if (comp->known) {
        short_cite(&comp->cite, cite, sizeof cite);
        snprintf(text, sizeof text, "water %.2f %%, solids %.2f %% (%s)",
                 comp->water, 100 - comp->water, cite);
        print_folded(stdout, "in 100 g: ", text);
    }
    const pottle_trim *t = pottle_food_trims(f, &n);
    for (size_t i = 0; i < n; i++) {
        short_cite(&t[i].cite, cite, sizeof cite);
        snprintf(text, sizeof text, "%s keeps %.3g %% of the weight as %s (%s)",
                 t[i].id, 100 * t[i].keeps,
                 t[i].from == POTTLE_PICKED ? "picked" : "bought", cite);
        print_folded(stdout, "trim: ", text);
    }
    show_weights(f);
    const pottle_note *note = pottle_food_notes(f, &n);
    for (size_t i = 0; i < n; i++) {
        short_cite(&note[i].cite, cite, sizeof cite);
        snprintf(text, sizeof text, "%s (%s)", note[i].text, cite);
        print_folded(stdout, "note: ", text);
    }
}

static void
show_jar(const pottle_catalogue *c, const pottle_jar *j)
{
    char cite[400], text[600];
    short_cite(&j->cite, cite, sizeof cite);
    snprintf(text, sizeof text, "%.1f mL (%s)", j->nominal_ml, cite);
    printf("%s (%s)\n", j->title, j->id);
    print_folded(stdout, "nominal: ", text);
    printf("mouth: %s%s%s\n", j->regular ? "regular" : "",
           j->regular && j->wide ? ", " : "", j->wide ? "wide" : "");
    const pottle_rule *rule = pottle_rule_find(c, j->rule);
    if (j->process_as[0] != '\0') {
        snprintf(text, sizeof text,
                 "the time of %s or of the next larger tested size. %s",
                 j->process_as, rule != NULL ? rule->text : "");
        print_folded(stdout, "where not tested itself: ", text);
    }
}

/* -- Finding what is meant: a recipe, a food, a jar ------------------------ */

static int
run(const command *self, const args *a, bool json)
{
    if (args_has(a, "list"))
        return show_list(self, a, json);
    if (a->operands != 1)
        return usage_error(self, "show takes one recipe, food or jar");
    const char *name = a->operand[0], *ids[4];
    pottle_catalogue *c = NULL;
    int result = open_catalogue(a, POTTLE_WITH_ALL, &c);
    if (result != DONE)
        return result;
    pottle_recipe *recipe = NULL;
    pottle_food *food = NULL;
    const pottle_jar *jar = NULL;
    pottle_error error, of_food;
    size_t n = 0;
    pottle_status status = pottle_recipe_read(c, name, &recipe, &error);
    if (status == POTTLE_OK) {
        if (json)
            result = print_json(show_recipe_json(c, recipe));
        else
            result = show_recipe(c, recipe);
    } else if (status != POTTLE_ENOENT) {
        result = report(c, &error);
    } else if (pottle_jar_find(c, name, &jar, NULL) == POTTLE_OK) {
        if (json)
            result = print_json(json_pack(
                "{s:s, s:s, s:s, s:f, s:o}", "id", jar->id, "title", jar->title,
                "kind", "jar", "nominal_ml", jar->nominal_ml, "source",
                json_source(c, jar->cite.source, jar->cite.at)));
        else
            show_jar(c, jar);
    } else if (pottle_names_find(c, name, ids, 4, &n, &of_food) == POTTLE_OK &&
               n > 1) {
        char list[300] = "";
        for (size_t i = 0, at = 0; i < n && i < 4 && at + 70 < sizeof list; i++)
            at += (size_t)snprintf(list + at, sizeof list - at, "%s %s",
                                   i == 0 ? "" : ",", ids[i]);
        complain("'%.60s' may mean%s: which one?", name, list);
        result = USAGE;
    } else if (n == 1) {
        status = pottle_food_read(c, ids[0], &food, &error);
        if (status != POTTLE_OK)
            result = report(c, &error);
        else if (json)
            result = print_json(show_food_json(c, food));
        else
            show_food(c, food);
    } else {
        complain("no recipe, food or jar is called '%.60s'", name);
        complain("%s", error.what);
        complain("%s", of_food.what);
        result = USAGE;
    }
    pottle_food_free(food);
    pottle_recipe_free(recipe);
    pottle_catalogue_free(c);
    return result;
}

const command show_command = {
    "show", run, "RECIPE|FOOD|JAR\n--list WHAT",
    "what the catalogue says of a recipe, a food or a jar, with sources",
    options
};
