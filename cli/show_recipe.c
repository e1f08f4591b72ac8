/* show_recipe.c - a recipe for the person at the table: what the source prints,
 * each figure with its place. */
#include "cli.h"

#include <stdlib.h>
#include <string.h>

/* -- Sources --------------------------------------------------------------- */

void
show_cite(const pottle_catalogue *c, const char *indent,
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

void
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

/* -- Foods ----------------------------------------------------------------- */

/* A recipe on its way to paper: its foods are read first, so that nothing is
 * printed when one cannot be. */
typedef struct shown {
    const pottle_catalogue *catalogue;
    const pottle_recipe *recipe;
    pottle_food **food;
    size_t foods, room;
} shown;

static const pottle_food *
food_of(const shown *s, const char *id)
{
    for (size_t i = 0; i < s->foods; i++)
        if (strcmp(pottle_food_id(s->food[i]), id) == 0)
            return s->food[i];
    return NULL;
}

/* Reads a food once; one that there is not is shown by its id. */
static pottle_status
keep_food(shown *s, const char *id, pottle_error *error)
{
    pottle_food *food = NULL;
    if (food_of(s, id) != NULL)
        return POTTLE_OK;
    if (s->foods == s->room) {
        const size_t room = s->room + 32;
        pottle_food **more = realloc(s->food, room * sizeof(pottle_food *));
        if (more == NULL) {
            *error = (pottle_error){ .status = POTTLE_ENOMEM,
                                     .code = "memory",
                                     .what = "no memory" };
            return POTTLE_ENOMEM;
        }
        s->food = more;
        s->room = room;
    }
    const pottle_status status =
        pottle_food_read(s->catalogue, id, &food, error);
    if (status == POTTLE_OK)
        s->food[s->foods++] = food;
    return status == POTTLE_ENOENT ? POTTLE_OK : status;
}

static pottle_status
keep_foods(shown *s, pottle_error *error)
{
    size_t n = 0;
    pottle_status status = POTTLE_OK;
    const pottle_ingredient *in = pottle_recipe_ingredients(s->recipe, &n);
    for (size_t i = 0; status == POTTLE_OK && i < n; i++) {
        status = keep_food(s, in[i].food, error);
        if (status == POTTLE_OK && in[i].per != NULL)
            status = keep_food(s, in[i].per_food, error);
        for (size_t k = 0; status == POTTLE_OK && k < in[i].alternatives; k++)
            status = keep_food(s, in[i].alternative[k].food, error);
    }
    const pottle_per_jar *per = pottle_recipe_per_jar(s->recipe, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; status == POTTLE_OK && k < per[i].choices; k++)
            status = keep_food(s, per[i].choice[k].food, error);
    const pottle_quantities *q = pottle_recipe_quantities(s->recipe);
    if (status == POTTLE_OK && q->loads + q->averages + q->containers > 0)
        status = keep_food(s, q->food, error);
    return status;
}

static void
shown_free(shown *s)
{
    for (size_t i = 0; i < s->foods; i++)
        pottle_food_free(s->food[i]);
    free(s->food);
}

/* A food as people call it, with its form behind it. */
static void
name_text(const shown *s, const char *id, const char *form, double pieces,
          const char *size, char *buf, size_t buf_size)
{
    const pottle_food *food = food_of(s, id);
    if (food != NULL)
        food_text(s->catalogue, id, pottle_food_title(food),
                  pottle_form_said(food, form), pieces, size, buf, buf_size);
    else
        snprintf(buf, buf_size, "%s", id);
}

static void
show_ingredient(const shown *s, const pottle_ingredient *in)
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
    name_text(s, in->food, weighed_raw ? "" : in->form,
              counted && !range ? in->amount : 0, in->size, name, sizeof name);
    if (in->per != NULL) {
        char base[160];
        name_text(s, in->per_food, "", 0, "", base, sizeof base);
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
        name_text(s, a->food, a->form, 0, "", name, sizeof name);
        snprintf(text, sizeof text, "or %s, by rule %s", name, a->rule);
        print_folded(stdout, "                    ", text);
    }
}

static void
show_ingredients(const shown *s)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(s->recipe, &n);
    printf("\nIngredients of the %s\n", batch_word(s->recipe));
    for (size_t i = 0; i < n; i++)
        show_ingredient(s, &in[i]);
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
show_dose(const shown *s, const pottle_per_jar *p, size_t choice,
          const pottle_jar_dose *dose)
{
    char cite[300], left[90], unit[40], name[160], text[520];
    const char *food = p->choice[choice].food;
    const bool counted = dose->unit->dimension == POTTLE_COUNT;
    unit_text(dose->amount, dose->unit, dose->size, unit, sizeof unit);
    snprintf(left, sizeof left, "  %s%s%s%s, %s: ", choice > 0 ? "or " : "",
             dose->printed, unit[0] != '\0' ? " " : "", unit, dose->jar);
    name_text(s, food, dose->form, counted ? dose->amount : 0, dose->size, name,
              sizeof name);
    short_cite(&dose->cite, cite, sizeof cite);
    snprintf(text, sizeof text, "%s%s (%s)", name,
             p->optional ? ", optional" : "", cite);
    print_folded(stdout, left, text);
}

static void
show_per_jar(const shown *s)
{
    size_t n = 0;
    const pottle_per_jar *p = pottle_recipe_per_jar(s->recipe, &n);
    if (n > 0)
        puts("\nInto each jar");
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < p[i].choices; k++)
            for (size_t d = 0; d < p[i].choice[k].doses; d++)
                show_dose(s, &p[i], k, &p[i].choice[k].dose[d]);
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

void
pounds_text(double g, char *buf, size_t size)
{
    double lb = 0;
    buf[0] = '\0';
    if (pottle_unit_convert(g, pottle_unit_find("g"), pottle_unit_find("lb"),
                            &lb, NULL) == POTTLE_OK)
        snprintf(buf, size, "%.4g", lb);
}

static void
show_quantities(const shown *s)
{
    const pottle_quantities *q = pottle_recipe_quantities(s->recipe);
    char cite[300], text[420], lb[40], jars[60], name[160];
    if (q->loads + q->averages + q->containers > 0) {
        name_text(s, q->food, "", 0, "", name, sizeof name);
        printf("\nQuantities of %s, as bought\n", name);
    }
    for (size_t i = 0; i < q->loads; i++) {
        short_cite(&q->load[i].cite, cite, sizeof cite);
        pounds_text(q->load[i].grams, lb, sizeof lb);
        jars_number(q->load[i].jars, q->load[i].jars, q->load[i].jar, jars,
                    sizeof jars);
        snprintf(text, sizeof text, "%s: %s lb (%s)", jars, lb, cite);
        print_folded(stdout, "  ", text);
    }
    for (size_t i = 0; i < q->averages; i++) {
        short_cite(&q->average[i].cite, cite, sizeof cite);
        pounds_text(q->average[i].grams, lb, sizeof lb);
        snprintf(text, sizeof text, "%s lb for a %s jar, on average (%s)", lb,
                 q->average[i].jar, cite);
        print_folded(stdout, "  ", text);
    }
    for (size_t i = 0; i < q->containers; i++) {
        const pottle_container_yield *k = &q->container[i];
        short_cite(&k->cite, cite, sizeof cite);
        pounds_text(k->grams, lb, sizeof lb);
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
print_recipe(const shown *s)
{
    const pottle_catalogue *c = s->catalogue;
    const pottle_recipe *r = s->recipe;
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
    show_cite(c, "", pottle_recipe_cite(r));
    const pottle_cite *w = pottle_recipe_witnesses(r, &n);
    for (size_t i = 0; i < n; i++) {
        source_text(c, w[i].source, w[i].at, text, sizeof text);
        print_folded(stdout, "compared with: ", text);
    }
    show_batch(c, r);
    show_ingredients(s);
    show_per_jar(s);
    show_quantities(s);
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
    const pottle_step *step = pottle_recipe_steps(r, &n);
    puts("\nSteps");
    for (size_t i = 0; i < n; i++) {
        char left[40];
        snprintf(left, sizeof left, "  %zu. ", i + 1);
        print_folded(stdout, left, step[i].text);
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

int
show_recipe(const pottle_catalogue *c, const pottle_recipe *r)
{
    shown s = { .catalogue = c, .recipe = r };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = keep_foods(&s, &error);
    if (status == POTTLE_OK)
        print_recipe(&s);
    shown_free(&s);
    return status == POTTLE_OK ? DONE : report(c, &error);
}
