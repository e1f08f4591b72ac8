# the print beside the mass balance: a note, and the file is in order all the same
"$pottle" check recipes/pickle/pickled-asparagus.xml recipes/jelly/plum-jelly-no-pectin.xml \
    recipes/fruit-pack/mixed-fruit-cocktail.xml recipes/salsa/chile-salsa.xml recipes/jars.xml 2>&1
