#!/bin/sh
# Puts the game into the menu of this user. Run it again after moving the folder.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
case $here in
    *[\"\`\$\\%]*)
        echo "add-to-menu: expected a folder without \" \` \$ \\ % in its path, found $here" >&2
        exit 2
        ;;
esac
menu=${XDG_DATA_HOME:-$HOME/.local/share}/applications
mkdir -p "$menu"
while IFS= read -r line; do
    case $line in
        *FOLDER*) printf '%s%s%s\n' "${line%%FOLDER*}" "$here" "${line#*FOLDER}" ;;
        *) printf '%s\n' "$line" ;;
    esac
done <"$here/stillfoot.desktop" >"$menu/stillfoot.desktop"
echo "stillfoot is in the menu: $menu/stillfoot.desktop"
