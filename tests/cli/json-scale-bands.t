# Without an altitude the process is null and all bands are given.
"$pottle" scale tomatoes-crushed --fill '14 quart' --canner weighted-gauge --json
