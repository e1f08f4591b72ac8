/* lines.c - standard input, a line at a time.
 *
 * What was answered is written out before there is waiting for more, so that
 * whoever sends one line and reads one answer is not left waiting, and a file
 * of many lines is still written by the block. stdio cannot do that: it does
 * not say whether the next line is there already. */
#include "cli.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { LINES_FIRST = 32768 };

/* Reads some more behind what is there; false at the end or on a failure. */
static bool
fill(line_reader *l)
{
    if (l->text != NULL && l->from > 0) {
        memmove(l->text, l->text + l->from, l->to - l->from);
        l->to -= l->from;
        l->from = 0;
    }
    /* one byte is kept for the end of a last line without a newline */
    if (l->room - l->to < 2) {
        const size_t room = l->room > 0 ? 2 * l->room : LINES_FIRST;
        char *more = room > l->room ? realloc(l->text, room) : NULL;
        if (more == NULL) {
            l->failed = true;
            return false;
        }
        l->text = more;
        l->room = room;
    }
    fflush(stdout); /* a failure stays in the stream, and is said at the end */
    ssize_t n = 0;
    do
        n = read(STDIN_FILENO, l->text + l->to, l->room - l->to - 1);
    while (n < 0 && errno == EINTR);
    if (n <= 0) {
        l->failed = n < 0;
        l->end = true;
        return false;
    }
    l->to += (size_t)n;
    return true;
}

char *
lines_next(line_reader *l, size_t *length)
{
    size_t looked = 0;
    for (;;) {
        char *line = l->text != NULL ? l->text + l->from : NULL;
        const size_t there = l->to - l->from;
        char *newline = line != NULL && there > looked
                          ? memchr(line + looked, '\n', there - looked)
                          : NULL;
        if (newline == NULL && !l->end) {
            looked = there;
            if (!fill(l) && !l->end)
                return NULL;
            continue;
        }
        if (line == NULL || (newline == NULL && (there == 0 || l->failed)))
            return NULL;
        *length = newline != NULL ? (size_t)(newline - line) : there;
        line[*length] = '\0';
        l->from += *length + (newline != NULL);
        l->number++;
        return line;
    }
}

void
lines_free(line_reader *l)
{
    free(l->text);
    *l = (line_reader){ 0 };
}
