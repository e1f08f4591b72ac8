/* test_rescue.c - what is told of a jar that went wrong: read from rescue.xml,
 * found by the clock, never more than the sources allow. */
#include <config.h>

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "rescue_cases.h"
#include "suite.h"

enum { PATH_ROOM = 700, FILES_MOST = 200, FOUND_MOST = 32 };

static const char *
source_folder(void)
{
    const char *folder = getenv("srcdir");
    return folder != NULL && folder[0] != '\0' ? folder : ".";
}

static const pottle_mishap *
mishap_of(const char *id)
{
    const pottle_mishap *m = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_mishap_find(kitchen, id, &m, &error) == POTTLE_OK,
                  "%s: %s", id, error.what);
    return m;
}

/* -- The clock ------------------------------------------------------------- */

#define NCSU                                                                   \
    "North Carolina State University, 2004: discard after 24 hours; "          \
    "interrupted: full time again"
#define KSU                                                                    \
    "Kansas State University, You asked it, and the national centre's "        \
    "questions page: within 24 hours, tested hot pack; untested: discard"
#define UNL                                                                    \
    "University of Nebraska-Lincoln, jars did not seal: 24 hours, 2 hours "    \
    "when the process was wrong, dense foods not again"
#define ISU                                                                    \
    "Iowa State University, canning mistakes, revised: 2 hours, then dispose"
#define UNL_LIQUID                                                             \
    "University of Nebraska-Lincoln quoting the national centre: under half "  \
    "keep, more: refrigerate 2 to 3 days"
#define NCHFP_JELLY                                                            \
    "National centre, jellied products: not moved for 12 hours, up to 2 "      \
    "weeks to set"
#define NCHFP_VINEGAR                                                          \
    "National centre, 2023: under 24 hours refrigerate, over 24 hours discard"

#define YES POTTLE_FOLLOWED
#define WRONG POTTLE_FOLLOWED_WRONG
#define UNTESTED POTTLE_FOLLOWED_UNTESTED
#define UNKNOWN POTTLE_FOLLOWED_UNKNOWN
#define NO_HOURS (-1)
#define NO_SHARE (-1)

/* "next" is the first double beyond 24 hours: 24 + 2^-48. */
static const double beyond_24 = 24.000000000000004,
                    beyond_2 = 2.0000000000000004;

static const struct {
    const char *mishap;
    double hours;
    pottle_followed followed;
    bool hot, dense;
    double lost;
    const char *wanted, *source;
} clocks[] = {
    { "jar-not-sealed", 0, YES, true, false, NO_SHARE,
      "reprocess refrigerate freeze", KSU },
    { "jar-not-sealed", 5, YES, true, false, NO_SHARE,
      "reprocess refrigerate freeze", KSU },
    { "jar-not-sealed", 24, YES, true, false, NO_SHARE,
      "reprocess refrigerate freeze", KSU },
    { "jar-not-sealed", beyond_24, YES, true, false, NO_SHARE, "discard",
      NCSU },
    { "jar-not-sealed", 1e9, YES, true, false, NO_SHARE, "discard", NCSU },
    { "jar-not-sealed", 1e300, YES, true, false, NO_SHARE, "discard", NCSU },
    { "jar-not-sealed", NO_HOURS, YES, true, false, NO_SHARE, "discard", NCSU },
    { "jar-not-sealed", 5, YES, false, false, NO_SHARE, "refrigerate freeze",
      KSU },
    { "jar-not-sealed", 24, YES, false, false, NO_SHARE, "refrigerate freeze",
      KSU },
    { "jar-not-sealed", 24, YES, true, true, NO_SHARE, "refrigerate freeze",
      UNL },
    { "jar-not-sealed", beyond_24, YES, true, true, NO_SHARE, "discard", NCSU },
    { "jar-not-sealed", 2, WRONG, true, false, NO_SHARE,
      "reprocess refrigerate freeze", UNL },
    { "jar-not-sealed", beyond_2, WRONG, true, false, NO_SHARE, "discard",
      UNL },
    { "jar-not-sealed", 1, UNTESTED, true, false, NO_SHARE, "discard", KSU },
    { "jar-not-sealed", 1, UNKNOWN, true, false, NO_SHARE, "discard",
      "nothing is known of the jar" },
    { "acid-forgotten", 0.5, YES, true, false, NO_SHARE,
      "reprocess refrigerate freeze", ISU },
    { "acid-forgotten", 2, YES, true, false, NO_SHARE,
      "reprocess refrigerate freeze", ISU },
    { "acid-forgotten", beyond_2, YES, true, false, NO_SHARE, "discard", ISU },
    { "acid-forgotten", 3, YES, true, false, NO_SHARE, "discard", ISU },
    { "acid-forgotten", NO_HOURS, YES, true, false, NO_SHARE, "discard", ISU },
    { "process-interrupted", 0, YES, false, false, NO_SHARE,
      "reprocess refrigerate freeze", NCSU },
    { "process-interrupted", 2, YES, false, false, NO_SHARE,
      "reprocess refrigerate freeze", ISU },
    { "process-interrupted", beyond_2, YES, false, false, NO_SHARE, "discard",
      ISU },
    { "process-interrupted", 144, YES, false, false, NO_SHARE, "discard",
      "Cooperative Extension, answer of August 2018: fish left for 6 days" },
    { "process-wrong", 2, WRONG, false, false, NO_SHARE,
      "reprocess refrigerate freeze", ISU },
    { "process-wrong", beyond_2, WRONG, false, false, NO_SHARE, "discard",
      ISU },
    { "process-wrong", 0, UNTESTED, false, false, NO_SHARE, "discard", KSU },
    { "liquid-lost", NO_HOURS, YES, false, false, 0, "keep", UNL_LIQUID },
    { "liquid-lost", 9999, YES, false, false, 0.3, "keep", UNL_LIQUID },
    { "liquid-lost", 24, YES, false, false, 0.5, "refrigerate", UNL_LIQUID },
    { "liquid-lost", 24, YES, false, false, 1, "refrigerate", UNL_LIQUID },
    { "liquid-lost", beyond_24, YES, false, false, 0.5, "discard",
      "half or more lost may be underprocessed, and 24 hours for mistakes "
      "(Iowa State, 2022)" },
    { "liquid-lost", NO_HOURS, YES, false, false, 0.6, "discard",
      "its age is not known" },
    { "liquid-lost", 1, YES, false, false, NO_SHARE, "refrigerate",
      "how much was lost is not known: as if half" },
    { "liquid-lost", 1, UNKNOWN, false, false, 0.1, "discard",
      "nothing is known of the process" },
    { "jam-not-set", 0, YES, false, false, NO_SHARE, "wait", NCHFP_JELLY },
    { "jam-not-set", 12, YES, false, false, NO_SHARE, "wait", NCHFP_JELLY },
    { "jam-not-set", 12.01, YES, false, false, NO_SHARE,
      "wait remake keep discard", NCHFP_JELLY },
    { "jam-not-set", 14 * 24, YES, false, false, NO_SHARE,
      "wait remake keep discard", NCHFP_JELLY },
    { "jam-not-set", 14 * 24 + 0.01, YES, false, false, NO_SHARE,
      "remake keep discard",
      "Oklahoma State University, remaking soft jelly; FN2103" },
    { "jam-not-set", NO_HOURS, YES, false, false, NO_SHARE,
      "remake keep discard",
      "Oklahoma State University: no clock for a sealed jar" },
    { "jam-not-set", 2, WRONG, false, false, NO_SHARE,
      "remake refrigerate freeze", ISU },
    { "jam-not-set", 3, WRONG, false, false, NO_SHARE, "discard", ISU },
    { "jam-not-set", 1, UNKNOWN, false, false, NO_SHARE, "discard",
      "nothing is known of the process" },
    { "vinegar-weak", 23.9, YES, false, false, NO_SHARE, "refrigerate",
      NCHFP_VINEGAR },
    { "vinegar-weak", 24, YES, false, false, NO_SHARE, "discard",
      NCHFP_VINEGAR " (24 itself: the more cautious)" },
    { "vinegar-weak", 30, YES, false, false, NO_SHARE, "discard",
      NCHFP_VINEGAR },
};

static void
actions_of(const pottle_rescue_case *c, char *buf, size_t size)
{
    size_t n = 0;
    buf[0] = '\0';
    for (size_t i = 0; i < c->options; i++)
        n += (size_t)snprintf(
            buf + n, size - n, "%s%s", i == 0 ? "" : " ",
            pottle_rescue_action_name((int)c->option[i].action));
}

static pottle_jar_facts
facts_of(double hours, pottle_followed followed, bool hot, bool dense,
         double lost)
{
    return (pottle_jar_facts){ .version = POTTLE_JAR_FACTS_VERSION,
                               .has_hours = !(hours < 0),
                               .hours = hours < 0 ? 0 : hours,
                               .followed = followed,
                               .hot_pack = hot,
                               .dense = dense,
                               .has_lost = !(lost < 0),
                               .lost = lost < 0 ? 0 : lost };
}

START_TEST(by_the_clock)
{
    const pottle_jar_facts f =
        facts_of(clocks[_i].hours, clocks[_i].followed, clocks[_i].hot,
                 clocks[_i].dense, clocks[_i].lost);
    const pottle_rescue_case *c = NULL;
    pottle_error error = { .line = -7 };
    char found[200];
    ck_assert_int_eq(
        pottle_rescue_find(mishap_of(clocks[_i].mishap), &f, &c, &error),
        POTTLE_OK);
    ck_assert_int_eq(error.line, -7);
    actions_of(c, found, sizeof found);
    ck_assert_msg(strcmp(found, clocks[_i].wanted) == 0,
                  "%s, %.17g hours: '%s', wanted '%s' (%s)", clocks[_i].mishap,
                  clocks[_i].hours, found, clocks[_i].wanted,
                  clocks[_i].source);
}
END_TEST

/* The figures beside the words: days, headspace, and whose they are. */
static const struct {
    const char *mishap;
    double hours;
    pottle_followed followed;
    const char *action;
    double days, days_to, headspace_in;
    const char *key, *source;
} details[] = {
    { "jar-not-sealed", 3, YES, "refrigerate", 2, 3, 0, "msu-ext",
      "Michigan State University HNI117, 2015: 2 to 3 days" },
    { "jar-not-sealed", 3, YES, "freeze", 0, 0, 1.5, "unl-ext",
      "University of Nebraska-Lincoln: headspace 1 1/2 in; Michigan State "
      "01600593 the same" },
    { "jar-not-sealed", 3, YES, "reprocess", 0, 0, 0, "unl-ext",
      "University of Nebraska-Lincoln: within 24 hours" },
    { "jar-not-sealed", 30, YES, "discard", 0, 0, 0, "ncsu-ext-faq",
      "North Carolina State University 2004: more than 24 hours, discard" },
    { "liquid-lost", 3, YES, "refrigerate", 2, 3, 0, "unl-ext",
      "University of Nebraska-Lincoln: 2 to 3 days" },
    { "jam-not-set", 400, YES, "keep", 14, 14, 0, "ndsu-ext",
      "FN2103, 2023: refrigerate and use within 14 days" },
    { "process-interrupted", 0, YES, "reprocess", 0, 0, 0, "ncsu-ext-faq",
      "North Carolina State University 2004: full length of time" },
    { "vinegar-weak", 3, YES, "refrigerate", 0, 0, 0, "nchfp",
      "National centre, 2023: names no last day" },
};

START_TEST(figures_of_an_option)
{
    const pottle_jar_facts f = facts_of(details[_i].hours, details[_i].followed,
                                        true, false, NO_SHARE);
    const pottle_rescue_case *c = NULL;
    ck_assert_int_eq(
        pottle_rescue_find(mishap_of(details[_i].mishap), &f, &c, NULL),
        POTTLE_OK);
    const pottle_rescue_option *o = NULL;
    for (size_t i = 0; i < c->options && o == NULL; i++)
        o = strcmp(pottle_rescue_action_name((int)c->option[i].action),
                   details[_i].action) == 0
              ? &c->option[i]
              : NULL;
    ck_assert_msg(o != NULL, "%s: no %s (%s)", details[_i].mishap,
                  details[_i].action, details[_i].source);
    ck_assert_msg(fabs(o->days - details[_i].days) < 1e-12 &&
                      fabs(o->days_to - details[_i].days_to) < 1e-12,
                  "%s: %g to %g days (%s)", details[_i].mishap, o->days,
                  o->days_to, details[_i].source);
    ck_assert_msg(fabs(o->headspace.mm - details[_i].headspace_in * INCH_MM) <
                      1e-9,
                  "%s: %g mm (%s)", details[_i].mishap, o->headspace.mm,
                  details[_i].source);
    ck_assert_msg(strcmp(o->cite.source, details[_i].key) == 0,
                  "%s: of %s (%s)", details[_i].mishap, o->cite.source,
                  details[_i].source);
}
END_TEST

static bool
offers(const pottle_rescue_case *c, pottle_rescue_action action)
{
    for (size_t i = 0; i < c->options; i++)
        if (c->option[i].action == action)
            return true;
    return false;
}

/* A jar of unknown history is discarded; one of unknown age is never processed
 * again, refrigerated or frozen; and what is forbidden at an hour stays so.
 * Every mishap, every combination of what is known, hours on and beside each
 * bound. */
START_TEST(what_is_not_known_is_never_let_pass)
{
    static const double hours[] = { NO_HOURS,
                                    0,
                                    1,
                                    2,
                                    2.0000000000000004,
                                    3,
                                    12,
                                    12.5,
                                    23.9,
                                    24,
                                    24.000000000000004,
                                    25,
                                    100,
                                    336,
                                    337,
                                    1e6,
                                    1e300 };
    static const double shares[] = { NO_SHARE, 0, 0.3, 0.4999999, 0.5, 0.8, 1 };
    size_t n = 0;
    const pottle_mishap *m = &pottle_mishaps(kitchen, &n)[_i];
    ck_assert_int_eq((int)n, 7);
    for (int followed = POTTLE_FOLLOWED_UNKNOWN;
         followed <= POTTLE_FOLLOWED_UNTESTED; followed++) {
        for (size_t known = 0; known < 4 * COUNT(shares); known++) {
            bool was[7] = { true, true, true, true, true, true, true };
            for (size_t h = 0; h < COUNT(hours); h++) {
                const pottle_jar_facts f = facts_of(
                    hours[h], (pottle_followed)followed, (known & 1) != 0,
                    (known & 2) != 0, shares[known / 4]);
                const pottle_rescue_case *c = NULL;
                ck_assert_int_eq(pottle_rescue_find(m, &f, &c, NULL),
                                 POTTLE_OK);
                ck_assert_uint_gt(c->options, 0);
                for (size_t i = 0; i < c->options; i++) {
                    const pottle_rescue_action a = c->option[i].action;
                    const bool ages = a == POTTLE_RESCUE_REPROCESS ||
                                      a == POTTLE_RESCUE_REFRIGERATE ||
                                      a == POTTLE_RESCUE_FREEZE;
                    ck_assert_msg(followed != POTTLE_FOLLOWED_UNKNOWN ||
                                      a == POTTLE_RESCUE_DISCARD,
                                  "%s: %s for a jar of unknown history", m->id,
                                  pottle_rescue_action_name((int)a));
                    ck_assert_msg(followed != POTTLE_FOLLOWED_UNTESTED ||
                                      a == POTTLE_RESCUE_DISCARD,
                                  "%s: %s for an untested recipe", m->id,
                                  pottle_rescue_action_name((int)a));
                    ck_assert_msg(hours[h] >= 0 || !ages,
                                  "%s: %s for a jar of unknown age", m->id,
                                  pottle_rescue_action_name((int)a));
                    ck_assert_msg(hours[h] < 0 || !ages || hours[h] <= 24,
                                  "%s: %s after %g hours", m->id,
                                  pottle_rescue_action_name((int)a), hours[h]);
                    ck_assert_msg(followed != POTTLE_FOLLOWED_WRONG || !ages ||
                                      hours[h] <= 2,
                                  "%s: %s %g hours after a wrong process",
                                  m->id, pottle_rescue_action_name((int)a),
                                  hours[h]);
                }
                for (int a = POTTLE_RESCUE_REPROCESS;
                     hours[h] >= 0 && a <= POTTLE_RESCUE_FREEZE; a++) {
                    const bool now = offers(c, (pottle_rescue_action)a);
                    /* a share of the liquid decides before the clock does, so
                     * both stay as they are while hours pass */
                    ck_assert_msg(!now || was[a],
                                  "%s: %s comes back after %g hours", m->id,
                                  pottle_rescue_action_name(a), hours[h]);
                    was[a] = now;
                }
            }
        }
    }
}
END_TEST

/* -- Refusals -------------------------------------------------------------- */

static const struct {
    double hours, lost;
    const char *code;
} outside[] = {
    { -1e-300, NO_SHARE, "hours" },  { -5, NO_SHARE, "hours" },
    { HUGE_VAL, NO_SHARE, "hours" }, { -HUGE_VAL, NO_SHARE, "hours" },
    { 1, 1.0000001, "share" },       { 1, 5, "share" },
    { 1, HUGE_VAL, "share" },
};

static void
expect_outside(double hours, double lost, const char *code)
{
    const pottle_mishap *m = mishap_of("liquid-lost");
    pottle_jar_facts f = facts_of(1, YES, true, false, 0.2);
    const pottle_rescue_case *before = m->list, *c = before;
    pottle_error error = { .status = POTTLE_OK };
    f.hours = hours;
    f.lost = lost;
    f.has_lost = !(lost >= NO_SHARE && lost <= NO_SHARE);
    ck_assert_int_eq(pottle_rescue_find(m, &f, &c, &error), POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, code);
    ck_assert_ptr_eq(c, before);
    ck_assert_int_eq(pottle_rescue_find(m, &f, &c, NULL), POTTLE_EDOMAIN);
}

START_TEST(numbers_out_of_range)
{
    expect_outside(outside[_i].hours, outside[_i].lost, outside[_i].code);
}
END_TEST

START_TEST(not_a_number)
{
    expect_outside(NOT_A_NUMBER, NO_SHARE, "hours");
    expect_outside(1, NOT_A_NUMBER, "share");
    expect_outside(1, -0.1, "share");
    /* what was not given is not looked at */
    pottle_jar_facts f = facts_of(NO_HOURS, YES, true, false, NO_SHARE);
    const pottle_rescue_case *c = NULL;
    f.hours = f.lost = NOT_A_NUMBER;
    ck_assert_int_eq(pottle_rescue_find(mishap_of("liquid-lost"), &f, &c, NULL),
                     POTTLE_OK);
    ck_assert(offers(c, POTTLE_RESCUE_DISCARD));
}
END_TEST

START_TEST(misuse)
{
    const pottle_mishap *m = mishap_of("liquid-lost"), *kept = m;
    pottle_jar_facts f = facts_of(1, YES, true, false, 0.2);
    const pottle_rescue_case *c = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_rescue_find(NULL, &f, &c, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_rescue_find(m, NULL, &c, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_rescue_find(m, &f, NULL, &error), POTTLE_EMISUSE);
    f.version = 2;
    ck_assert_int_eq(pottle_rescue_find(m, &f, &c, &error), POTTLE_EMISUSE);
    ck_assert_ptr_null(c);
    ck_assert_int_eq(pottle_mishap_find(NULL, "liquid-lost", &kept, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_find(kitchen, NULL, &kept, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_find(kitchen, "liquid-lost", NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_mishap_find(kitchen, "jar-exploded", &kept, &error),
                     POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-mishap");
    ck_assert_int_eq(
        pottle_mishap_find(kitchen, "jar-not-seeled", &kept, &error),
        POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "jar-not-sealed") != NULL, "%s",
                  error.what);
    ck_assert_ptr_eq(kept, m);
    ck_assert_int_eq(pottle_mishap_find(kitchen, "", &kept, NULL),
                     POTTLE_ENOENT);
}
END_TEST

START_TEST(names)
{
    static const char *const actions[] = { "discard",   "keep",
                                           "wait",      "remake",
                                           "reprocess", "refrigerate",
                                           "freeze" };
    for (size_t i = 0; i < COUNT(actions); i++)
        ck_assert_str_eq(pottle_rescue_action_name((int)i), actions[i]);
    ck_assert_str_eq(pottle_rescue_action_name(7), "unknown");
    ck_assert_str_eq(pottle_rescue_action_name(-1), "unknown");
    ck_assert_ptr_eq(mishap_of("Jar not sealed"), mishap_of("jar-not-sealed"));
}
END_TEST

/* -- The shipped file ------------------------------------------------------ */

/* Nothing is called safe: not in the words, and no brand of certainty either.
 */
static void
check_words(const char *id, const char *text)
{
    ck_assert_msg(text[0] != '\0', "%s: no words", id);
    for (const char *s = text; (s = strstr(s, "safe")) != NULL; s += 4)
        ck_assert_msg(s != text && s[-1] != ' ' && s[-1] != '(',
                      "%s calls something safe: %s", id, text);
}

static void
check_cite(const char *id, const pottle_cite *c)
{
    ck_assert_msg(pottle_source_find(kitchen, c->source) != NULL,
                  "%s: no source '%s'", id, c->source);
    ck_assert_msg(c->at[0] != '\0', "%s: no place", id);
    ck_assert_msg(c->standing == POTTLE_PUBLISHED ||
                      (c->standing == POTTLE_DERIVED && c->note[0] != '\0'),
                  "%s: %s without a word why", id,
                  pottle_standing_name((int)c->standing));
}

START_TEST(shipped_words_and_sources)
{
    size_t n = 0;
    const pottle_mishap *m = pottle_mishaps(kitchen, &n);
    for (size_t i = 0; i < n; i++) {
        ck_assert(i == 0 || strcmp(m[i - 1].id, m[i].id) < 0);
        check_words(m[i].id, m[i].title);
        check_words(m[i].id, m[i].clock);
        check_words(m[i].id, m[i].supposed);
        for (size_t k = 0; k < m[i].cases; k++) {
            const pottle_rescue_case *c = &m[i].list[k];
            for (size_t o = 0; o < c->options; o++) {
                check_words(m[i].id, c->option[o].text);
                check_cite(m[i].id, &c->option[o].cite);
            }
            for (size_t o = 0; o < c->others; o++) {
                check_words(m[i].id, c->other[o].text);
                check_cite(m[i].id, &c->other[o].cite);
            }
            ck_assert((c->others > 0) == (c->chosen[0] != '\0'));
        }
    }
    const pottle_remaking *r = pottle_remaking_of(kitchen);
    ck_assert_ptr_nonnull(r);
    check_cite("remaking", &r->cite);
    ck_assert_uint_eq(r->ways, 3);
    for (size_t i = 0; i < r->ways; i++) {
        check_words(r->way[i].pectin, r->way[i].text);
        check_cite(r->way[i].pectin, &r->way[i].cite);
    }
    for (size_t i = 0; i < r->others; i++)
        check_cite("remaking", &r->other[i].cite);
}
END_TEST

START_TEST(only_when_it_is_read)
{
    pottle_catalogue *none = kitchen_catalogue(POTTLE_WITH_ALL &
                                               ~(unsigned)POTTLE_WITH_RESCUE),
                     *only = kitchen_catalogue(POTTLE_WITH_RESCUE);
    size_t n = 9;
    pottle_mishaps(none, &n);
    ck_assert_uint_eq(n, 0);
    ck_assert_ptr_null(pottle_remaking_of(none));
    const pottle_mishap *m = NULL;
    ck_assert_int_eq(pottle_mishap_find(none, "jar-not-sealed", &m, NULL),
                     POTTLE_ENOENT);
    pottle_mishaps(only, &n);
    ck_assert_uint_eq(n, 7);
    ck_assert_ptr_nonnull(pottle_remaking_of(only));
    pottle_remake remake;
    ck_assert_int_eq(
        pottle_remake_lot(none, "none", (pottle_volume){ 500 }, &remake, NULL),
        POTTLE_ENOENT);
    pottle_process p;
    ck_assert_int_eq(
        pottle_remaking_process(none, kitchen_jar("pint"), 0, &p, NULL),
        POTTLE_ENOENT);
    pottle_catalogue_free(only);
    pottle_catalogue_free(none);
}
END_TEST

/* -- What a recipe tells --------------------------------------------------- */

#define READ "read in the recipe's own file: its packs"

static const struct {
    const char *recipe, *jar;
    bool hot, dense;
    const char *source;
} recipes[] = {
    { "tomatoes-crushed", NULL, true, false, READ },
    { "tomatoes-crushed", "quart", true, false, READ },
    { "tomatoes-crushed", "half-gallon", false, false,
      "largest tested jar: quart" },
    { "beans-snap", "pint", true, false, READ " (raw and hot)" },
    { "pickled-asparagus", NULL, false, false, READ " (raw only)" },
    { "apple-pie-filling", NULL, true, true, UNL },
    { "pumpkin-winter-squash", "pint", true, true, UNL },
};

START_TEST(facts_of_a_recipe)
{
    pottle_recipe *recipe = kitchen_recipe(recipes[_i].recipe);
    pottle_jar_facts f = facts_of(3, YES, false, false, NO_SHARE);
    pottle_jar_facts_add(
        kitchen, recipe,
        recipes[_i].jar != NULL ? kitchen_jar(recipes[_i].jar) : NULL, &f);
    ck_assert_msg(f.hot_pack == recipes[_i].hot, "%s: hot pack %d (%s)",
                  recipes[_i].recipe, (int)f.hot_pack, recipes[_i].source);
    ck_assert_msg(f.dense == recipes[_i].dense, "%s: dense %d (%s)",
                  recipes[_i].recipe, (int)f.dense, recipes[_i].source);
    ck_assert_int_eq(f.followed, POTTLE_FOLLOWED);
    ck_assert(f.has_hours && f.hours > 2.9 && f.hours < 3.1);
    pottle_recipe_free(recipe);
}
END_TEST

/* A recipe of one's own was never tested, whatever it says of packs. */
START_TEST(facts_of_an_own_recipe)
{
    char path[PATH_ROOM];
    pottle_recipe *recipe = NULL;
    snprintf(path, sizeof path, "%s/tests/data/good/own-pickle.xml",
             source_folder());
    ck_assert_int_eq(pottle_recipe_read_file(kitchen, path, &recipe, NULL),
                     POTTLE_OK);
    pottle_jar_facts f = facts_of(3, YES, false, false, NO_SHARE);
    pottle_jar_facts_add(kitchen, recipe, NULL, &f);
    ck_assert_int_eq(f.followed, POTTLE_FOLLOWED_UNTESTED);
    ck_assert(!f.hot_pack);
    const pottle_rescue_case *c = NULL;
    ck_assert_int_eq(
        pottle_rescue_find(mishap_of("jar-not-sealed"), &f, &c, NULL),
        POTTLE_OK);
    ck_assert(c->options == 1 && offers(c, POTTLE_RESCUE_DISCARD));
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Stored files ---------------------------------------------------------- */

typedef struct files {
    char *path[FILES_MOST];
    int count;
} files;
static files bad, good;

static int
by_text(const void *a, const void *b)
{
    const char *const *x = a, *const *y = b;
    return strcmp(*x, *y);
}

static bool
scan(const char *kind, files *all)
{
    char folder[PATH_ROOM];
    snprintf(folder, sizeof folder, "%s/tests/data/rescue/%s", source_folder(),
             kind);
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return false;
    for (struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        char path[2 * PATH_ROOM];
        const size_t n = strlen(e->d_name);
        if (n < 5 || strcmp(e->d_name + n - 4, ".xml") != 0 ||
            all->count == FILES_MOST)
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, e->d_name);
        all->path[all->count] = strdup(path);
        all->count += all->path[all->count] != NULL;
    }
    closedir(dir);
    if (all->count > 0)
        qsort(all->path, (size_t)all->count, sizeof all->path[0], by_text);
    return all->count > 0;
}

/* The code in the second line, "code: CODE - reason"; whether only the check
 * can find it. */
static bool
code_of(const char *path, char *code, size_t size)
{
    char line[300] = "";
    FILE *f = fopen(path, "r");
    ck_assert_msg(f != NULL && fgets(line, sizeof line, f) != NULL &&
                      fgets(line, sizeof line, f) != NULL,
                  "%s cannot be read", path);
    fclose(f);
    ck_assert_msg(strncmp(line, "<!-- code: ", 11) == 0 &&
                      strstr(line, " - ") != NULL,
                  "%s: the second line says no code", path);
    snprintf(code, size, "%.*s", (int)strcspn(line + 11, " ,"), line + 11);
    return strstr(line, ", by the check alone - ") != NULL;
}

typedef struct found {
    pottle_error list[FOUND_MOST];
    bool warning[FOUND_MOST];
    size_t count;
} found;

static void
tell(void *context, bool warning, const pottle_error *finding)
{
    found *f = context;
    ck_assert_uint_lt(f->count, FOUND_MOST);
    f->warning[f->count] = warning;
    f->list[f->count++] = *finding;
}

static size_t
check_file(const char *path, found *f)
{
    size_t errors = 0;
    pottle_error error = { .status = POTTLE_OK };
    f->count = 0;
    const pottle_status status =
        pottle_file_check(kitchen, path, tell, f, &errors, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s", path, error.what);
    return errors;
}

START_TEST(bad_file_is_refused)
{
    char code[60];
    found f;
    code_of(bad.path[_i], code, sizeof code);
    ck_assert_msg(check_file(bad.path[_i], &f) > 0, "%s was accepted",
                  bad.path[_i]);
    bool seen = false;
    for (size_t i = 0; i < f.count; i++) {
        ck_assert_msg(strcmp(f.list[i].code, code) == 0 ||
                          strcmp(f.list[i].code, "schema") == 0,
                      "%s: also '%s': %s", bad.path[_i], f.list[i].code,
                      f.list[i].what);
        ck_assert_msg(f.list[i].line > 0, "%s: '%s' without a line",
                      bad.path[_i], f.list[i].code);
        seen = seen || strcmp(f.list[i].code, code) == 0;
    }
    ck_assert_msg(seen, "%s: no error is called '%s'", bad.path[_i], code);
}
END_TEST

/* What decides about a jar must not hang on a schema that no command reads. */
START_TEST(bad_file_is_refused_by_the_reader)
{
    char code[60];
    pottle_catalogue scratch;
    pottle_error error = { .status = POTTLE_OK };
    const bool by_check = code_of(bad.path[_i], code, sizeof code);
    memset(&scratch, 0, sizeof scratch);
    const pottle_status status =
        pottlei_rescue_read(&scratch, bad.path[_i], &error);
    ck_assert(status == POTTLE_OK ||
              (scratch.mishap == NULL && scratch.remaking == NULL &&
               scratch.mishap_count == 0));
    pottlei_arena_free(&scratch.arena);
    if (by_check) {
        ck_assert_msg(status == POTTLE_OK, "%s: refused by the reader too: %s",
                      bad.path[_i], error.what);
        return;
    }
    ck_assert_msg(status == POTTLE_EDATA, "%s was accepted by the reader",
                  bad.path[_i]);
    ck_assert_msg(strcmp(error.code, code) == 0, "%s: '%s', wanted '%s': %s",
                  bad.path[_i], error.code, code, error.what);
    ck_assert_int_gt(error.line, 0);
}
END_TEST

START_TEST(good_file_is_accepted)
{
    found f;
    const size_t errors = check_file(good.path[_i], &f);
    ck_assert_msg(errors == 0 && f.count == 0, "%s: %s", good.path[_i],
                  f.count > 0 ? f.list[0].what : "refused");
}
END_TEST

START_TEST(shipped_file_is_in_order)
{
    char path[PATH_ROOM];
    found f;
    snprintf(path, sizeof path, "%s/recipes/rescue.xml", source_folder());
    ck_assert_msg(check_file(path, &f) == 0 && f.count == 0, "%s: %s", path,
                  f.count > 0 ? f.list[0].what : "refused");
}
END_TEST

/* Everything that the fullest good file says is found again. */
START_TEST(all_parts_are_read)
{
    char path[PATH_ROOM];
    pottle_catalogue c;
    pottle_error error = { .status = POTTLE_OK };
    memset(&c, 0, sizeof c);
    snprintf(path, sizeof path, "%s/tests/data/rescue/good/all-parts.xml",
             source_folder());
    ck_assert_msg(pottlei_rescue_read(&c, path, &error) == POTTLE_OK, "%s",
                  error.what);
    ck_assert_uint_eq(c.mishap_count, 2);
    ck_assert_uint_eq(c.dense_count, 2);
    const pottle_rescue_case *full = &c.mishap[0].list[0];
    ck_assert(full->has_hours && full->under && full->hot_pack && full->dense &&
              full->followed == POTTLE_FOLLOWED);
    ck_assert(fabs(full->hours - 24) < 1e-12 &&
              fabs(full->lost_under - 0.5) < 1e-12);
    ck_assert(full->options == 6 && full->others == 2 &&
              full->chosen[0] != '\0');
    ck_assert(fabs(full->option[1].days - 2) < 1e-12 &&
              fabs(full->option[1].days_to - 3) < 1e-12 &&
              fabs(full->option[2].headspace.mm - 38.1) < 1e-9);
    ck_assert(!c.mishap[0].list[1].under &&
              fabs(c.mishap[0].list[1].hours - 2.5) < 1e-12 &&
              c.mishap[0].list[1].followed == POTTLE_FOLLOWED_WRONG);
    ck_assert_int_eq(c.mishap[1].supposes, POTTLE_FOLLOWED_WRONG);
    ck_assert(c.remaking->ways == 3 && c.remaking->others == 1 &&
              c.remaking->process.sterile && c.remaking->process.jars == 2 &&
              c.remaking->process.bands == 2);
    /* under half lost and under 24 hours, hot pack and dense: the first; at
     * exactly 24 hours or one half: not */
    pottle_jar_facts f = facts_of(23.5, YES, true, true, 0.4);
    const pottle_rescue_case *found_case = NULL;
    ck_assert_int_eq(pottle_rescue_find(&c.mishap[0], &f, &found_case, NULL),
                     POTTLE_OK);
    ck_assert_ptr_eq(found_case, full);
    f.hours = 24;
    ck_assert_int_eq(pottle_rescue_find(&c.mishap[0], &f, &found_case, NULL),
                     POTTLE_OK);
    ck_assert_ptr_ne(found_case, full);
    f.hours = 1;
    f.lost = 0.5;
    ck_assert_int_eq(pottle_rescue_find(&c.mishap[0], &f, &found_case, NULL),
                     POTTLE_OK);
    ck_assert_ptr_ne(found_case, full);
    pottlei_arena_free(&c.arena);
}
END_TEST

/* -- Suite ----------------------------------------------------------------- */

int
main(void)
{
    if (!scan("bad", &bad) || !scan("good", &good)) {
        fprintf(stderr, "no files in %s/tests/data/rescue\n", source_folder());
        return 99;
    }
    Suite *suite = suite_create("rescue");
    TCase *clock = tcase_create("by the clock"),
          *refused = tcase_create("refused"), *stored = tcase_create("files");
    TCase *const all[] = { clock, refused, stored };
    for (size_t i = 0; i < COUNT(all); i++) {
        tcase_add_checked_fixture(all[i], kitchen_open, kitchen_close);
        suite_add_tcase(suite, all[i]);
    }
    tcase_add_loop_test(clock, by_the_clock, 0, (int)COUNT(clocks));
    tcase_add_loop_test(clock, figures_of_an_option, 0, (int)COUNT(details));
    tcase_add_loop_test(clock, what_is_not_known_is_never_let_pass, 0, 7);
    tcase_add_loop_test(clock, facts_of_a_recipe, 0, (int)COUNT(recipes));
    tcase_add_test(clock, facts_of_an_own_recipe);
    tcase_add_loop_test(refused, numbers_out_of_range, 0, (int)COUNT(outside));
    tcase_add_test(refused, not_a_number);
    tcase_add_test(refused, misuse);
    tcase_add_test(refused, names);
    tcase_add_test(stored, shipped_words_and_sources);
    tcase_add_test(stored, shipped_file_is_in_order);
    tcase_add_test(stored, only_when_it_is_read);
    tcase_add_test(stored, all_parts_are_read);
    tcase_add_loop_test(stored, bad_file_is_refused, 0, bad.count);
    tcase_add_loop_test(stored, bad_file_is_refused_by_the_reader, 0,
                        bad.count);
    tcase_add_loop_test(stored, good_file_is_accepted, 0, good.count);
    suite_add_tcase(suite, rescue_remake());
    const int result = suite_run(suite);
    for (int i = 0; i < bad.count; i++)
        free(bad.path[i]);
    for (int i = 0; i < good.count; i++)
        free(good.path[i]);
    return result;
}
