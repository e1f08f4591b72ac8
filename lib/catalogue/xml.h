/* xml.h - reading one XML file of the catalogue; only lib/catalogue includes
 * it.
 *
 * The file becomes a light tree in the object's arena, without libxml2's own:
 * its texts are the texts the object keeps, and nothing is copied twice. A
 * reader carries the first thing that was wrong; after it all getters give
 * harmless values, so the code that builds an object reads straight through and
 * asks once at the end. */
#ifndef POTTLE_CATALOGUE_XML_H
#define POTTLE_CATALOGUE_XML_H

#include <libxml/tree.h>

#include "model.h"

/* One element. */
typedef struct pottlei_node pottlei_node;
struct pottlei_node {
    const char *name;
    pottlei_node *parent, *first, *next;
    const struct pottlei_attribute {
        const char *name, *value;
    } * attribute;
    const char *text; /* blanks folded, "" for none */
    unsigned attributes, line;
    bool mixed; /* text beside elements */
};

typedef struct pottlei_reader {
    const char *path;
    pottlei_arena *arena; /* where the tree goes */
    const pottlei_node *root;
    xmlDoc *doc; /* of pottlei_xml_document only */
    pottle_status status;
    pottle_error *error;
} pottlei_reader;

/* A catalogue file is never larger than this. */
enum { POTTLEI_FILE_MAX = 1 << 18 };

/* Elements are never nested deeper than this. */
enum { POTTLEI_DEPTH_MAX = 16 };

/* Attributes of one element; the catalogue has at most 13. libxml2 compares
 * each with all before it, so that tens of thousands would take seconds. */
enum { POTTLEI_ATTRIBUTES_MAX = 64 };

/* What libxml2 would say on stderr goes nowhere between the two, and then where
 * it went before: where it has no memory it speaks, whatever handler it was
 * given. They may be nested. */
typedef struct pottlei_hush {
    void (*print)(void *context, const char *message, ...);
    void *context;
} pottlei_hush;
void pottlei_xml_hush(pottlei_hush *before);
void pottlei_xml_speak(const pottlei_hush *before);

/* The whole text of a file that may be given to the parser: size cap, valid
 * UTF-8, no DTD. The caller frees it. */
pottle_status pottlei_xml_file(const char *path, char **text, size_t *length,
                               pottle_error *error);

/* Reads and parses a file into reader->root: size cap, valid UTF-8, no DTD, no
 * network, no namespaces. The tree lives in the arena. */
pottle_status pottlei_xml_open(pottlei_reader *reader, const char *path,
                               pottlei_arena *arena, pottle_error *error);

/* The same file as a document of libxml2, for a schema. On success the caller
 * ends it by pottlei_xml_close. */
pottle_status pottlei_xml_document(pottlei_reader *reader, const char *path,
                                   pottle_error *error);
void pottlei_xml_close(pottlei_reader *reader);

/* Records a failure at a node unless there is one already. */
void pottlei_xml_fail(pottlei_reader *reader, const pottlei_node *node,
                      const char *code, const char *what, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 4, 5)))
#endif
    ;

/* Root element of that name, or NULL and a failure. */
const pottlei_node *pottlei_xml_root(pottlei_reader *reader, const char *name);
/* First child element, the next sibling element; NULL at the end and after a
 * failure, so that a loop over them ends there. Text between elements is a
 * failure. */
const pottlei_node *pottlei_xml_first(pottlei_reader *reader,
                                      const pottlei_node *parent);
const pottlei_node *pottlei_xml_next(pottlei_reader *reader,
                                     const pottlei_node *node);
/* The same where all children are of one name: another one is a failure. */
const pottlei_node *pottlei_xml_first_of(pottlei_reader *reader,
                                         const pottlei_node *parent,
                                         const char *name);
const pottlei_node *pottlei_xml_next_of(pottlei_reader *reader,
                                        const pottlei_node *node);
bool pottlei_xml_is(const pottlei_node *node, const char *name);
size_t pottlei_xml_count(pottlei_reader *reader, const pottlei_node *parent,
                         const char *name);
/* Fails when one of the elements in the blank-separated list stands there more
 * than once: the last would silently replace the first, or be added to room
 * that was made for one of them. */
void pottlei_xml_once(pottlei_reader *reader, const pottlei_node *parent,
                      const char *single);
/* The element is not known here. */
void pottlei_xml_unknown(pottlei_reader *reader, const pottlei_node *node);
/* Fails when the element has an attribute not in the blank-separated list. */
void pottlei_xml_only(pottlei_reader *reader, const pottlei_node *node,
                      const char *allowed);

/* Attributes. A missing one is a failure unless a fallback is given (which may
 * be ""). */
const char *pottlei_xml_attr(pottlei_reader *reader, const pottlei_node *node,
                             const char *name, const char *fallback);
/* The same, NULL when missing. */
const char *pottlei_xml_peek(const pottlei_node *node, const char *name);
/* A number; the fallback is used where it is missing and it is not negative,
 * else missing is a failure. */
double pottlei_xml_number(pottlei_reader *reader, const pottlei_node *node,
                          const char *name, double fallback);
/* The same for a whole number from 0 up to `most`. */
int pottlei_xml_whole(pottlei_reader *reader, const pottlei_node *node,
                      const char *name, double fallback, double most);
const pottle_unit *pottlei_xml_unit(pottlei_reader *reader,
                                    const pottlei_node *node, const char *name,
                                    int dimension);
/* Index of the attribute's text in a NULL-ended list; -1 and a failure when it
 * is not there. */
int pottlei_xml_choice(pottlei_reader *reader, const pottlei_node *node,
                       const char *name, const char *const *list, int fallback);
/* Yes or no. */
bool pottlei_xml_flag(pottlei_reader *reader, const pottlei_node *node,
                      const char *name, bool fallback);
/* An id: a failure when it does not have the pattern. */
const char *pottlei_xml_id(pottlei_reader *reader, const pottlei_node *node,
                           const char *name, const char *fallback);
/* A list of ids with a blank between two; at least one. */
const char *const *pottlei_xml_ids(pottlei_reader *reader,
                                   const pottlei_node *node, const char *name,
                                   size_t *count);
/* The element's text, blanks folded. */
const char *pottlei_xml_text(pottlei_reader *reader, const pottlei_node *node);
/* Source, place, standing and note of an element; what it lacks is taken from
 * the parent's. */
pottle_cite pottlei_xml_cite(pottlei_reader *reader, const pottlei_node *node,
                             const pottle_cite *parent);
/* Array in the arena; NULL and a failure when there is no memory. Count 0 gives
 * a valid pointer. */
void *pottlei_xml_array(pottlei_reader *reader, size_t count, size_t size);
/* The same with an entry for each child element of that name. */
void *pottlei_xml_room(pottlei_reader *reader, const pottlei_node *parent,
                       const char *name, size_t size);

#endif
