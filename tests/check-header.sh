#!/bin/sh
# check-header.sh - pottle.h is all that a program needs: it compiles alone as C11,
# C17 and C2x, as C++11, C++17 and C++20, with the warnings on, a part of it alone is refused, and a small
# program in C and one in C++ that link the library run.
#
# Given: srcdir, builddir, CC, CXX from the environment. Status: 0, 1, 77 without a
# compiler.
set -u
LC_ALL=C
export LC_ALL
: "${srcdir:=.}" "${builddir:=.}" "${CC:=cc}" "${CXX:=c++}"

# CC and CXX may hold options: "gcc -m32"
# shellcheck disable=SC2086
have() { set -- $1; [ $# -gt 0 ] && command -v "$1" >/dev/null 2>&1; }
have "$CC" || { echo "SKIP: no C compiler"; exit 77; }

scratch=check-header.$$.tmp
trap 'rm -rf "$scratch"' EXIT
trap 'exit 99' HUP INT TERM
mkdir "$scratch" || exit 99
status=0

fail() {
    echo "FAIL: $*"
    status=1
}

warnings='-Wall -Wextra -Wpedantic -Wshadow -Wundef -Wconversion -Wsign-conversion
    -Wcast-qual -Wwrite-strings -Wredundant-decls -Werror'

# An option that a compiler does not know is no fault of the header: a standard is
# only asked of one that compiles an empty file with it.
compiles() { # LANGUAGE STANDARD FILE
    # shellcheck disable=SC2086
    case $1 in
    c) $CC -x c "-std=$2" $warnings -Wstrict-prototypes -I"$srcdir/lib" -I"$builddir/lib" -fsyntax-only "$3" ;;
    c++) $CXX -x c++ "-std=$2" $warnings -I"$srcdir/lib" -I"$builddir/lib" -fsyntax-only "$3" ;;
    esac
}

printf 'int main(void);\nint main(void) { return 0; }\n' >"$scratch/empty.c"
printf 'int main() { return 0; }\n' >"$scratch/empty.cc"

# twice: the guard must hold
printf '#include <pottle.h>\n#include <pottle.h>\nint main(void);\nint main(void) { return POTTLE_OK; }\n' >"$scratch/alone.c"
printf '#include <pottle.h>\n#include <pottle.h>\nint main() { return POTTLE_OK; }\n' >"$scratch/alone.cc"

tried=
for standard in c11 c17 c2x; do
    compiles c $standard "$scratch/empty.c" >/dev/null 2>&1 || { echo "NOTE: $CC knows no $standard"; continue; }
    compiles c $standard "$scratch/alone.c" || fail "pottle.h alone, $standard"
    tried="$tried $standard"
done
have_cxx=no
for standard in c++11 c++17 c++20; do
    have "$CXX" || continue
    compiles c++ $standard "$scratch/empty.cc" >/dev/null 2>&1 || continue
    [ $standard != c++17 ] || have_cxx=yes
    compiles c++ $standard "$scratch/alone.cc" || fail "pottle.h alone, $standard"
    tried="$tried $standard"
done
if [ $have_cxx = no ]; then
    echo "NOTE: no compiler of C++17"
fi
[ -n "$tried" ] || { echo "SKIP: no standard that is known"; exit 77; }

parts=0
for part in "$srcdir"/lib/pottle/*.h "$builddir"/lib/pottle/*.h; do
    [ -f "$part" ] || continue
    name=${part##*/}
    printf '#include <pottle/%s>\nint main(void);\nint main(void) { return 0; }\n' "$name" >"$scratch/part.c"
    if compiles c c11 "$scratch/part.c" >"$scratch/said" 2>&1; then
        fail "pottle/$name may be included alone"
    elif ! grep -q 'include <pottle.h>' "$scratch/said"; then
        cat "$scratch/said"
        fail "pottle/$name does not say what to include instead"
    fi
    parts=$((parts + 1))
done
[ $parts -ge 4 ] || fail "pottle.h has four parts, $parts are found"

# -- A program of somebody else ---------------------------------------------

# 1 lb = 453.59237 g exactly (international yard and pound agreement of 1959)
cat >"$scratch/program.c" <<'END'
#include <pottle.h>
#include <stdio.h>
#include <string.h>

int
main(void)
{
    pottle_quantity q;
    pottle_error error;
    double g = 0;
    if (pottle_quantity_read("2 lb", POTTLE_MASS, &q, &error) != POTTLE_OK)
        return 2;
    if (pottle_unit_convert(q.low, q.unit, pottle_unit_find("g"), &g, &error) != POTTLE_OK)
        return 3;
    if (strcmp(pottle_version(), POTTLE_VERSION_TEXT) != 0)
        return 4;
    printf("%.5f\n", g);
    return 0;
}
END
sed 's/main(void)/main()/' "$scratch/program.c" >"$scratch/program.cc"

library=$builddir/lib/.libs/libpottle.so
if [ ! -f "$library" ]; then
    echo "NOTE: no $library, so no program is linked"
    exit $status
fi
sanitize=
if grep -q '__asan_init' "$library"; then
    sanitize=-fsanitize=address,undefined
fi

run() { # LANGUAGE
    # shellcheck disable=SC2086
    case $1 in
    C) $CC -std=c11 -I"$srcdir/lib" -I"$builddir/lib" $sanitize -o "$scratch/program" "$scratch/program.c" -L"$builddir/lib/.libs" -lpottle ;;
    C++) $CXX -std=c++17 -I"$srcdir/lib" -I"$builddir/lib" $sanitize -o "$scratch/program" "$scratch/program.cc" -L"$builddir/lib/.libs" -lpottle ;;
    esac || { fail "a program in $1 does not link"; return; }
    said=$(LD_LIBRARY_PATH=$builddir/lib/.libs${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH} "$scratch/program") ||
        { fail "a program in $1 gives $?"; return; }
    [ "$said" = 907.18474 ] || fail "a program in $1: 2 lb are $said g"
}
run C
[ $have_cxx = yes ] && run C++
[ $status -eq 0 ] && echo "pottle.h stands alone:$tried"
exit $status
