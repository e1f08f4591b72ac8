/* property_requests.c - test_property: requests by chance, sensible or not. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "plan_check.h"

enum { SEEDS = 20, REQUESTS = 1000, HAVES_MAX = 5, SETS_MAX = 20 };

static double
any_number(uint64_t *chance)
{
    static const double absurd[] = { NOT_A_NUMBER, -1,     0,      -0.0,
                                     1e300,        -1e300, 1e-300, 1e9,
                                     1e-6,         1e12,   5e-324 };
    if (once_in(chance, 12))
        return once_in(chance, 5)
                 ? HUGE_VAL
                 : absurd[below(chance, sizeof absurd / sizeof absurd[0])];
    return once_in(chance, 3) ? spread_out(chance, 1e-6, 1e9)
                              : spread_out(chance, 0.05, 60);
}

/* A food of the recipe's lines, alternatives or jars; now and then any food, or
 * what is none. */
static const char *
any_food(uint64_t *chance, const pottle_recipe *recipe)
{
    size_t lines = 0, doses = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &lines);
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &doses);
    if (once_in(chance, 8)) {
        static const char *const others[] = { "vinegar",
                                              "fresh-lemon-juice",
                                              "bottled-lemon-juice",
                                              "corn",
                                              "cornstarch",
                                              "liquid-pectin",
                                              "no-such-food",
                                              "",
                                              "../tomato",
                                              "water",
                                              "salt" };
        return others[below(chance, sizeof others / sizeof others[0])];
    }
    if (doses > 0 && once_in(chance, 3)) {
        const pottle_per_jar *p = &per[below(chance, doses)];
        return p->choice[below(chance, p->choices)].food;
    }
    const pottle_ingredient *in = &list[below(chance, lines)];
    return in->alternatives > 0 && once_in(chance, 2)
             ? in->alternative[below(chance, in->alternatives)].food
             : in->food;
}

static pottle_phrase
any_phrase(uint64_t *chance, const pottle_recipe *recipe)
{
    static const char *const forms[] = {
        "",       "",       "",      "chopped", "sliced",      "crushed",
        "liquid", "ground", "whole", "diced",   "no-such-form"
    };
    static const char *const sizes[] = {
        "", "", "", "medium", "one", "clove", "box", "no-such-size"
    };
    size_t units = 0, lines = 0;
    while (pottle_unit_at(units) != NULL)
        units++;
    pottle_phrase p = { .state_said = once_in(chance, 2),
                        .state = (pottle_state)below(chance, 3) };
    POTTLEI_SET(p.food, any_food(chance, recipe));
    p.low = p.high = any_number(chance);
    if (once_in(chance, 5))
        p.high = p.low * spread_out(chance, 1, 3);
    if (once_in(chance, 40))
        p.high = any_number(chance);
    p.unit = pottle_unit_at(below(chance, units));
    /* mostly as the recipe measures it, and near what it takes */
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &lines);
    for (size_t i = 0; i < lines; i++) {
        if (strcmp(list[i].food, p.food) != 0 || once_in(chance, 3))
            continue;
        p.unit = list[i].unit;
        POTTLEI_SET(p.size, list[i].size);
        p.state_said = false;
        p.state = list[i].unit->dimension == POTTLE_VOLUME ? POTTLE_PREPARED
                                                           : list[i].state;
        if (!once_in(chance, 8) && list[i].amount > 0)
            p.low = p.high =
                list[i].amount *
                (once_in(chance, 4) ? 1 : spread_out(chance, 0.1, 10));
        return p;
    }
    POTTLEI_SET(p.form, forms[below(chance, sizeof forms / sizeof forms[0])]);
    POTTLEI_SET(p.size, sizes[below(chance, sizeof sizes / sizeof sizes[0])]);
    if (once_in(chance, 10))
        p.percent =
            once_in(chance, 4) ? any_number(chance) : spread_out(chance, 1, 20);
    return p;
}

static void
tell_phrase(const char *what, const pottle_phrase *p)
{
    tell(", %s %.9g-%.9g %s %s(%s, %s) %s state %d", what, p->low, p->high,
         p->unit->id, p->food, p->form, p->size, p->state_said ? "said" : "",
         (int)p->state);
}

typedef struct wish {
    pottle_request request;
    pottle_phrase have[HAVES_MAX], set[SETS_MAX];
    pottle_method method;
} wish;

static void
any_wish(uint64_t *chance, const pottle_recipe *recipe, wish *w)
{
    *w = (wish){ .request = { .version = POTTLE_REQUEST_VERSION } };
    pottle_request *r = &w->request;
    const size_t how = below(chance, 20);
    if (how < 10)
        r->haves = 1 + below(chance, HAVES_MAX);
    else if (how < 16)
        r->batches = once_in(chance, 2) ? 1.0 + (double)below(chance, 5)
                                        : any_number(chance);
    else
        r->fill = once_in(chance, 2) ? 1.0 + (double)below(chance, 40)
                                     : any_number(chance);
    if (once_in(chance, 50))
        r->batches = any_number(chance);
    if (once_in(chance, 50))
        r->version = (int)below(chance, 4);
    r->sets = once_in(chance, 3)
                ? (once_in(chance, 6) ? below(chance, SETS_MAX + 1)
                                      : 1 + below(chance, 3))
                : 0;
    for (size_t i = 0; i < r->haves; i++)
        w->have[i] = any_phrase(chance, recipe);
    for (size_t i = 0; i < r->sets; i++)
        w->set[i] = i > 0 && once_in(chance, 3) ? w->set[i - 1]
                                                : any_phrase(chance, recipe);
    r->have = w->have;
    r->set = w->set;
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(kitchen, &jars);
    r->jar = once_in(chance, 3) ? &jar[below(chance, jars)] : NULL;
    r->has_altitude = once_in(chance, 2);
    r->altitude_m =
        once_in(chance, 8) ? any_number(chance) : spread_out(chance, 1, 4000);
    w->method = (pottle_method)below(chance, 3);
    r->method = once_in(chance, 4) ? &w->method : NULL;
    r->pack = once_in(chance, 4) ? (pottle_pack_style)below(chance, 3)
                                 : POTTLE_ANY_PACK;
}

static void
tell_wish(const char *id, int seed, int round, const wish *w)
{
    const pottle_request *r = &w->request;
    asked_for[0] = '\0';
    tell("seed %d, round %d: %s, version %d, %.9g batches, fill %.9g, jar %s",
         seed, round, id, r->version, r->batches, r->fill,
         r->jar != NULL ? r->jar->id : "any");
    if (r->has_altitude)
        tell(", %.9g m", r->altitude_m);
    if (r->method != NULL)
        tell(", %s", pottle_method_name((int)*r->method));
    tell(", pack %d", (int)r->pack);
    for (size_t i = 0; i < r->haves; i++)
        tell_phrase("have", &w->have[i]);
    for (size_t i = 0; i < r->sets; i++)
        tell_phrase("set", &w->set[i]);
}

/* A sensible phrase has numbers that can be read from text. */
static bool
is_sensible(const pottle_phrase *p)
{
    return p->low >= POTTLE_NUMBER_MIN && p->high >= p->low &&
           p->high <= POTTLE_NUMBER_MAX;
}

/* The total of a food in a plan whose places it has to itself, said in the
 * recipe's own measure, is what was set. */
static void
check_sets(const pottle_plan *plan, const wish *w)
{
    size_t n = 0;
    const pottle_line *line = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++) {
        double said = 0;
        size_t places = 0;
        bool alike = true, any = false;
        for (size_t k = 0; k < n; k++)
            places += strcmp(line[k].food, line[i].food) == 0;
        for (size_t k = 0; k < w->request.sets; k++) {
            const pottle_phrase *p = &w->set[k];
            if (strcmp(p->food, line[i].food) != 0) {
                for (size_t a = 0; a < line[i].ingredient->alternatives; a++)
                    alike =
                        alike &&
                        strcmp(p->food,
                               line[i].ingredient->alternative[a].food) != 0;
                alike = alike && strcmp(p->food, line[i].ingredient->food) != 0;
                continue;
            }
            any = true;
            alike = alike &&
                    p->unit->dimension == line[i].ingredient->unit->dimension &&
                    p->form[0] == '\0' && !p->state_said && p->high <= p->low &&
                    p->state == (p->unit->dimension == POTTLE_VOLUME
                                     ? POTTLE_PREPARED
                                     : line[i].ingredient->state) &&
                    strcmp(p->size, line[i].ingredient->size) == 0;
            said += p->low * p->unit->factor;
        }
        if (any && alike && places == 1)
            HOLDS(within(line_amount(&line[i]), said,
                         line[i].ingredient->keep == POTTLE_EXACT
                             ? POTTLE_EXACT_TOLERANCE + TINY
                             : 1e-6),
                  "%.9g of %s were set, the plan has %.9g", said, line[i].food,
                  line_amount(&line[i]));
    }
}

/* 20,000 requests, sensible or not: each is refused with a reason and nothing
 * written, or gives a plan that keeps every bound. */
START_TEST(no_request_breaks_a_bound)
{
    uint64_t chance = UINT64_C(0x5eed) + (uint64_t)_i;
    size_t planned = 0, refused = 0;
    for (int round = 0; round < REQUESTS; round++) {
        const char *id = kitchen_id[below(&chance, (size_t)kitchen_ids)];
        pottle_recipe *recipe = kitchen_recipe(id);
        wish w;
        any_wish(&chance, recipe, &w);
        tell_wish(id, _i, round, &w);
        pottle_plan *const untouched = (pottle_plan *)(void *)&w;
        pottle_plan *plan = untouched;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_scale(kitchen, recipe, &w.request, &plan, &error);
        if (status == POTTLE_OK) {
            HOLDS(plan != untouched && plan != NULL &&
                      error.status == POTTLE_OK,
                  "done without a plan");
            for (size_t i = 0; i < w.request.haves; i++)
                HOLDS(is_sensible(&w.have[i]), "a plan from %g to %g %s",
                      w.have[i].low, w.have[i].high, w.have[i].food);
            for (size_t i = 0; i < w.request.sets; i++)
                HOLDS(is_sensible(&w.set[i]),
                      "a plan with a total of %g to %g %s", w.set[i].low,
                      w.set[i].high, w.set[i].food);
            const tested t = tested_batch(recipe);
            check_plan(plan, recipe, &w.request, &t);
            check_sets(plan, &w);
            planned++;
            pottle_plan_free(plan);
        } else {
            HOLDS(plan == untouched, "%s, and something was written",
                  pottle_strerror((int)status));
            HOLDS(error.status == status && error.code[0] != '\0' &&
                      error.what[0] != '\0',
                  "%s says '%s', '%s'", pottle_strerror((int)status),
                  error.code, error.what);
            HOLDS(status != POTTLE_EDATA && status != POTTLE_EIO &&
                      status != POTTLE_ENOMEM,
                  "%s (%s): %s", pottle_strerror((int)status), error.code,
                  error.what);
            HOLDS(status != POTTLE_EBOUNDS || error.source[0] != '\0',
                  "refused without a source: %s", error.what);
            refused++;
        }
        pottle_recipe_free(recipe);
    }
    printf("seed %d: %zu planned, %zu refused\n", _i, planned, refused);
    fflush(stdout);
    ck_assert_msg(planned >= REQUESTS / 20,
                  "only %zu of %d requests gave a plan", planned,
                  (int)REQUESTS);
}
END_TEST

TCase *
property_requests(void)
{
    TCase *tcase = tcase_create("any request");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_set_timeout(tcase, 120);
    tcase_add_loop_test(tcase, no_request_breaks_a_bound, 0, SEEDS);
    return tcase;
}
