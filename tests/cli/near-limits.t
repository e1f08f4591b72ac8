# what is just over a limit is seen to be over it: 24 hours; 2 psi, which are 13.7895 kPa (1 psi is 6.894757 kPa, NIST SP
# 811). The canner is named.
"$pottle" rescue jar-not-sealed --hours 24.0001 | head -n 1
"$pottle" rescue jar-not-sealed --hours 24 | head -n 1
"$pottle" rescue jar-not-sealed --hours 1/3 | head -n 1
"$pottle" kitchen set canner big dial-gauge --gauge '13.8 kPa high' --kitchen k.xml >setting
for command in process fill; do
    case $command in
        process) set -- process beans-snap --jar pint ;;
        fill) set -- fill beans-snap --batches 1 --shelf '9 quart' ;;
    esac
    "$pottle" "$@" --altitude '0 m' --kitchen k.xml 2>&1 | head -n 1
done
"$pottle" fill tomatoes-crushed --batches 1 --shelf '9 quart' --altitude '0 m' --canner dial-gauge --kitchen k.xml 2>&1 |
    head -n 2
# a total under a range that is printed, 4 to 5 cups of sugar, is told the range
try scale peach-jam-no-pectin --batches 1 --set '3 cups sugar'
# a depth of all that went in, and a half of what is there later
"$pottle" cook tomato-ketchup --batches 1 --pot-tare '2 kg' --started '10.7 kg' | sed -n '/^End point/,/^Follow/p'
# loads that last for days
"$pottle" fill tomatoes-crushed --batches 100 --shelf '1000 quart' --start 9:00 --altitude '0 m' --canner boiling-water |
    grep 'begun at'
# a shelf that suffices nine times in ten needs no more jars beside it
"$pottle" fill tomatoes-crushed --batches 1 --shelf '8 quart' --altitude '0 m' | grep -A 2 'the shelf'
