"$pottle" scale chile-salsa --have '7 lb tomatoes' --have '2 lb onions' --have '5 cups vinegar' --altitude '900 m' --json
