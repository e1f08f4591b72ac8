# the set point stands at every process on the dial, and no process on one that is too far out
command -v jq >/dev/null || skip "there is no jq"
"$pottle" kitchen set canner kettle boiling-water --kitchen k.xml >setting
for off in '1 psi low' '9 psi low'; do
    "$pottle" kitchen set canner big dial-gauge --gauge "$off" --kitchen k.xml >setting
    for command in process scale; do
        case $command in
            process) set -- process rhubarb-stewed --jar pint ;;
            scale) set -- scale rhubarb-stewed --batches 1 --jar pint ;;
        esac
        "$pottle" "$@" --json --altitude '0 ft' --kitchen k.xml |
            jq -c 'if .process then .process + {not_used} else . end |
                {method, psi, set_psi, alternatives: [.alternatives[] | {method, psi, set_psi}], not_used}'
    done
    "$pottle" rescue jar-not-sealed --json --hours 3 --recipe rhubarb-stewed --jar pint --altitude '0 ft' \
        --kitchen k.xml | jq -c '[.processes[] | {method, psi, set_psi}], .not_used'
    "$pottle" fill rhubarb-stewed --json --batches 1 --shelf '20 pint' --altitude '0 ft' --kitchen k.xml |
        jq -c '.canner, [.loads[] | {psi, set_psi}], .not_used'
done
"$pottle" kitchen set canner heavy weighted-gauge --kitchen k.xml >setting
"$pottle" scale rhubarb-stewed --json --batches 1 --kitchen k.xml | jq -c '[.bands[].method] | unique'
