try rescue jam-not-set --volume '9 cups' --pectin liquid
try rescue jar-not-sealed --hours nan
try rescue jar-exploded
