# a gauge that is more than 2 psi out is not for low-acid food
$pottle kitchen set canner big dial-gauge --gauge '2.5 psi high' --kitchen k.xml >/dev/null
try fill beans-snap --batches 1 --shelf '9 quart' --altitude '0 m' --kitchen k.xml
try process beans-snap --jar pint --altitude '0 m' --kitchen k.xml
try scale beans-snap --batches 1 --altitude '0 m' --kitchen k.xml
try process beans-snap --jar pint --altitude '0 m' --canner weighted-gauge --kitchen k.xml
try process tomatoes-crushed --jar pint --altitude '0 m' --kitchen k.xml
$pottle kitchen set canner big boiling-water --kitchen k.xml >/dev/null
try process beans-snap --jar pint --altitude '0 m' --kitchen k.xml
try fill beans-snap --batches 1 --shelf '9 half-gallon' --altitude '0 m'
try fill beans-snap --batches 1 --shelf '9' --altitude '0 m'
try fill beans-snap --batches 1 --shelf '9 pint' --start noon
try fill beans-snap --batches 1
try fill
