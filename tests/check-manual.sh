#!/bin/sh
# The manual pages and the help texts say the same. What the examples do is looked at by check-examples.sh,
# the completion by check-completion.sh.
set -u

: "${CC:=cc}"
srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
pages=$(ls "$srcdir"/cli/*.1 "$srcdir"/docs/man/*.[35])
overview=$srcdir/cli/pottle.1
command=$builddir/cli/pottle
[ -x "$command" ] || { echo "check-manual.sh: there is no $command; build it first" >&2; exit 99; }
work=$builddir/tests/manual.tmp
rm -rf "$work" && mkdir -p "$work" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
POTTLE_DATA=$srcdir/recipes LC_ALL=C HOME=/nonexistent
export POTTLE_DATA LC_ALL HOME
unset XDG_CONFIG_HOME

passed=0 failed=0 skipped=0
pass() { passed=$((passed + 1)); }
fail() { failed=$((failed + 1)); echo "check-manual.sh: $*"; }
skip() { skipped=$((skipped + 1)); echo "check-manual.sh: skipped: $*"; }

# same A B WHAT: two files of words, which must be the same.
same() {
    sort -u "$1" >"$work/left"
    sort -u "$2" >"$work/right"
    if [ -s "$work/left" ] && diff "$work/left" "$work/right" >"$work/difference"; then
        pass
    else
        fail "$3:"
        cat "$work/difference" 2>/dev/null
    fi
}

# -- Form ----------------------------------------------------------------------

if command -v mandoc >/dev/null; then
    # what it says of its own index of this machine is no fault of the page; where a page refers to is seen below
    for page in $pages; do
        mandoc -T lint "$page" 2>&1 | grep -v -e 'outdated mandoc.db' -e 'referenced manual not found' >"$work/lint"
        if [ -s "$work/lint" ]; then
            fail "mandoc finds:"
            cat "$work/lint"
        else
            pass
        fi
    done
else
    skip "mandoc is not installed, so the form of the manual is not checked"
fi

# A page refers to pages that there are; each page but the first is referred to; the title is that of the file.
# shellcheck disable=SC2086 # $pages are names
sed -n 's/^\.\(It \)\{0,1\}Xr \([a-z-]*\) \([0-9]\).*/\2.\3/p' $pages | grep pottle >"$work/references"
for page in $pages; do echo "${page##*/}"; done | sort >"$work/names"
echo pottle.1 >>"$work/references"
same "$work/names" "$work/references" "pages (<) and those that pages refer to (>)"
for page in $pages; do
    name=${page##*/}
    title=$(sed -n 's/^\.Dt //p' "$page" | tr 'A-Z ' 'a-z.')
    named=$(sed -n '/^\.Sh NAME/{n;s/^\.Nm //p;}' "$page")
    if [ "$title" = "$name" ] && [ "$named" = "${name%.[0-9]}" ]; then pass; else fail "$name has the title $title, the name $named"; fi
done

# -- Options -------------------------------------------------------------------

commands=$("$command" --help | sed -n 's/^  pottle \([a-z]*\)  .*/\1/p')
[ "$(echo "$commands" | wc -l)" -ge 7 ] || fail "the help lists fewer than 7 commands"
for c in $commands; do echo "pottle-$c.1"; done >"$work/wanted"
grep -e '^pottle-.*\.1$' "$work/names" >"$work/there"
same "$work/wanted" "$work/there" "commands of the help (<) and their pages (>)"
# with the same words: the list of the overview, and the name of each page
"$command" --help | sed -n 's/^  pottle \([a-z]*\)  *\(.*\)/\1 \2/p' >"$work/helped"
sed -n '/^\.It Xr pottle-/{s/^\.It Xr pottle-\([a-z]*\) 1/\1/;N;s/\n/ /;p;}' "$overview" >"$work/listed"
same "$work/helped" "$work/listed" "commands of the help (<) and of pottle.1 (>)"

: >"$work/described"
: >"$work/common"
for c in $commands; do
    page=$srcdir/cli/pottle-$c.1
    [ -f "$page" ] || continue
    "$command" "$c" --help >"$work/text" || fail "pottle $c --help fails"
    sed -n 's/^  --\([a-z-]*\).*/\1/p' "$work/text" >"$work/help.$c"
    sed -n 's/.*Fl \\-\([a-z-]*\).*/\1/p' "$page" >"$work/named"
    sed -n 's/^\.It Fl \\-\([a-z-]*\).*/\1/p' "$page" >"$work/entries"
    same "$work/help.$c" "$work/entries" "options of pottle $c --help (<) and with an entry in its page (>)"
    same "$work/help.$c" "$work/named" "options of pottle $c --help (<) and named in its page (>)"
    # those of which the page says no more than where they are described
    sed -n '/^These options are described/,/^\.El/s/^\.It Fl \\-\([a-z-]*\).*/\1/p' "$page" >>"$work/common"
    if [ "$(sed -n 's/^\.Nd //p' "$page")" = "$(sed -n '1s/?*$//p' "$work/text")" ]; then
        pass
    else
        fail "pottle-$c.1 and pottle $c --help begin with other words"
    fi
done
echo version >>"$work/common"
sed -n '/^\.Sh COMMON/,/^\.Sh ENV/s/^\.It Fl \\-\([a-z-]*\).*/\1/p' "$overview" >"$work/described"
same "$work/common" "$work/described" "options that pages refer to pottle.1 for (<) and that it describes (>)"

sed -n 's/.*<jar id="\([^"]*\)".*/\1/p' "$srcdir/recipes/jars.xml" >"$work/jars"
find "$srcdir/recipes/." -type d | sed -e 's|.*/||' -e '/^\.$/d' -e '/^foods$/d' -e '/^schema$/d' >"$work/kinds"

# -- Words of the catalogue ----------------------------------------------------

listed() { # WORD PAGE
    if tr ' ' '\n' <"$2" | grep -q -x -F -e "$1"; then pass; else fail "${2##*/} does not name $1"; fi
}
sed -n 's/.*<mishap id="\([^"]*\)".*/\1/p' "$srcdir/recipes/rescue.xml" >"$work/mishaps"
while read -r word; do listed "$word" "$overview"; done <"$work/jars"
while read -r word; do listed "$word" "$srcdir/cli/pottle-recipes.1"; done <"$work/kinds"
while read -r word; do listed "$word" "$srcdir/cli/pottle-rescue.1"; done <"$work/mishaps"

# the elements of a recipe and of a kitchen file
for what in recipe kitchen; do
    page=$srcdir/docs/man/pottle-$what.5
    sed 's/\\-/-/g' "$page" | grep -e '^\.It Ql ' -e '^\.Ql ' | tr ' ' '\n' >"$work/words"
    grep -o '<element name="[^"]*"' "$srcdir/recipes/schema/$what.rng" | cut -d '"' -f 2 | sort -u >"$work/elements"
    [ -s "$work/elements" ] || fail "$what.rng has no elements"
    while read -r word; do
        if grep -q -x -F -e "$word" "$work/words"; then pass; else fail "${page##*/} does not name the element $word"; fi
    done <"$work/elements"
done

# -- The library -----------------------------------------------------------------

# a prototype of libpottle.3 is that of pottle.h, if a pointer of its type takes the function; each status has an entry
page=$srcdir/docs/man/libpottle.3
if command -v "${CC%% *}" >/dev/null; then
    awk 'BEGIN { print "#include <pottle.h>" }
        /^\.Ft / { sub(/^\.Ft /, ""); gsub(/"/, ""); type = $0 }
        /^\.Fo / { name = $2; args = "" }
        /^\.Fa "/ && name != "" { sub(/^\.Fa "/, ""); sub(/"$/, ""); args = args (args == "" ? "" : ", ") $0 }
        /^\.Fc/ { printf "extern %s (*const p%d)(%s);\n%s (*const p%d)(%s) = %s;\n", type, ++n, args, type, n, args, name; name = "" }
        /^\.Sh DESC/ { exit }' "$page" >"$work/prototypes.c"
    # shellcheck disable=SC2086 # CC may hold options
    if [ "$(grep -c '^extern' "$work/prototypes.c")" -ge 20 ] &&
        $CC -std=c11 -Wall -Wextra -Werror -I"$srcdir/lib" -I"$builddir/lib" -fsyntax-only "$work/prototypes.c"; then
        pass
    else
        fail "libpottle.3 has prototypes that are not those of pottle.h"
    fi
else
    skip "no C compiler, so the prototypes of libpottle.3 are not checked"
fi
sed -n 's/^    \(POTTLE_E[A-Z]*\) = .*/\1/p' "$srcdir/lib/pottle/base.h" >"$work/codes"
sed -n 's/^\.It Dv \(POTTLE_E[A-Z]*\)$/\1/p' "$page" >"$work/entries"
same "$work/codes" "$work/entries" "statuses of pottle.h (<) and of libpottle.3 (>)"
# the functions that the text names are there too
sed -n 's/^\.Fn \(pottle_[a-z_]*\).*/\1/p' "$page" | sort -u >"$work/named"
while read -r word; do
    if grep -q -w -e "$word" "$srcdir"/lib/pottle/*.h; then pass; else fail "libpottle.3 names $word, which pottle.h has not"; fi
done <"$work/named"

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
