"$pottle" check --json recipes/jelly/plum-jelly-no-pectin.xml 2>/dev/null
