# More lines than are read at once, with a long and an empty one among them and no
# newline behind the last.
{
    awk 'BEGIN { for (i = 0; i < 4000; i++) print "8 cups diced rhubarb" }'
    printf '%70000s\n\n' ''
    awk 'BEGIN { for (i = 0; i < 4000; i++) print "8 cups diced rhubarb" }'
    printf '%s' '8 cups diced rhubarb'
} | "$pottle" convert - --to g >answers
echo "exit $?"
awk '{ n[$0]++ } END { for (line in n) print n[line], line }' answers
