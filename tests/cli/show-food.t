"$pottle" show rhubarb
