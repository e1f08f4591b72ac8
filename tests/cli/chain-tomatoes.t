# How much to pick for fourteen quarts; then what was measured narrows what follows.
"$pottle" chain tomatoes-crushed --want '14 quart' &&
    "$pottle" chain tomatoes-crushed --picked '25 lb' --prepared '9.6 kg' --cooked '8.6 L'
