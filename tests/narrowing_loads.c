/* narrowing_loads.c - test_narrowing: containers and canner loads, as
 * published. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "narrowing_cases.h"

/* The jars from a weight, as bought, of the food the quantities are of. */
static pottle_interval
jars_from(const pottle_recipe *recipe, const char *jar, double g,
          const pottle_unit *container)
{
    const pottle_chain_request request = {
        .version = POTTLE_CHAIN_REQUEST_VERSION,
        .food = pottle_recipe_quantities(recipe)->food,
        .jar = kitchen_jar(jar),
        .picked_said = true,
        .picked = POTTLE_PURCHASED,
        .container = container
    };
    pottle_chain *chain = chain_of(recipe, &request);
    const pottle_observation seen = { .node = container != NULL
                                                ? POTTLE_CHAIN_CONTAINER
                                                : POTTLE_CHAIN_PICKED,
                                      .low = container != NULL ? 1 : g,
                                      .high = container != NULL ? 1 : g };
    const pottle_chain_state s = state_of(chain, &seen, 1);
    ck_assert_msg(s.has_jars, "%s: no jars", pottle_recipe_id(recipe));
    const pottle_interval out =
        pottle_estimate_interval(s.node[POTTLE_CHAIN_JARS]);
    pottle_chain_free(chain);
    return out;
}

/* A printed yield that mass balance does not allow (data: possible="no"). */
static bool
is_impossible(const pottle_recipe *recipe)
{
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    return n > 0 && !y[0].possible;
}

/* Whether the chain says of a published container yield that it contradicts the
 * canner loads. */
static bool
is_told_off(const pottle_recipe *recipe, const pottle_container_yield *y)
{
    const pottle_chain_request request = {
        .version = POTTLE_CHAIN_REQUEST_VERSION,
        .food = pottle_recipe_quantities(recipe)->food,
        .jar = kitchen_jar(y->jar)
    };
    pottle_chain *chain = chain_of(recipe, &request);
    char wanted[80];
    bool told = false;
    snprintf(wanted, sizeof wanted, "%s: %g to %g jars a %s contradict",
             y->cite.source, y->low, y->high, y->of->id);
    size_t n = 0;
    const pottle_chain_link *l = pottle_chain_links(chain, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < l[i].basis.notes; k++)
            told = told || strstr(l[i].basis.note[k], wanted) != NULL;
    pottle_chain_free(chain);
    return told;
}

/* A printed end is a whole jar: it stands for half a jar either way. */
static bool
holds_low(pottle_interval i, const pottle_container_yield *y)
{
    return y->low + 0.5 >= i.low && y->low - 0.5 <= i.high;
}

static bool
holds_high(pottle_interval i, const pottle_container_yield *y)
{
    return y->high - 0.5 <= i.high && y->high + 0.5 >= i.low;
}

/* Published container yields that are not inside whole, and which end is out by
 * the printed weight and by the container itself, whose weight is a range of
 * its own: - none, L low, H high, LH both, x not by the container. Where the
 * middle is inside as well an m follows. A row that no longer stands as it says
 * is an error, and so is one that is not here.
 *
 * Most are one thing: a page prints its bushel as the average weight a quart
 * would have it and then a range about that. The loads and the average agree
 * within a few percent, so nine chances in ten are narrower than the range of
 * all that was ever seen. */
static const struct partly {
    const char *recipe, *source, *of, *jar;
    double low, high;
    const char *weight, *container, *why;
} partly[] = {
    { "beans-snap", "usda-aib539-g4", "bushel", "quart", 12, 20, "Hm", "Hm",
      "2 lb a quart on the same page makes 15 of 30 lb; 20 is 1 1/2 lb a "
      "quart" },
    { "carrots", "usda-aib539-g4", "bushel", "quart", 17, 25, "Hm", "Hm",
      "2 1/2 lb a quart on the same page makes 20 of 50 lb; 25 is 2 lb" },
    { "peas-green", "usda-aib539-g4", "bushel", "quart", 5, 10, "Hm", "Hm",
      "4 1/2 lb a quart on the same page makes 6.7 of 30 lb; 10 is 3 lb" },
    { "potatoes-sweet", "usda-aib539-g4", "bushel", "quart", 17, 25, "Hm", "-m",
      "2 1/2 lb a quart on the same page makes 20 of 50 lb; other bushels are "
      "heavier" },
    { "potatoes-white", "usda-aib539-g4", "bag", "quart", 18, 22, "Hm", "Hm",
      "20 lb a load of 7 makes 17.5 of 50 lb, and no quart of the page makes "
      "over 20" },
    { "spinach-greens", "usda-aib539-g4", "bushel", "quart", 3, 9, "Hm", "Hm",
      "4 lb a quart on the same page makes 4.5 of 18 lb; 9 is 2 lb" },
    { "asparagus", "msu-ext", "bushel", "quart", 11, 18, "Hm", "Hm",
      "another sheet, 2 1/2 to 4 lb a quart; the guide has 3 1/2" },
    { "berries-whole", "uga-ext", "crate", "quart", 12, 18, "Lm", "Lm",
      "another sheet, 2 to 3 lb a quart; the guide has 1 1/2 to 2" },
    { "cherries-whole", "usda-aib539-g2", "lug", "quart", 8, 12, "-m", "Hm",
      "a lug of 25 lb here, of 11 to 20 lb elsewhere" },
    { "plums", "usda-aib539-g2", "bushel", "quart", 22, 36, "-m", "Hm",
      "a bushel of 56 lb here, of 46 to 56 lb elsewhere" },
    { "peaches", "msu-ext", "lug", "quart", 7, 11, "-m", "Hm",
      "a lug of 22 lb here, of 19 lb elsewhere" },
    { "applesauce", "usda-aib539-g2", "bushel", "quart", 14, 19, "-m", "Hm",
      "a bushel of 48 lb here, of 40 to 48 lb elsewhere" },
    { "berries-whole", "msu-ext", "box", "quart", 3, 4, "L", "x",
      "contradicts the loads; the tool says so" },
    { "asparagus", "msu-ext", "box", "quart", 6, 9, "LH", "x",
      "contradicts the loads; the tool says so" },
    { "rhubarb-stewed", "usda-aib539-g2", "lug", "quart", 14, 28, "H", "x",
      "seven quarts of it would need more than goes in" },
};
enum { PARTLY = sizeof partly / sizeof partly[0] };

/* Which ends are out, as in the list. */
static const char *
ends_out(pottle_interval i, const pottle_container_yield *y)
{
    static const char *const words[2][2][2] = {
        { { "LH", "LHm" }, { "L", "Lm" } }, { { "H", "Hm" }, { "-", "-m" } }
    };
    const double middle = sqrt(y->low * y->high);
    return words[holds_low(i, y)][holds_high(i, y)]
                [middle >= i.low && middle <= i.high];
}

static const struct partly *
known_partly(const pottle_recipe *recipe, const pottle_container_yield *y)
{
    for (size_t k = 0; k < PARTLY; k++) {
        const struct partly *p = &partly[k];
        if (strcmp(p->recipe, pottle_recipe_id(recipe)) == 0 &&
            strcmp(p->source, y->cite.source) == 0 &&
            strcmp(p->of, y->of->id) == 0 && strcmp(p->jar, y->jar) == 0 &&
            fabs(p->low - y->low) < 1e-9 && fabs(p->high - y->high) < 1e-9)
            return p;
    }
    return NULL;
}

/* Whole inside, or out as the list says. */
static void
check_ends(const pottle_recipe *recipe, const pottle_container_yield *y,
           pottle_interval i, bool by_container)
{
    const struct partly *p = known_partly(recipe, y);
    const char *expected = p == NULL    ? "-m"
                         : by_container ? p->container
                                        : p->weight,
               *found = ends_out(i, y);
    ck_assert_msg(strcmp(found, expected) == 0,
                  "%s: %g to %g %s from a %s%s (%s, %s), predicted %.2f to "
                  "%.2f: ends out expected %s, found %s; %s",
                  pottle_recipe_id(recipe), y->low, y->high, y->jar, y->of->id,
                  by_container ? "" : " by its weight", y->cite.source,
                  y->cite.at, i.low, i.high, expected, found,
                  p != NULL ? p->why : "not in the list");
}

typedef struct tally {
    int yields, whole, listed, loads, outside, impossible;
    char text[1200];
} tally;

static void
check_container(const pottle_recipe *recipe, const pottle_container_yield *y,
                tally *t)
{
    const pottle_interval i = jars_from(recipe, y->jar, y->grams, NULL);
    const struct partly *p = known_partly(recipe, y);
    t->yields++;
    t->whole += strcmp(ends_out(i, y), "-m") == 0;
    t->listed += p != NULL;
    check_ends(recipe, y, i, false);
    /* what is not even inside with its middle is told to the person */
    if (strchr(ends_out(i, y), 'm') == NULL)
        ck_assert_msg(is_impossible(recipe) || is_told_off(recipe, y),
                      "%s: %g to %g %s from a %s is out and nobody is told",
                      pottle_recipe_id(recipe), y->low, y->high, y->jar,
                      y->of->id);
}

static void
check_load(const pottle_recipe *recipe, const char *jar, double jars, double g,
           const pottle_cite *cite, tally *t)
{
    const pottle_interval i = jars_from(recipe, jar, g, NULL);
    t->loads++;
    if (jars >= i.low && jars <= i.high)
        return;
    if (is_impossible(recipe)) {
        t->impossible++;
        return;
    }
    t->outside++;
    const size_t n = strlen(t->text);
    snprintf(t->text + n, sizeof t->text - n,
             "\n  %s: %g %s from %.0f g (%s, %s), predicted %.1f to %.1f",
             pottle_recipe_id(recipe), jars, jar, g, cite->source, cite->at,
             i.low, i.high);
}

START_TEST(published_quantities_are_inside)
{
    tally t = { 0 };
    for (int r = 0; r < kitchen_ids; r++) {
        pottle_recipe *recipe = kitchen_recipe(kitchen_id[r]);
        const pottle_quantities *q = pottle_recipe_quantities(recipe);
        for (size_t i = 0; i < q->containers; i++)
            check_container(recipe, &q->container[i], &t);
        for (size_t i = 0; i < q->loads; i++)
            check_load(recipe, q->load[i].jar, q->load[i].jars,
                       q->load[i].grams, &q->load[i].cite, &t);
        for (size_t i = 0; i < q->averages; i++)
            check_load(recipe, q->average[i].jar, 1, q->average[i].grams,
                       &q->average[i].cite, &t);
        pottle_recipe_free(recipe);
    }
    printf("container yields: %d, of these %d with both ends inside, %d "
           "listed; loads and averages: %d; of impossible yields: %d\n",
           t.yields, t.whole, t.listed, t.loads, t.impossible);
    ck_assert_msg(t.outside == 0, "%d published quantities lie outside:%s",
                  t.outside, t.text);
    ck_assert_int_ge(t.yields, 40);
    ck_assert_int_ge(t.loads, 80);
    /* every row of the list is met */
    ck_assert_int_eq(t.listed, PARTLY);
    /* stewed rhubarb alone: two loads and an average of a yield that its own
     * ingredients cannot fill */
    ck_assert_int_eq(t.impossible, 3);
}
END_TEST

/* By the container itself, whose weight is not exact: where the food has one of
 * that name. */
START_TEST(container_yields_are_inside_by_count)
{
    int checked = 0;
    for (int r = 0; r < kitchen_ids; r++) {
        pottle_recipe *recipe = kitchen_recipe(kitchen_id[r]);
        const pottle_quantities *q = pottle_recipe_quantities(recipe);
        for (size_t i = 0; i < q->containers; i++) {
            const pottle_container_yield *y = &q->container[i];
            pottle_food *food = NULL;
            ck_assert_int_eq(pottle_food_read(kitchen, q->food, &food, NULL),
                             POTTLE_OK);
            size_t n = 0;
            bool known = false;
            const pottle_container *c = pottle_food_containers(food, &n);
            for (size_t k = 0; k < n; k++)
                known = known || c[k].of == y->of;
            pottle_food_free(food);
            if (!known || is_impossible(recipe) || is_told_off(recipe, y))
                continue;
            const pottle_interval in = jars_from(recipe, y->jar, 0, y->of);
            checked++;
            check_ends(recipe, y, in, true);
        }
        pottle_recipe_free(recipe);
    }
    ck_assert_int_ge(checked, 35);
}
END_TEST

TCase *
narrowing_loads(void)
{
    TCase *t = tcase_create("the day");
    tcase_set_timeout(t, 120);
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, published_quantities_are_inside);
    tcase_add_test(t, container_yields_are_inside_by_count);
    return t;
}
