/* memory_cases.h - the parts of test_memory, and what they share. */
#ifndef POTTLE_TESTS_MEMORY_CASES_H
#define POTTLE_TESTS_MEMORY_CASES_H

#include <check.h>

#include "internal.h"

/* A set-up that is broken is no failure of the library. */
void must(bool done, const char *what);

/* One for the library, one for libxml2. A tap counts only while it is open, so
 * that neither the test nor Check is counted. */
enum { PIECES = 16384 };
typedef struct tap {
    bool open;
    long asked;   /* allocations since it was opened */
    long fail_at; /* the one that fails, and none after it; -1: none */
    long held;    /* not freed yet, of those that were made while it was open */
    void *piece[PIECES];
} tap;
extern tap own, xml;

/* memory_digest.c: a digest of all that a result gives out: equal contents,
 * equal digests. */
typedef uint64_t digest;
void add_text(digest *d, const char *text);
void add_number(digest *d, double x);
void add_catalogue(digest *d, const pottle_catalogue *c);
void add_food(digest *d, const pottle_food *food);
void add_recipe(digest *d, const pottle_recipe *r);
void add_plan(digest *d, const pottle_plan *plan);

typedef struct outcome {
    pottle_status status;
    bool touched; /* it failed, and an output is not as it was */
    digest content;
    size_t told; /* files it said cannot be used */
} outcome;

/* A call that is made again and again, with ever more memory. */
struct call {
    const char *name;
    outcome (*run)(void);
    bool spares; /* can do without some of its memory */
    bool schema; /* uses libxml2's RELAX NG */
};
extern const struct call memory_calls[];
extern const size_t memory_call_count;

/* memory_made.c: what is made for the jars, and a person's kitchen. */
outcome make_brine(void);
outcome make_recipe_brine(void);
outcome make_syrup(void);
outcome make_syrup_for_jars(void);
outcome make_syrup_of_class(void);
outcome need_syrup(void);
outcome dose_acid(void);
outcome remake_jam(void);
outcome fill_shelf(void);
outcome suit_mishap(void);
outcome compare_yield(void);
outcome read_kitchen(void);
outcome write_kitchen(void);

/* What the set-up reads. */
extern char folder[1024]; /* the shipped catalogue */
extern const char few[];  /* two kinds of recipe, one of them broken */
extern const char kitchen_path[], kitchen_text[];
extern pottle_catalogue *all, *walked; /* walked: of few */
extern pottle_recipe *salsa, *tomatoes, *dills;
extern pottle_plan *fourteen;          /* quarts of tomatoes */
extern pottle_jar_number some_jars[2]; /* quarts and pints */
extern const pottle_mishap *weak;      /* vinegar */
extern pottle_phrase tomato, onion, lemon, apple;
extern pottle_kitchen kitchen;

/* Sentinel of an output; no call may read it. */
extern char mark;

TCase *memory_none(void);

#endif
