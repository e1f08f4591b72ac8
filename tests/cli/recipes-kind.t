"$pottle" recipes --kind salsa
