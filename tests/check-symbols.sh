#!/bin/sh
# check-symbols.sh - the built library gives out what pottle.h promises and
# nothing else: pottle_ functions only, each prototype marked POTTLE_API is there,
# and what is there has such a prototype.
#
# Given: srcdir, builddir, NM from the environment. Status: 0, 1, 77 without nm or
# without a shared library.
set -u
LC_ALL=C
export LC_ALL
: "${srcdir:=.}" "${builddir:=.}" "${NM:=nm}"

for tool in awk grep sed sort comm; do
    command -v "$tool" >/dev/null 2>&1 || { echo "SKIP: no $tool"; exit 77; }
done
# NM may hold options: "nm -B"
# shellcheck disable=SC2086
set -- $NM
command -v "$1" >/dev/null 2>&1 || { echo "SKIP: no $1"; exit 77; }
library=$builddir/lib/.libs/libpottle.so
[ -f "$library" ] || { echo "SKIP: no $library"; exit 77; }

scratch=check-symbols.$$.tmp
trap 'rm -rf "$scratch"' EXIT
trap 'exit 99' HUP INT TERM
mkdir "$scratch" || exit 99

# shellcheck disable=SC2086
$NM -D -P "$library" >"$scratch/all" || exit 99
awk 'NF >= 2 && $2 != "U" && $2 != "w" && $2 != "v" { sub(/@.*/, "", $1); print $2, $1 }' "$scratch/all" >"$scratch/shown"

# A sanitizer or gcov exports names of its own; the C library keeps those with two
# underscores for such.
if grep -qE '^__(asan|ubsan|gcov|llvm|tsan|msan)' "$scratch/all"; then
    echo "NOTE: an instrumented library, names with two underscores are left out"
    grep -vE '^. (__|_ZN|mangle_path)' "$scratch/shown" >"$scratch/less"
    mv "$scratch/less" "$scratch/shown"
fi

status=0
# the five that older linkers put into every shared library
if grep -vE '^[TWi] pottle_[a-z0-9_]+$' "$scratch/shown" | grep -vE ' (_init|_fini|_edata|_end|__bss_start)$'; then
    echo "these are no pottle_ functions, and $library gives them out"
    status=1
fi

# A prototype ends with its semicolon; the name stands before the first bracket.
cat "$srcdir"/lib/pottle.h "$srcdir"/lib/pottle/*.h | awk '
    /^[[:space:]]*#/ { next }
    {
        line = $0
        while (line != "") {
            if (inside) {
                n = index(line, "*/")
                if (n == 0) break
                line = substr(line, n + 2); inside = 0
            }
            n = index(line, "/*")
            if (n == 0) { text = text " " line; break }
            text = text " " substr(line, 1, n - 1)
            line = substr(line, n + 2); inside = 1
        }
    }
    END {
        count = split(text, part, ";")
        for (i = 1; i <= count; i++) {
            p = part[i]
            if (p !~ /POTTLE_API/) continue
            sub(/^.*POTTLE_API/, "", p)
            gsub(/POTTLE_NONNULL[[:space:]]*\([^)]*\)/, "", p)
            sub(/[[:space:]]*\(.*$/, "", p)
            sub(/^.*[^A-Za-z0-9_]/, "", p)
            print p
        }
    }' | sort >"$scratch/promised"
awk '$1 ~ /[TWi]/ && $2 ~ /^pottle_/ { print $2 }' "$scratch/shown" | sort -u >"$scratch/given"

# a reading of the headers that finds little would prove nothing
[ "$(wc -l <"$scratch/promised")" -ge 50 ] || { echo "the prototypes of pottle.h cannot be read"; exit 99; }
grep -q '^pottle_scale$' "$scratch/promised" || { echo "the prototypes of pottle.h cannot be read"; exit 99; }
if [ -n "$(uniq -d "$scratch/promised")" ]; then
    uniq -d "$scratch/promised"
    echo "declared twice"
    status=1
fi
sort -u "$scratch/promised" >"$scratch/once"
if [ -n "$(comm -23 "$scratch/once" "$scratch/given")" ]; then
    comm -23 "$scratch/once" "$scratch/given"
    echo "declared and not in $library"
    status=1
fi
if [ -n "$(comm -13 "$scratch/once" "$scratch/given")" ]; then
    comm -13 "$scratch/once" "$scratch/given"
    echo "in $library and not declared"
    status=1
fi
[ $status -eq 0 ] && echo "$(wc -l <"$scratch/once") functions, declared and given out"
exit $status
