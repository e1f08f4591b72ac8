# A recipe of one's own is listed and scaled, and never called tested.
mkdir own
sed -e 's/id="chile-salsa"/id="green-salsa"/' -e 's/status="tested"/status="own"/' -e 's/Chile salsa (hot.*sauce)/Green salsa/' \
    recipes/salsa/chile-salsa.xml >own/green-salsa.xml
"$pottle" recipes --kind salsa --recipes own &&
    "$pottle" jars green-salsa --batches 1 --recipes own --altitude '300 m'
