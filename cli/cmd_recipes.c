/* cmd_recipes.c - pottle recipes: which recipes use what, and what can be made
 * of what is on hand. */
#include "cli.h"

#include <math.h>
#include <stdlib.h>

#include <string.h>

static const option options[] = {
    { "uses", "FOOD", "only recipes that use it; may be repeated" },
    { "without", "FOOD",
      "only recipes that do without it and its kinds; may be repeated" },
    { "have", "'AMOUNT FOOD'",
      "on hand: what can be made of it, best use first; may be repeated" },
    { "kind", "KIND", "only this kind: salsa, jam, tomato-pack ..." },
    { "jar", "JAR", "only recipes with a process for this size" },
    { "canner", "METHOD", "only recipes with a process for this canner" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes as well" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* Every food that a name of the command line may mean stands in the list. */
typedef struct names {
    const char *id[16 * ARGS_MAX];
    size_t count, first[ARGS_MAX + 1], names;
} names;
typedef struct query {
    const pottle_catalogue *catalogue;
    names uses, without;
    pottle_phrase have[ARGS_MAX];
    pottle_search search;
    pottle_method method;
    besides_asked besides;
    household house;
    int left_out; /* how it ends when a file could not be used; else DONE */
    bool in_cups; /* cups and spoons stand in the answer */
    size_t found;
    bool json;
    FILE *rows;            /* the list of a walk that may yet fail */
    json_t *list, *broken; /* with --json */
} query;

static void
yield_text(const pottle_recipe *recipe, char *buf, size_t size)
{
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    if (n == 0)
        snprintf(buf, size, "-");
    else if (y[0].high > y[0].low)
        snprintf(buf, size, "%g-%g %s", y[0].low, y[0].high, y[0].jar);
    else
        snprintf(buf, size, "%g %s", y[0].low, y[0].jar);
}

static void
tell_broken(void *context, bool warning, const pottle_error *error)
{
    query *q = context;
    (void)warning;
    char line[30] = "";
    if (error->line > 0) /* none of a file that cannot be opened */
        snprintf(line, sizeof line, ":%ld", error->line);
    fprintf(stderr, "pottle: left out: %s%s: %s (%s)\n", error->where, line,
            error->what, error->code);
    /* a file that cannot be read is no file that is wrong */
    if (q->left_out != FAILED)
        q->left_out = exit_for(error) == FAILED ? FAILED : BAD_DATA;
    if (q->broken != NULL)
        json_array_append_new(
            q->broken, json_pack("{s:s, s:I, s:s, s:s}", "file", error->where,
                                 "line", (json_int_t)error->line, "code",
                                 error->code, "text", error->what));
}

/* A process for the jar or the canner that was named. */
static bool
has_process(const query *q, const pottle_recipe *recipe)
{
    pottle_process p[POTTLE_PROCESS_MAX];
    size_t n = 0, tables = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &tables);
    if (q->search.jar != NULL)
        return pottle_process_find(q->catalogue, recipe, q->search.jar,
                                   q->search.method, POTTLE_ANY_PACK, 0, p, &n,
                                   NULL) == POTTLE_OK;
    for (size_t i = 0; q->search.method != NULL && i < tables; i++)
        if (t[i].method == *q->search.method)
            return true;
    return q->search.method == NULL;
}

/* Uses one food of each --uses, and can do without all --without. */
static bool
fits(const query *q, const pottle_recipe *recipe)
{
    for (size_t i = 0; i < q->uses.names; i++)
        if (!pottle_recipe_uses(recipe, q->uses.id + q->uses.first[i],
                                q->uses.first[i + 1] - q->uses.first[i]))
            return false;
    return !pottle_recipe_needs(recipe, q->without.id, q->without.count) &&
           has_process(q, recipe);
}

static const char *
standing_word(const pottle_recipe *recipe)
{
    static const char *const words[] = { "tested", "draft", "own" };
    return words[pottle_recipe_standing(recipe)];
}

static pottle_status
visit(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    query *q = context;
    if (recipe == NULL) {
        tell_broken(q, false, error);
        return POTTLE_OK;
    }
    const char *kind = pottle_recipe_kind(recipe);
    if ((q->search.kind != NULL &&
         !pottle_recipe_is_kind(recipe, q->search.kind)) ||
        !fits(q, recipe))
        return POTTLE_OK;
    q->found++;
    char yield[60];
    yield_text(recipe, yield, sizeof yield);
    if (q->json) {
        const pottle_cite *cite = pottle_recipe_cite(recipe);
        json_array_append_new(
            q->list,
            json_pack("{s:s, s:s, s:s, s:s, s:s, s:o, s:o}", "id",
                      pottle_recipe_id(recipe), "title",
                      pottle_recipe_title(recipe), "kind", kind, "status",
                      standing_word(recipe), "yield", yield, "source",
                      json_source(q->catalogue, cite->source, cite->at),
                      "without", spares_json(&q->besides, recipe)));
        return POTTLE_OK;
    }
    char left[120], title[900], spares[500];
    spares_text(&q->besides, recipe, spares, sizeof spares);
    snprintf(left, sizeof left, "%-37s%-16s", pottle_recipe_id(recipe), yield);
    snprintf(title, sizeof title, "%s%s%s%s%s%s", pottle_recipe_title(recipe),
             pottle_recipe_standing(recipe) == POTTLE_TESTED ? "" : " (",
             pottle_recipe_standing(recipe) == POTTLE_TESTED
                 ? ""
                 : standing_word(recipe),
             pottle_recipe_standing(recipe) == POTTLE_TESTED ? "" : ")",
             spares[0] != '\0' ? "; " : "", spares);
    print_folded(q->rows, left, title);
    return POTTLE_OK;
}

/* Prints the list when it is complete. */
static int
walk(query *q)
{
    char *text = NULL;
    size_t n = 0;
    pottle_error error;
    int result = FAILED;
    q->rows = open_memstream(&text, &n);
    if (q->rows == NULL) {
        complain("no memory for the list");
        return FAILED;
    }
    const pottle_status status =
        pottle_recipes_each(q->catalogue, visit, q, &error);
    const bool cut = ferror(q->rows) != 0;
    /* glibc gives no text, and no error, when it cannot cut it to its size */
    if (fclose(q->rows) != 0 || cut || text == NULL)
        complain("no memory for the list");
    else if (status != POTTLE_OK)
        result = report(q->catalogue, &error);
    else if (fputs(text, stdout) >= 0)
        result = DONE;
    free(text);
    return result;
}

/* -- What is on hand ------------------------------------------------------- */

static void
match_text(const query *q, const pottle_match *m)
{
    char jars[60] = "?";
    if (m->plan == NULL) {
        char text[200], part[40];
        const double least = pottle_recipe_batch(m->recipe)->smallest;
        count_text(least, part, sizeof part);
        if (pottle_recipe_standing(m->recipe) == POTTLE_OWN)
            snprintf(text, sizeof text, "too little for the smallest batch, %s",
                     part);
        else if (least < 1)
            snprintf(text, sizeof text,
                     "too little for the smallest tested batch, %s of the "
                     "published one",
                     part);
        else
            snprintf(text, sizeof text,
                     "too little for the smallest tested batch, the whole "
                     "published one");
        printf("  -    %-19s %s\n", "-", pottle_recipe_id(m->recipe));
        print_folded(stdout, "       ", text);
        return;
    }
    const pottle_jar_count *j = pottle_plan_jars(m->plan);
    if (j != NULL) {
        const pottle_interval i = pottle_estimate_interval(j->count);
        snprintf(jars, sizeof jars, "%.0f-%.0f %s", floor(i.low), ceil(i.high),
                 j->jar->id);
    }
    printf("%3.0f %%  %-19s %s\n", 100 * m->used, jars,
           pottle_recipe_id(m->recipe));
    char text[1200];
    besides_text(&q->besides, m->plan, text, sizeof text);
    print_folded(stdout, "       and: ", text);
    spares_text(&q->besides, m->recipe, text, sizeof text);
    if (text[0] != '\0')
        print_folded(stdout, "       ", text);
}

static json_t *
match_json(const query *q, const pottle_match *m)
{
    const pottle_jar_count *j =
        m->plan != NULL ? pottle_plan_jars(m->plan) : NULL;
    return json_pack("{s:s, s:s, s:s, s:s, s:f, s:o, s:o, s:o, s:o}", "id",
                     pottle_recipe_id(m->recipe), "title",
                     pottle_recipe_title(m->recipe), "kind",
                     pottle_recipe_kind(m->recipe), "status",
                     standing_word(m->recipe), "used", m->used, "factor",
                     m->plan != NULL ? json_number(pottle_plan_factor(m->plan))
                                     : json_null(),
                     "jars", j != NULL ? json_jars(j, NULL) : json_null(),
                     "missing", besides_json(&q->besides, m->plan), "without",
                     spares_json(&q->besides, m->recipe));
}

static int
find(query *q)
{
    pottle_matches *matches = NULL;
    pottle_error error;
    size_t n = 0;
    if (pottle_recipes_find(q->catalogue, &q->search, tell_broken, q, &matches,
                            &error) != POTTLE_OK)
        return report(q->catalogue, &error);
    const pottle_match *m = pottle_matches_list(matches, &n);
    if (!q->json && n > 0)
        puts("uses   jars                recipe, and what it takes besides");
    for (size_t i = 0; i < n; i++) {
        if (!fits(q, m[i].recipe))
            continue;
        q->found++;
        q->in_cups =
            q->in_cups || (m[i].plan != NULL && plan_in_cups(m[i].plan));
        if (q->json)
            json_array_append_new(q->list, match_json(q, &m[i]));
        else
            match_text(q, &m[i]);
    }
    if (!q->json && q->found > 0)
        puts("\nuses: the share of what is on hand that goes into it. jars: "
             "nine chances in ten.\n'pottle scale RECIPE --have ...' has the "
             "amounts.");
    if (!q->json)
        kitchen_note(&q->house, q->in_cups);
    pottle_matches_free(matches);
    return DONE;
}

/* A name that covers several foods is told with them: whoever must not eat one
 * sees whether it is among them. */
static void
print_covered(const query *q, const args *a)
{
    const names *w = &q->without;
    for (size_t i = 0; i < w->names; i++) {
        char text[2000] = "", left[140], name[90];
        if (w->first[i + 1] - w->first[i] < 2)
            continue;
        for (size_t k = w->first[i]; k < w->first[i + 1]; k++) {
            const size_t n = strlen(text);
            const char *usual = pottle_food_name(q->catalogue, w->id[k], 0);
            snprintf(text + n, sizeof text - n, "%s%s", n > 0 ? ", " : "",
                     usual != NULL ? usual : w->id[k]);
        }
        snprintf(left, sizeof left, "without %s: ",
                 printable(args_nth(a, "without", i), name, sizeof name));
        puts("");
        print_folded(stdout, left, text);
    }
}

static json_t *
covered_json(const query *q)
{
    const names *w = &q->without;
    json_t *all = json_array();
    for (size_t i = 0; i < w->count; i++)
        json_array_append_new(all, json_string(w->id[i]));
    return all;
}

/* -- Kinds ----------------------------------------------------------------- */

/* The kinds that there are, and whether the one asked for is among them. */
typedef struct kinds {
    const char *asked;
    bool seen;
    char all[700]; /* ", " between them */
} kinds;

static pottle_status
note_kind(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    (void)error;
    kinds *k = context;
    if (recipe == NULL)
        return POTTLE_OK;
    k->seen = k->seen || pottle_recipe_is_kind(recipe, k->asked);
    /* recipes come folder by folder, so that those of a kind stand together */
    const char *kind = pottle_recipe_kind(recipe);
    const size_t n = strlen(k->all), length = strlen(kind);
    if (n >= length && strcmp(k->all + n - length, kind) == 0)
        return POTTLE_OK;
    snprintf(k->all + n, sizeof k->all - n, "%s%s", n > 0 ? ", " : "", kind);
    return POTTLE_OK;
}

static int
check_kind(const query *q, const command *self)
{
    kinds k = { .asked = q->search.kind };
    pottle_error error;
    if (pottle_recipes_each(q->catalogue, note_kind, &k, &error) != POTTLE_OK)
        return report(q->catalogue, &error);
    return k.seen ? DONE
                  : usage_error(self, "there is no kind '%.40s'; there are %s",
                                k.asked, k.all);
}

/* -- Arguments ------------------------------------------------------------- */

/* Foods by a name: those it means, or all those it covers. */
typedef pottle_status find_names(const pottle_catalogue *catalogue,
                                 const char *name, const char **ids,
                                 size_t room, size_t *count,
                                 pottle_error *error);

static int
read_names(const query *q, const args *a, const char *option_name,
           find_names *find_them, names *out)
{
    pottle_error error;
    const char *name;
    for (out->names = 0; (name = args_nth(a, option_name, out->names)) != NULL;
         out->names++) {
        const size_t room = sizeof out->id / sizeof out->id[0] - out->count;
        size_t n = 0;
        if (find_them(q->catalogue, name, out->id + out->count, room, &n,
                      &error) != POTTLE_OK)
            return report(q->catalogue, &error);
        if (n > room) {
            complain("--%s: too many foods at once", option_name);
            return USAGE;
        }
        out->first[out->names] = out->count;
        out->count += n;
        out->first[out->names + 1] = out->count;
    }
    return DONE;
}

static int
read_query(const args *a, query *q)
{
    pottle_error error;
    pottle_search *s = &q->search;
    const char *jar = args_value(a, "jar"), *canner = args_value(a, "canner"),
               *text;
    s->version = POTTLE_SEARCH_VERSION;
    s->kind = args_value(a, "kind");
    int result = read_names(q, a, "uses", pottle_names_find, &q->uses);
    if (result == DONE)
        result = read_names(q, a, "without", pottle_names_cover, &q->without);
    if (result != DONE)
        return result;
    if ((jar != NULL &&
         pottle_jar_find(q->catalogue, jar, &s->jar, &error) != POTTLE_OK) ||
        (canner != NULL &&
         pottle_canner_method(q->catalogue, canner, &q->method, &error) !=
             POTTLE_OK))
        return report(q->catalogue, &error);
    s->method = canner != NULL ? &q->method : NULL;
    if (args_has(a, "have"))
        result = kitchen_open(a, q->catalogue, false, &q->house);
    if (result != DONE)
        return result;
    for (; (text = args_nth(a, "have", s->haves)) != NULL; s->haves++) {
        if (pottle_phrase_read(q->catalogue, text, NULL, 0, &q->have[s->haves],
                               &error) != POTTLE_OK)
            return report(q->catalogue, &error);
        kitchen_phrase(&q->house, text, &q->have[s->haves]);
    }
    s->have = q->have;
    s->without = q->without.id;
    s->withouts = q->without.count;
    q->besides = (besides_asked){ q->catalogue, q->have, s->haves, s->without,
                                  s->withouts };
    return DONE;
}

static int
run(const command *self, const args *a, bool json)
{
    if (a->operands != 0)
        return usage_error(self, "recipes takes options only");
    const bool on_hand_given = args_has(a, "have");
    unsigned parts =
        on_hand_given || args_has(a, "uses") || args_has(a, "without")
            ? POTTLE_WITH_NAMES
            : 0u;
    if (on_hand_given || args_has(a, "jar"))
        parts |= POTTLE_WITH_FIGURES | POTTLE_WITH_JARS | POTTLE_WITH_RULES;
    if (args_has(a, "canner")) /* it may be refused */
        parts |= POTTLE_WITH_RULES | POTTLE_WITH_SOURCES;
    if (json)
        parts |= POTTLE_WITH_SOURCES;
    pottle_catalogue *catalogue = NULL;
    int result = open_catalogue(a, parts, &catalogue);
    if (result != DONE)
        return result;
    query *q = calloc(1, sizeof *q);
    if (q == NULL) {
        fputs("pottle: no memory\n", stderr);
        pottle_catalogue_free(catalogue);
        return FAILED;
    }
    q->catalogue = catalogue;
    q->json = json;
    q->list = json ? json_array() : NULL;
    q->broken = json ? json_array() : NULL;
    result = read_query(a, q);
    if (result == DONE && q->search.kind != NULL)
        result = check_kind(q, self);
    if (result == DONE && on_hand_given)
        result = find(q);
    else if (result == DONE)
        result = walk(q);
    if (result == DONE && json) {
        json_t *root =
            json_pack("{s:O, s:O, s:o}", "recipes", q->list, "left_out",
                      q->broken, "without", covered_json(q));
        kitchen_add_cup(&q->house, root, q->in_cups);
        result = print_json(root);
    } else if (result == DONE && q->found == 0)
        puts("none");
    if (result == DONE && !json)
        print_covered(q, a);
    /* the rest was answered, and that it is the rest is seen by a script */
    if (result == DONE)
        result = q->left_out;
    json_decref(q->list);
    json_decref(q->broken);
    free(q);
    pottle_catalogue_free(catalogue);
    return result;
}

const command recipes_command = {
    "recipes", run,
    "[--uses FOOD]... [--without FOOD]... [--have 'AMOUNT FOOD']... [--kind "
    "KIND]\n        [--jar JAR] [--canner METHOD]",
    "which recipes use what; what can be made of what is on hand", options
};
