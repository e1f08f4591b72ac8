# Pieces have a spread of their own.
"$pottle" convert '12 medium apples' --to kg
