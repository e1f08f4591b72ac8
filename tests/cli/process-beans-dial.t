"$pottle" process beans-snap --jar pint --canner dial-gauge --altitude '900 m'
