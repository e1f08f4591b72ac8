/* test_memory.c - no memory: allocation n fails, for n = 0, 1, 2 ... until the
 * call succeeds.
 *
 * The library's own allocations come through the linker's --wrap, those that
 * libxml2 makes through xmlMemSetup. Each failure is POTTLE_ENOMEM and leaves
 * the outputs as they were; nothing is kept; what is OK is whole. The expected
 * content is that of the same call with all the memory it wants. */
#include <config.h>

#include <dirent.h>
#include <errno.h>
#include <libxml/parser.h>
#include <libxml/xmlerror.h>
#include <libxml/xmlmemory.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "memory_cases.h"
#include "suite.h"

void
must(bool done, const char *what)
{
    if (done)
        return;
    fprintf(stderr, "test_memory: %s: %s\n", what, strerror(errno));
    exit(99);
}

/* -- The tap --------------------------------------------------------------- */

tap own, xml;

static bool
refuses(tap *t)
{
    return t->open && t->asked++ == t->fail_at;
}

static void *
hold(tap *t, void *p)
{
    if (t->open && p != NULL) {
        if (t->held == PIECES)
            abort(); /* a larger table is wanted */
        t->piece[t->held++] = p;
    }
    return p;
}

/* Forgets a piece; what the tap never gave is nobody's. */
static void
let_go(tap *t, const void *p)
{
    for (long i = t->held; p != NULL && i-- > 0;) {
        if (t->piece[i] == p) {
            t->piece[i] = t->piece[--t->held];
            return;
        }
    }
}

/* The names are the linker's: --wrap=malloc turns each call of malloc into one
 * of
 * __wrap_malloc, and __real_malloc into malloc. */
void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *p, size_t size);
void __real_free(void *p) __attribute__((weak));
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *p, size_t size);
void __wrap_free(void *p);

void *
__wrap_malloc(size_t size)
{
    return refuses(&own) ? NULL : hold(&own, __real_malloc(size));
}

void *
__wrap_calloc(size_t n, size_t size)
{
    return refuses(&own) ? NULL : hold(&own, __real_calloc(n, size));
}

void *
__wrap_realloc(void *p, size_t size)
{
    if (refuses(&own))
        return NULL;
    let_go(&own, p);
    return hold(&own, __real_realloc(p, size));
}

void
__wrap_free(void *p)
{
    let_go(&own, p);
    __real_free(p);
}

static void *
xml_malloc(size_t size)
{
    return refuses(&xml) ? NULL : hold(&xml, __real_malloc(size));
}

static void *
xml_realloc(void *p, size_t size)
{
    if (refuses(&xml))
        return NULL;
    let_go(&xml, p);
    return hold(&xml, __real_realloc(p, size));
}

static char *
xml_strdup(const char *text)
{
    const size_t n = strlen(text) + 1;
    char *copy = xml_malloc(n);
    if (copy != NULL)
        memcpy(copy, text, n);
    return copy;
}

static void
xml_free(void *p)
{
    let_go(&xml, p);
    free(p);
}

/* libxml2 prints where it has no context to keep an error in. */
static void
say_nothing(void *context, const char *message, ...)
{
    (void)context;
    (void)message;
}

/* -- The set-up ------------------------------------------------------------ */

char folder[1024];
const char few[] = "test_memory.tmp";
pottle_catalogue *all, *walked;
pottle_recipe *salsa, *tomatoes, *dills;
pottle_plan *fourteen;
const pottle_mishap *weak;
pottle_jar_number some_jars[2] = { { .count = 7 }, { .count = 3 } };
pottle_phrase tomato, onion, lemon, apple;
char mark;
const char kitchen_path[] = "test_memory.tmp/kitchen.xml";
const char kitchen_text[] = "<kitchen>\n"
                            "  <altitude value=\"1900\" unit=\"m\"/>\n"
                            "  <pot id=\"big\" title=\"Big\"><tare "
                            "value=\"3 1/2\" unit=\"lb\"/></pot>\n"
                            "</kitchen>\n";
pottle_kitchen kitchen;

static void
link_to(const char *name)
{
    char from[2048], to[256];
    snprintf(from, sizeof from, "%s/%s", folder, name);
    snprintf(to, sizeof to, "%s/%s", few, name);
    unlink(to);
    must(symlink(from, to) == 0, to);
}

/* A catalogue of two kinds, made of links to the shipped one. */
static void
set_up(void)
{
    static const char *const folders[] = { "foods", "schema", "butter" };
    const char *srcdir = getenv("srcdir");
    char path[512];
    snprintf(path, sizeof path, "%s/recipes", srcdir != NULL ? srcdir : ".");
    char *real = realpath(path, NULL);
    must(real != NULL, path);
    snprintf(folder, sizeof folder, "%s", real);
    free(real);
    mkdir(few, 0777);
    mkdir("test_memory.tmp/chutney", 0777);
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++)
        link_to(folders[i]);
    DIR *dir = opendir(folder);
    must(dir != NULL, folder);
    for (const struct dirent *e = readdir(dir); e != NULL; e = readdir(dir))
        if (strstr(e->d_name, ".xml") != NULL)
            link_to(e->d_name);
    closedir(dir);
    link_to("chutney/cranberry-orange-chutney.xml");
    FILE *broken = fopen("test_memory.tmp/chutney/broken.xml", "w");
    must(broken != NULL &&
             fputs("<recipe id=\"broken\" "
                   "kind=\"chutney\"><title>Broken</title></recipe>\n",
                   broken) >= 0 &&
             fclose(broken) == 0,
         "broken.xml");
    FILE *mine = fopen(kitchen_path, "w");
    must(mine != NULL && fputs(kitchen_text, mine) >= 0 && fclose(mine) == 0,
         kitchen_path);
    must(pottle_kitchen_read(NULL, kitchen_path, &kitchen, NULL) == POTTLE_OK,
         kitchen_path);

    must(pottle_catalogue_open(folder, NULL, POTTLE_WITH_ALL, &all, NULL) ==
             POTTLE_OK,
         folder);
    must(pottle_catalogue_open(few, NULL, POTTLE_WITH_ALL, &walked, NULL) ==
             POTTLE_OK,
         few);
    must(pottle_recipe_read(all, "chile-salsa", &salsa, NULL) == POTTLE_OK,
         "chile-salsa");
    must(pottle_recipe_read(all, "tomatoes-crushed", &tomatoes, NULL) ==
             POTTLE_OK,
         "tomatoes-crushed");
    must(pottle_recipe_read(all, "quick-fresh-pack-dill-pickles", &dills,
                            NULL) == POTTLE_OK,
         "quick-fresh-pack-dill-pickles");
    must(pottle_scale(
             all, tomatoes,
             &(pottle_request){ .version = POTTLE_REQUEST_VERSION, .fill = 14 },
             &fourteen, NULL) == POTTLE_OK,
         "14 quarts");
    must(pottle_jar_find(all, "quart", &some_jars[0].jar, NULL) == POTTLE_OK &&
             pottle_jar_find(all, "pint", &some_jars[1].jar, NULL) == POTTLE_OK,
         "quart and pint");
    must(pottle_mishap_find(all, "vinegar-weak", &weak, NULL) == POTTLE_OK,
         "vinegar-weak");
    must(pottle_phrase_read(all, "10 lb tomatoes", NULL, 0, &tomato, NULL) ==
             POTTLE_OK,
         "tomatoes");
    must(pottle_phrase_read(all, "3 lb onions", NULL, 0, &onion, NULL) ==
             POTTLE_OK,
         "onions");
    must(pottle_phrase_read(all, "10 lb apples", NULL, 0, &apple, NULL) ==
             POTTLE_OK,
         "apples");
    must(pottle_phrase_read(all, "2 cups bottled lemon juice", NULL, 0, &lemon,
                            NULL) == POTTLE_OK,
         "lemon juice");
}

/* Takes out what stands in a folder, links and not what they lead to. */
static void
empty(const char *name)
{
    char path[1024];
    DIR *dir = opendir(name);
    for (struct dirent *e = NULL; dir != NULL && (e = readdir(dir)) != NULL;) {
        snprintf(path, sizeof path, "%s/%s", name, e->d_name);
        if (strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0)
            unlink(path);
    }
    if (dir != NULL)
        closedir(dir);
    rmdir(name);
}

static void
tear_down(void)
{
    pottle_plan_free(fourteen);
    pottle_recipe_free(dills);
    pottle_recipe_free(tomatoes);
    pottle_recipe_free(salsa);
    pottle_catalogue_free(walked);
    pottle_catalogue_free(all);
    empty("test_memory.tmp/chutney");
    empty(few);
}

/* -- The tests ------------------------------------------------------------- */

static outcome
run_with(const struct call *call, tap *failing, long n)
{
    own.asked = own.held = xml.asked = xml.held = 0;
    own.fail_at = xml.fail_at = -1;
    if (failing != NULL)
        failing->fail_at = n;
    own.open = xml.open = true;
    const outcome o = call->run();
    /* the thread keeps the last error's text, which is no leak */
    xmlResetLastError();
    own.open = xml.open = false;
    return o;
}

/* What libxml2 keeps when it has no memory itself: 2.9.14 never frees a buffer
 * that could not grow (xmlParserInputBufferCreateMem), which is two pieces, nor
 * what it had copied of a tree it cannot finish (xmlDocCopyNode), which is any
 * number. Ours are seen by the other failures, where nothing may be kept. */
static long
lost_by_libxml2(const struct call *call, long n)
{
    const bool failed = xml.fail_at >= 0 && xml.asked > n;
    return !failed ? 0 : call->schema ? 1000000 : 2;
}

static void
check_kept(const struct call *call, const char *whose, long n, const outcome *o)
{
    const long kept = xml.held, may_be = lost_by_libxml2(call, n);
    ck_assert_msg(!o->touched, "%s, %s %ld failed: an output was written",
                  call->name, whose, n);
    ck_assert_msg(own.held == 0, "%s, %s %ld failed: %ld pieces are kept",
                  call->name, whose, n, own.held);
    ck_assert_msg(kept <= may_be,
                  "%s, %s %ld failed: %ld pieces of libxml2 are kept",
                  call->name, whose, n, kept);
    /* or a sanitizer would hold us for their owner */
    while (xml.held > 0)
        free(xml.piece[--xml.held]);
}

/* What is made once a process, libxml2 keeps: the first run is not counted. */
static outcome
reference(const struct call *call)
{
    call->run();
    const outcome o = run_with(call, NULL, 0);
    ck_assert_msg(o.status == POTTLE_OK, "%s gives '%s'", call->name,
                  pottle_strerror((int)o.status));
    check_kept(call, "nothing", 0, &o);
    return o;
}

/* Without --wrap=free no leak could be seen: sanitizers and valgrind see them,
 * but are not always there. */
START_TEST(frees_are_seen)
{
    ck_assert_msg(__real_free != NULL, "link with -Wl,--wrap=free");
    /* by pointer, since a compiler may do as it likes with what it knows as
     * malloc */
    void *(*volatile get)(size_t) = malloc;
    void *(*volatile get_zeroed)(size_t, size_t) = calloc;
    void *(*volatile get_more)(void *, size_t) = realloc;
    void (*volatile give)(void *) = free;
    own.asked = own.held = 0;
    own.fail_at = 3;
    own.open = true;
    void *p = get_more(get(1), 100), *q = get_zeroed(3, 5), *none = get(1);
    const long held = own.held;
    give(p);
    give(q);
    own.open = false;
    ck_assert_int_eq(own.asked, 4);
    ck_assert_ptr_null(none);
    ck_assert_int_eq(held, 2);
    ck_assert_int_eq(own.held, 0);
}
END_TEST

START_TEST(own_allocations_fail)
{
    const struct call *call = &memory_calls[_i];
    const outcome whole = reference(call);
    ck_assert_msg(own.asked > 0, "%s asks for no memory", call->name);
    for (long n = 0;; n++) {
        const outcome o = run_with(call, &own, n);
        const bool failed = own.asked > n;
        check_kept(call, "allocation", n, &o);
        if (failed && !call->spares)
            ck_assert_msg(o.status == POTTLE_ENOMEM,
                          "%s, allocation %ld failed: '%s'", call->name, n,
                          pottle_strerror((int)o.status));
        if (o.status == POTTLE_OK)
            ck_assert_msg(o.content == whole.content,
                          "%s, allocation %ld failed: OK, and not whole",
                          call->name, n);
        if (!failed) {
            ck_assert_int_eq(o.status, POTTLE_OK);
            break;
        }
    }
}
END_TEST

/* All of the first, then ever fewer: a schema takes thousands. */
static long
after(long n)
{
    return n + 1 + n / 64;
}

/* Of a call that uses a schema only this many are made to fail, those of
 * reading the documents: later on 2.9.14 crashes by itself where a pattern of
 * the schema cannot be compiled (xmlRegexpCompile). */
enum { BEFORE_THE_SCHEMA = 1000 };

/* libxml2 2.9.14 does not always say that it had no memory: where a name cannot
 * be kept it takes the text for one that is not well-formed. So a file may be
 * called invalid; never is what was read before taken for the whole. */
START_TEST(allocations_of_libxml2_fail)
{
    const struct call *call = &memory_calls[_i];
    const outcome whole = reference(call);
    for (long n = 0; !call->schema || n < BEFORE_THE_SCHEMA; n = after(n)) {
        const outcome o = run_with(call, &xml, n);
        const bool failed = xml.asked > n;
        check_kept(call, "libxml2's allocation", n, &o);
        if (o.status == POTTLE_OK)
            ck_assert_msg(
                o.content == whole.content || o.told > whole.told ||
                    (call->schema && o.told > 0),
                "%s, libxml2's allocation %ld failed: OK, and not whole",
                call->name, n);
        else
            ck_assert_msg(o.status == POTTLE_ENOMEM ||
                              o.status == POTTLE_EDATA ||
                              o.status == POTTLE_EIO,
                          "%s, libxml2's allocation %ld failed: '%s'",
                          call->name, n, pottle_strerror((int)o.status));
        if (!failed) {
            ck_assert_int_eq(o.status, POTTLE_OK);
            ck_assert_msg(o.content == whole.content,
                          "%s is another with all its memory", call->name);
            break;
        }
    }
}
END_TEST

int
main(void)
{
    /* before anything else touches libxml2 */
    must(xmlMemSetup(xml_free, xml_malloc, xml_realloc, xml_strdup) == 0,
         "xmlMemSetup");
    xmlInitParser();
    xmlSetGenericErrorFunc(NULL, say_nothing);
    set_up();

    Suite *suite = suite_create("memory");
    TCase *t = tcase_create("failing");
    tcase_set_timeout(t, 300);
    tcase_add_test(t, frees_are_seen);
    tcase_add_loop_test(t, own_allocations_fail, 0, (int)memory_call_count);
    tcase_add_loop_test(t, allocations_of_libxml2_fail, 0,
                        (int)memory_call_count);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, memory_none());

    const int result = suite_run(suite);
    tear_down();
    return result;
}
