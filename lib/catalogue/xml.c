/* xml.c - one XML file of the catalogue as a light tree, or as a document for
 * the schema. */
#include <config.h>

#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <stdlib.h>
#include <string.h>

#include "xml.h"

static int
parse_options(void)
{
    int options = XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING |
                  XML_PARSE_NOBLANKS | XML_PARSE_COMPACT | XML_PARSE_BIG_LINES;
#if LIBXML_VERSION >= 21300
    options |= XML_PARSE_NO_XXE;
#endif
    return options;
}

static void
ignore(void *context, const char *message, ...)
{
    (void)context;
    (void)message;
}

void
pottlei_xml_hush(pottlei_hush *before)
{
    before->print = xmlGenericError;
    before->context = xmlGenericErrorContext;
    xmlSetGenericErrorFunc(NULL, ignore);
}

void
pottlei_xml_speak(const pottlei_hush *before)
{
    xmlSetGenericErrorFunc(before->context, before->print);
}

/* What the parser says last, as ours. */
static pottle_status
parser_failed(xmlParserCtxt *parser, pottle_error *error)
{
    const xmlError *last = xmlCtxtGetLastError(parser);
    const char *message =
        last != NULL && last->message != NULL ? last->message : "not XML";
    if (last != NULL && last->code == XML_ERR_NO_MEMORY)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory",
                            "no memory to parse the file");
    pottlei_fail(error, POTTLE_EDATA, "xml", "not well-formed: %.*s",
                 (int)strcspn(message, "\n"), message);
    if (error != NULL && last != NULL)
        error->line = last->line;
    return POTTLE_EDATA;
}

/* -- From the parser's events to the light tree ---------------------------- */

enum { NAMES_MAX = 64, TEXT_MAX = 4096 };
typedef struct builder {
    pottlei_arena *arena;
    xmlParserCtxt *parser;
    pottlei_node *root, *at;
    pottlei_node *last[POTTLEI_DEPTH_MAX + 1]; /* child so far, by depth */
    size_t depth, names, length;
    /* the parser keeps one copy of each name, so a pointer tells a name */
    struct {
        const xmlChar *seen;
        const char *name;
    } name[NAMES_MAX];
    char text[TEXT_MAX]; /* of the element at hand */
    pottle_status status;
    const char *code, *what;
    long line;
} builder;

static void
stop(builder *b, pottle_status status, const char *code, const char *what)
{
    if (b->status == POTTLE_OK) {
        b->status = status;
        b->code = code;
        b->what = what;
        b->line = xmlSAX2GetLineNumber(b->parser);
    }
    xmlStopParser(b->parser);
}

static const char *
name_of(builder *b, const xmlChar *seen)
{
    for (size_t i = 0; i < b->names; i++)
        if (b->name[i].seen == seen)
            return b->name[i].name;
    const char *name = pottlei_arena_text(b->arena, (const char *)seen);
    if (name != NULL && b->names < NAMES_MAX) {
        b->name[b->names].seen = seen;
        b->name[b->names++].name = name;
    }
    return name;
}

/* An attribute's value: the parser leaves an ampersand as a character
 * reference. */
static const char *
value_of(builder *b, const xmlChar *from, const xmlChar *to)
{
    static const char reference[] = "&#38;";
    const size_t n = (size_t)(to - from), k = sizeof reference - 1;
    char value[TEXT_MAX];
    size_t end = 0;
    if (n >= sizeof value) {
        stop(b, POTTLE_EDATA, "text", "an attribute is too long");
        return NULL;
    }
    for (size_t i = 0; i < n;) {
        const char plain = (char)from[i];
        value[end++] = plain;
        i += plain == '&' && n - i >= k && memcmp(from + i, reference, k) == 0
               ? k
               : 1;
    }
    value[end] = '\0';
    if (!pottlei_utf8_valid(value, end)) {
        /* the file is clean; a reference such as &#155; can still name one */
        stop(b, POTTLE_EDATA, "control", "a control character in an attribute");
        return NULL;
    }
    return pottlei_arena_text(b->arena, value);
}

/* Blank text is nothing; the rest is kept folded, or marks the element as
 * mixed. */
static void
keep_element_text(builder *b)
{
    size_t n = 0;
    for (size_t i = 0; i < b->length; i++) {
        const char c = b->text[i];
        const bool blank = c == ' ' || c == '\t' || c == '\r' || c == '\n';
        if (!blank)
            b->text[n++] = c;
        else if (n > 0 && b->text[n - 1] != ' ')
            b->text[n++] = ' ';
    }
    while (n > 0 && b->text[n - 1] == ' ')
        n--;
    b->text[n] = '\0';
    b->length = 0;
    if (b->at == NULL || n == 0)
        return;
    if (!pottlei_utf8_valid(b->text, n)) {
        stop(b, POTTLE_EDATA, "control", "a control character in a text");
        return;
    }
    if (b->at->first != NULL || b->at->text[0] != '\0') {
        b->at->mixed = true;
        return;
    }
    const char *text = pottlei_arena_text(b->arena, b->text);
    if (text == NULL)
        stop(b, POTTLE_ENOMEM, "memory", "no memory");
    else
        b->at->text = text;
}

static void
start_element(void *context, const xmlChar *name, const xmlChar *prefix,
              const xmlChar *uri, int namespaces,
              const xmlChar **namespace_list, int attributes, int defaulted,
              const xmlChar **list)
{
    builder *b = context;
    (void)namespace_list;
    (void)defaulted;
    if (b->status != POTTLE_OK)
        return;
    keep_element_text(b);
    if (b->status != POTTLE_OK)
        return; /* a parser that was stopped has freed the attributes */
    if (b->at != NULL && b->at->text[0] != '\0')
        b->at->mixed = true;
    if (prefix != NULL || uri != NULL || namespaces > 0) {
        stop(b, POTTLE_EDATA, "element", "an element has a namespace");
        return;
    }
    if (++b->depth > POTTLEI_DEPTH_MAX) {
        stop(b, POTTLE_EDATA, "depth", "elements are nested too deep");
        return;
    }
    const size_t count = attributes > 0 ? (size_t)attributes : 0;
    pottlei_node *node = pottlei_arena_new(b->arena, 1, sizeof *node);
    struct pottlei_attribute *attribute =
        pottlei_arena_new(b->arena, count, sizeof *attribute);
    const char *copy = name_of(b, name);
    if (node == NULL || attribute == NULL || copy == NULL) {
        stop(b, POTTLE_ENOMEM, "memory", "no memory");
        return;
    }
    *node = (pottlei_node){ .name = copy,
                            .parent = b->at,
                            .attributes = (unsigned)count,
                            .attribute = attribute,
                            .text = "",
                            .line = (unsigned)xmlSAX2GetLineNumber(b->parser) };
    for (size_t i = 0; i < count; i++) {
        const xmlChar **a =
            list + 5 * i; /* name, prefix, uri, value, its end */
        attribute[i].name = name_of(b, a[0]);
        attribute[i].value = value_of(b, a[3], a[4]);
        if (attribute[i].name == NULL || attribute[i].value == NULL)
            stop(b, POTTLE_ENOMEM, "memory", "no memory");
        else if (a[1] != NULL)
            stop(b, POTTLE_EDATA, "attribute", "an attribute has a namespace");
        if (b->status != POTTLE_OK)
            return;
    }
    if (b->at == NULL)
        b->root = node;
    else if (b->at->first == NULL)
        b->at->first = node;
    else
        b->last[b->depth]->next = node;
    b->last[b->depth] = node;
    b->at = node;
}

static void
end_element(void *context, const xmlChar *name, const xmlChar *prefix,
            const xmlChar *uri)
{
    builder *b = context;
    (void)name;
    (void)prefix;
    (void)uri;
    if (b->status != POTTLE_OK || b->at == NULL)
        return;
    keep_element_text(b);
    b->at = b->at->parent;
    b->depth--;
}

static void
characters(void *context, const xmlChar *text, int length)
{
    builder *b = context;
    const size_t n = length > 0 ? (size_t)length : 0;
    if (b->status != POTTLE_OK)
        return;
    if (n >= sizeof b->text - b->length) {
        stop(b, POTTLE_EDATA, "text", "a text is too long");
        return;
    }
    memcpy(b->text + b->length, text, n);
    b->length += n;
}

static void
doctype(void *context, const xmlChar *name, const xmlChar *external,
        const xmlChar *system)
{
    (void)name;
    (void)external;
    (void)system;
    stop(context, POTTLE_EDATA, "dtd",
         "a document type declaration is not allowed");
}

/* Handed to the parser so that it says nothing by itself; the last error stays
 * in its context. */
static void
quiet(void *context, xmlError *error)
{
    (void)context;
    (void)error;
}

/* The text is handed over piece by piece: as a whole, libxml2 would copy it. */
typedef struct remainder {
    const char *at;
    size_t length;
} remainder;

static int
hand_over(void *context, char *to, int room)
{
    remainder *r = context;
    const size_t wanted = room > 0 ? (size_t)room : 0,
                 n = r->length < wanted ? r->length : wanted;
    memcpy(to, r->at, n);
    r->at += n;
    r->length -= n;
    return (int)n;
}

/* A parser of what remains; NULL when there is no memory. (Step by step, for
 * xmlCreateIOParserCtxt of 2.9.14 keeps the buffer when a later step fails.) */
static xmlParserCtxt *
new_parser(remainder *r)
{
    xmlParserCtxt *parser = xmlNewParserCtxt();
    xmlParserInputBuffer *buffer =
        parser == NULL ? NULL
                       : xmlParserInputBufferCreateIO(hand_over, NULL, r,
                                                      XML_CHAR_ENCODING_NONE);
    xmlParserInput *input =
        buffer == NULL
            ? NULL
            : xmlNewIOInputStream(parser, buffer, XML_CHAR_ENCODING_NONE);
    if (input != NULL && inputPush(parser, input) >= 0)
        return parser;
    if (input != NULL)
        xmlFreeInputStream(input);
    else if (buffer != NULL)
        xmlFreeParserInputBuffer(buffer);
    if (parser != NULL)
        xmlFreeParserCtxt(parser);
    return NULL;
}

static pottle_status
build(pottlei_reader *reader, const char *text, size_t length,
      pottle_error *error)
{
    xmlSAXHandler events = { .initialized = XML_SAX2_MAGIC,
                             .startElementNs = start_element,
                             .endElementNs = end_element,
                             .characters = characters,
                             .ignorableWhitespace = characters,
                             .cdataBlock = characters,
                             .internalSubset = doctype,
                             .serror = quiet };
    if (length == 0)
        return pottlei_fail(error, POTTLE_EDATA, "xml",
                            "not well-formed: the file is empty");
    builder *b = calloc(1, sizeof *b);
    remainder rest = { text, length };
    xmlInitParser();
    xmlParserCtxt *parser = b == NULL ? NULL : new_parser(&rest);
    pottle_status status = POTTLE_OK;
    if (parser == NULL) {
        free(b);
        return pottlei_fail(error, POTTLE_ENOMEM, "memory",
                            "no memory for the parser");
    }
    b->arena = reader->arena;
    b->parser = parser;
    xmlSAXHandler *own = parser->sax;
    parser->sax = &events;
    parser->userData = b;
    /* the bytes are known to be UTF-8, whatever the file says of itself */
    xmlCtxtUseOptions(parser, parse_options() | XML_PARSE_IGNORE_ENC);
    xmlParseDocument(parser);
    if (b->status != POTTLE_OK) {
        status = pottlei_fail(error, b->status, b->code, "%s", b->what);
        if (error != NULL)
            error->line = b->line;
    } else if (!parser->wellFormed || b->root == NULL) {
        status = parser_failed(parser, error);
    } else {
        reader->root = b->root;
    }
    parser->sax = own;
    if (parser->myDoc != NULL)
        xmlFreeDoc(parser->myDoc);
    xmlFreeParserCtxt(parser);
    free(b);
    return status;
}

pottle_status
pottlei_xml_open(pottlei_reader *reader, const char *path, pottlei_arena *arena,
                 pottle_error *error)
{
    *reader = (pottlei_reader){ path, arena, NULL, NULL, POTTLE_OK, error };
    char *text = NULL;
    size_t length = 0;
    pottlei_hush before;
    pottle_status status = pottlei_xml_file(path, &text, &length, error);
    pottlei_xml_hush(&before);
    if (status == POTTLE_OK)
        status = build(reader, text, length, error);
    pottlei_xml_speak(&before);
    if (status != POTTLE_OK && error != NULL)
        pottlei_set_where(error, path);
    reader->status = status;
    free(text);
    return status;
}

/* -- As a document --------------------------------------------------------- */

pottle_status
pottlei_xml_document(pottlei_reader *reader, const char *path,
                     pottle_error *error)
{
    *reader = (pottlei_reader){ path, NULL, NULL, NULL, POTTLE_OK, error };
    char *text = NULL;
    size_t length = 0;
    xmlParserCtxt *parser = NULL;
    pottle_status status = pottlei_xml_file(path, &text, &length, error);
    if (status != POTTLE_OK)
        goto done;
    xmlInitParser();
    parser = xmlNewParserCtxt();
    if (parser == NULL) {
        status = pottlei_fail(error, POTTLE_ENOMEM, "memory",
                              "no memory for the parser");
        goto done;
    }
    /* the structured error in the context is all that is wanted */
    parser->sax->error = ignore;
    parser->sax->warning = ignore;
    parser->sax->fatalError = ignore;
    /* no encoding is named: converting UTF-8 to UTF-8 takes memory, and
     * libxml2 2.9.14 crashes where there is none */
    reader->doc = xmlCtxtReadMemory(parser, text, (int)length, NULL, NULL,
                                    parse_options() | XML_PARSE_IGNORE_ENC);
    if (reader->doc == NULL) {
        status = parser_failed(parser, error);
        goto done;
    }
    if (reader->doc->intSubset != NULL)
        status = pottlei_fail(error, POTTLE_EDATA, "dtd",
                              "a document type declaration is not allowed");
done:
    if (status != POTTLE_OK) {
        if (error != NULL)
            pottlei_set_where(error, path);
        pottlei_xml_close(reader);
        reader->status = status;
    }
    if (parser != NULL)
        xmlFreeParserCtxt(parser);
    free(text);
    return status;
}

void
pottlei_xml_close(pottlei_reader *reader)
{
    if (reader->doc != NULL)
        xmlFreeDoc(reader->doc);
    reader->doc = NULL;
}
