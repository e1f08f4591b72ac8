# Completion for pottle in bash. It lists words and computes nothing.
# shellcheck shell=bash

_pottle() {
    local word=$2 before=$3 command='' words='' i
    COMPREPLY=()
    for ((i = 1; i < COMP_CWORD; i++)); do
        if [[ ${COMP_WORDS[i]} != -* ]]; then
            command=${COMP_WORDS[i]}
            break
        fi
    done
    case $before in
        --jar | --near)
            words='quarter-pint half-pint 250-ml 12-oz pint 500-ml pint-and-half 28-oz quart 1-l half-gallon'
            ;;
        --canner)
            words='boiling-water dial-gauge weighted-gauge'
            ;;
        --pack)
            words='hot raw'
            ;;
        --hob)
            words='induction electric gas'
            ;;
        --class)
            words='very-light light medium heavy very-heavy'
            ;;
        --process)
            words='followed wrong untested'
            ;;
        --pectin)
            words='powdered liquid none'
            ;;
        --to)
            words='g kg oz lb tsp tbsp cup pt qt ml l bushel peck lug count'
            ;;
        --as)
            words='whole halved quartered sliced diced cubed chopped crushed mashed pureed shredded grated packed cooked'
            ;;
        --kind)
            words='butter chutney conserve freezer-jam fruit-pack fruit-sauce jam-liquid-pectin
                jam-no-added-pectin jam-powdered-pectin jelly ketchup-sauce marmalade meat-pack pickle
                pickled-fruit pie-filling preserves relish salsa stewed-fruit syrup tomato-pack vegetable-pack'
            ;;
        --kitchen)
            mapfile -t COMPREPLY < <(compgen -f -- "$word")
            return
            ;;
        --recipes)
            mapfile -t COMPREPLY < <(compgen -d -- "$word")
            return
            ;;
        --have | --set | --fill | --batches | --altitude | --volume | --headspace | --uses | --without | --container | --picked | \
            --bought | --prepared | --measured | --cooked | --jars | --want | --food | --pot | --pot-tare | --started | --now | \
            --after | --burner | --pot-width | --boiling | --brix | --percent | \
            --water | --fruit | --juice | --strength | --hours | --recipe | --fraction | --shelf | --start | --empty | --full | --to-mark | --mark | --mouth | \
            --scale-error | --cup-error | --level-error | --about-error | --temperature | --holds | --gauge | --tare | --width)
            return
            ;;
        *)
            case $command in
                '') words='convert scale jars process chain cook gel liquid rescue fill jar kitchen recipes show check --json --help --version' ;;
                convert) words='--to --as --kitchen --json --help' ;;
                scale) words='--have --batches --fill --jar --altitude --canner --pack --set --kitchen --recipes --json --help' ;;
                jars) words='--have --batches --fill --jar --altitude --canner --pack --set --kitchen --recipes --volume --headspace --json --help' ;;
                process) words='--jar --altitude --pack --canner --kitchen --recipes --json --help' ;;
                chain) words='--container --picked --bought --prepared --measured --batches --cooked --jars --want --about --scale-error --cup-error --level-error --about-error --food --jar --altitude --kitchen --recipes --json --help' ;;
                cook) words='--have --batches --fill --jar --set --pot --pot-tare --started --now --after --burner --hob --pot-width --altitude --kitchen --recipes --json --help' ;;
                gel) words='--altitude --boiling --kitchen --json --help' ;;
                liquid) words='--class --brix --percent --fill --volume --water --have --fruit --juice --strength --to --recipes --json --help' ;;
                rescue) words='--hours --process --recipe --fraction --volume --pectin --pack --jar --altitude --kitchen --recipes --json --help' ;;
                fill) words='--have --batches --fill --shelf --start --jar --altitude --canner --pack --set --kitchen --recipes --json --help' ;;
                jar) words='measure list --empty --full --to-mark --mark --mouth --temperature --near --kitchen --json --help' ;;
                kitchen) words='show set remove --holds --gauge --tare --width --kitchen --json --help' ;;
                recipes) words='--uses --without --have --kind --jar --canner --recipes --json --help' ;;
                show) words='--recipes --json --help' ;;
                check)
                    if [[ $word != -* ]]; then
                        mapfile -t COMPREPLY < <(compgen -f -- "$word")
                        return
                    fi
                    words='--json --help'
                    ;;
            esac
            ;;
    esac
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
}

complete -F _pottle pottle
