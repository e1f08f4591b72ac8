# A canner named leaves one line of the process.
"$pottle" scale rhubarb-stewed --fill '9 pint' --altitude '6200 ft' --canner dial-gauge
