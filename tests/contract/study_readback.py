"""Acceptance scenario 15 through the program: a sweep of 20,000 rows, 37 of them impossible, read
by ordinary tools; a row alone gives the same numbers. study_readback.py DRUMLIN SOURCE_DIR"""
import hashlib
import json
import os
import pathlib
import subprocess
import sys
import tempfile

try:
    import h5py
    import numpy
    import pandas  # noqa: F401
    import xarray  # noqa: F401
except ImportError as missing:
    print(missing)
    sys.exit(77)

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
os.environ["DRUMLIN_NO_RENDERING"] = "1"
case = source / "cases/examples/panel-soft.toml"
rows, impossible = 20000, set(range(100, 100 + 37 * 500, 500))


def drumlin(*arguments):
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return done.stdout


with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    # 37 rows set the drum as deep as its cover is thick, which makes no case.
    lines = ["station[0].setting.interference,conveyor.speed"]
    for row in range(rows):
        depth = "16 mm" if row in impossible else f"{0.1 + 0.4 * (row * 7919 % rows) / rows:.9g} mm"
        lines.append(f"{depth},{2 + 6 * (row * 104729 % rows) / rows:.9g} m/min")
    (folder / "rows.csv").write_text("\n".join(lines) + "\n")
    (folder / "study.toml").write_text(
        f'title = "Twenty thousand"\ncase = "{case}"\nmodel = "fast"\n'
        '[design]\nkind = "list"\nfile = "rows.csv"\n')
    drumlin("sweep", folder / "study.toml", "--out", folder / "out", "--quiet")

    with h5py.File(folder / "out/study.h5") as study:
        about = study["provenance"]
        columns = [column.decode() for column in about["columns"][()]]
        values = {column: study["rows"][column][()] for column in columns}
        units = {column: study["rows"][column].attrs["unit"].decode() for column in columns}
        case_text = about["case"][()]
        case_hash = about.attrs["case_sha256"]
    assert all(len(column) == rows for column in values.values())
    failed = values["status"] == b"bad input"
    assert set(numpy.flatnonzero(failed)) == impossible
    assert all(b"16 mm is not less than" in reason for reason in values["reason"][failed])
    assert numpy.isnan(values["face.removal_um"][failed]).all()
    assert numpy.isfinite(values["face.removal_um"][~failed]).all()
    assert units["face.removal_um"] == "um" and units["conveyor.speed"] == "m/min"
    assert all(units.values())
    as_bytes = lambda text: text if isinstance(text, bytes) else text.encode()  # noqa: E731
    assert as_bytes(case_text) == case.read_bytes()
    assert as_bytes(case_hash).decode() == hashlib.sha256(case.read_bytes()).hexdigest()

    says = json.loads((folder / "out/analysis.json").read_text())
    assert {one["status"]: one["rows"] for one in says["statuses"]}["bad input"] == 37
    corner = says["failed"]["by_factor"][0]
    assert corner["differs"] and corner["groups"][-1]["hits"] == 37
    assert "Not random over station[0].setting.interference" in says["failed"]["in_words"][0]

    # A row alone, and its case as a file of its own.
    shown = drumlin("sweep", folder / "study.toml", "--row", 12345, "--out", folder / "row.toml")
    for column in ("face.removal_um", "hole-6.burr_height_um"):
        line = next(line for line in shown.splitlines() if line.split()[:1] == [column])
        # Six digits are shown.
        assert abs(float(line.split()[1]) / values[column][12345] - 1) < 1e-5, line
    drumlin("run", folder / "row.toml", "--out", folder / "one", "--quiet")
    summary = json.loads((folder / "one/summary.json").read_text())


    def every(tree, path=()):
        if isinstance(tree, dict):
            for key, value in tree.items():
                yield from every(value, (*path, key))
        elif isinstance(tree, list):
            for number, value in enumerate(tree):
                yield from every(value, (*path, number))
        else:
            yield path, tree

    found = [value for path, value in every(summary) if path[-1] == "removal_um" and
             isinstance(value, float)]
    assert values["face.removal_um"][12345] in found, (values["face.removal_um"][12345], found)
    heights = [value for path, value in every(summary) if path[-1] == "burr_height_um"]
    assert values["hole-6.burr_height_um"][12345] in heights, heights

    text = subprocess.run(["/usr/bin/python3", source / "cases/studies/read_study.py",
                           folder / "out/study.h5"], capture_output=True, text=True)
    assert text.returncode == 0, text.stderr
    line = next(line for line in text.stdout.splitlines() if line.startswith("face.removal_um"))
    assert line.split()[-1] == "um"
    assert abs(float(line.split()[1]) - numpy.nanmean(values["face.removal_um"])) < 1e-5, line
    assert "xarray.Dataset" in text.stdout and "Dimensions:" in text.stdout
