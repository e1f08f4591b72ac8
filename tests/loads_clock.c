/* loads_clock.c - test_loads: times of the day. */
#include <config.h>

#include <string.h>
#include <time.h>

#include "loads_cases.h"

static const struct {
    const char *text;
    int minutes;
} clocks[] = {
    { "14:30", 870 },
    { "9:05", 545 },
    { "09:05", 545 },
    { "00:00", 0 },
    { "23:59", 1439 },
    { "2:30 pm", 870 },
    { "2:30PM", 870 },
    { "2 pm", 840 },
    { "12 am", 0 },
    { "12 pm", 720 },
    { "12:01 am", 1 },
    { " 8:00 ", 480 },
    { "24:00", -1 },
    { "14:60", -1 },
    { "14", -1 },
    { "14:3", -1 },
    { "14:300", -1 },
    { "014:30", -1 },
    { "14:30 pm", -1 },
    { "0 am", -1 },
    { "", -1 },
    { "noon", -1 },
    { "-1:30", -1 },
    { "14:30:00", -1 },
    { "14.30", -1 },
    { "14:30 h", -1 },
    { "1e1:00", -1 },
    { "14:30                                              x", -1 },
};

START_TEST(clock_as_typed)
{
    int out = 77;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_clock_read(clocks[_i].text, &out, &error);
    ck_assert_msg(status ==
                      (clocks[_i].minutes < 0 ? POTTLE_ESYNTAX : POTTLE_OK),
                  "'%s': %d", clocks[_i].text, (int)status);
    ck_assert_msg(out == (clocks[_i].minutes < 0 ? 77 : clocks[_i].minutes),
                  "'%s': %d", clocks[_i].text, out);
}
END_TEST

static const struct {
    int start;
    double later;
    const char *text;
} laters[] = {
    { 870, 0, "14:30" },
    { 870, 95, "16:05" },
    { 870, 569, "23:59" },
    { 870, 570, "00:00 next day" },
    { 870, 2010.4, "2 days later at 00:00" },
    { 0, 1439.6, "00:00 next day" },
    { 5, 0.4, "00:05" },
    { -1, 5, "?" },
    { 1440, 5, "?" },
    { 5, -1, "?" },
    { 5, 1e7, "?" },
};

START_TEST(clock_later)
{
    char buf[40];
    const size_t n =
        pottle_clock_write(laters[_i].start, laters[_i].later, buf, sizeof buf);
    ck_assert_str_eq(buf, laters[_i].text);
    ck_assert_uint_eq(n, strlen(buf));
}
END_TEST

START_TEST(clock_edges)
{
    char buf[40] = "kept", small[4] = "abc";
    int out = 5;
    ck_assert_int_eq(pottle_clock_read(NULL, &out, NULL), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_clock_read("14:30", NULL, NULL), POTTLE_EMISUSE);
    pottle_clock_write(5, NOT_A_NUMBER, buf, sizeof buf);
    ck_assert_str_eq(buf, "?");
    ck_assert_uint_eq(pottle_clock_write(870, 0, small, sizeof small), 5);
    ck_assert_str_eq(small, "14:");
    /* there and back */
    for (int m = 0; m < 1440; m += 7) {
        pottle_clock_write(m, 0, buf, sizeof buf);
        ck_assert(pottle_clock_read(buf, &out, NULL) == POTTLE_OK && out == m);
    }
}
END_TEST

TCase *
loads_clock(void)
{
    TCase *t = tcase_create("clock");
    tcase_add_loop_test(t, clock_as_typed, 0, COUNT(clocks));
    tcase_add_loop_test(t, clock_later, 0, COUNT(laters));
    tcase_add_test(t, clock_edges);
    return t;
}
