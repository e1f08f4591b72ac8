# too little for some of them
$pottle recipes --have '12 oz strawberries'
