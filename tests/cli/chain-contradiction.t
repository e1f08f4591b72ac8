# More in the pot than went into it is told with both numbers.
try chain tomatoes-crushed --bought '10 lb' --cooked '20 L'
try chain berry-jam-no-pectin --measured '8 cups' --jars '40 half-pint'
try chain tomatoes-crushed --picked 'nan lb'
try chain tomatoes-crushed --picked '3 cups'
