"$pottle" show rhubarb-stewed
