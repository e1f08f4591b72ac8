# The altitude is told as it was typed, so that typing it again gives the same band: 1,000 ft is in 0 to 1,000 ft, and
# 305 m, 1,000.7 ft, are above (USDA guide 1: edges as printed; 1 ft is 0.3048 m, NIST SP 811)
told() {
    "$pottle" process tomatoes-crushed --jar pint --canner boiling-water "$@" | head -n 2
    "$pottle" process peaches --pack hot --jar pint --canner boiling-water "$@" | head -n 2
    "$pottle" scale peaches --pack hot --fill '7 pint' --canner boiling-water "$@" | grep -A 1 '^Process at'
    "$pottle" rescue jar-not-sealed --hours 2 --process followed --recipe peaches --jar pint "$@" | grep -A 1 '^Process of'
    "$pottle" gel "$@" | sed -n 2,3p
}
for height in '1000 ft' '305 m' '304.8 m' '1000.5 ft'; do
    told --altitude "$height"
done
"$pottle" kitchen set altitude '1000 ft' --kitchen k.xml >setting
told --kitchen k.xml
# above 8,000 ft the open band is not confirmed by every copy (Michigan State, 1997)
for height in '8000 ft' '8001 ft' '4500 m'; do
    echo "-- $height"
    "$pottle" process peaches --pack hot --jar pint --altitude "$height" | grep -c '8000 ft not every copy'
    "$pottle" scale peaches --pack hot --fill '7 pint' --altitude "$height" | grep -c '8000 ft not every copy'
    "$pottle" rescue jar-not-sealed --hours 2 --recipe peaches --jar pint --altitude "$height" | grep -c '8000 ft not every copy'
done
# one limit for all, above which nobody cooks
for height in '4501 m' '14764 ft' '10 km'; do
    try process peaches --jar pint --altitude "$height"
done
try scale peaches --fill '7 pint' --altitude '4501 m'
try jars peaches --fill '7 pint' --altitude '4501 m'
try fill peaches --fill '7 pint' --shelf '9 pint' --altitude '4501 m'
try cook apple-butter --batches 1 --altitude '4501 m'
try chain peaches --picked '9 lb' --altitude '4501 m'
try rescue jar-not-sealed --altitude '4501 m'
try gel --altitude '4501 m'
try kitchen set altitude '4501 m' --kitchen k.xml
try gel --altitude '-1 m'
