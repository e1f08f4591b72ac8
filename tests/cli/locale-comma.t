# Where people write a decimal comma, numbers are read and written with a point all the same.
command -v localedef >/dev/null || skip "there is no localedef"
mkdir locales
localedef -i de_DE -f UTF-8 locales/de_DE.UTF-8 >/dev/null 2>&1 || skip "no locale with a decimal comma can be made"
# for the commands alone: a shell that takes the locale itself would speak of it
german() { env LOCPATH="$PWD/locales" LC_ALL=de_DE.UTF-8 "$@"; }
[ "$(german locale decimal_point)" = , ] || skip "the locale with a decimal comma does not take effect"
german "$pottle" convert '2.5 cups diced rhubarb' --to g &&
    german "$pottle" convert '2.5 cups diced rhubarb' --to kg --json
