"$pottle" recipes --json --kind conserve --without walnuts
