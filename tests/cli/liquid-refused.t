try liquid vinegar --strength 10
try liquid vinegar --strength 4
try liquid syrup --class syrupy --fill '9 pint'
