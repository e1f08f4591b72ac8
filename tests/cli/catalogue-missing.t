# No catalogue: every command that needs one says which folder it looked in.
export POTTLE_DATA
POTTLE_DATA=nowhere
wrong convert '8 cups diced rhubarb' --to g
wrong scale rhubarb-stewed --batches 1
wrong jars --volume '3 L' --jar pint --headspace '1/2 in'
wrong process rhubarb-stewed --jar pint --altitude '0 m'
wrong recipes
wrong show rhubarb
wrong check recipes/jars.xml
mkdir empty
POTTLE_DATA=empty
wrong convert '8 cups diced rhubarb' --to g
wrong recipes
wrong recipes --recipes nowhere
