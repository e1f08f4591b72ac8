/* rescue_read.c - reading what the publications allow when something went
 * wrong.
 *
 * Whatever lets a jar be kept asks for a process, what depends on age has a
 * clock, and the last case asks nothing and discards. So no jar of unknown age
 * or history is ever let pass, whatever is written in the file. */
#include <config.h>

#include <string.h>

#include "recipe_read.h"

static void
read_option(pottlei_reader *reader, const pottlei_node *node,
            const pottle_rescue_case *c, pottle_rescue_option *o)
{
    pottlei_xml_only(reader, node,
                     "do days days-to headspace source at standing note");
    o->action = (pottle_rescue_action)pottlei_xml_choice(reader, node, "do",
                                                         pottlei_actions, -1);
    o->days = pottlei_xml_number(reader, node, "days", 0);
    o->days_to = pottlei_xml_number(reader, node, "days-to", o->days);
    o->headspace.mm =
        pottlei_xml_number(reader, node, "headspace", 0) * POTTLEI_INCH_MM;
    o->cite = pottlei_xml_cite(reader, node, NULL);
    o->text = pottlei_xml_text(reader, node);
    if (o->days_to < o->days)
        pottlei_xml_fail(reader, node, "order", "'days-to' is below 'days'");
    if (o->headspace.mm > 0 && !(o->headspace.mm >= 2 && o->headspace.mm <= 60))
        pottlei_xml_fail(reader, node, "range",
                         "a headspace of %g mm is out of range",
                         o->headspace.mm);
    if (o->action != POTTLE_RESCUE_DISCARD &&
        c->followed == POTTLE_FOLLOWED_UNKNOWN)
        pottlei_xml_fail(
            reader, node, "unknown-process",
            "a case that asks nothing of the first process may only discard");
    const bool ages = o->action == POTTLE_RESCUE_REPROCESS ||
                      o->action == POTTLE_RESCUE_REFRIGERATE ||
                      o->action == POTTLE_RESCUE_FREEZE;
    if (ages && !c->has_hours)
        pottlei_xml_fail(reader, node, "unknown-age",
                         "'%s' needs a case with a number of hours",
                         pottle_rescue_action_name((int)o->action));
}

/* <differs> and <chosen> of a case or of the remaking. */
static void
read_differing(pottlei_reader *reader, const pottlei_node *node,
               const pottle_rescue_other **list, size_t *count,
               const char **chosen)
{
    pottlei_xml_once(reader, node, "chosen");
    pottle_rescue_other *other =
        pottlei_xml_room(reader, node, "differs", sizeof *other);
    *chosen = "";
    for (const pottlei_node *e = pottlei_xml_first(reader, node); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "differs")) {
            pottlei_xml_only(reader, e, "source at standing note");
            other[(*count)++] =
                (pottle_rescue_other){ pottlei_xml_text(reader, e),
                                       pottlei_xml_cite(reader, e, NULL) };
        } else if (pottlei_xml_is(e, "chosen")) {
            pottlei_xml_only(reader, e, "");
            *chosen = pottlei_xml_text(reader, e);
        }
    }
    *list = other;
    if (reader->status == POTTLE_OK && (*count > 0) != ((*chosen)[0] != '\0'))
        pottlei_xml_fail(
            reader, node, "chosen",
            "where sources differ the choice needs a reason, and only there");
}

static bool
asks_nothing(const pottle_rescue_case *c)
{
    return !c->has_hours && c->followed == POTTLE_FOLLOWED_UNKNOWN &&
           !c->hot_pack && !c->dense && !c->jar_acid && !(c->lost_under > 0);
}

static void
read_case(pottlei_reader *reader, const pottlei_node *node,
          pottle_rescue_case *c)
{
    static const char *const processes[] = { "followed", "wrong", "untested",
                                             NULL };
    pottlei_xml_only(reader, node,
                     "within under process hot-pack dense jar-acid lost-under");
    const bool within = pottlei_xml_peek(node, "within") != NULL;
    c->under = pottlei_xml_peek(node, "under") != NULL;
    c->has_hours = within || c->under;
    c->hours = !c->has_hours
                 ? 0
                 : pottlei_xml_number(reader, node,
                                      c->under ? "under" : "within", -1);
    if (pottlei_xml_peek(node, "process") != NULL)
        c->followed =
            (pottle_followed)(pottlei_xml_choice(reader, node, "process",
                                                 processes, -1) +
                              1);
    c->hot_pack = pottlei_xml_flag(reader, node, "hot-pack", false);
    c->dense = pottlei_xml_flag(reader, node, "dense", false);
    c->jar_acid = pottlei_xml_flag(reader, node, "jar-acid", false);
    c->lost_under = pottlei_xml_number(reader, node, "lost-under", 0);
    if ((within && c->under) || (c->has_hours && !(c->hours > 0)))
        pottlei_xml_fail(reader, node, "hours",
                         "a case has one number of hours above 0, or none");
    if (pottlei_xml_peek(node, "lost-under") != NULL &&
        !(c->lost_under > 0 && c->lost_under <= 1))
        pottlei_xml_fail(reader, node, "range",
                         "the share lost lies above 0 and up to 1");
    pottle_rescue_option *option =
        pottlei_xml_room(reader, node, "option", sizeof *option);
    for (const pottlei_node *e = pottlei_xml_first(reader, node); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "option"))
            read_option(reader, e, c, &option[c->options++]);
        else if (!pottlei_xml_is(e, "differs") && !pottlei_xml_is(e, "chosen"))
            pottlei_xml_unknown(reader, e);
    }
    c->option = option;
    if (c->options == 0)
        pottlei_xml_fail(reader, node, "element", "a case needs an <option>");
    read_differing(reader, node, &c->other, &c->others, &c->chosen);
}

static void
read_mishap(pottlei_reader *reader, const pottlei_node *node, pottle_mishap *m)
{
    static const char *const suppositions[] = { "followed", "wrong", NULL };
    pottlei_xml_only(reader, node, "id supposes");
    m->id = pottlei_xml_id(reader, node, "id", NULL);
    m->supposes = (pottle_followed)(pottlei_xml_choice(reader, node, "supposes",
                                                       suppositions, -1) +
                                    1);
    m->title = m->clock = m->supposed = "";
    pottlei_xml_once(reader, node, "title clock supposed");
    pottle_rescue_case *list =
        pottlei_xml_room(reader, node, "case", sizeof *list);
    for (const pottlei_node *e = pottlei_xml_first(reader, node); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "title")) {
            m->title = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "clock")) {
            m->clock = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "supposed")) {
            m->supposed = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "case")) {
            if (m->cases > 0 && asks_nothing(&list[m->cases - 1]))
                pottlei_xml_fail(
                    reader, e, "last-case",
                    "a case after one that asks nothing is never reached");
            read_case(reader, e, &list[m->cases++]);
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    m->list = list;
    if (reader->status == POTTLE_OK &&
        (m->title[0] == '\0' || m->clock[0] == '\0' || m->supposed[0] == '\0'))
        pottlei_xml_fail(
            reader, node, "element",
            "a mishap needs a title, a clock and what is supposed");
    if (reader->status == POTTLE_OK &&
        (m->cases == 0 || !asks_nothing(&list[m->cases - 1])))
        pottlei_xml_fail(reader, node, "last-case",
                         "the last case must ask nothing, for jars of which "
                         "nothing is known");
}

static void
read_way(pottlei_reader *reader, const pottlei_node *node,
         const pottle_cite *parent, pottle_remake_way *w)
{
    static const char *const pectins[] = { "powdered", "liquid", "none", NULL };
    static const char *const keeps[] = { "exact", "at-least", NULL };
    pottlei_xml_only(reader, node,
                     "pectin per unit boil boil-to source at standing note");
    w->pectin =
        pectins[pottlei_xml_choice(reader, node, "pectin", pectins, -1)];
    w->per_ml = pottlei_xml_number(reader, node, "per", -1) *
                pottlei_xml_unit(reader, node, "unit", POTTLE_VOLUME)->factor;
    w->boil_min = pottlei_xml_number(reader, node, "boil", -1);
    w->boil_to_min = pottlei_xml_number(reader, node, "boil-to", w->boil_min);
    w->cite = pottlei_xml_cite(reader, node, parent);
    w->text = "";
    pottlei_xml_once(reader, node, "text");
    pottle_remake_add *add = pottlei_xml_room(reader, node, "add", sizeof *add);
    for (const pottlei_node *e = pottlei_xml_first(reader, node); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "text")) {
            w->text = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "add")) {
            pottlei_xml_only(reader, e, "food form amount unit keep");
            pottle_remake_add *a = &add[w->adds++];
            a->food = pottlei_xml_id(reader, e, "food", NULL);
            a->form = pottlei_xml_id(reader, e, "form", NULL);
            a->printed = pottlei_xml_attr(reader, e, "amount", NULL);
            a->amount = pottlei_xml_number(reader, e, "amount", -1);
            a->unit = pottlei_xml_unit(reader, e, "unit", POTTLE_VOLUME);
            a->keep = pottlei_xml_choice(reader, e, "keep", keeps, -1) == 1
                        ? POTTLE_AT_LEAST
                        : POTTLE_EXACT;
            if (!(a->amount > 0))
                pottlei_xml_fail(reader, e, "range", "an amount lies above 0");
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    w->add = add;
    if (reader->status == POTTLE_OK && (w->text[0] == '\0' || w->adds == 0))
        pottlei_xml_fail(reader, node, "element",
                         "a way needs a text and what is added");
    if (!(w->per_ml > 0) || !(w->boil_min > 0) || w->boil_to_min < w->boil_min)
        pottlei_xml_fail(
            reader, node, "order",
            "the measure and the minutes lie above 0 and in order");
}

/* Boiling water only. */
static void
read_process(pottlei_reader *reader, const pottlei_node *node,
             const pottle_cite *parent, pottle_process_table *t)
{
    static const char *const methods[] = { "boiling-water", NULL };
    pottlei_xml_only(reader, node,
                     "method jars headspace sterile source at standing note");
    t->method =
        (pottle_method)pottlei_xml_choice(reader, node, "method", methods, -1);
    t->sterile = pottlei_xml_flag(reader, node, "sterile", false);
    t->headspace_in = pottlei_xml_number(reader, node, "headspace", -1);
    t->headspace = pottlei_xml_attr(reader, node, "headspace", NULL);
    t->cite = pottlei_xml_cite(reader, node, parent);
    pottlei_read_table(reader, node, t);
}

static void
read_remaking(pottlei_reader *reader, const pottlei_node *node,
              pottle_remaking *r)
{
    pottlei_xml_only(reader, node,
                     "usual most unit rule source at standing note");
    const double ml =
        pottlei_xml_unit(reader, node, "unit", POTTLE_VOLUME)->factor;
    r->usual_ml = pottlei_xml_number(reader, node, "usual", -1) * ml;
    r->most_ml = pottlei_xml_number(reader, node, "most", -1) * ml;
    r->rule = pottlei_xml_id(reader, node, "rule", NULL);
    r->cite = pottlei_xml_cite(reader, node, NULL);
    pottle_remake_way *way = pottlei_xml_room(reader, node, "way", sizeof *way);
    size_t processes = 0;
    for (const pottlei_node *e = pottlei_xml_first(reader, node); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "way")) {
            read_way(reader, e, &r->cite, &way[r->ways++]);
            for (size_t i = 0; reader->status == POTTLE_OK && i + 1 < r->ways;
                 i++)
                if (strcmp(way[i].pectin, way[r->ways - 1].pectin) == 0)
                    pottlei_xml_fail(reader, e, "twice",
                                     "two ways with '%s' pectin",
                                     way[i].pectin);
        } else if (pottlei_xml_is(e, "process") && processes++ == 0) {
            read_process(reader, e, &r->cite, &r->process);
        } else if (!pottlei_xml_is(e, "differs") &&
                   !pottlei_xml_is(e, "chosen")) {
            pottlei_xml_unknown(reader, e);
        }
    }
    r->way = way;
    if (reader->status == POTTLE_OK && (r->ways == 0 || processes == 0))
        pottlei_xml_fail(reader, node, "element",
                         "remaking needs a way and a process");
    if (!(r->usual_ml > 0 && r->usual_ml <= r->most_ml))
        pottlei_xml_fail(reader, node, "order",
                         "the sizes of a lot are not in order");
    read_differing(reader, node, &r->other, &r->others, &r->chosen);
}

static void
read_dense(pottlei_reader *reader, const pottlei_node *node,
           pottlei_dense *dense)
{
    pottlei_xml_only(reader, node, "kind food source at standing note");
    pottlei_xml_cite(reader, node, NULL);
    dense->kind = pottlei_xml_peek(node, "kind");
    dense->food = pottlei_xml_peek(node, "food");
    if ((dense->kind == NULL) == (dense->food == NULL))
        pottlei_xml_fail(reader, node, "attribute",
                         "<dense> names a kind or a food");
    else
        pottlei_xml_id(reader, node, dense->kind != NULL ? "kind" : "food",
                       NULL);
}

pottle_status
pottlei_rescue_read(pottle_catalogue *catalogue, const char *path,
                    pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "rescue");
    pottle_mishap *mishap =
        pottlei_xml_room(&reader, root, "mishap", sizeof *mishap);
    pottlei_dense *dense =
        pottlei_xml_room(&reader, root, "dense", sizeof *dense);
    pottle_remaking *remaking = pottlei_xml_array(&reader, 1, sizeof *remaking);
    size_t mishaps = 0, denses = 0, remakings = 0;
    for (const pottlei_node *e = pottlei_xml_first(&reader, root); e != NULL;
         e = pottlei_xml_next(&reader, e)) {
        if (pottlei_xml_is(e, "mishap")) {
            pottle_mishap *m = &mishap[mishaps++];
            read_mishap(&reader, e, m);
            /* sorted by id, as the other files are */
            if (reader.status == POTTLE_OK && mishaps > 1 &&
                strcmp(m[-1].id, m->id) >= 0)
                pottlei_xml_fail(&reader, e,
                                 strcmp(m[-1].id, m->id) == 0 ? "twice"
                                                              : "order",
                                 "'%s' stands after '%s'", m->id, m[-1].id);
        } else if (pottlei_xml_is(e, "dense")) {
            read_dense(&reader, e, &dense[denses++]);
        } else if (pottlei_xml_is(e, "remaking") && remakings++ == 0) {
            read_remaking(&reader, e, remaking);
        } else {
            pottlei_xml_unknown(&reader, e);
        }
    }
    if (reader.status == POTTLE_OK && (mishaps == 0 || remakings == 0))
        pottlei_xml_fail(&reader, root, "element",
                         "a mishap and a remaking are needed");
    if (reader.status == POTTLE_OK) {
        catalogue->mishap = mishap;
        catalogue->mishap_count = mishaps;
        catalogue->dense = dense;
        catalogue->dense_count = denses;
        catalogue->remaking = remaking;
    }
    return reader.status;
}
