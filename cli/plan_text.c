/* plan_text.c - a plan for the person at the table: first what to do, then what
 * is left, then why. */
#include "cli.h"

#include <math.h>
#include <string.h>

const char *
batch_word(const pottle_recipe *recipe)
{
    return pottle_recipe_standing(recipe) == POTTLE_OWN ? "batch"
                                                        : "published batch";
}

void
recipe_source_text(const pottle_catalogue *catalogue,
                   const pottle_recipe *recipe, char *buf, size_t size)
{
    const pottle_cite *cite = pottle_recipe_cite(recipe);
    if (pottle_recipe_standing(recipe) == POTTLE_OWN)
        snprintf(buf, size, "a recipe of your own, never tested");
    else
        source_text(catalogue, cite->source, cite->at, buf, size);
}

void
line_measure(const pottle_line *l, char *buf, size_t size)
{
    if (l->measure.parts == 1 &&
        strcmp(l->measure.part[0].unit->id, "g") == 0 &&
        l->measure.part[0].count < 0.05 && l->mass_g > 0)
        mass_text(l->mass_g < 0.05 ? l->mass_g : 0.1, buf, size);
    else
        pottle_measure_write(&l->measure, buf, size);
}

void
line_name(const pottle_catalogue *catalogue, const pottle_line *l,
          const char *before, char *buf, size_t size)
{
    const bool weighed = l->ingredient->unit->dimension == POTTLE_MASS;
    const bool pieces = l->has_measure && l->measure.parts == 1 &&
                        l->measure.part[0].unit->dimension == POTTLE_COUNT;
    const char *state =
        weighed && l->ingredient->state == POTTLE_PURCHASED ? ", as bought"
        : weighed && l->ingredient->state == POTTLE_PICKED  ? ", as picked"
                                                            : "";
    char name[120], raw[60] = "", from[40];
    if (l->raw_g > 0) {
        about_text(l->raw_g, from, sizeof from);
        snprintf(raw, sizeof raw, "%sfrom about %s as bought", before, from);
    }
    /* what is weighed as bought is cut up later */
    food_text(catalogue, l->food, l->title, state[0] == '\0' ? l->said : "",
              pieces ? l->measure.part[0].count : 0,
              pieces ? l->measure.part[0].size : "", name, sizeof name);
    snprintf(buf, size, "%s%s%s", name, state, raw);
}

static void
print_line(const scaled *s, const pottle_line *l)
{
    char measure[100] = "", mass[40] = "", left[160];
    /* what no spoon measures near enough is weighed, as the measure says */
    const bool by_scale = l->has_measure &&
                          l->measure.part[0].unit->dimension == POTTLE_MASS &&
                          strcmp(l->measure.part[0].unit->id, "g") == 0;
    if (by_scale)
        snprintf(measure, sizeof measure, "by weight");
    else if (l->has_measure)
        line_measure(l, measure, sizeof measure);
    if (by_scale)
        line_measure(l, mass, sizeof mass);
    else if (l->mass_g > 0)
        mass_text(l->mass_g, mass, sizeof mass);
    else if (!l->has_measure)
        snprintf(mass, sizeof mass, "to taste");
    snprintf(left, sizeof left, "  %9s  %-21s ", mass, measure);
    char text[400], name[220];
    line_name(s->catalogue, l, "; ", name, sizeof name);
    snprintf(text, sizeof text, "%s%s%s%s", name,
             l->ingredient->then[0] != '\0' ? "; " : "", l->ingredient->then,
             l->ingredient->optional ? " (optional)" : "");
    print_folded(stdout, left, text);
}

static void
print_lines(const scaled *s, size_t pot)
{
    size_t n = 0;
    const pottle_line *line = pottle_plan_lines(s->plan, pot, &n);
    for (size_t i = 0; i < n; i++)
        if (line[i].mass_g > 0 || line[i].volume_ml > 0 || line[i].count > 0 ||
            line[i].ingredient->optional)
            print_line(s, &line[i]);
}

static void
pot_text(const pottle_recipe *recipe, double pot, char *buf, size_t size)
{
    char number[40];
    short_number(pot, number, sizeof number);
    if (strcmp(number, "1") == 0)
        snprintf(buf, size, "the whole %s", batch_word(recipe));
    else
        snprintf(buf, size, "%.20s of the %s", number, batch_word(recipe));
}

/* Alike pots are told once: "2 pots of the whole batch, 1 of 0.4". */
static void
print_pots(const scaled *s)
{
    size_t n = 0;
    const double *pot = pottle_plan_pots(s->plan, &n);
    if (n < 2)
        return;
    size_t alike = 1;
    while (alike < n && !(pot[alike] < pot[0]))
        alike++;
    char part[60];
    const bool own = pottle_recipe_standing(s->recipe) == POTTLE_OWN;
    const bool pack = strstr(pottle_recipe_kind(s->recipe), "-pack") != NULL;
    char text[200];
    pot_text(s->recipe, pot[0], part, sizeof part);
    snprintf(text, sizeof text, "%s, one after the other. %s, %s:",
             pack  ? "Prepare it by canner loads"
             : own ? "Cook it in pots of one batch"
                   : "Cook it in pots of one tested batch",
             alike == n   ? "In each"
             : alike == 1 ? "In the first"
                          : "In each but the last",
             part);
    puts("");
    print_folded(stdout, "", text);
    print_lines(s, 0);
    if (alike < n) {
        pot_text(s->recipe, pot[n - 1], part, sizeof part);
        printf("In the last, %s:\n", part);
        print_lines(s, n - 1);
    }
}

static void
print_doses(const scaled *s)
{
    size_t n = 0;
    const pottle_dose *dose = pottle_plan_doses(s->plan, &n);
    const pottle_jar_count *j = pottle_plan_jars(s->plan);
    for (size_t i = 0; i < n; i++) {
        char count[60], left[60], text[300];
        const pottle_keep keep = dose[i].per_jar->keep;
        dose_text(dose[i].count, dose[i].unit, dose[i].size, 1, keep, count,
                  sizeof count);
        snprintf(left, sizeof left, "  %s",
                 i == 0 || dose[i].choice == 0 ? "each jar: " : "      or: ");
        snprintf(text, sizeof text, "%s of %s%s", count, dose[i].title,
                 dose[i].per_jar->optional ? " (optional)" : "");
        if (j != NULL && j->prepare > 0) {
            dose_text(dose[i].count, dose[i].unit, dose[i].size, j->prepare,
                      keep, count, sizeof count);
            snprintf(text + strlen(text), sizeof text - strlen(text),
                     "; for %lu jars %s", j->prepare, count);
        }
        print_folded(stdout, left, text);
    }
}

/* What a pack is covered with; 'pottle liquid syrup' makes the syrups for so
 * many jars. */
static void
print_covers(const scaled *s)
{
    size_t n = 0;
    const char *const *cover = pottle_recipe_covers(s->recipe, &n);
    const pottle_jar_count *j = pottle_plan_jars(s->plan);
    char text[400] = "";
    bool syrup = false;
    for (size_t i = 0, at = 0; i < n && at + 40 < sizeof text; i++) {
        at += (size_t)snprintf(text + at, sizeof text - at, "%s%s",
                               i == 0 ? "" : ", ", cover[i]);
        syrup = syrup || strncmp(cover[i], "syrup", 5) == 0;
    }
    if (n > 0)
        print_folded(stdout, "  cover with one of: ", text);
    if (syrup && j != NULL)
        printf(
            "  for syrup: pottle liquid syrup --class medium --fill '%lu %s'\n",
            j->full + (j->remainder_ml >= 5), jars_name(j));
}

void
jars_text(const scaled *s)
{
    const pottle_jar_count *j = pottle_plan_jars(s->plan);
    if (j == NULL) {
        puts("  How many jars this fills is not known: its source gives no "
             "usable yield.");
        return;
    }
    char headspace[40], fill[40];
    size_t tables = 0;
    const pottle_process *t = pottle_plan_tables(s->plan, &tables);
    pottle_number_write(j->headspace.mm, 0, headspace, sizeof headspace);
    short_number(j->fill_ml.median, fill, sizeof fill);
    wash_text("  ", j, jars_name(j));
    kitchen_shelf_text(&s->house, j);
    if (tables > 0)
        printf("  fill to %s in (%s mm) headspace: %s mL a jar",
               t[0].table->headspace, headspace, fill);
    else
        printf("  fill to %s mm headspace: %s mL a jar", headspace, fill);
    /* it is a forecast: to the nearest 10 mL is more than it can know */
    if (j->remainder_ml >= 5)
        printf("; about %.0f mL over", 10 * floor(j->remainder_ml / 10 + 0.5));
    puts("");
    const pottle_jar *smaller = pottle_plan_smaller(s->plan);
    if (smaller != NULL)
        printf("  have a %s jar ready for the rest; refrigerate what is over\n",
               smaller->id);
    else if (j->remainder_ml >= 5)
        puts("  the rest fills no jar: refrigerate it");
    print_doses(s);
    print_covers(s);
}

void
process_text(const pottle_process *p, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char name[80];
        snprintf(name, sizeof name, "%s, %s pack",
                 pottle_method_name((int)p[i].table->method),
                 p[i].table->raw ? "raw" : "hot");
        printf("  %3d min%s  %s", p[i].band->minutes, "", name);
        if (p[i].band->psi > 0)
            printf(" at %d psi", p[i].band->psi);
        if (p[i].tested_as != p[i].jar)
            printf(" (the time of %s)", p[i].tested_as->id);
        puts("");
    }
}

void
high_text(const pottle_process *p, size_t count, double altitude_m)
{
    bool open = false;
    for (size_t i = 0; i < count; i++)
        open = open || p[i].band->to_ft < 0;
    if (open && altitude_m > 2438.4) /* 8,000 ft */
        print_folded(stdout, "  ",
                     "above 8000 ft not every copy of the source confirms this "
                     "open band: ask your extension office");
}

static void
print_bands(const pottle_process *t, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const pottle_process_table *table = t[i].table;
        printf("  %s, %s pack:\n", pottle_method_name((int)table->method),
               table->raw ? "raw" : "hot");
        for (size_t k = 0; k < table->bands; k++) {
            const pottle_band *b = &table->band[k];
            char range[40];
            if (b->to_ft < 0)
                snprintf(range, sizeof range, "above %d ft", b->from_ft - 1);
            else
                snprintf(range, sizeof range, "%d to %d ft", b->from_ft,
                         b->to_ft);
            printf("    %-18s %3d min", range, b->minutes);
            if (b->psi > 0)
                printf(" at %d psi", b->psi);
            puts("");
        }
    }
}

static void
print_process(const scaled *s)
{
    size_t n = 0, tables = 0;
    const pottle_process *printed = pottle_plan_processes(s->plan, &n),
                         *t = pottle_plan_tables(s->plan, &tables);
    pottle_process p[POTTLE_PROCESS_MAX], of[POTTLE_PROCESS_MAX];
    if (tables == 0)
        return;
    n = kitchen_usable(&s->house, printed, n, p);
    tables = kitchen_usable(&s->house, t, tables, of);
    if (n > 0) {
        char height[60];
        altitude_text(s->a, &s->house, s->request.altitude_m, height,
                      sizeof height);
        printf("\nProcess at %s%s\n", height, n > 1 ? ", one of" : "");
        process_text(p, n);
        kitchen_gauge_text(&s->house, s->catalogue, s->recipe, p, n);
    } else {
        puts("\nProcess, by altitude");
        print_bands(of, tables);
        kitchen_unused_text(&s->house);
    }
    unsigned long per_load = 0;
    const unsigned long loads = pottle_plan_loads(s->plan, &per_load);
    if (loads > 0)
        printf("  %lu canner load%s of up to %lu jars\n", loads,
               loads > 1 ? "s" : "", per_load);
}

static void
print_rests(const scaled *s)
{
    size_t n = 0;
    const pottle_rest *rest = pottle_plan_rests(s->plan, &n);
    if (n == 0)
        return;
    puts("\nLeft over");
    for (size_t i = 0; i < n; i++) {
        char mass[40] = "", measure[60] = "", left[120];
        pottle_measure m;
        if (rest[i].mass_g > 0)
            mass_text(rest[i].mass_g, mass, sizeof mass);
        if (rest[i].volume_ml > 0 &&
            pottle_measure_round(rest[i].volume_ml, POTTLE_VOLUME, POTTLE_FREE,
                                 &m) == POTTLE_OK)
            pottle_measure_write(&m, measure, sizeof measure);
        else if (rest[i].mass_g > 0 &&
                 pottle_measure_round(rest[i].mass_g, POTTLE_MASS, POTTLE_FREE,
                                      &m) == POTTLE_OK)
            pottle_measure_write(&m, measure, sizeof measure);
        snprintf(left, sizeof left, "  %9s  %-21s ", mass, measure);
        char text[120];
        snprintf(text, sizeof text, "%s%s", rest[i].title,
                 rest[i].state == POTTLE_PREPARED    ? ""
                 : rest[i].state == POTTLE_PURCHASED ? ", as bought"
                                                     : ", as picked");
        print_folded(stdout, left, text);
    }
}

/* Which rules kept which lines, each rule once. */
static void
print_why(const scaled *s)
{
    size_t n = 0;
    const pottle_line *line = pottle_plan_lines(s->plan, POTTLE_ALL_POTS, &n);
    const char *told[ARGS_MAX];
    size_t tolds = 0;
    bool head = false;
    for (size_t i = 0; i < n; i++) {
        const pottle_ingredient *in = line[i].ingredient;
        const pottle_rule *rule = pottle_rule_find(s->catalogue, in->rule);
        bool known =
            rule == NULL || in->keep == POTTLE_FREE || tolds == ARGS_MAX;
        for (size_t k = 0; k < tolds && !known; k++)
            known = strcmp(told[k], in->rule) == 0;
        if (known)
            continue;
        told[tolds++] = in->rule;
        if (!head)
            puts("\nWhy");
        head = true;
        char text[600];
        snprintf(text, sizeof text, "%s: %s",
                 in->keep == POTTLE_EXACT      ? "exact"
                 : in->keep == POTTLE_AT_LEAST ? "at least"
                                               : "at most",
                 rule->text);
        print_folded(stdout, "  ", text);
    }
}

void
cautions_text(const scaled *s)
{
    size_t n = 0, processes = 0;
    const pottle_warning *w = pottle_plan_warnings(s->plan, &n);
    if (n > 0)
        puts("\nMind");
    for (size_t i = 0; i < n; i++)
        print_folded(stdout, "  - ", w[i].text);
    char text[500];
    recipe_source_text(s->catalogue, s->recipe, text, sizeof text);
    pottle_plan_tables(s->plan, &processes);
    puts("");
    if (pottle_recipe_standing(s->recipe) == POTTLE_OWN)
        print_folded(stdout, "Source: ", text);
    else
        print_folded(stdout,
                     processes > 0 ? "Matches the tested process of "
                                   : "Source: ",
                     text);
    for (size_t i = 0; cautions[i] != NULL; i++)
        print_folded(stdout, "", cautions[i]);
}

bool
us_unit(const pottle_unit *unit)
{
    return unit != NULL && unit->dimension == POTTLE_VOLUME &&
           strcmp(unit->id, "ml") != 0 && strcmp(unit->id, "l") != 0;
}

bool
doses_in_cups(const pottle_plan *plan)
{
    size_t n = 0;
    bool any = false;
    const pottle_dose *d = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++)
        any = any || us_unit(d[i].unit);
    return any;
}

bool
plan_in_cups(const pottle_plan *plan)
{
    size_t n = 0, rests = 0;
    bool any = doses_in_cups(plan);
    const pottle_line *l = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    const pottle_rest *r = pottle_plan_rests(plan, &rests);
    for (size_t i = 0; i < n; i++)
        any = any || (l[i].has_measure && us_unit(l[i].measure.part[0].unit));
    for (size_t i = 0; i < rests; i++)
        any = any || r[i].volume_ml > 0;
    return any;
}

void
plan_text(const scaled *s)
{
    char factor[40], head[300];
    const char *limit = pottle_plan_limit(s->plan);
    short_number(pottle_plan_factor(s->plan), factor, sizeof factor);
    snprintf(head, sizeof head, "%s: %s of the %s%s%s",
             pottle_recipe_title(s->recipe), factor, batch_word(s->recipe),
             strncmp(limit, "have ", 5) == 0 ? ", limited by the " : "",
             strncmp(limit, "have ", 5) == 0 ? limit + 5 : "");
    print_folded(stdout, "", head);
    kitchen_note(&s->house, plan_in_cups(s->plan));
    puts("\nMeasure");
    print_lines(s, POTTLE_ALL_POTS);
    print_pots(s);
    puts("\nJars");
    jars_text(s);
    print_process(s);
    print_rests(s);
    print_why(s);
    cautions_text(s);
}
