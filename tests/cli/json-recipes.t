"$pottle" recipes --json --uses rhubarb --without 'powdered pectin'
