# Bytes that are no text are refused, and are not sent on to the terminal.
bytes=$(printf '\377\376')
wrong convert "8 cups $bytes rhubarb" --to g
wrong convert '8 lb rhubarb' --to "$bytes"
wrong convert '8 lb rhubarb' --to cup --as "$bytes"
wrong "$bytes"
wrong "--$bytes"
wrong convert "--$bytes"
wrong scale "$bytes" --batches 1
wrong scale rhubarb-stewed --batches "$bytes"
wrong scale rhubarb-stewed --fill "$bytes"
wrong scale rhubarb-stewed --batches 1 --altitude "3$bytes"
wrong recipes --uses "$bytes"
wrong recipes --kind "$bytes"
wrong show "$bytes"
wrong check "$bytes"
