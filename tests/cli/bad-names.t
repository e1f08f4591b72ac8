# Unknown names, with the nearest that are known; and names that fit several.
wrong convert '8 cups diced rubarb' --to g
wrong convert '8 cups dicd rhubarb' --to g
wrong convert '2 lb unobtainium' --to g
wrong convert '2 lb pepper' --to g
wrong convert '1 tbsp lemon juice' --to ml
wrong scale rhubarb-stewd --batches 1
wrong scale rhubarb-stewed --have '4 lb apples'
wrong scale rhubarb-stewed --batches 1 --jar bucket
wrong process rhubarb-stewed --jar pnt --altitude '0 m'
wrong process rhubarb-stewed --jar pint --altitude '0 m' --canner oven
wrong process rhubarb-stewed --jar pint --altitude '0 m' --pack cold
wrong recipes --uses rubarb
wrong recipes --have '4 lb unobtainium'
wrong recipes --have '4 lb rhubarb' --jar gallon
wrong recipes --kind salsax
wrong show chile-sala
wrong show rubarb
