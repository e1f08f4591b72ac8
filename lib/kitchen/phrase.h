/* phrase.h - shared between phrase.c and phrase_words.c. */
#ifndef POTTLE_KITCHEN_PHRASE_H
#define POTTLE_KITCHEN_PHRASE_H

#include "kitchen/kitchen.h"

enum { POTTLEI_WORDS_MAX = 40, POTTLEI_FITS_MAX = 32 };

/* A phrase while it is read. */
typedef struct pottlei_phrase_parse {
    const pottle_catalogue *catalogue;
    const char *text;
    const char *const *preferred;
    size_t preferred_count;
    pottle_error *error;
    pottle_phrase out;
    char folded[POTTLE_PHRASE_MAX + 1]; /* words of one piece */
    const char *word[POTTLEI_WORDS_MAX];
    size_t words;
    /* the longest entry of the lexicon that begins at each word: length 0 for
     * none */
    struct {
        size_t length, entry;
    } at[POTTLEI_WORDS_MAX];
    bool amount_seen, food_seen;
    const char *second_form; /* one that is said beside another; else NULL */
    bool fresh; /* said anywhere, and not as part of the food's name */
    char name[POTTLE_PHRASE_MAX + 1];  /* of the food, folded */
    const char *fit[POTTLEI_FITS_MAX]; /* foods of that name */
    size_t fits;
} pottlei_phrase_parse;

/* Cuts a piece into folded singular words. A percentage ("4%", "4 %") is taken
 * out here. */
pottle_status pottlei_words_split(pottlei_phrase_parse *p, const char *text,
                                  size_t n);

/* Joins words [from, to) into buf; false when they do not fit, so that no word
 * is ever dropped. */
bool pottlei_words_join(const pottlei_phrase_parse *p, size_t from, size_t to,
                        char *buf, size_t size);

/* The words of the i-th entry of the lexicon, or NULL past the end. They are in
 * the order of their bytes, and no entry has more than so many words. */
const char *pottlei_words_entry(size_t i);
enum { POTTLEI_ENTRY_WORDS = 3 };

/* Length in words of the lexicon's entry that begins at word i; 0 for none. */
size_t pottlei_words_lexicon_at(const pottlei_phrase_parse *p, size_t i,
                                size_t end, size_t *entry);

/* Whether words [from, to) are all in the lexicon. */
bool pottlei_words_known(const pottlei_phrase_parse *p, size_t from, size_t to);

/* Takes the meaning of words [from, to): `later` when they stand behind the
 * amount's comma. */
void pottlei_words_take(pottlei_phrase_parse *p, size_t from, size_t to,
                        bool later);

#endif
