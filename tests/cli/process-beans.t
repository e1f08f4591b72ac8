# Snap beans in boiling water: refused, whatever the altitude.
"$pottle" process beans-snap --jar pint --canner boiling-water --altitude '300 m'
