"""Reads a result folder with ordinary readers (h5py, VTK) and checks units, ranges and agreement.

Usage: readback.py PROGRAM    PROGRAM DIR writes a result into DIR.
Ends with 77 (skipped) where the readers are not installed.
"""

import json
import pathlib
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

try:
    import h5py
    import numpy as np
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkCommonCore import vtkDataArray
    from vtkmodules.vtkIOXML import vtkXMLImageDataReader, vtkXMLPolyDataReader
except ImportError as missing:
    print(f"skipped: {missing} (Debian packages python3-h5py and python3-vtk9)")
    sys.exit(77)

SUBSTRATE, COATING, COVER, BELT, BEFORE, BURR = range(6)


def check_summary(folder, h5):
    summary = json.loads((folder / "summary.json").read_text())
    for key, value in summary["face"].items():
        if key != "bands":
            assert h5["face"][key][()] == value, key
    for i, station in enumerate(summary["stations"]):
        for key, value in station.items():
            if isinstance(value, float):
                assert h5[f"stations/{i}"][key][()] == value, key
    assert h5["case"].attrs["sha256"] == summary["provenance"]["case_sha256"]
    for feature in summary["features"]:
        group = next(g for g in h5["features"].values() if g.attrs["name"] == feature["name"])
        for key, value in feature.items():
            if isinstance(value, float):
                assert group[key][()] == value, (feature["name"], key)


def check_h5(folder):
    with h5py.File(folder / "results.h5") as h5:
        assert h5.attrs["format"] == "drumlin result"
        count = 0

        def visit(name, item):
            nonlocal count
            if isinstance(item, h5py.Dataset):
                count += 1
                assert item.attrs["unit"] and item.attrs["meaning"], name
                if item.dtype.kind == "f" and "nan" not in item.attrs:
                    assert np.isfinite(item[()]).all(), name

        h5.visititems(visit)
        assert count > 50, count
        assert "title" in h5["case/text"].asstr()[()]
        check_summary(folder, h5)
        for section in h5["sections"].values():
            x = section["x"][()]
            assert (np.diff(x) > 0).all()
            frames = section["frames"]
            assert frames["surface"].shape == (len(frames["drum_x"]), len(x))
            assert frames["pressure"].attrs["unit"] == "MPa"
            assert (frames["pressure"][()] >= 0).all()
            assert (np.diff(frames["drum_x"][()]) < 0).all(), "the drum travels towards -x"
            metal = ~np.isnan(section["after"][()])
            assert (section["after"][()][metal] <= section["before"][()][metal] + 1e-12).all()
        return {name: float(s["frames/pressure"][()].max()) for name, s in h5["sections"].items()}


def read(reader, path):
    reader.SetFileName(str(path))
    reader.Update()
    assert reader.GetErrorCode() == 0, path
    return reader.GetOutput()


def check_frame(path, stretch):
    data = read(vtkXMLPolyDataReader(), path)
    points = vtk_to_numpy(data.GetPoints().GetData())
    layers = vtk_to_numpy(data.GetCellData().GetArray("layer [1]"))
    assert data.GetNumberOfCells() == len(layers) > 3
    shown = set(layers.tolist())
    assert {SUBSTRATE, COATING, COVER, BELT, BEFORE} <= shown <= set(range(6)), path
    assert (points[:, 1] == 0).all(), "all lies in the plane y = 0"
    pressure = vtk_to_numpy(data.GetPointData().GetArray("pressure [MPa]"))
    coating = vtk_to_numpy(data.GetPointData().GetArray("coating left [um]"))
    worn = vtk_to_numpy(data.GetPointData().GetArray("worn away [um]"))
    assert (pressure[~np.isnan(pressure)] >= 0).all()
    assert np.nanmin(coating) >= 0 and np.nanmin(worn) >= -1e-3
    assert np.nanmax(coating) <= 20.001, "20 um of zinc at the start"
    field = data.GetFieldData()
    meanings = field.GetAbstractArray("meaning of the arrays")
    told = [meanings.GetValue(i).split(": ")[0] for i in range(meanings.GetNumberOfValues())]
    for arrays in (data.GetPointData(), data.GetCellData(), field):
        for i in range(arrays.GetNumberOfArrays()):
            array = arrays.GetAbstractArray(i)
            if array is meanings:
                continue
            assert array.GetName() in told, array.GetName()
            unit = array.GetInformation().Get(vtkDataArray.UNITS_LABEL())
            assert f"[{unit.replace('/', ' per ')}]" in array.GetName(), (array.GetName(), unit)
    assert field.GetArray("pass [1]").GetValue(0) == field.GetArray("station [1]").GetValue(0) == 1
    assert field.GetArray("z stretch [1]").GetValue(0) == stretch
    return data, points, pressure


def check_series(pvd, stretch):
    folder = pvd.parent
    entries = xml.parse(pvd).getroot().findall("./Collection/DataSet")
    times = [float(entry.get("timestep")) for entry in entries]
    assert 5 <= len(entries) <= 60, len(entries)
    assert all(a < b for a, b in zip(times, times[1:])), "time is seconds of the pass"
    highest = 0.0
    drum = []
    for entry in entries:
        data, points, pressure = check_frame(folder / entry.get("file"), stretch)
        highest = max(highest, float(np.nanmax(pressure)))
        drum.append(data.GetFieldData().GetArray("drum x [mm]").GetValue(0))
        if stretch == 1:
            assert points[:, 2].max() > 190, "the whole drum is there, 200 mm across"
        else:
            assert np.abs(points[:, 0]).max() <= 4.5 + 1e-6, "1.5 mm beyond the rims at 3 mm"
            assert points[:, 2].min() >= -0.3 * stretch - 1e-4
    # The sample's part goes at 50 mm/s, in one pass.
    assert np.allclose((drum[0] - np.array(drum)) / 50, times, atol=1e-4)
    return highest


def check_map(path, highest):
    image = read(vtkXMLImageDataReader(), path)
    pressure = image.GetPointData().GetArray("pressure [MPa]")
    low, high = pressure.GetRange()
    assert low == 0 and abs(high - highest) < 1e-6 * highest, (high, highest)
    assert image.GetDimensions()[0] > 100 and image.GetDimensions()[1] > 5


def main():
    with tempfile.TemporaryDirectory() as place:
        folder = pathlib.Path(place) / "out"
        subprocess.run([sys.argv[1], str(folder)], check=True)
        highest = check_h5(folder)
        assert highest
        for name, pressure in highest.items():
            seen = check_series(folder / "pass" / f"{name}.pvd", 1)
            close = check_series(folder / "pass" / f"{name}-closeup.pvd", 10)
            # The frame with the highest pressure is always among those written.
            assert abs(close - pressure) < 1e-6 * pressure, (close, pressure)
            assert seen <= pressure * (1 + 1e-6)
            check_map(folder / "pass" / f"{name}-pressure.vti", pressure)
        assert "mm" in (folder / "pass" / "README.txt").read_text()
        size = sum(f.stat().st_size for f in (folder / "pass").rglob("*"))
        assert size < 20e6 / 3, f"{size} bytes for one section"
    print("read back: results.h5, summary.json and every VTK file agree")


if __name__ == "__main__":
    main()
