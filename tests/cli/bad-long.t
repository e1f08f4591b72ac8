# Ten thousand characters wherever a word is read.
long=$(repeat 10000 a)
wrong "$long"
wrong "--$long"
wrong convert "--$long"
wrong convert "8 cups $long" --to g
wrong convert "$(repeat 10000 9) lb rhubarb" --to g
wrong convert '8 lb rhubarb' --to "$long"
wrong convert '8 lb rhubarb' --to cup --as "$long"
wrong scale "$long" --batches 1
wrong scale rhubarb-stewed --batches "$(repeat 10000 9)"
wrong scale rhubarb-stewed --fill "$(repeat 10000 9) quart"
wrong scale rhubarb-stewed --batches 1 --jar "$long"
wrong scale rhubarb-stewed --batches 1 --altitude "$(repeat 10000 9) m"
wrong scale rhubarb-stewed --batches 1 --canner "$long"
wrong scale rhubarb-stewed --batches 1 --set "1 lb $long"
wrong recipes --uses "$long"
wrong recipes --kind "$long"
wrong show "$long"
printf '%s\n' "$long" | "$pottle" convert - --to g
echo "exit $?"
