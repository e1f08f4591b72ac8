# Bottled lemon juice may stand in for the vinegar: the recipe's rule says so.
"$pottle" scale chile-salsa --batches 1 --set '1 cup bottled lemon juice'
