# bushels go by the peck, and containers have their plurals
"$pottle" chain tomatoes-crushed --container bushel --want '14 quart' | sed -n '3,5p'
"$pottle" chain tomatoes-crushed --container bushel --want '9 quart' | sed -n '3,5p'
"$pottle" chain strawberry-jam-powdered-pectin --container crates --want '80 pint' | sed -n '3,5p'
# where nobody speaks of containers none are told
"$pottle" chain tomatoes-crushed --want '14 quart' | sed -n '3,5p'
