# Band edges are as printed: 1,000 ft is in 0-1,000, anything above it in the next.
for height in '1000 ft' '1000.1 ft' '304.8 m' '304.9 m' '6000 ft' '6001 ft'; do
    echo "$height"
    "$pottle" process rhubarb-stewed --jar pint --canner boiling-water --altitude "$height" | grep min
done
