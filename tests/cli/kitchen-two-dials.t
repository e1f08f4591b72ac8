# of two dial gauges the one that may be used is taken, wherever it stands in the file
for off in '0 psi/5 psi high' '5 psi high/0 psi'; do
    rm -f k.xml
    $pottle kitchen set canner one dial-gauge --gauge "${off%/*}" --kitchen k.xml >/dev/null
    $pottle kitchen set canner two dial-gauge --gauge "${off#*/}" --kitchen k.xml >/dev/null
    $pottle process beans-snap --jar quart --altitude '300 m' --kitchen k.xml | grep 'whose gauge'
done
