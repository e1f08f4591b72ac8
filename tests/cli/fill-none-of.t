# jars that are there and stay empty are not told of
$pottle fill tomatoes-crushed --have '30 lb tomatoes' --shelf '12 half-pint' --shelf '8 pint' --shelf '14 quart' |
    sed -n '/^Fill/,/^$/p'
