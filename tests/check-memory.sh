#!/bin/sh
# check-memory.sh - what lib/pottle/*.h says of memory is what test_memory tries.
#
# The status of each public function stands in the comment above it, or above its
# group. One that may be POTTLE_ENOMEM, said outright or by "as pottle_OTHER", must be
# among the calls whose allocations are made to fail (tests/memory_calls.c,
# memory_made.c); any other must be among those that take no memory (memory_none.c).
# So neither a new function nor a header that forgets to say it goes unseen.
#
# Given: srcdir from the environment. Status: 0, 1, 99.
set -u
LC_ALL=C
export LC_ALL
: "${srcdir:=.}"

scratch=check-memory.$$.tmp
trap 'rm -rf "$scratch"' EXIT
trap 'exit 99' HUP INT TERM
mkdir "$scratch" || exit 99

# Functions that need not be called, each with the reason.
cat >"$scratch/excepted" <<'END'
END

# FUNCTION and its status text, a line each, of those that return a pottle_status.
promises() { # HEADER...
    awk '
    function take() {
        if (declared ~ /pottle_status[ ]+pottle_[a-z0-9_]+\(/) {
            match(declared, /pottle_status[ ]+pottle_[a-z0-9_]+\(/)
            name = substr(declared, RSTART, RLENGTH - 1)
            sub(/^pottle_status[ ]+/, "", name)
            print name "\t" status
        }
        declared = ""
    }
    {
        line = $0
        while (line != "") {
            if (inside) {
                n = index(line, "*/")
                comment = comment " " (n > 0 ? substr(line, 1, n - 1) : line)
                line = n > 0 ? substr(line, n + 2) : ""
                if (n > 0) {
                    inside = 0
                    gsub(/[ *]+/, " ", comment)
                    if (comment ~ /Status/) {
                        sub(/.*Status:? /, "", comment)
                        sub(/ [A-Z][a-z]+: .*/, "", comment) # the next field
                        status = comment
                    }
                }
                continue
            }
            n = index(line, "/*")
            text = n > 0 ? substr(line, 1, n - 1) : line
            line = n > 0 ? substr(line, n + 2) : ""
            if (n > 0) { inside = 1; comment = "" }
            while ((k = index(text, ";")) > 0) {
                declared = declared " " substr(text, 1, k - 1)
                take()
                text = substr(text, k + 1)
            }
            declared = declared " " text
        }
    }' "$@"
}

# Those of them that may have no memory.
may_fail() { # PROMISES
    awk -F '\t' '
    {
        text = $2
        # "POTTLE_EDOMAIN as pottle_other" is about that one code
        gsub(/POTTLE_E[A-Z]+ as (in )?pottle_[a-z0-9_]+/, "", text)
        if (text ~ /POTTLE_ENOMEM/)
            says[$1] = 1
        while (match(text, /as pottle_[a-z0-9_]+/)) {
            like[$1] = like[$1] " " substr(text, RSTART + 3, RLENGTH - 3)
            text = substr(text, RSTART + RLENGTH)
        }
    }
    END {
        do {
            more = 0
            for (f in like) {
                n = split(like[f], other, " ")
                for (i = 1; i <= n; i++)
                    if (!(f in says) && (other[i] in says))
                        more = says[f] = 1
            }
        } while (more)
        for (f in says)
            print f
    }' "$1" | sort
}

# Public functions that a file calls.
calls() { # FILE...
    sed 's,/\*.*\*/,,' "$@" | grep -oE '(^|[^a-z0-9_])pottle_[a-z0-9_]+ *\(' | tr -d ' (' |
        sed 's/^[^p]*//' | sort -u
}

# Complaints on stdout.
compare() { # HEADERS-FOLDER TESTS-FOLDER EXCEPTED
    promises "$1"/*.h | sort -u >"$scratch/promises"
    cut -f 1 "$scratch/promises" | sort -u >"$scratch/all"
    may_fail "$scratch/promises" >"$scratch/failing"
    comm -23 "$scratch/all" "$scratch/failing" >"$scratch/others"
    calls "$2/memory_calls.c" "$2/memory_made.c" >"$scratch/tried"
    calls "$2/memory_none.c" >"$scratch/spared"
    sed 's/:.*//' "$3" | sort >"$scratch/known"
    comm -23 "$scratch/failing" "$scratch/tried" | comm -23 - "$scratch/known" |
        sed 's/$/ may have no memory, and no allocation of it is made to fail/'
    comm -23 "$scratch/others" "$scratch/spared" | comm -23 - "$scratch/known" |
        sed 's/$/ does not say POTTLE_ENOMEM, and is not held to it/'
    comm -12 "$scratch/others" "$scratch/tried" |
        sed 's/$/ is made to fail, and its header does not say POTTLE_ENOMEM/'
    sort "$scratch/tried" "$scratch/spared" | comm -12 - "$scratch/known" |
        sed 's/$/ is excepted, and called all the same/'
}

# -- The check of the check -------------------------------------------------

fake=$scratch/fake
mkdir "$fake"
cat >"$fake/a.h" <<'END'
/* Status:    POTTLE_OK; POTTLE_ENOMEM
 * Checked:   by nobody */
POTTLE_API pottle_status pottle_a_read(int a,
                                       int b);
/* No status here. */
int pottle_a_count(int a);
pottle_status pottle_a_group(int a);
/* Gives b. Status as pottle_a_read. */
pottle_status
pottle_b_read(int a);
/* Status:    POTTLE_OK; POTTLE_EDOMAIN as in pottle_a_read; POTTLE_EMISUSE */
pottle_status pottle_c_find(int a);
/* Status:    POTTLE_OK */
pottle_status pottle_d_find(int a);
pottle_status pottle_e_find(int a);
END
printf '/* pottle_a_group(1) */\npottle_a_read(1, 2);\npottle_d_find (1);\n' >"$fake/memory_calls.c"
printf 'x = pottle_b_read_more(1);\n' >"$fake/memory_made.c"
printf 'pottle_d_find(1);\npottle_f_find(1);\n' >"$fake/memory_none.c"
printf 'pottle_e_find: a reason\npottle_f_find: a reason\n' >"$fake/excepted"
cat >"$scratch/wanted" <<'END'
pottle_a_group may have no memory, and no allocation of it is made to fail
pottle_b_read may have no memory, and no allocation of it is made to fail
pottle_c_find does not say POTTLE_ENOMEM, and is not held to it
pottle_d_find is made to fail, and its header does not say POTTLE_ENOMEM
pottle_f_find is excepted, and called all the same
END
compare "$fake" "$fake" "$fake/excepted" >"$scratch/found"
if ! cmp -s "$scratch/wanted" "$scratch/found"; then
    echo "the check does not see what is wrong in a made-up header:"
    diff "$scratch/wanted" "$scratch/found"
    exit 99
fi

# -- The tree ---------------------------------------------------------------

compare "$srcdir/lib/pottle" "$srcdir/tests" "$scratch/excepted" >"$scratch/found"
count=$(wc -l <"$scratch/all")
[ "$count" -ge 60 ] || { echo "only $count functions are seen"; exit 99; }
if [ -s "$scratch/found" ]; then
    cat "$scratch/found"
    exit 1
fi
echo "$((count)) functions: $(($(wc -l <"$scratch/failing"))) fail without memory, the others take none"
