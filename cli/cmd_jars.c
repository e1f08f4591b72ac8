/* cmd_jars.c - pottle jars: how many jars a recipe or a volume fills. */
#include "cli.h"

static int
print_volume(const household *house, const pottle_jar_count *count, bool json)
{
    if (json) {
        json_t *root = json_jars(count, house);
        kitchen_add_cup(house, root, false);
        return print_json(root);
    }
    char over[40], each[40];
    kitchen_note(house, false);
    short_number(count->remainder_ml, over, sizeof over);
    short_number(count->fill_ml.median, each, sizeof each);
    wash_text("", count, jars_name(count));
    kitchen_shelf_text(house, count);
    printf("a jar holds %s mL at that headspace; %s mL over\n", each, over);
    if (count->own != NULL)
        printf("%s is a measured jar and takes the process of a %s\n",
               count->own->id, count->jar->title);
    puts("Never process a part-filled jar: refrigerate what is over, or use a "
         "smaller jar\nthat the recipe was tested in.");
    return DONE;
}

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
    pottle_estimate total, fill;
    pottle_length mm;
    pottle_jar_count count = { .jar = jar, .own = own };
    const pottle_unit *ml = pottle_unit_find("ml");
    double low = 0, high = 0;
    if (pottle_unit_convert(volume.low, volume.unit, ml, &low, &error) !=
            POTTLE_OK ||
        pottle_unit_convert(volume.high, volume.unit, ml, &high, &error) !=
            POTTLE_OK ||
        pottle_unit_convert(headspace.low, headspace.unit,
                            pottle_unit_find("mm"), &mm.mm,
                            &error) != POTTLE_OK ||
        (own != NULL ? pottle_own_jar_fill(catalogue, own, mm, &fill, &error)
                     : pottle_jar_fill(catalogue, jar, mm, &fill, &error)) !=
            POTTLE_OK) {
        result = report(NULL, &error);
    } else if (pottle_estimate_between(low, high, &total) != POTTLE_OK ||
               pottle_jars_count(total, fill, &count) != POTTLE_OK) {
        result = usage_error(
            self, "that volume fills no jar, or more than can be counted");
    } else {
        count.headspace = mm;
        result = print_volume(&house, &count, json);
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
        result = print_json(json_jars(j, &s.house));
    } else if (result == DONE) {
        print_folded(stdout, "", pottle_recipe_title(s.recipe));
        kitchen_note(&s.house, doses_in_cups(s.plan));
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
