# No standard input is a failure, not an empty one.
"$pottle" convert - --to g <&-
