/* reference.c - what the comparisons with the reference files share. */
#include "reference.h"
#include "suite.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SKIPPED = 77, MOST_PRINTED = 60, PATH_ROOM = 1024 };

static const char *
source_folder(void)
{
    const char *folder = getenv("srcdir");
    return folder != NULL && folder[0] != '\0' ? folder : ".";
}

static const char *
reference_path(const char *file, char *buf, size_t size)
{
    const char *folder = getenv("POTTLE_REFERENCE");
    int n;
    if (folder != NULL && folder[0] != '\0')
        n = snprintf(buf, size, "%s/%s", folder, file);
    else
        n = snprintf(buf, size, "%s/../shared/reference/%s", source_folder(),
                     file);
    if (n < 0 || (size_t)n >= size)
        buf[0] = '\0';
    return buf;
}

int
reference_run(Suite *suite, const char *file)
{
    char path[PATH_ROOM];
    FILE *there = fopen(reference_path(file, path, sizeof path), "rb");
    if (there == NULL) {
        printf("skipped: there are no reference files (%s); POTTLE_REFERENCE "
               "may name their folder\n",
               path);
        srunner_free(srunner_create(suite)); /* frees the suite */
        return SKIPPED;
    }
    fclose(there);
    return suite_run(suite);
}

csv
reference_csv(const char *file)
{
    char path[PATH_ROOM];
    csv table = { 0, 0, NULL, NULL };
    ck_assert_msg(csv_read(reference_path(file, path, sizeof path), &table),
                  "cannot use %s", path);
    return table;
}

char *
reference_text(const char *file)
{
    char path[PATH_ROOM];
    size_t length = 0;
    char *text =
        csv_whole_file(reference_path(file, path, sizeof path), &length);
    ck_assert_msg(text != NULL && strlen(text) == length, "cannot use %s",
                  path);
    return text;
}

pottle_catalogue *
reference_catalogue(unsigned parts)
{
    char folder[PATH_ROOM];
    pottle_catalogue *catalogue = NULL;
    pottle_error error = { .status = POTTLE_OK };
    snprintf(folder, sizeof folder, "%s/recipes", source_folder());
    const pottle_status status =
        pottle_catalogue_open(folder, NULL, parts, &catalogue, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s: %s:%ld: %s", folder,
                  pottle_strerror((int)status), error.where, error.line,
                  error.what);
    return catalogue;
}

pottle_recipe *
reference_recipe(const pottle_catalogue *catalogue, const char *id, findings *f)
{
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(catalogue, id, &recipe, &error);
    if (status == POTTLE_OK)
        return recipe;
    findings_add(f, "%s: expected a recipe of this id, found: %s, %s:%ld: %s",
                 id, pottle_strerror((int)status), error.where, error.line,
                 error.what);
    return NULL;
}

const char *
reference_product(const char *product, char *buf, size_t size)
{
    /* the two salsas stand in the recipe files too, under these ids */
    if (strcmp(product, "salsa_chile") == 0) {
        product = "chile-salsa";
    } else if (strcmp(product, "salsa_tomato_paste") == 0) {
        product = "tomato-tomato-paste-salsa";
    }
    snprintf(buf, size, "%s", product);
    for (char *c = buf; *c != '\0'; c++)
        if (*c == '_')
            *c = '-';
    return buf;
}

void
findings_add(findings *f, const char *format, ...)
{
    f->found++;
    if (f->found > MOST_PRINTED)
        return;
    va_list list;
    va_start(list, format);
    printf("%s: ", f->section);
    vprintf(format, list);
    printf("\n");
    va_end(list);
}

void
findings_end(const findings *f)
{
    printf("%s: %zu compared, %zu differ\n", f->section, f->looked_at,
           f->found);
    fflush(stdout);
    ck_assert_msg(f->looked_at > 0, "%s: nothing was compared", f->section);
    ck_assert_msg(f->found == 0, "%s: %zu of %zu differ, listed above",
                  f->section, f->found, f->looked_at);
}

bool
nearly(double a, double b)
{
    const double scale = (a < 0 ? -a : a) + (b < 0 ? -b : b);
    const double apart = a < b ? b - a : a - b;
    return apart <= 1e-9 * scale;
}

/* The next name of a list, its length in `length`; NULL at the end. */
static const char *
list_next(const char *list, size_t *length)
{
    list += strspn(list, "| ");
    *length = strcspn(list, "| ");
    return *length > 0 ? list : NULL;
}

size_t
list_count(const char *list)
{
    size_t n = 0, length = 0;
    for (const char *at = list_next(list, &length); at != NULL;
         at = list_next(at + length, &length))
        n++;
    return n;
}

bool
list_has(const char *list, const char *name)
{
    size_t length = 0;
    for (const char *at = list_next(list, &length); at != NULL;
         at = list_next(at + length, &length))
        if (strlen(name) == length && strncmp(at, name, length) == 0)
            return true;
    return false;
}

bool
same_jars(const char *list, const char *const *jar, size_t jars)
{
    if (list_count(list) != jars)
        return false;
    for (size_t i = 0; i < jars; i++)
        if (!list_has(list, jar[i]))
            return false;
    return true;
}

void
text_add(char *buf, size_t size, const char *format, ...)
{
    const size_t used = strlen(buf);
    va_list list;
    va_start(list, format);
    vsnprintf(buf + used, size - used, format, list);
    va_end(list);
}
