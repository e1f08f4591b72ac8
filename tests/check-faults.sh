#!/bin/sh
# check-faults.sh - every command where memory, reading and writing fail.
#
# A library that is put before the command (tests/faults/shim.h) makes the n-th
# allocation, the n-th call that reads a file and the n-th that writes one fail,
# and kills it at every byte that it writes. Whatever fails, the command ends with
# status 1 and one message, and prints no part of an answer; the kitchen file is
# the whole old one or the whole new one.
#
# Given: srcdir, builddir. Status: 0, 1, 77 where the library cannot be used.
set -u
: "${srcdir:=.}" "${builddir:=.}"
srcdir=$(cd "$srcdir" && pwd) && builddir=$(cd "$builddir" && pwd) || exit 99
shim=$builddir/tests/faults/.libs/shim.so
[ -f "$shim" ] || { echo "skipped: there is no $shim; it is made where libraries are shared"; exit 77; }
# the command itself, which libtool's script would start
pottle=$builddir/cli/.libs/pottle
[ -x "$pottle" ] || { echo "skipped: there is no $pottle"; exit 77; }
if grep -q __asan_init "$pottle"; then
    echo "skipped: a sanitizer keeps the memory itself"
    exit 77
fi
LD_LIBRARY_PATH=$builddir/lib/.libs
LC_ALL=C HOME=/nonexistent
export LD_LIBRARY_PATH LC_ALL HOME
unset XDG_CONFIG_HOME LD_PRELOAD

work=$builddir/tests/faults.tmp
rm -rf "$work" && mkdir -p "$work/few/chutney" "$work/in" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
cd "$work/in" || exit 99

# a catalogue of few recipes, for what goes through all of them
for f in "$srcdir"/recipes/*.xml "$srcdir/recipes/foods" "$srcdir/recipes/schema" "$srcdir/recipes/butter"; do
    ln -s "$f" "$work/few/" || exit 99
done
ln -s "$srcdir/recipes/chutney/cranberry-orange-chutney.xml" "$work/few/chutney/" || exit 99

failed=0 tried=0

# faulty MODE WORDS...: the shim's own run of the command; its log becomes $work/log
faulty() {
    mode=$1
    shift
    : >"$work/out" && : >"$work/err" && rm -f "$work/log"
    POTTLE_FAULT=$mode POTTLE_FAULT_LOG=$work/log LD_PRELOAD=$shim "$pottle" "$@" \
        1<>"$work/out" 2<>"$work/err" <"$input"
    code=$?
    if ! grep -q '^tried [1-9]' "$work/log" 2>/dev/null; then
        echo "pottle $*: no fault was tried ($mode, exit status $code)"
        failed=$((failed + 1))
    elif [ "$(wc -l <"$work/log")" -ne 1 ]; then
        echo "pottle $*: $mode: $(($(wc -l <"$work/log") - 1)) wrong"
        grep -v '^tried ' "$work/log" | head -n 20
        failed=$((failed + 1))
    fi
    faults=$(sed -n 's/^tried //p' "$work/log")
    [ "$mode" = count ] || tried=$((tried + ${faults:-0}))
}

# tries STATUS WORDS...: memory and reading, beside a run without faults that ends with STATUS
tries() {
    wanted=$1
    shift
    "$pottle" "$@" >"$work/whole.out" 2>"$work/whole.err" <"$input"
    POTTLE_FAULT_STATUS=$? POTTLE_FAULT_WHOLE=$work/whole
    export POTTLE_FAULT_STATUS POTTLE_FAULT_WHOLE
    if [ $POTTLE_FAULT_STATUS -ne "$wanted" ]; then
        echo "pottle $*: exit status $POTTLE_FAULT_STATUS, and not $wanted"
        cat "$work/whole.err"
        failed=$((failed + 1))
        return
    fi
    faulty count "$@"
    POTTLE_FAULT_ALL=$faults
    export POTTLE_FAULT_ALL
    faulty allocations "$@"
    faulty reading "$@"
}

# both STATUS WORDS...: as text and as JSON
both() {
    tries "$@"
    tries "$@" --json
}

POTTLE_DATA=$srcdir/recipes
export POTTLE_DATA
input=/dev/null

both 0 convert '8 cups diced rhubarb' --to g
both 0 scale tomatoes-crushed --fill '14 quart' --altitude '900 m'
tries 0 jars rhubarb-stewed --batches 1
both 0 process beans-snap --jar pint --altitude '900 m'
both 0 chain rhubarb-stewed --picked '25 lb'
both 0 cook apple-butter --batches 1 --pot-tare '2.1 kg' --started '6.8 kg'
both 0 gel --altitude '900 m'
both 0 liquid syrup --class light --fill '9 pint'
both 0 rescue jar-not-sealed --hours 6
both 0 fill rhubarb-stewed --fill '14 quart' --shelf '10 quart' --shelf '8 pint' --altitude '900 m'
both 0 show rhubarb
both 0 show rhubarb-stewed
both 0 show --list jars
both 0 jar measure bail --empty '412 g' --full '1180 g' --kitchen k.xml
both 0 jar list --kitchen k.xml
both 0 kitchen set altitude '900 m' --kitchen k.xml
both 0 kitchen --kitchen k.xml
both 4 process beans-snap --jar half-gallon --altitude '900 m'
tries 0 check "$srcdir/recipes/stewed-fruit/rhubarb-stewed.xml"
POTTLE_DATA=$work/few
both 0 recipes --uses apple
both 0 recipes --have '4 kg apples'
input=$work/lines
# the second line is longer than the room for the first
printf '8 cups diced rhubarb\n2 lb apples%150s\n' ' ' >"$input"
tries 0 convert - --to g
printf '8 cups diced rhubarb\n' >"$input"
tries 0 convert - --to g --json

# the kitchen file: each version sets one thing more
input=/dev/null
kitchen() {
    "$pottle" kitchen set "$@" --kitchen k.xml >/dev/null || exit 99
}
rm -f k.xml k.xml~
kitchen altitude '900 m' && cp k.xml "$work/older" || exit 99
kitchen thermometer '1 degF low'
kitchen cup metric
kitchen scale '0.5 %'
kitchen canner 'Big blue' dial-gauge --holds '7 quart' --holds '18 pint' --gauge '1 1/2 psi high'
kitchen canner kettle boiling-water --holds '7 quart'
kitchen pot 'jam pan' --tare '2.1 kg' --width '28 cm' && cp k.xml "$work/old" || exit 99
kitchen jars '24 half-pint' '14 quart' && cp k.xml "$work/new" || exit 99
POTTLE_FAULT_FILE=k.xml POTTLE_FAULT_OLDER=$work/older POTTLE_FAULT_OLD=$work/old POTTLE_FAULT_NEW=$work/new
export POTTLE_FAULT_FILE POTTLE_FAULT_OLDER POTTLE_FAULT_OLD POTTLE_FAULT_NEW
faulty disk kitchen set jars '24 half-pint' '14 quart' --kitchen k.xml
faulty kill kitchen set jars '24 half-pint' '14 quart' --kitchen k.xml
[ "${faults:-0}" -ge 1000 ] || { echo "killed ${faults:-0} times, and not a thousand"; failed=$((failed + 1)); }

echo "$tried faults, $failed commands failed"
[ $failed -eq 0 ]
