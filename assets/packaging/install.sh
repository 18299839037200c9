#!/bin/sh
# Puts Parewell among this user's programs: menu entry, icons, file type, manual.
#   ./install.sh [PREFIX]            into PREFIX (~/.local)
#   ./install.sh --remove [PREFIX]   takes it out again
# Nothing outside PREFIX is touched. The program also runs without this, from
# where it was unpacked: bin/parewell.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
remove=
if [ "${1:-}" = --remove ]; then
  remove=1
  shift
fi
prefix=${1:-$HOME/.local}

files() { (cd "$here" && find bin share -type f); }

refresh() { # what a desktop keeps ready; where a tool is missing it looks itself
  command -v update-desktop-database >/dev/null && update-desktop-database -q "$prefix/share/applications" || true
  command -v update-mime-database >/dev/null && update-mime-database "$prefix/share/mime" 2>/dev/null || true
  command -v gtk-update-icon-cache >/dev/null && gtk-update-icon-cache -q -t -f "$prefix/share/icons/hicolor" || true
}

files | while read -r f; do
  if [ -n "$remove" ]; then
    rm -f "$prefix/$f"
  else
    mkdir -p "$(dirname "$prefix/$f")"
    cp "$here/$f" "$prefix/$f"
  fi
done
entry="$prefix/share/applications/org.parewell.Parewell.desktop"
if [ -z "$remove" ]; then # menus do not always search the user's own programs
  sed -e "s|^Exec=parewell|Exec=\"$prefix/bin/parewell\"|" -e "s|^TryExec=parewell|TryExec=$prefix/bin/parewell|" "$here/share/applications/org.parewell.Parewell.desktop" >"$entry"
fi
refresh
[ -n "$remove" ] && echo "Parewell is taken out of $prefix." || echo "Parewell is in $prefix: start it from the menu or with $prefix/bin/parewell."
