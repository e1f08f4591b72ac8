# each part of the kitchen file is set, shown, kept beside the version before, and taken out again
HOME=$PWD
export HOME
$pottle kitchen
$pottle kitchen set altitude '6200 ft' >/dev/null
$pottle kitchen set cup metric >/dev/null
$pottle kitchen set scale '0.5 %' >/dev/null
$pottle kitchen set thermometer '1 degF low' >/dev/null
{ $pottle kitchen set canner 'Big & blue' dial-gauge >/dev/null; } 2>&1
$pottle kitchen set canner big dial-gauge --holds '7 quart' --holds '18 pint' --gauge '1 1/2 psi high' >/dev/null
$pottle kitchen set canner kettle boiling-water >/dev/null
$pottle kitchen set pot 'jam pan' --tare '2.1 kg' >/dev/null
$pottle kitchen set pot jam-pan --width '26 cm' >/dev/null
$pottle kitchen set jars '24 half-pint' '14 quart' '3 pint' '0 pint'
cat .config/pottle/kitchen.xml
$pottle kitchen remove canner kettle >/dev/null
$pottle kitchen remove pot 'jam pan' | grep -c pan
diff .config/pottle/kitchen.xml .config/pottle/kitchen.xml~
ls -A .config/pottle
