"$pottle" liquid syrup --class medium --fill '9 pint' && "$pottle" liquid brine --percent 5 --volume '2 l' &&
    "$pottle" liquid acid tomatoes-crushed --fill '7 quart' --fill '3 pint'
