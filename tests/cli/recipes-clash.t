# answers beside a failure: the rest of the list is told
# A recipe of one's own with the id of a tested one is left out of either list,
# which says so and ends with 3; the tested one stands in both.
mkdir own
sed 's/status="tested"/status="own"/' recipes/salsa/chile-salsa.xml >own/chile-salsa.xml
for what in '--uses tomatoes' '--have 5_lb_tomatoes'; do
    echo "-- $what"
    $pottle recipes "${what%% *}" "$(echo "${what#* }" | tr _ ' ')" --kind salsa --recipes own
    echo "exit $?"
    $pottle recipes "${what%% *}" "$(echo "${what#* }" | tr _ ' ')" --kind salsa --recipes own --json | jq -c '[.recipes[].id], [.left_out[].code]'
done
