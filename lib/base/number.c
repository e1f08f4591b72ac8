/* number.c - decimal text, whatever the user's locale.
 *
 * The grammar is small on purpose (see pottle_number_read): a comma is refused,
 * since in one half of the world it is the decimal sign and in the other it
 * groups thousands; a factor of a thousand is not a thing to guess. */
#include <config.h>

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"

/* Vulgar fractions of Unicode, U+00BC to U+00BE and U+2150 to U+215E. */
static const struct {
    const char *utf8;
    int top, bottom;
} fractions[] = {
    { "\xC2\xBC", 1, 4 },     { "\xC2\xBD", 1, 2 },
    { "\xC2\xBE", 3, 4 },     { "\xE2\x85\x93", 1, 3 },
    { "\xE2\x85\x94", 2, 3 }, { "\xE2\x85\x95", 1, 5 },
    { "\xE2\x85\x96", 2, 5 }, { "\xE2\x85\x97", 3, 5 },
    { "\xE2\x85\x98", 4, 5 }, { "\xE2\x85\x99", 1, 6 },
    { "\xE2\x85\x9A", 5, 6 }, { "\xE2\x85\x9B", 1, 8 },
    { "\xE2\x85\x9C", 3, 8 }, { "\xE2\x85\x9D", 5, 8 },
    { "\xE2\x85\x9E", 7, 8 },
};

static bool
digit(char c)
{
    return c >= '0' && c <= '9';
}

size_t
pottlei_typeset_space(const char *s)
{
    static const char *const spaces[] = { "\xC2\xA0", "\xE2\x80\x89",
                                          "\xE2\x80\xAF" };
    if ((unsigned char)*s < 0x80u) /* nearly always */
        return 0;
    for (size_t i = 0; i < sizeof spaces / sizeof spaces[0]; i++) {
        const size_t n = strlen(spaces[i]);
        if (strncmp(s, spaces[i], n) == 0)
            return n;
    }
    return 0;
}

static const char *
skip_blanks(const char *s)
{
    for (;;) {
        const size_t n = *s == ' ' || *s == '\t' ? 1 : pottlei_typeset_space(s);
        if (n == 0)
            return s;
        s += n;
    }
}

/* A double holds every whole number of so many digits. */
enum { WHOLE_EXACT = 15 };

static double
whole_number(const char *digits, size_t n)
{
    double value = 0;
    for (size_t i = 0; i < n; i++)
        value = 10.0 * value + (double)(digits[i] - '0');
    return value;
}

/* Digits, with a point inside or in front. Its text is checked here, so strtod
 * under the C locale sees nothing it could read otherwise. However many digits
 * there are it is a number: leading zeros say nothing, a whole part of many
 * digits is HUGE_VAL and so out of range for every caller, and decimals past
 * the buffer lie far below the precision of a double. */
static bool
scan_decimal(const char **text, double *out)
{
    enum { WHOLE_MAX = 20 };
    const char *start = *text, *s = *text;
    while (digit(*s))
        s++;
    while (*start == '0' && start + 1 < s)
        start++;
    const bool huge = s - start > WHOLE_MAX;
    const size_t whole = (size_t)(s - start);
    if (*s == '.' && digit(s[1])) {
        s++;
        while (digit(*s))
            s++;
    }
    if (s == *text)
        return false;
    if (huge) {
        *out = HUGE_VAL;
        *text = s;
        return true;
    }
    char buf[64];
    size_t n = (size_t)(s - start);
    if (n == whole && n <= WHOLE_EXACT) {
        *out = whole_number(start, n);
        *text = s;
        return true;
    }
    if (n >= sizeof buf)
        n = sizeof buf - 1;
    memcpy(buf, start, n);
    buf[n] = '\0';

    const locale_t c_locale = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    if (c_locale == (locale_t)0)
        return false;
    const locale_t users = uselocale(c_locale);
    *out = strtod(buf, NULL);
    uselocale(users);
    freelocale(c_locale);
    *text = s;
    return true;
}

static bool
scan_glyph(const char **text, double *out)
{
    if ((unsigned char)**text < 0x80u) /* nearly always */
        return false;
    for (size_t i = 0; i < sizeof fractions / sizeof fractions[0]; i++) {
        const size_t n = strlen(fractions[i].utf8);
        if (strncmp(*text, fractions[i].utf8, n) == 0) {
            *out = (double)fractions[i].top / (double)fractions[i].bottom;
            *text += n;
            return true;
        }
    }
    return false;
}

/* digits / digits, or a glyph; bottom 0 is told apart */
static pottle_status
scan_fraction(const char **text, double *out)
{
    if (scan_glyph(text, out))
        return POTTLE_OK;
    const char *s = *text;
    double top = 0, bottom = 0;
    if (!scan_decimal(&s, &top) ||
        memchr(*text, '.', (size_t)(s - *text)) != NULL)
        return POTTLE_ENOENT;
    s = skip_blanks(s);
    if (*s != '/' && strncmp(s, "\xE2\x81\x84", 3) != 0)
        return POTTLE_ENOENT;
    s = skip_blanks(s + (*s == '/' ? 1 : 3));
    const char *second = s;
    if (!scan_decimal(&s, &bottom) ||
        memchr(second, '.', (size_t)(s - second)) != NULL)
        return POTTLE_ESYNTAX;
    *text = s;
    if (!(bottom > 0 && bottom <= POTTLE_NUMBER_MAX &&
          top <= POTTLE_NUMBER_MAX))
        return POTTLE_EDOMAIN;
    *out = top / bottom;
    return POTTLE_OK;
}

/* One number: 3.5, 1/2, 3 1/2, 3-1/2, ½, 3½. */
static pottle_status
scan_single(const char **text, double *out)
{
    const char *s = *text;
    pottle_status status = scan_fraction(&s, out);
    if (status != POTTLE_ENOENT) {
        *text = s;
        return status;
    }
    double whole = 0;
    const char *start = s;
    if (!scan_decimal(&s, &whole))
        return POTTLE_ENOENT;
    *out = whole;
    *text = s;
    if (memchr(start, '.', (size_t)(s - start)) != NULL)
        return POTTLE_OK;

    const char *rest = skip_blanks(s);
    if (*rest == '-')
        rest++;
    double part = 0;
    status = scan_fraction(&rest, &part);
    if (status == POTTLE_ENOENT || (status == POTTLE_OK && !(part < 1)))
        return POTTLE_OK; /* 2-3, 3 5/4: not a mixed number, the caller sees
                             what follows */
    if (status == POTTLE_OK)
        *out = whole + part;
    *text = rest;
    return status;
}

static bool
in_range(double x)
{
    return x >= 0 && x <= POTTLE_NUMBER_MAX &&
           !(x > 0 && x < POTTLE_NUMBER_MIN);
}

pottle_status
pottlei_number_scan(const char **text, pottle_range *out)
{
    const char *s = skip_blanks(*text);
    double low = 0, high = 0;
    pottle_status status = scan_single(&s, &low);
    if (status != POTTLE_OK)
        return status;
    high = low;

    const char *rest = skip_blanks(s);
    bool dash = true;
    if (*rest == '-')
        rest++;
    else if (strncmp(rest, "\xE2\x80\x93", 3) == 0 ||
             strncmp(rest, "\xE2\x80\x94", 3) == 0)
        rest += 3;
    else if (strncmp(rest, "to ", 3) == 0)
        rest += 3;
    else
        dash = false;
    if (dash) {
        rest = skip_blanks(rest);
        status = scan_single(&rest, &high);
        if (status == POTTLE_OK)
            s = rest;
        else if (status == POTTLE_ENOENT)
            high = low; /* a hyphen of a name: 12-oz */
        else
            return status;
    }
    if (!in_range(low) || !in_range(high) || high < low)
        return POTTLE_EDOMAIN;
    /* whoever reads on knows ordinary blanks, but not these */
    for (size_t n = pottlei_typeset_space(s); n > 0;
         n = pottlei_typeset_space(s))
        s += n;
    out->low = low;
    out->high = high;
    *text = s;
    return POTTLE_OK;
}

pottle_status
pottle_number_read(const char *text, pottle_range *out)
{
    if (text == NULL || out == NULL)
        return POTTLE_EMISUSE;
    /* most numbers of a catalogue are short whole ones */
    size_t digits = 0;
    while (digits < 9 && digit(text[digits]))
        digits++;
    if (digits > 0 && text[digits] == '\0') {
        const double whole = whole_number(text, digits);
        *out = (pottle_range){ whole, whole };
        return POTTLE_OK;
    }
    pottle_range range = { 0, 0 };
    const pottle_status status = pottlei_number_scan(&text, &range);
    if (status == POTTLE_ENOENT)
        return POTTLE_ESYNTAX;
    if (status != POTTLE_OK)
        return status;
    if (*skip_blanks(text) != '\0')
        return POTTLE_ESYNTAX;
    *out = range;
    return POTTLE_OK;
}

/* What printf's %.*f writes, for numbers of everyday size: the fraction times a
 * power of ten, with what that product rounded off, tells exactly on which side
 * of a half it lies. False, and nothing written, where that may not hold. */
static bool
write_everyday(double value, int places, char *text, int *length)
{
    static const double tens[] = { 1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6 };
    const double size = fabs(value), whole = floor(size);
    if (!(size < 1e9) || (size_t)places >= sizeof tens / sizeof tens[0])
        return false;
    const double scale = tens[places], exact = size - whole;
    const double product = exact * scale, below = floor(product);
    const double lost = fma(exact, scale, -product), rest = product - below;
    uint64_t number = (uint64_t)whole * (uint64_t)scale + (uint64_t)below;
    const bool half = !(rest < 0.5) && !(rest > 0.5);
    if (half ? lost > 0 || (!(lost < 0) && number % 2 == 1) : rest > 0.5)
        number++;
    char digits[24];
    int n = 0, at = 0;
    for (; number > 0 || n <= places; number /= 10)
        digits[n++] = (char)('0' + number % 10);
    if (signbit(value))
        text[at++] = '-';
    while (n > 0) {
        if (n == places)
            text[at++] = '.';
        text[at++] = digits[--n];
    }
    text[at] = '\0';
    *length = at;
    return true;
}

size_t
pottle_number_write(double value, int decimals, char *buf, size_t size)
{
    char text[400];
    int n = -1;
    if (isfinite(value)) {
        const int places = decimals < 0 ? 0 : decimals > 9 ? 9 : decimals;
        const locale_t c_locale = write_everyday(value, places, text, &n)
                                    ? (locale_t)0
                                    : newlocale(LC_ALL_MASK, "C", (locale_t)0);
        if (c_locale != (locale_t)0) {
            const locale_t users = uselocale(c_locale);
            n = snprintf(text, sizeof text, "%.*f", places, value);
            uselocale(users);
            freelocale(c_locale);
        }
    }
    if (n <= 0 || (size_t)n >= sizeof text) {
        text[0] = '?';
        text[1] = '\0';
        n = 1;
    }
    if (strchr(text, '.') != NULL) {
        while (n > 0 && text[n - 1] == '0')
            text[--n] = '\0';
        if (n > 0 && text[n - 1] == '.')
            text[--n] = '\0';
    }
    if (strcmp(text, "-0") == 0) {
        memcpy(text, "0", 2);
        n = 1;
    }
    if (size > 0)
        pottlei_copy(buf, size, text);
    return (size_t)n;
}
