"$pottle" rescue jar-not-sealed --hours 5 --json
