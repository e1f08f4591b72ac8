# More onion than tested is refused, with the rule, its source and what may be done.
"$pottle" scale chile-salsa --batches 1 --set '3 lb onions'
