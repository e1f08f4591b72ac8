# The main job: from the basket to the jars.
"$pottle" scale rhubarb-stewed --have '4.2 kg rhubarb as picked' --jar pint --altitude '900 m'
