for command in convert scale jars process recipes show check; do
    echo "== $command"
    "$pottle" "$command" --help
done
