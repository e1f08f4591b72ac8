# Under a hundredth of a batch the spices are less than a scale shows.
wrong scale chile-salsa --batches 0.001
wrong scale chile-salsa --batches 0.0099
$pottle scale chile-salsa --batches 0.01 | sed -n '/^Measure/,/^$/p'
$pottle scale chile-salsa --batches 0.01 --json | jq -c '.ingredients[] | [.food, .measure]'
