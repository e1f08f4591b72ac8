# 14 quarts of crushed tomatoes in 10 quarts, 6 pints and 4 half-pints
$pottle fill tomatoes-crushed --fill '14 quart' --shelf '10 quart' --shelf '6 pint' --shelf '4 half-pint' --altitude '900 m' --canner boiling-water --start '14:30'
