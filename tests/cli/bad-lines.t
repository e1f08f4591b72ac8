# a name of two lines is told in one
two='big
one'
wrong kitchen set canner "$two" dial-gauge --kitchen k.xml
wrong kitchen set canner big dial-gauge --holds "7 $two" --kitchen k.xml
"$pottle" kitchen set cup us --kitchen k.xml >setting
wrong kitchen remove canner "$two" --kitchen k.xml
echo '<kitchen><canner id="a&#10;b" method="dial-gauge"/></kitchen>' >bad.xml
wrong kitchen show --kitchen bad.xml
wrong show "$two"
wrong convert "1 cup $two" --to g
