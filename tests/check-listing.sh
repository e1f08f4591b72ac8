#!/bin/sh
# check-listing.sh - the whole catalogue in one line a file, against tests/catalogue.list.
#
# The listing makes a change to the data visible where it is reviewed: what a file is, how much it holds, what it is
# taken from, and a checksum of its canonical form (attributes in order, blanks between elements left out), so that a
# figure cannot change unseen and a new line break is no change. UPDATE=1 writes the listing anew.
set -u
LC_ALL=C
export LC_ALL

: "${srcdir:=.}"
work=check-listing.tmp
listing=$srcdir/tests/catalogue.list

command -v xmllint >/dev/null 2>&1 || { echo "skipped: there is no xmllint"; exit 77; }
[ -f "$srcdir/recipes/jars.xml" ] || { echo "there is no catalogue in $srcdir/recipes"; exit 99; }

rm -rf "$work" && mkdir "$work" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 99' HUP INT TERM

(cd "$srcdir/recipes" && find . -name '*.xml' -type f | sed 's|^\./||' | sort) >"$work/files" || exit 99
mkdir "$work/canonical" || exit 99
while read -r file; do
    flat=$(printf '%s' "$file" | tr / +)
    if ! xmllint --nonet --noblanks --c14n "$srcdir/recipes/$file" >"$work/canonical/$flat" 2>"$work/errors"; then
        echo "$file cannot be read:"
        cat "$work/errors"
        exit 1
    fi
done <"$work/files"

# checksum and length of each, by the name of the file
(cd "$work/canonical" && cksum -- *) >"$work/sums" || exit 99

# no name of a catalogue file begins with a dash
# shellcheck disable=SC2035
(cd "$work/canonical" && awk '
    function value(tag, name,    at, text) {
        at = index(tag, " " name "=\"")
        if (at == 0)
            return ""
        text = substr(tag, at + length(name) + 3)
        return substr(text, 1, index(text, "\"") - 1)
    }
    function count(name) {
        if (n[name] > 0)
            line = line " " name "=" n[name]
    }
    function flush(    i, keys, list, k, t, swap) {
        if (file == "")
            return
        line = file " " root
        if (id != "")
            line = line " " id
        if (word != "")
            line = line " " word
        for (i = 1; i <= names; i++)
            count(order[i])
        k = 0
        for (t in key)
            list[++k] = t
        for (i = 2; i <= k; i++)
            for (t = i; t > 1 && list[t - 1] > list[t]; t--) {
                swap = list[t]
                list[t] = list[t - 1]
                list[t - 1] = swap
            }
        keys = ""
        for (i = 1; i <= k; i++)
            keys = keys (i > 1 ? "," : "") list[i]
        print line " sources=" (keys == "" ? "none" : keys) " sum=" sum[file]
    }
    FILENAME == "../sums" {
        sum[$3] = $1 ":" $2
        next
    }
    FNR == 1 {
        flush()
        file = FILENAME
        root = id = word = ""
        split("", n)
        split("", key)
        names = split("ingredient per-jar process band yield step trim form weight piece container note food recipe name figure jar rule never source syrup load mishap case option way dense", order, " ")
    }
    # a record begins behind "<", so it is a tag and the text after it
    /^[^\/!?]/ && index($0, ">") > 0 {
        tag = substr($0, 1, index($0, ">") - 1)
        name = tag
        sub(/[ \n].*/, "", name)
        if (root == "") {
            root = name
            id = value(tag, "id")
            word = root == "recipe" ? value(tag, "kind") " " value(tag, "status") : value(tag, "group")
        } else {
            n[name]++
        }
        if (value(tag, "source") != "")
            key[value(tag, "source")] = 1
    }
    END { flush() }
' ../sums RS='<' *) >"$work/flat" || exit 99
# back to paths, in the order of the paths
awk '{ file = $1; gsub(/\+/, "/", file); $1 = file; print }' "$work/flat" | sort >"$work/list" || exit 99

if [ "$(wc -l <"$work/list")" -ne "$(wc -l <"$work/files")" ]; then
    echo "some files are missing in the listing"
    exit 99
fi
if [ "${UPDATE:-0}" = 1 ]; then
    cp "$work/list" "$listing" || exit 99
    echo "$(wc -l <"$listing" | tr -d ' ') files listed"
    exit 0
fi
if diff -u "$listing" "$work/list"; then
    exit 0
fi
echo "The catalogue is not as listed. Look at each line, then run this with UPDATE=1."
exit 1
