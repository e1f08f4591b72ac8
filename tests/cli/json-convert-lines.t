printf '%s\n' '8 cups diced rhubarb' '2-3 lb onions' | "$pottle" --json convert - --to lb
