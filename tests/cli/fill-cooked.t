"$pottle" fill tomatoes-crushed --batches 1.4 --cooked '9.9 l' --shelf '12 quart' --shelf '1 pint' --altitude '900 m'
