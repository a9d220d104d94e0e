#!/usr/bin/env bash
# Makes the packages and tries them: that a second run makes the same bytes, the
# .deb in a bare Debian 12, the Windows program under wine. Run by
# `cmd/test.sh --packages`; needs root, for the bare Debian, and installs the
# rest.
set -eu
cd "$(dirname "$0")/.."
. cmd/setup.sh
[ "$(id -u)" = 0 ] || { say "run this as root: it makes a bare Debian 12 to install the package in"; exit 2; }
need "${build_packages[@]}" git mmdebstrap lintian desktop-file-utils appstream man-db xvfb xdotool imagemagick \
  wine wine64 gcc-mingw-w64-x86-64 unzip xz-utils
find_go

work=$(mktemp -d)
started=() # the processes that are ours to end
finish() {
  local id
  for id in "${started[@]}"; do kill "$id" 2>/dev/null || true; done
  [ -z "${WINEPREFIX:-}" ] || wineserver -k 2>/dev/null || true
  umount "$work/root/proc" 2>/dev/null || true
  rm -rf --one-file-system "$work"
}
trap finish EXIT
step() { say "== packages: $* ($((SECONDS / 60)) min)"; }
fail() { say "FAILED: $*"; exit 1; }

# same A B asks that two files are equal.
same() { cmp "$1" "$2" || fail "$1 and $2 differ"; }

# exits CODE COMMAND... asks for an exit code.
exits() {
  local want=$1 got=0
  shift
  "$@" || got=$?
  [ "$got" = "$want" ] || fail "exit code $got, not $want: $*"
}

revision=$(git rev-parse --short=12 HEAD)
step "made"
bash cmd/package.sh "$work/one"
step "made again, elsewhere"
bash cmd/package.sh "$work/two"
same "$work/one/SHA256SUMS" "$work/two/SHA256SUMS"
(cd "$work/two" && sha256sum --quiet -c SHA256SUMS)
rm -rf "$work/two"
tarball=$(echo "$work"/one/*.tar.xz) deb=$(echo "$work"/one/*.deb) zip=$(echo "$work"/one/*.zip)

step "the tarball"
mkdir "$work/tar" && tar -xJf "$tarball" --strip-components=1 -C "$work/tar"
linux=$work/tar/bin/wakeline
[[ "$("$linux" --version)" == *", revision $revision" ]] || fail "the version is $("$linux" --version)"
"$linux" --licences | cmp - assets/licences.txt
size=$(stat -c %s "$linux")
[ "$size" -lt 30000000 ] || fail "the program has $size bytes, 30 MB is the aim: see DEVELOPERS.md for what it is made up of"
# its templates, which are filled in by a library that the packages alone have
go build -buildvcs=false -o "$work/plain" ./cmd/wakeline
for how in '' --exercise; do
  for program in "$linux" "$work/plain"; do
    # shellcheck disable=SC2086 # a flag or none
    "$program" draw samples/sample.json --filter tag:classic $how --out "$work/$(basename "$program")$how.html"
  done
  same "$work/wakeline$how.html" "$work/plain$how.html"
done
zcat "$work/tar/share/man/man1/wakeline.1.gz" | LC_ALL=C.UTF-8 man --warnings -l - 2>&1 >"$work/man" | grep . && fail "the manual has these faults"
for command in new import export judge find cast mix finish draw compare check; do
  grep -q "^ *wakeline $command " "$work/man" || fail "the manual lacks $command"
done

step "what Debian's tools say of the .deb"
lintian --fail-on error,warning "$deb"
desktop-file-validate "$work"/tar/share/applications/*.desktop
appstreamcli validate --no-net "$work"/tar/share/metainfo/*.xml

step "a bare Debian 12"
# from the mirror, and by the way, that this machine has
mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Origin: Debian' 'Codename: bookworm' 'Component: main' | head -n 1)
[ -n "$mirror" ] || fail "apt knows no mirror of Debian 12"
apt-config dump | grep -E '^Acquire::(https?::|Check-|Retries)[^"]* "[^"]' >"$work/apt.conf" || true
mmdebstrap -q --variant=apt --aptopt="$work/apt.conf" bookworm "$work/root" "$mirror"
[ ! -e /etc/ssl/certs/ca-certificates.crt ] || [[ $mirror != https* ]] || { # a mirror by https, with this machine's certificates
  mkdir -p "$work/root/etc/ssl/certs" && cp /etc/ssl/certs/ca-certificates.crt "$work/root/etc/ssl/certs/"
}
cp "$work/apt.conf" "$work/root/etc/apt/apt.conf.d/99test"
cp /etc/resolv.conf "$work/root/etc/resolv.conf" 2>/dev/null || true
mount -t proc proc "$work/root/proc"
inside() { chroot "$work/root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }
inside find / -xdev -path /proc -prune -o -type f -print | sort >"$work/before"
cp "$deb" "$work/root/tmp/wakeline.deb"
inside apt-get update -qq
inside apt-get install -y -qq --no-install-recommends /tmp/wakeline.deb >"$work/apt" 2>&1 || { cat "$work/apt"; fail "the .deb can't be installed"; }
inside dpkg -L wakeline | sort >"$work/installed"
cp samples/sample.json "$work/root/root/"

step "it judges and draws there"
exits 1 inside wakeline judge /root/sample.json >"$work/judged"
exits 1 "$linux" judge samples/sample.json | cmp - "$work/judged"
first=$("$linux" judge samples/sample.json --json | sed -n 's/^ *"setup": "\(.*\)",$/\1/p' | head -n 1) || true
inside wakeline draw /root/sample.json --setup "$first" --out /root/strip.png
"$linux" draw samples/sample.json --setup "$first" --out "$work/strip.png"
same "$work/root/root/strip.png" "$work/strip.png"
exits 0 inside wakeline new /root/p.wakeline --sample
exits 0 inside wakeline check /root/p.wakeline

step "its window opens there"
# the screen is this machine's, so that nothing is added to the bare system
mkfifo "$work/display"
Xvfb -displayfd 3 -screen 0 1280x800x24 -noreset -nolisten tcp 3>"$work/display" 2>/dev/null &
started+=($!)
read -r display <"$work/display"
export DISPLAY=:$display
# opens NAME COMMAND... starts a program and asks that it shows a window of its
# own that isn't of one colour, and that it ends when it is closed.
opens() {
  local name=$1 id=$! window='' colours=0 n
  shift
  "$@" >"$work/$name.log" 2>&1 &
  id=$!
  started+=("$id")
  for n in $(seq 120); do
    kill -0 "$id" 2>/dev/null || { cat "$work/$name.log"; fail "$name: it ended"; }
    window=$(xdotool search --onlyvisible --name 'Wakeline$' 2>/dev/null | head -n 1) || true
    if [ -n "$window" ]; then
      colours=$(import -window root png:- | identify -format %k - 2>/dev/null) || colours=0
      [ "$colours" -lt 100 ] || break
    fi
    sleep 0.5
  done
  [ "$colours" -ge 100 ] || { cat "$work/$name.log"; fail "$name: after $n looks the window is ${window:-none}, with $colours colours"; }
  # what else is to hold of it
  [ -z "$holds" ] || "$holds" "$window" || fail "$name: $holds"
  [ -z "${WAKELINE_SHOTS:-}" ] || { mkdir -p "$WAKELINE_SHOTS" && import -window root "$WAKELINE_SHOTS/package-$name.png"; }
  kill "$id"
  wait "$id" 2>/dev/null || true
}
# its_class WINDOW asks that a desktop finds the .desktop entry of the window.
its_class() {
  local class
  class=$(sed -n 's/^StartupWMClass=//p' "$work"/tar/share/applications/*.desktop)
  [ -n "$class" ] && xdotool search --onlyvisible --class "^$class\$" | grep -qx "$1"
}
holds=its_class
opens debian chroot "$work/root" env -i PATH=/usr/bin:/bin HOME=/root DISPLAY=":$display" wakeline /root/sample.json

holds=''
step "it goes without a trace"
inside apt-get purge -y -qq wakeline >"$work/apt" 2>&1 || { cat "$work/apt"; fail "the .deb can't be removed"; }
while read -r path; do
  if [ -e "$work/root$path" ] && [ ! -d "$work/root$path" ]; then fail "left behind: $path"; fi
done <"$work/installed"
inside apt-get autoremove --purge -y -qq >/dev/null 2>&1
inside find / -xdev -path /proc -prune -o -type f -print | sort | comm -13 "$work/before" - |
  grep -vE '^/(root|tmp|var/(log|cache|lib/(apt|dpkg)))/|^/etc/(resolv.conf|apt/|ld.so.cache)|^/etc/ssl/' >"$work/left" || true
! grep -i wakeline "$work/left" || fail "these are left behind"
umount "$work/root/proc"

step "Windows: the program's resources"
mkdir "$work/zip" && unzip -q "$zip" -d "$work/zip"
exe=$(echo "$work"/zip/*/wakeline.exe)
cross=x86_64-w64-mingw32
$cross-objdump -p "$exe" | grep -q 'Windows GUI' || fail "it opens a console window"
$cross-windres -J coff -O rc -i "$exe" -o "$work/found.rc" 2>/dev/null || $cross-windres "$exe" "$work/found.rc"
version=$(sed -n 's/^ *Version = "\(.*\)"$/\1/p' FyneApp.toml)
tr -d '\0' <"$work/found.rc" | grep -q "ProductVersion.*$version" || fail "its version resource lacks $version"
grep -qi 'GROUP_ICON\|^1 14\|^1 ICON' "$work/found.rc" || fail "it has no icon"

step "Windows: wine"
export WINEPREFIX=$work/wine WINEDEBUG=-all WINEDLLOVERRIDES='mscoree,mshtml='
wineboot -i >/dev/null 2>&1
stand_in=$WINEPREFIX/drive_c/windows/system32/bcryptprimitives.dll
[ -e "$stand_in" ] || $cross-gcc -shared -O2 -o "$stand_in" cmd/package/bcryptprimitives.c -ladvapi32
win() { env -u CI wine "$@" 2>"$work/stderr"; }
dir="$WINEPREFIX/drive_c/Größe und 起き攻め"
mkdir "$dir"
cp "$exe" samples/sample.json "$dir/"
here='C:\Größe und 起き攻め'
export LC_ALL=C.UTF-8
cd "$dir"

step "Windows: judge, draw, new, check, export, import"
exits 1 win wakeline.exe judge "$here\\sample.json" >judged
same judged "$work/judged"
exits 0 win wakeline.exe draw "$here\\sample.json" --setup "$first" --out "$here\\Streifen 起.png"
same 'Streifen 起.png' "$work/strip.png"
for ending in svg pdf md; do
  exits 0 win wakeline.exe draw sample.json --setup "$first" --out "w.$ending"
  "$linux" draw sample.json --setup "$first" --out "l.$ending"
  same "w.$ending" "l.$ending"
done
exits 0 win wakeline.exe new "$here\\Prüfung 起.wakeline" --sample >/dev/null
exits 0 win wakeline.exe check "$here\\Prüfung 起.wakeline" | grep -qx 'OK'
exits 1 win wakeline.exe judge 'Prüfung 起.wakeline' >judged
same judged "$work/judged"
exits 0 win wakeline.exe export 'Prüfung 起.wakeline' "$here\\aus.json" >/dev/null
"$linux" export 'Prüfung 起.wakeline' l.json >/dev/null # a file that Windows made, read here
same aus.json l.json
exits 0 win wakeline.exe export 'Prüfung 起.wakeline' "$here\\Tabellen 起" >/dev/null
exits 0 win wakeline.exe new leer.wakeline >/dev/null
for table in 'Tabellen 起'/*.csv; do
  sed -i 's/\r*$/\r/' "$table" # as a spreadsheet on Windows writes it
done
table=$(find 'Tabellen 起' -name '*.csv' ! -name '* routes.csv' | sort | head -n 1)
exits 0 win wakeline.exe import leer.wakeline "$table" >/dev/null
exits 0 win wakeline.exe export leer.wakeline Zurück >/dev/null
back=Zurück/$(basename "$table")
tr -d '\r' <"$table" >want.csv
tr -d '\r' <"$back" >got.csv
same want.csv got.csv
printf 'no project' >bad.wakeline
exits 2 win wakeline.exe judge bad.wakeline
grep -q 'not a Wakeline project' "$work/stderr" || fail "of a file that is none it says: $(cat "$work/stderr")"
[ -z "$(find . -name '.*' -type f)" ] || fail "left behind: $(find . -name '.*' -type f)"

step "Windows: what it prints in a console"
$cross-gcc -O2 -municode -o "$work/console.exe" "$OLDPWD/cmd/package/console.c"
exits 0 win "$work/console.exe" shown "\"$here\\wakeline.exe\" --version"
grep -q "^wakeline $version, revision" shown || fail "in a console it prints: $(cat shown)"

step "Windows: the window opens"
opens wine wine wakeline.exe sample.json
cd "$OLDPWD"

step "Windows: the tests of storage and timeline"
# tested PACKAGE [SLOW] runs the tests of a package, but for those SLOW.
tested() {
  GOFLAGS='' GOOS=windows GOARCH=amd64 CGO_ENABLED=1 CC=$cross-gcc go test -trimpath -c -o "$work/test.exe" "./$1"
  (cd "$1" && env -u CI -u DISPLAY wine "$work/test.exe" -test.short -test.timeout 10m -test.skip "${2:-^$}" 2>"$work/stderr") || {
    cat "$work/stderr"
    fail "the tests of $1 under wine"
  }
}
# These make and read hundreds of damaged files, which takes wine minutes.
tested storage 'AFlippedBit|RowsArePutAtOtherPlaces|^TestDamage$|HostileAndForeignFiles'
tested timeline

step "all of it holds"
