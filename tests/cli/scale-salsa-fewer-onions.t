# Less of what is kept at most as tested is allowed.
"$pottle" scale chile-salsa --batches 1 --set '8 oz onions'
