# how many of a jar there are is told wherever jars are counted
$pottle kitchen set jars '11 quart' '8 pint' --kitchen k.xml >/dev/null
for jar in quart pint half-pint; do
    $pottle scale tomatoes-crushed --have '30 lb tomatoes' --jar $jar --kitchen k.xml | grep -A 2 '^  wash'
done
$pottle jars tomatoes-crushed --have '31 lb tomatoes' --kitchen k.xml | grep -A 1 '^  wash'
$pottle chain tomatoes-crushed --picked '30 lb' --kitchen k.xml | grep -A 1 '^wash'
$pottle jars --volume '3 qt' --jar quart --headspace '1/2 in' --kitchen k.xml | head -n 2
$pottle jars tomatoes-crushed --batches 1 --kitchen k.xml --json | grep -e on_shelf -e lacking
# a jar of one's own takes the process of its size, and is counted by what it holds
$pottle jar measure tall --empty '452 g' --full '934 g' --mouth '60 mm' --kitchen k.xml >/dev/null
$pottle scale tomatoes-crushed --fill '8 tall' --altitude '0 m' --kitchen k.xml | sed -n '/^Jars/,/^Matches/p'
$pottle jars tomatoes-crushed --batches 1 --jar tall --kitchen k.xml --json | grep -e '"jar"' -e process_as
$pottle chain tomatoes-crushed --want '8 tall' --kitchen k.xml | sed -n '3,6p'
# never of one that is larger than tested
$pottle jar measure crock --empty '500 g' --full '1800 g' --kitchen k.xml >/dev/null
try scale tomatoes-crushed --batches 1 --jar crock --kitchen k.xml
try chain tomatoes-crushed --want '3 crock' --kitchen k.xml
try chain tomatoes-crushed --want '3 tall' --jar pint --kitchen k.xml
