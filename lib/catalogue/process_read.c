/* process_read.c - reading the process of a recipe or of the remaking of jam.
 *
 * Bands run on from 0 without a gap, time and pressure never fall with
 * altitude, and only pressure canners have a pressure: here, whatever the
 * schema says. */
#include <config.h>

#include "recipe_read.h"

static void
read_bands(pottlei_reader *reader, const pottlei_node *node,
           pottle_process_table *table)
{
    pottle_band *band = pottlei_xml_room(reader, node, "band", sizeof *band);
    int next = 0;
    for (const pottlei_node *c = pottlei_xml_first_of(reader, node, "band");
         c != NULL; c = pottlei_xml_next_of(reader, c)) {
        pottlei_xml_only(reader, c, "from to minutes psi");
        pottle_band *b = &band[table->bands];
        b->from_ft = pottlei_xml_whole(reader, c, "from", -1, 30000);
        b->to_ft = pottlei_xml_peek(c, "to") == NULL
                     ? -1
                     : pottlei_xml_whole(reader, c, "to", -1, 30000);
        b->minutes = pottlei_xml_whole(reader, c, "minutes", -1, 1000);
        b->psi = pottlei_xml_whole(reader, c, "psi", 0, 15);
        const pottle_band *before = table->bands > 0 ? b - 1 : NULL;
        if (b->from_ft != next || (b->to_ft >= 0 && b->to_ft <= b->from_ft) ||
            (before != NULL && before->to_ft < 0))
            pottlei_xml_fail(reader, c, "bands",
                             "bands must begin at 0 and run on without a gap; "
                             "this one begins at %d",
                             b->from_ft);
        if (b->minutes == 0)
            pottlei_xml_fail(reader, c, "bands", "a process of 0 minutes");
        if ((b->psi > 0) == (table->method == POTTLE_BOILING_WATER))
            pottlei_xml_fail(
                reader, c, "bands",
                "pressure belongs to pressure canners and only to them");
        if (before != NULL &&
            (b->minutes < before->minutes || b->psi < before->psi))
            pottlei_xml_fail(reader, c, "bands",
                             "time and pressure never fall with altitude");
        next = b->to_ft + 1;
        table->bands++;
    }
    table->band = band;
    if (table->bands == 0)
        pottlei_xml_fail(reader, node, "bands", "a process needs a band");
}

void
pottlei_read_table(pottlei_reader *reader, const pottlei_node *node,
                   pottle_process_table *t)
{
    t->jar = pottlei_xml_ids(reader, node, "jars", &t->jars);
    read_bands(reader, node, t);
    if (!(t->headspace_in >= 0.1 && t->headspace_in <= 2))
        pottlei_xml_fail(reader, node, "range",
                         "a headspace of %g in is out of range",
                         t->headspace_in);
}

void
pottlei_read_pack(pottlei_reader *reader, const pottlei_node *node,
                  const pottle_cite *parent, pottle_process_table *process,
                  size_t *count)
{
    static const char *const styles[] = { "hot", "raw", NULL };
    pottlei_xml_only(reader, node,
                     "style headspace sterile source at standing note");
    const bool raw = pottlei_xml_choice(reader, node, "style", styles, -1) == 1;
    const bool sterile = pottlei_xml_flag(reader, node, "sterile", false);
    const double headspace = pottlei_xml_number(reader, node, "headspace", -1);
    const char *printed = pottlei_xml_attr(reader, node, "headspace", NULL);
    const pottle_cite cite = pottlei_xml_cite(reader, node, parent);
    for (const pottlei_node *c = pottlei_xml_first_of(reader, node, "process");
         c != NULL; c = pottlei_xml_next_of(reader, c)) {
        pottlei_xml_only(reader, c,
                         "method jars headspace source at standing note");
        pottle_process_table *t = &process[(*count)++];
        t->method = (pottle_method)pottlei_xml_choice(reader, c, "method",
                                                      pottlei_methods, -1);
        t->raw = raw;
        t->sterile = sterile;
        t->headspace_in = pottlei_xml_number(reader, c, "headspace", headspace);
        t->headspace = pottlei_xml_attr(reader, c, "headspace", printed);
        t->cite = pottlei_xml_cite(reader, c, &cite);
        pottlei_read_table(reader, c, t);
    }
}
