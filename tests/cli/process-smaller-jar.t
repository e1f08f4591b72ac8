# A jar smaller than tested takes the time of the next larger tested size, and is told so.
"$pottle" process rhubarb-stewed --jar half-pint --canner boiling-water --altitude '0 m'
