# completion.zsh FOLDER SCRATCH LINE: what zsh offers at the end of LINE with the function in FOLDER, a word a line.
#
# Completion needs a terminal. zsh/zpty gives one; the shell in it writes what compadd was given into a file.
zmodload zsh/zpty || exit 77
export POTTLE_COMPLETION=$1 POTTLE_OFFERED=$2/offered ZDOTDIR=$2
: >$POTTLE_OFFERED
cat >$ZDOTDIR/.zshrc <<'END'
fpath=($POTTLE_COMPLETION $fpath)
autoload -Uz compinit && compinit -u -D
compadd() {
    # to fill or ask an array adds nothing
    if [[ ${@[1,(i)(-|--)]} != *-(O|A|D)\ * ]]; then
        local -a offered
        builtin compadd -O offered "$@"
        print -rl -- $offered >>$POTTLE_OFFERED
    fi
    builtin compadd "$@"
}
all-offered() { zle complete-word; print end >>$POTTLE_OFFERED; exit }
zle -N all-offered
bindkey '^X' all-offered
print '[ready]'
END
zpty pottle zsh -d -i || exit 77
{
    while zpty -r pottle text; do [[ $text == *'[ready]'* ]] && break; done
    zpty -w -n pottle "$3"$'\x18'
    for ((i = 0; i < 200; i++)); do
        [[ "$(tail -n 1 $POTTLE_OFFERED)" == end ]] && break
        zpty -r -t pottle text
        sleep 0.05
    done
} always {
    zpty -d pottle
}
sed '/^end$/d; /^$/d' $POTTLE_OFFERED
