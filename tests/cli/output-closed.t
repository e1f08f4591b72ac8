# No stdout at all.
"$pottle" convert '8 cups diced rhubarb' --to g >&-
