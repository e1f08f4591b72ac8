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

/* All that was asked and found. */
typedef struct asked {
    const command *self;
    const args *a;
    bool json;
    pottle_catalogue *catalogue;
    pottle_recipe *recipe;
    const pottle_mishap *mishap;
    const pottle_jar *jar;
    const pottle_own_jar *own; /* NULL for a listed size */
    bool has_altitude,
        supposed; /* supposed: nothing was said of the first process */
    double altitude_m;
    pottle_pack_style pack;
    pottle_jar_facts facts;
    const pottle_rescue_case *answer,
        *otherwise; /* otherwise: when what is supposed is not so */
    bool has_remake;
    pottle_remake remake;
    bool
        wrong_differs; /* a tested recipe done wrong has an answer of its own */
    size_t processes;
    pottle_process process[POTTLE_PROCESS_MAX];
    household house;
    pottle_error
        refused; /* why there is no process to give again; code "" for none */
} asked;

/* -- Reading --------------------------------------------------------------- */

static int
read_number(const asked *k, const char *name, double *out, bool *given)
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
read_process(asked *k)
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

static bool
has_pack(const pottle_recipe *recipe, pottle_pack_style pack)
{
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (pack == POTTLE_ANY_PACK || t[i].raw == (pack == POTTLE_RAW_PACK))
            return true;
    return false;
}

/* What the recipe adds. A pack that it has no process for was not a tested one.
 */
static int
read_recipe(asked *k)
{
    const char *id = args_value(k->a, "recipe"),
               *pack = args_value(k->a, "pack");
    pottle_error error;
    int result = read_pack(k->self, pack, &k->pack);
    if (result != DONE)
        return result;
    if (id == NULL) {
        k->facts.hot_pack = k->pack == POTTLE_HOT_PACK;
        return DONE;
    }
    if (pottle_recipe_read(k->catalogue, id, &k->recipe, &error) != POTTLE_OK)
        return report(k->catalogue, &error, k->json);
    pottle_jar_facts_add(k->catalogue, k->recipe, k->jar, &k->facts);
    if (k->pack != POTTLE_ANY_PACK && !has_pack(k->recipe, k->pack))
        k->facts.followed = POTTLE_FOLLOWED_UNTESTED;
    k->supposed = k->supposed && k->facts.followed != POTTLE_FOLLOWED_UNTESTED;
    return DONE;
}

static int
read_all(asked *k)
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

static int
find_remake(asked *k)
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
        return report(k->catalogue, &error, k->json);
    kitchen_quantity(&k->house, text, &q);
    if (pottle_unit_convert(q.high, q.unit, pottle_unit_find("ml"), &volume.ml,
                            &error) != POTTLE_OK ||
        pottle_remake_lot(k->catalogue, pectin, volume, &k->remake, &error) !=
            POTTLE_OK)
        return report(k->catalogue, &error, k->json);
    k->has_remake = true;
    return DONE;
}

/* The process of the second time, where jar and altitude were told: hot pack,
 * as the rules ask; an interrupted one as it was packed. That there is none is
 * part of the answer. */
static void
find_process(asked *k)
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
    }
}

/* Whether a recipe has acid that can be forgotten. */
static bool
has_acid(const pottle_recipe *recipe)
{
    size_t n = 0;
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(per[i].role, "acid") == 0)
            return true;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(in[i].role, "acid") == 0)
            return true;
    return false;
}

/* The published doses of acid, one call for each; they were forgotten. */
static void
each_acid(const asked *k,
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
find_all(asked *k)
{
    pottle_error error;
    pottle_jar_facts unknown = k->facts, wrong = k->facts;
    const pottle_rescue_case *other = NULL;
    unknown.followed = POTTLE_FOLLOWED_UNKNOWN;
    wrong.followed = POTTLE_FOLLOWED_WRONG;
    if (k->recipe != NULL && strcmp(k->mishap->id, "acid-forgotten") == 0 &&
        !has_acid(k->recipe))
        return usage_error(k->self, "%s has no acid that could be forgotten",
                           pottle_recipe_id(k->recipe));
    if (pottle_rescue_find(k->mishap, &k->facts, &k->answer, &error) !=
            POTTLE_OK ||
        pottle_rescue_find(k->mishap, &unknown, &k->otherwise, &error) !=
            POTTLE_OK ||
        pottle_rescue_find(k->mishap, &wrong, &other, &error) != POTTLE_OK)
        return report(k->catalogue, &error, k->json);
    k->wrong_differs = other != k->otherwise && other != k->answer;
    const int result = find_remake(k);
    if (result == DONE)
        find_process(k);
    return result;
}

/* -- Writing --------------------------------------------------------------- */

/* The source in one line where it goes: the whole of it stands in 'pottle show'
 * and in the JSON. */
static void
print_cited(const asked *k, const char *first, const char *text,
            const pottle_cite *cite)
{
    char source[500];
    const pottle_source *s = pottle_source_find(k->catalogue, cite->source);
    snprintf(source, sizeof source, "%s; %s [%s]%s%s",
             s != NULL ? s->author : "", cite->at, cite->source,
             cite->standing != POTTLE_PUBLISHED ? ", " : "",
             cite->standing != POTTLE_PUBLISHED
                 ? pottle_standing_name((int)cite->standing)
                 : "");
    print_folded(stdout, first, text);
    print_folded(stdout, "                 - ", source);
}

static void
print_case(const asked *k, const pottle_rescue_case *c)
{
    for (size_t i = 0; i < c->options; i++) {
        char first[40];
        snprintf(first, sizeof first, "  %-14s ",
                 pottle_rescue_action_name((int)c->option[i].action));
        print_cited(k, first, c->option[i].text, &c->option[i].cite);
    }
    for (size_t i = 0; i < c->others; i++)
        print_cited(k, "  others say     ", c->other[i].text,
                    &c->other[i].cite);
    if (c->chosen[0] != '\0')
        print_folded(stdout, "  why this one   ", c->chosen);
}

static void
print_remake(const asked *k)
{
    const pottle_remake *r = &k->remake;
    const pottle_unit *ml = pottle_unit_find("ml"),
                      *cup = pottle_unit_find("cup");
    char text[700], cups[40] = "";
    double x = 0;
    if (pottle_unit_convert(r->volume_ml, ml, cup, &x, NULL) == POTTLE_OK)
        pottle_number_write(x, 2, cups, sizeof cups);
    printf("\nTo remake %s cups with %s pectin\n", cups,
           strcmp(r->way->pectin, "none") == 0 ? "no added" : r->way->pectin);
    for (size_t i = 0; i < r->lines; i++) {
        char measure[100] = "", mass[40] = "", left[160];
        if (r->line[i].has_measure)
            pottle_measure_write(&r->line[i].measure, measure, sizeof measure);
        else
            short_number(r->line[i].volume_ml, mass, sizeof mass),
                snprintf(measure, sizeof measure, "%s mL", mass);
        mass[0] = '\0';
        if (r->line[i].mass_g > 0)
            mass_text(r->line[i].mass_g, mass, sizeof mass);
        snprintf(left, sizeof left, "  %9s  %-21s ", mass, measure);
        print_folded(stdout, left, r->line[i].title);
    }
    print_folded(stdout, "  ", r->way->text);
    size_t n = (size_t)snprintf(text, sizeof text,
                                "%s in headspace, new lids, jars of",
                                r->remaking->process.headspace);
    for (size_t i = 0; i < r->remaking->process.jars && n < sizeof text; i++)
        n += (size_t)snprintf(text + n, sizeof text - n, "%s %s",
                              i == 0 ? "" : " or", r->remaking->process.jar[i]);
    print_folded(stdout, "  ", text);
    if (r->over_usual && pottle_unit_convert(r->remaking->usual_ml, ml, cup, &x,
                                             NULL) == POTTLE_OK) {
        pottle_number_write(x, 2, cups, sizeof cups);
        snprintf(text, sizeof text, "It is advised in lots of %s cups.", cups);
        print_folded(stdout, "  ", text);
    }
    source_text(k->catalogue, r->way->cite.source, r->way->cite.at, text,
                sizeof text);
    print_folded(stdout, "  source: ", text);
    for (size_t i = 0; i < r->remaking->others; i++)
        print_cited(k, "  others say     ", r->remaking->other[i].text,
                    &r->remaking->other[i].cite);
    print_folded(stdout, "  why this one   ", r->remaking->chosen);
}

static void
print_acid(void *context, const pottle_jar_choice *choice,
           const pottle_jar_dose *dose, bool first)
{
    const asked *k = context;
    const char *name = pottle_food_name(k->catalogue, choice->food, 0);
    char text[200], each[40];
    pottle_number_write(dose->amount, 3, each, sizeof each);
    snprintf(text, sizeof text, "%s %s of %s a %s", each, dose->unit->symbol,
             name != NULL ? name : choice->food, dose->jar);
    print_folded(stdout, first ? "  acid to add    " : "  or             ",
                 text);
}

static void
print_more(asked *k)
{
    each_acid(k, print_acid, k);
    if (k->has_remake)
        print_remake(k);
    if (k->refused.code[0] != '\0')
        print_folded(stdout, "  not processed  ", k->refused.what);
    if (k->processes == 0)
        return;
    char metres[40];
    pottle_number_write(k->altitude_m, 0, metres, sizeof metres);
    printf("\nProcess of %s at %s m%s\n", k->jar->id, metres,
           k->processes > 1 ? ", one of" : "");
    process_text(k->process, k->processes);
    if (k->own != NULL) {
        char text[200];
        snprintf(text, sizeof text,
                 "%s is a measured jar and takes the process of a %s",
                 k->own->id, k->jar->title);
        print_folded(stdout, "  ", text);
    }
    const pottle_rule *rule = pottle_rule_find(k->catalogue, "jam-12");
    if (k->process[0].table->sterile && k->process[0].band->minutes < 10 &&
        rule != NULL)
        print_folded(stdout, "  ", rule->text);
}

static void
print_text(asked *k)
{
    char text[400], hours[40];
    pottle_number_write(k->facts.hours, 2, hours, sizeof hours);
    /* limits are whole hours: what is a little over one is seen to be */
    if (strchr(hours, '.') == NULL)
        pottle_number_write(k->facts.hours, 9, hours, sizeof hours);
    if (k->facts.has_hours)
        snprintf(text, sizeof text, "%s, %s hour%s %s", k->mishap->title, hours,
                 strcmp(hours, "1") == 0 ? "" : "s", k->mishap->clock);
    else
        snprintf(text, sizeof text,
                 "%s; hours %s were not told, so the age counts as not known",
                 k->mishap->title, k->mishap->clock);
    print_folded(stdout, "", text);
    kitchen_note(&k->house);
    if (k->facts.followed == POTTLE_FOLLOWED_UNTESTED && k->recipe != NULL) {
        snprintf(text, sizeof text, "%s%s: what was done counts as untested.",
                 pottle_recipe_id(k->recipe),
                 pottle_recipe_standing(k->recipe) != POTTLE_TESTED
                     ? " is no tested recipe"
                 : k->pack == POTTLE_RAW_PACK ? ", raw pack"
                 : k->pack == POTTLE_HOT_PACK ? ", hot pack"
                                              : "");
        print_folded(stdout, "", text);
    }
    if (k->supposed && k->answer != k->otherwise) {
        snprintf(text, sizeof text,
                 "If %s, the published rules allow:", k->mishap->supposed);
        print_folded(stdout, "", text);
    } else {
        puts("The published rules allow:");
    }
    print_case(k, k->answer);
    print_more(k);
    if (k->supposed && k->answer != k->otherwise) {
        puts("\nIf not, or if nobody knows:");
        print_case(k, k->otherwise);
        if (k->wrong_differs)
            print_folded(stdout, "  ",
                         "If it was a tested recipe and something was done "
                         "wrong, ask again with --process wrong.");
    }
    puts("");
    print_folded(
        stdout, "",
        "This says what the sources allow, not that a jar is fit to be eaten. "
        "When in doubt, discard it unopened and do not taste it.");
    for (size_t i = 0; cautions[i] != NULL; i++)
        print_folded(stdout, "", cautions[i]);
}

static json_t *
json_case(const asked *k, const pottle_rescue_case *c)
{
    json_t *list = json_array(), *others = json_array();
    for (size_t i = 0; i < c->options; i++) {
        const pottle_rescue_option *o = &c->option[i];
        json_array_append_new(
            list,
            json_pack("{s:s, s:s, s:o, s:o, s:o, s:s, s:o}", "do",
                      pottle_rescue_action_name((int)o->action), "text",
                      o->text, "days",
                      o->days > 0 ? json_number(o->days) : json_null(),
                      "days_to",
                      o->days_to > 0 ? json_number(o->days_to) : json_null(),
                      "headspace_mm",
                      o->headspace.mm > 0 ? json_number(o->headspace.mm)
                                          : json_null(),
                      "standing", pottle_standing_name((int)o->cite.standing),
                      "source",
                      json_source(k->catalogue, o->cite.source, o->cite.at)));
    }
    for (size_t i = 0; i < c->others; i++)
        json_array_append_new(
            others, json_pack("{s:s, s:o}", "text", c->other[i].text, "source",
                              json_source(k->catalogue, c->other[i].cite.source,
                                          c->other[i].cite.at)));
    return json_pack("{s:o, s:o, s:o}", "allowed", list, "others", others,
                     "why", json_text(c->chosen));
}

static json_t *
json_remake(const asked *k)
{
    const pottle_remake *r = &k->remake;
    json_t *list = json_array();
    for (size_t i = 0; i < r->lines; i++) {
        char measure[100] = "";
        if (r->line[i].has_measure)
            pottle_measure_write(&r->line[i].measure, measure, sizeof measure);
        json_array_append_new(
            list,
            json_pack("{s:s, s:o, s:o, s:o}", "food", r->line[i].add->food,
                      "mass_g",
                      r->line[i].mass_g > 0 ? json_number(r->line[i].mass_g)
                                            : json_null(),
                      "volume_ml", json_number(r->line[i].volume_ml), "measure",
                      json_text(measure)));
    }
    return json_pack(
        "{s:s, s:o, s:o, s:o, s:s, s:o}", "pectin", r->way->pectin, "volume_ml",
        json_number(r->volume_ml), "boil_min", json_number(r->way->boil_min),
        "add", list, "text", r->way->text, "source",
        json_source(k->catalogue, r->way->cite.source, r->way->cite.at));
}

static void
add_acid(void *context, const pottle_jar_choice *choice,
         const pottle_jar_dose *dose, bool first)
{
    (void)first;
    json_array_append_new(context, json_pack("{s:s, s:s, s:o, s:s}", "food",
                                             choice->food, "jar", dose->jar,
                                             "each", json_number(dose->amount),
                                             "unit", dose->unit->id));
}

static int
print_answer(const asked *k)
{
    json_t *root = json_pack(
        "{s:s, s:o, s:o, s:b}", "mishap", k->mishap->id, "hours",
        k->facts.has_hours ? json_number(k->facts.hours) : json_null(),
        "recipe",
        k->recipe != NULL ? json_string(pottle_recipe_id(k->recipe))
                          : json_null(),
        "supposed", k->supposed);
    json_object_set_new(root, "if",
                        k->supposed ? json_string(k->mishap->supposed)
                                    : json_null());
    json_object_set_new(root, "answer", json_case(k, k->answer));
    json_object_set_new(root, "otherwise",
                        k->supposed ? json_case(k, k->otherwise) : json_null());
    json_object_set_new(root, "remake",
                        k->has_remake ? json_remake(k) : json_null());
    json_t *acids = json_array(), *processes = json_array();
    each_acid(k, add_acid, acids);
    for (size_t i = 0; i < k->processes; i++) {
        const pottle_process *p = &k->process[i];
        json_array_append_new(
            processes,
            json_pack(
                "{s:s, s:s, s:s, s:o, s:i, s:o, s:o}", "method",
                pottle_method_name((int)p->table->method), "jar", p->jar->id,
                "tested_as", p->tested_as->id, "altitude_m",
                json_number(k->altitude_m), "minutes", p->band->minutes, "psi",
                p->band->psi > 0 ? json_integer(p->band->psi) : json_null(),
                "source",
                json_source(k->catalogue, p->table->cite.source,
                            p->table->cite.at)));
    }
    json_object_set_new(root, "acid", acids);
    json_object_set_new(root, "processes", processes);
    json_object_set_new(
        root, "not_processed",
        json_text(k->refused.code[0] != '\0' ? k->refused.what : NULL));
    kitchen_add_cup(&k->house, root);
    json_object_set_new(root, "cautions", json_cautions());
    return print_json(root);
}

static int
print_list(const asked *k)
{
    size_t n = 0;
    const pottle_mishap *m = pottle_mishaps(k->catalogue, &n);
    json_t *list = k->json ? json_array() : NULL;
    for (size_t i = 0; i < n; i++) {
        if (k->json)
            json_array_append_new(list,
                                  json_pack("{s:s, s:s}", "mishap", m[i].id,
                                            "title", m[i].title));
        else
            printf("  %-21s%s\n", m[i].id, m[i].title);
    }
    return k->json ? print_json(json_pack("{s:o}", "mishaps", list)) : DONE;
}

static int
run(const command *self, const args *a, bool json)
{
    asked k = { .self = self,
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
        result = print_list(&k);
    } else if (pottle_mishap_find(k.catalogue, a->operand[0], &k.mishap,
                                  &error) != POTTLE_OK) {
        result = report(k.catalogue, &error, json);
    } else {
        result = read_all(&k);
        if (result == DONE)
            result = find_all(&k);
        if (result == DONE && json)
            result = print_answer(&k);
        else if (result == DONE)
            print_text(&k);
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
