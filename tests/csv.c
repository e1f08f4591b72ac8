/* csv.c - reading a small quoted CSV file with a heading row.
 *
 * Cells are cut in place: a cell never grows when its quotes are taken away, so
 * the text of the file is the only store. */
#include "csv.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BROKEN_SETUP = 99 };

char *
csv_whole_file(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        fprintf(stderr, "%s: cannot be opened\n", path);
        return NULL;
    }
    size_t room = 1 << 16, used = 0;
    char *text = malloc(room + 1);
    while (text != NULL) {
        used += fread(text + used, 1, room - used, file);
        if (used < room)
            break;
        char *more = realloc(text, 2 * room + 1);
        if (more == NULL) {
            free(text);
            text = NULL;
            break;
        }
        text = more;
        room *= 2;
    }
    const bool failed = text == NULL || ferror(file) != 0;
    fclose(file);
    if (failed) {
        fprintf(stderr, "%s: cannot be read\n", path);
        free(text);
        return NULL;
    }
    text[used] = '\0';
    *length = used;
    return text;
}

/* Cuts one cell in place and tells what ended it: ',', '\n', 0 for the end of
 * the text, or '?' where a quote is out of place. */
static char
cut_cell(char **at, const char **cell)
{
    char *from = *at, *to = *at;
    *cell = to;
    if (*from == '"') {
        for (from++; *from != '\0'; from++) {
            if (*from == '"') {
                if (from[1] != '"')
                    break;
                from++;
            }
            *to++ = *from;
        }
        if (*from++ != '"')
            return '?';
    } else {
        while (*from != ',' && *from != '\n' && *from != '\r' && *from != '\0')
            *to++ = *from++;
    }
    if (*from == '\r' && from[1] == '\n')
        from++;
    const char end = *from;
    if (end != ',' && end != '\n' && end != '\0')
        return '?';
    *at = end == '\0' ? from : from + 1;
    *to = '\0';
    return end;
}

/* No more cells than this can be cut: each is ended by one of these. */
static size_t
most_cells(const char *text)
{
    size_t n = 1;
    for (; *text != '\0'; text++)
        n += *text == ',' || *text == '\n';
    return n;
}

bool
csv_read(const char *path, csv *out)
{
    size_t length = 0;
    char *text = csv_whole_file(path, &length);
    if (text == NULL)
        return false;
    csv table = { 0, 0, calloc(most_cells(text), sizeof *table.cell), text };
    size_t lines = 0, cells = 0, in_line = 0;
    char *at = text;
    bool good = table.cell != NULL && strlen(text) == length;
    while (good && *at != '\0') {
        const char end = cut_cell(&at, &table.cell[cells++]);
        in_line++;
        good = end != '?';
        if (end == ',' && *at != '\0')
            continue;
        if (lines == 0)
            table.columns = in_line;
        good = good && in_line == table.columns;
        lines++;
        in_line = 0;
    }
    if (!good || lines < 2) {
        fprintf(stderr, "%s: not a CSV with a heading, near row %zu\n", path,
                lines);
        csv_free(&table);
        return false;
    }
    table.rows = lines - 1;
    *out = table;
    return true;
}

void
csv_free(csv *table)
{
    free(table->cell);
    free(table->text);
    table->cell = NULL;
    table->text = NULL;
}

const char *
csv_at(const csv *table, size_t row, const char *column)
{
    for (size_t k = 0; k < table->columns; k++)
        if (row < table->rows && strcmp(table->cell[k], column) == 0)
            return table->cell[(row + 1) * table->columns + k];
    fprintf(stderr, "no column '%s' in row %zu\n", column, row);
    exit(BROKEN_SETUP);
}

bool
csv_blank(const csv *table, size_t row, const char *column)
{
    return csv_at(table, row, column)[0] == '\0';
}

double
csv_number(const csv *table, size_t row, const char *column)
{
    const char *text = csv_at(table, row, column);
    char *end = NULL;
    const double value = strtod(text, &end);
    if (end == text || *end != '\0') {
        fprintf(stderr, "row %zu: '%s' is not a number (%s)\n", row, text,
                column);
        exit(BROKEN_SETUP);
    }
    return value;
}

size_t
csv_line(size_t row)
{
    return row + 2;
}
