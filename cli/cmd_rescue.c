/* cmd_rescue.c - pottle rescue: what the published rules allow when something
 * went wrong, by the clock. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "hours", "H", "hours since then; without it the jar counts as too old" },
    { "process", "HOW",
      "of the first process: followed, wrong (tested recipe, wrong time ...) "
      "or untested" },
    { "recipe", "ID",
      "what is in the jar: tells of a tested hot pack and of acid" },
    { "pack", "hot|raw", "how it was packed" },
    { "fraction", "X",
      "liquid-lost: share of the liquid that is gone, 0 to 1" },
    { "volume", "V", "jam-not-set: measured, for what to add" },
    { "pectin", "KIND", "jam-not-set: powdered, liquid or none" },
    { "jar", "JAR", "size of jar: half-pint, pint, quart, 500-ml ..." },
    { "altitude", "H",
      "'900 m' or '6200 ft', for the time of the second process" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* -- Reading --------------------------------------------------------------- */

static int
read_number(const rescue_asked *k, const char *name, double *out, bool *given)
{
    const char *text = args_value(k->a, name);
    pottle_range range;
    *given = text != NULL;
    if (text == NULL)
        return DONE;
    if (pottle_number_read(text, &range) != POTTLE_OK)
        return usage_error(k->self,
                           "'%.40s' of --%s is not a number from 0 upwards",
                           text, name);
    *out = range.high; /* of 20-30 hours the later one, of a third to a half the
                          half */
    return DONE;
}

static int
read_process(rescue_asked *k)
{
    static const struct {
        const char *name;
        pottle_followed followed;
    } hows[] = {
        { "followed", POTTLE_FOLLOWED },
        { "wrong", POTTLE_FOLLOWED_WRONG },
        { "untested", POTTLE_FOLLOWED_UNTESTED },
        { "unknown", POTTLE_FOLLOWED_UNKNOWN },
    };
    const char *text = args_value(k->a, "process");
    k->supposed = text == NULL;
    k->facts.followed = k->mishap->supposes;
    for (size_t i = 0; text != NULL && i < sizeof hows / sizeof hows[0]; i++) {
        if (strcmp(text, hows[i].name) == 0) {
            k->facts.followed = hows[i].followed;
            return DONE;
        }
    }
    return text == NULL ? DONE
                        : usage_error(k->self,
                                      "'%.40s' is not a process; there are "
                                      "followed, wrong, untested and unknown",
                                      text);
}

/* What the recipe adds. A jar, a pack or an altitude that it has no process for
 * was not a tested one; where the process is told to be wrong, jar and altitude
 * are those of the second. */
static int
read_recipe(rescue_asked *k)
{
    const char *id = args_value(k->a, "recipe"),
               *pack = args_value(k->a, "pack");
    pottle_error error;
    int result = read_pack(k->self, pack, &k->pack);
    if (result != DONE)
        return result;
    if (id == NULL) {
        k->facts.hot_pack = k->pack == POTTLE_HOT_PACK;
        k->facts.jar_acid = true; /* as the mishap supposes */
        return DONE;
    }
    if (pottle_recipe_read(k->catalogue, id, &k->recipe, &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    if (pottle_mishap_suits(k->catalogue, k->mishap, k->recipe, &error) !=
        POTTLE_OK)
        return report(k->catalogue, &error);
    const bool wrong = k->facts.followed == POTTLE_FOLLOWED_WRONG;
    pottle_jar_facts_add(k->catalogue, k->recipe, k->jar, &k->facts);
    const pottle_status status = pottle_process_exists(
        k->catalogue, k->recipe, wrong ? NULL : k->jar, k->pack,
        wrong || !k->has_altitude ? NULL : &k->altitude_m, &k->untested);
    if (status == POTTLE_EBOUNDS)
        k->facts.followed = POTTLE_FOLLOWED_UNTESTED;
    else if (status != POTTLE_OK)
        return report(k->catalogue, &k->untested);
    k->supposed = k->supposed && k->facts.followed != POTTLE_FOLLOWED_UNTESTED;
    return DONE;
}

static int
read_all(rescue_asked *k)
{
    const char *size = args_value(k->a, "jar"),
               *height = args_value(k->a, "altitude");
    int result = read_number(k, "hours", &k->facts.hours, &k->facts.has_hours);
    if (result == DONE)
        result = read_number(k, "fraction", &k->facts.lost, &k->facts.has_lost);
    if (result == DONE && height != NULL) {
        result = read_altitude(height, &k->altitude_m);
        k->has_altitude = result == DONE;
    }
    if (result == DONE)
        result = kitchen_open(k->a, k->catalogue, false, &k->house);
    if (result == DONE && size != NULL)
        result = kitchen_jar(&k->house, k->catalogue, size, &k->jar, &k->own);
    if (result == DONE)
        result = kitchen_altitude(&k->house, &k->has_altitude, &k->altitude_m);
    if (result == DONE)
        result = read_process(k);
    return result == DONE ? read_recipe(k) : result;
}

/* -- Finding --------------------------------------------------------------- */

static bool
offers(const pottle_rescue_case *c, pottle_rescue_action action)
{
    for (size_t i = 0; i < c->options; i++)
        if (c->option[i].action == action)
            return true;
    return false;
}

/* Whether a recipe is made with the pectin of that id. */
static bool
made_with(const pottle_recipe *recipe, const char *food)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(in[i].food, food) == 0)
            return true;
    return false;
}

static int
find_remake(rescue_asked *k)
{
    const char *text = args_value(k->a, "volume"),
               *pectin = args_value(k->a, "pectin");
    pottle_quantity q;
    pottle_volume volume;
    pottle_error error;
    if (text == NULL && pectin == NULL)
        return DONE;
    if (text == NULL || pectin == NULL ||
        strcmp(k->mishap->id, "jam-not-set") != 0)
        return usage_error(
            k->self, "--volume and --pectin go together, with jam-not-set");
    if (!offers(k->answer, POTTLE_RESCUE_REMAKE))
        return DONE;
    if (pottle_quantity_read(text, POTTLE_VOLUME, &q, &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    kitchen_quantity(&k->house, text, &q);
    if (pottle_unit_convert(q.high, q.unit, pottle_unit_find("ml"), &volume.ml,
                            &error) != POTTLE_OK ||
        pottle_remake_lot(k->catalogue, pectin, volume, &k->remake, &error) !=
            POTTLE_OK)
        return report(k->catalogue, &error);
    k->has_remake = true;
    k->other_pectin =
        k->recipe != NULL && ((strcmp(pectin, "liquid") == 0 &&
                               made_with(k->recipe, "powdered-pectin")) ||
                              (strcmp(pectin, "powdered") == 0 &&
                               made_with(k->recipe, "liquid-pectin")));
    return DONE;
}

/* The process of the second time, where jar and altitude were told: hot pack,
 * as the rules ask; an interrupted one as it was packed. That there is none is
 * part of the answer. */
static void
find_process(rescue_asked *k)
{
    if (k->jar == NULL || !k->has_altitude)
        return;
    if (k->has_remake) {
        k->processes =
            pottle_remaking_process(k->catalogue, k->jar, k->altitude_m,
                                    &k->process[0], &k->refused) == POTTLE_OK;
    } else if (k->recipe != NULL &&
               offers(k->answer, POTTLE_RESCUE_REPROCESS)) {
        const pottle_pack_style pack =
            strcmp(k->mishap->id, "process-interrupted") == 0 ? k->pack
                                                              : POTTLE_HOT_PACK;
        if (pottle_process_find(k->catalogue, k->recipe, k->jar, NULL, pack,
                                k->altitude_m, k->process, &k->processes,
                                &k->refused) != POTTLE_OK)
            k->processes = 0;
        if (k->processes == 0)
            return;
        kitchen_judge(&k->house, k->catalogue, k->recipe);
        k->processes =
            kitchen_usable(&k->house, k->process, k->processes, k->process);
        if (k->processes == 0)
            k->refused = k->house.why;
    }
}

/* The published doses of acid, one call for each; they were forgotten. */
void
rescue_each_acid(const rescue_asked *k,
                 void (*tell)(void *, const pottle_jar_choice *,
                              const pottle_jar_dose *, bool),
                 void *context)
{
    size_t n = 0;
    if (k->recipe == NULL || strcmp(k->mishap->id, "acid-forgotten") != 0 ||
        !offers(k->answer, POTTLE_RESCUE_REPROCESS))
        return;
    const pottle_per_jar *per = pottle_recipe_per_jar(k->recipe, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t c = 0;
             strcmp(per[i].role, "acid") == 0 && c < per[i].choices; c++)
            for (size_t d = 0; d < per[i].choice[c].doses; d++)
                tell(context, &per[i].choice[c], &per[i].choice[c].dose[d],
                     c == 0 && d == 0);
}

static int
find_all(rescue_asked *k)
{
    pottle_error error;
    pottle_jar_facts unknown = k->facts, wrong = k->facts;
    const pottle_rescue_case *other = NULL;
    unknown.followed = POTTLE_FOLLOWED_UNKNOWN;
    wrong.followed = POTTLE_FOLLOWED_WRONG;
    if (pottle_rescue_find(k->mishap, &k->facts, &k->answer, &error) !=
            POTTLE_OK ||
        pottle_rescue_find(k->mishap, &unknown, &k->otherwise, &error) !=
            POTTLE_OK ||
        pottle_rescue_find(k->mishap, &wrong, &other, &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    k->wrong_differs = other != k->otherwise && other != k->answer;
    const int result = find_remake(k);
    if (result == DONE)
        find_process(k);
    return result;
}

static int
run(const command *self, const args *a, bool json)
{
    rescue_asked k = { .self = self,
                       .a = a,
                       .json = json,
                       .facts = { .version = POTTLE_JAR_FACTS_VERSION } };
    pottle_error error;
    if (a->operands > 1)
        return usage_error(self, "rescue takes one mishap");
    int result = open_catalogue(a,
                                POTTLE_WITH_NAMES | POTTLE_WITH_FIGURES |
                                    POTTLE_WITH_JARS | POTTLE_WITH_RULES |
                                    POTTLE_WITH_SOURCES | POTTLE_WITH_RESCUE,
                                &k.catalogue);
    if (result != DONE)
        return result;
    if (a->operands == 0) {
        result = rescue_list(&k);
    } else if (pottle_mishap_find(k.catalogue, a->operand[0], &k.mishap,
                                  &error) != POTTLE_OK) {
        result = report(k.catalogue, &error);
    } else {
        result = read_all(&k);
        if (result == DONE)
            result = find_all(&k);
        if (result == DONE && json)
            result = rescue_json(&k);
        else if (result == DONE)
            rescue_text(&k);
    }
    pottle_recipe_free(k.recipe);
    pottle_catalogue_free(k.catalogue);
    return result;
}

const command rescue_command = {
    "rescue", run,
    "MISHAP [--hours H] [--process HOW] [--recipe ID] [--pack hot|raw] [--jar "
    "JAR --altitude H]\n"
    "liquid-lost --fraction X [--hours H]\n"
    "jam-not-set --volume V --pectin powdered|liquid|none\n",
    "what the published rules still allow when something went wrong", options
};
