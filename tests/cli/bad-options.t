# Unknown, incomplete, doubled and superfluous words.
wrong convert '8 cups diced rhubarb' --ot g
wrong convert '8 cups diced rhubarb' -t g
wrong convert '8 cups diced rhubarb' --to
wrong convert '8 cups diced rhubarb' --to ''
wrong convert '8 cups diced rhubarb' --to g --json=yes
wrong convert '8 cups' 'diced rhubarb' --to g
wrong convert
wrong scale
wrong scale rhubarb-stewed
wrong scale rhubarb-stewed --batches 1 --fill '3 quart'
wrong scale rhubarb-stewed --batches 1 --have '3 lb rhubarb'
wrong scale rhubarb-stewed --batches 1 --volume '3 L'
wrong jars rhubarb-stewed --headspace '1/2 in'
wrong jars --volume '3 L' --jar pint
wrong jars rhubarb-stewed --volume '3 L' --jar pint --headspace '1/2 in'
wrong process rhubarb-stewed --jar pint
wrong process rhubarb-stewed --altitude '0 m'
wrong recipes rhubarb
wrong recipes --have rhubarb
wrong show
wrong show rhubarb onion
wrong check
# shellcheck disable=SC2046
wrong scale $(repeat 65 x | sed 's/x/--json /g')
