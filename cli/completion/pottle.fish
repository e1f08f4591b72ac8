# Completion of pottle in fish.
#
# The commands and their options come from `--help`, the names from `pottle show
# --list`; neither computes anything. What stands here is which option takes what.

# Prints what may stand in the place of the word under the cursor.
function __pottle_complete
    set -l words (commandline -opc)
    set -l current (commandline -ct)
    set -l program $words[1]
    set -l subcommand
    set -l valued
    set -l operands
    set -l before
    for word in $words[2..-1]
        if not set -q subcommand[1]
            if not string match -q -- '-*' $word
                set subcommand $word
                set valued ($program $word --help 2>/dev/null | string replace -rf '^  (--[a-z-]+) [^ ].*' '$1')
            end
        else if not string match -q -- '-*' $word; and not contains -- "$before" $valued
            set -a operands $word
        end
        set before $word
    end

    if not set -q subcommand[1]
        $program --help 2>/dev/null | string replace -rf '^  pottle ([a-z]+)  *(.*)' '$1\t$2'
        printf '%s\n' --json --help --version
        return
    end
    if contains -- "$before" $valued
        switch "$subcommand$before"
            case '*--jar' '*--near'
                $program show --list jars 2>/dev/null
            case '*--recipe'
                $program show --list recipes 2>/dev/null
            case '*--uses' '*--without' '*--food'
                $program show --list foods 2>/dev/null
            case '*--kind'
                $program show --list kinds 2>/dev/null
            case 'convert--to'
                $program show --list units 2>/dev/null
            case '*--list'
                printf '%s\n' recipes foods jars units kinds mishaps
            case '*--as'
                printf '%s\n' whole halved quartered sliced diced cubed chopped crushed mashed pureed shredded grated packed cooked
            case '*--canner'
                printf '%s\n' boiling-water dial-gauge weighted-gauge
            case '*--pack'
                printf '%s\n' hot raw
            case '*--hob'
                printf '%s\n' induction electric gas
            case '*--class'
                printf '%s\n' very-light light medium heavy very-heavy
            case '*--process'
                printf '%s\n' followed wrong untested
            case '*--pectin'
                printf '%s\n' powdered liquid none
            case '*--kitchen'
                __fish_complete_path $current
            case '*--recipes'
                __fish_complete_directories $current
        end
        return
    end
    if string match -q -- '-*' $current
        $program $subcommand --help 2>/dev/null | string replace -rf '^  (--[a-z-]+).*?(   *([^ ].*))?$' '$1\t$3'
        return
    end
    switch "$subcommand."(count $operands)".$operands"
        case 'scale.0.*' 'jars.0.*' 'process.0.*' 'chain.0.*' 'cook.0.*' 'fill.0.*' liquid.1.brine liquid.1.acid
            $program show --list recipes 2>/dev/null
        case 'show.0.*'
            for what in recipes foods jars
                $program show --list $what 2>/dev/null
            end
        case 'rescue.0.*'
            $program show --list mishaps 2>/dev/null
        case 'liquid.0.*'
            printf '%s\n' syrup brine acid juice vinegar
        case 'jar.0.*'
            printf '%s\n' measure list
        case 'kitchen.0.*'
            printf '%s\n' show set remove
        case kitchen.1.set
            printf '%s\n' altitude cup scale thermometer canner pot jars
        case 'kitchen.2.set cup'
            printf '%s\n' us imperial metric
        case 'kitchen.3.set canner *'
            printf '%s\n' boiling-water dial-gauge weighted-gauge
        case kitchen.1.remove
            printf '%s\n' canner pot jar
        case 'check.*'
            __fish_complete_path $current
    end
end

complete -c pottle -f -a '(__pottle_complete)'
