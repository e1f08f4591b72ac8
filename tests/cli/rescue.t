"$pottle" rescue jar-not-sealed --hours 5 --recipe tomatoes-crushed --jar quart --altitude '1900 m' &&
    "$pottle" rescue jar-not-sealed --hours 30
