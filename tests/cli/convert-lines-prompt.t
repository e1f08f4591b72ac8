# Whoever sends one line and waits has its answer before the next is sent, though
# stdout is a pipe.
mkfifo in out
"$pottle" convert - --to g <in >out &
exec 3>in 4<out
for phrase in '8 cups diced rhubarb' '2 lb onions'; do
    echo "$phrase" >&3
    timeout 20 head -n 1 <&4 || echo "no answer to '$phrase'"
done
# and the beginning of a line is kept until its end is there
printf '1 cup diced ' >&3
sleep 0.2
printf 'rhubarb' >&3
exec 3>&-
cat <&4
wait $!
