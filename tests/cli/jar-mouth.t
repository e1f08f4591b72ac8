# a litre stays at least a quart, whatever is said of its mouth
HOME=$PWD
export HOME
$pottle jar measure tall --empty '400 g' --full '1400 g' --mouth '200 mm' | grep -A1 takes
$pottle process corn-cream-style --jar tall --altitude '300 m' 2>&1 | sed -n 1,2p
