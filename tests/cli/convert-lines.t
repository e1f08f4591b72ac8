# A phrase a line; blank lines are passed over.
printf '%s\n' '8 cups diced rhubarb' '' '1 1/2 cups sliced strawberries' '3½ lb rhubarb' '½ bushel apples' |
    "$pottle" convert - --to g
