"$pottle" jars rhubarb-stewed --have '4.2 kg rhubarb as picked' --jar pint --altitude '900 m'
