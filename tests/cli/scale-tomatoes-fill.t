# From the other end of the chain: so many jars, up in the hills.
"$pottle" scale tomatoes-crushed --fill '14 quart' --altitude '1500 m'
