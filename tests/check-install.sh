#!/bin/sh
# What `make install` puts down is all that a person or a program needs: the command finds its catalogue, manual
# and completion lie where they are looked for, a program is built by pkg-config alone, in C and in C++, against
# the shared and the static library, and `make uninstall` takes all away again.
#
# The library of the build folder is found by pkg-config too, by its -uninstalled file.
#
# Given: srcdir, builddir, CC, CXX, MAKE. Status: 0, 1; 77 without pkg-config.
set -u
LC_ALL=C
export LC_ALL
srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
: "${CC:=cc}" "${CXX:=c++}" "${MAKE:=make}" "${PKG_CONFIG:=pkg-config}"
command -v "$PKG_CONFIG" >/dev/null || { echo "SKIP: no pkg-config"; exit 77; }
work=$builddir/tests/install.tmp
rm -rf "$work" && mkdir -p "$work" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
unset POTTLE_DATA XDG_CONFIG_HOME MAKEFLAGS MFLAGS MAKELEVEL PKG_CONFIG_PATH PKG_CONFIG_SYSROOT_DIR
HOME=$work
export HOME

passed=0 failed=0 skipped=0
pass() { passed=$((passed + 1)); }
fail() { failed=$((failed + 1)); echo "check-install.sh: $*"; }
skip() { skipped=$((skipped + 1)); echo "check-install.sh: skipped: $*"; }
ok() { # WHAT COMMAND...
    what=$1
    shift
    if "$@" >"$work/said" 2>&1; then pass; else
        fail "$what"
        cat "$work/said"
    fi
}

root=$work/root
(cd "$builddir" && $MAKE -s install DESTDIR="$root") >"$work/said" 2>&1 || {
    cat "$work/said"
    echo "0 passed, 1 failed"
    exit 1
}
prefix=$(sed -n 's/^prefix=//p' "$builddir/lib/pottle.pc")
libdir=$(PKG_CONFIG_PATH=$root$prefix/lib/pkgconfig "$PKG_CONFIG" --variable=libdir pottle 2>/dev/null)
: "${libdir:=$prefix/lib}"

# -- Where things lie ------------------------------------------------------------

share=$root$prefix/share
for file in "$root$prefix/bin/pottle" "$root$prefix/include/pottle.h" "$root$prefix/include/pottle/version.h" \
    "$root$libdir/libpottle.so" "$root$libdir/pkgconfig/pottle.pc" "$share/pottle/jars.xml" \
    "$share/pottle/foods/rhubarb.xml" "$share/pottle/schema/recipe.rng" \
    "$share/bash-completion/completions/pottle" "$share/zsh/site-functions/_pottle" \
    "$share/fish/vendor_completions.d/pottle.fish"; do
    if [ -s "$file" ]; then pass; else fail "${file#"$root"} is not installed"; fi
done
for page in "$srcdir"/cli/*.1 "$srcdir"/docs/man/*.[35]; do
    name=${page##*/}
    if cmp -s "$page" "$share/man/man${name##*.}/$name"; then pass; else fail "$name is not installed"; fi
done
if [ -e "$root$libdir/pkgconfig/pottle-uninstalled.pc" ]; then fail "pottle-uninstalled.pc is installed"; else pass; fi

# -- The command, with the catalogue that was installed with it ------------------

LD_LIBRARY_PATH=$root$libdir${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}
export LD_LIBRARY_PATH
version=$(sed -n 's/^Version: //p' "$builddir/lib/pottle.pc")
if [ "$("$root$prefix/bin/pottle" --version)" = "pottle $version" ]; then pass; else fail "the installed command is not pottle $version"; fi
# DESTDIR is not where it looks, unless it is installed there in truth
ok "the installed command with its catalogue" env POTTLE_DATA="$share/pottle" "$root$prefix/bin/pottle" show rhubarb

# -- A program -------------------------------------------------------------------

sanitize=
if grep -q '__asan_init' "$root$libdir/libpottle.so"; then sanitize=-fsanitize=address,undefined; fi
warnings='-Wall -Wextra -Wpedantic -Wshadow -Wconversion -Werror'

# Published: 10 1/2 lb of rhubarb as bought make 7 quarts (USDA Complete Guide, Guide 2), that is 14 pints; 4.2 kg
# with leaves are 0.7 of it, so 10 pints by the print. To wash fewer than a jar, or more than 14, cannot be right.
runs() { # WHAT PROGRAM CATALOGUE
    said=$("$2" "$3" rhubarb-stewed '4.2 kg rhubarb as picked' pint 2>&1) || { fail "$1: $said"; return; }
    washed=$(echo "$said" | sed -n 's/^wash \([0-9]*\) jars (pint).*/\1/p')
    if [ "${washed:-0}" -ge 1 ] && [ "$washed" -le 14 ]; then pass; else fail "$1: $said"; fi
    if "$2" "$3" strawberry-jam-powdered-pectin '1 lb strawberries' half-pint >"$work/said" 2>&1; then
        fail "$1: a part of a pectin jam is not refused: $(cat "$work/said")"
    else
        pass
    fi
}

# built WHAT LANGUAGE CATALOGUE [STATIC]: by the pkg-config of the environment
built() {
    flags=$("$PKG_CONFIG" --cflags pottle) || { fail "$1: pkg-config"; return; }
    libs=$("$PKG_CONFIG" ${4:+--static} --libs pottle) || { fail "$1: pkg-config"; return; }
    rm -f "$work/program"
    # shellcheck disable=SC2086 # they are words
    case $2 in
    C) $CC -std=c11 $warnings $sanitize $flags -o "$work/program" "$srcdir/docs/examples/how_many_jars.c" $libs ;;
    C++) $CXX -std=c++17 -x c++ $warnings $sanitize $flags -o "$work/program" "$srcdir/docs/examples/how_many_jars.c" -x none $libs ;;
    esac >"$work/said" 2>&1 || { fail "$1 does not build"; cat "$work/said"; return; }
    pass
    runs "$1" "$work/program" "$3"
}
# shellcheck disable=SC2086
have() { set -- $1; [ $# -gt 0 ] && command -v "$1" >/dev/null; }

PKG_CONFIG_PATH=$root$libdir/pkgconfig PKG_CONFIG_SYSROOT_DIR=$root
export PKG_CONFIG_PATH PKG_CONFIG_SYSROOT_DIR
if [ "$("$PKG_CONFIG" --modversion pottle)" = "$version" ]; then pass; else fail "pkg-config knows another version than $version"; fi
for needed in libxml-2.0 gsl; do
    if "$PKG_CONFIG" --print-requires-private pottle | grep -q "^$needed"; then pass; else fail "pottle.pc does not ask for $needed"; fi
done
# what only the library itself uses is not linked again by a program that links the shared one
if "$PKG_CONFIG" --libs pottle | grep -q -e -lxml2 -e -lgsl; then fail "pottle.pc gives private libraries without --static"; else pass; fi
built 'installed, shared, C' C "$share/pottle"
if have "$CXX"; then built 'installed, shared, C++' C++ "$share/pottle"; else skip "no C++ compiler"; fi
if readelf -d "$work/program" 2>/dev/null | grep -q 'libpottle\.so\.0'; then pass; else fail "the program does not ask for libpottle.so.0"; fi

if [ -f "$root$libdir/libpottle.a" ]; then
    # without the shared one -lpottle is the static one
    mkdir "$work/shared" && mv "$root$libdir"/libpottle.so* "$work/shared"
    built 'installed, static, C' C "$share/pottle" static
    if readelf -d "$work/program" | grep -q libpottle; then fail "the static program asks for a libpottle"; else pass; fi
    if have "$CXX"; then built 'installed, static, C++' C++ "$share/pottle" static; fi
    mv "$work/shared"/* "$root$libdir"
else
    skip "no static library was built (configure --enable-static)"
fi

unset PKG_CONFIG_SYSROOT_DIR
PKG_CONFIG_PATH=$builddir/lib LD_LIBRARY_PATH=$builddir/lib/.libs
if "$PKG_CONFIG" --uninstalled pottle; then pass; else fail "pkg-config does not know the library of the build folder"; fi
built 'the build folder, C' C "$("$PKG_CONFIG" --variable=catalogue pottle)"

# -- Away again ------------------------------------------------------------------

(cd "$builddir" && $MAKE -s uninstall DESTDIR="$root") >"$work/said" 2>&1 || fail "make uninstall"
left=$(find "$root" ! -type d)
if [ -z "$left" ]; then pass; else fail "make uninstall leaves $left"; fi

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
