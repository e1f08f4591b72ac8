# answers beside a failure: each file has its own answer
"$pottle" kitchen set altitude '900 m' --kitchen k.xml >setting
"$pottle" jar measure 'tall jar' --empty '452 g' --full '934 g' --mouth '60 mm' --kitchen k.xml >>setting
"$pottle" kitchen set jars '9 pint' '6 tall jar' --kitchen k.xml >>setting
echo '<kitchen><altitude value="900" unit="furlong"/></kitchen>' >unit.xml
echo '<kitchen><stove/></kitchen>' >element.xml
echo '<kitchen><shelf jar="demijohn" count="3"/></kitchen>' >jar.xml
"$pottle" check k.xml unit.xml element.xml jar.xml 2>&1
