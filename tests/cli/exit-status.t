# One of each: 0 done, 1 failed, 2 usage, 3 bad data, 4 refused.
try convert '1 lb onions' --to g
try check nothing-here.xml
try convert '1 lb onions'
printf '<recipe/>\n' >no-id.xml
try check no-id.xml
try process rhubarb-stewed --jar half-gallon --altitude '0 m'
