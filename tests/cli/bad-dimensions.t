# A mass is no length, and some measures need a form or a weight that nobody published.
wrong convert '8 cups diced rhubarb' --to mm
wrong convert '8 cups diced rhubarb' --to psi
wrong convert '8 cups diced rhubarb' --to furlong
wrong convert '8 mm rhubarb' --to g
wrong convert '8 cups rhubarb' --to g
wrong convert '8 cups diced rhubarb' --to bushel
wrong convert '1 kg rhubarb' --to cup --as quartered
wrong process rhubarb-stewed --jar pint --altitude '900 kg'
wrong jars --volume '3 kg' --jar pint --headspace '1/4 in'
wrong jars --volume '3 L' --jar pint --headspace '1/4 L'
