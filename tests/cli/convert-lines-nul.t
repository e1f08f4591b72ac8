# answers beside a failure: each line is a question of its own
printf '8 cups diced rhubarb\0 and more\n8 cups diced rhubarb\n' | "$pottle" convert - --to g
