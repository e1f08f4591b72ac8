/* test_rescue.c - what is told of a jar that went wrong: read from rescue.xml,
 * found by the clock, never more than the sources allow. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "rescue_cases.h"
#include "suite.h"

const char *
source_folder(void)
{
    const char *folder = getenv("srcdir");
    return folder != NULL && folder[0] != '\0' ? folder : ".";
}

const pottle_mishap *
mishap_of(const char *id)
{
    const pottle_mishap *m = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_mishap_find(kitchen, id, &m, &error) == POTTLE_OK,
                  "%s: %s", id, error.what);
    return m;
}

/* -- The clock ------------------------------------------------------------- */

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
    { "liquid-lost", 1, WRONG, false, false, 0.3, "discard", ISU },
    { "liquid-lost", 20, UNTESTED, false, false, 0.2, "discard", KSU },
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

pottle_jar_facts
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
    pottle_jar_facts f =
        facts_of(clocks[_i].hours, clocks[_i].followed, clocks[_i].hot,
                 clocks[_i].dense, clocks[_i].lost);
    f.jar_acid = true;
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

/* Where the recipe puts no acid into each jar there is none to add: of what the
 * page of Iowa State University allows, the refrigerator and the freezer are
 * left, in the same 2 hours. */
START_TEST(acid_of_the_pot)
{
    static const struct {
        double hours;
        const char *wanted;
    } rows[] = { { 0.5, "refrigerate freeze" },
                 { 2, "refrigerate freeze" },
                 { 2.0000000000000004, "discard" },
                 { NO_HOURS, "discard" } };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const pottle_jar_facts f =
            facts_of(rows[i].hours, YES, true, false, NO_SHARE);
        const pottle_rescue_case *c = NULL;
        char found[200];
        ck_assert_int_eq(
            pottle_rescue_find(mishap_of("acid-forgotten"), &f, &c, NULL),
            POTTLE_OK);
        actions_of(c, found, sizeof found);
        ck_assert_msg(strcmp(found, rows[i].wanted) == 0, "%g hours: %s",
                      rows[i].hours, found);
    }
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

bool
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
        for (size_t known = 0; known < 8 * COUNT(shares); known++) {
            bool was[7] = { true, true, true, true, true, true, true };
            for (size_t h = 0; h < COUNT(hours); h++) {
                pottle_jar_facts f = facts_of(
                    hours[h], (pottle_followed)followed, (known & 1) != 0,
                    (known & 2) != 0, shares[known / 8]);
                f.jar_acid = (known & 4) != 0;
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

int
main(void)
{
    if (!scan("bad", &bad) || !scan("good", &good)) {
        fprintf(stderr, "no files in %s/tests/data/rescue\n", source_folder());
        return 99;
    }
    Suite *suite = suite_create("rescue");
    TCase *t = tcase_create("by the clock");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, by_the_clock, 0, (int)COUNT(clocks));
    tcase_add_test(t, acid_of_the_pot);
    tcase_add_loop_test(t, figures_of_an_option, 0, (int)COUNT(details));
    tcase_add_loop_test(t, what_is_not_known_is_never_let_pass, 0, 7);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, rescue_facts());
    suite_add_tcase(suite, rescue_files());
    suite_add_tcase(suite, rescue_remake());
    suite_add_tcase(suite, rescue_recipe());
    const int result = suite_run(suite);
    for (int i = 0; i < bad.count; i++)
        free(bad.path[i]);
    for (int i = 0; i < good.count; i++)
        free(good.path[i]);
    return result;
}
