# shellcheck shell=sh disable=SC2154
# Functions for tests/cli/*.t; tests/run-cli.sh reads them in.

# try WORD...: one command of a family. Prints what was typed, what was said and the exit status, and the first
# line of an answer. A line that begins with !! says what is wrong whatever is expected; tests/run-cli.sh never
# takes it for right.
try() {
    _line='$ pottle'
    for _word; do
        case $_word in
            ''|*[!a-zA-Z0-9/._=-]*) _line="$_line '$_word'" ;;
            *) _line="$_line $_word" ;;
        esac
    done
    # what was typed may be anything at all, and as long as it likes
    printf '%s\n' "$_line" | cut -c1-120 | tr -c ' -~\n' '?'
    "$pottle" "$@" >try.out 2>try.err
    _code=$?
    if iconv -f UTF-8 -t UTF-8 try.err >/dev/null 2>&1; then
        sed 's/^/    /' try.err
    else
        tr -c ' -~\n' '?' <try.err | sed 's/^/    /'
        echo "!!  what it says is not text"
    fi
    if [ $_code -eq 0 ]; then
        sed -e 's/^/    > /' -e 1q try.out
        [ -s try.out ] || echo "!!  no answer, and yet success"
    else
        [ ! -s try.out ] || echo "!!  an answer, and yet failure"
        [ -s try.err ] || echo "!!  failure without a reason"
    fi
    echo "    exit $_code"
}

# wrong WORD...: the same, of a command to which there is no answer.
wrong() {
    try "$@"
    [ $_code -ne 0 ] || echo "!!  there can be no answer to this"
}

# repeat N CHARACTER
repeat() {
    head -c "$1" /dev/zero | tr '\0' "$2"
}

# skip WHY
skip() {
    echo "$1" >&2
    exit 77
}
