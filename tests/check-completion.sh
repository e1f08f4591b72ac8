#!/bin/sh
# The completion of bash, zsh and fish, each asked in its own shell: it offers the commands and options of the help
# and the names that the files of the catalogue have, and every fixed word that it offers is one the command knows.
#
# Status: 0, 1; 77 when there is none of the three shells.
set -u

srcdir=$(cd "${srcdir:-.}" && pwd) && builddir=$(cd "${builddir:-.}" && pwd) || exit 99
command=$builddir/cli/pottle
[ -x "$command" ] || { echo "check-completion.sh: there is no $command; build it first" >&2; exit 99; }
work=$builddir/tests/completion.tmp
rm -rf "$work" && mkdir -p "$work/bin" "$work/home" || exit 99
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
POTTLE_DATA=$srcdir/recipes LC_ALL=C HOME=$work/home TERM=dumb PATH=$work/bin:$PATH
export POTTLE_DATA LC_ALL HOME TERM PATH
unset XDG_CONFIG_HOME
printf '#!/bin/sh\nexec "%s" "$@"\n' "$command" >"$work/bin/pottle" && chmod +x "$work/bin/pottle" || exit 99
folder=$srcdir/cli/completion

passed=0 failed=0 skipped=0
pass() { passed=$((passed + 1)); }
fail() { failed=$((failed + 1)); echo "check-completion.sh: $*"; }

# -- What a shell offers at the end of a line, a word a line ---------------------

# the words of the line come split at blanks, as bash gives them; the last one may be empty
cat >"$work/complete.bash" <<'END_OF_BASH'
. "$1" || exit 1
read -r -a COMP_WORDS <<<"$2"
[[ $2 != *' ' ]] || COMP_WORDS+=('')
COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
_pottle pottle "${COMP_WORDS[COMP_CWORD]}" "${COMP_WORDS[COMP_CWORD - 1]}"
[[ ${#COMPREPLY[@]} -eq 0 ]] || printf '%s\n' "${COMPREPLY[@]}"
END_OF_BASH

offers() { # SHELL LINE
    case $1 in
    bash) bash --norc "$work/complete.bash" "$folder/pottle" "$2" ;;
    zsh) zsh -f "$srcdir/tests/completion.zsh" "$folder" "$work/home" "$2" ;;
    # in single quotes, of which the lines have none
    fish) fish -N -c "source '$folder/pottle.fish'; complete -C '$2'" | sed 's/	.*//' ;;
    esac
}

# same SHELL LINE: it offers the words in $work/right, and no others
same() {
    offers "$1" "$2" 2>"$work/said" | sort -u >"$work/offered"
    sort -u "$work/right" >"$work/sorted"
    if diff "$work/sorted" "$work/offered" >"$work/difference" && [ ! -s "$work/said" ]; then
        pass
    else
        fail "$1 offers for '$2' (>), where there is (<):"
        cat "$work/difference" "$work/said"
    fi
}

starting() { grep -e "^$1"; }

# -- What there is ---------------------------------------------------------------

"$command" --help | sed -n 's/^  pottle \([a-z]*\)  .*/\1/p' >"$work/commands"
[ "$(wc -l <"$work/commands")" -ge 7 ] || fail "the help lists fewer than 7 commands"
while read -r c; do
    "$command" "$c" --help | sed -n 's/^  \(--[a-z-]*\).*/\1/p' >"$work/options.$c"
done <"$work/commands"
# from the files, and not by the listing that the completion uses
for file in "$srcdir"/recipes/*/*.xml; do
    case $file in */foods/names.xml) ;; *) basename "$file" .xml ;; esac
done | sort >"$work/files"
for file in "$srcdir"/recipes/foods/*.xml; do basename "$file" .xml; done | sed '/^names$/d' | sort >"$work/foods"
comm -23 "$work/files" "$work/foods" >"$work/recipes"
find "$srcdir/recipes/." -type d | sed -e 's|.*/||' -e '/^\.$/d' -e '/^foods$/d' -e '/^schema$/d' >"$work/kinds"
sed -n 's/.*<jar id="\([^"]*\)".*/\1/p' "$srcdir/recipes/jars.xml" >"$work/jars"
sed -n 's/.*<mishap id="\([^"]*\)".*/\1/p' "$srcdir/recipes/rescue.xml" >"$work/mishaps"
"$command" show --list units >"$work/units"

for what in recipes foods jars kinds mishaps; do
    "$command" show --list $what | sort >"$work/listed"
    if [ -s "$work/$what" ] && sort "$work/$what" | diff - "$work/listed" >"$work/difference"; then
        pass
    else
        fail "$what of the files (<) and of pottle show --list $what (>):"
        cat "$work/difference"
    fi
done

# -- The shells ------------------------------------------------------------------

for shell in bash zsh fish; do
    if ! command -v $shell >/dev/null; then
        skipped=$((skipped + 1))
        echo "check-completion.sh: skipped: $shell is not installed, so its completion is not checked"
        continue
    fi
    cp "$work/commands" "$work/right"
    # before a command there are options too, which zsh offers only after a dash
    offers $shell 'pottle ' | sed '/^-/d' | sort >"$work/offered"
    if sort "$work/right" | diff - "$work/offered" >"$work/difference"; then pass; else
        fail "commands of the help (<) and those that $shell offers (>)"
        cat "$work/difference"
    fi
    while read -r c; do
        # zsh needs a second for each line
        case $shell$c in zshscale | zshjars | zshchain | zshkitchen | bash* | fish*) ;; *) continue ;; esac
        cp "$work/options.$c" "$work/right"
        same $shell "pottle $c --"
    done <"$work/commands"
    starting rhubarb <"$work/recipes" >"$work/right"
    same $shell 'pottle scale rhubarb'
    same $shell 'pottle --json chain --about rhubarb'
    same $shell "pottle process --jar pint rhubarb"
    cat "$work/recipes" "$work/foods" "$work/jars" | starting pi >"$work/right"
    same $shell 'pottle show pi'
    starting tomatoes <"$work/recipes" >"$work/right"
    same $shell 'pottle liquid acid tomatoes'
    cp "$work/jars" "$work/right"
    same $shell 'pottle scale rhubarb-stewed --jar '
    cp "$work/kinds" "$work/right"
    same $shell 'pottle recipes --kind '
    starting rhu <"$work/foods" >"$work/right"
    same $shell 'pottle recipes --without rhu'
    cp "$work/mishaps" "$work/right"
    same $shell 'pottle rescue '
    cp "$work/units" "$work/right"
    same $shell 'pottle convert x --to '
    printf '%s\n' canner cup >"$work/right"
    same $shell 'pottle kitchen set c'
    printf '%s\n' measure list >"$work/right"
    same $shell 'pottle jar --json '
    # an amount is not for a program to know; a second recipe is not taken
    : >"$work/right"
    same $shell 'pottle scale rhubarb-stewed --batches '
    same $shell 'pottle scale rhubarb-stewed rhu'
    cp "$command" "$work/home/own-file.xml" 2>/dev/null
    echo "$work/home/own-file.xml" >"$work/right"
    [ $shell = zsh ] && echo own-file.xml >"$work/right"
    same $shell "pottle check $work/home/own-f"
done
[ $skipped -lt 3 ] || exit 77

# -- The fixed words: a word may have no answer for this food, but it must be known -

asker=
for shell in bash fish zsh; do command -v $shell >/dev/null && asker=$shell && break; done
for option in to canner pack as hob class process pectin list; do
    line="pottle convert x --$option "
    case $option in
    canner | pack) line="pottle scale x --$option " ;;
    hob) line="pottle cook x --$option " ;;
    class) line="pottle liquid syrup --$option " ;;
    process | pectin) line="pottle rescue x --$option " ;;
    list) line="pottle show --$option " ;;
    esac
    offers $asker "$line" >"$work/offered"
    [ -s "$work/offered" ] || fail "nothing is offered for '$line'"
    while read -r word; do
        case $option in
        to) "$command" convert '1 kg onions' --to "$word" ;;
        as) "$command" convert "1 cup $word strawberries" --to cup ;;
        canner) "$command" scale tomatoes-crushed --batches 1 --canner "$word" ;;
        pack) "$command" process beans-snap --jar pint --altitude '0 m' --pack "$word" ;;
        hob) "$command" cook berry-jam-no-pectin --batches 1 --pot-tare '2 kg' --started '4 kg' --burner '2 kW' --hob "$word" ;;
        class) "$command" liquid syrup --class "$word" --volume '1 l' ;;
        process) "$command" rescue acid-forgotten --process "$word" ;;
        pectin) "$command" rescue jam-not-set --volume '1 l' --pectin "$word" ;;
        list) "$command" show --list "$word" ;;
        esac >/dev/null 2>"$work/err" </dev/null
        if grep -q -e 'is not a' -e 'unknown' -e 'there is no' -e "must be" "$work/err"; then
            fail "$asker offers --$option $word, which is not known: $(cat "$work/err")"
        else
            pass
        fi
    done <"$work/offered"
done

if [ $skipped -gt 0 ]; then
    echo "$passed passed, $failed failed, $skipped skipped"
else
    echo "$passed passed, $failed failed"
fi
[ $failed -eq 0 ] && [ $passed -gt 0 ]
