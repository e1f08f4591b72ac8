# Every way out of the tested bounds: acid down, produce alone, sugar, another acid, batch, jar, pack, altitude, canner.
wrong scale chile-salsa --batches 1 --set '1/2 cup vinegar'
wrong scale chile-salsa --batches 1 --set '7 lb tomatoes'
wrong scale chile-salsa --batches 1 --set '1 cup fresh lemon juice'
wrong scale chile-salsa --batches 1 --set '1 cup 4 % vinegar'
wrong scale chile-salsa --batches 1 --set '1 lb celery'
wrong scale strawberry-jam-powdered-pectin --batches 1 --set '2 cups sugar'
wrong scale strawberry-jam-powdered-pectin --batches 0.5
wrong scale strawberry-jam-powdered-pectin --batches 1 --set '1 pouch liquid pectin'
wrong scale pickled-hot-peppers --batches 1 --set '2 cups water'
wrong scale rhubarb-stewed --batches 1 --jar half-gallon
wrong process chile-salsa --jar quart --altitude '0 m'
wrong process rhubarb-stewed --jar pint --altitude '0 m' --pack raw
wrong process beans-snap --jar pint --canner dial-gauge --altitude '8001 ft'
wrong process berry-freezer-jam-powdered-pectin --jar half-pint --altitude '0 m'
wrong process tomatoes-crushed --jar quart --altitude '0 m' --canner steam
wrong scale tomatoes-crushed --batches 1 --canner oven
wrong recipes --canner 'open kettle'
wrong kitchen set canner pot steam --kitchen k.xml
