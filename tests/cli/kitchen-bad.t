HOME=$PWD
export HOME
try kitchen set altitude high
try kitchen set altitude '20000 m'
try kitchen set altitude '26 cm'
try kitchen set cup tea
try kitchen set scale '1 cm'
try kitchen set thermometer '1 degC'
try kitchen set canner kettle boiling-water --gauge '1 psi high'
try kitchen set canner x steam
try kitchen set canner x dial-gauge --holds '0 pint'
try kitchen set pot y
try kitchen set pot y --width '1 cup'
try kitchen set jars '3 demijohn'
try kitchen set jars '-3 pint'
try kitchen set freezer big
try kitchen remove pot none
try kitchen remove lid blue
try kitchen show all
try kitchen --kitchen none.xml
try kitchen set altitude '5 m' --kitchen none/none.xml
try kitchen --kitchen recipes/jars.xml
try kitchen --kitchen ''
ln -s target.xml link.xml
try kitchen set altitude '5 m' --kitchen link.xml
echo old >target.xml
try kitchen set altitude '5 m' --kitchen link.xml
cat target.xml
try kitchen set altitude '5 m' --kitchen /dev/full
ls -A
