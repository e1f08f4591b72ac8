/* fuzz_rescue.c - a file of mishaps that nobody chose: refused with a reason,
 * or never kinder to a jar of which less is known. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "targets.h"

static void
check_case(const pottle_rescue_case *c)
{
    fuzz_expect(c->options > 0, "a case without an answer");
    fuzz_text(c->chosen, "chosen");
    for (size_t i = 0; i < c->options; i++) {
        const pottle_rescue_option *o = &c->option[i];
        fuzz_text(o->text, "option");
        fuzz_cite(&o->cite, "option");
        fuzz_amount(o->headspace.mm, "headspace");
        fuzz_expect(o->days >= 0 && o->days <= o->days_to, "%g to %g days",
                    o->days, o->days_to);
        fuzz_expect(o->action == POTTLE_RESCUE_DISCARD ||
                        c->followed != POTTLE_FOLLOWED_UNKNOWN,
                    "'%s' for a jar whose process nobody knows",
                    pottle_rescue_action_name((int)o->action));
    }
    for (size_t i = 0; i < c->others; i++) {
        fuzz_text(c->other[i].text, "other");
        fuzz_cite(&c->other[i].cite, "other");
    }
}

static bool
holds(const pottle_rescue_case *c, const pottle_jar_facts *f)
{
    return (!c->has_hours ||
            (f->has_hours &&
             (f->hours < c->hours || (!c->under && !(f->hours > c->hours))))) &&
           (c->followed == POTTLE_FOLLOWED_UNKNOWN ||
            c->followed == f->followed) &&
           (!c->hot_pack || f->hot_pack) && (!c->dense || f->dense) &&
           (!c->jar_acid || f->jar_acid) &&
           (!(c->lost_under > 0) || (f->has_lost && f->lost < c->lost_under));
}

/* A jar of hours h or, below 0, of unknown age: the answer is the first case of
 * which all is known, and where nothing is known it is to discard it. */
static void
check_answer(const pottle_mishap *m, double h, double lost, size_t kind)
{
    pottle_jar_facts f = { .version = POTTLE_JAR_FACTS_VERSION,
                           .has_hours = h >= 0,
                           .hours = h,
                           .has_lost = lost >= 0,
                           .lost = lost,
                           .followed = (pottle_followed)(kind % 4),
                           .hot_pack = kind / 4 % 2 == 1,
                           .dense = kind / 8 % 2 == 1,
                           .jar_acid = kind / 16 == 1 };
    const pottle_rescue_case *got = NULL;
    if (!fuzz_expect(pottle_rescue_find(m, &f, &got, NULL) == POTTLE_OK &&
                         got != NULL,
                     "'%s' has no answer", m->id))
        return;
    size_t first = 0;
    while (first + 1 < m->cases && !holds(&m->list[first], &f))
        first++;
    fuzz_expect(got == &m->list[first],
                "'%s' after %g hours is answered by case %td, not %zu", m->id,
                h, got - m->list, first);
    if (!f.has_hours && f.followed == POTTLE_FOLLOWED_UNKNOWN)
        for (size_t k = 0; k < got->options; k++)
            fuzz_expect(got->option[k].action == POTTLE_RESCUE_DISCARD,
                        "'%s' keeps what nobody knows", m->id);
}

/* Jars of all kinds, at the hours and shares where the answers change. */
static void
check_answers(const pottle_mishap *m)
{
    enum { CASES = 16, KINDS = 32 };
    for (size_t i = 0; i < m->cases && i < CASES; i++) {
        const pottle_rescue_case *c = &m->list[i];
        const double hours[] = { -1, 0, c->hours, c->hours * 0.999,
                                 c->hours * 1.001 };
        const double share = c->lost_under > 0 ? c->lost_under : 0.25;
        const double lost[] = { -1, 0, share, share * 0.999, 1 };
        for (size_t h = 0; h < 5; h++)
            for (size_t l = 0; l < 5; l++)
                for (size_t kind = 0; kind < KINDS; kind++)
                    check_answer(m, hours[h], lost[l], kind);
    }
}

static void
check_remaking(const pottle_catalogue *catalogue)
{
    const pottle_remaking *r = pottle_remaking_of(catalogue);
    if (!fuzz_expect(r != NULL && r->ways > 0, "no way to remake"))
        return;
    fuzz_expect(r->usual_ml > 0 && r->usual_ml <= r->most_ml &&
                    isfinite(r->most_ml),
                "a lot of %g to %g mL", r->usual_ml, r->most_ml);
    fuzz_cite(&r->cite, "remaking");
    fuzz_text(r->chosen, "chosen");
    for (size_t i = 0; i < r->ways; i++) {
        const pottle_remake_way *w = &r->way[i];
        fuzz_text(w->pectin, "pectin");
        fuzz_text(w->text, "way");
        fuzz_cite(&w->cite, "way");
        fuzz_expect(w->per_ml > 0 && w->boil_min > 0 &&
                        w->boil_min <= w->boil_to_min && w->adds > 0,
                    "a way of %g to %g minutes", w->boil_min, w->boil_to_min);
        for (size_t k = 0; k < w->adds; k++) {
            fuzz_text(w->add[k].food, "food");
            fuzz_text(w->add[k].printed, "printed");
            fuzz_expect(w->add[k].amount > 0 && isfinite(w->add[k].amount) &&
                            w->add[k].unit->dimension == POTTLE_VOLUME,
                        "%g %s are added", w->add[k].amount,
                        w->add[k].unit->id);
        }
    }
    const pottle_process_table *t = &r->process;
    fuzz_cite(&t->cite, "process");
    fuzz_expect(t->method == POTTLE_BOILING_WATER && t->jars > 0 &&
                    t->bands > 0,
                "%zu jars and %zu bands", t->jars, t->bands);
    for (size_t i = 0; i < t->bands; i++)
        fuzz_expect(
            t->band[i].minutes > 0 && t->band[i].psi == 0 &&
                (i == 0 ? t->band[i].from_ft == 0
                        : t->band[i].from_ft == t->band[i - 1].to_ft + 1 &&
                              t->band[i].minutes >= t->band[i - 1].minutes),
            "the band from %d ft", t->band[i].from_ft);
}

void
fuzz_mishaps(const pottle_catalogue *catalogue)
{
    size_t n = 0;
    const pottle_mishap *m = pottle_mishaps(catalogue, &n), *found = NULL;
    fuzz_expect(n > 0, "no mishaps");
    for (size_t i = 0; i < n; i++) {
        fuzz_text(m[i].title, "title");
        fuzz_text(m[i].clock, "clock");
        fuzz_text(m[i].supposed, "supposed");
        fuzz_expect(pottle_mishap_find(catalogue, m[i].id, &found, NULL) ==
                            POTTLE_OK &&
                        found == &m[i],
                    "'%s' is not found", m[i].id);
        for (size_t k = 0; k < m[i].cases; k++)
            check_case(&m[i].list[k]);
        check_answers(&m[i]);
    }
    check_remaking(catalogue);
}

int
target_rescue(const uint8_t *data, size_t size)
{
    pottle_error error;
    pottle_catalogue *c = NULL;
    const pottle_status status =
        fuzz_open("rescue.xml", data, size, POTTLE_WITH_RESCUE, &c, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, fuzz_bad_file, "a file of mishaps");
        fuzz_expect(c == NULL, "a catalogue that is refused is written");
    } else {
        fuzz_mishaps(c);
    }
    pottle_catalogue_free(c);
    return fuzz_verdict();
}
