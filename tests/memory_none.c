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
    return t;
}
