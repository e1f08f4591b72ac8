"$pottle" show --list jars
wrong show --list
wrong show --list recipe
wrong show --list foods rhubarb
POTTLE_DATA=/nonexistent wrong show --list recipes
"$pottle" show --list mishaps --json
