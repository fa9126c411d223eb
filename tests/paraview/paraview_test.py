"""Opens results in a real ParaView: every series is read and viz/paraview/section.py rendered.

Usage: paraview_test.py PROGRAM SOURCE_FOLDER CASE...    CASE names a shipped case.
Ends with 77 (skipped) where ParaView is missing; tests/paraview.sh brings it. With DRUMLIN_KEEP=DIR
the pictures stay in DIR.
"""

import ast
import json
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
import xml.etree.ElementTree as xml
from time import sleep

SKIPPED = 77
HERE = pathlib.Path(__file__).resolve().parent


def skip(why):
    print(f"skipped: {why}; `bash tests/paraview.sh` installs what it needs (139 MB)")
    sys.exit(SKIPPED)


try:
    import numpy as np
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkIOImage import vtkPNGReader
    from vtkmodules.vtkIOXML import vtkXMLPolyDataReader

    import picture_features as features
except ImportError as missing:
    skip(missing)


def constants(script):
    """Literals at the top of a script, without running it."""
    out = {}
    for node in ast.parse(script.read_text()).body:
        if isinstance(node, ast.Assign):
            try:
                out[ast.unparse(node.targets[0])] = ast.literal_eval(node.value)
            except ValueError:
                pass
    return out


def check_colours(source):
    """Script and pictures share one palette; the ramp of pressure falls in lightness."""
    script = constants(source / "viz/paraview/section.py")
    text = (source / "viz/canvas.hpp").read_text()
    palette = {name: tuple(map(int, rgb)) for name, *rgb in
               re.findall(r"Colour (\w+)\{(\d+), (\d+), (\d+)\}", text)}
    names = {0: "metal", 1: "coating", 2: "cover", 5: "burr"}
    for layer, (word, rgb) in script["LAYERS"].items():
        assert rgb == palette[names[layer]], (word, rgb, palette[names[layer]])
    assert script["BELT_COLOUR"] == palette["belt"]
    for name in ("METAL", "COATING", "BURR", "COVER", "INK"):
        assert getattr(features, name) == palette[name.lower()], name

    def lightness(rgb):  # CIE L*, of sRGB
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
                  for c in (part / 255 for part in rgb)]
        y = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
        return 116 * y ** (1 / 3) - 16

    seen = [lightness(rgb) for _, rgb in script["PRESSURE_RAMP"]]
    assert all(a - b > 10 for a, b in zip(seen, seen[1:])), seen


def pvbatch(script, *arguments, display=False):
    """One run. A pvbatch that aborts can hang and does not heed SIGTERM, so the hard limit stands
    around it and inside xvfb-run."""
    command = ["timeout", "-k", "5", "90", "pvbatch", str(script), *map(str, arguments)]
    if display:
        command = ["xvfb-run", "-a", "-s", "-screen 0 1700x1000x24", *command]
    environment = dict(os.environ)
    paths = [os.environ.get("PARAVIEW_PYTHON", str(
        HERE.parents[1] / "build/paraview-python/usr/lib/python3/dist-packages"))]
    paths += [p for p in (environment.get("PYTHONPATH"),) if p]
    environment["PYTHONPATH"] = ":".join(paths)
    for _ in range(4):
        told = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
        # The virtual screen may have taken a number that another one was just giving back.
        if "bad X server connection" not in told.stderr:
            break
        sleep(1)
    return told


def need_paraview():
    for program in ("pvbatch", "xvfb-run"):
        if shutil.which(program) is None:
            skip(f"no {program} here")
    with tempfile.NamedTemporaryFile("w", suffix=".py") as script:
        script.write("import paraview.simple\nprint('READY')\n")
        script.flush()
        if "READY" not in pvbatch(script.name).stdout:
            skip("pvbatch finds no paraview.simple (PARAVIEW_PYTHON names its folder)")


def feed(case):
    """[mm/s] of the conveyor, read from the case file by itself."""
    number, unit = tomllib.loads(case.read_text())["conveyor"]["speed"].split()
    return float(number) * {"m/min": 1000 / 60, "mm/s": 1.0}[unit]


def frame(path):
    reader = vtkXMLPolyDataReader()
    reader.SetFileName(str(path))
    reader.Update()
    data = reader.GetOutput()
    arrays = {}
    for owner in (data.GetPointData(), data.GetCellData(), data.GetFieldData()):
        for i in range(owner.GetNumberOfArrays()):
            if owner.GetArray(i) is not None:
                arrays[owner.GetArrayName(i)] = vtk_to_numpy(owner.GetArray(i))
    return arrays


def series(pvd):
    entries = xml.parse(pvd).getroot().findall("./Collection/DataSet")
    return [(float(e.get("timestep")), frame(pvd.parent / e.get("file"))) for e in entries]


def check_times(frames, v_f):
    """Seconds: in each passage the drum's travel over the feed, and on without a step back."""
    times = [time for time, _ in frames]
    assert all(a < b for a, b in zip(times, times[1:])), times
    assert times[0] == 0
    start = None
    for time, arrays in frames:
        passage = (arrays["pass [1]"][0], arrays["station [1]"][0])
        if start is None or passage != start[0]:
            start = (passage, arrays["drum x [mm]"][0], time)
        inside = (start[1] - arrays["drum x [mm]"][0]) / v_f
        assert math.isclose(arrays["time in this passage [s]"][0], inside, abs_tol=2e-3), passage
        assert math.isclose(time - start[2], inside, abs_tol=2e-3), passage
        assert math.isclose(arrays["time [s]"][0], time, rel_tol=1e-5, abs_tol=1e-6)


def check_reading(folder, v_f):
    """ParaView and an ordinary reader find the same numbers in every series."""
    names = sorted((folder / "pass").glob("*.pvd"))
    told = pvbatch(HERE / "read_series.py", *names)
    line = next((x for x in told.stdout.splitlines() if x.startswith("READ ")), None)
    assert line, told.stdout + told.stderr
    found = json.loads(line[5:])
    for pvd in names:
        ours, seen = series(pvd), found[str(pvd)]
        check_times(ours, v_f)
        assert np.allclose([time for time, _ in ours], seen["times"], rtol=1e-5)
        for name in ours[0][1]:
            low = min(float(np.nanmin(arrays[name])) for _, arrays in ours)
            high = max(float(np.nanmax(arrays[name])) for _, arrays in ours)
            assert re.search(r" \[[^\]]+\]$", name), f"{name} has no unit"
            assert np.allclose(seen["arrays"][name], [low, high], rtol=1e-5), (pvd.name, name)
        assert "meaning of the arrays" in seen["arrays"]
    return len(names)


def picture(path):
    reader = vtkPNGReader()
    reader.SetFileName(str(path))
    reader.Update()
    image = reader.GetOutput()
    width, height, _ = image.GetDimensions()
    pixels = vtk_to_numpy(image.GetPointData().GetScalars()).reshape(height, width, -1)
    return pixels[::-1, :, :3].copy()


def check_pictures(folder, place, source):
    """The section that the script chooses by itself, before, at its hottest and after."""
    script = source / "viz/paraview/section.py"
    hot = place / "hottest.png"
    told = pvbatch(script, folder, "--png", hot, display=True)
    assert told.returncode == 0 and hot.is_file(), told.stdout + told.stderr
    hottest = float(told.stdout.split(": ")[-1].split()[0])
    highest = {}
    for pvd in (folder / "pass").glob("*-closeup.pvd"):
        name = pvd.name.removesuffix("-closeup.pvd")
        highest[name] = max((float(np.nanmax(a["pressure [MPa]"])), time) for time, a in series(pvd))
    name = max(highest, key=highest.get)
    assert math.isclose(hottest, highest[name][1], abs_tol=1e-4), (name, hottest, highest)
    frames = series(folder / "pass" / f"{name}.pvd")
    first, last = frames[0], frames[-1]
    ends = [place / "before.png", place / "after.png"]
    told = pvbatch(script, folder, "--section", name, "--time", first[0], last[0], "--png", *ends,
                   display=True)
    assert told.returncode == 0, told.stdout + told.stderr
    pictures = [picture(path) for path in (ends[0], hot, ends[1])]
    facts = {
        # About 20 um, ten times, under some metres of a thousandth: 0.3 to 6 % of a close-up that
        # is 5 to 10 mm high and half to wholly as wide as its metal.
        "coating": (0.003, 0.06),
        "travel": float(first[1]["drum x [mm]"][0] - last[1]["drum x [mm]"][0]),
        "diameter": 200.0,
    }
    features.check_all(*pictures, facts)
    features.check_that_checks_can_fail(*pictures, facts)
    return name


def check_refusals(folder, place, source):
    script = source / "viz/paraview/section.py"
    empty = place / "empty"
    empty.mkdir()
    for arguments, word in (((place / "nowhere",), "there is no such folder"),
                            ((empty,), "is no result with a series"),
                            ((folder, "--section", "nosuch"), "has no section"),
                            ((folder, "--time", 99), "has no moment 99 s")):
        told = pvbatch(script, *arguments)
        lines = [line for line in told.stderr.splitlines() if line.strip()]
        assert told.returncode == 2, (arguments, told.returncode, told.stderr)
        assert len(lines) == 1 and word in lines[0], told.stderr


def main():
    program, source, *cases = sys.argv[1:]
    source = pathlib.Path(source)
    check_colours(source)
    need_paraview()
    with tempfile.TemporaryDirectory() as scratch:
        for case in cases:
            place = pathlib.Path(os.environ.get("DRUMLIN_KEEP", scratch)) / case
            place.mkdir(parents=True, exist_ok=True)
            file = source / "cases/examples" / f"{case}.toml"
            folder = pathlib.Path(scratch) / f"{case}-out"
            subprocess.run([program, "run", str(file), "--out", str(folder)], check=True,
                           stdout=subprocess.DEVNULL,
                           env={**os.environ, "DRUMLIN_NO_RENDERING": "1"})
            count = check_reading(folder, feed(file))
            name = check_pictures(folder, place, source)
            print(f"{case}: {count} series read, section {name} rendered and looked at")
        check_refusals(folder, pathlib.Path(scratch), source)


if __name__ == "__main__":
    main()
