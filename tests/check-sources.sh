#!/bin/sh
# docs/SOURCES.md says what the catalogue says. UPDATE=1 rewrites it.
set -eu
: "${srcdir:=.}" "${builddir:=.}"
program=$builddir/tests/list_sources
[ -x "$program" ] || { echo "skipped: $program is not built"; exit 77; }
made=$builddir/tests/SOURCES.md.made
"$program" "$srcdir/recipes" >"$made"
if [ "${UPDATE:-0}" = 1 ]; then
    cp "$made" "$srcdir/docs/SOURCES.md"
fi
diff -u "$srcdir/docs/SOURCES.md" "$made" || { echo "docs/SOURCES.md is out of date: UPDATE=1 sh tests/check-sources.sh"; exit 1; }
rm -f "$made"
