wrong boil
wrong ''
wrong --nope
wrong -h
wrong convert --help --nope
