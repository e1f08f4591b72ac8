"$pottle" check nothing-here.xml
