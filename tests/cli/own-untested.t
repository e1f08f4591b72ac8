# Of a recipe of one's own nothing is called tested or published but rules.
mkdir own
sed 's/status="tested"/status="own"/; s/id="chile-salsa"/id="our-salsa"/' recipes/salsa/chile-salsa.xml >own/our-salsa.xml
$pottle scale our-salsa --batches 2.5 --recipes own | sed -n '1p; /^Cook/,/:$/p; /^In the last/p; /^Source/p'
$pottle chain our-salsa --batches 1 --recipes own | grep '^Source'
$pottle show our-salsa --recipes own | grep -i 'batch'
