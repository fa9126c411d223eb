"""Every drawing as SVG and as PNG: the SVG is read by Python's XML parser and painted by librsvg, and
the share of each colour has to be that of the PNG, which VTK paints.

    drawings_readback.py DRAW_EXTREMES_PROGRAM
"""

import glob
import os
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

SKIP = 77
SVG = "{http://www.w3.org/2000/svg}"
# As in viz/canvas.hpp.
COLOURS = {"metal": (171, 178, 186), "coating": (0, 163, 118), "burr": (200, 80, 0),
           "cover": (240, 197, 122), "worn": (241, 232, 208)}


def read_as_xml(name):
    root = ElementTree.parse(name).getroot()
    assert root.tag == SVG + "svg", name
    for tag in ("title", "desc"):
        element = root.find(SVG + tag)
        assert element is not None and len(element.text) > 10, f"{name}: no {tag}"
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids)), f"{name}: an id comes twice"
    for reference in root.get("aria-labelledby").split():
        assert reference in ids, f"{name}: {reference} names nothing"
    for element in root.iter():
        clip = element.get("clip-path")
        assert clip is None or clip[5:-1] in ids, f"{name}: {clip} names nothing"


def main():
    try:
        import numpy
        from vtkmodules.util.numpy_support import vtk_to_numpy
        from vtkmodules.vtkIOImage import vtkPNGReader
    except ImportError as missing:
        print(f"skipped: {missing}")
        return SKIP

    def pixels(name):
        reader = vtkPNGReader()
        reader.SetFileName(name)
        reader.Update()
        return vtk_to_numpy(reader.GetOutput().GetPointData().GetScalars())[:, :3].astype(int)

    def count(image, colour):
        return int((numpy.abs(image - numpy.array(colour)).max(axis=1) <= 6).sum())

    folder = tempfile.mkdtemp()
    try:
        subprocess.run([sys.argv[1], folder], check=True)
        names = sorted(glob.glob(os.path.join(folder, "*", "*.svg")))
        assert len(names) > 50, "drawings are missing"
        for name in names:
            read_as_xml(name)
        print(f"{len(names)} drawings are well-formed")
        if shutil.which("rsvg-convert") is None:
            print("skipped: no rsvg-convert (Debian: librsvg2-bin) to paint them with")
            return SKIP
        worst = 0.0
        twice = [name for name in names if os.path.exists(name[:-4] + ".png")]
        if not twice:
            print("skipped: no PNG pictures here")
            return SKIP
        for name in twice:
            painted = name[:-4] + "-painted.png"
            subprocess.run(["rsvg-convert", "--background-color=white", "-o", painted, name],
                           check=True)
            ours, theirs = pixels(name[:-4] + ".png"), pixels(painted)
            assert len(ours) == len(theirs), name
            for colour, value in COLOURS.items():
                mine, other = count(ours, value), count(theirs, value)
                # 3 %: smooth edges differ; 1 % of the sheet: behind letters over a fill the PNG has a
                # box of paper, the SVG paper around each letter, and the fonts differ.
                allowed = 0.03 * max(mine, other) + 0.01 * len(ours)
                worst = max(worst, abs(mine - other) / allowed)
                assert abs(mine - other) <= allowed, f"{name}: {colour} {mine} and {other} pixels"
        print(f"colours agree; worst difference {worst:.2f} of what is allowed")
    finally:
        shutil.rmtree(folder)
    return 0


if __name__ == "__main__":
    sys.exit(main())
