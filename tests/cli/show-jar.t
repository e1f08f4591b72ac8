"$pottle" show half-pint
