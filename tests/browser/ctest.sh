#!/usr/bin/env bash
# ctest.sh PROGRAM: opens the pages of a drumlin in Chromium. Installs nothing: where the browser or
# the packages are missing it says so and skips (exit code 77).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"

skip() {
  echo "skipped: $*; tests/browser/run.sh installs it"
  exit 77
}

command -v node >/dev/null || skip "no node here"
[ -d node_modules/puppeteer-core ] && [ -d node_modules/axe-core ] || skip "no tests/browser/node_modules here"
browser=$(command -v chromium) || skip "no chromium here"
DRUMLIN_PROGRAM=$1 DRUMLIN_CHROMIUM=$browser exec node --test judge.test.mjs lesson.test.mjs pages.test.mjs
