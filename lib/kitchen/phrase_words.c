/* phrase_words.c - the words of a phrase: cut, folded, and what each one says.
 *
 * Every word is the name of a food or stands in the lexicon; a run of words is
 * never cut short, so that none is dropped. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "kitchen/phrase.h"

/* What a word that is no food says. */
typedef enum sense { FORM, SIZE, STATE, READY, FILLER } sense;

/* Folded and singular; longer ones first where one begins another. */
static const struct {
    const char *words;
    sense sense;
    const char *value;
} lexicon[] = {
    { "coarsely chopped", FORM, "coarsely-chopped" },
    { "roughly chopped", FORM, "coarsely-chopped" },
    { "finely chopped", FORM, "finely-chopped" },
    { "finely diced", FORM, "diced" },
    { "lightly packed", FORM, "lightly-packed" },
    { "firmly packed", FORM, "packed" },
    { "loosely packed", FORM, "lightly-packed" },
    { "cut up", FORM, "pieces" },
    { "in piece", FORM, "pieces" },
    { "whole", FORM, "whole" },
    { "halved", FORM, "halved" },
    { "half", FORM, "halved" },
    { "halve", FORM, "halved" },
    { "quartered", FORM, "quartered" },
    { "piece", FORM, "pieces" },
    { "sliced", FORM, "sliced" },
    { "slice", FORM, "sliced" },
    { "ring", FORM, "rings" },
    { "strip", FORM, "strips" },
    { "julienned", FORM, "strips" },
    { "cubed", FORM, "cubed" },
    { "cube", FORM, "cubed" },
    { "diced", FORM, "diced" },
    { "chopped", FORM, "chopped" },
    { "minced", FORM, "minced" },
    { "shredded", FORM, "shredded" },
    { "grated", FORM, "grated" },
    { "ground", FORM, "ground" },
    { "crushed", FORM, "crushed" },
    { "crumbled", FORM, "crumbled" },
    { "mashed", FORM, "mashed" },
    { "pureed", FORM, "pureed" },
    { "pur\xC3\xA9"
      "ed",
      FORM, "pureed" },
    { "section", FORM, "sections" },
    { "kernel", FORM, "kernels" },
    { "shelled", FORM, "shelled" },
    { "floweret", FORM, "flowerets" },
    { "floret", FORM, "flowerets" },
    { "leave", FORM, "leaves" },
    { "packed", FORM, "packed" },
    { "cooked", FORM, "cooked" },
    { "frozen", FORM, "frozen" },
    { "drained", FORM, "drained" },
    { "sifted", FORM, "sifted" },
    { "flaked", FORM, "flaked" },
    { "liquid", FORM, "liquid" },
    { "extra large", SIZE, "extra-large" },
    { "small", SIZE, "small" },
    { "medium", SIZE, "medium" },
    { "large", SIZE, "large" },
    { "big", SIZE, "large" },
    { "clove", SIZE, "clove" },
    { "bulb", SIZE, "bulb" },
    { "head", SIZE, "head" },
    { "ear", SIZE, "ear" },
    { "stalk", SIZE, "stalk" },
    { "stick", SIZE, "stick" },
    { "bunch", SIZE, "bunch" },
    { "sprig", SIZE, "sprig" },
    { "leaf", SIZE, "leaf" },
    { "spear", SIZE, "spear" },
    { "pod", SIZE, "pod" },
    { "box", SIZE, "box" },
    { "pouch", SIZE, "pouch" },
    { "can", SIZE, "can" },
    { "drop", SIZE, "drop" },
    { "as picked", STATE, "picked" },
    { "just picked", STATE, "picked" },
    { "picked", STATE, "picked" },
    { "from the garden", STATE, "picked" },
    { "with leave", STATE, "picked" },
    { "as purchased", STATE, "purchased" },
    { "as bought", STATE, "purchased" },
    { "as sold", STATE, "purchased" },
    { "unpeeled", STATE, "purchased" },
    { "untrimmed", STATE, "purchased" },
    { "prepared", STATE, "prepared" },
    { "ready to use", STATE, "prepared" },
    { "trimmed", READY, "" },
    { "peeled", READY, "" },
    { "cored", READY, "" },
    { "pitted", READY, "" },
    { "stoned", READY, "" },
    { "seeded", READY, "" },
    { "hulled", READY, "" },
    { "stemmed", READY, "" },
    { "husked", READY, "" },
    { "cleaned", READY, "" },
    { "acidity", FILLER, "" },
    { "acid", FILLER, "" },
    { "of", FILLER, "" },
    { "the", FILLER, "" },
    { "a", FILLER, "" },
    { "an", FILLER, "" },
    { "and", FILLER, "" },
    { "fresh", FILLER, "" },
    { "ripe", FILLER, "" },
    { "raw", FILLER, "" },
    { "washed", FILLER, "" },
    { "firm", FILLER, "" },
    { "cold", FILLER, "" },
    { "level", FILLER, "" },
    { "about", FILLER, "" },
    { "some", FILLER, "" },
};

pottle_status
pottlei_words_split(pottlei_phrase_parse *p, const char *text, size_t n)
{
    char piece[POTTLE_PHRASE_MAX + 1];
    memcpy(piece, text, n);
    piece[n] = '\0';
    pottlei_fold(piece, p->folded, sizeof p->folded);
    p->words = 0;
    for (char *s = p->folded; *s != '\0';) {
        if (p->words == POTTLEI_WORDS_MAX)
            return pottlei_fail(p->error, POTTLE_ESYNTAX, "too-long",
                                "'%.60s...' has more than %d words", p->text,
                                (int)POTTLEI_WORDS_MAX);
        const size_t k = strcspn(s, " ");
        const bool last = s[k] == '\0';
        s[k] = '\0';
        const char *number = s;
        pottle_range range;
        if (pottlei_number_scan(&number, &range) == POTTLE_OK) {
            const char *next = last ? "" : s + k + 1;
            const bool glued = strcmp(number, "%") == 0;
            if (!glued &&
                !(*number == '\0' && (strncmp(next, "%", 1) == 0 ||
                                      strncmp(next, "percent", 7) == 0)))
                return pottlei_fail(
                    p->error, POTTLE_ESYNTAX, "second-number",
                    "'%.80s': a second number '%.20s'; write one amount",
                    p->text, s);
            if (!(range.low > 0) || range.high > range.low ||
                p->out.percent > 0)
                return pottlei_fail(p->error, POTTLE_ESYNTAX, "percent",
                                    "'%.80s': write one strength above 0 %%",
                                    p->text);
            p->out.percent = range.low;
            if (!glued)
                s += k + 1, s += strcspn(s, " "), s += *s == ' ';
            else
                s = last ? s + k : s + k + 1;
            continue;
        }
        pottlei_singular(s);
        p->word[p->words++] = s;
        if (last)
            break;
        s += k + 1;
    }
    return POTTLE_OK;
}

bool
pottlei_words_join(const pottlei_phrase_parse *p, size_t from, size_t to,
                   char *buf, size_t size)
{
    size_t n = 0;
    buf[0] = '\0';
    for (size_t i = from; i < to; i++) {
        if (n + strlen(p->word[i]) + 2 > size)
            return false;
        n += (size_t)snprintf(buf + n, size - n, "%s%s", i == from ? "" : " ",
                              p->word[i]);
    }
    return true;
}

size_t
pottlei_words_lexicon_at(const pottlei_phrase_parse *p, size_t i, size_t end,
                         size_t *entry)
{
    for (size_t length = end - i < 3 ? end - i : 3; length > 0; length--) {
        char text[96];
        if (!pottlei_words_join(p, i, i + length, text, sizeof text))
            continue;
        for (size_t k = 0; k < sizeof lexicon / sizeof lexicon[0]; k++) {
            if (strcmp(lexicon[k].words, text) == 0) {
                *entry = k;
                return length;
            }
        }
    }
    return 0;
}

bool
pottlei_words_known(const pottlei_phrase_parse *p, size_t from, size_t to)
{
    for (size_t i = from, k = 0; i < to;) {
        const size_t length = pottlei_words_lexicon_at(p, i, to, &k);
        if (length == 0)
            return false;
        i += length;
    }
    return true;
}

void
pottlei_words_take(pottlei_phrase_parse *p, size_t from, size_t to, bool later)
{
    for (size_t i = from, k = 0; i < to;) {
        const size_t length = pottlei_words_lexicon_at(p, i, to, &k);
        if (length == 0)
            return;
        i += length;
        switch (lexicon[k].sense) {
        case FORM:
            if (later)
                POTTLEI_SET(p->out.then, lexicon[k].value);
            else
                POTTLEI_SET(p->out.form, lexicon[k].value);
            break;
        case SIZE: POTTLEI_SET(p->out.size, lexicon[k].value); break;
        case STATE:
            p->out.state_said = true;
            p->out.state = lexicon[k].value[2] == 'c' ? POTTLE_PICKED
                         : lexicon[k].value[1] == 'u' ? POTTLE_PURCHASED
                                                      : POTTLE_PREPARED;
            break;
        case READY:
            if (!later) {
                p->out.state_said = true;
                p->out.state = POTTLE_PREPARED;
            }
            break;
        case FILLER: break;
        }
    }
}
