# the number itself stands in configure.ac
"$pottle" --version | sed 's/ [0-9]*\.[0-9]*\.[0-9]*$/ N.N.N/'
