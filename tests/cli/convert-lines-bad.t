# A line that cannot be read is said by its number, the others are answered.
# answers beside a failure: each line is a question of its own
printf '%s\n' '8 cups diced rhubarb' 'rubbish' '8 cups diced rubarb' '2 bushels apples' |
    "$pottle" convert - --to g
