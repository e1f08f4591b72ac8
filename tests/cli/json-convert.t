"$pottle" convert '8 cups diced rhubarb' --to g --json
