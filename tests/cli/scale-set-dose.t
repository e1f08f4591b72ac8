# A total that is set is enough for the jars that are expected; more are washed,
# and it says for how many it is. 1/2 tsp of citric acid a quart, 4 tbsp of
# vinegar (USDA guide 3).
$pottle scale tomatoes-crushed --jar quart --batches 1 --set '3 1/2 tsp citric acid' | sed -n '/^  wash/p; /each jar/p; /^Mind/,/^$/p'
$pottle scale tomatoes-crushed --jar quart --batches 1 --set '4 tsp citric acid' --json | jq -c '[.warnings[].code]'
try scale tomatoes-crushed --jar quart --batches 1 --set '1 cup vinegar'
