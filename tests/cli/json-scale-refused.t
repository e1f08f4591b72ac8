# The one thing that stands on stdout beside a failure.
"$pottle" --json scale chile-salsa --batches 1 --set '3 lb onions'
