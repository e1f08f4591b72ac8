/* rescue_print.c - what the published rules still allow, for the person and for
 * a script. */
#include "cli.h"

#include <string.h>

/* The source in one line where it goes: the whole of it stands in 'pottle show'
 * and in the JSON. */
static void
print_cited(const rescue_asked *k, const char *first, const char *text,
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
print_case(const rescue_asked *k, const pottle_rescue_case *c)
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

static const char other_pectin[] =
    "Mind the pectin: the recipe is made with the other kind, and no source "
    "says that one may be cooked again with the other. Ask with --pectin for "
    "the kind that is in it.";

static void
see_spoon(void *context, const pottle_jar_choice *choice,
          const pottle_jar_dose *dose, bool first)
{
    bool *any = context;
    (void)choice;
    (void)first;
    *any = *any || us_unit(dose->unit);
}

/* Whether the answer measures by cups and spoons. */
static bool
in_cups(const rescue_asked *k)
{
    bool any = k->has_remake;
    rescue_each_acid(k, see_spoon, &any);
    return any;
}

static void
print_remake(const rescue_asked *k)
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
    if (k->other_pectin)
        print_folded(stdout, "  ", other_pectin);
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
    const rescue_asked *k = context;
    const char *name = pottle_food_name(k->catalogue, choice->food, 0);
    char text[200], each[40];
    pottle_number_write(dose->amount, 3, each, sizeof each);
    snprintf(text, sizeof text, "%s %s of %s a %s", each, dose->unit->symbol,
             name != NULL ? name : choice->food, dose->jar);
    print_folded(stdout, first ? "  acid to add    " : "  or             ",
                 text);
}

static void
print_more(rescue_asked *k)
{
    rescue_each_acid(k, print_acid, k);
    if (k->has_remake)
        print_remake(k);
    if (k->refused.code[0] != '\0')
        print_folded(stdout, "  not processed  ", k->refused.what);
    if (k->processes == 0)
        return;
    char height[60];
    altitude_text(k->a, &k->house, k->altitude_m, height, sizeof height);
    printf("\nProcess of %s at %s%s\n", k->jar->id, height,
           k->processes > 1 ? ", one of" : "");
    process_text(k->process, k->processes);
    if (k->recipe != NULL)
        kitchen_gauge_text(&k->house, k->catalogue, k->recipe, k->process,
                           k->processes);
    kitchen_lacks_text(&k->house, k->process, k->processes);
    high_text(k->process, k->processes, k->altitude_m);
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

void
rescue_text(rescue_asked *k)
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
    kitchen_note(&k->house, in_cups(k));
    if (k->untested.code[0] != '\0') {
        snprintf(text, sizeof text, "%s. What was done counts as untested.",
                 k->untested.what);
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
json_case(const rescue_asked *k, const pottle_rescue_case *c)
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
json_remake(const rescue_asked *k)
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
        "{s:s, s:o, s:o, s:o, s:o, s:s, s:o}", "pectin", r->way->pectin,
        "other_pectin", json_text(k->other_pectin ? other_pectin : NULL),
        "volume_ml", json_number(r->volume_ml), "boil_min",
        json_number(r->way->boil_min), "add", list, "text", r->way->text,
        "source",
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

int
rescue_json(const rescue_asked *k)
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
    json_object_set_new(
        root, "untested",
        json_text(k->untested.code[0] != '\0' ? k->untested.what : NULL));
    json_object_set_new(root, "answer", json_case(k, k->answer));
    json_object_set_new(root, "otherwise",
                        k->supposed ? json_case(k, k->otherwise) : json_null());
    json_object_set_new(root, "remake",
                        k->has_remake ? json_remake(k) : json_null());
    json_t *acids = json_array(), *processes = json_array();
    rescue_each_acid(k, add_acid, acids);
    for (size_t i = 0; i < k->processes; i++) {
        const pottle_process *p = &k->process[i];
        json_t *one = json_pack(
            "{s:s, s:b, s:s, s:s, s:o, s:i, s:o, s:o}", "method",
            pottle_method_name((int)p->table->method), "no_canner",
            (int)kitchen_lacks(&k->house, p), "jar", p->jar->id, "tested_as",
            p->tested_as->id, "altitude_m", json_number(k->altitude_m),
            "minutes", p->band->minutes, "psi",
            p->band->psi > 0 ? json_integer(p->band->psi) : json_null(),
            "source",
            json_source(k->catalogue, p->table->cite.source,
                        p->table->cite.at));
        if (k->recipe != NULL)
            kitchen_add_set_psi(&k->house, k->catalogue, k->recipe, p, one);
        json_array_append_new(processes, one);
    }
    json_object_set_new(root, "acid", acids);
    json_object_set_new(root, "processes", processes);
    if (k->processes > 0)
        kitchen_add_unused(&k->house, k->catalogue, root);
    json_object_set_new(
        root, "not_processed",
        json_text(k->refused.code[0] != '\0' ? k->refused.what : NULL));
    kitchen_add_cup(&k->house, root, in_cups(k));
    json_object_set_new(root, "cautions", json_cautions());
    return print_json(root);
}

int
rescue_list(const rescue_asked *k)
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
