# The best use first; more fruit than a pot takes means more pots.
"$pottle" recipes --have '4.2 kg rhubarb as picked'
