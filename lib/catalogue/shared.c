/* shared.c - the shared files of a catalogue: names, figures, jars, rules,
 * sources, syrups. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "xml.h"

static int
by_first_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

const void *
pottlei_find(const void *array, size_t count, size_t size, const char *key)
{
    return count == 0 ? NULL : bsearch(&key, array, count, size, by_first_text);
}

/* Sorts by the first member, an id, and refuses two of the same. */
static void
sort_ids(pottlei_reader *reader, void *array, size_t count, size_t size)
{
    if (reader->status != POTTLE_OK || count == 0)
        return;
    /* most files are in order as they stand */
    const char *first = array;
    size_t i = 1;
    while (i < count &&
           by_first_text(first + (i - 1) * size, first + i * size) < 0)
        i++;
    if (i == count)
        return;
    qsort(array, count, size, by_first_text);
    for (i = 1; i < count; i++) {
        const char *const *one = (const void *)(first + (i - 1) * size);
        if (by_first_text(one, first + i * size) == 0)
            pottlei_xml_fail(reader, NULL, "twice", "'%s' stands twice", *one);
    }
}

/* -- foods/names.xml ------------------------------------------------------- */

static int
by_folded(const void *a, const void *b)
{
    const pottlei_name *x = a, *y = b;
    const int d = strcmp(x->folded, y->folded);
    return d != 0 ? d : strcmp(x->id, y->id);
}

/* Words of a folded name, or of an id. */
static size_t
count_words(const char *name)
{
    size_t n = 1;
    for (const char *s = name; *s != '\0'; s++)
        n += *s == ' ' || *s == '-';
    return n;
}

pottle_status
pottlei_names_read(pottle_catalogue *catalogue, const char *path,
                   pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "names");
    size_t entries = 0, names = 0;
    for (const pottlei_node *e = pottlei_xml_first(&reader, root); e != NULL;
         e = pottlei_xml_next(&reader, e)) {
        entries++;
        names += pottlei_xml_count(&reader, e, "name");
    }
    pottlei_named *named = pottlei_xml_array(&reader, entries, sizeof *named);
    pottlei_name *name = pottlei_xml_array(&reader, names, sizeof *name);
    const char **text = pottlei_xml_array(&reader, names, sizeof *text);
    size_t n = 0, k = 0;
    for (const pottlei_node *e = pottlei_xml_first(&reader, root); e != NULL;
         e = pottlei_xml_next(&reader, e)) {
        if (!pottlei_xml_is(e, "food") && !pottlei_xml_is(e, "recipe"))
            pottlei_xml_unknown(&reader, e);
        const bool recipe = pottlei_xml_is(e, "recipe");
        pottlei_xml_only(&reader, e, recipe ? "id" : "id under");
        named[n] =
            (pottlei_named){ .id = pottlei_xml_id(&reader, e, "id", NULL),
                             .recipe = recipe,
                             .name = text + k };
        if (!recipe && pottlei_xml_peek(e, "under") != NULL)
            named[n].under = pottlei_xml_id(&reader, e, "under", NULL);
        for (const pottlei_node *c = pottlei_xml_first_of(&reader, e, "name");
             c != NULL; c = pottlei_xml_next_of(&reader, c)) {
            text[k] = pottlei_xml_text(&reader, c);
            char folded[256];
            pottlei_fold_singular(text[k], folded, sizeof folded);
            /* most names are folded as they stand */
            name[k].folded = strcmp(folded, text[k]) == 0
                               ? text[k]
                               : pottlei_arena_text(reader.arena, folded);
            name[k].id = named[n].id;
            name[k].recipe = named[n].recipe;
            if (name[k].folded == NULL)
                reader.status =
                    pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
            k++;
            named[n].names++;
        }
        n++;
    }
    sort_ids(&reader, named, n, sizeof *named);
    if (reader.status == POTTLE_OK) {
        qsort(name, k, sizeof *name, by_folded);
        catalogue->named = named;
        catalogue->named_count = n;
        catalogue->name = name;
        catalogue->name_count = k;
        for (size_t i = 0; i < k; i++)
            if (count_words(name[i].folded) > catalogue->name_words)
                catalogue->name_words = count_words(name[i].folded);
        for (size_t i = 0; i < n; i++)
            if (count_words(named[i].id) > catalogue->name_words)
                catalogue->name_words = count_words(named[i].id);
    }
    return reader.status;
}

/* -- figures.xml ----------------------------------------------------------- */

pottle_status
pottlei_figures_read(pottle_catalogue *catalogue, const char *path,
                     pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "figures");
    pottle_figure *figure =
        pottlei_xml_room(&reader, root, "figure", sizeof *figure);
    size_t n = 0;
    for (const pottlei_node *e = pottlei_xml_first_of(&reader, root, "figure");
         e != NULL; e = pottlei_xml_next_of(&reader, e)) {
        pottlei_xml_only(&reader, e,
                         "id value to unit spread source at standing note");
        pottle_figure *f = &figure[n++];
        f->id = pottlei_xml_id(&reader, e, "id", NULL);
        f->unit = pottlei_xml_attr(&reader, e, "unit", NULL);
        f->value = pottlei_xml_number(&reader, e, "value", -1);
        f->to = pottlei_xml_number(&reader, e, "to", f->value);
        f->spread = pottlei_xml_number(&reader, e, "spread", 0);
        f->cite = pottlei_xml_cite(&reader, e, NULL);
        f->text = pottlei_xml_text(&reader, e);
        if (f->to < f->value)
            pottlei_xml_fail(&reader, e, "order", "'to' is below 'value'");
    }
    sort_ids(&reader, figure, n, sizeof *figure);
    if (reader.status == POTTLE_OK) {
        catalogue->figure = figure;
        catalogue->figure_count = n;
    }
    return reader.status;
}

/* -- jars.xml -------------------------------------------------------------- */

static void
read_mouth(pottlei_reader *reader, const pottlei_node *node, double mouth_mm[2])
{
    static const char *const mouths[] = { "regular", "wide", NULL };
    pottlei_xml_only(reader, node, "id inside unit source at standing note");
    const int which = pottlei_xml_choice(reader, node, "id", mouths, -1);
    const pottle_unit *unit =
        pottlei_xml_unit(reader, node, "unit", POTTLE_LENGTH);
    mouth_mm[which] =
        pottlei_xml_number(reader, node, "inside", -1) * unit->factor;
    pottlei_xml_cite(reader, node, NULL);
}

static void
read_jar(pottlei_reader *reader, const pottlei_node *node, pottle_jar *jar)
{
    pottlei_xml_only(reader, node,
                     "id nominal unit mouths source at standing note");
    jar->id = pottlei_xml_id(reader, node, "id", NULL);
    jar->nominal_ml =
        pottlei_xml_number(reader, node, "nominal", -1) *
        pottlei_xml_unit(reader, node, "unit", POTTLE_VOLUME)->factor;
    jar->cite = pottlei_xml_cite(reader, node, NULL);
    const char *mouths = pottlei_xml_attr(reader, node, "mouths", NULL);
    jar->regular = strstr(mouths, "regular") != NULL;
    jar->wide = strstr(mouths, "wide") != NULL;
    jar->title = jar->process_as = jar->rule = "";
    pottlei_xml_once(reader, node, "title process-as");
    char names[512] = "";
    for (const pottlei_node *c = pottlei_xml_first(reader, node); c != NULL;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "title")) {
            jar->title = pottlei_xml_text(reader, c);
        } else if (pottlei_xml_is(c, "name")) {
            char folded[64];
            pottlei_fold_singular(pottlei_xml_text(reader, c), folded,
                                  sizeof folded);
            const size_t n = strlen(names);
            if (n + strlen(folded) + 2 < sizeof names)
                snprintf(names + n, sizeof names - n, "%s|", folded);
        } else if (pottlei_xml_is(c, "process-as")) {
            pottlei_xml_only(reader, c, "jar rule");
            jar->process_as = pottlei_xml_id(reader, c, "jar", NULL);
            jar->rule = pottlei_xml_id(reader, c, "rule", NULL);
        } else {
            pottlei_xml_unknown(reader, c);
        }
    }
    jar->names = pottlei_arena_text(reader->arena, names);
    if (jar->names == NULL && reader->status == POTTLE_OK)
        reader->status =
            pottlei_fail(reader->error, POTTLE_ENOMEM, "memory", "no memory");
    if (!(jar->nominal_ml >= 50 && jar->nominal_ml <= 5000))
        pottlei_xml_fail(reader, node, "range",
                         "a jar of %g mL is out of range", jar->nominal_ml);
}

static int
by_volume(const void *a, const void *b)
{
    const pottle_jar *x = a, *y = b;
    return (x->nominal_ml > y->nominal_ml) - (x->nominal_ml < y->nominal_ml);
}

pottle_status
pottlei_jars_read(pottle_catalogue *catalogue, const char *path,
                  pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "jars");
    pottle_jar *jar = pottlei_xml_room(&reader, root, "jar", sizeof *jar);
    double mouth_mm[2] = { 0, 0 };
    size_t n = 0;
    for (const pottlei_node *e = pottlei_xml_first(&reader, root); e != NULL;
         e = pottlei_xml_next(&reader, e)) {
        if (pottlei_xml_is(e, "mouth"))
            read_mouth(&reader, e, mouth_mm);
        else if (pottlei_xml_is(e, "jar"))
            read_jar(&reader, e, &jar[n++]);
        else
            pottlei_xml_unknown(&reader, e);
    }
    if (reader.status == POTTLE_OK &&
        (n == 0 || !(mouth_mm[0] > 0 && mouth_mm[1] > 0)))
        pottlei_xml_fail(&reader, root, "jars",
                         "two mouths and one or more jars are needed");
    sort_ids(&reader, jar, n, sizeof *jar);
    if (reader.status == POTTLE_OK) {
        qsort(jar, n, sizeof *jar, by_volume);
        catalogue->jar = jar;
        catalogue->jar_count = n;
        memcpy(catalogue->mouth_mm, mouth_mm, sizeof mouth_mm);
    }
    return reader.status;
}

/* -- rules.xml ------------------------------------------------------------- */

static void
read_rule(pottlei_reader *reader, const pottlei_node *node, pottle_rule *rule)
{
    pottlei_xml_only(reader, node, "id source at standing note");
    rule->id = pottlei_xml_id(reader, node, "id", NULL);
    rule->cite = pottlei_xml_cite(reader, node, NULL);
    rule->text = rule->instead = "";
    pottlei_xml_once(reader, node, "text instead");
    struct pottle_never *never =
        pottlei_xml_room(reader, node, "never", sizeof *never);
    for (const pottlei_node *c = pottlei_xml_first(reader, node); c != NULL;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "text")) {
            rule->text = pottlei_xml_text(reader, c);
        } else if (pottlei_xml_is(c, "instead")) {
            rule->instead = pottlei_xml_text(reader, c);
        } else if (pottlei_xml_is(c, "never")) {
            pottlei_xml_only(reader, c, "put for");
            never[rule->nevers++] =
                (struct pottle_never){ pottlei_xml_id(reader, c, "put", NULL),
                                       pottlei_xml_id(reader, c, "for", NULL) };
        } else {
            pottlei_xml_unknown(reader, c);
        }
    }
    rule->never = never;
    if (rule->text[0] == '\0')
        pottlei_xml_fail(reader, node, "element", "<rule> needs a <text>");
}

pottle_status
pottlei_rules_read(pottle_catalogue *catalogue, const char *path,
                   pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "rules");
    pottle_rule *rule = pottlei_xml_room(&reader, root, "rule", sizeof *rule);
    size_t n = 0;
    for (const pottlei_node *e = pottlei_xml_first_of(&reader, root, "rule");
         e != NULL; e = pottlei_xml_next_of(&reader, e))
        read_rule(&reader, e, &rule[n++]);
    sort_ids(&reader, rule, n, sizeof *rule);
    if (reader.status == POTTLE_OK) {
        catalogue->rule = rule;
        catalogue->rule_count = n;
    }
    return reader.status;
}

/* -- sources.xml ----------------------------------------------------------- */

static void
read_source(pottlei_reader *reader, const pottlei_node *node,
            pottle_source *source)
{
    pottlei_xml_only(reader, node, "key kind");
    source->key = pottlei_xml_id(reader, node, "key", NULL);
    source->author = source->title = source->part = source->year =
        source->publisher = source->read = "";
    pottlei_xml_once(reader, node,
                     "author title part year publisher read review-by licence");
    const struct {
        const char *name;
        const char **to;
    } members[] = {
        { "author", &source->author },       { "title", &source->title },
        { "part", &source->part },           { "year", &source->year },
        { "publisher", &source->publisher }, { "read", &source->read },
    };
    for (const pottlei_node *c = pottlei_xml_first(reader, node); c != NULL;
         c = pottlei_xml_next(reader, c)) {
        const char *text = pottlei_xml_text(reader, c);
        if (pottlei_xml_is(c, "review-by")) {
            source->review_by = (int)strtol(text, NULL, 10);
            continue;
        }
        if (pottlei_xml_is(c, "licence"))
            continue;
        size_t i = 0;
        while (i < sizeof members / sizeof members[0] &&
               !pottlei_xml_is(c, members[i].name))
            i++;
        if (i < sizeof members / sizeof members[0])
            *members[i].to = text;
        else
            pottlei_xml_unknown(reader, c);
    }
    if (source->author[0] == '\0' || source->title[0] == '\0')
        pottlei_xml_fail(reader, node, "element",
                         "<source> needs an <author> and a <title>");
}

pottle_status
pottlei_sources_read(pottle_catalogue *catalogue, const char *path,
                     pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "sources");
    pottle_source *source =
        pottlei_xml_room(&reader, root, "source", sizeof *source);
    size_t n = 0;
    for (const pottlei_node *e = pottlei_xml_first_of(&reader, root, "source");
         e != NULL; e = pottlei_xml_next_of(&reader, e))
        read_source(&reader, e, &source[n++]);
    sort_ids(&reader, source, n, sizeof *source);
    if (reader.status == POTTLE_OK) {
        catalogue->source = source;
        catalogue->source_count = n;
    }
    return reader.status;
}

/* -- syrups.xml ------------------------------------------------------------ */

static void
read_syrup(pottlei_reader *reader, const pottlei_node *node,
           pottle_syrup *syrup)
{
    pottlei_xml_only(reader, node, "id sugar-percent source at standing note");
    syrup->id = pottlei_xml_id(reader, node, "id", NULL);
    syrup->percent = pottlei_xml_number(reader, node, "sugar-percent", -1);
    syrup->cite = pottlei_xml_cite(reader, node, NULL);
    syrup->title = "";
    pottlei_xml_once(reader, node, "title");
    struct pottle_syrup_load *load =
        pottlei_xml_room(reader, node, "load", sizeof *load);
    for (const pottlei_node *c = pottlei_xml_first(reader, node); c != NULL;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "title")) {
            syrup->title = pottlei_xml_text(reader, c);
            continue;
        }
        if (!pottlei_xml_is(c, "load")) {
            pottlei_xml_unknown(reader, c);
            break;
        }
        pottlei_xml_only(reader, c, "jar jars water sugar unit");
        const double ml =
            pottlei_xml_unit(reader, c, "unit", POTTLE_VOLUME)->factor;
        struct pottle_syrup_load *l = &load[syrup->loads++];
        l->jar = pottlei_xml_id(reader, c, "jar", NULL);
        l->jars = pottlei_xml_number(reader, c, "jars", -1);
        l->water_ml = pottlei_xml_number(reader, c, "water", -1) * ml;
        l->sugar_ml = pottlei_xml_number(reader, c, "sugar", -1) * ml;
        if (!(l->jars > 0))
            pottlei_xml_fail(reader, c, "range", "a load has one or more jars");
    }
    syrup->load = load;
}

pottle_status
pottlei_syrups_read(pottle_catalogue *catalogue, const char *path,
                    pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "syrups");
    pottle_syrup *syrup =
        pottlei_xml_room(&reader, root, "syrup", sizeof *syrup);
    size_t n = 0;
    for (const pottlei_node *e = pottlei_xml_first_of(&reader, root, "syrup");
         e != NULL; e = pottlei_xml_next_of(&reader, e))
        read_syrup(&reader, e, &syrup[n++]);
    if (reader.status == POTTLE_OK) {
        catalogue->syrup = syrup;
        catalogue->syrup_count = n;
    }
    return reader.status;
}
