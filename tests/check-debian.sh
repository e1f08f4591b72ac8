#!/bin/sh
# The Debian packages: they are built twice and are the same, byte for byte; lintian has nothing against them; in a
# root with nothing but the essential packages and what they depend on they install, the command answers as README.md
# shows, and they can be taken out again.
#
# It takes some minutes and the network of apt, so it is a stage of .ci/run and no part of `make check`.
#
# Given: srcdir. Status: 0, 1; 77 without debhelper.
set -u
LC_ALL=C
export LC_ALL
srcdir=$(cd "${srcdir:-.}" && pwd) || exit 99
{ command -v dh && command -v dpkg-buildpackage; } >/dev/null || { echo "SKIP: no debhelper"; exit 77; }
work=$(mktemp -d "${TMPDIR:-/tmp}/pottle-check-debian.XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
unset MAKEFLAGS MFLAGS MAKELEVEL SOURCE_DATE_EPOCH

passed=0 failed=0 skipped=0
pass() { passed=$((passed + 1)); }
fail() { failed=$((failed + 1)); echo "check-debian.sh: $*"; }
skip() { skipped=$((skipped + 1)); echo "check-debian.sh: skipped: $*"; }

# -- Building --------------------------------------------------------------------

# other stages run the tests
DEB_BUILD_OPTIONS="nocheck parallel=$(nproc)"
export DEB_BUILD_OPTIONS
if ! sh "$srcdir/docs/debian/build" "$work/first" >"$work/log" 2>&1; then
    tail -n 40 "$work/log"
    echo "0 passed, 1 failed"
    exit 1
fi
archive=$(ls "$work"/first/pottle_*.orig.tar.xz)
version=${archive##*/pottle_}
version=${version%.orig.tar.xz}
cp "$archive" "$work/pottle-$version.tar.xz"
(umask 077 && TZ=Pacific/Auckland TMPDIR=$work && export TZ TMPDIR &&
    sh "$srcdir/docs/debian/build" "$work/second" "$work/pottle-$version.tar.xz") >"$work/log" 2>&1 ||
    { tail -n 40 "$work/log"; fail "the packages are not built a second time"; }
for name in pottle pottle-data libpottle0 libpottle-dev; do
    package=$(cd "$work/first" && ls "$name"_"$version"-*.deb)
    if cmp "$work/first/$package" "$work/second/$package"; then pass; else fail "$package differs"; fi
done

# -- lintian ---------------------------------------------------------------------

if command -v lintian >/dev/null; then
    # packages of one's own: nobody's address, no bug that they close, no watch on a site; the symbols of a library
    # whose interface still grows are held by check-abi.sh
    tags=bogus-mail-host,bogus-mail-host-in-debian-changelog,initial-upload-closes-no-bugs
    tags=$tags,debian-watch-file-is-missing,no-symbols-control-file
    lintian -I --fail-on error,warning,info --allow-root --suppress-tags $tags "$work"/first/*.changes >"$work/log" 2>&1
    status=$?
    if [ $status -eq 0 ]; then pass; else fail "lintian"; cat "$work/log"; fi
else
    skip "lintian is not installed"
fi

# -- A clean root ----------------------------------------------------------------

if command -v mmdebstrap >/dev/null; then
    needed=$(for name in pottle pottle-data libpottle0; do dpkg-deb -f "$work/first/$name"_*.deb Depends; done |
        tr ',' '\n' | sed 's/^ *\([a-z0-9.+-]*\).*/\1/' | grep -v -e pottle -e '^$' | sort -u | tr '\n' ',')
    mkdir "$work/debs" && cp "$work"/first/pottle_*.deb "$work"/first/pottle-data_*.deb "$work"/first/libpottle0_*.deb "$work/debs"
    # shellcheck source=/dev/null
    suite=$(. /etc/os-release && echo "$VERSION_CODENAME")
    # where this machine has its packages from
    set --
    for list in /etc/apt/sources.list /etc/apt/sources.list.d/debian.sources; do
        if [ -s "$list" ]; then set -- "$@" "$list"; fi
    done
    # shellcheck disable=SC2016 # $1 is the root, for the hooks
    mmdebstrap --quiet --variant=essential --include="${needed%,}" --format=null \
        --customize-hook="sync-in '$work/debs' /mnt" \
        --customize-hook='chroot "$1" sh -c "dpkg -i /mnt/*.deb && ldconfig -p | grep libpottle"' \
        --customize-hook="chroot \"\$1\" env -i PATH=/usr/bin HOME=/root pottle scale rhubarb-stewed \
            --have '4.2 kg rhubarb as picked' --jar pint --altitude '900 m' >'$work/said'" \
        --customize-hook="chroot \"\$1\" env -i PATH=/usr/bin HOME=/root pottle --version >'$work/version'" \
        --customize-hook='chroot "$1" dpkg -P pottle pottle-data libpottle0' \
        --customize-hook='! find "$1"/usr "$1"/var/lib/dpkg/info -name "*pottle*" | grep .' \
        "$suite" /dev/null "$@" >"$work/log" 2>&1
    status=$?
    if [ $status -eq 0 ]; then pass; else fail "the packages in a clean root"; tail -n 30 "$work/log"; fi
    sed -n '/^    \$ pottle scale/,/^Read it/p' "$srcdir/README.md" | sed -e '1d' -e '$d' -e 's/^    //' |
        sed -e '${/^$/d;}' >"$work/right"
    if [ -s "$work/right" ] && diff "$work/right" "$work/said"; then pass; else fail "the installed command answers otherwise than README.md shows"; fi
    if [ "$(cat "$work/version")" = "pottle $version" ]; then pass; else fail "it is not pottle $version"; fi
else
    skip "mmdebstrap is not installed, so the packages are not tried in a clean root"
fi

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
