# a cup that was measured is that of the kitchen file: 5 imperial cups of 284.13 mL are 1.42 L (UK Weights and Measures Act 1985: 1 gallon is 4.54609 L)
echo '<kitchen><cup kind="imperial"/></kitchen>' >k.xml
$pottle chain strawberry-jam-powdered-pectin --measured '5 cups' --kitchen k.xml | sed -n '2,3p;/measured, crushed/p'
