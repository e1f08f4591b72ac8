/* phrase.c - amounts of food as people type them.
 *
 * A phrase is cut at its commas. One piece begins with the amount. The longest
 * run of words that is the name of a food is the food; every other word must be
 * known: a form, a size, a state or a filler. An unknown word is an error and
 * never skipped, since it may be the one that matters. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "kitchen/phrase.h"

/* Of the foods a name fits, the one the context prefers; NULL when that is not
 * clear. */
static const char *
preferred_of(const pottlei_phrase_parse *p)
{
    const char *chosen = NULL;
    size_t liked = 0;
    if (p->fits == 1)
        return p->fit[0];
    for (size_t i = 0; i < p->fits; i++)
        for (size_t k = 0; k < p->preferred_count; k++)
            if (strcmp(p->fit[i], p->preferred[k]) == 0) {
                chosen = p->fit[i];
                liked++;
                break;
            }
    return liked == 1 ? chosen : NULL;
}

/* Looks for the foods of a name; what fitted before stays when there are none.
 */
static bool
find_named(pottlei_phrase_parse *p, const char *name)
{
    size_t count = 0;
    if (pottle_names_find(p->catalogue, name, p->fit, POTTLEI_FITS_MAX, &count,
                          NULL) != POTTLE_OK)
        return false;
    p->fits = count < POTTLEI_FITS_MAX ? count : POTTLEI_FITS_MAX;
    return true;
}

/* The food, when all is read: "lemon juice, fresh" is fresh lemon juice,
 * whatever the context prefers; what comes in bottles, cans or packets is not
 * fresh. */
static pottle_status
choose(pottlei_phrase_parse *p)
{
    static const char *const kept[] = { "bottled", "canned", "dried",
                                        "concentrate" };
    char name[POTTLE_PHRASE_MAX + 7];
    if (p->fresh)
        snprintf(name, sizeof name, "fresh %s", p->name);
    if (p->fresh && !find_named(p, name))
        for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++)
            if (strstr(p->name, kept[i]) != NULL)
                return pottlei_fail(p->error, POTTLE_ESYNTAX, "fresh-or-not",
                                    "'%.80s': is it fresh, or %s?", p->text,
                                    kept[i]);
    const char *chosen = preferred_of(p);
    if (chosen == NULL) {
        char list[240] = "";
        for (size_t i = 0; i < p->fits; i++)
            pottlei_list_add(list, sizeof list, p->fit[i]);
        return pottlei_fail(p->error, POTTLE_EAMBIGUOUS, "ambiguous-food",
                            "'%.60s' may mean %s: which one?", p->name, list);
    }
    POTTLEI_SET(p->out.food, chosen);
    return POTTLE_OK;
}

/* Finds the food among the words of one piece; the rest must be known words. */
static pottle_status
read_words(pottlei_phrase_parse *p, bool later)
{
    if (p->words == 0)
        return POTTLE_OK;
    if (!p->food_seen) {
        const size_t longest = pottle_name_words(p->catalogue);
        for (size_t length = longest < p->words ? longest : p->words;
             length > 0; length--) {
            for (size_t from = 0; from + length <= p->words; from++) {
                char name[POTTLE_PHRASE_MAX + 1];
                if (!pottlei_words_join(p, from, from + length, name,
                                        sizeof name) ||
                    !pottlei_words_known(p, 0, from) ||
                    !pottlei_words_known(p, from + length, p->words) ||
                    !find_named(p, name))
                    continue;
                POTTLEI_SET(p->name, name);
                p->food_seen = true;
                pottlei_words_take(p, 0, from, false);
                pottlei_words_take(p, from + length, p->words, false);
                return POTTLE_OK;
            }
        }
    }
    if (pottlei_words_known(p, 0, p->words)) {
        pottlei_words_take(p, 0, p->words, later);
        return POTTLE_OK;
    }
    /* name the words that are not known, for the nearest names */
    size_t from = 0, to = p->words, k = 0;
    for (size_t length;
         from < to && (length = pottlei_words_lexicon_at(p, from, to, &k)) > 0;)
        from += length;
    while (to > from + 1 && pottlei_words_known(p, to - 1, to))
        to--;
    char name[POTTLE_PHRASE_MAX + 1];
    size_t count = 0;
    if (!pottlei_words_join(p, from, to, name, sizeof name))
        pottlei_copy(name, sizeof name, p->word[from]);
    const pottle_status status =
        pottle_names_find(p->catalogue, name, NULL, 0, &count, p->error);
    return status == POTTLE_OK
             ? pottlei_fail(p->error, POTTLE_ESYNTAX, "two-foods",
                            "'%.80s' names more than one food", p->text)
             : status;
}

static bool
is_percent(const char *text)
{
    text += strspn(text, " ");
    return *text == '%' || strncmp(text, "percent", 7) == 0 ||
           strncmp(text, "per cent", 8) == 0;
}

/* Where an amount stands behind words ("rhubarb 8 cups"); NULL when there is
 * none. */
static const char *
amount_within(const char *from, const char *end)
{
    for (const char *s = from; s < end; s++) {
        const bool begins =
            s > from && s[-1] == ' ' &&
            ((*s >= '0' && *s <= '9') || (unsigned char)*s >= 0xC2u);
        const char *at = s;
        pottle_range range;
        if (begins && pottlei_number_scan(&at, &range) == POTTLE_OK &&
            !is_percent(at))
            return s;
    }
    return NULL;
}

/* The amount and its unit at the start of a piece; moves *s behind them. */
static pottle_status
read_amount(pottlei_phrase_parse *p, const char **s, const char *end)
{
    char piece[POTTLE_PHRASE_MAX + 1];
    memcpy(piece, *s, (size_t)(end - *s));
    piece[end - *s] = '\0';
    const char *at = piece;
    if (strncmp(at, "about ", 6) == 0 || strncmp(at, "About ", 6) == 0)
        at += 6;
    if (*at == '-' && at[1] >= '0' && at[1] <= '9')
        return pottlei_fail(p->error, POTTLE_EDOMAIN, "amount-range",
                            "'%.80s': an amount is not negative", p->text);
    pottle_range range;
    pottle_status status = pottlei_number_scan(&at, &range);
    if (status == POTTLE_ENOENT)
        return status;
    if (status == POTTLE_OK && !(range.low > 0))
        status = POTTLE_EDOMAIN;
    if (status == POTTLE_EDOMAIN)
        return pottlei_fail(
            p->error, status, "amount-range",
            "'%.80s': an amount lies above 0 and up to 1,000,000,000", p->text);
    if (status != POTTLE_OK)
        return pottlei_fail(p->error, POTTLE_ESYNTAX, "amount",
                            "'%.80s': the amount cannot be read", p->text);
    if (is_percent(at))
        return POTTLE_ENOENT; /* "4 % vinegar": a strength and no amount */
    if (p->amount_seen)
        return pottlei_fail(p->error, POTTLE_ESYNTAX, "second-number",
                            "'%.80s' has two amounts", p->text);
    p->amount_seen = true;
    p->out.low = range.low;
    p->out.high = range.high;
    /* a letter right behind the number ("3kg") or a word after a blank; "2
     * boxes pectin" counts pieces when the food says so */
    p->out.unit = pottlei_unit_scan(&at);
    if (p->out.unit == NULL)
        p->out.unit = pottle_unit_find("count");
    if (p->out.unit->dimension == POTTLE_COUNT && p->out.unit->factor > 1) {
        p->out.low *= p->out.unit->factor;
        p->out.high *= p->out.unit->factor;
        p->out.unit = pottle_unit_find("count");
    }
    if (p->out.unit->dimension != POTTLE_MASS &&
        p->out.unit->dimension != POTTLE_VOLUME &&
        p->out.unit->dimension != POTTLE_COUNT &&
        p->out.unit->dimension != POTTLE_CONTAINER)
        return pottlei_fail(p->error, POTTLE_EUNIT, "dimension",
                            "'%.80s': %s is %s, not an amount of food", p->text,
                            p->out.unit->id,
                            pottle_dimension_name((int)p->out.unit->dimension));
    *s += at - piece;
    return POTTLE_OK;
}

/* Spaces of a typesetter and ends of lines become blanks. */
static void
plain_blanks(const char *text, char *to)
{
    while (*text != '\0') {
        const size_t n = pottlei_typeset_space(text);
        *to++ = n > 0 || *text == '\n' || *text == '\r' || *text == '\t'
                  ? ' '
                  : *text;
        text += n > 0 ? n : 1;
    }
    *to = '\0';
}

/* What stands between two commas. */
static pottle_status
read_piece(pottlei_phrase_parse *p, const char *s, const char *end)
{
    char joined[POTTLE_PHRASE_MAX + 1];
    const bool before = p->amount_seen;
    pottle_status status = read_amount(p, &s, end);
    const char *later = status == POTTLE_ENOENT && !p->amount_seen
                          ? amount_within(s, end)
                          : NULL;
    if (later != NULL) {
        /* the words in front of the amount, then those behind it */
        const char *behind = later;
        status = read_amount(p, &behind, end);
        if (status == POTTLE_OK)
            snprintf(joined, sizeof joined, "%.*s %.*s", (int)(later - s), s,
                     (int)(end - behind), behind);
    }
    if (status == POTTLE_OK || status == POTTLE_ENOENT)
        status = later != NULL ? pottlei_words_split(p, joined, strlen(joined))
                               : pottlei_words_split(p, s, (size_t)(end - s));
    if (status == POTTLE_OK)
        status = read_words(p, before);
    return status;
}

pottle_status
pottle_phrase_read(const pottle_catalogue *catalogue, const char *text,
                   const char *const *preferred, size_t preferred_count,
                   pottle_phrase *out, pottle_error *error)
{
    if (catalogue == NULL || text == NULL || out == NULL ||
        (preferred == NULL && preferred_count > 0))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, text or place for the result");
    const size_t length = strnlen(text, POTTLE_PHRASE_MAX + 1);
    if (length > POTTLE_PHRASE_MAX)
        return pottlei_fail(error, POTTLE_ESYNTAX, "too-long",
                            "'%.40s...' is longer than %d bytes", text,
                            (int)POTTLE_PHRASE_MAX);
    if (!pottlei_utf8_valid(text, length))
        return pottlei_fail(error, POTTLE_ESYNTAX, "encoding",
                            "the phrase is not valid UTF-8 text");
    pottle_status status = pottlei_check_commas(text, error);
    if (status != POTTLE_OK)
        return status;
    pottlei_phrase_parse p = { .catalogue = catalogue,
                               .text = text,
                               .preferred = preferred,
                               .preferred_count = preferred_count,
                               .error = error };
    char plain[POTTLE_PHRASE_MAX + 1];
    plain_blanks(text, plain);
    for (const char *s = plain; status == POTTLE_OK;) {
        const char *end = s + strcspn(s, ",");
        s += strspn(s, " \t");
        if (s < end)
            status = read_piece(&p, s, end);
        if (*end == '\0')
            break;
        s = end + 1;
    }
    if (status != POTTLE_OK)
        return status;
    if (!p.amount_seen)
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "amount",
            "'%.80s' has no amount: write one such as '8 cups diced rhubarb'",
            text);
    if (!p.food_seen)
        return pottlei_fail(error, POTTLE_ESYNTAX, "food",
                            "'%.80s' names no food", text);
    if (p.second_form != NULL)
        return pottlei_fail(error, POTTLE_ESYNTAX, "two-forms",
                            "'%.80s': is it %s or %s when it is measured? What "
                            "is done to it after that stands behind a comma",
                            text,
                            p.out.form[0] != '\0' ? p.out.form : p.out.then,
                            p.second_form);
    status = choose(&p);
    if (status != POTTLE_OK)
        return status;
    if (!p.out.state_said)
        p.out.state =
            (p.out.form[0] != '\0' && strcmp(p.out.form, "whole") != 0) ||
                    p.out.unit->dimension == POTTLE_VOLUME
                ? POTTLE_PREPARED
                : POTTLE_PURCHASED;
    *out = p.out;
    return POTTLE_OK;
}
