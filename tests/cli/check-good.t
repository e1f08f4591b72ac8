"$pottle" check recipes/jars.xml recipes/salsa/chile-salsa.xml recipes/foods/rhubarb.xml
