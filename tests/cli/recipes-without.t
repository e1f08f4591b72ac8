# What is missing is judged together, a name covers the kinds of it, and a line
# says what is done without it.
$pottle recipes --kind conserve --without walnuts
for without in nuts 'walnuts --without nuts'; do
    echo "-- without $without"
    # shellcheck disable=SC2086
    $pottle recipes --kind conserve --without $without
done
echo "-- left out"
$pottle recipes --kind pie-filling --without cinnamon
$pottle recipes --have '5 lb grapes' --kind conserve --without walnuts
