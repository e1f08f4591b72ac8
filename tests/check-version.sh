#!/bin/sh
# The version stands in configure.ac and nowhere else: command, header, library, pkg-config, news and packages have
# it from there, or are the same.
#
# Given: srcdir, builddir. Status: 0, 1.
set -u
LC_ALL=C
export LC_ALL
: "${srcdir:=.}" "${builddir:=.}"
passed=0 failed=0
is() { # WHAT VALUE RIGHT
    if [ "$2" = "$3" ]; then passed=$((passed + 1)); else
        failed=$((failed + 1))
        echo "check-version.sh: $1 is '$2', not '$3'"
    fi
}

part() { sed -n "s/^m4_define(\[pottle_$1\], \[\([0-9]*\)\])$/\1/p" "$srcdir/configure.ac"; }
version=$(part major).$(part minor).$(part patch)
case $version in [0-9]*.[0-9]*.[0-9]*) ;; *) echo "check-version.sh: configure.ac has no version"; exit 1 ;; esac
is 'pottle --version' "$("$builddir/cli/pottle" --version)" "pottle $version"
for file in pottle pottle-uninstalled; do
    is $file.pc "$(sed -n 's/^Version: //p' "$builddir/lib/$file.pc")" "$version"
done
is version.h "$(sed -n 's/^#define POTTLE_VERSION_TEXT "\(.*\)"/\1/p' "$builddir/lib/pottle/version.h")" "$version"
is 'version.h, by its numbers' "$(sed -n 's/^#define POTTLE_VERSION_[MP][AIT][A-Z]* \([0-9]*\)$/\1/p' "$builddir/lib/pottle/version.h" | tr '\n' .)" "$version."
# the newest stands at the top
is docs/NEWS.md "$(sed -n 's/^## \([0-9.]*\) (.*)$/\1/p' "$srcdir/docs/NEWS.md" | head -n 1)" "$version"

# The number of the shared library is current less age of the triple, and the name of its Debian package has it.
triple=$(sed -n 's/^AC_SUBST(\[POTTLE_LT_VERSION\], \[\([0-9]*:[0-9]*:[0-9]*\)\])$/\1/p' "$srcdir/configure.ac")
number=$((${triple%%:*} - ${triple##*:}))
if [ -f "$builddir/lib/.libs/libpottle.so" ]; then
    is 'the name of the library' "$(readelf -d "$builddir/lib/.libs/libpottle.so" | sed -n 's/.*(SONAME).*\[\(.*\)\]/\1/p')" "libpottle.so.$number"
fi
is 'the Debian package' "$(sed -n 's/^Package: \(libpottle[0-9]*\)$/\1/p' "$srcdir/docs/debian/control")" "libpottle$number"

# nowhere else, but where it is history
strays=$(cd "$srcdir" && grep -rlFw -e "$version" configure.ac Makefile.am README.md DEVELOPERS.md cli lib docs tests \
    --include='*.[ch135]' --include='*.in' --include='*.ac' --include='*.am' --include='*.md' --include='*.sh' --include='control' |
    grep -v -x -e docs/NEWS.md -e docs/PREDICTION.md)
is 'what else has the version in it' "$strays" ''

echo "$passed passed, $failed failed"
[ $failed -eq 0 ]
