# Less than a kitchen can measure is no batch at all, and more jars than the world has is no answer.
wrong scale chile-salsa --have '0.001 g tomatoes'
wrong scale chile-salsa --batches 0.000001
try recipes --have '0.001 g rhubarb'
wrong scale chile-salsa --have '1000000 lb tomatoes'
wrong jars --volume '999999999 L' --jar pint --headspace '1/2 in'
try jars --volume '0.001 ml' --jar pint --headspace '1/2 in'
