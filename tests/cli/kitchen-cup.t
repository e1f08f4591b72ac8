# Cups to measure out are US cups, whatever cup is in the kitchen: it is said
# wherever cups and spoons stand, though none were typed.
echo '<kitchen><cup kind="imperial"/></kitchen>' >imperial.xml
echo '<kitchen><cup kind="metric"/></kitchen>' >metric.xml
echo '<kitchen><cup kind="us"/></kitchen>' >us.xml
for kitchen in imperial metric us; do
    for command in 'scale peach-jam-no-pectin --batches 1' 'scale tomatoes-crushed --batches 1 --jar quart' \
        'jars tomatoes-crushed --batches 1 --jar quart' 'jars peach-jam-no-pectin --batches 1' \
        "recipes --kind conserve --have 5_lb_grapes" \
        'liquid syrup --class medium --fill 6_quart' 'fill tomatoes-crushed --batches 1 --shelf 6_quart' \
        'convert 1_lb_sugar --to cup' 'convert 1_lb_sugar --to ml'; do
        set --
        for word in $command; do
            case $word in *_*) word=$(echo "$word" | tr _ ' ') ;; esac
            set -- "$@" "$word"
        done
        echo "-- $kitchen: $*"
        $pottle "$@" --kitchen $kitchen.xml | tr '\n' ' ' | grep -o 'Cups, spoons[^.]*\.'
        $pottle "$@" --kitchen $kitchen.xml --json | jq -r '.warnings[]? | select(.code == "us-cups") | .text'
    done
done
# cups that are typed are the kitchen's, here too
$pottle recipes --have '5 cups crushed strawberries' --kind jam-no-added-pectin --kitchen imperial.xml
