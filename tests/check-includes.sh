#!/bin/sh
# check-includes.sh - the storeys of the house: who may use whom.
#
#   lib/base       nothing above it
#   lib/matter     base
#   lib/catalogue  base, and it alone libxml2
#   lib/kitchen    all below it, of the catalogue only what is public
#   cli            pottle.h, jansson.h, cli.h and the C library
#
# pottle.h is an umbrella and tells a file of all storeys, so the includes are not
# enough: where objects have been built, their symbols are compared as well. The
# library prints nothing, reads no environment, never ends the program and keeps no
# state outside its objects: looked for in the text and in the symbols.
#
# Given: srcdir, builddir, NM from the environment. Status: 0, 1, 77 without tools.
set -u
LC_ALL=C
export LC_ALL
: "${srcdir:=.}" "${builddir:=.}" "${NM:=nm}"

for tool in awk grep sed sort comm; do
    command -v "$tool" >/dev/null 2>&1 || { echo "SKIP: no $tool"; exit 77; }
done
# NM may hold options: "nm -B"
# shellcheck disable=SC2086
have_nm() { set -- $NM; command -v "$1" >/dev/null 2>&1; }

scratch=check-includes.$$.tmp
trap 'rm -rf "$scratch"' EXIT
trap 'exit 99' HUP INT TERM
mkdir "$scratch" || exit 99
complaints=$scratch/complaints

complain() { printf '%s\n' "$*" >>"$complaints"; }

# -- Text -------------------------------------------------------------------

# The file without comments and without what stands in quotes.
bare() {
    awk '
    {
        line = $0; out = ""
        while (line != "") {
            if (inside) {
                n = index(line, "*/")
                if (n == 0) { line = ""; break }
                line = substr(line, n + 2); inside = 0
            } else if (substr(line, 1, 2) == "/*") {
                inside = 1; line = substr(line, 3)
            } else if (substr(line, 1, 2) == "//") {
                line = ""
            } else if (match(line, /^"([^"\\]|\\.)*"/)) {
                out = out "\"\""; line = substr(line, RLENGTH + 1)
            } else if (match(line, /^\047([^\047\\]|\\.)+\047/)) {
                out = out "0"; line = substr(line, RLENGTH + 1)
            } else {
                out = out substr(line, 1, 1); line = substr(line, 2)
            }
        }
        print out
    }' "$1"
}

# What a file includes, with its quotes or brackets.
includes() {
    sed -n 's/^[[:space:]]*#[[:space:]]*include[[:space:]]*\([<"][^>"]*[>"]\).*/\1/p' "$1"
}

# Whether a header stands in the folder of a storey, seen from one of its files:
# "model.h" in lib/catalogue, "catalogue/model.h" from everywhere.
storey_of() { # TREE STOREY HEADER
    case $3 in
    base/* | matter/* | catalogue/* | kitchen/*) echo "${3%%/*}" ;;
    */*) echo other ;;
    *) if [ -f "$1/lib/$2/$3" ]; then echo "$2"; else echo top; fi ;;
    esac
}

check_storey() { # TREE STOREY ALLOWED...
    tree=$1 storey=$2
    shift 2
    for file in "$tree/lib/$storey"/*.c "$tree/lib/$storey"/*.h; do
        [ -f "$file" ] || continue
        for header in $(includes "$file"); do
            name=${header#?}
            name=${name%?}
            case $header in
            '<libxml/'*)
                [ "$storey" = catalogue ] || complain "$file: libxml2 belongs to lib/catalogue"
                continue ;;
            '<'*) continue ;;
            esac
            whose=$(storey_of "$tree" "$storey" "$name")
            case " $* $storey top " in
            *" $whose "*) ;;
            *) complain "$file: may not include \"$name\"" ;;
            esac
            case $whose/$name in
            top/internal.h | top/pottle.h | "$storey"/*) ;;
            *) complain "$file: includes \"$name\", which is neither internal.h nor its own" ;;
            esac
        done
    done
}

ends='exit|_exit|_Exit|quick_exit|abort|raise|kill|__assert_fail'
prints='printf|fprintf|vprintf|vfprintf|dprintf|puts|fputs|putchar|putc|fputc|fwrite|perror|psignal'
asks='getenv|secure_getenv|setenv|putenv|setlocale|system|popen'

check_calls() { # TREE
    for file in "$1"/lib/*.h "$1"/lib/*/*.[ch]; do
        [ -f "$file" ] || continue
        bare "$file" >"$scratch/bare"
        grep -nE "(^|[^A-Za-z0-9_])($ends|assert|$prints|$asks)[[:space:]]*\\(" "$scratch/bare" |
            while IFS= read -r line; do complain "$file:$line"; done
        grep -nE '(^|[^A-Za-z0-9_])(stdout|stderr|environ)([^A-Za-z0-9_]|$)' "$scratch/bare" |
            while IFS= read -r line; do complain "$file:$line"; done
        # a static object that is not const: the line names no function
        grep -nE '(^|[^A-Za-z0-9_])static[[:space:]][^()]*[];=[]' "$scratch/bare" | grep -v 'const' |
            while IFS= read -r line; do complain "$file:$line: a static object that may change"; done
    done
}

c_library='assert complex ctype errno fenv float inttypes iso646 limits locale math setjmp
    signal stdalign stdarg stdatomic stdbool stddef stdint stdio stdlib stdnoreturn string
    tgmath threads time uchar wchar wctype unistd getopt sys/types sys/stat fcntl dirent
    langinfo strings'

check_command() { # TREE
    for file in "$1"/cli/*.c "$1"/cli/*.h; do
        [ -f "$file" ] || continue
        for header in $(includes "$file"); do
            name=${header#?}
            name=${name%?}
            case $header in
            '<config.h>' | '<pottle.h>' | '<jansson.h>' | '"pottle.h"' | '"cli.h"') continue ;;
            # a header of the command's own lies beside its sources
            '"'*) [ -f "$1/cli/$name" ] || complain "$file: may not include \"$name\""
                continue ;;
            esac
            found=no
            for known in $c_library; do
                [ "$name" = "$known.h" ] && found=yes
            done
            [ $found = yes ] || complain "$file: may not include <$name>"
        done
    done
}

check_text() { # TREE
    check_storey "$1" base
    check_storey "$1" matter base
    check_storey "$1" catalogue base
    check_storey "$1" kitchen base matter
    check_calls "$1"
    check_command "$1"
}

# -- Symbols ----------------------------------------------------------------

objects() { # FOLDER: of a storey; libtool puts position-independent ones into .libs
    for o in "$1"/.libs/*.o; do
        [ -f "$o" ] && echo "$o"
    done
}

# shellcheck disable=SC2086
defined() { $NM -g -P "$@" 2>/dev/null | awk 'NF >= 2 && $2 ~ /^[TDBRVWCi]$/ { print $1 }' | sort -u; }
# shellcheck disable=SC2086
undefined() { $NM -u -P "$@" 2>/dev/null | awk 'NF >= 1 && $1 !~ /:$/ { print $1 }' | sort -u; }

# Symbols of one storey that another one uses, less those of a pattern.
check_uses() { # STOREY OTHER [ALLOWED]
    [ -s "$scratch/$1.u" ] && [ -s "$scratch/$2.d" ] || return 0
    comm -12 "$scratch/$1.u" "$scratch/$2.d" | grep -vE "${3:-^\$}" |
        while IFS= read -r symbol; do complain "lib/$1 uses $symbol of lib/$2"; done
}

check_symbols() { # BUILD FOLDER
    for storey in base matter catalogue kitchen; do
        objects "$1/lib/$storey" >"$scratch/list"
        if [ ! -s "$scratch/list" ]; then
            echo "NOTE: no objects of lib/$storey, so its symbols are not compared"
            return 0
        fi
        # file names of the build hold no blanks: make could not build them
        # shellcheck disable=SC2046
        defined $(cat "$scratch/list") >"$scratch/$storey.d"
        # shellcheck disable=SC2046
        undefined $(cat "$scratch/list") >"$scratch/$storey.u"
        [ -s "$scratch/$storey.d" ] || { echo "nm shows nothing of lib/$storey"; exit 99; }
    done
    check_uses base matter
    check_uses base catalogue
    check_uses base kitchen
    check_uses matter catalogue
    check_uses matter kitchen
    check_uses catalogue matter
    check_uses catalogue kitchen
    check_uses kitchen catalogue '^pottle_'
    for storey in base matter kitchen; do
        grep -E '^(xml|htmlC|__xml)' "$scratch/$storey.u" |
            while IFS= read -r symbol; do complain "lib/$storey uses $symbol of libxml2"; done
    done
    for storey in base matter catalogue kitchen; do
        grep -E "^(__)?($ends|$prints|$asks|stdout|stderr|environ)(_chk)?(@.*)?\$" "$scratch/$storey.u" |
            while IFS= read -r symbol; do complain "lib/$storey uses $symbol"; done
    done
    check_state "$1"
}

# Objects that may change: in .data, .bss or common. Tables of pointers lie in
# .data.rel.ro and do not change. What a sanitizer or gcov adds is not ours.
check_state() { # BUILD FOLDER
    if cat "$scratch"/*.u | grep -qE '^__(asan|ubsan|gcov|llvm|tsan|msan)'; then
        echo "NOTE: instrumented objects, so their state is not looked at"
        return 0
    fi
    for storey in base matter catalogue kitchen; do
        for o in $(objects "$1/lib/$storey"); do
            # shellcheck disable=SC2086
            $NM -f sysv "$o" 2>/dev/null |
                awk -F'|' 'NF >= 7 { gsub(/ /, "", $1); gsub(/ /, "", $7); gsub(/ /, "", $4)
                    if ($4 != "SECTION" && $7 ~ /^(\.data|\.bss|\.tdata|\.tbss|\*COM\*)/ && $7 !~ /^\.data\.rel\.ro/) print $1 }' |
                while IFS= read -r symbol; do complain "$o: $symbol may change"; done
        done
    done
}

# -- The check of the check -------------------------------------------------

# A tree in which each rule is broken once; a rule that is not seen to be broken
# here would hold for nothing.
fake=$scratch/fake
mkdir -p "$fake/lib/base" "$fake/lib/matter" "$fake/lib/catalogue" "$fake/lib/kitchen" "$fake/cli"
: >"$fake/lib/catalogue/model.h"
cat >"$fake/lib/base/a.c" <<'END'
#include "catalogue/model.h"
#include <stdio.h>
/* exit(1) in a comment, and "abort()" in quotes, are fine */
static const char *const fine[] = { "getenv(" };
static int counter;
void f(void) { char b[8]; snprintf(b, sizeof b, "printf("); counter++; }
END
printf '#include "kitchen/kitchen.h"\nvoid g(void) { puts("x"); }\n' >"$fake/lib/matter/b.c"
printf '#include "model.h"\n#include <libxml/tree.h>\nvoid h(void) { exit (1); }\n' >"$fake/lib/catalogue/c.c"
printf '#include "catalogue/model.h"\n#  include <libxml/tree.h>\nvoid i(void) { static char buf[9]; (void)buf; }\n' >"$fake/lib/kitchen/d.c"
printf '#include "internal.h"\n#include <gsl/gsl_math.h>\n#include <pottle.h>\n#include <string.h>\n' >"$fake/cli/e.c"
: >"$complaints"
check_text "$fake"
for wanted in \
    'base/a.c: may not include "catalogue/model.h"' 'base/a.c:5:' \
    'matter/b.c: may not include "kitchen/kitchen.h"' 'matter/b.c:2:' \
    'catalogue/c.c:3:' 'kitchen/d.c: may not include "catalogue/model.h"' \
    'kitchen/d.c: libxml2' 'kitchen/d.c:3:' \
    'cli/e.c: may not include "internal.h"' 'cli/e.c: may not include <gsl/gsl_math.h>'; do
    grep -qF "$wanted" "$complaints" || { echo "the check does not see: $wanted"; exit 99; }
done
for fine in 'base/a.c:3:' 'base/a.c:4:' 'base/a.c:6:' 'c.c: may not' 'string.h'; do
    if grep -F "$fine" "$complaints"; then
        echo "the check complains of what is fine: $fine"
        exit 99
    fi
done

# -- The tree ---------------------------------------------------------------

: >"$complaints"
set -- "$srcdir"/lib/*/*.c
[ $# -gt 5 ] || { echo "no sources in $srcdir/lib"; exit 99; }
check_text "$srcdir"
if have_nm; then
    check_symbols "$builddir"
else
    echo "NOTE: no nm, so no symbols are compared"
fi
if [ -s "$complaints" ]; then
    sort -u "$complaints"
    exit 1
fi
echo "the storeys keep to themselves"
