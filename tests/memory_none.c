/* memory_none.c - test_memory: what takes no memory. */
#include <config.h>

#include "memory_cases.h"

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
        pottle_names_cover(all, "apple", ids, 4, &count, &error) == POTTLE_OK &&
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

/* Words for one thing of a list; what is not in it is looked for as well. */
START_TEST(words_take_no_memory)
{
    pottle_method method;
    pottle_cup cup;
    pottle_hob hob;
    const pottle_mishap *mishap = NULL;
    const pottle_syrup *syrup = NULL;
    pottle_error error;
    char id[64];
    shut();
    const bool done =
        pottle_method_find("dial gauge", &method, &error) == POTTLE_OK &&
        pottle_method_find("steam", &method, &error) == POTTLE_ENOENT &&
        pottle_canner_method(all, "dial gauge", &method, &error) == POTTLE_OK &&
        pottle_canner_method(all, "oven", &method, &error) == POTTLE_EBOUNDS &&
        pottle_cup_find("metric", &cup, &error) == POTTLE_OK &&
        pottle_cup_find("tea", &cup, &error) == POTTLE_ENOENT &&
        pottle_hob_find("gas", &hob, &error) == POTTLE_OK &&
        pottle_hob_find("wood", &hob, &error) == POTTLE_ENOENT &&
        pottle_mishap_find(all, "jar-not-sealed", &mishap, &error) ==
            POTTLE_OK &&
        pottle_mishap_find(all, "jar-not-seeled", &mishap, &error) ==
            POTTLE_ENOENT &&
        pottle_syrup_find(all, "light", &syrup, &error) == POTTLE_OK &&
        pottle_syrup_find(all, "lite", &syrup, &error) == POTTLE_ENOENT &&
        pottle_kitchen_id("Big Pot", id, &error) == POTTLE_OK &&
        pottle_kitchen_id("?", id, &error) == POTTLE_ESYNTAX;
    check_none("a word");
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

START_TEST(times_and_powers_take_no_memory)
{
    pottle_error error;
    double x = 0;
    int clock = 0;
    char buf[64];
    shut();
    const bool done =
        pottle_power_read("1.8 kW", &x, &error) == POTTLE_OK &&
        pottle_power_read("1.8", &x, &error) == POTTLE_EUNIT &&
        pottle_minutes_read("1 h 15 min", &x, &error) == POTTLE_OK &&
        pottle_minutes_read("soon", &x, &error) == POTTLE_ESYNTAX &&
        pottle_clock_read("2:30 pm", &clock, &error) == POTTLE_OK &&
        pottle_clock_read("noon", &clock, &error) == POTTLE_ESYNTAX &&
        pottle_clock_write(clock, 90, buf, sizeof buf) > 0;
    check_none("a time or a power");
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

/* A jar of one's own: 400 g empty, 900 g full to the brim. */
static void
weigh_jar(pottle_own_jar *jar)
{
    const pottle_unit *g = pottle_unit_find("g");
    *jar = (pottle_own_jar){ .id = "tall",
                             .count = 3,
                             .empty = { 400, 400, g },
                             .full = { 900, 900, g } };
}

START_TEST(a_kitchen_takes_no_memory)
{
    static pottle_kitchen k;
    pottle_own_jar jar;
    pottle_kitchen_canner canner = { .id = "old", .method = POTTLE_DIAL_GAUGE };
    pottle_kitchen_pot pot = { .id = "big" };
    pottle_shelf_size size, shelf[POTTLE_SHELF_MAX];
    size_t sizes = 0;
    pottle_error error;
    weigh_jar(&jar);
    k = kitchen;
    shut();
    const bool done =
        pottle_kitchen_amount("3 1/2 lb", POTTLE_MASS, &pot.tare, &error) ==
            POTTLE_OK &&
        pottle_kitchen_amount("3 cups", POTTLE_MASS, &pot.width, &error) ==
            POTTLE_EUNIT &&
        pottle_misreading_read("1 psi high", POTTLE_PRESSURE, &canner.gauge,
                               &error) == POTTLE_OK &&
        pottle_kitchen_put_canner(&k, &canner, &error) == POTTLE_OK &&
        pottle_kitchen_put_pot(&k, &pot, &error) == POTTLE_OK &&
        pottle_kitchen_put_own(&k, &jar, &error) == POTTLE_OK &&
        pottle_kitchen_put_jars(&k, "pint", 12, &error) == POTTLE_OK &&
        pottle_shelf_read(all, &k, "6 tall", &size, &error) == POTTLE_OK &&
        pottle_shelf_read(all, &k, "6 tubs", &size, &error) == POTTLE_ENOENT &&
        pottle_kitchen_shelf(all, &k, shelf, &sizes, &error) == POTTLE_OK &&
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_A_POT, "big", &error) ==
            POTTLE_OK &&
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_A_POT, "big", &error) ==
            POTTLE_ENOENT;
    check_none("a kitchen");
    ck_assert_msg(done, "%s", error.what);
    ck_assert_uint_eq(sizes, 2);
}
END_TEST

START_TEST(an_own_jar_takes_no_memory)
{
    pottle_own_jar jar;
    pottle_estimate ml;
    pottle_length mouth;
    const pottle_jar *size = NULL;
    pottle_error error;
    weigh_jar(&jar);
    shut();
    const bool done =
        pottle_own_jar_brim(all, &jar, &ml, &error) == POTTLE_OK &&
        pottle_own_jar_fill(all, &jar, (pottle_length){ 12.7 }, &ml, &error) ==
            POTTLE_OK &&
        pottle_own_jar_fill(all, &jar, (pottle_length){ 127 }, &ml, &error) ==
            POTTLE_EDOMAIN &&
        pottle_own_jar_size(all, &jar, &size, &error) == POTTLE_OK &&
        pottle_mouth_diameter(all, true, &mouth) == POTTLE_OK;
    check_none("a jar of one's own");
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

START_TEST(a_gauge_takes_no_memory)
{
    const pottle_unit *psi = pottle_unit_find("psi");
    const pottle_kitchen_canner canner = { .id = "old",
                                           .method = POTTLE_DIAL_GAUGE,
                                           .gauge = { true, { 1, 1, psi } } };
    const pottle_method dial = POTTLE_DIAL_GAUGE;
    const pottle_jar *quart = NULL;
    pottle_process process[POTTLE_PROCESS_MAX];
    pottle_set_point set;
    pottle_load_time time;
    pottle_error error;
    size_t count = 0;
    ck_assert_int_eq(pottle_jar_find(all, "quart", &quart, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_process_find(all, tomatoes, quart, &dial,
                                         POTTLE_ANY_PACK, 0, process, &count,
                                         NULL),
                     POTTLE_OK);
    shut();
    const bool done =
        pottle_canner_usable(all, tomatoes, &canner, &error) == POTTLE_OK &&
        pottle_gauge_set_point(all, tomatoes, process, canner.gauge, &set,
                               &error) == POTTLE_OK &&
        pottle_canner_set_point(all, tomatoes, process, &canner, &set,
                                &error) == POTTLE_OK &&
        pottle_load_minutes(all, dial, process->band->minutes, &time, &error) ==
            POTTLE_OK &&
        pottle_load_minutes(all, dial, 0, &time, &error) == POTTLE_EDOMAIN;
    check_none("a gauge");
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

START_TEST(a_pot_takes_no_memory)
{
    pottle_plan *plan = NULL;
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1 };
    pottle_stove stove = { .version = POTTLE_STOVE_VERSION,
                           .tare_g = 2000,
                           .burner_w = 2000,
                           .hob = POTTLE_HOB_GAS };
    pottle_recipe *butter = NULL;
    pottle_balance balance;
    pottle_cook_goal goal;
    pottle_gel gel;
    pottle_error error;
    const double high_up_m = 1900;
    double left_g = 0, gone_g = 0;
    ck_assert_int_eq(pottle_recipe_read(all, "apple-butter", &butter, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_scale(all, butter, &request, &plan, NULL),
                     POTTLE_OK);
    shut();
    bool done =
        pottle_cook_balance(all, plan, 0, &balance, &error) == POTTLE_OK &&
        pottle_cook_balance(all, plan, 9, &balance, &error) == POTTLE_ENOENT;
    stove.started_g = stove.tare_g + balance.mass_in_g;
    done = done &&
           pottle_cook_target(all, plan, &stove, &goal, &error) == POTTLE_OK &&
           pottle_boil_down(1000, 200, 0.4, &left_g, &gone_g) == POTTLE_OK &&
           pottle_gel_point(&high_up_m, NULL, &gel, &error) == POTTLE_OK;
    check_none("a pot on the stove");
    pottle_plan_free(plan);
    pottle_recipe_free(butter);
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

START_TEST(a_rescue_takes_no_memory)
{
    const pottle_mishap *mishap = NULL;
    const pottle_rescue_case *answer = NULL;
    const pottle_jar *pint = NULL;
    pottle_jar_facts facts = { .version = POTTLE_JAR_FACTS_VERSION,
                               .has_hours = true,
                               .hours = 5 };
    pottle_process process;
    pottle_error error;
    ck_assert_int_eq(pottle_mishap_find(all, "jar-not-sealed", &mishap, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_jar_find(all, "pint", &pint, NULL), POTTLE_OK);
    shut();
    pottle_jar_facts_add(all, tomatoes, pint, &facts);
    const bool done =
        pottle_rescue_find(mishap, &facts, &answer, &error) == POTTLE_OK &&
        pottle_process_exists(all, tomatoes, pint, POTTLE_ANY_PACK, NULL,
                              &error) == POTTLE_OK &&
        pottle_remaking_process(all, pint, 300, &process, &error) == POTTLE_OK;
    check_none("a rescue");
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

START_TEST(numbers_of_figures_take_no_memory)
{
    pottle_chain_request request = { .version = POTTLE_CHAIN_REQUEST_VERSION };
    const pottle_quantity five_g = { 5, 5, pottle_unit_find("g") };
    pottle_juice juice;
    pottle_measure m;
    pottle_error error;
    shut();
    const bool done =
        pottle_juice_of(all, 2000, 0, &juice, &error) == POTTLE_OK &&
        pottle_juice_of(all, 2000, 1000, &juice, &error) == POTTLE_EMISUSE &&
        pottle_vinegar_check(all, 5, 5, &error) == POTTLE_OK &&
        pottle_vinegar_check(all, 4, 5, &error) == POTTLE_EBOUNDS &&
        pottle_measure_jars(1, pottle_unit_find("tbsp"), NULL, 7,
                            POTTLE_AT_LEAST, &m) == POTTLE_OK &&
        pottle_chain_error_set(&request, POTTLE_CHAIN_SCALE, five_g, &error) ==
            POTTLE_OK &&
        pottle_chain_error_set(&request, POTTLE_CHAIN_BY_EYE, five_g, &error) ==
            POTTLE_EUNIT;
    check_none("what is worked out from figures");
    ck_assert_msg(done, "%s", error.what);
}
END_TEST

TCase *
memory_none(void)
{
    TCase *t = tcase_create("without memory");
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
    tcase_add_test(t, words_take_no_memory);
    tcase_add_test(t, times_and_powers_take_no_memory);
    tcase_add_test(t, a_kitchen_takes_no_memory);
    tcase_add_test(t, an_own_jar_takes_no_memory);
    tcase_add_test(t, a_gauge_takes_no_memory);
    tcase_add_test(t, a_pot_takes_no_memory);
    tcase_add_test(t, a_rescue_takes_no_memory);
    tcase_add_test(t, numbers_of_figures_take_no_memory);
    return t;
}
