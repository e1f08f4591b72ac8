# No word at all: the same help, and nothing amiss.
"$pottle" >bare && "$pottle" --help | cmp - bare
