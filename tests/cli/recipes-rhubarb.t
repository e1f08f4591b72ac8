"$pottle" recipes --uses rhubarb --without 'powdered pectin'
