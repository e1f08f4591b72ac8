# The first question of an evening: cups in the hand, a recipe by weight.
"$pottle" convert '8 cups diced rhubarb' --to g
