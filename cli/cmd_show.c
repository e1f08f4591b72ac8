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

static void
print_cite(const pottle_catalogue *c, const char *indent,
           const pottle_cite *cite)
{
    char text[600], first[40];
    source_text(c, cite->source, cite->at, text, sizeof text);
    snprintf(first, sizeof first, "%s%s: ", indent,
             pottle_standing_name((int)cite->standing));
    print_folded(stdout, first, text);
    if (cite->note[0] != '\0')
        print_folded(stdout, indent, cite->note);
}

/* A cite in one short line: its place and key. */
static void
short_cite(const pottle_cite *cite, char *buf, size_t size)
{
    snprintf(buf, size, "%s, %s%s%s%s%s", cite->source, cite->at,
             cite->standing == POTTLE_PUBLISHED ? "" : " (",
             cite->standing == POTTLE_PUBLISHED
                 ? ""
                 : pottle_standing_name((int)cite->standing),
             cite->standing == POTTLE_PUBLISHED ? "" : ")",
             cite->note[0] != '\0' ? ";" : "");
    const size_t n = strlen(buf);
    if (cite->note[0] != '\0' && n + 2 < size)
        snprintf(buf + n, size - n, " %s", cite->note);
}

/* A food as people call it, with its form behind it; its id when it cannot be
 * read. */
static void
name_text(const pottle_catalogue *c, const char *id, const char *form,
          double pieces, const char *size, char *buf, size_t buf_size)
{
    pottle_food *food = NULL;
    if (pottle_food_read(c, id, &food, NULL) == POTTLE_OK)
        food_text(c, id, pottle_food_title(food), pottle_form_said(food, form),
                  pieces, size, buf, buf_size);
    else
        snprintf(buf, buf_size, "%s", id);
    pottle_food_free(food);
}

static void
show_ingredient(const pottle_catalogue *c, const pottle_ingredient *in)
{
    char left[80], text[700], amount[40], cite[300], unit[40], name[160],
        to[40], per[200] = "", raw[100] = "";
    const bool counted = in->unit->dimension == POTTLE_COUNT;
    const bool range = in->amount_to > in->amount,
               weighed_raw = in->unit->dimension == POTTLE_MASS &&
                             in->state != POTTLE_PREPARED;
    count_text(in->amount_to, to, sizeof to);
    snprintf(amount, sizeof amount, "%s%s%s", in->printed, range ? " to " : "",
             range ? to : "");
    unit_text(range ? in->amount_to : in->amount, in->unit, in->size, unit,
              sizeof unit);
    snprintf(left, sizeof left, "  %10s %-6s ", amount, unit);
    /* what is weighed as bought is cut up later, as the words behind say */
    name_text(c, in->food, weighed_raw ? "" : in->form,
              counted && !range ? in->amount : 0, in->size, name, sizeof name);
    if (in->per != NULL) {
        char base[160];
        name_text(c, in->per_food, "", 0, "", base, sizeof base);
        snprintf(per, sizeof per, "for each %s of %s: ", in->per->symbol, base);
    }
    if (in->raw_unit != NULL) {
        count_text(in->raw, to, sizeof to);
        snprintf(raw, sizeof raw, ", from about %s %s as bought", to,
                 in->raw_unit->symbol);
    }
    snprintf(text, sizeof text, "%s%s (%s%s%s%s; %s, %s%s%s)", per, name,
             in->state == POTTLE_PREPARED ? "ready to use"
             : in->state == POTTLE_PICKED ? "as picked"
                                          : "as bought",
             raw, in->then[0] != '\0' ? "; " : "", in->then, in->role,
             pottle_keep_name((int)in->keep), in->optional ? ", optional" : "",
             in->stays ? "" : ", taken out again");
    print_folded(stdout, left, text);
    short_cite(&in->cite, cite, sizeof cite);
    print_folded(stdout, "                    ", cite);
    for (size_t o = 0; o < in->alternatives; o++) {
        const pottle_alternative *a = &in->alternative[o];
        name_text(c, a->food, a->form, 0, "", name, sizeof name);
        snprintf(text, sizeof text, "or %s, by rule %s", name, a->rule);
        print_folded(stdout, "                    ", text);
    }
}

static void
show_ingredients(const pottle_catalogue *c, const pottle_recipe *r)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(r, &n);
    printf("\nIngredients of the %s\n", batch_word(r));
    for (size_t i = 0; i < n; i++)
        show_ingredient(c, &in[i]);
}

static void
show_processes(const pottle_recipe *r)
{
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(r, &n);
    if (n == 0)
        puts("\nNot canned: no process.");
    for (size_t i = 0; i < n; i++) {
        char text[400], cite[300];
        int k =
            snprintf(text, sizeof text,
                     "%s pack, %s, headspace %s in:", t[i].raw ? "raw" : "hot",
                     pottle_method_name((int)t[i].method), t[i].headspace);
        for (size_t j = 0; j < t[i].jars; j++)
            k += snprintf(text + k, sizeof text - (size_t)k, "%s %.20s",
                          j > 0 ? "," : "", t[i].jar[j]);
        printf("\n");
        print_folded(stdout, "", text);
        for (size_t b = 0; b < t[i].bands; b++) {
            const pottle_band *band = &t[i].band[b];
            char range[40];
            if (band->to_ft < 0)
                snprintf(range, sizeof range, "%d ft and above", band->from_ft);
            else
                snprintf(range, sizeof range, "%d to %d ft", band->from_ft,
                         band->to_ft);
            printf("  %-20s %3d min", range, band->minutes);
            if (band->psi > 0)
                printf(", %d psi", band->psi);
            puts("");
        }
        short_cite(&t[i].cite, cite, sizeof cite);
        print_folded(stdout, "  ", cite);
    }
}

static void
show_dose(const pottle_catalogue *c, const pottle_per_jar *p, size_t choice,
          const pottle_jar_dose *dose)
{
    char cite[300], left[90], unit[40], name[160], text[520];
    const char *food = p->choice[choice].food;
    const bool counted = dose->unit->dimension == POTTLE_COUNT;
    unit_text(dose->amount, dose->unit, dose->size, unit, sizeof unit);
    snprintf(left, sizeof left, "  %s%s%s%s, %s: ", choice > 0 ? "or " : "",
             dose->printed, unit[0] != '\0' ? " " : "", unit, dose->jar);
    name_text(c, food, dose->form, counted ? dose->amount : 0, dose->size, name,
              sizeof name);
    short_cite(&dose->cite, cite, sizeof cite);
    snprintf(text, sizeof text, "%s%s (%s)", name,
             p->optional ? ", optional" : "", cite);
    print_folded(stdout, left, text);
}

static void
show_per_jar(const pottle_catalogue *c, const pottle_recipe *r)
{
    size_t n = 0;
    const pottle_per_jar *p = pottle_recipe_per_jar(r, &n);
    if (n > 0)
        puts("\nInto each jar");
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < p[i].choices; k++)
            for (size_t d = 0; d < p[i].choice[k].doses; d++)
                show_dose(c, &p[i], k, &p[i].choice[k].dose[d]);
}

/* "7 quart jars", "16 to 19 pint jars". */
static void
jars_number(double low, double high, const char *jar, char *buf, size_t size)
{
    char to[40] = "";
    if (high > low)
        snprintf(to, sizeof to, " to %g", high);
    snprintf(buf, size, "%g%s %s jar%s", low, to, jar, high > 1 ? "s" : "");
}

/* As many pounds as so many grams are: "21", "17.5". */
static void
pounds(double g, char *buf, size_t size)
{
    double lb = 0;
    buf[0] = '\0';
    if (pottle_unit_convert(g, pottle_unit_find("g"), pottle_unit_find("lb"),
                            &lb, NULL) == POTTLE_OK)
        snprintf(buf, size, "%.4g", lb);
}

static void
show_quantities(const pottle_catalogue *c, const pottle_recipe *r)
{
    const pottle_quantities *q = pottle_recipe_quantities(r);
    char cite[300], text[420], lb[40], jars[60], name[160];
    if (q->loads + q->averages + q->containers > 0) {
        name_text(c, q->food, "", 0, "", name, sizeof name);
        printf("\nQuantities of %s, as bought\n", name);
    }
    for (size_t i = 0; i < q->loads; i++) {
        short_cite(&q->load[i].cite, cite, sizeof cite);
        pounds(q->load[i].grams, lb, sizeof lb);
        jars_number(q->load[i].jars, q->load[i].jars, q->load[i].jar, jars,
                    sizeof jars);
        snprintf(text, sizeof text, "%s: %s lb (%s)", jars, lb, cite);
        print_folded(stdout, "  ", text);
    }
    for (size_t i = 0; i < q->averages; i++) {
        short_cite(&q->average[i].cite, cite, sizeof cite);
        pounds(q->average[i].grams, lb, sizeof lb);
        snprintf(text, sizeof text, "%s lb for a %s jar, on average (%s)", lb,
                 q->average[i].jar, cite);
        print_folded(stdout, "  ", text);
    }
    for (size_t i = 0; i < q->containers; i++) {
        const pottle_container_yield *k = &q->container[i];
        short_cite(&k->cite, cite, sizeof cite);
        pounds(k->grams, lb, sizeof lb);
        jars_number(k->low, k->high, k->jar, jars, sizeof jars);
        snprintf(text, sizeof text, "%s of %s lb: %s (%s)", k->of->id, lb, jars,
                 cite);
        print_folded(stdout, "  ", text);
    }
}

/* What may go into one pot. */
static void
show_batch(const pottle_catalogue *c, const pottle_recipe *r)
{
    const pottle_batch *batch = pottle_recipe_batch(r);
    const pottle_rule *rule = pottle_rule_find(c, batch->rule);
    const pottle_rule *part = pottle_rule_find(c, batch->smallest_rule);
    char text[700], pot[100];
    const bool whole = batch->smallest >= batch->largest;
    if (whole)
        snprintf(pot, sizeof pot, "%g whole %s", batch->largest, batch_word(r));
    else if (batch->smallest > 0)
        snprintf(pot, sizeof pot, "%g to %g of the %s", batch->smallest,
                 batch->largest, batch_word(r));
    else
        snprintf(pot, sizeof pot, "any part of the %s, up to %g", batch_word(r),
                 batch->largest);
    snprintf(text, sizeof text, "%s in one pot. %s%s%s", pot,
             rule != NULL ? rule->text : "",
             part != NULL && part != rule ? " " : "",
             part != NULL && part != rule ? part->text : "");
    print_folded(stdout, "batch: ", text);
}

static void
show_recipe(const pottle_catalogue *c, const pottle_recipe *r)
{
    static const char *const standings[] = {
        "tested",
        "draft: its source is incomplete, nothing is computed from it",
        "your own, never tested"
    };
    size_t n = 0;
    char text[700];
    print_folded(stdout, "", pottle_recipe_title(r));
    printf("%s, %s, %s\n", pottle_recipe_id(r), pottle_recipe_kind(r),
           standings[pottle_recipe_standing(r)]);
    print_cite(c, "", pottle_recipe_cite(r));
    const pottle_cite *w = pottle_recipe_witnesses(r, &n);
    for (size_t i = 0; i < n; i++) {
        source_text(c, w[i].source, w[i].at, text, sizeof text);
        print_folded(stdout, "compared with: ", text);
    }
    show_batch(c, r);
    show_ingredients(c, r);
    show_per_jar(c, r);
    show_quantities(c, r);
    const pottle_yield *y = pottle_recipe_yields(r, &n);
    for (size_t i = 0; i < n; i++) {
        char cite[300], jars[60];
        short_cite(&y[i].cite, cite, sizeof cite);
        jars_number(y[i].low, y[i].high, y[i].jar, jars, sizeof jars);
        snprintf(text, sizeof text, "%s%s (%s)", jars,
                 y[i].possible ? "" : ", which the ingredients cannot give",
                 cite);
        puts("");
        print_folded(stdout, "Yield as printed: ", text);
    }
    show_processes(r);
    const pottle_step *s = pottle_recipe_steps(r, &n);
    puts("\nSteps");
    for (size_t i = 0; i < n; i++) {
        char left[40];
        snprintf(left, sizeof left, "  %zu. ", i + 1);
        print_folded(stdout, left, s[i].text);
    }
    const pottle_note *note = pottle_recipe_notes(r, &n);
    if (n > 0)
        puts("\nNotes");
    for (size_t i = 0; i < n; i++) {
        print_folded(stdout, "  ", note[i].text);
        short_cite(&note[i].cite, text, sizeof text);
        print_folded(stdout, "      ", text);
    }
}

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
        pounds(box[i].low_g, low, sizeof low);
        pounds(box[i].high_g, high, sizeof high);
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
            show_recipe(c, recipe);
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
