#!/bin/sh
# The archive of `make dist` is the same, byte for byte, whoever makes it, where and when.
#
# Three are made: in two clones with different names, umask and time zone, a second apart, and from the unpacked
# first one. It takes some minutes, so it is a stage of .ci/run and no part of `make check`.
#
# Given: srcdir. Status: 0, 1; 77 where srcdir is no checkout.
set -u
LC_ALL=C
export LC_ALL
srcdir=$(cd "${srcdir:-.}" && pwd) || exit 99
{ [ -e "$srcdir/.git" ] && command -v git >/dev/null; } || { echo "SKIP: no checkout"; exit 77; }
work=$(mktemp -d "${TMPDIR:-/tmp}/pottle-dist.XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
unset SOURCE_DATE_EPOCH XZ_OPT MAKEFLAGS MFLAGS MAKELEVEL

die() {
    cat "$work/log"
    echo "check-dist.sh: $*"
    exit 1
}

# archive FOLDER UMASK ZONE: leaves its name in $made
archive() {
    (
        umask "$2"
        TZ=$3
        export TZ
        cd "$1" && { [ -x configure ] || autoreconf -i; } && mkdir build && cd build && ../configure -q && make -s dist
    ) >"$work/log" 2>&1 || die "no archive from $1"
    made=$(ls "$1"/build/pottle-*.tar.xz)
}

for name in one 'another_and_longer'; do
    # as it is on the disk, committed or not
    mask=022
    [ $name = one ] || mask=077
    (
        umask $mask
        git clone -q "$srcdir" "$work/$name" && cd "$srcdir" && git ls-files -z --deduplicate |
            tar -cf - --null -T - | (cd "$work/$name" && tar -xf - --no-same-permissions)
    ) >"$work/log" 2>&1 || die "no clone"
done
archive "$work/one" 022 UTC
first=$made
sleep 1
archive "$work/another_and_longer" 077 Pacific/Auckland
second=$made

passed=0 failed=0
same() {
    if cmp "$1" "$2"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        for a in "$1" "$2"; do tar --full-time --numeric-owner -tvf "$a" >"$a.list"; done
        diff "$1.list" "$2.list" | head -20
    fi
}
same "$first" "$second"

{ mkdir "$work/unpacked" && tar -C "$work/unpacked" -xf "$first"; } >"$work/log" 2>&1 || die "$first cannot be unpacked"
archive "$(echo "$work"/unpacked/pottle-*)" 027 America/Lima
same "$first" "$made"

# nothing that a build leaves, and all that git has but the dot files of its own and of .ci
tar -tf "$first" | sed -n 's|^[^/]*/||p' | grep -v -e '/$' -e '^$' | sort >"$work/in"
(cd "$srcdir" && git ls-files --deduplicate) | grep -v -e '^\.gitignore$' -e '^\.ci/' | sort >"$work/wanted"
if [ -z "$(comm -13 "$work/in" "$work/wanted")" ]; then passed=$((passed + 1)); else
    failed=$((failed + 1))
    echo "check-dist.sh: not in the archive:"
    comm -13 "$work/in" "$work/wanted"
fi
made_by_tools='^(\.aux/.*|aclocal\.m4|config\.h\.in|configure|Makefile\.in)$'
if comm -23 "$work/in" "$work/wanted" | grep -v -E "$made_by_tools" >"$work/strange"; then
    failed=$((failed + 1))
    echo "check-dist.sh: in the archive, but not in git:"
    cat "$work/strange"
else
    passed=$((passed + 1))
fi

sha256sum "$first" | sed 's|  .*/|  |'
echo "$passed passed, $failed failed"
[ $failed -eq 0 ] && [ $passed -gt 0 ]
