#!/bin/sh
# The manual, the help texts and the completion say the same, and every example of the manual runs.
#
# An example is a line `.Dl pottle ...`. It ends with status 0, or with N where the line above it is the
# comment `.\" status N`.
set -u

srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
manual=$srcdir/cli/pottle.1
completion=$srcdir/cli/pottle.bash
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
    # what it says of its own index of this machine is no fault of the page
    mandoc -T lint "$manual" 2>&1 | grep -v 'outdated mandoc.db' >"$work/lint"
    if [ -s "$work/lint" ]; then
        fail "mandoc finds:"
        cat "$work/lint"
    else
        pass
    fi
else
    skip "mandoc is not installed, so the form of the manual is not checked"
fi

# -- Examples ------------------------------------------------------------------

# A line each: the status, a blank, the command as one types it.
awk '/^\.\\" status / { status = $3; next }
     /^\.Dl pottle / { sub(/^\.Dl pottle /, ""); gsub(/\\\(aq/, "'\''"); gsub(/\\-/, "-"); print status + 0, $0 }
     { status = 0 }' "$manual" >"$work/examples"
while read -r expected words; do
    # the words are those of our own manual, quoted as for a shell
    eval "set -- $words"
    "$command" "$@" >"$work/out" 2>"$work/err"
    status=$?
    if [ "$status" -ne "$expected" ]; then
        fail "pottle $words: status $status, not $expected"
        cat "$work/err"
    elif [ "$expected" -eq 0 ] && { [ ! -s "$work/out" ] || [ -s "$work/err" ]; }; then
        fail "pottle $words: no answer, or words on stderr"
        cat "$work/err"
    else
        pass
    fi
done <"$work/examples"
count=$(wc -l <"$work/examples")
if [ "$count" -ge 8 ]; then pass; else fail "the manual has $count examples, fewer than 8"; fi

# -- Options -------------------------------------------------------------------

commands=$("$command" --help | sed -n 's/^  pottle \([a-z]*\)  .*/\1/p')
[ "$(echo "$commands" | wc -l)" -ge 7 ] || fail "the help lists fewer than 7 commands"

: >"$work/all"
for c in $commands; do
    "$command" "$c" --help >"$work/text" || fail "pottle $c --help fails"
    # options that the help gives to another command are none of this one
    if [ "$c" != jars ]; then
        sed '/ jars only: /d' "$work/text" >"$work/own" && mv "$work/own" "$work/text"
    fi
    sed -n 's/^  --\([a-z-]*\).*/\1/p' "$work/text" >"$work/help.$c"
    cat "$work/help.$c" >>"$work/all"
    # the part of the manual on it; --json and --help stand before all parts, and jars takes what scale takes
    awk -v head=".Ss $c" -v also="$( [ "$c" != jars ] || echo .Ss scale )" '
        /^\.S[sh] / { on = $0 == head || (also != "" && $0 == also) }
        on' "$manual" | sed -n 's/.*Fl \\-\([a-z-]*\).*/\1/p' >"$work/part"
    printf '%s\n' json help >>"$work/part"
    same "$work/help.$c" "$work/part" "options of pottle $c --help (<) and of its part of the manual (>)"
done
echo version >>"$work/all"
# .Fl \-name in the running text, .It Fl \-name as the head of an entry
sed -n 's/.*Fl \\-\([a-z-]*\).*/\1/p' "$manual" >"$work/manual"
same "$work/all" "$work/manual" "options of the help (<) and the manual (>)"
# each has an entry of its own somewhere
sed -n 's/^\.It Fl \\-\([a-z-]*\).*/\1/p' "$manual" | sort -u >"$work/entries"
echo version >>"$work/entries"
same "$work/all" "$work/entries" "options of the help (<) and those with an entry in the manual (>)"

# -- Completion ----------------------------------------------------------------

if command -v bash >/dev/null; then
    # complete WORD...: what it offers for the last word
    cat >"$work/complete" <<'END'
. "$1" || exit 1
shift
COMP_WORDS=(pottle "$@" '')
COMP_CWORD=$(($# + 1))
_pottle pottle '' "${COMP_WORDS[COMP_CWORD - 1]}"
printf '%s\n' "${COMPREPLY[@]}"
END
    offers() { bash "$work/complete" "$completion" "$@"; }
    for c in $commands; do
        # a check wants files first; their options come with the dash
        if [ "$c" = check ]; then
            sed "s/^_pottle pottle ''/_pottle pottle '--'/" "$work/complete" >"$work/complete.check"
            bash "$work/complete.check" "$completion" "$c"
        else
            offers "$c"
        fi | sed -n 's/^--//p' >"$work/offered"
        same "$work/help.$c" "$work/offered" "options of pottle $c --help (<) and of the completion (>)"
    done
    offers | sed '/^-/d' >"$work/offered"
    echo "$commands" >"$work/commands"
    same "$work/commands" "$work/offered" "commands of the help (<) and of the completion (>)"
    sed -n 's/.*<jar id="\([^"]*\)".*/\1/p' "$srcdir/recipes/jars.xml" >"$work/jars"
    offers scale --jar >"$work/offered"
    same "$work/jars" "$work/offered" "jars of the catalogue (<) and of the completion (>)"
    find "$srcdir/recipes/." -type d | sed -e 's|.*/||' -e '/^\.$/d' -e '/^foods$/d' -e '/^schema$/d' >"$work/kinds"
    offers recipes --kind >"$work/offered"
    same "$work/kinds" "$work/offered" "kinds of the catalogue (<) and of the completion (>)"
    for option in to canner pack as hob; do
        for word in $(offers convert "--$option"); do
            # those of no option are those of the command
            case $word in --*) continue ;; esac
            case $option in
                to) "$command" convert '1 kg onions' --to "$word" ;;
                as) "$command" convert "1 cup $word strawberries" --to cup ;;
                canner) "$command" scale tomatoes-crushed --batches 1 --canner "$word" ;;
                hob) "$command" cook berry-jam-no-pectin --batches 1 --pot-tare '2 kg' --started '4 kg' --burner '2 kW' --hob "$word" ;;
                pack) "$command" process beans-snap --jar pint --altitude '0 m' --pack "$word" ;;
            esac >/dev/null 2>"$work/err"
            # a word may have no answer for this food, but it must be known
            if grep -q -e 'is not a' -e 'unknown' "$work/err"; then
                fail "the completion offers --$option $word, which is not known: $(cat "$work/err")"
            else
                pass
            fi
        done
    done
else
    skip "bash is not installed, so the completion is not checked"
fi

# The words of the catalogue that the manual lists.
tr ' ' '\n' <"$manual" >"$work/words"
for word in $(sed -n 's/.*<jar id="\([^"]*\)".*/\1/p' "$srcdir/recipes/jars.xml") \
    $(find "$srcdir/recipes/." -type d | sed -e 's|.*/||' -e '/^\.$/d' -e '/^foods$/d' -e '/^schema$/d'); do
    if grep -q -x -F -e "$word" "$work/words"; then pass; else fail "the manual does not name $word"; fi
done

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
