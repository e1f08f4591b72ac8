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

static outcome
take_syrup(pottle_status status, const pottle_syrup_mix *m)
{
    outcome o = { .status = status, .content = 1 };
    o.touched = status != POTTLE_OK && !untouched(m, sizeof *m, 0x5A);
    if (status == POTTLE_OK) {
        add_number(&o.content, m->sugar_ml);
        add_number(&o.content, m->water_ml);
        add_number(&o.content, m->brix);
    }
    return o;
}

outcome
make_syrup_for_jars(void)
{
    pottle_syrup_mix m;
    size_t n = 0;
    const pottle_syrup *syrup = pottle_syrups(all, &n);
    memset(&m, 0x5A, sizeof m);
    const pottle_status status =
        pottle_syrup_for_jars(all, syrup, some_jars, 2, &m, NULL);
    return take_syrup(status, &m);
}

outcome
make_syrup_of_class(void)
{
    pottle_syrup_mix m;
    size_t n = 0;
    const pottle_syrup *syrup = pottle_syrups(all, &n);
    memset(&m, 0x5A, sizeof m);
    const pottle_status status =
        pottle_syrup_of_class(all, syrup, (pottle_volume){ 1000 }, &m, NULL);
    return take_syrup(status, &m);
}

outcome
need_syrup(void)
{
    pottle_estimate ml;
    outcome o = { .content = 1 };
    memset(&ml, 0x5A, sizeof ml);
    o.status = pottle_syrup_need(all, some_jars, 2, &ml, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&ml, sizeof ml, 0x5A);
    if (o.status == POTTLE_OK)
        add_number(&o.content, ml.median);
    return o;
}

outcome
dose_acid(void)
{
    static pottle_acid_total total[POTTLE_ACID_TOTALS_MAX];
    size_t totals = 4711;
    outcome o = { .content = 1 };
    memset(total, 0x5A, sizeof total);
    o.status =
        pottle_acid_for_jars(all, tomatoes, some_jars, 2, total, &totals, NULL);
    o.touched = o.status != POTTLE_OK &&
                (totals != 4711 || !untouched(total, sizeof total, 0x5A));
    for (size_t i = 0; o.status == POTTLE_OK && i < totals; i++) {
        add_text(&o.content, total[i].title);
        add_number(&o.content, total[i].total);
    }
    return o;
}

outcome
remake_jam(void)
{
    pottle_remake r;
    outcome o = { .content = 1 };
    memset(&r, 0x5A, sizeof r);
    o.status = pottle_remake_lot(all, "none", (pottle_volume){ 900 }, &r, NULL);
    o.touched = o.status != POTTLE_OK && !untouched(&r, sizeof r, 0x5A);
    for (size_t i = 0; o.status == POTTLE_OK && i < r.lines; i++) {
        add_text(&o.content, r.line[i].title);
        add_number(&o.content, r.line[i].mass_g);
    }
    return o;
}

/* Two sizes that there are not enough of, and acid for each jar. */
outcome
fill_shelf(void)
{
    pottle_filling *f = (pottle_filling *)(void *)&mark;
    const pottle_shelf_size size[] = { { some_jars[0].jar, NULL, 4 },
                                       { some_jars[1].jar, NULL, 5 } };
    const pottle_shelf_request request = { .version =
                                               POTTLE_SHELF_REQUEST_VERSION,
                                           .size = size,
                                           .sizes = 2,
                                           .has_altitude = true,
                                           .altitude_m = 300 };
    outcome o = { .content = 1 };
    o.status = pottle_shelf_fill(all, fourteen, &request, &f, NULL);
    o.touched = o.status != POTTLE_OK && f != (void *)&mark;
    if (o.status == POTTLE_OK) {
        size_t n = 0;
        const pottle_filled *filled = pottle_filling_sizes(f, &n);
        for (size_t i = 0; i < n; i++)
            add_number(&o.content, (double)filled[i].jars);
        const pottle_filling_dose *dose = pottle_filling_doses(f, &n);
        for (size_t i = 0; i < n; i++)
            add_number(&o.content, dose[i].total);
        const pottle_filling_load *load = pottle_filling_loads(f, &n);
        for (size_t i = 0; i < n; i++)
            add_number(&o.content, load[i].time.total.high);
        pottle_filling_free(f);
    }
    return o;
}

outcome
suit_mishap(void)
{
    return (outcome){ .status = pottle_mishap_suits(all, weak, dills, NULL),
                      .content = 1 };
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
