#!/usr/bin/env bash
# From a fresh clone on Debian 12 to the first pictures: installs what is missing, builds, runs one
# case. Works from any folder; asks for a password only where sudo does.
set -euo pipefail
# shellcheck source-path=SCRIPTDIR source=../tests/support/prepare.sh
. "$(dirname "${BASH_SOURCE[0]}")/../tests/support/prepare.sh"

need_packages "${build_packages[@]}"
build release drumlin
cd "$root"
mkdir -p out
build/release/bin/drumlin run cases/examples/panel-soft.toml --out out/panel-soft --overwrite ||
  give_up "the case did not run (see above)"
echo
echo "Report, for any browser:"
echo "  $root/out/panel-soft/report.html"
echo
echo "Pictures:"
find "$root/out/panel-soft" -name '*.png' | sort | sed 's/^/  /'
