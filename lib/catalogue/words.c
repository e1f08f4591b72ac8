/* words.c - the words for the enums of a catalogue, as its files write them and
 * as they are printed. */
#include <config.h>

#include <string.h>

#include "model.h"

const char *const pottlei_standings[] = { "published", "derived", "practice",
                                          "memory", NULL };
const char *const pottlei_states[] = { "prepared", "purchased", "picked",
                                       NULL };
const char *const pottlei_keeps[] = { "free", "exact", "at-least", "at-most",
                                      NULL };
const char *const pottlei_methods[] = { "boiling-water", "dial-gauge",
                                        "weighted-gauge", NULL };
const char *const pottlei_actions[] = { "discard", "keep",      "wait",
                                        "remake",  "reprocess", "refrigerate",
                                        "freeze",  NULL };

/* The i-th word of a list. */
static const char *
word_at(const char *const *list, int i)
{
    if (i < 0)
        return "unknown";
    for (; *list != NULL; list++)
        if (i-- == 0)
            return *list;
    return "unknown";
}

const char *
pottle_standing_name(int standing)
{
    return word_at(pottlei_standings, standing - POTTLE_PUBLISHED);
}

const char *
pottle_state_name(int state)
{
    return word_at(pottlei_states, state);
}

const char *
pottle_keep_name(int keep)
{
    return word_at(pottlei_keeps, keep);
}

const char *
pottle_method_name(int method)
{
    return word_at(pottlei_methods, method);
}

const char *
pottle_rescue_action_name(int action)
{
    return word_at(pottlei_actions, action);
}

pottle_status
pottle_method_find(const char *name, pottle_method *out, pottle_error *error)
{
    if (name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no name or no place for the result");
    char folded[64], known[64];
    pottlei_fold(name, folded, sizeof folded);
    for (int i = POTTLE_BOILING_WATER; i <= POTTLE_WEIGHTED_GAUGE; i++) {
        pottlei_fold(pottle_method_name(i), known, sizeof known);
        if (strcmp(folded, known) == 0) {
            *out = (pottle_method)i;
            return POTTLE_OK;
        }
    }
    return pottlei_fail(error, POTTLE_ENOENT, "unknown-canner",
                        "'%.60s' is not a canner; there are boiling-water, "
                        "dial-gauge, weighted-gauge",
                        name);
}
