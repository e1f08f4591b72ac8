#!/bin/sh
# One figure of a tested recipe altered by one step in a copy is seen: acid, produce, process, headspace, a food's weight.
set -u
: "${srcdir:=.}" "${builddir:=.}"
srcdir=$(cd "$srcdir" && pwd) && builddir=$(cd "$builddir" && pwd) || exit 99
command -v xmllint >/dev/null || { echo "skipped: xmllint is not installed"; exit 77; }
work=$builddir/tests/altered.tmp
rm -rf "$work" && mkdir -p "$work/tests" "$work/build/tests" || exit 99
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
cp -R "$srcdir/recipes" "$work/recipes" && chmod -R u+w "$work" && cp "$srcdir/tests/catalogue.list" "$work/tests/" || exit 99
script=$srcdir/tests/check-listing.sh
passed=0 failed=0

listing() { (cd "$work/build" && env srcdir="$work" builddir="$work/build" sh "$script" >/dev/null 2>&1); }

# altered FILE FROM TO: the listing must differ
altered() {
    file=$work/recipes/$1
    cp "$file" "$work/kept" || exit 99
    sed "s|$2|$3|" "$work/kept" >"$file"
    if cmp -s "$work/kept" "$file"; then
        failed=$((failed + 1))
        echo "$1: there is no '$2' to alter"
    elif listing; then
        failed=$((failed + 1))
        echo "$1: '$2' became '$3' and nobody saw it"
    else
        passed=$((passed + 1))
    fi
    cp "$work/kept" "$file"
}

if listing; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "the copy as it stands is not listed"; fi
altered salsa/chile-salsa.xml 'food="vinegar" amount="1"' 'food="vinegar" amount="3/4"'
altered salsa/chile-salsa.xml 'food="onion" amount="1"' 'food="onion" amount="1 1/4"'
altered salsa/chile-salsa.xml 'from="1001" to="6000" minutes="20"' 'from="1001" to="6000" minutes="15"'
altered salsa/chile-salsa.xml 'keep="at-least"' 'keep="free"'
altered tomato-pack/tomatoes-crushed.xml 'jar="quart" amount="2" unit="tbsp"' 'jar="quart" amount="1" unit="tbsp"'
altered stewed-fruit/rhubarb-stewed.xml 'headspace="1/2"' 'headspace="1/4"'
altered foods/rhubarb.xml 'value="122"' 'value="121"'
altered rules.xml 'put="flour"' 'put="cornmeal"'
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
