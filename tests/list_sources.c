/* list_sources.c - writes docs/SOURCES.md from the catalogue: what each source
 * gave, and each choice between sources.
 *
 * tests/check-listing.sh compares its output with the page in the tree. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <pottle.h>

enum { SOURCES_MAX = 256 };

/* What one source gave, counted by kind of figure. */
typedef struct given {
    size_t recipes, witnesses, processes, weights, trims, compositions, acids,
        pieces, containers, rules, figures, syrups, jars;
} given;

static pottle_catalogue *catalogue;
static const pottle_source *source;
static size_t sources;
static given count[SOURCES_MAX];

static given *
of(const pottle_cite *cite)
{
    static given unknown;
    for (size_t i = 0; i < sources && i < SOURCES_MAX; i++)
        if (strcmp(source[i].key, cite->source) == 0)
            return &count[i];
    return &unknown;
}

static pottle_status
count_recipe(void *context, const pottle_recipe *r, const pottle_error *error)
{
    size_t n = 0;
    (void)context;
    if (r == NULL) {
        fprintf(stderr, "%s: %s\n", error->where, error->what);
        exit(1);
    }
    of(pottle_recipe_cite(r))->recipes++;
    const pottle_cite *w = pottle_recipe_witnesses(r, &n);
    for (size_t i = 0; i < n; i++)
        of(&w[i])->witnesses++;
    const pottle_process_table *t = pottle_recipe_processes(r, &n);
    for (size_t i = 0; i < n; i++)
        of(&t[i].cite)->processes += t[i].bands;
    return POTTLE_OK;
}

static void
count_food(const pottle_food *f)
{
    size_t n = 0;
    of(&pottle_food_acid(f)->cite)->acids++;
    if (pottle_food_composition(f)->known)
        of(&pottle_food_composition(f)->cite)->compositions++;
    const pottle_form *form = pottle_food_forms(f, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < form[i].weights; k++)
            of(&form[i].weight[k].cite)->weights++;
    const pottle_trim *trim = pottle_food_trims(f, &n);
    for (size_t i = 0; i < n; i++)
        of(&trim[i].cite)->trims++;
    const pottle_piece *piece = pottle_food_pieces(f, &n);
    for (size_t i = 0; i < n; i++)
        of(&piece[i].cite)->pieces++;
    const pottle_container *box = pottle_food_containers(f, &n);
    for (size_t i = 0; i < n; i++)
        of(&box[i].cite)->containers++;
}

static void
tell(size_t n, const char *one, const char *many, bool *first)
{
    if (n == 0)
        return;
    printf("%s%zu %s", *first ? "  " : ", ", n, n == 1 ? one : many);
    *first = false;
}

static void
print_source(size_t i)
{
    const pottle_source *s = &source[i];
    const given *g = &count[i];
    bool first = true;
    printf("- **%s**: %s, *%s*", s->key, s->author, s->title);
    if (s->part[0] != '\0')
        printf(", %s", s->part);
    if (s->year[0] != '\0')
        printf(", %s", s->year);
    if (s->publisher[0] != '\0')
        printf(", %s", s->publisher);
    puts(".");
    if (s->read[0] != '\0')
        printf("  Read: %s.\n", s->read);
    if (s->review_by > 0)
        printf("  Compare with a newer edition by %d.\n", s->review_by);
    tell(g->recipes, "recipe", "recipes", &first);
    tell(g->witnesses, "comparison", "comparisons", &first);
    tell(g->processes, "process row", "process rows", &first);
    tell(g->weights, "weight of a measure", "weights of measures", &first);
    tell(g->trims, "trim", "trims", &first);
    tell(g->compositions, "composition", "compositions", &first);
    tell(g->acids, "acid class", "acid classes", &first);
    tell(g->pieces, "weight of a piece", "weights of pieces", &first);
    tell(g->containers, "weight of a container", "weights of containers",
         &first);
    tell(g->rules, "rule", "rules", &first);
    tell(g->figures, "single figure", "single figures", &first);
    tell(g->syrups, "syrup", "syrups", &first);
    tell(g->jars, "jar", "jars", &first);
    puts(first ? "  named in notes" : "");
}

static pottle_status
print_choices(void *context, const pottle_recipe *r, const pottle_error *error)
{
    size_t n = 0;
    (void)context;
    (void)error;
    const pottle_note *note = pottle_recipe_notes(r, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(note[i].of, "choice") == 0)
            printf("- `%s` (%s, %s): %s\n", pottle_recipe_id(r),
                   note[i].cite.source, note[i].cite.at, note[i].text);
    return POTTLE_OK;
}

static void
print_weights(const pottle_food *f)
{
    size_t n = 0;
    const pottle_form *form = pottle_food_forms(f, &n);
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 1; k < form[i].weights; k++) {
            const pottle_weight *a = &form[i].weight[0],
                                *b = &form[i].weight[k];
            if (b->grams / b->volume_ml > 1.02 * a->grams / a->volume_ml ||
                b->grams / b->volume_ml < 0.98 * a->grams / a->volume_ml)
                printf("- %s, %s: %s a %s (%s) is used, %s a %s (%s) widens "
                       "its range\n",
                       pottle_food_id(f), form[i].id, a->printed, a->measure,
                       a->cite.source, b->printed, b->measure, b->cite.source);
        }
    }
}

static void
each_food(void (*work)(const pottle_food *))
{
    const char *id;
    for (size_t i = 0; (id = pottle_food_at(catalogue, i)) != NULL; i++) {
        pottle_food *food = NULL;
        pottle_error error;
        if (pottle_food_read(catalogue, id, &food, &error) != POTTLE_OK) {
            fprintf(stderr, "%s: %s\n", error.where, error.what);
            exit(1);
        }
        work(food);
        pottle_food_free(food);
    }
}

int
main(int argc, char **argv)
{
    pottle_error error;
    size_t n = 0;
    if (argc != 2 || pottle_catalogue_open(argv[1], NULL, POTTLE_WITH_ALL,
                                           &catalogue, &error) != POTTLE_OK) {
        fprintf(stderr, "usage: list_sources CATALOGUE\n");
        return 2;
    }
    source = pottle_sources(catalogue, &sources);
    if (pottle_recipes_each(catalogue, count_recipe, NULL, &error) != POTTLE_OK)
        return 1;
    each_food(count_food);
    const pottle_rule *rule = pottle_rules(catalogue, &n);
    for (size_t i = 0; i < n; i++)
        of(&rule[i].cite)->rules++;
    const pottle_figure *figure = pottle_figures(catalogue, &n);
    for (size_t i = 0; i < n; i++)
        of(&figure[i].cite)->figures++;
    const pottle_syrup *syrup = pottle_syrups(catalogue, &n);
    for (size_t i = 0; i < n; i++)
        of(&syrup[i].cite)->syrups++;
    const pottle_jar *jar = pottle_jars(catalogue, &n);
    for (size_t i = 0; i < n; i++)
        of(&jar[i].cite)->jars++;

    puts("# Sources\n\nMade from the catalogue by `tests/list_sources`; a test "
         "keeps it true. What each source\n"
         "gave, then every place where sources differ and what was "
         "chosen.\n\n## What each source gave\n");
    for (size_t i = 0; i < sources && i < SOURCES_MAX; i++)
        print_source(i);
    puts("\n## Choices in recipes\n");
    if (pottle_recipes_each(catalogue, print_choices, NULL, &error) !=
        POTTLE_OK)
        return 1;
    puts("\n## Weights that differ by more than 2 %\n");
    each_food(print_weights);
    pottle_catalogue_free(catalogue);
    return 0;
}
