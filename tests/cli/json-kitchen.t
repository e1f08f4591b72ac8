$pottle kitchen set altitude '900 m' --kitchen k.xml >/dev/null
$pottle kitchen set jars '6 pint' --kitchen k.xml --json
