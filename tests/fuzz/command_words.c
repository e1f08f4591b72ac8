/* command_words.c - an input as the words of a command line.
 *
 * A kept input is text: behind lines that begin with # a line "pottle", then a
 * word a line as it stands; \n in a word is a newline, \\ a backslash, \xFF a
 * byte. Behind a line "<" stands what comes on standard input. Any other input
 * is choices (choose.c) among the commands, their options and what may stand
 * behind them: what they take, and what they do not. */
#include <config.h>

#include <stdarg.h>
#include <string.h>

#include "command.h"

/* -- Words ----------------------------------------------------------------- */

/* A path leads out of the folder of this run neither from the root nor upwards.
 * Only the first dots and slashes are changed: 3/4 stays what it is. */
static void
keep_inside(char *word)
{
    char *value = strchr(word, '=');
    for (char *s = word; *s == '/'; s++)
        *s = '_';
    for (char *s = value; s != NULL && *++s == '/';)
        *s = '_';
    for (char *s; (s = strstr(word, "..")) != NULL;)
        *s = '_';
}

/* What a digit is worth; -1 for none. */
static int
hex(char c)
{
    const char *digits = "0123456789ABCDEF", *at = strchr(digits, c);
    return c != '\0' && at != NULL ? (int)(at - digits) : -1;
}

void
command_add(command_line *c, const char *text, size_t n)
{
    if (c->words == COMMAND_WORDS || n + 1 > sizeof c->text - c->used)
        return;
    char *word = c->text + c->used;
    size_t k = 0;
    for (size_t i = 0; i < n && text[i] != '\0'; i++) {
        word[k] = text[i];
        if (text[i] == '\\' && i + 1 < n && text[i + 1] == 'n') {
            word[k] = '\n';
            i++;
        } else if (text[i] == '\\' && i + 1 < n && text[i + 1] == '\\') {
            i++;
        } else if (text[i] == '\\' && i + 3 < n && text[i + 1] == 'x' &&
                   hex(text[i + 2]) > 7 && hex(text[i + 3]) >= 0) {
            word[k] = (char)(16 * hex(text[i + 2]) + hex(text[i + 3]) - 256);
            i += 3;
        }
        k++;
    }
    word[k] = '\0';
    keep_inside(word);
    c->used += k + 1;
    c->word[c->words++] = word;
    c->word[c->words] = NULL;
}

void
command_say(command_line *c, const char *format, ...)
{
    char text[800];
    va_list list;
    va_start(list, format);
    const int n = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    if (n >= 0)
        command_add(c, text,
                    (size_t)n < sizeof text ? (size_t)n : sizeof text - 1);
}

/* -- Text ------------------------------------------------------------------ */

static bool
read_text(const uint8_t *data, size_t size, command_line *out)
{
    const char *at = (const char *)data, *end = at + size;
    bool begun = false;
    while (at != end) {
        const char *newline = memchr(at, '\n', (size_t)(end - at));
        const size_t n = (size_t)((newline != NULL ? newline : end) - at);
        const char *line = at;
        at = newline != NULL ? newline + 1 : end;
        if (!begun && n > 0 && line[0] == '#')
            continue;
        if (!begun && (n != 6 || memcmp(line, "pottle", 6) != 0))
            return false;
        if (begun && n == 1 && line[0] == '<') {
            out->input = (const uint8_t *)at;
            out->input_size = (size_t)(end - at);
            return true;
        }
        begun = true;
        command_add(out, line, n);
    }
    return begun;
}

/* -- The whole ------------------------------------------------------------- */

void
command_read(const uint8_t *data, size_t size, command_line *out)
{
    static const uint8_t nothing[1];
    memset(out, 0, sizeof *out);
    out->input = nothing;
    if (!read_text(data, size, out)) {
        out->words = 0;
        out->used = 0;
        command_choose(data, size, out);
    }
}

const command *
command_named(const command_line *c)
{
    int i = 1;
    while (i < c->words && c->word[i][0] == '-')
        i++;
    for (size_t k = 0; i < c->words && commands[k] != NULL; k++)
        if (strcmp(commands[k]->name, c->word[i]) == 0)
            return commands[k];
    return NULL;
}

bool
command_has(const command_line *c, const char *word)
{
    for (int i = 1; i < c->words; i++)
        if (strcmp(c->word[i], word) == 0)
            return true;
    return false;
}
