/* fuzz_command.c - the whole command, with words that nobody typed.
 *
 * Each input is run three times: twice as it stands, and once with --json in
 * front. What it says and the exit status keep the promises of pottle(1). */
#include <config.h>

#include <math.h>
#include <string.h>

#include "command.h"

/* -- Text ------------------------------------------------------------------ */

/* Whether a word of the input has this in it, so that a message may too. */
static bool
typed(const command_line *c, const char *text)
{
    for (int i = 1; i < c->words; i++)
        if (strcasestr(c->word[i], text) != NULL)
            return true;
    return fuzz_has(c->input, c->input_size, text);
}

static bool
is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '_';
}

/* Where a word stands by itself, in lower or upper case; NULL for nowhere. */
static const char *
find_word(const char *text, const char *word)
{
    const size_t n = strlen(word);
    for (const char *s = text; (s = strcasestr(s, word)) != NULL; s += n)
        if ((s == text || !is_letter(s[-1])) && !is_letter(s[n]))
            return s;
    return NULL;
}

/* What stands in no answer: what a number that is none is printed as, minus
 * nothing, a conversion of printf that was not done, and names that only the
 * library has. */
static void
check_words(const command_line *c, const char *text, const char *what)
{
    static const char *const never[] = { "nan", "inf", "infinity", "null" };
    static const char *const parts[] = { "(null)",  "pottle_", "pottlei_",
                                         "POTTLE_", "%s",      "%d",
                                         "%zu",     "%g" };
    for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
        fuzz_expect(typed(c, never[i]) || find_word(text, never[i]) == NULL,
                    "%s has '%s': %.60s", what, never[i],
                    find_word(text, never[i]));
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        fuzz_expect(typed(c, parts[i]) || strstr(text, parts[i]) == NULL,
                    "%s has '%s'", what, parts[i]);
    for (const char *s = text; (s = strstr(s, "-0")) != NULL; s += 2) {
        const bool alone = (s == text || strchr(" (\n", s[-1]) != NULL) &&
                           s[2 + strspn(s + 2, ".0")] != '.' &&
                           !is_letter(s[2 + strspn(s + 2, ".0")]);
        fuzz_expect(!alone || typed(c, "-0"), "%s has minus nothing: %.40s",
                    what, s);
    }
}

/* Text of whole lines that may be printed, with no tab among them. */
static void
check_text(const char *text, size_t size, const char *what)
{
    fuzz_expect(strlen(text) == size, "%s has a NUL byte", what);
    fuzz_text(text, what);
    fuzz_expect(strpbrk(text, "\r\t") == NULL, "%s has control characters",
                what);
    fuzz_expect(size == 0 || text[size - 1] == '\n', "%s ends within a line",
                what);
}

/* Every line begins with the command's name or goes on with the one before. */
static void
check_complaint(const char *text)
{
    for (const char *s = text; *s != '\0';) {
        fuzz_expect(strncmp(s, "pottle: ", 8) == 0 ||
                        (s != text && strncmp(s, "  ", 2) == 0),
                    "a line of stderr is '%.*s'", (int)strcspn(s, "\n"), s);
        s += strcspn(s, "\n");
        s += *s == '\n';
    }
}

/* No line of an answer is wider than a terminal of 80 columns, but for what
 * cannot be folded: a long word, a table of more than a million. */
static void
check_width(const char *text)
{
    for (const char *s = text; *s != '\0';) {
        const size_t n = strcspn(s, "\n");
        size_t columns = 0, word = 0, longest = 0, digits = 0, most = 0;
        for (size_t i = 0; i < n; i++) {
            columns += ((unsigned char)s[i] & 0xC0u) != 0x80u;
            word = s[i] == ' ' ? 0 : word + 1;
            longest = word > longest ? word : longest;
            digits = s[i] >= '0' && s[i] <= '9' ? digits + 1 : 0;
            most = digits > most ? digits : most;
        }
        fuzz_expect(columns <= WIDTH || longest > 40 || most > 6,
                    "a line of %zu columns: %.*s", columns, (int)n, s);
        s += n + (s[n] == '\n');
    }
}

/* pottle says which process an answer matches, and never that it is safe. The
 * catalogue may say what is not. */
static void
check_claims(const char *text)
{
    for (const char *s = text; (s = find_word(s, "safe")) != NULL; s += 4) {
        const char *before = s - text > 80 ? s - 80 : text;
        bool denied = false;
        for (const char *k = before; k < s; k++)
            denied = denied || strncmp(k, "no ", 3) == 0 ||
                     strncmp(k, "not ", 4) == 0 || strncmp(k, "never ", 6) == 0;
        fuzz_expect(denied, "it is called safe: %.100s", before);
    }
}

/* -- JSON ------------------------------------------------------------------ */

/* An interval has an order, and no number is minus nothing. */
static void
check_value(const json_t *value)
{
    const char *key;
    json_t *member;
    size_t i;
    if (json_is_object(value)) {
        const json_t *low = json_object_get(value, "low"),
                     *middle = json_object_get(value, "expected"),
                     *high = json_object_get(value, "high");
        if (json_is_number(low) && json_is_number(high))
            fuzz_expect(
                json_number_value(low) <= json_number_value(high) &&
                    (!json_is_number(middle) ||
                     (json_number_value(low) <= json_number_value(middle) &&
                      json_number_value(middle) <= json_number_value(high))),
                "an interval from %g to %g", json_number_value(low),
                json_number_value(high));
        const json_t *minutes = json_object_get(value, "minutes");
        fuzz_expect(!json_is_number(minutes) || json_number_value(minutes) > 0,
                    "a process of %g minutes", json_number_value(minutes));
        json_object_foreach((json_t *)(uintptr_t)value, key, member)
            check_value(member);
    } else if (json_is_array(value)) {
        json_array_foreach(value, i, member) check_value(member);
    } else if (json_is_real(value)) {
        const double x = json_real_value(value);
        fuzz_expect(isfinite(x) && (x < 0 || x > 0 || signbit(x) == 0),
                    "a number is %g", x);
    }
}

static void
check_refusal_json(const json_t *root)
{
    static const char *const keys[] = { "code", "text", "source", "instead" };
    const json_t *list = json_object_get(root, "refused"),
                 *one = json_array_get(list, 0);
    fuzz_expect(json_object_size(root) == 1 && json_array_size(list) == 1,
                "a refusal has more than one member");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        fuzz_expect(json_is_string(json_object_get(one, keys[i])),
                    "a refusal in JSON has no '%s'", keys[i]);
}

/* One document, or with `many` one behind the other. */
static void
check_json(const command_answer *a, bool many, bool lists)
{
    const char *at = a->out;
    const char *const end = at + a->out_size;
    while (at < end) {
        json_error_t error;
        json_t *root =
            json_loadb(at, (size_t)(end - at),
                       JSON_DISABLE_EOF_CHECK | JSON_REJECT_DUPLICATES, &error);
        if (!fuzz_expect(root != NULL, "no JSON: %s: %.60s", error.text, at))
            return;
        at += error.position;
        at += strspn(at, "\n");
        fuzz_expect(json_is_object(root) || lists, "JSON that is no object");
        fuzz_expect(many || at == end, "JSON with more behind it");
        check_value(root);
        if (a->status == REFUSED)
            check_refusal_json(root);
        json_decref(root);
    }
}

/* What is told as text is told as JSON: so many jars to wash, so many minutes.
 */
static void
check_same(const char *text, const char *document)
{
    json_t *root = json_loads(document, 0, NULL);
    const json_t *made = json_object_get(root, "made"),
                 *jars = json_object_get(json_is_object(made) ? made : root,
                                         "jars"),
                 *wash = json_object_get(jars != NULL ? jars : root, "prepare"),
                 *minutes = json_object_get(root, "minutes");
    char words[60];
    if (json_is_integer(wash)) {
        snprintf(words, sizeof words, "wash %lld ",
                 (long long)json_integer_value(wash));
        fuzz_expect(strstr(text, words) != NULL, "as text there is no '%s'",
                    words);
    }
    if (json_is_integer(minutes)) {
        snprintf(words, sizeof words, " %lld min",
                 (long long)json_integer_value(minutes));
        fuzz_expect(strstr(text, words) != NULL, "as text there is no '%s'",
                    words);
    }
    json_decref(root);
}

/* -- The promises ---------------------------------------------------------- */

/* An answer, or a reason why there is none. */
static void
check_status(const command_line *c, const command_answer *a, bool json)
{
    const command *self = command_named(c);
    /* each line and each file is a question of its own */
    const bool several = self == &check_command ||
                         (self == &convert_command && command_has(c, "-"));
    fuzz_expect(a->status >= DONE && a->status <= REFUSED, "exit status %d",
                a->status);
    if (a->status == DONE) {
        fuzz_expect(a->out_size > 0 || several, "success says nothing");
        fuzz_expect(a->err_size == 0 || self == &check_command,
                    "success complains: %.80s", a->err);
        return;
    }
    fuzz_expect(a->err_size > 0, "exit status %d without a reason", a->status);
    fuzz_expect(a->out_size == 0 || several || (json && a->status == REFUSED),
                "exit status %d, and yet there is an answer: %.80s", a->status,
                a->out);
    fuzz_expect(!json || several || a->status != REFUSED || a->out_size > 0,
                "a refusal that JSON does not tell");
    if (a->status == FAILED)
        fuzz_expect((strstr(a->err, "cannot ") != NULL ||
                     strstr(a->err, "not a plain file") != NULL) &&
                        strstr(a->err, "memory") == NULL,
                    "it failed: %.200s", a->err);
    if (a->status == BAD_DATA)
        fuzz_expect(self == &check_command || typed(c, "-kitchen") ||
                        typed(c, "-recipes"),
                    "a shipped file is not in order: %.200s", a->err);
    const char *source = strstr(a->err, "\n  source:  ");
    if (a->status == REFUSED)
        fuzz_expect(strstr(a->err, "pottle: refused: ") != NULL &&
                        source != NULL && strchr(source, '[') != NULL &&
                        strstr(a->err, "\n  instead: ") != NULL,
                    "refused without a rule, a source or a way out: %.200s",
                    a->err);
}

static void
check_answer(const command_line *c, const command_answer *a, bool json)
{
    const command *self = command_named(c);
    json = json || a->out[0] == '{'; /* --json was among the words */
    check_text(a->out, a->out_size, "stdout");
    check_text(a->err, a->err_size, "stderr");
    check_words(c, a->err, "stderr");
    check_claims(a->out);
    check_complaint(a->err);
    check_status(c, a, json);
    if (json && self != NULL && !command_has(c, "--help") &&
        !command_has(c, "--version"))
        check_json(a, self == &convert_command && command_has(c, "-"),
                   self == &show_command && typed(c, "--list"));
    else if (!json) {
        check_words(c, a->out, "stdout");
        /* convert answers a line with a line */
        if (!command_has(c, "--help") && self != NULL &&
            self != &convert_command)
            check_width(a->out);
    }
}

/* Only those two write, and only when all is well. */
static void
check_folder(const command_line *c, const command_answer *a)
{
    const command *self = command_named(c);
    if (command_changed())
        fuzz_expect(a->status == DONE &&
                        (self == &kitchen_command || self == &jar_command),
                    "exit status %d, and a file was written", a->status);
}

int
target_command(const uint8_t *data, size_t size)
{
    static command_line c;
    command_answer first, second, json;
    command_read(data, size, &c);
    command_run(&c, false, &first);
    check_answer(&c, &first, false);
    check_folder(&c, &first);
    command_run(&c, false, &second);
    check_folder(&c, &second);
    fuzz_expect(second.status == first.status &&
                    second.out_size == first.out_size &&
                    second.err_size == first.err_size &&
                    memcmp(second.out, first.out, first.out_size) == 0 &&
                    memcmp(second.err, first.err, first.err_size) == 0,
                "the same words are answered in another way");
    command_run(&c, true, &json);
    check_answer(&c, &json, true);
    check_folder(&c, &json);
    fuzz_expect(json.status == first.status,
                "exit status %d, and %d with --json", first.status,
                json.status);
    if (first.status == DONE && json.status == DONE && first.out[0] != '{')
        check_same(first.out, json.out);
    command_answer_free(&first);
    command_answer_free(&second);
    command_answer_free(&json);
    const int verdict = fuzz_verdict();
    if (verdict != 0) {
        fputs("broken by: pottle", stderr);
        for (int i = 1; i < c.words; i++)
            fprintf(stderr, " '%s'", c.word[i]);
        fputc('\n', stderr);
    }
    return verdict;
}
