/* command.c - finds the command and runs it. */
#include "cli.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

const command *const commands[] = {
    &convert_command, &scale_command, &jars_command,    &process_command,
    &recipes_command, &show_command,  &check_command,   &chain_command,
    &cook_command,    &gel_command,   &liquid_command,  &rescue_command,
    &fill_command,    &jar_command,   &kitchen_command, NULL,
};
enum { COMMANDS = sizeof commands / sizeof commands[0] - 1 };

const char *
data_folder(void)
{
    const char *folder = getenv("POTTLE_DATA");
    return folder != NULL && folder[0] != '\0' ? folder : POTTLE_DATA_FOLDER;
}

static void
print_help(void)
{
    fputs("pottle scales tested recipes for home preserving to what is on "
          "hand, and says\n"
          "how many jars to wash and how long to process them at your "
          "altitude.\n\n",
          stdout);
    for (size_t i = 0; i < COMMANDS; i++)
        printf("  pottle %-9s %s\n", commands[i]->name, commands[i]->help);
    fputs("\nFive questions of an evening in a hill village, 900 m up:\n\n"
          "  What do eight cups of diced rhubarb weigh?\n"
          "    pottle convert '8 cups diced rhubarb' --to g\n"
          "  The basket holds 4.2 kg of rhubarb, leaves on. How much sugar, "
          "how many jars?\n"
          "    pottle scale rhubarb-stewed --have '4.2 kg rhubarb as picked' "
          "--jar pint --altitude '900 m'\n"
          "  How many tomatoes for 14 quarts, and how much lemon juice?\n"
          "    pottle scale tomatoes-crushed --fill '14 quart' --altitude '900 "
          "m'\n"
          "  How long do pints of snap beans take in the dial-gauge canner?\n"
          "    pottle process beans-snap --jar pint --canner dial-gauge "
          "--altitude '900 m'\n"
          "  What can be made of rhubarb without buying pectin?\n"
          "    pottle recipes --uses rhubarb --without 'powdered pectin'\n\n"
          "--json with any command prints JSON. 'pottle COMMAND --help' lists "
          "its options;\n"
          "'man pottle' has the rest. The amounts above are invented; the "
          "recipes are not.\n",
          stdout);
}

static int
command_help(const command *c)
{
    printf("%s\n\n", c->help);
    for (const char *line = c->usage; line != NULL && *line != '\0';) {
        const size_t n = strcspn(line, "\n");
        /* a line that begins with a blank goes on with the one before */
        printf("  %s%s%s%.*s\n", line[0] == ' ' ? "" : "pottle ",
               line[0] == ' ' ? "       " : c->name, line[0] == ' ' ? "" : " ",
               (int)n, line);
        line += n + (line[n] == '\n');
    }
    puts("");
    /* scale and jars share a table, so that scale can say whose these are */
    static const char only_jars[] = "jars only: ";
    for (const option *o = c->options; o->name != NULL; o++) {
        const bool only = strncmp(o->help, only_jars, strlen(only_jars)) == 0;
        if (only && strcmp(c->name, "jars") != 0)
            continue;
        char left[60];
        snprintf(left, sizeof left, "  --%s%s%s", o->name,
                 o->value != NULL ? " " : "", o->value != NULL ? o->value : "");
        printf("%-32s %s\n", left, o->help + (only ? strlen(only_jars) : 0));
    }
    return DONE;
}

int
usage_error(const command *self, const char *message, ...)
{
    char text[900];
    va_list list;
    va_start(list, message);
    vsnprintf(text, sizeof text, message, list);
    va_end(list);
    complain("%s; see 'pottle %s --help'", text, self->name);
    return USAGE;
}

int
open_catalogue(const args *a, unsigned parts, pottle_catalogue **out)
{
    pottle_error error;
    const pottle_status status = pottle_catalogue_open(
        data_folder(), args_value(a, "recipes"), parts, out, &error);
    return status == POTTLE_OK ? DONE : report(NULL, &error);
}

/* Whether the answer is JSON: then a refusal is told in it too, wherever it is
 * found. */
static bool wants_json;

int
exit_for(const pottle_error *error)
{
    switch (error->status) {
    case POTTLE_OK: return DONE;
    case POTTLE_EBOUNDS: return REFUSED;
    case POTTLE_EDATA: return BAD_DATA;
    case POTTLE_EDOMAIN:
    case POTTLE_EUNIT:
    case POTTLE_ENOENT:
    case POTTLE_ESYNTAX:
    case POTTLE_EAMBIGUOUS: return USAGE;
    case POTTLE_EMISUSE:
        return strcmp(error->code, "how-much") == 0 ? USAGE : FAILED;
    case POTTLE_EIO:
    case POTTLE_ENOMEM: break;
    }
    return FAILED;
}

int
report(const pottle_catalogue *catalogue, const pottle_error *error)
{
    char source[400] = "";
    if (error->source[0] != '\0' && catalogue != NULL)
        source_text(catalogue, error->source, error->at, source, sizeof source);
    if (error->status == POTTLE_EBOUNDS) {
        if (wants_json) {
            json_t *one =
                json_pack("{s:s, s:s, s:o, s:o}", "code", error->code, "text",
                          error->what, "source", json_text(source), "instead",
                          json_text(error->instead));
            if (print_json(json_pack("{s:[o]}", "refused", one)) != DONE)
                return FAILED;
        }
        char what[600];
        print_folded(stderr, "pottle: refused: ",
                     printable(error->what, what, sizeof what));
        if (source[0] != '\0')
            print_folded(stderr, "  source:  ", source);
        if (error->instead[0] != '\0')
            print_folded(stderr, "  instead: ", error->instead);
    } else if (error->where[0] != '\0' && error->line > 0) {
        complain("%s:%ld: %s (%s)", error->where, error->line, error->what,
                 error->code);
    } else if (error->where[0] != '\0') {
        complain("%s: %s (%s)", error->where, error->what, error->code);
    } else {
        complain("%s%s%s", error->what, error->instead[0] != '\0' ? "; " : "",
                 error->instead);
    }
    return exit_for(error);
}

int
run_command(int argc, char **argv)
{
    bool json = false;
    wants_json = false;
    int first = 1;
    for (; first < argc && argv[first][0] == '-'; first++) {
        if (strcmp(argv[first], "--json") == 0) {
            json = true;
        } else if (strcmp(argv[first], "--help") == 0) {
            print_help();
            return DONE;
        } else if (strcmp(argv[first], "--version") == 0) {
            printf("pottle %s\n", pottle_version());
            return DONE;
        } else {
            complain("unknown option '%.60s'; see 'pottle --help'",
                     argv[first]);
            return USAGE;
        }
    }
    if (first == argc) {
        print_help();
        return DONE;
    }
    for (size_t i = 0; i < COMMANDS; i++) {
        const command *c = commands[i];
        args a;
        if (strcmp(argv[first], c->name) != 0)
            continue;
        if (!args_read(argc - first - 1, argv + first + 1, c->options, &a))
            return USAGE;
        if (args_has(&a, "help"))
            return command_help(c);
        wants_json = json || args_has(&a, "json");
        return c->run(c, &a, wants_json);
    }
    char list[300] = "";
    for (size_t i = 0, n = 0; i < COMMANDS && n + 20 < sizeof list; i++)
        n += (size_t)snprintf(list + n, sizeof list - n, "%s %s",
                              i == 0 ? "" : ",", commands[i]->name);
    complain("there is no command '%.60s'; there are%s", argv[first], list);
    return USAGE;
}
