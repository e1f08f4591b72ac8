#!/bin/sh
# check-places.sh - all of tests/cli where numbers have a comma (German), where i
# and I are not one letter (Turkish), and where there is no home: each answer is
# byte for byte that of every other place. Then all of them once more, each command
# in a folder that it cannot write to, but for those that are to write; root, whom
# no mode stops, is nobody for that.
#
# Given: srcdir, builddir. Status: 0, 1, 77 where the locales cannot be made.
set -u
: "${srcdir:=.}" "${builddir:=.}"
srcdir=$(cd "$srcdir" && pwd) && builddir=$(cd "$builddir" && pwd) || exit 99
export srcdir builddir
unset UPDATE
command -v localedef >/dev/null || { echo "skipped: localedef is not installed"; exit 77; }
work=$builddir/tests/places.tmp
rm -rf "$work" && mkdir -p "$work/locale" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

for name in de_DE tr_TR; do
    localedef -i $name -f UTF-8 "$work/locale/$name.UTF-8" >"$work/log" 2>&1
    # it gives 1 for a mere warning
    if [ $? -gt 1 ] || [ ! -d "$work/locale/$name.UTF-8" ]; then
        echo "skipped: the sources of $name are not installed (package locales)"
        exit 77
    fi
done
# or a name that is not known would be taken for C
point=$(LOCPATH=$work/locale LC_ALL=de_DE.UTF-8 locale decimal_point 2>/dev/null)
[ "$point" = , ] || { echo "skipped: the locales that were made are not found"; exit 77; }

failed=0
for name in de_DE tr_TR; do
    # what runs the tests stays in its own locale; only the command is moved
    cat >"$work/pottle" <<END || exit 99
#!/bin/sh
LOCPATH='$work/locale' LC_ALL=$name.UTF-8 LANG=$name.UTF-8 LANGUAGE=${name%_*}
export LOCPATH LC_ALL LANG LANGUAGE
[ "\${HOME-}" != /nonexistent ] || unset HOME
exec '$builddir/cli/pottle' "\$@"
END
    chmod +x "$work/pottle"
    if POTTLE_INSTEAD=$work/pottle POTTLE_WORK=places-$name sh "$srcdir/tests/run-cli.sh" >"$work/log" 2>&1; then
        echo "$name: $(tail -n 1 "$work/log")"
    else
        echo "$name:"
        tail -n 40 "$work/log"
        failed=$((failed + 1))
    fi
done

# what answers a question writes nothing where it stands
drop=
if [ "$(id -u)" = 0 ]; then
    drop='setpriv --reuid=65534 --regid=65534 --clear-groups --'
    command -v setpriv >/dev/null || { echo "skipped: setpriv is not installed"; exit 77; }
fi
mkdir -p "$work/shut" && chmod a-w "$work/shut" || exit 99
# shellcheck disable=SC2086 # words, or none
if ! $drop test -r "$srcdir/recipes/jars.xml" || ! $drop test -x "$builddir/cli/pottle"; then
    echo "skipped: nobody may not read the folders"
    exit 77
elif $drop test -w "$work/shut"; then
    echo "a folder without the right to write can be written to"
    exit 99
fi
cat >"$work/pottle" <<END || exit 99
#!/bin/sh
for word; do
    case \$word in kitchen | jar) exec '$builddir/cli/pottle' "\$@" ;; esac
done
# settings are for their owner only
[ ! -d .config ] || chmod -R a+rX .config
chmod a-w . || exit 99
$drop '$builddir/cli/pottle' "\$@"
code=\$?
chmod u+w .
exit \$code
END
chmod +x "$work/pottle"
if POTTLE_INSTEAD=$work/pottle POTTLE_WORK=places-shut sh "$srcdir/tests/run-cli.sh" >"$work/log" 2>&1; then
    echo "read-only: $(tail -n 1 "$work/log")"
else
    echo "read-only:"
    tail -n 40 "$work/log"
    failed=$((failed + 1))
fi
[ $failed -eq 0 ]
