"$pottle" chain strawberry-jam-powdered-pectin --bought '9 lb' --measured '16 1/2 cups' --json
