# Crushed after measuring: these are five cups of whole berries.
"$pottle" convert '5 cups strawberries, crushed' --to g
