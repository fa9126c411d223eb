"""Sets up ParaView on a folder of results: one section, close up and with its whole drum.

    pvbatch section.py FOLDER [--section NAME] [--time SECONDS ...] [--png FILE ...]

In the window of ParaView: open any .pvd of the folder and run this script (Tools > Python Shell >
Run Script, or a macro); or name the folder beforehand and start with the script:

    DRUMLIN_RESULT=FOLDER DRUMLIN_SECTION=NAME paraview --script=section.py

Without a section: the one with the highest pressure. Without a time: the moment of its highest
pressure. Several times want as many pictures. Times are seconds of the pass; the nearest frame is
shown. Made and tried with ParaView 5.11.
"""

import argparse
import math
import os
import pathlib
import re
import sys

from paraview import servermanager
from paraview import simple as pv

# The palette of all pictures, viz/canvas.hpp. The tests hold both against each other.
INK, QUIET, PAPER = (25, 28, 33), (92, 99, 108), (255, 255, 255)
LAYERS = {
    0: ("bare metal", (171, 178, 186)),
    1: ("coating", (0, 163, 118)),
    5: ("burr", (200, 80, 0)),
    2: ("elastic cover", (240, 197, 122)),
}
BELT, BEFORE = 3, 4
BELT_COLOUR = (74, 36, 8)

# One hue, evenly falling lightness: read alike by every kind of colour vision and in grey.
PRESSURE_RAMP = [(0.0, (222, 235, 247)), (0.25, (158, 202, 225)), (0.5, (66, 146, 198)),
                 (0.75, (8, 81, 156)), (1.0, (8, 24, 58))]

PRESSURE, LAYER, STRETCH = "pressure [MPa]", "layer [1]", "z stretch [1]"
SIZE = (1600, 900)  # of a picture [pixel]
HEADER = 0.27  # share of the close-up that is kept free for words and legends


class NoResult(Exception):
    """What was named is not a folder of results, in one sentence."""


def unit_rgb(colour):
    return [part / 255 for part in colour]


def highest_in(map_file):
    """Highest pressure of a section [MPa], from the head of its pressure map."""
    head = map_file.read_bytes()[:4000].decode("latin-1")
    found = re.search(r'Name="pressure \[MPa\]"[^>]*RangeMax="([^"]+)"', head)
    return float(found.group(1)) if found else 0.0


def sections_of(folder):
    """Names of the sections that a result folder shows, those with the highest pressure first."""
    path = pathlib.Path(folder)
    if not path.is_dir():
        raise NoResult(f"{folder}: there is no such folder")
    names = [file.stem for file in (path / "pass").glob("*.pvd")
             if not file.stem.endswith("-closeup")]
    if not (path / "summary.json").is_file() or not names:
        raise NoResult(f"{folder}: is no result with a series; expected a folder that "
                       "`drumlin run CASE --out FOLDER` wrote with the line model")
    heights = {name: highest_in(path / "pass" / f"{name}-pressure.vti") for name in names
               if (path / "pass" / f"{name}-pressure.vti").is_file()}
    return sorted(names, key=lambda name: (-heights.get(name, 0), name))


def moment_of_highest_pressure(reader):
    """Time [s], place [mm] and pressure [MPa] of the highest pressure in a series."""
    best = (reader.TimestepValues[0], 0.0, 0.0)
    for time in reader.TimestepValues:
        pv.UpdatePipeline(time, reader)
        highest = reader.PointData[PRESSURE].GetRange(0)[1]
        if highest > best[2]:
            data = servermanager.Fetch(reader)
            pressure = data.GetPointData().GetArray(PRESSURE)
            at = max(range(pressure.GetNumberOfTuples()),
                     key=lambda i: -1 if math.isnan(pressure.GetValue(i)) else pressure.GetValue(i))
            best = (time, data.GetPoint(at)[0], highest)
    return best


def field_value(reader, name):
    return reader.FieldData[name].GetRange(0)[0]


def only(source, low, high):
    """Cells of the layers from `low` to `high`."""
    return pv.Threshold(Input=source, Scalars=["CELLS", LAYER], LowerThreshold=low,
                        UpperThreshold=high, ThresholdMethod="Between")


def flat(shown):
    """Colours as they are given, without light and shade."""
    shown.Ambient, shown.Diffuse, shown.Specular = 1.0, 0.0, 0.0
    return shown


def layer_colours():
    colours = pv.GetColorTransferFunction(LAYER)
    colours.InterpretValuesAsCategories = 1
    colours.Annotations = [text for layer, (name, _) in LAYERS.items() for text in (str(layer), name)]
    colours.IndexedColors = [part for _, rgb in LAYERS.values() for part in unit_rgb(rgb)]
    colours.IndexedOpacities = [1.0] * len(LAYERS)
    return colours


def pressure_colours(highest):
    """Logarithmic, over two and a half decades: plain face and burr show together."""
    high = highest if highest > 0 else 1.0
    low = high / 300
    colours = pv.GetColorTransferFunction(PRESSURE)
    colours.AutomaticRescaleRangeMode = "Never"
    colours.ColorSpace = "RGB"
    colours.NanColor = unit_rgb(QUIET)
    colours.RGBPoints = [number for share, rgb in PRESSURE_RAMP
                         for number in (low * (high / low) ** share, *unit_rgb(rgb))]
    colours.UseLogScale = 1
    return colours


def new_view():
    view = pv.CreateView("RenderView")
    view.UseColorPaletteForBackground = 0
    view.Background = unit_rgb(PAPER)
    view.OrientationAxesVisibility = 0
    view.InteractionMode = "2D"
    view.CameraParallelProjection = 1
    return view


def aim(view, middle, half_height):
    """Looks along +y: x to the right, z up."""
    view.CameraFocalPoint = [middle[0], 0, middle[1]]
    view.CameraPosition = [middle[0], -1000, middle[1]]
    view.CameraViewUp = [0, 0, 1]
    view.CameraParallelScale = half_height
    view.CenterOfRotation = [middle[0], 0, middle[1]]


def write_on(view, source, place, size, bold=False, colour=INK):
    shown = pv.Show(source, view)
    shown.WindowLocation = "Any Location"
    shown.Position = place
    shown.FontSize = size
    shown.Justification = "Left"
    shown.Bold = int(bold)
    shown.Color = unit_rgb(colour)


def style_legend(bar, place, length, orientation):
    bar.WindowLocation = "Any Location"
    bar.Position = place
    bar.ScalarBarLength = length
    bar.ScalarBarThickness = 18
    bar.Orientation = orientation
    bar.TitleColor = bar.LabelColor = unit_rgb(INK)
    bar.TitleFontSize = bar.LabelFontSize = 14
    bar.TitleJustification = "Left"


def below(source, height):
    """What lies lower than a height."""
    clip = pv.Clip(Input=source, ClipType="Plane", Invert=1)
    clip.ClipType.Origin, clip.ClipType.Normal = [0, 0, height], [0, 0, 1]
    return clip


def show_section(source, view):
    """Metal, coating, burr and cover as areas, in the colours of the layers."""
    # All but the lines: never empty, or the window asks the user about colours without values.
    areas = only(source, BELT, BEFORE)
    areas.Invert = 1
    shown = flat(pv.Show(areas, view))
    shown.LookupTable = layer_colours()
    shown.ColorArrayName = ["CELLS", LAYER]


def show_lines(source, view, width, colour, towards_eye):
    shown = flat(pv.Show(source, view))
    shown.ColorArrayName = ["POINTS", ""]
    shown.AmbientColor = shown.DiffuseColor = unit_rgb(colour)
    shown.LineWidth = width
    shown.Position = [0, -towards_eye, 0]
    return shown


def show_close_up(reader, view, name, hottest, highest):
    stretch = field_value(reader, STRETCH)
    left, right = reader.GetDataInformation().GetBounds()[:2]
    if not 6 < right - left < 14:  # one edge, or several windows: the place where it is hottest
        reach = 1.6 if right - left <= 6 else 4.5
        left, right = hottest - reach, hottest + reach
    height = min(max(1.05 * (right - left), 0.5 * stretch), stretch)
    middle = 0.25 * height
    aim(view, ((left + right) / 2, middle), height / 2)
    shown = below(reader, middle + (0.5 - HEADER) * height)
    show_section(shown, view)
    show_lines(only(shown, BEFORE, BEFORE), view, 2, INK, 0.1)
    belt = only(shown, BELT, BELT)
    show_lines(belt, view, 11, BELT_COLOUR, 0.2)
    # One source has one look per view: the same line again, for its colour.
    contact = pv.Threshold(Input=belt, Scalars=["CELLS", LAYER], LowerThreshold=BELT,
                           UpperThreshold=BELT, ThresholdMethod="Between")
    shown = show_lines(contact, view, 7, BELT_COLOUR, 0.3)
    shown.ColorArrayName = ["POINTS", PRESSURE]
    colours = pressure_colours(highest)
    shown.LookupTable = colours
    bar = pv.GetScalarBar(colours, view)
    bar.Title, bar.ComponentTitle = "contact pressure [MPa]", ""
    bar.RangeLabelFormat = bar.LabelFormat = "%-#.2g"
    bar.AutomaticLabelFormat = 0
    style_legend(bar, [0.40, 0.82], 0.33, "Horizontal")
    bar.Visibility = 1
    legend = pv.GetScalarBar(layer_colours(), view)
    legend.Title, legend.ComponentTitle = "", ""
    style_legend(legend, [0.84, 0.77], 0.2, "Vertical")
    legend.Visibility = 1

    write_on(view, pv.Text(Text=f"Section {name}"), [0.03, 0.94], 20, bold=True)
    write_on(view, pv.AnnotateTimeFilter(Input=reader, Format="time {time:.3f} s of the pass"),
             [0.03, 0.89], 18)
    write_on(view, pv.Text(Text=f"heights stretched {stretch:g} times\n{right - left:.1f} mm across\n"
                                "the drum travels to the left"), [0.03, 0.775], 14)


def show_whole_drum(reader, view):
    show_section(reader, view)
    show_lines(only(reader, BELT, BELT), view, 3, BELT_COLOUR, 1)
    low_x, high_x, _, _, low_z, high_z = reader.GetDataInformation().GetBounds()
    # Room for the drum at every moment, so that it moves and the part stands still.
    travel = 0.0
    for time in (reader.TimestepValues[0], reader.TimestepValues[-1]):
        pv.UpdatePipeline(time, reader)
        travel = max(travel, abs(field_value(reader, "drum x [mm]")))
    half = (high_z - low_z) / 2 + travel
    aim(view, (0, (low_z + high_z) / 2), 1.65 * half)
    write_on(view, pv.Text(Text="Whole drum, true scale"), [0.04, 0.94], 18, bold=True)
    write_on(view, pv.Text(Text=f"drum and part together {high_z - low_z:.0f} mm high"), [0.04, 0.02], 14)


def set_up(folder, section=None, times_wanted=()):
    """Views of one section; returns the layout and the times to show [s].

    @raise NoResult: the folder is no result, or has no such section or moment.
    """
    names = sections_of(folder)
    if section is not None and section not in names:
        raise NoResult(f"{folder}: has no section \"{section}\"; it has {', '.join(names)}")
    name = section or names[0]
    series = pathlib.Path(folder) / "pass"
    close_file = series / f"{name}-closeup.pvd"
    whole = pv.OpenDataFile(str((series / f"{name}.pvd").resolve()))
    close = pv.OpenDataFile(str((close_file if close_file.is_file() else series / f"{name}.pvd")
                                .resolve()))
    pv.RenameSource(f"{name}, whole drum", whole)
    pv.RenameSource(f"{name}, close-up", close)
    hottest_time, hottest, highest = moment_of_highest_pressure(close)
    times = list(close.TimestepValues)
    for time in times_wanted:
        if not times[0] <= time <= times[-1]:
            raise NoResult(f"{folder}: section {name} has no moment {time:g} s; its pass goes from "
                           f"{times[0]:g} to {times[-1]:g} s")

    scene = pv.GetAnimationScene()
    scene.UpdateAnimationUsingDataTimeSteps()
    shown = [min(times, key=lambda other: abs(other - time)) for time in times_wanted]
    scene.AnimationTime = (shown := shown or [hottest_time])[0]

    layout = pv.CreateLayout("drumlin section")
    close_view, whole_view = new_view(), new_view()
    layout.AssignView(0, close_view)
    right = layout.SplitHorizontal(0, 0.64)
    layout.AssignView(right + 1 if layout.GetView(right) is not None else right, whole_view)
    show_close_up(close, close_view, name, hottest, highest)
    show_whole_drum(whole, whole_view)
    scene.AnimationTime = shown[0]  # also in views made since
    return layout, shown


def folder_of_open_series():
    """Result folder of what is open in the window; none if nothing is."""
    source = pv.GetActiveSource()
    names = getattr(source, "FileName", None)
    if not names:
        return None
    path = pathlib.Path(names if isinstance(names, str) else names[0])
    return next((str(p) for p in path.parents if (p / "summary.json").is_file()), None)


def arguments():
    parser = argparse.ArgumentParser(description="a section of a result in ParaView")
    parser.add_argument("folder", nargs="?")
    parser.add_argument("--section", default=os.environ.get("DRUMLIN_SECTION"))
    parser.add_argument("--time", type=float, nargs="+", default=[], help="[s] of the pass")
    parser.add_argument("--png", nargs="+", default=[], help="picture to write, one per time")
    given = parser.parse_args(sys.argv[1:])
    if given.png and len(given.png) != max(1, len(given.time)):
        parser.error(f"{len(given.time)} times, but {len(given.png)} pictures")
    if given.folder is None:
        given.folder = os.environ.get("DRUMLIN_RESULT") or folder_of_open_series() or "."
    return given


def main():
    given = arguments()
    pv._DisableFirstRenderCameraReset()
    layout, times = set_up(given.folder, given.section, given.time)
    if given.png:  # not in the window, which gives the views their size
        layout.SetSize(*SIZE)
    for png, time in zip(given.png, times):
        pv.GetAnimationScene().AnimationTime = time
        pv.SaveScreenshot(png, layout, ImageResolution=SIZE, OverrideColorPalette="")
        print(f"{png}: {time:.4f} s")
    if not given.png:
        pv.RenderAllViews()


if __name__ in ("__main__", "__vtkconsole__"):  # the latter from the window's Python shell
    try:
        main()
    except NoResult as refusal:
        print(f"section.py: {refusal}", file=sys.stderr)
        if sys.argv[0]:  # none in the window, which an exit would close
            sys.exit(2)
