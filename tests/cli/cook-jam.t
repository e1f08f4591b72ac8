"$pottle" cook berry-jam-no-pectin --batches 1 --pot-tare '2.1 kg' --started '3.83 kg' --now '3.7 kg' --after '10 min'
