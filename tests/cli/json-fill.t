$pottle fill chile-salsa --batches 1 --shelf '3 quart' --shelf '4 pint' --shelf '9 half-pint' --altitude '900 m' --start '22:30' --json
