/* cmd_jars.c - pottle jars: how many jars a recipe or a volume fills. */
#include "cli.h"

/* A volume of food and a headspace, without a recipe. */
static int
from_volume(const command *self, const args *a, bool json)
{
    const char *size = args_value(a, "jar"),
               *space = args_value(a, "headspace");
    pottle_quantity volume, headspace;
    pottle_error error;
    const pottle_jar *jar = NULL;
    const pottle_own_jar *own = NULL;
    household house;
    if (a->operands != 0 || size == NULL || space == NULL)
        return usage_error(
            self,
            "--volume goes with --jar and --headspace, and with no recipe");
    if (pottle_quantity_read(args_value(a, "volume"), POTTLE_VOLUME, &volume,
                             &error) != POTTLE_OK ||
        pottle_quantity_read(space, POTTLE_LENGTH, &headspace, &error) !=
            POTTLE_OK)
        return report(NULL, &error);
    pottle_catalogue *catalogue = NULL;
    int result =
        open_catalogue(a, POTTLE_WITH_JARS | POTTLE_WITH_FIGURES, &catalogue);
    if (result == DONE)
        result = kitchen_open(a, catalogue, false, &house);
    if (result == DONE)
        result = kitchen_jar(&house, catalogue, size, &jar, &own);
    if (result != DONE) {
        pottle_catalogue_free(catalogue);
        return result;
    }
    kitchen_quantity(&house, args_value(a, "volume"), &volume);
    pottle_estimate total = { volume.low * volume.unit->factor, 0 }, fill;
    const pottle_length mm = { headspace.low * headspace.unit->factor };
    pottle_jar_count count;
    if (volume.high > volume.low &&
        pottle_estimate_between(total.median, volume.high * volume.unit->factor,
                                &total) != POTTLE_OK)
        total.sd = 0;
    if ((own != NULL ? pottle_own_jar_fill(catalogue, own, mm, &fill, &error)
                     : pottle_jar_fill(catalogue, jar, mm, &fill, &error)) !=
        POTTLE_OK) {
        result = report(NULL, &error);
    } else if (pottle_jars_count(total, fill, &count) != POTTLE_OK) {
        result = usage_error(
            self, "that volume fills no jar, or more than can be counted");
    } else {
        const char *name = own != NULL ? own->id : jar->id;
        count.jar = jar;
        count.headspace = mm;
        if (json) {
            json_t *root = json_jars(&count);
            if (own != NULL) {
                json_object_set_new(root, "jar", json_string(own->id));
                json_object_set_new(root, "process_as", json_string(jar->id));
            }
            kitchen_add_cup(&house, root);
            result = print_json(root);
        } else {
            kitchen_note(&house);
            char over[40], each[40];
            short_number(count.remainder_ml, over, sizeof over);
            short_number(fill.median, each, sizeof each);
            wash_text("", &count, name);
            printf("a jar holds %s mL at that headspace; %s mL over\n", each,
                   over);
            if (own != NULL)
                printf("%s is a measured jar and takes the process of a %s\n",
                       own->id, jar->title);
            puts("Never process a part-filled jar: refrigerate what is over, "
                 "or use a smaller jar\nthat the recipe was tested in.");
        }
    }
    pottle_catalogue_free(catalogue);
    return result;
}

static int
run(const command *self, const args *a, bool json)
{
    if (args_has(a, "volume"))
        return from_volume(self, a, json);
    if (args_has(a, "headspace"))
        return usage_error(
            self, "--headspace goes with --volume; a recipe has its own");
    scaled s;
    int result = scaled_make(self, a, &s);
    const pottle_jar_count *j =
        result == DONE ? pottle_plan_jars(s.plan) : NULL;
    if (result == DONE && j == NULL) {
        complain("how many jars %s fills is not known: its source gives no "
                 "usable yield",
                 pottle_recipe_id(s.recipe));
        result = USAGE;
    } else if (result == DONE && json) {
        result = print_json(json_jars(j));
    } else if (result == DONE) {
        print_folded(stdout, "", pottle_recipe_title(s.recipe));
        jars_text(&s);
        cautions_text(&s);
    }
    scaled_free(&s);
    return result;
}

const command jars_command = {
    "jars", run, "RECIPE ... as scale ...\n--volume V --jar JAR --headspace H",
    "how many jars to wash, and what is left", scale_options
};
