/* kitchen_write_refused.c - test_kitchen_write: what may not stand in a kitchen
 * file. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen_write_cases.h"

static void
no_altitude_unit(pottle_kitchen *k)
{
    k->altitude = q(900, "mm");
}
static void
far_altitude(pottle_kitchen *k)
{
    k->altitude = q(10001, "m");
}
static void
nan_altitude(pottle_kitchen *k)
{
    k->altitude.low = k->altitude.high = (double)NAN;
}
static void
range_altitude(pottle_kitchen *k)
{
    k->altitude.high = 950;
}
static void
tiny_altitude(pottle_kitchen *k)
{
    k->altitude.low = k->altitude.high = 1e-9;
}
static void
negative_altitude(pottle_kitchen *k)
{
    k->altitude.low = k->altitude.high = -5;
}
static void
other_cup(pottle_kitchen *k)
{
    k->cup = (pottle_cup)9;
}
static void
scale_in_cm(pottle_kitchen *k)
{
    k->scale = q(1, "cm");
}
static void
scale_of_a_kilo(pottle_kitchen *k)
{
    k->scale = q(30, "oz");
}
static void
thermometer_in_psi(pottle_kitchen *k)
{
    k->thermometer.by = q(1, "psi");
}
static void
pots_beyond(pottle_kitchen *k)
{
    k->pots = POTTLE_KITCHEN_POTS + 1;
}
static void
canners_beyond(pottle_kitchen *k)
{
    k->canners = POTTLE_KITCHEN_CANNERS + 1;
}
static void
shelves_beyond(pottle_kitchen *k)
{
    k->shelves = (size_t)-1;
}
static void
own_beyond(pottle_kitchen *k)
{
    k->own_jars = POTTLE_KITCHEN_OWN + 1;
}
static void
pot_without_id(pottle_kitchen *k)
{
    k->pot[0].id[0] = '\0';
}
static void
pot_id_endless(pottle_kitchen *k)
{
    memset(k->pot[0].id, 'a', sizeof k->pot[0].id);
}
static void
title_endless(pottle_kitchen *k)
{
    memset(k->pot[0].title, 'a', sizeof k->pot[0].title);
}
static void
title_of_two_lines(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "a\nb");
}
static void
title_not_utf8(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "\xFF");
}
static void
title_no_xml(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "a\xEF\xBF\xBE");
}
static void
title_no_xml_either(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "\xEF\xBF\xBF");
}
static void
title_with_control(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "a\x01");
}
static void
pot_twice(pottle_kitchen *k)
{
    k->pot[k->pots++] = k->pot[0];
}
static void
pot_of_nothing(pottle_kitchen *k)
{
    k->pot[0].width.unit = NULL;
}
static void
pot_in_kilos_wide(pottle_kitchen *k)
{
    k->pot[0].width = q(2, "kg");
}
static void
shelf_of_none(pottle_kitchen *k)
{
    k->shelf[0].count = 0;
}
static void
shelf_of_many(pottle_kitchen *k)
{
    k->shelf[0].count = 1001;
}
static void
shelf_twice(pottle_kitchen *k)
{
    k->shelf[k->shelves++] = k->shelf[0];
}
static void
shelf_no_id(pottle_kitchen *k)
{
    strcpy(k->shelf[0].jar, "1/2 pint");
}

static const struct {
    void (*spoil)(pottle_kitchen *);
    pottle_status status;
    const char *code;
} spoils[] = {
    { no_altitude_unit, POTTLE_EUNIT, "unit" },
    { far_altitude, POTTLE_EDOMAIN, "range" },
    { nan_altitude, POTTLE_EDOMAIN, "range" },
    { range_altitude, POTTLE_EDOMAIN, "range" },
    { tiny_altitude, POTTLE_EDOMAIN, "range" },
    { negative_altitude, POTTLE_EDOMAIN, "range" },
    { other_cup, POTTLE_EDOMAIN, "cup" },
    { scale_in_cm, POTTLE_EUNIT, "unit" },
    { scale_of_a_kilo, POTTLE_EDOMAIN, "range" },
    { thermometer_in_psi, POTTLE_EUNIT, "unit" },
    { pots_beyond, POTTLE_EDOMAIN, "too-many" },
    { canners_beyond, POTTLE_EDOMAIN, "too-many" },
    { shelves_beyond, POTTLE_EDOMAIN, "too-many" },
    { own_beyond, POTTLE_EDOMAIN, "too-many" },
    { pot_without_id, POTTLE_EDOMAIN, "id" },
    { pot_id_endless, POTTLE_EDOMAIN, "id" },
    { title_endless, POTTLE_EDOMAIN, "title" },
    { title_of_two_lines, POTTLE_EDOMAIN, "title" },
    { title_not_utf8, POTTLE_EDOMAIN, "title" },
    { title_no_xml, POTTLE_EDOMAIN, "title" },
    { title_no_xml_either, POTTLE_EDOMAIN, "title" },
    { title_with_control, POTTLE_EDOMAIN, "title" },
    { pot_twice, POTTLE_EDOMAIN, "twice" },
    { pot_of_nothing, POTTLE_EDOMAIN, "pot" },
    { pot_in_kilos_wide, POTTLE_EUNIT, "unit" },
    { shelf_of_none, POTTLE_EDOMAIN, "count" },
    { shelf_of_many, POTTLE_EDOMAIN, "count" },
    { shelf_twice, POTTLE_EDOMAIN, "twice" },
    { shelf_no_id, POTTLE_EDOMAIN, "id" },
};

START_TEST(what_may_not_stand_there_is_not_written)
{
    const pottle_kitchen before = small_kitchen();
    write_kitchen(&before, HERE);
    pottle_kitchen k = before;
    spoils[_i].spoil(&k);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_kitchen_write(&k, HERE, &error);
    ck_assert_msg(status == spoils[_i].status &&
                      strcmp(error.code, spoils[_i].code) == 0,
                  "case %d: expected %d (%s), found %d (%s): %s", _i,
                  (int)spoils[_i].status, spoils[_i].code, (int)status,
                  error.code, error.what);
    ck_assert_str_eq(text_of(HERE, 0), small_text);
    ck_assert_int_eq(names_in_work(), 1);
    ck_assert_int_eq(pottle_kitchen_write(&k, HERE, NULL), spoils[_i].status);
}
END_TEST

TCase *
kitchen_write_refused(void)
{
    TCase *t = tcase_create("refused");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_loop_test(t, what_may_not_stand_there_is_not_written, 0,
                        COUNT(spoils));
    return t;
}
