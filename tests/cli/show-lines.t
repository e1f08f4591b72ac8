# a line names its food as people do, with a form only where that says something
$pottle show sweet-pepper-relish | sed -n '/^Ingredients/,/^$/p'
for recipe in apple-butter quick-fresh-pack-dill-pickles figs; do
    $pottle show $recipe | sed -n '/^Ingredients/,/^$/p; /^Into each jar/,/^$/p' | grep -v '^                    '
done
# and so at the stove
for recipe in sweet-pepper-relish grape-conserve; do
    $pottle scale $recipe --batches 1 | sed -n '/^Measure/,/^$/p'
done
