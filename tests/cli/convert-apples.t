# A container has a range of weights, and several sources.
"$pottle" convert '2 bushels apples' --to lb
