# A dial gauge that is out by more than a set point is published for (2 psi: Iowa State University) is not used, for
# acid food either: refused, or the other canners of the kitchen. Text and JSON agree.
dial() {
    "$pottle" kitchen set canner big dial-gauge --holds '7 quart' --gauge "$1" --kitchen k.xml >setting
}
# the rule and its source are the same each time
short() {
    try "$@" | sed '/^ *source:/,/^    exit/{/exit/!d;}'
}
for off in '9 psi low' '15 psi high'; do
    dial "$off"
    short process rhubarb-stewed --jar pint --altitude '0 ft' --kitchen k.xml
done
for command in scale jars 'fill --shelf=20\ pint'; do
    eval "set -- $command"
    short "$1" rhubarb-stewed --batches 1 --altitude '0 ft' ${2:+"$2"} --kitchen k.xml
done
short scale rhubarb-stewed --batches 1 --kitchen k.xml
short process rhubarb-stewed --jar pint --altitude '0 ft' --canner dial-gauge --kitchen k.xml
short process rhubarb-stewed --jar pint --altitude '0 ft' --canner boiling-water --kitchen k.xml
"$pottle" rescue jar-not-sealed --hours 3 --process followed --recipe rhubarb-stewed --jar pint --altitude '0 ft' \
    --kitchen k.xml | sed -n '/^Process/,/^$/p'
echo '-- and a kettle'
"$pottle" kitchen set canner kettle boiling-water --kitchen k.xml >setting
"$pottle" process rhubarb-stewed --jar pint --altitude '0 ft' --kitchen k.xml | head -n 4
"$pottle" scale rhubarb-stewed --batches 1 --altitude '0 ft' --kitchen k.xml | sed -n '/^Process/,/^$/p'
"$pottle" fill rhubarb-stewed --batches 1 --shelf '20 pint' --altitude '0 ft' --kitchen k.xml | sed -n '/^Loads/,/^$/p'
short process beans-snap --jar pint --altitude '0 ft' --kitchen k.xml
echo '-- and a weight'
"$pottle" kitchen set canner heavy weighted-gauge --kitchen k.xml >setting
"$pottle" process rhubarb-stewed --jar pint --altitude '0 ft' --kitchen k.xml | head -n 5
"$pottle" scale rhubarb-stewed --batches 1 --kitchen k.xml | sed -n '/^Process/,/^$/p'
"$pottle" process beans-snap --jar pint --altitude '0 ft' --kitchen k.xml | head -n 5
echo '-- 2 psi is made up for'
for off in '2 psi low' '2 psi high' '1/2 psi high'; do
    dial "$off"
    "$pottle" process rhubarb-stewed --jar pint --altitude '0 ft' --canner dial-gauge --kitchen k.xml | sed -n 2,5p
done
"$pottle" fill rhubarb-stewed --batches 1 --shelf '20 pint' --altitude '0 ft' --canner dial-gauge --kitchen k.xml |
    sed -n '/^Loads/,/^Mind$/p'
