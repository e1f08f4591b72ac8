#!/bin/sh
# Every example of the manual pages does what the page says.
#
# An example is the line `.Dl pottle ...`, of which only the exit status is looked at, or a command in a literal
# block, `$ pottle ...`, with the output that it must have word for word below it; a line of the command that ends
# with a backslash goes on. It ends with status 0, or with N where `.\" status N` stands above it. The files that
# examples read stand in literal blocks too, below `.\" file NAME`. The examples of a page are run one after the
# other in one empty folder.
#
# UPDATE=1 writes the output that they have into the pages: read the difference before you keep it.
set -u

srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
command=$builddir/cli/pottle
[ -x "$command" ] || { echo "check-examples.sh: there is no $command; build it first" >&2; exit 99; }
work=$builddir/tests/examples.tmp
rm -rf "$work" && mkdir -p "$work/bin" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
POTTLE_DATA=$srcdir/recipes LC_ALL=C HOME=/nonexistent PATH=$work/bin:$PATH
export POTTLE_DATA LC_ALL HOME PATH
unset XDG_CONFIG_HOME
printf '#!/bin/sh\nexec "%s" "$@"\n' "$command" >"$work/bin/pottle" && chmod +x "$work/bin/pottle" || exit 99

passed=0 failed=0
pass() { passed=$((passed + 1)); }
fail() { failed=$((failed + 1)); echo "check-examples.sh: $*"; }

# roff of the few characters that the examples hold, and back
plain='s/\\(aq/'\''/g; s/\\-/-/g; s/^\\&//; s/\\e/\\/g'
escape='s/\\/\\e/g; s/-/\\-/g; s/'\''/\\(aq/g; s/^\./\\\&./'

# split PAGE FOLDER: N.command N.status N.want for each example, in their order, and the files in FOLDER/files.
# A `want` is there only where the page shows the output.
split() {
    mkdir -p "$2/files" &&
        awk -v to="$2" '
            /^\.\\" status / { status = $3; next }
            /^\.\\" file / { file = $3; next }
            /^\.Dl pottle / { sub(/^\.Dl /, ""); print > (to "/" ++n ".command"); print status + 0 > (to "/" n ".status") }
            /^\.Bd -literal/ { block = 1; next }
            /^\.Ed/ { block = 0; out = ""; file = ""; status = 0; next }
            block && file != "" { print > (to "/files/" file); next }
            block && /^\$ pottle/ {
                sub(/^\$ /, ""); out = to "/" ++n ".command"; more = 1
                print status + 0 > (to "/" n ".status"); printf "" > (to "/" n ".want")
            }
            block && out != "" { print > (more ? out : to "/" n ".want"); more = more && /\\e$/; next }
            !block { status = 0 }' "$1"
}

for page in "$srcdir"/cli/*.1 "$srcdir"/docs/man/*.[35]; do
    [ -f "$page" ] || continue
    split "$page" "$work/all" || exit 99
done
for file in "$work"/all/files/*; do
    [ -f "$file" ] || continue
    sed "$plain" "$file" >"$file.plain" && mv "$file.plain" "$file"
done

for page in "$srcdir"/cli/*.1 "$srcdir"/docs/man/*.[35]; do
    [ -f "$page" ] || continue
    name=${page##*/}
    folder=$work/$name
    split "$page" "$folder" || exit 99
    if [ "${name%.1}" != "$name" ]; then
        if [ -f "$folder/1.command" ]; then pass; else fail "$name has no example"; fi
    fi
    mkdir "$folder/run" || exit 99
    [ ! -d "$work/all/files" ] || cp "$work/all/files"/* "$folder/run" 2>/dev/null
    n=1
    while [ -f "$folder/$n.command" ]; do
        words=$(sed "$plain" "$folder/$n.command")
        read -r expected <"$folder/$n.status"
        # as one types it: the output and the messages come on one screen
        (cd "$folder/run" && sh -c "$words") >"$folder/$n.out" 2>"$folder/$n.err"
        status=$?
        cat "$folder/$n.err" >>"$folder/$n.out"
        if [ $status -ne "$expected" ]; then
            fail "$name: $words: status $status, not $expected"
            cat "$folder/$n.err"
        elif [ ! -f "$folder/$n.want" ] && [ "$expected" -eq 0 ] &&
            { [ ! -s "$folder/$n.out" ] || [ -s "$folder/$n.err" ]; }; then
            fail "$name: $words: no answer, or words on stderr"
            cat "$folder/$n.err"
        elif [ -f "$folder/$n.want" ] && [ "${UPDATE:-}" != 1 ]; then
            sed "$plain" "$folder/$n.want" >"$folder/$n.right"
            if diff "$folder/$n.right" "$folder/$n.out" >"$folder/difference"; then
                pass
            else
                fail "$name: $words: the page (<) shows what is not printed (>)"
                cat "$folder/difference"
            fi
        else
            pass
        fi
        sed "$escape" "$folder/$n.out" >"$folder/$n.shown"
        n=$((n + 1))
    done
    if [ "${UPDATE:-}" = 1 ]; then
        awk -v from="$folder" '
            /^\.Dl pottle / { n++ }
            /^\.Bd -literal/ { block = 1 }
            /^\.Ed/ { block = 0; mine = 0 }
            block && /^\$ pottle/ { mine = 1; more = 1; n++ }
            !mine { print; next }
            more { print; more = /\\e$/; if (!more) { while ((getline line < (from "/" n ".shown")) > 0) print line } }
            ' "$page" >"$work/page" && { cmp -s "$work/page" "$page" || cat "$work/page" >"$page"; }
    fi
done

[ $failed -eq 0 ] || echo "check-examples.sh: if the command is right: UPDATE=1 make check TESTS=tests/check-examples.sh"
echo "$passed passed, $failed failed"
[ $failed -eq 0 ] && [ $passed -gt 0 ]
