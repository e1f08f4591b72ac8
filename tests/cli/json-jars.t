"$pottle" jars --json --volume '3.4 L' --jar half-pint --headspace '1/4 in' &&
    "$pottle" jars rhubarb-stewed --json --have '4.2 kg rhubarb as picked' --jar pint
