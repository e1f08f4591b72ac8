/* test_memory.c - no memory: allocation n fails, for n = 0, 1, 2 ... until the
 * call succeeds.
 *
 * The library's own allocations come through the linker's --wrap, those that
 * libxml2 makes through xmlMemSetup. Each failure is POTTLE_ENOMEM and leaves
 * the outputs as they were; nothing is kept; what is OK is whole. The expected
 * content is that of the same call with all the memory it wants. */
#include <config.h>

#include <check.h>
#include <dirent.h>
#include <errno.h>
#include <libxml/parser.h>
#include <libxml/xmlerror.h>
#include <libxml/xmlmemory.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "internal.h"
#include "suite.h"

/* A set-up that is broken is no failure of the library. */
static void
must(bool done, const char *what)
{
    if (done)
        return;
    fprintf(stderr, "test_memory: %s: %s\n", what, strerror(errno));
    exit(99);
}

/* -- The tap --------------------------------------------------------------- */

/* One for the library, one for libxml2. A tap counts only while it is open, so
 * that neither the test nor Check is counted. */
enum { PIECES = 16384 };
typedef struct tap {
    bool open;
    long asked;   /* allocations since it was opened */
    long fail_at; /* the one that fails, and none after it; -1: none */
    long held;    /* not freed yet, of those that were made while it was open */
    void *piece[PIECES];
} tap;
static tap own, xml;

static bool
refuses(tap *t)
{
    return t->open && t->asked++ == t->fail_at;
}

static void *
hold(tap *t, void *p)
{
    if (t->open && p != NULL) {
        if (t->held == PIECES)
            abort(); /* a larger table is wanted */
        t->piece[t->held++] = p;
    }
    return p;
}

/* Forgets a piece; what the tap never gave is nobody's. */
static void
let_go(tap *t, const void *p)
{
    for (long i = t->held; p != NULL && i-- > 0;) {
        if (t->piece[i] == p) {
            t->piece[i] = t->piece[--t->held];
            return;
        }
    }
}

/* The names are the linker's: --wrap=malloc turns each call of malloc into one
 * of
 * __wrap_malloc, and __real_malloc into malloc. */
void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *p, size_t size);
void __real_free(void *p) __attribute__((weak));
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *p, size_t size);
void __wrap_free(void *p);

void *
__wrap_malloc(size_t size)
{
    return refuses(&own) ? NULL : hold(&own, __real_malloc(size));
}

void *
__wrap_calloc(size_t n, size_t size)
{
    return refuses(&own) ? NULL : hold(&own, __real_calloc(n, size));
}

void *
__wrap_realloc(void *p, size_t size)
{
    if (refuses(&own))
        return NULL;
    let_go(&own, p);
    return hold(&own, __real_realloc(p, size));
}

void
__wrap_free(void *p)
{
    let_go(&own, p);
    __real_free(p);
}

static void *
xml_malloc(size_t size)
{
    return refuses(&xml) ? NULL : hold(&xml, __real_malloc(size));
}

static void *
xml_realloc(void *p, size_t size)
{
    if (refuses(&xml))
        return NULL;
    let_go(&xml, p);
    return hold(&xml, __real_realloc(p, size));
}

static char *
xml_strdup(const char *text)
{
    const size_t n = strlen(text) + 1;
    char *copy = xml_malloc(n);
    if (copy != NULL)
        memcpy(copy, text, n);
    return copy;
}

static void
xml_free(void *p)
{
    let_go(&xml, p);
    free(p);
}

/* libxml2 prints where it has no context to keep an error in. */
static void
say_nothing(void *context, const char *message, ...)
{
    (void)context;
    (void)message;
}

/* -- What came out --------------------------------------------------------- */

/* A digest of all that a result gives out: equal contents, equal digests. */
typedef uint64_t digest;

static void
add_bytes(digest *d, const void *bytes, size_t n)
{
    const unsigned char *b = bytes;
    for (size_t i = 0; i < n; i++)
        *d = (*d ^ b[i]) * 1099511628211u; /* FNV-1a */
}

static void
add_text(digest *d, const char *text)
{
    add_bytes(d, text, strlen(text) + 1);
}

static void
add_number(digest *d, double x)
{
    add_bytes(d, &x, sizeof x);
}

static void
add_cite(digest *d, const pottle_cite *cite)
{
    add_text(d, cite->source);
    add_text(d, cite->at);
    add_text(d, cite->note);
    add_number(d, (double)cite->standing);
}

static void
add_catalogue(digest *d, const pottle_catalogue *c)
{
    size_t n = 0;
    const char *id, *name;
    for (size_t i = 0; (id = pottle_food_at(c, i)) != NULL; i++) {
        add_text(d, id);
        for (size_t k = 0; (name = pottle_food_name(c, id, k)) != NULL; k++)
            add_text(d, name);
    }
    const pottle_figure *figure = pottle_figures(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, figure[i].id);
        add_text(d, figure[i].text);
        add_number(d, figure[i].value);
        add_cite(d, &figure[i].cite);
    }
    const pottle_jar *jar = pottle_jars(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, jar[i].id);
        add_text(d, jar[i].names);
        add_number(d, jar[i].nominal_ml);
        add_text(d, jar[i].process_as);
    }
    const pottle_rule *rule = pottle_rules(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, rule[i].id);
        add_text(d, rule[i].text);
        add_text(d, rule[i].instead);
        for (size_t k = 0; k < rule[i].nevers; k++)
            add_text(d, rule[i].never[k].put);
    }
    const pottle_source *source = pottle_sources(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, source[i].key);
        add_text(d, source[i].title);
    }
    const pottle_syrup *syrup = pottle_syrups(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, syrup[i].id);
        add_text(d, syrup[i].title);
        add_number(d, (double)syrup[i].loads);
    }
}

static void
add_food(digest *d, const pottle_food *food)
{
    size_t n = 0;
    add_text(d, pottle_food_id(food));
    add_text(d, pottle_food_title(food));
    add_text(d, pottle_food_group(food));
    add_cite(d, &pottle_food_acid(food)->cite);
    add_number(d, pottle_food_composition(food)->water);
    const pottle_trim *trim = pottle_food_trims(food, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, trim[i].keeps);
    const pottle_form *form = pottle_food_forms(food, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < form[i].weights; k++) {
            add_number(d, form[i].weight[k].grams);
            add_text(d, form[i].weight[k].printed);
            add_text(d, form[i].weight[k].measure);
        }
    const pottle_piece *piece = pottle_food_pieces(food, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, piece[i].grams);
    const pottle_container *box = pottle_food_containers(food, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, box[i].high_g);
    const pottle_note *note = pottle_food_notes(food, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, note[i].text);
}

static void
add_recipe(digest *d, const pottle_recipe *r)
{
    size_t n = 0;
    add_text(d, pottle_recipe_id(r));
    add_text(d, pottle_recipe_title(r));
    add_number(d, pottle_recipe_batch(r)->largest);
    const pottle_ingredient *in = pottle_recipe_ingredients(r, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, in[i].food);
        add_text(d, in[i].printed);
        add_text(d, in[i].rule);
        add_number(d, (double)in[i].keep);
        for (size_t k = 0; k < in[i].alternatives; k++)
            add_text(d, in[i].alternative[k].food);
    }
    const pottle_per_jar *per = pottle_recipe_per_jar(r, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < per[i].choices; k++)
            for (size_t j = 0; j < per[i].choice[k].doses; j++)
                add_number(d, per[i].choice[k].dose[j].amount);
    const pottle_process_table *t = pottle_recipe_processes(r, &n);
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < t[i].jars; k++)
            add_text(d, t[i].jar[k]);
        for (size_t k = 0; k < t[i].bands; k++)
            add_number(d, t[i].band[k].minutes);
    }
    const pottle_step *step = pottle_recipe_steps(r, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, step[i].text);
    const pottle_note *note = pottle_recipe_notes(r, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, note[i].text);
}

static void
add_plan(digest *d, const pottle_plan *plan)
{
    size_t n = 0;
    add_text(d, pottle_plan_limit(plan));
    add_number(d, pottle_plan_factor(plan));
    const pottle_line *line = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, line[i].title);
        add_number(d, line[i].mass_g);
        add_number(d, line[i].volume_ml);
    }
    const pottle_dose *dose = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, dose[i].total);
    const pottle_process *p = pottle_plan_processes(plan, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, p[i].band->minutes);
    const pottle_warning *w = pottle_plan_warnings(plan, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, w[i].text);
}

/* -- The calls ------------------------------------------------------------- */

typedef struct outcome {
    pottle_status status;
    bool touched; /* it failed, and an output is not as it was */
    digest content;
    size_t told; /* files it said cannot be used */
} outcome;

/* What walks over files tells of those that cannot be used, and goes on. */
typedef struct told {
    digest content;
    size_t files;
} told;

static char folder[1024]; /* the shipped catalogue */
static const char few[] =
    "test_memory.tmp"; /* two kinds of recipe, one of them broken */
static pottle_catalogue *all;
static pottle_recipe *salsa, *tomatoes, *dills;

/* Sentinel of an output; no call may read it. */
static char mark;

static outcome
open_parts(unsigned parts, const char *mine)
{
    pottle_catalogue *c = (pottle_catalogue *)(void *)&mark;
    outcome o = { .content = 1 };
    o.status = pottle_catalogue_open(folder, mine, parts, &c, NULL);
    o.touched = o.status != POTTLE_OK && c != (void *)&mark;
    if (o.status == POTTLE_OK) {
        add_catalogue(&o.content, c);
        pottle_catalogue_free(c);
    }
    return o;
}

static outcome
open_nothing(void)
{
    return open_parts(0, NULL);
}
static outcome
open_names(void)
{
    return open_parts(POTTLE_WITH_NAMES, NULL);
}
static outcome
open_figures(void)
{
    return open_parts(POTTLE_WITH_FIGURES, NULL);
}
static outcome
open_jars(void)
{
    return open_parts(POTTLE_WITH_JARS, NULL);
}
static outcome
open_rules(void)
{
    return open_parts(POTTLE_WITH_RULES, NULL);
}
static outcome
open_sources(void)
{
    return open_parts(POTTLE_WITH_SOURCES, NULL);
}
static outcome
open_syrups(void)
{
    return open_parts(POTTLE_WITH_SYRUPS, NULL);
}
static outcome
open_rescue(void)
{
    return open_parts(POTTLE_WITH_RESCUE, NULL);
}
static outcome
open_all(void)
{
    return open_parts(POTTLE_WITH_ALL, few);
}

static outcome
read_food(void)
{
    pottle_food *food = (pottle_food *)(void *)&mark;
    outcome o = { .content = 1 };
    o.status = pottle_food_read(all, "apple", &food, NULL);
    o.touched = o.status != POTTLE_OK && food != (void *)&mark;
    if (o.status == POTTLE_OK) {
        add_food(&o.content, food);
        pottle_food_free(food);
    }
    return o;
}

static outcome
take_recipe(pottle_status status, pottle_recipe *recipe)
{
    outcome o = { .status = status,
                  .touched = status != POTTLE_OK && recipe != (void *)&mark,
                  .content = 1 };
    if (status == POTTLE_OK) {
        add_recipe(&o.content, recipe);
        pottle_recipe_free(recipe);
    }
    return o;
}

static outcome
read_recipe(void)
{
    pottle_recipe *r = (pottle_recipe *)(void *)&mark;
    const pottle_status status =
        pottle_recipe_read(all, "tomatoes-crushed", &r, NULL);
    return take_recipe(status, r);
}

static outcome
read_recipe_file(void)
{
    pottle_recipe *r = (pottle_recipe *)(void *)&mark;
    const pottle_status status = pottle_recipe_read_file(
        all, "test_memory.tmp/butter/apple-butter.xml", &r, NULL);
    return take_recipe(status, r);
}

/* No such recipe: the nearest names are looked for, which takes memory. Without
 * it they are not told, and the answer is no less true. */
static outcome
read_unknown_recipe(void)
{
    pottle_recipe *r = (pottle_recipe *)(void *)&mark;
    const pottle_status status =
        pottle_recipe_read(all, "tomatoes-crusht", &r, NULL);
    outcome o = take_recipe(status, r);
    if (o.status == POTTLE_ENOENT)
        o.status = POTTLE_OK;
    return o;
}

static pottle_status
visit(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    told *t = context;
    (void)error;
    if (recipe != NULL)
        add_recipe(&t->content, recipe);
    else
        t->files++;
    return POTTLE_OK;
}

static pottle_catalogue *walked;

static outcome
walk_recipes(void)
{
    told t = { 1, 0 };
    const pottle_status status = pottle_recipes_each(walked, visit, &t, NULL);
    return (outcome){ .status = status, .content = t.content, .told = t.files };
}

static outcome
scale_as(const pottle_recipe *recipe, pottle_request request)
{
    pottle_plan *plan = (pottle_plan *)(void *)&mark;
    outcome o = { .content = 1 };
    request.version = POTTLE_REQUEST_VERSION;
    o.status = pottle_scale(all, recipe, &request, &plan, NULL);
    o.touched = o.status != POTTLE_OK && plan != (void *)&mark;
    if (o.status == POTTLE_OK) {
        add_plan(&o.content, plan);
        pottle_plan_free(plan);
    }
    return o;
}

static pottle_phrase tomato, onion, lemon, apple;

static outcome
scale_batches(void)
{
    return scale_as(salsa, (pottle_request){ .batches = 2.5,
                                             .has_altitude = true,
                                             .altitude_m = 1900 });
}

static outcome
scale_have(void)
{
    const pottle_phrase have[] = { tomato, onion };
    return scale_as(salsa, (pottle_request){ .have = have, .haves = 2 });
}

static outcome
scale_swap(void)
{
    return scale_as(salsa,
                    (pottle_request){ .batches = 1, .set = &lemon, .sets = 1 });
}

static outcome
scale_per_jar(void)
{
    return scale_as(tomatoes, (pottle_request){ .fill = 14 });
}

/* Refused with all memory too: the foods that were read are given back. */
static outcome
scale_refused(void)
{
    pottle_phrase less = lemon;
    less.low = less.high = 0.25;
    outcome o = scale_as(
        salsa, (pottle_request){ .batches = 1, .set = &less, .sets = 1 });
    if (o.status == POTTLE_EBOUNDS)
        o.status = POTTLE_OK;
    return o;
}

static void
tell(void *context, bool warning, const pottle_error *finding)
{
    told *t = context;
    add_number(&t->content, warning);
    add_text(&t->content, finding->code);
    add_text(&t->content, finding->what);
    t->files += !warning;
}

static outcome
check_file(const char *path)
{
    size_t errors = 4711;
    told t = { 1, 0 };
    const pottle_status status =
        pottle_file_check(all, path, tell, &t, &errors, NULL);
    return (outcome){ .status = status,
                      .touched = status != POTTLE_OK && errors != 4711,
                      .content = t.content,
                      .told = t.files };
}

static outcome
check_recipe(void)
{
    return check_file("test_memory.tmp/butter/apple-butter.xml");
}
static outcome
check_food(void)
{
    return check_file("test_memory.tmp/foods/apple.xml");
}
static outcome
check_jars(void)
{
    return check_file("test_memory.tmp/jars.xml");
}
static outcome
check_broken(void)
{
    return check_file("test_memory.tmp/chutney/broken.xml");
}

static outcome
find_recipes(void)
{
    pottle_matches *m = (pottle_matches *)(void *)&mark;
    const pottle_search search = { .version = POTTLE_SEARCH_VERSION,
                                   .have = &apple,
                                   .haves = 1 };
    told t = { 1, 0 };
    outcome o = { .content = 1 };
    o.status = pottle_recipes_find(walked, &search, tell, &t, &m, NULL);
    o.told = t.files;
    o.touched = o.status != POTTLE_OK && m != (void *)&mark;
    if (o.status == POTTLE_OK) {
        size_t n = 0;
        const pottle_match *match = pottle_matches_list(m, &n);
        for (size_t i = 0; i < n; i++) {
            add_recipe(&o.content, match[i].recipe);
            add_number(&o.content, match[i].used);
        }
        pottle_matches_free(m);
    }
    return o;
}

/* What the links of a chain rest on is read as for a plan. */
static outcome
new_chain(void)
{
    pottle_chain *chain = (pottle_chain *)(void *)&mark;
    const pottle_chain_request request = { .version =
                                               POTTLE_CHAIN_REQUEST_VERSION };
    outcome o = { .content = 1 };
    o.status = pottle_chain_new(all, salsa, &request, &chain, NULL);
    o.touched = o.status != POTTLE_OK && chain != (void *)&mark;
    if (o.status == POTTLE_OK) {
        size_t n = 0;
        const pottle_chain_link *link = pottle_chain_links(chain, &n);
        for (size_t i = 0; i < n; i++)
            add_number(&o.content, link[i].factor.median);
        add_text(&o.content, pottle_chain_facts_of(chain)->food);
        pottle_chain_free(chain);
    }
    return o;
}

static bool
untouched(const void *bytes, size_t n, unsigned char filled)
{
    const unsigned char *b = bytes;
    size_t i = 0;
    while (i < n && b[i] == filled)
        i++;
    return i == n;
}

/* Liquids for jars, and what a recipe prints of its jars: each reads a food or
 * makes a plan. */
static outcome
make_brine(void)
{
    pottle_brine_mix m;
    outcome o = { .content = 1 };
    memset(&m, 0x5A, sizeof m);
    o.status = pottle_brine_of_percent(all, 5, (pottle_volume){ 1000 }, false,
                                       &m, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&m, sizeof m, 0x5A);
    if (o.status == POTTLE_OK)
        add_number(&o.content, m.salt_g);
    return o;
}

static outcome
make_recipe_brine(void)
{
    static pottle_brine_plan p;
    const pottle_brine_request request = { .version =
                                               POTTLE_BRINE_REQUEST_VERSION,
                                           .volume_ml = 1000 };
    outcome o = { .content = 1 };
    memset(&p, 0x5A, sizeof p);
    o.status = pottle_brine_of_recipe(all, dills, &request, &p, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&p, sizeof p, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, p.factor);
        add_number(&o.content, (double)p.lines);
    }
    return o;
}

static outcome
make_syrup(void)
{
    pottle_syrup_mix m;
    outcome o = { .content = 1 };
    memset(&m, 0x5A, sizeof m);
    o.status = pottle_syrup_of_brix(all, 30, (pottle_volume){ 1000 }, &m, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&m, sizeof m, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, m.sugar_g);
        add_number(&o.content, m.sugar_ml);
    }
    return o;
}

static outcome
compare_yield(void)
{
    pottle_yield_comparison c;
    outcome o = { .content = 1 };
    memset(&c, 0x5A, sizeof c);
    o.status = pottle_yield_compare(all, salsa, &c, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&c, sizeof c, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, c.factor);
        add_number(&o.content, c.balance_jars.median);
    }
    return o;
}

/* -- A person's kitchen ---------------------------------------------------- */

static const char kitchen_path[] = "test_memory.tmp/kitchen.xml";
static const char kitchen_text[] = "<kitchen>\n"
                                   "  <altitude value=\"1900\" unit=\"m\"/>\n"
                                   "  <pot id=\"big\" title=\"Big\"><tare "
                                   "value=\"3 1/2\" unit=\"lb\"/></pot>\n"
                                   "</kitchen>\n";
static pottle_kitchen kitchen;

static outcome
read_kitchen(void)
{
    static pottle_kitchen read;
    outcome o = { .content = 1 };
    memset(&read, 0x5A, sizeof read);
    o.status = pottle_kitchen_read(all, kitchen_path, &read, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&read, sizeof read, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, read.altitude.low);
        add_number(&o.content, (double)read.pots);
        add_text(&o.content, read.pot[0].title);
    }
    return o;
}

/* The file that was there stays as it was. */
static outcome
write_kitchen(void)
{
    struct stat before, after;
    outcome o = { .content = 1 };
    must(stat(kitchen_path, &before) == 0, kitchen_path);
    o.status = pottle_kitchen_write(&kitchen, kitchen_path, NULL);
    must(stat(kitchen_path, &after) == 0, kitchen_path);
    o.touched = o.status != POTTLE_OK && before.st_ino != after.st_ino;
    return o;
}

static const struct call {
    const char *name;
    outcome (*run)(void);
    bool spares; /* can do without some of its memory */
    bool schema; /* uses libxml2's RELAX NG */
} calls[] = {
    { .name = "open nothing", .run = open_nothing },
    { .name = "open names", .run = open_names },
    { .name = "open figures", .run = open_figures },
    { .name = "open jars", .run = open_jars },
    { .name = "open rules", .run = open_rules },
    { .name = "open sources", .run = open_sources },
    { .name = "open syrups", .run = open_syrups },
    { .name = "open rescue", .run = open_rescue },
    { .name = "open all, with own", .run = open_all },
    { .name = "read a food", .run = read_food },
    { .name = "read a recipe", .run = read_recipe },
    { .name = "read a recipe by path", .run = read_recipe_file },
    { .name = "read no recipe", .run = read_unknown_recipe, .spares = true },
    { .name = "walk recipes", .run = walk_recipes },
    { .name = "scale batches", .run = scale_batches },
    { .name = "scale two on hand", .run = scale_have },
    { .name = "scale with a swap", .run = scale_swap },
    { .name = "scale with doses", .run = scale_per_jar },
    { .name = "scale refused", .run = scale_refused },
    { .name = "find recipes", .run = find_recipes },
    { .name = "make a chain", .run = new_chain },
    { .name = "make a brine", .run = make_brine },
    { .name = "make a recipe's brine", .run = make_recipe_brine },
    { .name = "make a syrup", .run = make_syrup },
    { .name = "compare a yield", .run = compare_yield },
    { .name = "read a kitchen", .run = read_kitchen },
    { .name = "write a kitchen", .run = write_kitchen },
    { .name = "check a recipe", .run = check_recipe, .schema = true },
    { .name = "check a food", .run = check_food, .schema = true },
    { .name = "check jars", .run = check_jars, .schema = true },
    { .name = "check a broken file", .run = check_broken, .schema = true },
};
enum { CALLS = sizeof calls / sizeof calls[0] };

/* -- The set-up ------------------------------------------------------------ */

static void
link_to(const char *name)
{
    char from[2048], to[256];
    snprintf(from, sizeof from, "%s/%s", folder, name);
    snprintf(to, sizeof to, "%s/%s", few, name);
    unlink(to);
    must(symlink(from, to) == 0, to);
}

/* A catalogue of two kinds, made of links to the shipped one. */
static void
set_up(void)
{
    static const char *const folders[] = { "foods", "schema", "butter" };
    const char *srcdir = getenv("srcdir");
    char path[512];
    snprintf(path, sizeof path, "%s/recipes", srcdir != NULL ? srcdir : ".");
    char *real = realpath(path, NULL);
    must(real != NULL, path);
    snprintf(folder, sizeof folder, "%s", real);
    free(real);
    mkdir(few, 0777);
    mkdir("test_memory.tmp/chutney", 0777);
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++)
        link_to(folders[i]);
    DIR *dir = opendir(folder);
    must(dir != NULL, folder);
    for (const struct dirent *e = readdir(dir); e != NULL; e = readdir(dir))
        if (strstr(e->d_name, ".xml") != NULL)
            link_to(e->d_name);
    closedir(dir);
    link_to("chutney/cranberry-orange-chutney.xml");
    FILE *broken = fopen("test_memory.tmp/chutney/broken.xml", "w");
    must(broken != NULL &&
             fputs("<recipe id=\"broken\" "
                   "kind=\"chutney\"><title>Broken</title></recipe>\n",
                   broken) >= 0 &&
             fclose(broken) == 0,
         "broken.xml");
    FILE *mine = fopen(kitchen_path, "w");
    must(mine != NULL && fputs(kitchen_text, mine) >= 0 && fclose(mine) == 0,
         kitchen_path);
    must(pottle_kitchen_read(NULL, kitchen_path, &kitchen, NULL) == POTTLE_OK,
         kitchen_path);

    must(pottle_catalogue_open(folder, NULL, POTTLE_WITH_ALL, &all, NULL) ==
             POTTLE_OK,
         folder);
    must(pottle_catalogue_open(few, NULL, POTTLE_WITH_ALL, &walked, NULL) ==
             POTTLE_OK,
         few);
    must(pottle_recipe_read(all, "chile-salsa", &salsa, NULL) == POTTLE_OK,
         "chile-salsa");
    must(pottle_recipe_read(all, "tomatoes-crushed", &tomatoes, NULL) ==
             POTTLE_OK,
         "tomatoes-crushed");
    must(pottle_recipe_read(all, "quick-fresh-pack-dill-pickles", &dills,
                            NULL) == POTTLE_OK,
         "quick-fresh-pack-dill-pickles");
    must(pottle_phrase_read(all, "10 lb tomatoes", NULL, 0, &tomato, NULL) ==
             POTTLE_OK,
         "tomatoes");
    must(pottle_phrase_read(all, "3 lb onions", NULL, 0, &onion, NULL) ==
             POTTLE_OK,
         "onions");
    must(pottle_phrase_read(all, "10 lb apples", NULL, 0, &apple, NULL) ==
             POTTLE_OK,
         "apples");
    must(pottle_phrase_read(all, "2 cups bottled lemon juice", NULL, 0, &lemon,
                            NULL) == POTTLE_OK,
         "lemon juice");
}

/* Takes out what stands in a folder, links and not what they lead to. */
static void
empty(const char *name)
{
    char path[1024];
    DIR *dir = opendir(name);
    for (struct dirent *e = NULL; dir != NULL && (e = readdir(dir)) != NULL;) {
        snprintf(path, sizeof path, "%s/%s", name, e->d_name);
        if (strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0)
            unlink(path);
    }
    if (dir != NULL)
        closedir(dir);
    rmdir(name);
}

static void
tear_down(void)
{
    pottle_recipe_free(dills);
    pottle_recipe_free(tomatoes);
    pottle_recipe_free(salsa);
    pottle_catalogue_free(walked);
    pottle_catalogue_free(all);
    empty("test_memory.tmp/chutney");
    empty(few);
}

/* -- The tests ------------------------------------------------------------- */

static outcome
run_with(const struct call *call, tap *failing, long n)
{
    own.asked = own.held = xml.asked = xml.held = 0;
    own.fail_at = xml.fail_at = -1;
    if (failing != NULL)
        failing->fail_at = n;
    own.open = xml.open = true;
    const outcome o = call->run();
    /* the thread keeps the last error's text, which is no leak */
    xmlResetLastError();
    own.open = xml.open = false;
    return o;
}

/* What libxml2 keeps when it has no memory itself: 2.9.14 never frees a buffer
 * that could not grow (xmlParserInputBufferCreateMem), which is two pieces, nor
 * what it had copied of a tree it cannot finish (xmlDocCopyNode), which is any
 * number. Ours are seen by the other failures, where nothing may be kept. */
static long
lost_by_libxml2(const struct call *call, long n)
{
    const bool failed = xml.fail_at >= 0 && xml.asked > n;
    return !failed ? 0 : call->schema ? 1000000 : 2;
}

static void
check_kept(const struct call *call, const char *whose, long n, const outcome *o)
{
    const long kept = xml.held, may_be = lost_by_libxml2(call, n);
    ck_assert_msg(!o->touched, "%s, %s %ld failed: an output was written",
                  call->name, whose, n);
    ck_assert_msg(own.held == 0, "%s, %s %ld failed: %ld pieces are kept",
                  call->name, whose, n, own.held);
    ck_assert_msg(kept <= may_be,
                  "%s, %s %ld failed: %ld pieces of libxml2 are kept",
                  call->name, whose, n, kept);
    /* or a sanitizer would hold us for their owner */
    while (xml.held > 0)
        free(xml.piece[--xml.held]);
}

/* What is made once a process, libxml2 keeps: the first run is not counted. */
static outcome
reference(const struct call *call)
{
    call->run();
    const outcome o = run_with(call, NULL, 0);
    ck_assert_msg(o.status == POTTLE_OK, "%s gives '%s'", call->name,
                  pottle_strerror((int)o.status));
    check_kept(call, "nothing", 0, &o);
    return o;
}

/* Without --wrap=free no leak could be seen: sanitizers and valgrind see them,
 * but are not always there. */
START_TEST(frees_are_seen)
{
    ck_assert_msg(__real_free != NULL, "link with -Wl,--wrap=free");
    /* by pointer, since a compiler may do as it likes with what it knows as
     * malloc */
    void *(*volatile get)(size_t) = malloc;
    void *(*volatile get_zeroed)(size_t, size_t) = calloc;
    void *(*volatile get_more)(void *, size_t) = realloc;
    void (*volatile give)(void *) = free;
    own.asked = own.held = 0;
    own.fail_at = 3;
    own.open = true;
    void *p = get_more(get(1), 100), *q = get_zeroed(3, 5), *none = get(1);
    const long held = own.held;
    give(p);
    give(q);
    own.open = false;
    ck_assert_int_eq(own.asked, 4);
    ck_assert_ptr_null(none);
    ck_assert_int_eq(held, 2);
    ck_assert_int_eq(own.held, 0);
}
END_TEST

START_TEST(own_allocations_fail)
{
    const struct call *call = &calls[_i];
    const outcome whole = reference(call);
    ck_assert_msg(own.asked > 0, "%s asks for no memory", call->name);
    for (long n = 0;; n++) {
        const outcome o = run_with(call, &own, n);
        const bool failed = own.asked > n;
        check_kept(call, "allocation", n, &o);
        if (failed && !call->spares)
            ck_assert_msg(o.status == POTTLE_ENOMEM,
                          "%s, allocation %ld failed: '%s'", call->name, n,
                          pottle_strerror((int)o.status));
        if (o.status == POTTLE_OK)
            ck_assert_msg(o.content == whole.content,
                          "%s, allocation %ld failed: OK, and not whole",
                          call->name, n);
        if (!failed) {
            ck_assert_int_eq(o.status, POTTLE_OK);
            break;
        }
    }
}
END_TEST

/* All of the first, then ever fewer: a schema takes thousands. */
static long
after(long n)
{
    return n + 1 + n / 64;
}

/* Of a call that uses a schema only this many are made to fail, those of
 * reading the documents: later on 2.9.14 crashes by itself where a pattern of
 * the schema cannot be compiled (xmlRegexpCompile). */
enum { BEFORE_THE_SCHEMA = 1000 };

/* libxml2 2.9.14 does not always say that it had no memory: where a name cannot
 * be kept it takes the text for one that is not well-formed. So a file may be
 * called invalid; never is what was read before taken for the whole. */
START_TEST(allocations_of_libxml2_fail)
{
    const struct call *call = &calls[_i];
    const outcome whole = reference(call);
    for (long n = 0; !call->schema || n < BEFORE_THE_SCHEMA; n = after(n)) {
        const outcome o = run_with(call, &xml, n);
        const bool failed = xml.asked > n;
        check_kept(call, "libxml2's allocation", n, &o);
        if (o.status == POTTLE_OK)
            ck_assert_msg(
                o.content == whole.content || o.told > whole.told ||
                    (call->schema && o.told > 0),
                "%s, libxml2's allocation %ld failed: OK, and not whole",
                call->name, n);
        else
            ck_assert_msg(o.status == POTTLE_ENOMEM ||
                              o.status == POTTLE_EDATA ||
                              o.status == POTTLE_EIO,
                          "%s, libxml2's allocation %ld failed: '%s'",
                          call->name, n, pottle_strerror((int)o.status));
        if (!failed) {
            ck_assert_int_eq(o.status, POTTLE_OK);
            ck_assert_msg(o.content == whole.content,
                          "%s is another with all its memory", call->name);
            break;
        }
    }
}
END_TEST

/* -- What takes no memory -------------------------------------------------- */

static void
shut(void)
{
    own.asked = own.held = xml.asked = xml.held = 0;
    own.fail_at = xml.fail_at = 0;
    own.open = xml.open = true;
}

/* "Nothing else allocates" (pottle.h). */
static void
check_none(const char *what)
{
    own.open = xml.open = false;
    ck_assert_msg(own.asked == 0 && xml.asked == 0,
                  "%s takes %ld pieces of memory", what, own.asked + xml.asked);
}

START_TEST(values_take_no_memory)
{
    pottle_range range;
    pottle_quantity q;
    pottle_error error;
    char buf[64];
    double x = 0;
    shut();
    bool done = pottle_number_read("3 1/2", &range) == POTTLE_OK &&
                pottle_number_read("1,000", &range) == POTTLE_ESYNTAX;
    done = done && pottle_number_write(1.0 / 3, 5, buf, sizeof buf) > 0;
    check_none("a number");
    ck_assert(done);
    shut();
    done = pottle_quantity_read("2-3 pounds per square inch", -1, &q, &error) ==
               POTTLE_OK &&
           pottle_quantity_read("2 firkins", -1, &q, &error) == POTTLE_EUNIT;
    done = done && pottle_unit_find("Tbsp.") != NULL &&
           pottle_unit_find("firkin") == NULL && pottle_unit_at(3) != NULL;
    done = done &&
           pottle_unit_convert(1, pottle_unit_find("cup"),
                               pottle_unit_find("ml"), &x, &error) == POTTLE_OK;
    done = done && pottle_dimension_name(1) != NULL &&
           pottle_strerror(3) != NULL && pottle_version() != NULL;
    check_none("a unit");
    ck_assert(done);
}
END_TEST

START_TEST(estimates_take_no_memory)
{
    pottle_estimate a = { 2, 0.1 };
    const pottle_estimate b = { 3, 0.2 }, terms[] = { a, b };
    double x = 0;
    shut();
    bool done = pottle_estimate_between(4, 9, &a) == POTTLE_OK;
    a = pottle_estimate_times(a, b);
    a = pottle_estimate_over(a, b);
    a = pottle_estimate_multiple(a, 2);
    a = pottle_estimate_combine(a, pottle_estimate_sum(terms, 2));
    done = done && pottle_estimate_quantile(a, 0.9, &x) == POTTLE_OK;
    const pottle_interval i = pottle_estimate_interval(a);
    check_none("an estimate");
    ck_assert(done && i.low > 0);
}
END_TEST

START_TEST(matter_takes_no_memory)
{
    pottle_density density;
    pottle_temperature t;
    pottle_pressure p;
    double x = 0;
    shut();
    const bool done =
        pottle_water_density(20, &density) == POTTLE_OK &&
        pottle_air_pressure(1900, &p) == POTTLE_OK &&
        pottle_water_boiling(p, &t) == POTTLE_OK &&
        pottle_sugar_density(60, &density) == POTTLE_OK &&
        pottle_sugar_elevation(60, POTTLE_SUGAR_EQUATION_1997, &x) ==
            POTTLE_OK &&
        pottle_sugar_brix(x, POTTLE_SUGAR_EQUATION_1997, &x) == POTTLE_OK &&
        pottle_sugar_elevation(60, POTTLE_SUGAR_TABLE_1912, &x) == POTTLE_OK &&
        pottle_gel_point_rule(p, &t) == POTTLE_OK;
    check_none("a property of matter");
    ck_assert(done);
}
END_TEST

START_TEST(measures_take_no_memory)
{
    pottle_measure m;
    char buf[64];
    shut();
    const bool done = pottle_measure_round(1000, POTTLE_VOLUME, POTTLE_AT_LEAST,
                                           &m) == POTTLE_OK &&
                      pottle_measure_write(&m, buf, sizeof buf) > 0 &&
                      pottle_measure_round(1e-9, POTTLE_MASS, POTTLE_EXACT,
                                           &m) == POTTLE_EDOMAIN;
    check_none("a kitchen measure");
    ck_assert(done);
}
END_TEST

START_TEST(jars_take_no_memory)
{
    const pottle_jar *jar = NULL;
    pottle_estimate fill;
    pottle_jar_count count;
    pottle_error error;
    shut();
    const bool done =
        pottle_jar_find(all, "pint", &jar, &error) == POTTLE_OK &&
        pottle_jar_find(all, "tub", &jar, &error) == POTTLE_ENOENT &&
        pottle_jar_fill(all, jar, (pottle_length){ 12.7 }, &fill, &error) ==
            POTTLE_OK &&
        pottle_jars_count((pottle_estimate){ 10000, 0.2 }, fill, &count) ==
            POTTLE_OK;
    check_none("a count of jars");
    ck_assert(done);
}
END_TEST

START_TEST(a_look_up_takes_no_memory)
{
    pottle_process process[POTTLE_PROCESS_MAX];
    size_t count = 0, jars = 0;
    pottle_error error;
    const pottle_jar *jar = pottle_jars(all, &jars);
    bool found = false, refused = false;
    shut();
    for (size_t i = 0; i < jars; i++) {
        const pottle_status status =
            pottle_process_find(all, tomatoes, &jar[i], NULL, POTTLE_ANY_PACK,
                                1900, process, &count, &error);
        found = found || status == POTTLE_OK;
        refused = refused || status == POTTLE_EBOUNDS;
    }
    check_none("the look-up of a process");
    ck_assert(found && refused);
}
END_TEST

START_TEST(a_chain_that_is_made_takes_no_more)
{
    pottle_chain *chain = NULL;
    const pottle_chain_request request = { .version =
                                               POTTLE_CHAIN_REQUEST_VERSION };
    const pottle_observation cooked = { .node = POTTLE_CHAIN_COOKED_VOLUME,
                                        .low = 3000,
                                        .high = 3000 };
    pottle_chain_state state;
    pottle_chain_gain gain[POTTLE_CHAIN_NODES];
    pottle_chain_wanted wanted;
    pottle_error error;
    size_t gains = 0;
    ck_assert_int_eq(pottle_chain_new(all, salsa, &request, &chain, NULL),
                     POTTLE_OK);
    shut();
    const bool done =
        pottle_chain_update(chain, &cooked, 1, &state, &error) == POTTLE_OK &&
        pottle_chain_next(chain, NULL, 0, gain, &gains, &error) == POTTLE_OK &&
        pottle_chain_want(chain, NULL, 0, 8, &wanted, &error) == POTTLE_OK;
    check_none("what a chain tells");
    pottle_chain_free(chain);
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

START_TEST(a_phrase_takes_no_memory)
{
    static const struct {
        const char *text;
        pottle_status status;
    } phrases[] = {
        { "8 cups chopped rhubarb", POTTLE_OK },
        { "12 medium tomatoes, peeled", POTTLE_OK },
        { "2 tbsp allspice", POTTLE_EAMBIGUOUS },
        { "2 cups moon dust", POTTLE_ENOENT },
        { "3 inches cucumber", POTTLE_EUNIT },
        { "sliced apples", POTTLE_ESYNTAX },
        { "0 lb apples", POTTLE_EDOMAIN },
    };
    for (size_t i = 0; i < sizeof phrases / sizeof phrases[0]; i++) {
        pottle_phrase p;
        pottle_error error;
        shut();
        const pottle_status status =
            pottle_phrase_read(all, phrases[i].text, NULL, 0, &p, &error);
        check_none("a phrase");
        ck_assert_msg(status == phrases[i].status, "'%s' gives '%s'",
                      phrases[i].text, pottle_strerror((int)status));
    }
}
END_TEST

START_TEST(a_name_takes_no_memory)
{
    const char *ids[4];
    size_t count = 0;
    pottle_error error;
    shut();
    const bool done =
        pottle_names_find(all, "apples", ids, 4, &count, &error) == POTTLE_OK &&
        pottle_names_find(all, "aplle", ids, 4, &count, &error) ==
            POTTLE_ENOENT &&
        pottle_food_name(all, "apple", 0) != NULL &&
        pottle_food_at(all, 0) != NULL &&
        pottle_rule_find(all, "acid-at-least") != NULL;
    check_none("a name");
    ck_assert(done);
}
END_TEST

START_TEST(a_conversion_takes_no_memory)
{
    pottle_food *food = NULL;
    pottle_conversion c;
    pottle_estimate g;
    pottle_basis basis = { .cites = 0 };
    pottle_error error;
    ck_assert_int_eq(pottle_food_read(all, "apple", &food, NULL), POTTLE_OK);
    shut();
    const bool done = pottle_convert(all, food, &apple, pottle_unit_find("cup"),
                                     "sliced", &c, &error) == POTTLE_OK &&
                      pottle_phrase_mass(all, food, &apple, POTTLE_PREPARED, "",
                                         "", &g, &basis, &error) == POTTLE_OK &&
                      pottle_form_density(all, food, "rings", &g, &basis,
                                          &error) == POTTLE_ENOENT;
    check_none("a conversion");
    pottle_food_free(food);
    ck_assert(done);
}
END_TEST

int
main(void)
{
    /* before anything else touches libxml2 */
    must(xmlMemSetup(xml_free, xml_malloc, xml_realloc, xml_strdup) == 0,
         "xmlMemSetup");
    xmlInitParser();
    xmlSetGenericErrorFunc(NULL, say_nothing);
    set_up();

    Suite *suite = suite_create("memory");
    TCase *t = tcase_create("failing");
    tcase_set_timeout(t, 300);
    tcase_add_test(t, frees_are_seen);
    tcase_add_loop_test(t, own_allocations_fail, 0, CALLS);
    tcase_add_loop_test(t, allocations_of_libxml2_fail, 0, CALLS);
    suite_add_tcase(suite, t);

    t = tcase_create("without memory");
    tcase_add_test(t, values_take_no_memory);
    tcase_add_test(t, estimates_take_no_memory);
    tcase_add_test(t, matter_takes_no_memory);
    tcase_add_test(t, measures_take_no_memory);
    tcase_add_test(t, jars_take_no_memory);
    tcase_add_test(t, a_look_up_takes_no_memory);
    tcase_add_test(t, a_chain_that_is_made_takes_no_more);
    tcase_add_test(t, a_phrase_takes_no_memory);
    tcase_add_test(t, a_name_takes_no_memory);
    tcase_add_test(t, a_conversion_takes_no_memory);
    suite_add_tcase(suite, t);

    const int result = suite_run(suite);
    tear_down();
    return result;
}
