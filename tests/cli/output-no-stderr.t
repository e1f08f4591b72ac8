# No stderr: the exit status still tells.
"$pottle" scale chile-salsa --batches 1 --set '3 lb onions' 2>&-
