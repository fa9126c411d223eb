#!/usr/bin/env bash
# Opens results in a real ParaView and looks at the pictures: the tests that ctest skips where
# ParaView is missing. On Debian 12 it installs what they need (139 MB to fetch, 0.8 GB of disk).
# Works from any folder; arguments go to ctest, such as: tests/paraview.sh --verbose
set -euo pipefail
# shellcheck source-path=SCRIPTDIR source=support/prepare.sh
. "$(dirname "${BASH_SOURCE[0]}")/support/prepare.sh"

# Without what these packages recommend: that would take libvtk9-dev away again.
need_packages "${build_packages[@]}" "${test_packages[@]}" paraview xvfb xauth

# The package with ParaView's Python cannot be installed beside libvtk9-dev, so it is unpacked only.
python_folder=$root/build/paraview-python
if [ ! -d "$python_folder/usr" ]; then
  fetched=$(mktemp -d)
  trap 'rm -rf "$fetched"' EXIT
  (cd "$fetched" && apt-get download -q python3-paraview >&2) ||
    give_up "the package python3-paraview could not be fetched"
  mkdir -p "$python_folder"
  dpkg -x "$fetched"/python3-paraview_*.deb "$python_folder"
fi

build release drumlin
cd "$root"
exec ctest --preset release -L paraview "$@"
