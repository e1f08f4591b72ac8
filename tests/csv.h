/* csv.h - reading a small quoted CSV file with a heading row. */
#ifndef POTTLE_TESTS_CSV_H
#define POTTLE_TESTS_CSV_H

#include <stdbool.h>
#include <stddef.h>

/* Rows are counted without the heading; all cells live in one block of text. */
typedef struct csv {
    size_t rows, columns;
    const char **cell; /* heading first, then row after row */
    char *text;
} csv;

/* Reads a file: cells parted by commas, a cell in double quotes may hold
 * commas, line ends and, doubled, quotes. Every row must have as many cells as
 * the heading.
 *
 * Returned:  out     to be freed by csv_free
 *            true, or false with a line on stderr that says why not */
bool csv_read(const char *path, csv *out);
void csv_free(csv *table);

/* The text of a cell. A column that is not in the heading is a mistake of the
 * test: it says so and exits 99. */
const char *csv_at(const csv *table, size_t row, const char *column);

/* Whether a cell is empty, and its number. Text that is not a number exits 99.
 */
bool csv_blank(const csv *table, size_t row, const char *column);
double csv_number(const csv *table, size_t row, const char *column);

/* Line of a row in the file, as long as no cell holds a line end. */
size_t csv_line(size_t row);

/* The whole of a file with a 0 at its end, to be freed; NULL with a line on
 * stderr. */
char *csv_whole_file(const char *path, size_t *length);

#endif
