"$pottle" show --json rhubarb-stewed
