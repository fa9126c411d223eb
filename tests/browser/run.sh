#!/usr/bin/env bash
# Opens every kind of page that drumlin writes in Chromium; installs what that needs on Debian 12.
set -euo pipefail
# shellcheck source=tests/support/prepare.sh
source "$(dirname "${BASH_SOURCE[0]}")/../support/prepare.sh"

# A Node.js that came from elsewhere brings its own npm and excludes Debian's.
node_packages=()
command -v node >/dev/null || node_packages+=(nodejs)
command -v npm >/dev/null || node_packages+=(npm)
need_packages "${build_packages[@]}" chromium fonts-liberation "${node_packages[@]}"
build release drumlin
# The lock file names every package with its checksum.
if ! [ "$root"/tests/browser/node_modules/.package-lock.json -nt "$root/tests/browser/package-lock.json" ]; then
  say "installing the packages of tests/browser"
  (cd "$root/tests/browser" && npm ci --no-audit --no-fund >&2) ||
    give_up "npm ci failed (no network?); needed are the packages of tests/browser/package-lock.json"
fi
exec bash "$root/tests/browser/ctest.sh" "$root/build/release/bin/drumlin"
