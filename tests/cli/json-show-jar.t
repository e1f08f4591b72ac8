"$pottle" show --json half-pint
