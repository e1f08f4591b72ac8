"$pottle" process beans-snap --json --jar pint --canner boiling-water --altitude '300 m'
