# a measured jar and the cup of the kitchen file, wherever a jar or a cup can be said: 3 metric cups are 750 mL, where
# 3 US cups are 710
"$pottle" kitchen set cup metric --kitchen k.xml >setting
"$pottle" jar measure 'Tall honey jar' --empty '452 g' --full '934 g' --mouth '60 mm' --near pint --kitchen k.xml >>setting
"$pottle" jars --volume '3 cups' --jar 'tall honey jar' --headspace '1/2 in' --kitchen k.xml
"$pottle" jars --volume '3 cups' --jar 'tall honey jar' --headspace '1/2 in' --kitchen k.xml --json | head -n 5
"$pottle" liquid syrup --class light --fill '4 tall honey jar' --fill '2 quart' --kitchen k.xml | head -n 6
"$pottle" liquid acid tomatoes-crushed --fill '6 tall honey jar' --kitchen k.xml | head -n 6
"$pottle" liquid syrup --brix 30 --volume '3 cups' --kitchen k.xml | head -n 5
"$pottle" liquid brine --percent 5 --water '3 cups' --kitchen k.xml --json | grep -e water_ml -e cup
"$pottle" rescue jam-not-set --volume '3 cups' --pectin powdered --kitchen k.xml | sed -n '1,3p;/remake/p'
"$pottle" rescue jar-not-sealed --hours 5 --recipe tomatoes-crushed --jar 'tall honey jar' --altitude '0 m' --kitchen k.xml | grep -A 6 '^Process'
try liquid syrup --class light --fill '4 short honey jar' --kitchen k.xml
try rescue jar-not-sealed --hours 5 --jar 'short honey jar' --kitchen k.xml
