# Three amounts on hand: the scarcest decides, the others are left over.
"$pottle" scale chile-salsa --have '7 lb tomatoes' --have '2 lb onions' --have '5 cups vinegar'
