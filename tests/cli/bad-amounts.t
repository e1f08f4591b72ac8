# Empty, negative, zero, not a number, endless, huge, and things that only look like amounts.
for amount in '' ' ' 'rhubarb' '8 cups' '8' '0 cups diced rhubarb' '0.0 lb rhubarb' 'nan cups diced rhubarb' \
    'inf cups diced rhubarb' 'infinity lb rhubarb' '1/0 cups diced rhubarb' '0/0 cups diced rhubarb' '1e400 lb rhubarb' \
    '99999999999999999999 lb rhubarb' '1000000001 lb rhubarb' '0x10 lb rhubarb' '3-2 lb rhubarb' '1 1 1/2 lb rhubarb' '8,5 lb rhubarb' \
    '1.2.3 lb rhubarb' '8 lb rhubarb and 2 lb sugar'; do
    wrong convert "$amount" --to g
done
wrong convert '-8 lb rhubarb' --to g
wrong convert --to g -- '-8 lb rhubarb'
wrong fill tomatoes-crushed --have '20 lb tomatoes' --cooked '80 l' --shelf '10 quart'
wrong fill tomatoes-crushed --have '20 lb tomatoes' --cooked '0 l' --shelf '10 quart'
wrong fill tomatoes-crushed --have '20 lb tomatoes' --cooked '8-9 l' --shelf '10 quart'
wrong fill tomatoes-crushed --have '20 lb tomatoes' --cooked '9 kg' --shelf '10 quart'
wrong fill tomatoes-crushed --have '20 lb tomatoes' --cooked nan --shelf '10 quart'
