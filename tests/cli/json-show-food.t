"$pottle" show --json rhubarb
