# A file that is not in order is named by file and line, exit status 3; a list leaves the one recipe out and says so.
mkdir broken && cp -R recipes/. broken/ || exit 99
chmod -R u+w broken
export POTTLE_DATA
POTTLE_DATA=broken
sed '4q' recipes/foods/rhubarb.xml >broken/foods/rhubarb.xml
sed 's/keep="at-least"/keep="as-you-like"/' recipes/salsa/chile-salsa.xml >broken/salsa/chile-salsa.xml
try convert '8 cups diced rhubarb' --to g
try scale chile-salsa --batches 1
"$pottle" recipes --kind salsa
echo "exit $?"
