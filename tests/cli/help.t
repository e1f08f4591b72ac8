"$pottle" --help
