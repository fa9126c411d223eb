#!/usr/bin/env bash
# Opens every kind of page that drumlin writes in Chromium; installs what that needs on Debian 12.
set -euo pipefail
# shellcheck source=tests/support/prepare.sh
source "$(dirname "${BASH_SOURCE[0]}")/../support/prepare.sh"

need_packages "${build_packages[@]}" chromium nodejs npm fonts-liberation
build release drumlin
# The lock file names every package with its checksum.
if ! [ "$root"/tests/browser/node_modules/.package-lock.json -nt "$root/tests/browser/package-lock.json" ]; then
  say "installing the packages of tests/browser"
  (cd "$root/tests/browser" && npm ci --no-audit --no-fund >&2) ||
    give_up "npm ci failed (no network?); needed are the packages of tests/browser/package-lock.json"
fi
exec bash "$root/tests/browser/ctest.sh" "$root/build/release/bin/drumlin"
