# Was a tested process followed? Not in a jar larger than tested, not where the recipe has none, not in a pack or at an
# altitude that no table has: nothing is kept then. Of a process that was wrong the jar is that of the second.
body() {
    echo "$ $*"
    "$pottle" "$@" | sed -e "/^This says/,\$d" | head -n "${LINES_MOST:-9}"
}
body rescue liquid-lost --fraction 0.2 --hours 20 --recipe beans-snap --jar half-gallon --altitude '0 ft'
body rescue liquid-lost --fraction 0.2 --recipe tomatoes-crushed --jar half-gallon
body rescue liquid-lost --fraction 0.2 --recipe pickled-horseradish-sauce
body rescue jar-not-sealed --hours 20 --recipe beans-snap --jar half-gallon --altitude '0 ft'
body rescue jar-not-sealed --hours 20 --process followed --recipe beans-snap --jar half-gallon
body rescue jam-not-set --recipe strawberry-jam-powdered-pectin --jar half-gallon
body rescue process-interrupted --hours 1 --recipe tomatoes-crushed --pack raw
body rescue process-wrong --hours 1 --recipe beans-snap --jar half-gallon
body rescue process-wrong --hours 1 --recipe pickled-horseradish-sauce
body rescue liquid-lost --fraction 0.2 --hours 20 --recipe beans-snap --jar quart --altitude '0 ft'
body rescue liquid-lost --fraction 0.3 --process wrong
# acid that goes into the pot is not put into jars; only what is there is forgotten or weak, and only a gel sets
for recipe in pickled-asparagus pickled-mixed-vegetables chile-salsa; do
    body rescue acid-forgotten --hours 1 --process followed --recipe $recipe
done
LINES_MOST=4 body rescue acid-forgotten --hours 1 --process followed --recipe tomatoes-crushed
try rescue acid-forgotten --hours 1 --recipe beans-snap
try rescue vinegar-weak --hours 1 --recipe beans-snap
try rescue vinegar-weak --hours 1 --recipe pickled-asparagus
try rescue jam-not-set --recipe chile-salsa --volume '4 cups' --pectin none
try rescue jam-not-set --recipe berry-freezer-jam-powdered-pectin
# what is not made with that pectin is asked about
for pectin in powdered liquid none; do
    "$pottle" rescue jam-not-set --recipe strawberry-jam-powdered-pectin --volume '4 cups' --pectin $pectin |
        grep -A 2 -E '^To remake|Mind the pectin'
done
