#!/usr/bin/env bash
# Makes what people install, of the last commit, into a folder outside the tree:
# a tarball and a .deb for Linux, a zip for Windows, and their SHA-256 sums.
# Installs what it needs first, on Debian 12. The same commit gives the same
# bytes wherever it is made. cmd/test.sh --packages tries what this makes.
#
#   bash cmd/package.sh [FOLDER]     FOLDER is ../wakeline-packages if not given
#
# A bundle for macOS can only be made on a Mac: README has the command.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
mkdir -p "${1:-${OUT:-$top/../wakeline-packages}}"
out=$(cd "${1:-${OUT:-$top/../wakeline-packages}}" && pwd)
cd "$top"
. cmd/setup.sh
case $out/ in "$top"/*) say "$out lies in the tree: give a folder outside of it"; exit 2 ;; esac
need "${build_packages[@]}" git dpkg-dev zip unzip xz-utils librsvg2-bin icoutils gcc-mingw-w64-x86-64
find_go

work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT

# The commit alone, in a folder of its own: nothing of the tree that isn't
# committed gets in, and nothing that is made gets into the tree.
src=$work/src
git -c safe.directory='*' clone -q --no-hardlinks "$top" "$src"
[ -z "$(git status --porcelain)" ] || say "what isn't committed is left out"
echo '*.syso' >>"$src/.git/info/exclude" # so that Windows' resources are no change of the sources
cd "$src"

# Everything that the templates name. The version stands in FyneApp.toml alone.
toml() { sed -n "s/^ *$1 = \"\\{0,1\\}\\([^\"]*\\)\"\\{0,1\\}\$/\\1/p" FyneApp.toml; }
NAME=$(toml Name) ID=$(toml ID) VERSION=$(toml Version) BUILD=$(toml Build)
VERSION_COMMAS=${VERSION//./,}
REVISION=$(git rev-parse --short=12 HEAD)
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)
DATE=$(date -u -d "@$SOURCE_DATE_EPOCH" +%Y-%m-%d)
YEAR=${DATE%%-*}
MAILDATE=$(date -u -d "@$SOURCE_DATE_EPOCH" -R)
MAINTAINER='The Wakeline developers <developers@wakeline.invalid>'
APPLICATION_ID=$(sed -n 's/^const applicationID = //p' storage/schema.go)
ARCH=$(dpkg --print-architecture)
export SOURCE_DATE_EPOCH TZ=UTC LC_ALL=C

# fill TEMPLATE writes one of cmd/package with its @WORDS@ replaced.
fill() {
  local text word
  text=$(cat "cmd/package/$1")
  for word in NAME ID VERSION BUILD VERSION_COMMAS REVISION DATE YEAR MAILDATE MAINTAINER APPLICATION_ID ARCH DEPENDS SIZE COMMANDS; do
    text=${text//@$word@/${!word-}}
  done
  printf '%s\n' "$text"
}

# settle FOLDER gives all in it the commit's date, and modes that don't depend
# on who made it.
settle() {
  chmod -R u=rwX,go=rX "$1"
  find "$1" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
}

# The emoji of the toolkit are 4 MB, and no text of Wakeline has one. The toolkit
# asks at each call which goroutine it is on, unless told that the program keeps
# to the one of the window; tests run with those questions.
flags=(-buildvcs=true -trimpath -tags no_emoji,migrated_fynedo)

# Where a template may call a method by its name, the linker keeps every method
# of every type: 3 MB. No template of ours or of the toolkit's calls one, so the
# packages are built with a text/template that looks none up. (The toolchain is
# named by a link, as the go command replaces no file of a fetched one.)
ln -s "$(go env GOROOT)" "$work/go"
sed 's/:= ptr\.MethodByName(fieldName);/:= (reflect.Value{});/' "$work/go/src/text/template/exec.go" >"$work/exec.go"
! cmp -s "$work/exec.go" "$work/go/src/text/template/exec.go" || { say "text/template looks methods up in another way: see cmd/package.sh"; exit 1; }
printf '{"Replace": {"%s": "%s"}}\n' "$work/go/src/text/template/exec.go" "$work/exec.go" >"$work/overlay.json"
flags+=(-overlay "$work/overlay.json")

# build ARGUMENT... builds with that toolchain.
build() { GOROOT=$work/go GOTOOLCHAIN=local GOFLAGS='' "$work/go/bin/go" build "${flags[@]}" "$@"; }

say "building for Linux"
build -ldflags '-s -w -buildid= -extldflags "-Wl,-z,relro,-z,now"' -o "$work/wakeline" ./cmd/wakeline

# The manual's commands are what each says of itself.
COMMANDS=$("$work/wakeline" help | sed -n 's/^wakeline \([a-z]*\) .*/\1/p' | while read -r command; do
  printf '.SS %s\n.nf\n' "$command"
  "$work/wakeline" "$command" --help | sed -e 's/\\/\\\\/g' -e 's/-/\\-/g' -e "s/^\\([.']\\)/\\\\\\&\\1/"
  printf '.fi\n'
done)

# share FOLDER lays what a desktop wants into a folder named share.
share() {
  local size
  mkdir -p "$1"/{applications,mime/packages,metainfo,man/man1,doc/wakeline,icons/hicolor/scalable/apps}
  fill desktop.in >"$1/applications/$ID.desktop"
  fill mime.xml.in >"$1/mime/packages/$ID.xml"
  fill metainfo.xml.in >"$1/metainfo/$ID.metainfo.xml"
  fill wakeline.1.in | gzip -9n >"$1/man/man1/wakeline.1.gz"
  gzip -9n <assets/licences.txt >"$1/doc/wakeline/licences.txt.gz"
  cp assets/icon.svg "$1/icons/hicolor/scalable/apps/$ID.svg"
  for size in 48 64 128 256; do
    mkdir -p "$1/icons/hicolor/${size}x$size/apps"
    rsvg-convert -w $size -h $size -o "$1/icons/hicolor/${size}x$size/apps/$ID.png" assets/icon.svg
  done
}

say "packing for Linux"
tree=wakeline-$VERSION-linux-$ARCH
mkdir -p "$work/tar/$tree/bin"
cp "$work/wakeline" "$work/tar/$tree/bin/"
share "$work/tar/$tree/share"
cp README.md "$work/tar/$tree/share/doc/wakeline/"
settle "$work/tar"
tar -C "$work/tar" --sort=name --owner=0 --group=0 --numeric-owner --mtime="@$SOURCE_DATE_EPOCH" --format=gnu -cf - "$tree" |
  xz -T1 >"$out/$tree.tar.xz"

deb=$work/deb
mkdir -p "$deb"/{usr/bin,usr/share/lintian/overrides,DEBIAN}
cp "$work/wakeline" "$deb/usr/bin/"
share "$deb/usr/share"
fill copyright.in >"$deb/usr/share/doc/wakeline/copyright"
fill changelog.in | gzip -9n >"$deb/usr/share/doc/wakeline/changelog.gz"
fill lintian-overrides.in >"$deb/usr/share/lintian/overrides/wakeline"
# what it is linked with; what it opens when it runs stands in the template
mkdir "$work/shlibs" "$work/shlibs/debian" && printf 'Source: wakeline\n' >"$work/shlibs/debian/control"
DEPENDS=$(cd "$work/shlibs" && dpkg-shlibdeps -O "$work/wakeline" | sed -n 's/^shlibs:Depends=//p')
SIZE=$(find "$deb" -type f -printf '%s\n' | awk '{ s += int(($1 + 1023) / 1024) } END { print s }')
fill control.in >"$deb/DEBIAN/control"
(cd "$deb" && find usr -type f -print0 | sort -z | xargs -0 md5sum) >"$deb/DEBIAN/md5sums"
settle "$deb"
dpkg-deb --root-owner-group -Zxz --threads-max=1 --build "$deb" "$out/wakeline_${VERSION}_$ARCH.deb" >/dev/null

say "building for Windows"
cross=x86_64-w64-mingw32
mkdir "$work/rc"
for size in 16 24 32 48 64 128 256; do
  rsvg-convert -w $size -h $size -o "$work/rc/$size.png" assets/icon.svg
done
(cd "$work/rc" && icotool -c -o wakeline.ico 16.png 24.png 32.png 48.png 64.png 128.png --raw=256.png)
fill wakeline.rc.in >"$work/rc/wakeline.rc"
cp cmd/package/wakeline.manifest "$work/rc/"
(cd "$work/rc" && $cross-windres --codepage=65001 -o "$src/cmd/wakeline/resources_windows_amd64.syso" wakeline.rc)
folder=wakeline-$VERSION-windows-amd64
mkdir -p "$work/zip/$folder"
GOOS=windows GOARCH=amd64 CGO_ENABLED=1 CC=$cross-gcc \
  build -ldflags '-s -w -buildid= -H windowsgui' -o "$work/zip/$folder/wakeline.exe" ./cmd/wakeline

say "packing for Windows"
sed 's/$/\r/' assets/licences.txt >"$work/zip/$folder/licences.txt"
sed 's/$/\r/' README.md >"$work/zip/$folder/README.md"
settle "$work/zip"
rm -f "$out/$folder.zip"
(cd "$work/zip" && find "$folder" -type f | sort | zip -q -X -9 -@ "$out/$folder.zip")

(cd "$out" && sha256sum "$tree.tar.xz" "wakeline_${VERSION}_$ARCH.deb" "$folder.zip" >SHA256SUMS)
say "made, of revision $REVISION:"
(cd "$out" && ls -l "$tree.tar.xz" "wakeline_${VERSION}_$ARCH.deb" "$folder.zip" SHA256SUMS | awk '{ print $5, $9 }' >&2)
say "no bundle for macOS: it is made on a Mac, and README has the command"
