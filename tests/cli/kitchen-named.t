# A kitchen file that is named and is not there is a file that fails; the usual one may be missing.
try scale rhubarb-stewed --batches 1 --kitchen /nonexistent.xml
try convert '1 cup sugar' --to g --kitchen /nonexistent.xml
$pottle convert '1 cup sugar' --to g >/dev/null && echo "no usual file: exit $?"
