#!/bin/sh
# Which branches of some sources the tests have taken:
#
#   srcdir=SOURCES sh tests/coverage.sh FILE...
#
# in a build folder that was configured with --enable-coverage and in which the
# tests have run. A branch that was never taken must stand in
# tests/coverage.allowed with its line and the reason; one more, or one fewer,
# and the exit status is 1. `make coverage` runs it.
set -u

srcdir=${srcdir:-..}
command -v gcov >/dev/null || { echo "coverage.sh: there is no gcov" >&2; exit 77; }

bad=0
for file; do
    object=$(dirname "$file")/.libs/$(basename "$file" .c).o
    [ -e "${object%.o}.gcda" ] || { echo "coverage.sh: $file was never run; --enable-coverage?" >&2; exit 99; }
    gcov -t -b -c -o "$object" "$srcdir/$file" 2>/dev/null |
        awk -v file="$file" -v allowed="$srcdir/tests/coverage.allowed" '
        function squeeze(s) { gsub(/[ \t]+/, " ", s); sub(/^ /, "", s); sub(/ $/, "", s); return s }
        BEGIN {
            while ((getline line < allowed) > 0) {
                if (line ~ /^#/ || line == "")
                    continue
                if (line ~ /^    /) {
                    reason = 1
                } else if (line ~ /^- [0-9]+: /) {
                    n = line; sub(/^- /, "", n); sub(/:.*/, "", n)
                    sub(/^- [0-9]+: /, "", line)
                    if (of == file) { may[squeeze(line)] = n; waits = line }
                    reason = 0
                } else {
                    of = line
                }
                if (reason) waits = ""
            }
            if (waits != "") { print file ": no reason for: " waits; fault = 1 }
        }
        /^ *[-#=0-9]+[*]?: *[0-9]+:/ {
            if ($0 ~ /^ *[-#=0-9]+\*?: *0:Source:/) { ours = index($0, file) > 0; next }
            text = $0; sub(/^[^:]*: *[0-9]+:/, "", text); text = squeeze(text)
            number = $0; sub(/^[^:]*: */, "", number); sub(/:.*/, "", number)
        }
        ours && /^branch/ {
            all++
            if (/never executed/ || /taken 0($| )/) { missed[text]++; where[text] = number }
            else taken++
        }
        END {
            for (t in missed) {
                known += missed[t]
                if (missed[t] != may[t] + 0) {
                    print file ":" where[t] ": " missed[t] " branches not taken, " may[t] + 0 " allowed: " t
                    fault = 1
                }
            }
            for (t in may)
                if (!(t in missed)) { print file ": allowed, but taken, or no such line: " t; fault = 1 }
            if (all == 0) { print file ": no branches found"; exit 1 }
            printf "%-28s %4d branches, %4d taken, %2d excluded: %.1f %% of the rest\n", file, all, taken, known,
                100 * taken / (fault ? all : all - known)
            exit fault
        }' || bad=1
done
exit $bad
