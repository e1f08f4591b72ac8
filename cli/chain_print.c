/* chain_print.c - a chain for the person at the stove: first the jars, then
 * every link, then what to measure next. */
#include "cli.h"

#include <string.h>

/* Whether a node is told: of boxes and bushels only to who spoke of them. */
static bool
is_told(const chain_asked *k, const bool *told, int node)
{
    return told[node] && (node != POTTLE_CHAIN_CONTAINER || k->in_containers);
}

/* -- Text ------------------------------------------------------------------ */

static void
amount_text(const chain_asked *k, pottle_chain_node node, double value,
            char *buf, size_t size)
{
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    const bool mass = node == POTTLE_CHAIN_PICKED ||
                      node == POTTLE_CHAIN_PREPARED ||
                      node == POTTLE_CHAIN_COOKED_MASS;
    const bool volume = node == POTTLE_CHAIN_COOKED_VOLUME ||
                        (node == POTTLE_CHAIN_MEASURED &&
                         f->measured->dimension == POTTLE_VOLUME);
    char number[40];
    if (mass) {
        mass_text(value, buf, size);
    } else if (volume) {
        const bool litres = value >= 999.5;
        pottle_number_write(litres ? value / 1000.0 : value, litres ? 2 : 0,
                            number, sizeof number);
        snprintf(buf, size, "%s %s", number, litres ? "L" : "mL");
    } else {
        short_number(value, buf, size);
    }
}

static void
node_text(const chain_asked *k, pottle_chain_node node, char *buf, size_t size)
{
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    static const char *const plain[POTTLE_CHAIN_NODES] = { "",
                                                           "",
                                                           "ready to use",
                                                           "",
                                                           "batches",
                                                           "cooked, by weight",
                                                           "cooked, by volume",
                                                           "",
                                                           "canner loads" };
    snprintf(buf, size, "%s", plain[node]);
    if (node == POTTLE_CHAIN_CONTAINER)
        snprintf(buf, size, "by the %s", f->container->id);
    else if (node == POTTLE_CHAIN_PICKED)
        snprintf(buf, size, "as %s",
                 f->picked == POTTLE_PICKED ? "picked" : "bought");
    else if (node == POTTLE_CHAIN_MEASURED)
        snprintf(buf, size, "measured%s%s",
                 f->measured->dimension == POTTLE_COUNT ? " in pieces"
                 : f->form[0] != '\0' && strcmp(f->form, "liquid") != 0 ? ", "
                                                                        : "",
                 f->measured->dimension == POTTLE_COUNT ||
                         strcmp(f->form, "liquid") == 0
                     ? ""
                     : f->form);
    else if (node == POTTLE_CHAIN_JARS)
        snprintf(buf, size, "%s jars",
                 f->own != NULL ? f->own->id : f->jar->id);
}

/* What was typed, when it fits its column. */
static void
typed_text(const chain_asked *k, size_t i, char *buf, size_t size)
{
    enum { COLUMN = 13 };
    if (strlen(k->typed[i]) <= COLUMN)
        snprintf(buf, size, "%s", k->typed[i]);
    else
        amount_text(k, k->seen[i].node, k->seen[i].low, buf, size);
}

static void
print_table(const chain_asked *k)
{
    printf("\n%-22s %-13s %-11s %-20s %s\n", "", "measured", "expect",
           "nine in ten between", "x/\xC3\xB7");
    for (int i = 0; i < POTTLE_CHAIN_NODES; i++) {
        if (!is_told(k, k->state.told, i))
            continue;
        char name[60], low[40], middle[40], high[40], between[90], factor[40],
            typed[60] = "";
        const pottle_interval in = pottle_estimate_interval(k->state.node[i]);
        for (size_t o = 0; o < k->count; o++)
            if ((int)k->seen[o].node == i)
                typed_text(k, o, typed, sizeof typed);
        node_text(k, (pottle_chain_node)i, name, sizeof name);
        amount_text(k, (pottle_chain_node)i, in.low, low, sizeof low);
        amount_text(k, (pottle_chain_node)i, in.expected, middle,
                    sizeof middle);
        amount_text(k, (pottle_chain_node)i, in.high, high, sizeof high);
        snprintf(between, sizeof between, "%s to %s", low, high);
        pottle_number_write(k->state.factor[i], 2, factor, sizeof factor);
        printf("  %-20s %-13s %-11s %-20s %s\n", name, typed, middle, between,
               factor);
    }
}

/* What each measurement did to the number of jars, in the order of the chain.
 */
static void
print_narrowing(const chain_asked *k)
{
    if (!k->state.has_jars || k->count < 2)
        return;
    puts("\nHow it narrowed the jars");
    char before[60] = "not known";
    for (size_t i = 0; i < k->count; i++) {
        pottle_chain_state s;
        char name[60], after[60], typed[60], factor[40] = "?";
        if (pottle_chain_update(k->chain, k->seen, i + 1, &s, NULL) ==
            POTTLE_OK)
            pottle_number_write(s.factor[POTTLE_CHAIN_JARS], 2, factor,
                                sizeof factor);
        snprintf(after, sizeof after, "x/\xC3\xB7 %s", factor);
        node_text(k, k->seen[i].node, name, sizeof name);
        typed_text(k, i, typed, sizeof typed);
        printf("  %-20s %-13s from %s to %s\n", name, typed, before, after);
        snprintf(before, sizeof before, "%s", after);
    }
}

static void
print_next(const chain_asked *k)
{
    static const char *const how[POTTLE_CHAIN_NODES] = {
        "",
        "weigh it as it came",
        "weigh it when it is ready to use",
        "measure it out",
        "",
        "weigh the pot when it is done",
        "read the level in the pot when it is done",
        "",
        ""
    };
    size_t shown = 0;
    bool before_pot = false;
    for (size_t i = 0; i < k->gains; i++) {
        const bool in_pot = k->gain[i].node == POTTLE_CHAIN_COOKED_MASS ||
                            k->gain[i].node == POTTLE_CHAIN_COOKED_VOLUME;
        char factor[40];
        /* the best of all, and the best that can be done before the stove is
         * lit */
        if (shown > 0 && (in_pot || before_pot))
            continue;
        /* what does not narrow is not worth the trouble */
        if (k->state.has_jars &&
            k->gain[i].factor >
                1 + 0.99 * (k->state.factor[POTTLE_CHAIN_JARS] - 1))
            continue;
        before_pot = before_pot || !in_pot;
        pottle_number_write(k->gain[i].factor, 2, factor, sizeof factor);
        printf("%s%s: jars then known to x/\xC3\xB7 %s\n",
               shown == 0 ? "\nNext, " : "  before that, ",
               how[k->gain[i].node], factor);
        shown++;
    }
}

static void
print_wanted(const chain_asked *k)
{
    const pottle_chain_wanted *w = &k->wanted;
    static const char *const verb[POTTLE_CHAIN_NODES] = {
        "get", "", "have ready to use", "measure out", "make", "", "", "", ""
    };
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    char jars[40];
    short_number(w->jars, jars, sizeof jars);
    printf("\nTo fill %s %s jars with nine chances in ten, one of:\n", jars,
           f->own != NULL ? f->own->id : f->jar->id);
    for (int i = 0; i <= POTTLE_CHAIN_BATCHES; i++) {
        char amount[60], also[80] = "", expected[40], over[40], left[240];
        if (!is_told(k, w->told, i))
            continue;
        const bool mass =
            i == POTTLE_CHAIN_PICKED || i == POTTLE_CHAIN_PREPARED;
        const bool volume = i == POTTLE_CHAIN_MEASURED &&
                            f->measured->dimension == POTTLE_VOLUME;
        pottle_measure m;
        amount_text(k, (pottle_chain_node)i, w->needed[i], amount,
                    sizeof amount);
        if ((mass || volume) &&
            pottle_measure_round(w->needed[i],
                                 mass ? POTTLE_MASS : POTTLE_VOLUME,
                                 POTTLE_AT_LEAST, &m) == POTTLE_OK) {
            char measure[60];
            pottle_measure_write(&m, measure, sizeof measure);
            snprintf(also, sizeof also, " (%s)", measure);
        }
        if (i == POTTLE_CHAIN_CONTAINER) {
            m = (pottle_measure){ 1,
                                  { { w->needed[i], f->container, "" } },
                                  0 };
            pottle_measure_write(&m, amount, sizeof amount);
        }
        pottle_number_write(w->expected[i], 1, expected, sizeof expected);
        pottle_number_write(w->surplus[i], 1, over, sizeof over);
        snprintf(left, sizeof left, "  %s %s%s%s",
                 i == POTTLE_CHAIN_PICKED
                     ? (f->picked == POTTLE_PICKED ? "pick" : "buy")
                     : verb[i],
                 amount, also, i == POTTLE_CHAIN_BATCHES ? " batches" : "");
        printf("%-48s expect %s jars, %s over\n", left, expected, over);
    }
    if (w->has_chance && w->chance >= 0.01 && w->chance <= 0.99)
        printf("What was measured fills them with %.0f chances in a hundred.\n",
               100 * w->chance);
    else if (w->has_chance)
        printf("What was measured %s them.\n",
               w->chance > 0.5 ? "will fill" : "will not fill");
}

/* What one of the nodes makes of the other, the way round in which people say
 * it. */
static void
link_text(const chain_asked *k, const pottle_chain_link *l, char *buf,
          size_t size)
{
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    char amount[60];
    const double each = l->factor.median;
    if (l->to == POTTLE_CHAIN_BATCHES || l->to == POTTLE_CHAIN_LOADS ||
        (l->to == POTTLE_CHAIN_JARS && l->from != POTTLE_CHAIN_BATCHES)) {
        /* a batch is counted where the recipe measures, which need not be the
         * link before it */
        const bool batch = l->to == POTTLE_CHAIN_BATCHES;
        char name[60];
        amount_text(k, batch ? f->base : l->from,
                    batch ? f->base_amount : 1 / each, amount, sizeof amount);
        node_text(k, f->base, name, sizeof name);
        snprintf(buf, size, "a %s takes %s%s%s",
                 batch                         ? "batch"
                 : l->to == POTTLE_CHAIN_LOADS ? "canner load"
                                               : "jar",
                 amount,
                 l->to == POTTLE_CHAIN_LOADS  ? " jars"
                 : l->to == POTTLE_CHAIN_JARS ? " of the pot"
                                              : " ",
                 batch ? name : "");
    } else if (l->from == POTTLE_CHAIN_CONTAINER ||
               l->from == POTTLE_CHAIN_BATCHES) {
        amount_text(k, l->to, each, amount, sizeof amount);
        snprintf(buf, size, "a %s %s %s",
                 l->from == POTTLE_CHAIN_CONTAINER ? f->container->id : "batch",
                 l->from == POTTLE_CHAIN_CONTAINER ? "weighs"
                 : l->to == POTTLE_CHAIN_JARS      ? "fills"
                                                   : "makes",
                 amount);
    } else {
        char name[60];
        amount_text(k, l->to, 1000 * each, amount, sizeof amount);
        node_text(k, l->to, name, sizeof name);
        snprintf(buf, size, "1 kg makes %s %s", amount, name);
    }
}

static void
print_basis(const chain_asked *k)
{
    size_t n = 0;
    const pottle_chain_link *l = pottle_chain_links(k->chain, &n);
    puts("\nWhat it rests on");
    for (size_t i = 0; i < n; i++) {
        char link[200], text[900], factor[40];
        if (l[i].from == POTTLE_CHAIN_CONTAINER && !k->in_containers)
            continue;
        const pottle_interval in = pottle_estimate_interval(l[i].factor);
        pottle_number_write(in.high / in.expected, 2, factor, sizeof factor);
        link_text(k, &l[i], link, sizeof link);
        size_t at = (size_t)snprintf(text, sizeof text, "%s, x/\xC3\xB7 %s",
                                     link, factor);
        for (size_t c = 0; c < l[i].basis.cites && at + 150 < sizeof text;
             c++) {
            const pottle_cite *cite = &l[i].basis.cite[c];
            at +=
                (size_t)snprintf(text + at, sizeof text - at, "%s %.40s, %.90s",
                                 c == 0 ? ":" : ";", cite->source, cite->at);
            if (cite->standing != POTTLE_PUBLISHED)
                at +=
                    (size_t)snprintf(text + at, sizeof text - at, " (%s)",
                                     pottle_standing_name((int)cite->standing));
        }
        print_folded(stdout, "  ", text);
        for (size_t c = 0; c < l[i].basis.notes; c++)
            print_folded(stdout, "    ", l[i].basis.note[c]);
    }
}

static void
print_jars(const chain_asked *k)
{
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    if (k->count == 0)
        return;
    if (k->seen[k->count - 1].node >= POTTLE_CHAIN_JARS)
        return;
    puts("");
    if (!k->state.has_jars) {
        puts("How many jars this fills is not known: its source gives no "
             "usable yield.");
        return;
    }
    if (k->state.has_made && !(k->state.made > 0)) {
        printf("It is tested in batches from %g of the published one, and this "
               "is less: freeze\nwhat there is for later, or choose another "
               "recipe.\n",
               f->smallest);
        return;
    }
    const pottle_jar_count *j =
        k->state.has_made ? &k->state.made_jars : &k->state.jars;
    if (k->state.has_made) {
        char made[40], all[40];
        short_number(k->state.made, made, sizeof made);
        short_number(k->state.node[POTTLE_CHAIN_BATCHES].median, all,
                     sizeof all);
        printf("make %s of %s batches, in pots as tested; freeze or eat the "
               "rest\n",
               made, all);
    }
    wash_text("", j, jars_name(j));
    kitchen_shelf_text(&k->house, j);
}

void
chain_text(const chain_asked *k)
{
    const pottle_chain_facts *f = pottle_chain_facts_of(k->chain);
    char head[300];
    snprintf(head, sizeof head, "%s, by its %s", pottle_recipe_title(k->recipe),
             f->title);
    print_folded(stdout, "", head);
    kitchen_note(&k->house, false);
    if (k->want > 0)
        print_wanted(k);
    print_jars(k);
    if (k->count > 0)
        print_table(k);
    print_narrowing(k);
    print_next(k);
    print_basis(k);
    size_t n = 0;
    const pottle_warning *w =
        pottle_plan_warnings(pottle_chain_plan(k->chain), &n);
    for (size_t i = 0, told = 0; i < n; i++)
        if (strcmp(w[i].code, "altitude") != 0) {
            if (told++ == 0)
                puts("\nMind");
            print_folded(stdout, "  - ", w[i].text);
        }
    char text[500];
    recipe_source_text(k->catalogue, k->recipe, text, sizeof text);
    puts("");
    print_folded(stdout, "Source: ", text);
    for (size_t i = 0; cautions[i] != NULL; i++)
        print_folded(stdout, "", cautions[i]);
}
