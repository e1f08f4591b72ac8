# half-gallon jars have a process for apple and grape juice only (Penn State): no syrup for them
try liquid syrup --class light --fill '1 half-gallon'
try liquid syrup --class light --fill '7 quart' --fill '1 half-gallon'
try liquid syrup --class light --fill '7 quart'
# a vinegar stronger than the recipe's is not passed over
for have in '1 l vinegar' '1 l 5% vinegar' '1 l 10% vinegar' '1 l 49% vinegar'; do
    echo "-- $have"
    "$pottle" liquid brine quick-fresh-pack-dill-pickles --have "$have" | sed -n '/percent/,/^Do not/p'
done
# what is boiled down by eye is not said to lose nothing
for recipe in tomato-sauce-standard tomato-sauce-thick; do
    "$pottle" cook $recipe --batches 1 | sed -n 1,4p
    try cook $recipe --batches 1 --pot-tare '2 kg' --started '9 kg'
done
