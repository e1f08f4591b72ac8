"$pottle" recipes --json --have '7 lb tomatoes' --have '2 lb onions' --kind salsa
