/* kitchen_file_help.c - a folder to write into, and kitchens to compare. */
#include <config.h>

#include "kitchen_file_help.h"

#include <dirent.h>
#include <ftw.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

pottle_catalogue *catalogue;

const char *
source_path(const char *rest)
{
    static char path[PATH_SIZE];
    const char *folder = getenv("srcdir");
    snprintf(path, sizeof path, "%s/%s",
             folder != NULL && folder[0] != '\0' ? folder : ".", rest);
    return path;
}

int
scan(const char *rest, char (*list)[PATH_SIZE])
{
    char folder[PATH_SIZE / 2];
    snprintf(folder, sizeof folder, "%.250s", source_path(rest));
    DIR *dir = opendir(folder);
    int n = 0;
    for (struct dirent *e = dir != NULL ? readdir(dir) : NULL;
         e != NULL && n < PATHS; e = readdir(dir))
        if (strstr(e->d_name, ".xml") != NULL)
            snprintf(list[n++], PATH_SIZE, "%s/%.250s", folder, e->d_name);
    if (dir != NULL)
        closedir(dir);
    return n;
}

static int
remove_one(const char *path, const struct stat *info, int type,
           struct FTW *walk)
{
    (void)type;
    (void)walk;
    if (S_ISDIR(info->st_mode))
        chmod(path, 0700);
    return remove(path);
}

void
clear_work(void)
{
    nftw(work_folder, remove_one, 8, FTW_PHYS | FTW_DEPTH);
    ck_assert_int_eq(mkdir(work_folder, 0777), 0);
}

void
set_up(void)
{
    pottle_error error = { .status = POTTLE_OK };
    clear_work();
    ck_assert_msg(pottle_catalogue_open(source_path("recipes"), NULL,
                                        POTTLE_WITH_JARS, &catalogue,
                                        &error) == POTTLE_OK,
                  "%s: %s", error.where, error.what);
}

void
tear_down(void)
{
    pottle_catalogue_free(catalogue);
    catalogue = NULL;
    nftw(work_folder, remove_one, 8, FTW_PHYS | FTW_DEPTH);
}

void
write_text(const char *path, const char *text, size_t n)
{
    FILE *f = fopen(path, "wb");
    ck_assert_msg(f != NULL, "cannot write %s", path);
    ck_assert_uint_eq(fwrite(text, 1, n, f), n);
    ck_assert_int_eq(fclose(f), 0);
}

const char *
text_of(const char *path, int place)
{
    static char text[2][TEXT_SIZE];
    FILE *f = fopen(path, "rb");
    ck_assert_msg(f != NULL, "cannot read %s", path);
    const size_t n = fread(text[place], 1, TEXT_SIZE - 1, f);
    text[place][n] = '\0';
    fclose(f);
    return text[place];
}

bool
is_there(const char *path)
{
    struct stat info;
    return lstat(path, &info) == 0;
}

int
names_in_work(void)
{
    DIR *dir = opendir(work_folder);
    int n = 0;
    ck_assert_ptr_nonnull(dir);
    for (struct dirent *e = readdir(dir); e != NULL; e = readdir(dir))
        n += e->d_name[0] != '.' ||
             (e->d_name[1] != '\0' && e->d_name[1] != '.');
    closedir(dir);
    return n;
}

pottle_kitchen
read_kitchen(const char *path)
{
    pottle_kitchen k;
    pottle_error error = { .status = POTTLE_OK };
    memset(&k, 0x5A, sizeof k);
    const pottle_status status =
        pottle_kitchen_read(catalogue, path, &k, &error);
    ck_assert_msg(status == POTTLE_OK, "%s:%ld: %s (%s)", error.where,
                  error.line, error.what, error.code);
    return k;
}

void
write_kitchen(const pottle_kitchen *k, const char *path)
{
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_kitchen_write(k, path, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s (%s)", path, error.what,
                  error.code);
}

pottle_quantity
q(double value, const char *unit)
{
    const pottle_quantity quantity = { value, value, pottle_unit_find(unit) };
    ck_assert_ptr_nonnull(quantity.unit);
    return quantity;
}

bool
is(pottle_quantity have, double value, const char *unit)
{
    return have.unit != NULL && strcmp(have.unit->id, unit) == 0 &&
           fabs(have.low - value) < 1e-12 && fabs(have.high - value) < 1e-12;
}

static bool
same_quantity(pottle_quantity a, pottle_quantity b)
{
    return a.unit == b.unit &&
           (a.unit == NULL ||
            (fabs(a.low - b.low) <= 1e-8 && fabs(a.high - b.high) <= 1e-8));
}

static bool
same_misreading(pottle_misreading a, pottle_misreading b)
{
    return same_quantity(a.by, b.by) && (a.by.unit == NULL || a.high == b.high);
}

static bool
same_own(const pottle_own_jar *a, const pottle_own_jar *b)
{
    return strcmp(a->id, b->id) == 0 && strcmp(a->title, b->title) == 0 &&
           strcmp(a->near, b->near) == 0 && a->count == b->count &&
           same_quantity(a->empty, b->empty) &&
           same_quantity(a->full, b->full) &&
           same_quantity(a->to_mark, b->to_mark) &&
           same_quantity(a->mark, b->mark) &&
           same_quantity(a->mouth, b->mouth) &&
           same_quantity(a->water, b->water) &&
           same_quantity(a->scale, b->scale);
}

static bool
same_canner(const pottle_kitchen_canner *a, const pottle_kitchen_canner *b)
{
    bool same = strcmp(a->id, b->id) == 0 && strcmp(a->title, b->title) == 0 &&
                a->method == b->method && a->holds == b->holds &&
                same_misreading(a->gauge, b->gauge);
    for (size_t i = 0; same && i < a->holds; i++)
        same = strcmp(a->hold[i].jar, b->hold[i].jar) == 0 &&
               a->hold[i].count == b->hold[i].count;
    return same;
}

bool
same_kitchen(const pottle_kitchen *a, const pottle_kitchen *b)
{
    bool same = same_quantity(a->altitude, b->altitude) && a->cup == b->cup &&
                same_quantity(a->scale, b->scale) &&
                same_misreading(a->thermometer, b->thermometer) &&
                a->canners == b->canners && a->pots == b->pots &&
                a->shelves == b->shelves && a->own_jars == b->own_jars;
    for (size_t i = 0; same && i < a->canners; i++)
        same = same_canner(&a->canner[i], &b->canner[i]);
    for (size_t i = 0; same && i < a->pots; i++)
        same = strcmp(a->pot[i].id, b->pot[i].id) == 0 &&
               strcmp(a->pot[i].title, b->pot[i].title) == 0 &&
               same_quantity(a->pot[i].tare, b->pot[i].tare) &&
               same_quantity(a->pot[i].width, b->pot[i].width);
    for (size_t i = 0; same && i < a->shelves; i++)
        same = strcmp(a->shelf[i].jar, b->shelf[i].jar) == 0 &&
               a->shelf[i].count == b->shelf[i].count;
    for (size_t i = 0; same && i < a->own_jars; i++)
        same = same_own(&a->own[i], &b->own[i]);
    return same;
}

pottle_kitchen
small_kitchen(void)
{
    pottle_kitchen k;
    memset(&k, 0, sizeof k);
    k.altitude = q(900, "m");
    pottle_kitchen_pot pot;
    memset(&pot, 0, sizeof pot);
    strcpy(pot.id, "jam-pan");
    strcpy(pot.title, "<&>\"'");
    pot.width = q(26, "cm");
    ck_assert_int_eq(pottle_kitchen_put_pot(&k, &pot, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, "pint", 12, NULL), POTTLE_OK);
    return k;
}

const char small_text[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kitchen>\n  <altitude "
    "value=\"900\" unit=\"m\"/>\n"
    "  <pot id=\"jam-pan\" title=\"&lt;&amp;&gt;&quot;&apos;\">\n    <width "
    "value=\"26\" unit=\"cm\"/>\n  </pot>\n"
    "  <shelf jar=\"pint\" count=\"12\"/>\n</kitchen>\n";
