# No recipe: a pot of something and a size of jar.
"$pottle" jars --volume '3.4 L' --jar half-pint --headspace '1/4 in'
