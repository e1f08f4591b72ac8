# A range said is a range answered.
"$pottle" convert '2-3 lb rhubarb' --to g
