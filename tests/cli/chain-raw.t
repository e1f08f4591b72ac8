# A pound of raw rhubarb is about the cup of cooked rhubarb of one batch.
"$pottle" chain rhubarb-strawberry-jam-liquid-pectin --food rhubarb --bought '5 lb'
