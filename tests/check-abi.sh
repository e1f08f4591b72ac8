#!/bin/sh
# The binary interface of the library is the one that lib/pottle.abi keeps: no function that is gone, no type of
# pottle.h with another layout. What is new is fine.
#
# Before the first release, the first heading of docs/NEWS.md with a date, nothing is promised: a difference is told,
# and the result is a skip.
#
# After a change that is meant: UPDATE=1 make check TESTS=tests/check-abi.sh, and POTTLE_LT_VERSION in configure.ac
# by its rule, when the interface was released.
#
# Given: srcdir, builddir. Status: 0, 1; 77 without abigail-tools or debugging information, or where lib/pottle.abi
# is that of another kind of machine.
set -u
LC_ALL=C
export LC_ALL
: "${srcdir:=.}" "${builddir:=.}"
{ command -v abidw && command -v abidiff; } >/dev/null || { echo "SKIP: no abidw, of abigail-tools"; exit 77; }
library=$builddir/lib/.libs/libpottle.so
kept=$srcdir/lib/pottle.abi
[ -f "$library" ] || { echo "SKIP: no $library"; exit 77; }
readelf -S "$library" 2>/dev/null | grep -q '\.debug_info' || { echo "SKIP: $library has no debugging information"; exit 77; }
# a sanitizer puts more around the types
if grep -q '__asan_init' "$library"; then echo "SKIP: a library with sanitizers"; exit 77; fi

now=$builddir/tests/abi.made
trap 'rm -f "$now" "$now.said"' EXIT
trap 'exit 99' HUP INT TERM
# what pottle.h shows, without places and folders, so that the file changes with the interface alone
abidw --no-corpus-path --no-comp-dir-path --no-show-locs --no-elf-needed --type-id-style hash --exported-interfaces-only \
    --headers-dir "$srcdir/lib/pottle" --header-file "$srcdir/lib/pottle.h" --drop-private-types --out-file "$now" "$library" ||
    { echo "check-abi.sh: abidw fails"; exit 1; }
# a list that is empty would be compatible with anything
symbols=$(grep -c "<elf-symbol name='pottle_" "$now")
[ "$symbols" -ge 100 ] || { echo "check-abi.sh: only $symbols functions are seen"; exit 1; }

if [ "${UPDATE:-}" = 1 ]; then
    cp "$now" "$kept"
    echo "lib/pottle.abi: $symbols functions"
    exit 0
fi
machine() { sed -n "s/.*architecture='\([^']*\)'.*/\1/p" "$1" | head -n 1; }
if [ "$(machine "$now")" != "$(machine "$kept")" ]; then
    echo "SKIP: lib/pottle.abi is of $(machine "$kept"), this is $(machine "$now")"
    exit 77
fi
if abidiff --no-added-syms "$kept" "$now" >"$now.said" 2>&1; then
    echo "$symbols functions; none is gone, no type has changed"
    exit 0
fi
cat "$now.said"
if ! grep -q '^## [0-9.]* ([0-9]' "$srcdir/docs/NEWS.md"; then
    echo "SKIP: the interface has changed since lib/pottle.abi was written, but none was released yet"
    exit 77
fi
echo "check-abi.sh: the interface is not that of lib/pottle.abi; the head of tests/check-abi.sh says what to do"
exit 1
