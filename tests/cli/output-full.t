# A full disk must not look like success.
[ -e /dev/full ] || skip "there is no /dev/full"
full() {
    "$pottle" "$@" >/dev/full
    echo "exit $?"
}
full --help
full --version
full convert '8 cups diced rhubarb' --to g
full convert '8 cups diced rhubarb' --to g --json
full scale rhubarb-stewed --batches 1
full jars --volume '3 L' --jar pint --headspace '1/2 in'
full process rhubarb-stewed --jar pint --altitude '0 m'
full recipes
full show rhubarb
full check recipes/jars.xml
