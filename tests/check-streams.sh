#!/bin/sh
# check-streams.sh - every command where a standard stream is closed or full, or
# nobody reads it; and kitchen files where none can be.
#
# Given: srcdir, builddir. Status: 0, 1, 77 where there is no /dev/full.
set -u
: "${srcdir:=.}" "${builddir:=.}"
srcdir=$(cd "$srcdir" && pwd) && builddir=$(cd "$builddir" && pwd) || exit 99
[ -c /dev/full ] || { echo "skipped: there is no /dev/full"; exit 77; }
pottle=$builddir/cli/pottle
LC_ALL=C HOME=/nonexistent POTTLE_DATA=$srcdir/recipes
export LC_ALL HOME POTTLE_DATA
unset XDG_CONFIG_HOME

work=$builddir/tests/streams.tmp
rm -rf "$work" && mkdir -p "$work/in" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
cd "$work/in" || exit 99
# libtool's script links anew at the first run, which is not to be seen here
"$pottle" --version >/dev/null || exit 99

passed=0 failed=0
wrong() {
    failed=$((failed + 1))
    echo "pottle $words: $*"
    sed 's/^/    /' "$work/err"
}

# ended STATUS MESSAGES CASE: how the last run ended, and how many lines of its own it said
ended() {
    if [ "$code" -ne "$1" ]; then
        wrong "$3: exit status $code, and not $1"
    elif [ "$(wc -l <"$work/err")" -ne "$2" ] || [ "$(grep -c '^pottle: ' "$work/err")" -ne "$2" ]; then
        wrong "$3: not $2 messages"
    else
        passed=$((passed + 1))
    fi
}

# unread WORDS...: into a pipe that nobody reads any more
unread() {
    rm -f pipe && mkfifo pipe || exit 99
    # shellcheck disable=SC2188 # opens it, and no more
    <pipe &
    exec 3>pipe
    wait
    "$pottle" "$@" >&3 2>"$work/err"
    code=$?
    exec 3>&-
}

# streams WORDS...: a command that prints an answer
streams() {
    words=$*
    "$pottle" "$@" >/dev/full 2>"$work/err"; code=$?
    ended 1 1 'a full disk'
    "$pottle" "$@" >&- 2>"$work/err"; code=$?
    ended 1 1 'stdout closed'
    # the signal says it: 128 and its number
    unread "$@"
    ended 141 0 'nobody reads'
    (trap '' PIPE && unread "$@" && exit $code); code=$?
    ended 1 1 'nobody reads, signal ignored'
    "$pottle" "$@" >"$work/whole" 2>/dev/null; code=$?
    : >"$work/err"
    ended 0 0 'nothing is wrong'
    "$pottle" "$@" >"$work/out" 2>&-; code=$?
    ended 0 0 'stderr closed'
    cmp -s "$work/out" "$work/whole" || wrong 'stderr closed: another answer'
    "$pottle" "$@" >"$work/out" 2>/dev/null <&-; code=$?
    ended 0 0 'stdin closed'
    cmp -s "$work/out" "$work/whole" || wrong 'stdin closed: another answer'
    "$pottle" "$@" >/dev/full 2>/dev/full; code=$?
    ended 1 0 'both full'
}

both() {
    streams "$@"
    streams "$@" --json
}

both convert '8 cups diced rhubarb' --to g
both scale tomatoes-crushed --fill '14 quart' --altitude '900 m'
both jars rhubarb-stewed --batches 1
both process beans-snap --jar pint --altitude '900 m'
both recipes --uses rhubarb
both chain rhubarb-stewed --picked '25 lb'
both cook apple-butter --batches 1 --pot-tare '2.1 kg' --started '6.8 kg'
both gel --altitude '900 m'
both liquid syrup --class light --fill '9 pint'
both rescue jar-not-sealed --hours 6
both fill rhubarb-stewed --fill '14 quart' --shelf '10 quart' --shelf '8 pint'
both show rhubarb
both jar measure bail --empty '412 g' --full '1180 g' --kitchen k.xml
both kitchen set altitude '900 m' --kitchen k.xml
both check "$srcdir/recipes/jars.xml"
streams --help
streams --version
streams scale --help

# lines that cannot be read
words='convert - --to g'
"$pottle" convert - --to g <&- >"$work/out" 2>"$work/err"; code=$?
ended 1 1 'stdin closed'
"$pottle" convert - --to g <"$work" >"$work/out" 2>"$work/err"; code=$?
ended 1 1 'stdin is a folder'
# of many lines the first is read and then nobody reads on
# (far more than a pipe holds)
awk 'BEGIN { for (i = 0; i < 20000; i++) print "2 lb apples" }' >"$work/lines"
got=$({ "$pottle" convert - --to g <"$work/lines" 2>"$work/err"; echo $? >"$work/code"; } | head -n 1)
code=$(cat "$work/code")
ended 141 0 'head -1'
case $got in *907*g*) ;; *) wrong "head -1: '$got'" ;; esac

# A place where no kitchen file can be. Root may write where others may not, so
# these are no matter of permission.
nowhere() {
    words=$*
    "$pottle" "$@" >"$work/out" 2>"$work/err"; code=$?
    ended 1 1 'nowhere to write'
    [ ! -s "$work/out" ] || wrong 'and yet there is an answer'
}
mkdir folder
echo file >file
ln -s nothing link
nowhere kitchen set altitude '1 m' --kitchen none/k.xml
nowhere kitchen set altitude '1 m' --kitchen /proc/k.xml
nowhere kitchen set altitude '1 m' --kitchen folder
nowhere kitchen set altitude '1 m' --kitchen file/k.xml
nowhere kitchen set altitude '1 m' --kitchen link
nowhere kitchen --kitchen folder
for HOME in /dev/null /proc "$work/in/file"; do
    nowhere kitchen set altitude '1 m'
    # who has no home can still cook
    words="convert with HOME=$HOME"
    "$pottle" convert '1 cup sugar' --to g >"$work/out" 2>"$work/err"; code=$?
    ended 0 0 'no home'
done
HOME=/nonexistent
if [ "$(id -u)" -ne 0 ]; then
    mkdir shut && cp k.xml shut/k.xml && chmod 555 shut || exit 99
    nowhere kitchen set altitude '1 m' --kitchen shut/k.xml
    cmp k.xml shut/k.xml || wrong 'the file has changed'
    chmod 755 shut
fi
[ "$(cat file)" = file ] || wrong 'another file was written'
[ -z "$(find . -name '*.new')" ] || wrong 'files are left about'

echo "$passed passed, $failed failed"
[ $failed -eq 0 ]
