#!/usr/bin/env bash
# Reads every .pvd below a folder of results with ParaView and prints what it found: proof from a
# reader that is not ours. Optional, not part of ctest: ParaView takes 0.7 GB of disk.
#
#   tests/contract/paraview_read.sh out/panel-soft
#
# On Debian 12, beside libvtk9-dev (apt would otherwise take libvtk9-dev away again):
#   apt-get install --no-install-recommends paraview
#   apt-get download python3-paraview && dpkg -x python3-paraview_*.deb ~/paraview-python
#   export PARAVIEW_PYTHON=~/paraview-python/usr/lib/python3/dist-packages
set -euo pipefail

give_up() {
  echo "paraview_read: $*" >&2
  exit 1
}

if [ $# -ne 1 ] || [ ! -d "$1" ]; then give_up "which folder of results?"; fi
command -v pvbatch >/dev/null || give_up "no pvbatch; see the top of this script"
mapfile -t series < <(find "$(cd "$1" && pwd)" -name '*.pvd' | sort)
[ ${#series[@]} -gt 0 ] || give_up "no .pvd below $1"

script=$(mktemp --suffix=.py)
trap 'rm -f "$script"' EXIT
cat >"$script" <<'PYTHON'
import sys
from paraview.simple import OpenDataFile, UpdatePipeline

for name in sys.argv[1:]:
    reader = OpenDataFile(name)
    if reader is None:
        sys.exit(f"no reader for {name}")
    times = list(reader.TimestepValues) or [0.0]
    for time in (times[0], times[-1]):
        UpdatePipeline(time, reader)
    info = reader.GetDataInformation()
    if info.GetNumberOfPoints() == 0:
        sys.exit(f"no points in {name}")
    arrays = []
    for data in (reader.PointData, reader.CellData):
        for i in range(data.GetNumberOfArrays()):
            array = data.GetArray(i)
            arrays.append(f"{array.Name} {array.GetRange(0)}")
    if not arrays:
        sys.exit(f"no arrays in {name}")
    print(f"{name}: {len(times)} steps, {info.GetNumberOfPoints()} points, {'; '.join(arrays)}")
PYTHON

# A pvbatch that aborts can hang and does not heed SIGTERM: the hard limit belongs around it, not
# around xvfb-run. No rendering is asked for, so no display is needed.
PYTHONPATH=${PARAVIEW_PYTHON:-}${PYTHONPATH:+:$PYTHONPATH} \
  timeout -k 5 120 pvbatch "$script" "${series[@]}"
