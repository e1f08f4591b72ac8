#!/bin/sh
# Runs every tests/cli/NAME.t and compares what it prints, what it says on
# stderr and its exit status with NAME.out, NAME.err and NAME.exit (missing:
# nothing, nothing, 0). It tests arguments and wording; the figures have tests of
# their own.
#
#   builddir=BUILD srcdir=SOURCES sh tests/run-cli.sh [NAME]...
#   UPDATE=1 rewrites what is expected; read the difference before you keep it
#
# Each runs by itself in an empty folder of the build tree, with $pottle the
# built command, recipes/ the catalogue beside it, and the functions of
# tests/cli/functions.sh. Exit status 77 skips it.
#
# Three things are held of every one, whatever it expects:
# - beside an exit status other than 0 nothing stands on stdout but a refusal in
#   JSON (a file that says `# answers beside a failure: WHY` is excused);
# - what a file with json in its name prints is JSON (where jq is at hand);
# - no line begins with !!, by which functions.sh says what can never be right.
set -u

srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
# another command in its place, and another folder to work in (check-places.sh)
pottle=${POTTLE_INSTEAD:-$builddir/cli/pottle}
[ -x "$pottle" ] || { echo "run-cli.sh: there is no $pottle; build it first" >&2; exit 99; }
cases=$srcdir/tests/cli
work=$builddir/tests/${POTTLE_WORK:-cli}.tmp
rm -rf "$work" && mkdir -p "$work" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

LC_ALL=C POTTLE_DATA=recipes
export LC_ALL POTTLE_DATA pottle srcdir builddir
unset POSIXLY_CORRECT LANG LANGUAGE
# no kitchen of whoever runs this
HOME=/nonexistent
export HOME
unset XDG_CONFIG_HOME

have_jq=no
command -v jq >/dev/null && have_jq=yes

# Paths of this machine out of a text.
normalise() {
    awk -v from1="$work" -v to1=WORK -v from2="$builddir" -v to2=BUILD -v from3="$srcdir" -v to3=SOURCES '
        function swap(line, from, to,    i, done) {
            done = ""
            while (from != "/" && (i = index(line, from)) > 0) {
                done = done substr(line, 1, i - 1) to
                line = substr(line, i + length(from))
            }
            return done line
        }
        { print swap(swap(swap($0, from1, to1), from2, to2), from3, to3) }' "$1"
}

# same EXPECTED GOT: says how they differ.
same() {
    if [ -e "$1" ]; then expected=$1; else expected=/dev/null; fi
    diff -u "$expected" "$2"
}

# keep EXPECTED GOT: GOT is what is expected from now on.
keep() {
    if [ -s "$2" ]; then
        cmp -s "$2" "$1" || cp "$2" "$1"
    else
        rm -f "$1"
    fi
}

refusal_or_nothing() {
    [ ! -s "$1" ] || [ "$(tr -d ' \n' <"$1" | cut -c1-11)" = '{"refused":' ]
}

passed=0 failed=0 skipped=0
[ $# -gt 0 ] || set -- "$cases"/*.t
for t; do
    name=$(basename "$t" .t)
    t=$cases/$name.t
    here=$work/$name
    mkdir -p "$here/in" && ln -s "$srcdir/recipes" "$here/in/recipes" || exit 99
    (
        cd "$here/in" || exit 99
        # shellcheck source=/dev/null
        . "$cases/functions.sh"
        # shellcheck source=/dev/null
        . "$t"
    ) >"$here/raw.out" 2>"$here/raw.err" </dev/null
    code=$?
    if [ $code -eq 77 ]; then
        skipped=$((skipped + 1))
        echo "skipped: $name: $(cat "$here/raw.err")"
        continue
    fi
    # a fault is told below, and never kept as what is expected
    normalise "$here/raw.out" | sed '/^!!/d' >"$here/out"
    normalise "$here/raw.err" >"$here/err"
    : >"$here/exit"
    [ $code -eq 0 ] || echo $code >"$here/exit"
    good=yes
    if [ "${UPDATE-}" = 1 ]; then
        for part in out err exit; do
            keep "$cases/$name.$part" "$here/$part" || exit 99
        done
    else
        for part in out err exit; do
            same "$cases/$name.$part" "$here/$part" || good=no
        done
    fi
    if [ $code -ne 0 ] && ! refusal_or_nothing "$here/out" && ! grep -q '^# answers beside a failure: ' "$t"; then
        echo "$name: exit status $code, and yet there is an answer on stdout"
        good=no
    fi
    if grep -q '^!!' "$here/raw.out"; then
        echo "$name: what can never be right:"
        grep -B 4 '^!!' "$here/raw.out"
        good=no
    fi
    case $name in
        *json*)
            if [ $have_jq = yes ] && ! jq -e . "$here/raw.out" >/dev/null; then
                echo "$name: what it prints is not JSON"
                good=no
            fi
            ;;
    esac
    if [ $good = yes ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "failed: $name"
    fi
done

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
