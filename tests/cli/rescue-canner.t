# a kitchen with a boiling-water canner alone: what it cannot do is told, and said to be so
$pottle kitchen set altitude '5200 ft' --kitchen k.xml >/dev/null
$pottle kitchen set canner blue boiling-water --kitchen k.xml >/dev/null
for recipe in tomatoes-crushed beans-snap; do
    $pottle rescue jar-not-sealed --hours 5 --process followed --recipe $recipe --jar pint --kitchen k.xml |
        sed -n '/^Process of/,/^$/p'
done
# and where its gauge reads wrong, the pressure to hold
$pottle kitchen set canner dial dial-gauge --gauge '1 psi high' --kitchen k.xml >/dev/null
$pottle rescue jar-not-sealed --hours 5 --process followed --recipe beans-snap --jar pint --kitchen k.xml |
    sed -n '/^Process of/,/^$/p'
