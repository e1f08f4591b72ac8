/* clock.c - a time of the day as people write it, and a time so many minutes
 * later. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/kitchen.h"

enum { DAY = 1440 };

/* Up to two digits at *s; -1 when there are none or more. */
static int
two_digits(const char **s)
{
    const size_t n = strspn(*s, "0123456789");
    int x = 0;
    if (n == 0 || n > 2)
        return -1;
    for (size_t i = 0; i < n; i++)
        x = 10 * x + (*(*s)++ - '0');
    return x;
}

/* "am" or "pm" by its first letter, and nothing behind it. */
static bool
half_of_day(const char *s, char letter)
{
    return (s[0] == letter || s[0] == letter - 'a' + 'A') &&
           (s[1] == 'm' || s[1] == 'M') && s[2 + strspn(s + 2, " ")] == '\0';
}

pottle_status
pottle_clock_read(const char *text, int *out, pottle_error *error)
{
    if (text == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no text or no place for the result");
    const char *s = text + strspn(text, " ");
    int hour = two_digits(&s), minute = 0;
    const bool colon = *s == ':';
    if (colon) {
        const char *before = ++s;
        minute = two_digits(&s);
        if (s - before != 2)
            minute = -1;
    }
    s += strspn(s, " ");
    const bool am = half_of_day(s, 'a'), pm = half_of_day(s, 'p'),
               any = am || pm;
    if (hour < 0 || minute < 0 || minute > 59 || hour > 23 ||
        (any && (hour < 1 || hour > 12)) || (!any && (*s != '\0' || !colon)))
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "clock",
            "'%.40s' is not a time of day such as 14:30 or 2:30 pm", text);
    if (any)
        hour = hour % 12 + (pm ? 12 : 0);
    *out = 60 * hour + minute;
    return POTTLE_OK;
}

size_t
pottle_clock_write(int start, double minutes_later, char *buf, size_t size)
{
    int n = -1;
    if (start >= 0 && start < DAY && minutes_later >= 0 &&
        minutes_later <= 1e6) {
        const long at = start + lround(minutes_later), days = at / DAY;
        char when[40] = "";
        if (days > 1)
            snprintf(when, sizeof when, "%ld days later at ", days);
        n = snprintf(buf, size, "%s%02ld:%02ld%s", when, at % DAY / 60, at % 60,
                     days == 1 ? " next day" : "");
    } else {
        n = snprintf(buf, size, "?");
    }
    return n > 0 ? (size_t)n : 0;
}
