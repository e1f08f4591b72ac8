"$pottle" process beans-snap --json --jar pint --canner dial-gauge --altitude '900 m'
