/* cmd_process.c - pottle process: the tested process of a jar at an altitude.
 */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "jar", "JAR", "size of jar: half-pint, pint, quart, 500-ml ..." },
    { "altitude", "H", "'900 m' or '6200 ft'" },
    { "pack", "hot|raw", "style of pack" },
    { "canner", "METHOD", "boiling-water, dial-gauge or weighted-gauge" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* The process was tested with the acid in the jar: of the tested size, which is
 * never less than the jar's own. */
static void
print_acid(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
           const pottle_process *p)
{
    size_t n = 0;
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        bool first = true;
        if (strcmp(per[i].role, "acid") != 0)
            continue;
        for (size_t c = 0; c < per[i].choices; c++) {
            const pottle_jar_choice *choice = &per[i].choice[c];
            const pottle_jar_dose *dose = NULL;
            for (size_t d = 0; d < choice->doses; d++)
                if (strcmp(choice->dose[d].jar, p->jar->id) == 0 ||
                    (dose == NULL &&
                     strcmp(choice->dose[d].jar, p->tested_as->id) == 0))
                    dose = &choice->dose[d];
            if (dose == NULL)
                continue;
            char text[200], count[60];
            pottle_food *food = NULL; /* its title has the strength */
            const bool read = pottle_food_read(catalogue, choice->food, &food,
                                               NULL) == POTTLE_OK;
            dose_text(dose->amount, dose->unit, dose->size, 1, per[i].keep,
                      count, sizeof count);
            snprintf(text, sizeof text, "%s of %s", count,
                     read ? pottle_food_title(food) : choice->food);
            print_folded(stdout, first ? "  each jar: " : "        or: ", text);
            pottle_food_free(food);
            first = false;
        }
    }
}

static void
print_text(const args *a, const household *h, const pottle_own_jar *own,
           const pottle_catalogue *catalogue, const pottle_recipe *recipe,
           const pottle_process *p, size_t n, double altitude_m)
{
    char text[500], height[60], mm[40];
    altitude_text(a, h, altitude_m, height, sizeof height);
    pottle_number_write(p[0].headspace.mm, 0, mm, sizeof mm);
    snprintf(text, sizeof text, "%s, %s, %s%s", pottle_recipe_title(recipe),
             p[0].jar->title, height, n > 1 ? ": one whole line of these" : "");
    print_folded(stdout, "", text);
    process_text(p, n);
    kitchen_gauge_text(h, catalogue, recipe, p, n);
    snprintf(text, sizeof text, "headspace %s in (%s mm)",
             p[0].table->headspace, mm);
    print_folded(stdout, "  ", text);
    print_acid(catalogue, recipe, &p[0]);
    if (own != NULL) {
        snprintf(text, sizeof text,
                 "%s is a measured jar and takes the process of a %s", own->id,
                 p[0].jar->title);
        print_folded(stdout, "  ", text);
    }
    if (p[0].tested_as != p[0].jar) {
        const pottle_rule *rule =
            pottle_rule_find(catalogue, "jar-size-smaller");
        snprintf(text, sizeof text,
                 "%s is not tested itself and takes the process of the next "
                 "larger tested size, %s. %s",
                 p[0].jar->title, p[0].tested_as->title,
                 rule != NULL ? rule->text : "");
        print_folded(stdout, "  ", text);
    }
    if (p[0].table->sterile && p[0].band->minutes < 10) {
        const pottle_rule *rule = pottle_rule_find(catalogue, "jam-12");
        print_folded(stdout, "  ",
                     rule != NULL ? rule->text : "sterilise the jars first");
    }
    high_text(p, n, altitude_m);
    source_text(catalogue, p[0].table->cite.source, p[0].table->cite.at, text,
                sizeof text);
    puts("");
    print_folded(stdout, "Matches the tested process of ", text);
    for (size_t i = 0; cautions[i] != NULL; i++)
        print_folded(stdout, "", cautions[i]);
}

static int
print_answer(const args *a, const household *h, const pottle_own_jar *own,
             const pottle_catalogue *catalogue, const pottle_recipe *recipe,
             const pottle_process *p, size_t n, double altitude_m, bool json)
{
    if (!json) {
        print_text(a, h, own, catalogue, recipe, p, n, altitude_m);
        return DONE;
    }
    json_t *root = json_process(catalogue, recipe, &p[0], altitude_m),
           *others = json_array();
    for (size_t i = 1; i < n; i++) {
        json_t *other = json_process(catalogue, recipe, &p[i], altitude_m);
        kitchen_add_set_psi(h, catalogue, recipe, &p[i], other);
        json_array_append_new(others, other);
    }
    kitchen_add_set_psi(h, catalogue, recipe, &p[0], root);
    json_object_set_new(root, "alternatives", others);
    kitchen_add_unused(h, catalogue, root);
    json_object_set_new(root, "cautions", json_cautions());
    return print_json(root);
}

static int
run(const command *self, const args *a, bool json)
{
    const char *size = args_value(a, "jar"),
               *height = args_value(a, "altitude"),
               *canner = args_value(a, "canner");
    pottle_method method;
    pottle_pack_style pack;
    pottle_request defaults = { .version = POTTLE_REQUEST_VERSION };
    household h;
    const pottle_own_jar *own = NULL;
    if (a->operands != 1 || size == NULL)
        return usage_error(self,
                           "process takes one recipe, --jar and --altitude");
    int result =
        height != NULL ? read_altitude(height, &defaults.altitude_m) : DONE;
    defaults.has_altitude = height != NULL;
    if (result == DONE)
        result = read_pack(self, args_value(a, "pack"), &pack);
    if (result != DONE)
        return result;
    pottle_catalogue *catalogue = NULL;
    pottle_recipe *recipe = NULL;
    pottle_error error;
    pottle_process p[POTTLE_PROCESS_MAX];
    size_t n = 0;
    const pottle_jar *jar = NULL;
    result = open_catalogue(a,
                            POTTLE_WITH_NAMES | POTTLE_WITH_FIGURES |
                                POTTLE_WITH_JARS | POTTLE_WITH_RULES |
                                POTTLE_WITH_SOURCES,
                            &catalogue);
    if (result != DONE)
        return result;
    if ((canner != NULL && pottle_canner_method(catalogue, canner, &method,
                                                &error) != POTTLE_OK) ||
        pottle_recipe_read(catalogue, a->operand[0], &recipe, &error) !=
            POTTLE_OK)
        result = report(catalogue, &error);
    defaults.method = canner != NULL ? &method : NULL;
    if (result == DONE)
        result = kitchen_open(a, catalogue, false, &h);
    if (result == DONE)
        result = kitchen_defaults(catalogue, recipe, &h, &defaults, &method);
    if (result == DONE && !defaults.has_altitude)
        result = usage_error(self, "process takes --altitude, or 'pottle "
                                   "kitchen set altitude' keeps it");
    const double altitude_m = defaults.altitude_m;
    if (result == DONE)
        result = kitchen_jar(&h, catalogue, size, &jar, &own);
    if (result == DONE &&
        pottle_process_find(catalogue, recipe, jar, defaults.method, pack,
                            altitude_m, p, &n, &error) != POTTLE_OK)
        result = report(catalogue, &error);
    if (result == DONE) {
        n = kitchen_usable(&h, p, n, p);
        if (n == 0)
            result = report(catalogue, &h.why);
    }
    if (result == DONE)
        result =
            print_answer(a, &h, own, catalogue, recipe, p, n, altitude_m, json);
    pottle_recipe_free(recipe);
    pottle_catalogue_free(catalogue);
    return result;
}

const command process_command = {
    "process", run,
    "RECIPE --jar JAR [--pack hot|raw] [--canner METHOD] --altitude H",
    "the tested time and pressure for a jar at an altitude", options
};
