#!/bin/sh
# A command that needs one recipe opens no other recipe file, and no food that the recipe does not use.
set -u
: "${srcdir:=.}" "${builddir:=.}"
srcdir=$(cd "$srcdir" && pwd) && builddir=$(cd "$builddir" && pwd) || exit 99
command -v strace >/dev/null || { echo "skipped: strace is not installed"; exit 77; }
strace -o /dev/null true 2>/dev/null || { echo "skipped: strace may not trace here"; exit 77; }
log=$builddir/tests/opens.tmp
trap 'rm -f "$log"' EXIT
passed=0 failed=0

# opened WANTED WORDS...: the recipe and food files that were opened are those of WANTED, sorted
opened() {
    wanted=$1
    shift
    POTTLE_DATA=$srcdir/recipes strace -f -e trace=openat,open -o "$log" "$builddir/cli/pottle" "$@" >/dev/null 2>&1
    got=$(sed -n "s|.*\"$srcdir/recipes/\([^\"]*\)\".*= [0-9].*|\1|p" "$log" | grep / | sort -u | tr '\n' ' ')
    if [ "$got" = "$wanted " ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "pottle $*"
        echo "  opened $got"
        echo "  wanted $wanted"
    fi
}

opened 'foods/names.xml foods/rhubarb.xml' convert '8 cups diced rhubarb' --to g
opened 'foods/names.xml foods/rhubarb.xml foods/sugar.xml stewed-fruit/rhubarb-stewed.xml' scale rhubarb-stewed --batches 1
opened 'foods/black-pepper.xml foods/canning-salt.xml foods/chile-pepper.xml foods/names.xml foods/onion.xml foods/tomato.xml foods/vinegar.xml salsa/chile-salsa.xml' \
    scale chile-salsa --batches 2
opened 'foods/names.xml vegetable-pack/beans-snap.xml' process beans-snap --jar pint --altitude '300 m'
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
