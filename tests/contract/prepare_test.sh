#!/usr/bin/env bash
# shellcheck disable=SC2016,SC2034  # stand-ins expand later; prepare.sh reads os_release
# prepare.sh installs what is missing, once, and says clearly what it cannot do. The package tools
# are stand-ins that write down how they were called.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
mkdir "$place/bin"
printf 'ID=debian\nVERSION_ID="12"\n' >"$place/debian"
printf 'ID=other\nVERSION_ID="1"\n' >"$place/other"

fail() {
  echo "prepare_test: $*" >&2
  cat "$place/calls" "$place/said" >&2
  exit 1
}

stand_in() {
  printf '#!/bin/sh\n%s\n' "$2" >"$place/bin/$1"
  chmod +x "$place/bin/$1"
}
# A package is there when a file of its name is.
stand_in dpkg-query 'for name; do :; done; [ -e "'"$place"'/has-$name" ] && printf installed'
stand_in id 'echo "${USER_ID:-0}"'

# try OS: asks for the packages "one" and "two".
try() {
  : >"$place/calls"
  (
    PATH=$place/bin:$PATH
    os_release=$place/$1
    # shellcheck source=/dev/null
    . "$here/../support/prepare.sh"
    need_packages one two
  ) >"$place/said" 2>&1
}

apt='echo "$@" >>"'"$place"'/calls"; case "$*" in *install*) touch "'"$place"'/has-one" "'"$place"'/has-two";; esac'
stand_in apt-get "$apt"
touch "$place/has-one"
try debian || fail "could not install"
[ "$(wc -l <"$place/calls")" = 2 ] || fail "expected one update and one install"
grep -q -- 'install --no-install-recommends two$' "$place/calls" || fail "installs what is there"

try debian || fail "failed with everything there"
[ ! -s "$place/calls" ] || fail "called apt-get with nothing missing"
[ ! -s "$place/said" ] || fail "had something to say with nothing missing"
try other || fail "another system with everything there is fine"

rm "$place/has-two"
if try other; then fail "went on without the packages"; fi
grep -q 'Debian 12' "$place/said" || fail "does not name the system it is made for"
[ ! -s "$place/calls" ] || fail "called apt-get on another system"

stand_in apt-get 'echo "$@" >>"'"$place"'/calls"; exit 100'
if try debian; then fail "went on after a failed installation"; fi
grep -q 'no network' "$place/said" || fail "does not say what may be wrong"

stand_in sudo 'exit 1'
export USER_ID=1000
if try debian; then fail "went on where sudo refused"; fi
[ ! -s "$place/calls" ] || fail "called apt-get without sudo"
