# Batches, jars, altitudes, volumes.
wrong recipes --have 'nan kg rhubarb'
for x in 0 -1 nan inf 1e9 1/0 1-2 '' 2x 1001; do
    wrong scale rhubarb-stewed --batches "$x"
done
for x in quart '0 quart' '-3 quart' 'nan quart' '3-4 quart' '3 gallon' 3 '1000000 quart'; do
    wrong scale rhubarb-stewed --fill "$x"
done
wrong scale rhubarb-stewed --fill '3 quart' --jar pint
for x in 900 '-900 m' 'nan m' 'inf m' '800-900 m' '10001 m' '1e3 m' ''; do
    wrong process rhubarb-stewed --jar pint --altitude "$x"
done
for x in 3.4 '-3.4 L' '0 L' 'nan L' '1/0 L' '1000000001 L'; do
    wrong jars --volume "$x" --jar pint --headspace '1/2 in'
done
for x in '0 in' '30 in' '-1 in' 6; do
    wrong jars --volume '3 L' --jar pint --headspace "$x"
done
