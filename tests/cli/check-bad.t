# Every file is looked at; the worst answer is the exit status.
# answers beside a failure: each file is a question of its own
printf '<recipe/>\n' >no-id.xml
printf 'not XML\n' >text.xml
sed 's/food="onion"/food="onoin"/' recipes/salsa/chile-salsa.xml >chile-salsa.xml
printf '<?xml version="1.0"?>\n<!DOCTYPE recipe [<!ENTITY a SYSTEM "recipes/jars.xml">]>\n<recipe id="x">&a;</recipe>\n' >entity.xml
"$pottle" check no-id.xml text.xml recipes/jars.xml chile-salsa.xml entity.xml
