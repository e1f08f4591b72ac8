# A jam without pectin is cooked one tested batch a pot; two cups stay.
"$pottle" scale berry-jam-no-pectin --have '10 cups crushed blackberries'
