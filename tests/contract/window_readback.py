"""Reads a window's folder with ordinary readers (json, h5py, VTK) and checks them against each other.

Usage: window_readback.py DRUMLIN EXAMPLES
Ends with 77 (skipped) where the readers are not installed.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

try:
    import h5py
    import numpy as np
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkFiltersCore import vtkContourFilter
    from vtkmodules.vtkIOXML import vtkXMLPolyDataReader, vtkXMLUnstructuredGridReader
except ImportError as missing:
    print(f"skipped: {missing} (Debian packages python3-h5py and python3-vtk9)")
    sys.exit(77)

STUDY = """
case = "{examples}/panel-soft.toml"
model = "fast"
[window]
cells = 6
levels = 2
draws = 16
[[factor]]
key = "station[0].setting.interference"
from = "0.05 mm"
to = "0.6 mm"
[[factor]]
key = "conveyor.speed"
from = "0.6 m/min"
to = "4 m/min"
[[factor]]
key = "part.thickness"
distribution = {{ kind = "normal", mean = "1.5 mm", deviation = "0.03 mm" }}
"""


def refuse(name):
    raise ValueError(f"{name} is no JSON")


def unique(pairs):
    keys = [key for key, _ in pairs]
    assert len(keys) == len(set(keys)), f"a key twice among {keys}"
    return dict(pairs)


def read(reader, file):
    reader.SetFileName(str(file))
    reader.Update()
    return reader.GetOutput()


def check_h5(folder, window):
    with h5py.File(folder / "window.h5") as h5:
        assert h5.attrs["format"] == "drumlin window"

        def visit(name, item):
            if isinstance(item, h5py.Dataset):
                assert item.attrs["unit"] and item.attrs["meaning"], name
                if item.dtype.kind == "f" and "nan" not in item.attrs:
                    assert np.isfinite(item[()]).all(), name

        h5.visititems(visit)
        points = window["map"]["points"]
        assert h5["points/first"].attrs["unit"] == "mm"
        assert h5["points/second"].attrs["unit"] == "m/min"
        assert np.array_equal(h5["points/first"][()], [p["at"][0] for p in points])
        assert np.array_equal(h5["points/second"][()], [p["at"][1] for p in points])
        assert np.array_equal(h5["points/kind"][()], [p["kind"] for p in points])
        for limit in window["limits"]:
            margins = h5[f"points/margins/{limit['kind']}"][()]
            given = [p["margins"].get(str(limit["kind"]), np.nan) for p in points]
            assert np.array_equal(margins, given, equal_nan=True), limit["name"]
        nodes = window["probability"]["nodes"]
        values = h5["probability/nodes/probability"][()]
        assert np.array_equal(values, [n["value"] for n in nodes])
        assert (h5["probability/nodes/low"][()] <= values).all()
        assert (h5["probability/nodes/high"][()] >= values).all()


def check_leaves(window):
    cells = window["map"]["cells"]
    covered = np.zeros((cells, cells), int)
    for i, j, side, _, _ in window["map"]["leaves"]:
        covered[i : i + side, j : j + side] += 1
    assert (covered == 1).all(), "leaves overlap or leave a hole"


def distance_to(lines, place, span):
    """Least distance from a place to segments, in shares of both ranges."""
    a, b = lines[:, 0] / span, lines[:, 1] / span
    p = place / span
    way = b - a
    along = np.clip(((p - a) * way).sum(1) / np.maximum((way**2).sum(1), 1e-300), 0, 1)
    return np.sqrt(((a + along[:, None] * way - p) ** 2).sum(1)).min()


def check_vtk(folder, window):
    grid = read(vtkXMLUnstructuredGridReader(), folder / "window.vtu")
    assert grid.GetNumberOfCells() == len(window["map"]["leaves"])
    assert grid.GetNumberOfPoints() == len(window["map"]["points"])
    x, y = window["axes"]
    assert np.allclose(grid.GetBounds()[:4], [x["from"], x["to"], y["from"], y["to"]])
    assert grid.GetFieldData().GetAbstractArray("x is").GetValue(0) == f"{x['key']} [mm]"
    span = np.array([x["to"] - x["from"], y["to"] - y["from"]])
    # VTK's own contours of each limit's margin, against the border where that limit is lost.
    seen = 0
    for limit in window["limits"]:
        places = [
            place
            for line in window["map"]["border"]
            for place, kind in zip(line["places"], line["beyond"])
            if kind == limit["kind"]
        ]
        if not places:
            continue
        name = f"margin of limit {limit['kind']} [1]"
        grid.GetPointData().SetActiveScalars(name)
        contour = vtkContourFilter()
        contour.SetInputData(grid)
        contour.SetValue(0, 0.0)
        contour.Update()
        found = contour.GetOutput()
        ids = vtk_to_numpy(found.GetLines().GetConnectivityArray()).reshape(-1, 2)
        lines = vtk_to_numpy(found.GetPoints().GetData())[:, :2].astype(float)[ids]
        for place in places:
            # VTK's points are single precision. Where two limits are lost within a twentieth of a
            # cell the border is at the first and may bear the other's name.
            apart = distance_to(lines, np.array(place), span)
            assert apart < 0.05 / window["map"]["cells"] + 1e-6, (limit["name"], place, apart)
            seen += apart < 1e-6
    assert seen > 20, seen

    lines = read(vtkXMLPolyDataReader(), folder / "window-lines.vtp")
    kinds = vtk_to_numpy(lines.GetCellData().GetArray("line [1]"))
    assert (kinds == 0).sum() == len(window["map"]["border"])
    nodes = read(vtkXMLUnstructuredGridReader(), folder / "window-probability.vtu")
    assert nodes.GetNumberOfPoints() == len(window["probability"]["nodes"])


def main():
    program, examples = sys.argv[1:]
    with tempfile.TemporaryDirectory() as place:
        place = pathlib.Path(place)
        (place / "w.toml").write_text(STUDY.format(examples=examples))
        folder = place / "out"
        subprocess.run(
            [program, "window", str(place / "w.toml"), "--out", str(folder), "--quiet"], check=True
        )
        window = json.loads(
            (folder / "window.json").read_text(), parse_constant=refuse, object_pairs_hook=unique
        )
        check_h5(folder, window)
        check_leaves(window)
        if (folder / "window.vtu").exists():
            check_vtk(folder, window)
        page = (folder / "window.html").read_text()
        for words in ("most robust", "Which limit fails where", "How sure", "not a safety"):
            assert words in page, words
    print("all readers agree")


main()
