# what the kitchen file says of thermometer and scale: this thermometer shows 1 deg C more than the gel point is. A
# scale that is 50 g out is 5 percent out of 1 kg, exp(1.645 x 0.05) is 1.09; what is typed goes before it. One that is
# read on the thermometer itself needs no correction.
"$pottle" kitchen set altitude '1900 m' --kitchen k.xml >setting
"$pottle" kitchen set thermometer '1 degC high' --kitchen k.xml >>setting
"$pottle" kitchen set scale '50 g' --kitchen k.xml >>setting
"$pottle" gel --kitchen k.xml | head -n 3
"$pottle" gel --kitchen k.xml --json | grep -e gel_degC -e shows
"$pottle" gel --kitchen k.xml --boiling '94 degC' | head -n 2
echo
for error in '--jar=quart' '--scale-error=1 %' '--scale-error=10 g'; do
    "$pottle" chain tomatoes-crushed --bought '1 kg' --kitchen k.xml "$error" | grep '^  as bought'
done
"$pottle" chain tomatoes-crushed --measured '5 cups crushed' --cup-error '10 %' | grep '^  measured'
"$pottle" chain tomatoes-crushed --cooked '5 L' --level-error '10 %' | grep '^  cooked, by volume'
"$pottle" chain tomatoes-crushed --bought 'about 1 kg' --about-error '10 %' | grep '^  as bought'
echo
wrong chain tomatoes-crushed --bought '1 kg' --cup-error '10 g'
wrong chain tomatoes-crushed --bought '1 kg' --cup-error '200 %'
wrong chain tomatoes-crushed --bought '1 kg' --scale-error '3 cups'
