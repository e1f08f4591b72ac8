# Rhubarb that the recipe measures cooked, on hand raw: 11 lb make 11 batches,
# and what is left is raw.
"$pottle" scale rhubarb-strawberry-jam-liquid-pectin --have '5.3 kg rhubarb' | sed -n '/Measure/,/Jars/p; /Left over/,/Why/p'
