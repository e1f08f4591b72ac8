# What can be made of the basket, in the jars and the canner that there are.
"$pottle" recipes --have '4.2 kg rhubarb as picked' --jar pint --canner boiling-water --without 'liquid pectin'
