/* memory_calls.c - test_memory: the calls whose allocations fail. */
#include <config.h>

#include "memory_cases.h"

/* What walks over files tells of those that cannot be used, and goes on. */
typedef struct told {
    digest content;
    size_t files;
} told;

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

static outcome
read_recipe_again(void)
{
    pottle_recipe *r = (pottle_recipe *)(void *)&mark;
    const pottle_status status = pottle_recipe_again(all, tomatoes, &r, NULL);
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

/* -- All of them ----------------------------------------------------------- */

const struct call memory_calls[] = {
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
    { .name = "read a recipe again", .run = read_recipe_again },
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
    { .name = "make a syrup for jars", .run = make_syrup_for_jars },
    { .name = "make a syrup of a class", .run = make_syrup_of_class },
    { .name = "need syrup", .run = need_syrup },
    { .name = "dose acid", .run = dose_acid },
    { .name = "remake a jam", .run = remake_jam },
    { .name = "fill a shelf", .run = fill_shelf },
    { .name = "suit a mishap", .run = suit_mishap },
    { .name = "compare a yield", .run = compare_yield },
    { .name = "read a kitchen", .run = read_kitchen },
    { .name = "write a kitchen", .run = write_kitchen },
    { .name = "check a recipe", .run = check_recipe, .schema = true },
    { .name = "check a food", .run = check_food, .schema = true },
    { .name = "check jars", .run = check_jars, .schema = true },
    { .name = "check a broken file", .run = check_broken, .schema = true },
};
const size_t memory_call_count = sizeof memory_calls / sizeof memory_calls[0];
