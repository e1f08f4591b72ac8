# Nothing found is an answer.
"$pottle" recipes --uses rhubarb --uses tomatoes
