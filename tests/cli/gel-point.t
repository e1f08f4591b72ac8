"$pottle" gel --altitude '6200 ft' && "$pottle" gel --altitude '6200 ft' --boiling '201.5 degF'
