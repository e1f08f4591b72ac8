# What is to be got is named with its form, and what is bought for it: the jam
# wants 1 cup of cooked rhubarb, from about 1 lb (NCHFP).
"$pottle" recipes --have '2 1/2 cups crushed strawberries' --kind jam-liquid-pectin
