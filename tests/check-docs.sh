#!/bin/sh
# What the documents show is what happens: every run in README.md, DEVELOPERS.md
# and docs/*.md is run again and its output compared byte for byte, and every
# file that they name is there.
#
#   builddir=BUILD srcdir=SOURCES sh tests/check-docs.sh [DOCUMENT]...
#   UPDATE=1 rewrites the outputs in the documents; read the difference
#
# A run is a line `$ COMMAND`, indented by four blanks (a \ at its end continues
# it), and the indented lines below it, stdout and stderr together. A last line
# [...] stands for more of the output. A block that begins with ```c and
# `/* NAME.c` is compiled as NAME for the runs of its document.
#
# The runs of a document share a folder of their own in the build tree, with the
# built command, recipes/ the catalogue and an empty home. The status of each is
# 0, or 4 where the document shows a refusal.
set -u

srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
[ -x "$builddir/cli/pottle" ] || { echo "check-docs.sh: there is no $builddir/cli/pottle; build it first" >&2; exit 99; }
work=$builddir/tests/docs.tmp
rm -rf "$work" && mkdir -p "$work/bin" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 99' HUP INT TERM

: "${CC:=cc}"
LC_ALL=C POTTLE_DATA=recipes PATH=$work/bin:$PATH
export LC_ALL POTTLE_DATA PATH
unset POSIXLY_CORRECT LANG LANGUAGE
printf '#!/bin/sh\nexec "%s/cli/pottle" "$@"\n' "$builddir" >"$work/bin/pottle"
chmod +x "$work/bin/pottle" || exit 99

passed=0 failed=0 skipped=0
pass() { passed=$((passed + 1)); }
fail() { failed=$((failed + 1)); echo "check-docs.sh: $*"; }
skip() { skipped=$((skipped + 1)); echo "check-docs.sh: skipped: $*"; }

# -- Runs ------------------------------------------------------------------------

# Takes a document apart: commands and outputs by number, programs by name, and
# a skeleton where \001 and the number stand for an output.
take_apart() { # DOCUMENT FOLDER
    awk -v folder="$2" '
        function leave() {
            if (inside) {
                printf "\001%d\n", n
                close(out)
            }
            for (; held > 0; held--)
                print ""
            inside = 0
        }
        /^```/ {
            leave()
            fenced = !fenced
            first = fenced && $0 == "```c"
            program = ""
            print
            next
        }
        fenced {
            if (first && match($0, /^\/\* [a-z_]+\.c/))
                program = folder "/" substr($0, 4, RLENGTH - 3)
            first = 0
            if (program != "")
                print >program
            print
            next
        }
        goes_on || /^    \$ / {
            if (!goes_on) {
                leave()
                n++
                command = folder "/" n ".cmd"
                out = folder "/" n ".out"
                printf "" >out
                inside = 1
                print substr($0, 7) >command
            } else {
                print substr($0, 5) >command
            }
            print
            goes_on = /\\$/
            if (!goes_on)
                close(command)
            next
        }
        inside && /^ *$/ { held++; next }
        inside && /^    / {
            for (; held > 0; held--)
                print "" >out
            print substr($0, 5) >out
            next
        }
        { leave(); print }
        END { leave() }' "$1" >"$2/skeleton"
}

# Paths of this machine out of an output.
normalise() {
    awk -v from="$1" -v to=/home/you '{
        done = ""
        while ((i = index($0, from)) > 0) {
            done = done substr($0, 1, i - 1) to
            $0 = substr($0, i + length(from))
        }
        print done $0
    }'
}

# Programs of a document; 1 when there is nothing to link them with.
compile() { # FOLDER
    library=$builddir/lib/.libs/libpottle.so
    # CC may hold options
    # shellcheck disable=SC2086
    [ -f "$library" ] && command -v ${CC%% *} >/dev/null || return 1
    sanitize=
    if grep -q __asan_init "$library"; then sanitize=-fsanitize=address,undefined; fi
    for program in "$1"/*.c; do
        # shellcheck disable=SC2086
        if $CC -std=c11 -Wall -Wextra -Wpedantic -Wshadow -Werror $sanitize -pthread -I"$srcdir/lib" \
            -I"$builddir/lib" -o "${program%.c}" "$program" -L"$builddir/lib/.libs" -lpottle >"$1/said" 2>&1; then
            pass
        else
            fail "${program##*/} does not compile"
            cat "$1/said"
        fi
    done
    LD_LIBRARY_PATH=$builddir/lib/.libs${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}
    export LD_LIBRARY_PATH
}

check_runs() { # DOCUMENT
    name=$1
    page=$srcdir/$name
    parts=$work/parts
    here=$work/here
    rm -rf "$parts" "$here"
    mkdir -p "$parts" "$here/home" && ln -s "$srcdir/recipes" "$here/recipes" || exit 99
    HOME=$here/home XDG_CONFIG_HOME=$here/home/.config
    export HOME XDG_CONFIG_HOME
    take_apart "$page" "$parts" || exit 99
    if [ -n "$(find "$parts" -name '*.c')" ]; then
        compile "$parts" || { skip "$name: no compiler, or no shared library, for its programs"; return; }
        for program in "$parts"/*.c; do
            [ ! -x "${program%.c}" ] || mv "${program%.c}" "$here/" || exit 99
        done
    fi
    : >"$parts/runs"
    n=1
    while [ -f "$parts/$n.cmd" ]; do
        command=$(cat "$parts/$n.cmd")
        (cd "$here" && sh "$parts/$n.cmd") >"$parts/raw" 2>&1 </dev/null
        status=$?
        normalise "$here/home" <"$parts/raw" >"$parts/got"
        if [ "$(tail -n 1 "$parts/$n.out")" = '[...]' ]; then
            shown=$(($(wc -l <"$parts/$n.out") - 1))
            if [ "$(wc -l <"$parts/got")" -gt $shown ]; then
                { sed "${shown}q" "$parts/got"; echo '[...]'; } >"$parts/cut"
                mv "$parts/cut" "$parts/got"
            fi
        fi
        sed -e 's/^/    /' -e 's/ *$//' "$parts/got" >"$parts/$n.new"
        case $status in
            0 | 4) ;;
            *)
                fail "$name: $command: status $status"
                cat "$parts/got"
                ;;
        esac
        if [ "${UPDATE-}" = 1 ] || diff -u "$parts/$n.out" "$parts/got"; then
            pass
        else
            fail "$name: $command: another output than the document shows"
        fi
        n=$((n + 1))
    done
    runs=$((runs + n - 1))
    # a run that failed is never kept as what is expected
    [ "${UPDATE-}" = 1 ] && [ $failed -eq 0 ] || return 0
    awk -v folder="$parts" '
        /^\001/ {
            file = folder "/" substr($0, 2) ".new"
            while ((getline line <file) > 0)
                print line
            close(file)
            next
        }
        { print }' "$parts/skeleton" >"$parts/page"
    cmp -s "$parts/page" "$page" || cp "$parts/page" "$page" || exit 99
}

# -- Links ------------------------------------------------------------------------

# Headings of a document as a reader's page names them.
anchors() {
    sed -n 's/^##* *//p' "$1" | tr 'A-Z ' 'a-z-' | sed 's/[^a-z0-9_-]//g'
}

check_links() { # DOCUMENT
    from=$(dirname "$srcdir/$1")
    # not inside a block that is shown as it stands
    # shellcheck disable=SC2016
    sed -e '/^```/,/^```/d' -e '/^    /d' "$srcdir/$1" | grep -o ']([^)]*)' | sed 's/^](\(.*\))$/\1/' >"$work/links"
    while read -r link; do
        case $link in
            http:* | https:* | mailto:*) continue ;;
        esac
        file=${link%%#*}
        if [ -n "$file" ]; then file=$from/$file; else file=$srcdir/$1; fi
        if [ ! -e "$file" ]; then
            fail "$1 links to $link, which is not there"
        elif [ "$link" != "${link%%#*}" ] && ! anchors "$file" | grep -q -x -F -e "${link#*#}"; then
            fail "$1 links to $link, but there is no such heading"
        else
            pass
        fi
    done <"$work/links"
}

# Files that a document or a public header names in passing. Those with a word
# in capitals stand for many; what is built is looked for in the build tree.
check_names() { # FILE
    grep -o -E '\b(docs|tests|lib|cli|recipes)/[A-Za-z0-9_./-]+\.[a-z0-9]+' "$srcdir/$1" | sort -u |
        grep -v -E '\.(log|lo|la|so)$|(^|[/_])(ID|KIND|NAME|FILE)\b' >"$work/names"
    while read -r file; do
        if [ -e "$srcdir/$file" ] || [ -e "$builddir/$file" ]; then
            pass
        else
            fail "$1 names $file, which is not there"
        fi
    done <"$work/names"
}

# -- All of them --------------------------------------------------------------------

runs=0
all=no
if [ $# -eq 0 ]; then
    all=yes
    # no name of a document has a blank
    # shellcheck disable=SC2046
    set -- README.md DEVELOPERS.md $(cd "$srcdir" && ls docs/*.md)
fi
for document; do
    [ -f "$srcdir/$document" ] || { fail "there is no $document"; continue; }
    before=$runs
    check_runs "$document"
    # these live by their runs; a document that lost them is not checked any more
    case $document in
        README.md | docs/safety.md) least=1 ;;
        docs/guide.md) least=15 ;;
        docs/library.md) least=7 ;;
        *) least=0 ;;
    esac
    [ $skipped -gt 0 ] || [ $((runs - before)) -ge $least ] || fail "$document has $((runs - before)) runs, fewer than $least"
    check_links "$document"
    check_names "$document"
done
if [ $all = yes ]; then
    for header in lib/pottle.h lib/internal.h $(cd "$srcdir" && ls lib/pottle/*.h); do
        check_names "$header"
    done
fi

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
