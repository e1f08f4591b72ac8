# nothing need be said again: altitude, canner, gauge and shelf are in the kitchen file
$pottle kitchen set altitude '900 m' --kitchen k.xml >/dev/null
$pottle kitchen set canner big dial-gauge --holds '7 quart' --holds '18 pint' --gauge '1 psi high' --kitchen k.xml >/dev/null
$pottle kitchen set jars '9 pint' '6 quart' --kitchen k.xml >/dev/null
$pottle fill beans-snap --have '20 lb snap beans' --start '9 am' --kitchen k.xml
$pottle process beans-snap --jar pint --kitchen k.xml
$pottle kitchen set cup metric --kitchen k.xml >/dev/null
$pottle scale rhubarb-stewed --have '8 cups diced rhubarb' --kitchen k.xml | sed -n 1,6p
