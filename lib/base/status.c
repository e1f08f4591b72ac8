/* status.c - status codes, errors, the version. */
#include <config.h>

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

const char *
pottle_strerror(int status)
{
    switch (status) {
    case POTTLE_OK: return "done";
    case POTTLE_EDOMAIN: return "number out of range";
    case POTTLE_EBOUNDS: return "outside the tested bounds";
    case POTTLE_EUNIT: return "units do not go together";
    case POTTLE_EDATA: return "invalid catalogue file";
    case POTTLE_ENOENT: return "not known";
    case POTTLE_EIO: return "cannot read or write";
    case POTTLE_ENOMEM: return "out of memory";
    case POTTLE_EMISUSE: return "wrong use of the library";
    case POTTLE_ESYNTAX: return "cannot be read";
    case POTTLE_EAMBIGUOUS: return "fits more than one";
    default: return "unknown status";
    }
}

const char *
pottle_version(void)
{
    return POTTLE_VERSION_TEXT;
}

void
pottlei_copy(char *to, size_t size, const char *from)
{
    size_t n = strlen(from);
    if (n >= size) {
        n = size - 1;
        while (n > 0 && ((unsigned char)from[n] & 0xC0u) == 0x80u)
            n--;
    }
    memcpy(to, from, n);
    to[n] = '\0';
}

/* Replaces what is not UTF-8 or not printable by '?': messages quote what a
 * person typed, cut at a number of bytes, and JSON takes nothing else. */
static void
make_printable(char *text)
{
    size_t rest = strlen(text);
    while (rest > 0) {
        size_t n = 1;
        while (n < 4 && n < rest && !pottlei_utf8_valid(text, n))
            n++;
        if (!pottlei_utf8_valid(text, n)) {
            *text = '?';
            n = 1;
        }
        text += n;
        rest -= n;
    }
}

void
pottlei_set_where(pottle_error *error, const char *where)
{
    if (error == NULL)
        return;
    POTTLEI_SET(error->where, where);
    make_printable(error->where);
}

pottle_status
pottlei_fail(pottle_error *error, pottle_status status, const char *code,
             const char *what, ...)
{
    if (error == NULL)
        return status;
    memset(error, 0, sizeof *error);
    error->status = status;
    POTTLEI_SET(error->code, code);

    char text[2 * sizeof error->what];
    va_list args;
    va_start(args, what);
    const int n = vsnprintf(text, sizeof text, what, args);
    va_end(args);
    if (n >= 0)
        make_printable(text);
    POTTLEI_SET(error->what, n < 0 ? pottle_strerror((int)status) : text);
    return status;
}

pottle_status
pottlei_altitude_fail(pottle_error *error)
{
    return pottlei_fail(error, POTTLE_EDOMAIN, "altitude",
                        "the altitude must lie between 0 and %d m (14,763 ft)",
                        POTTLE_ALTITUDE_MAX_M);
}
