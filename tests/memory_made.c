/* memory_made.c - test_memory: the calls that make something for the jars, or
 * read and write a person's kitchen. */
#include <config.h>

#include <string.h>
#include <sys/stat.h>

#include "memory_cases.h"

static bool
untouched(const void *bytes, size_t n, unsigned char filled)
{
    const unsigned char *b = bytes;
    size_t i = 0;
    while (i < n && b[i] == filled)
        i++;
    return i == n;
}

/* Liquids for jars, and what a recipe prints of its jars: each reads a food or
 * makes a plan. */
outcome
make_brine(void)
{
    pottle_brine_mix m;
    outcome o = { .content = 1 };
    memset(&m, 0x5A, sizeof m);
    o.status = pottle_brine_of_percent(all, 5, (pottle_volume){ 1000 }, false,
                                       &m, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&m, sizeof m, 0x5A);
    if (o.status == POTTLE_OK)
        add_number(&o.content, m.salt_g);
    return o;
}

outcome
make_recipe_brine(void)
{
    static pottle_brine_plan p;
    const pottle_brine_request request = { .version =
                                               POTTLE_BRINE_REQUEST_VERSION,
                                           .volume_ml = 1000 };
    outcome o = { .content = 1 };
    memset(&p, 0x5A, sizeof p);
    o.status = pottle_brine_of_recipe(all, dills, &request, &p, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&p, sizeof p, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, p.factor);
        add_number(&o.content, (double)p.lines);
    }
    return o;
}

outcome
make_syrup(void)
{
    pottle_syrup_mix m;
    outcome o = { .content = 1 };
    memset(&m, 0x5A, sizeof m);
    o.status = pottle_syrup_of_brix(all, 30, (pottle_volume){ 1000 }, &m, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&m, sizeof m, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, m.sugar_g);
        add_number(&o.content, m.sugar_ml);
    }
    return o;
}

outcome
compare_yield(void)
{
    pottle_yield_comparison c;
    outcome o = { .content = 1 };
    memset(&c, 0x5A, sizeof c);
    o.status = pottle_yield_compare(all, salsa, &c, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&c, sizeof c, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, c.factor);
        add_number(&o.content, c.balance_jars.median);
    }
    return o;
}

/* -- A person's kitchen ---------------------------------------------------- */

outcome
read_kitchen(void)
{
    static pottle_kitchen read;
    outcome o = { .content = 1 };
    memset(&read, 0x5A, sizeof read);
    o.status = pottle_kitchen_read(all, kitchen_path, &read, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&read, sizeof read, 0x5A);
    if (o.status == POTTLE_OK) {
        add_number(&o.content, read.altitude.low);
        add_number(&o.content, (double)read.pots);
        add_text(&o.content, read.pot[0].title);
    }
    return o;
}

/* The file that was there stays as it was. */
outcome
write_kitchen(void)
{
    struct stat before, after;
    outcome o = { .content = 1 };
    must(stat(kitchen_path, &before) == 0, kitchen_path);
    o.status = pottle_kitchen_write(&kitchen, kitchen_path, NULL);
    must(stat(kitchen_path, &after) == 0, kitchen_path);
    o.touched = o.status != POTTLE_OK && before.st_ino != after.st_ino;
    return o;
}
