# a pint of one's own: 482 g of water at 20 deg C are 482.87 mL
HOME=$PWD
export HOME
$pottle jar list
$pottle kitchen set scale '1 g' >/dev/null
$pottle jar measure 'Tall honey jar' --empty '452 g' --full '934 g' --temperature '20 degC' --to-mark '880 g' --mark '13 mm' --near pint
$pottle jar measure bucket --empty '452 g' --full '4952 g' --mouth '200 mm'
$pottle jar list --json
try process beans-snap --jar 'tall honey jar' --altitude '0 m' --canner dial-gauge
try jar measure x --empty '934 g' --full '452 g'
try jar measure x --empty '452 g' --full '934 g' --to-mark '940 g' --mark '13 mm'
try jar measure x --empty '452 g' --full '934 g' --mark '13 mm'
try jar measure x --full '934 g'
try jar measure pint --empty '452 g' --full '934 g'
try jar measure 'no. 7' --empty '452 g' --full '934 g'
try jar measure x --empty '452 ml' --full '934 g'
try jar measure x --empty '452 g' --full '934 g' --near demijohn
try jar
