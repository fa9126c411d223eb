"""Coarse features of the pictures that viz/paraview/section.py makes: areas of colour, where the
drum stands, whether there are words. Every check raises AssertionError; none compares bytes."""

import numpy as np

# Boxes of a picture [share of width and height, from the upper left corner].
CLOSE, WHOLE = (0.0, 0.27, 0.635, 1.0), (0.645, 0.08, 1.0, 0.93)
TITLE, TIME, NOTE = (0.0, 0.03, 0.2, 0.075), (0.0, 0.085, 0.2, 0.125), (0.0, 0.16, 0.2, 0.24)
LEGEND, MATERIALS = (0.23, 0.02, 0.5, 0.12), (0.5, 0.02, 0.6, 0.25)

INK, METAL, COATING, BURR, COVER = ((25, 28, 33), (171, 178, 186), (0, 163, 118), (200, 80, 0),
                                    (240, 197, 122))


def part(picture, box):
    height, width = picture.shape[:2]
    left, top, right, bottom = box
    return picture[int(top * height):int(bottom * height), int(left * width):int(right * width)]


def of_colour(picture, colour, tolerance=12):
    return (np.abs(picture.astype(int) - np.array(colour)) <= tolerance).all(axis=-1)


def share(picture, box, colour):
    return float(of_colour(part(picture, box), colour).mean())


def dark(picture, box):
    """Pixels of ink: letters."""
    return int((part(picture, box).max(axis=-1) < 110).sum())


def mean_column(mask, what):
    columns = np.nonzero(mask)[1]
    assert len(columns) > 20, f"no {what} in the picture"
    return float(columns.mean())


def check_not_blank(picture):
    filled = float((picture.min(axis=-1) < 250).mean())
    assert 0.05 < filled < 0.95, f"{filled:.3f} of the picture is not paper"
    shown = [c for c in (METAL, COATING, BURR, COVER) if share(picture, MATERIALS, c) > 0.005]
    assert len(shown) == 4, "the legend of the materials lacks colours"


def check_words(picture):
    for name, box in (("title", TITLE), ("time", TIME), ("note on the stretch", NOTE),
                      ("legend", LEGEND), ("names of the materials", MATERIALS)):
        assert dark(picture, box) > 60, f"no {name} in the picture"


def check_legend_falls_in_lightness(picture):
    """The bar is the one long run of rows without paper; from left to right it only gets darker."""
    box = part(picture, LEGEND).astype(float)
    coloured = (box.max(axis=-1) - box.min(axis=-1) > 15)
    row = int(np.argmax(coloured.sum(axis=1)))
    columns = np.nonzero(coloured[row])[0]
    assert len(columns) > 0.3 * box.shape[1], "no bar of colours in the legend"
    lightness = box[row, columns] @ np.array([0.2126, 0.7152, 0.0722])
    assert (np.diff(lightness) < 3).all() and lightness[0] - lightness[-1] > 120, "not monotone"


def check_coating_is_ground(before, after, least, most):
    """Coating shows as a band; less of it is left after the pass than before."""
    first, last = share(before, CLOSE, COATING), share(after, CLOSE, COATING)
    assert least < first < most, f"{first:.4f} of the close-up is coating"
    assert last < 0.98 * first, f"coating went from {first:.4f} to {last:.4f} of the close-up"


def check_burr_is_ground(before, after):
    first, last = share(before, CLOSE, BURR), share(after, CLOSE, BURR)
    assert first > 0.001, "no burr before the pass"
    assert last < 0.5 * first, f"burr went from {first:.4f} to {last:.4f} of the close-up"


def check_drum_moves(before, after, travel, diameter):
    """The drum goes left, by as much as it travelled [mm] on the scale of its own width."""
    masks = [of_colour(part(picture, WHOLE), COVER) for picture in (before, after)]
    columns = [mean_column(mask, "drum") for mask in masks]
    width = float(np.ptp(np.nonzero(masks[0])[1]))
    moved = (columns[0] - columns[1]) / width * diameter
    assert abs(moved - travel) < 0.1 * travel, f"the drum moved {moved:.1f}, not {travel:.1f} mm"


def check_hot_spot_at_burr(before, hottest):
    """The darkest blue of the moment of highest pressure lies where a burr stood before."""
    burr = np.nonzero(of_colour(part(before, CLOSE), BURR))[1]
    assert len(burr) > 20, "no burr before the pass"
    close = part(hottest, CLOSE).astype(int)
    hot = (close[..., 2] - close[..., 0] > 35) & (close[..., 0] < 30) & (close[..., 1] < 90)
    columns = np.nonzero(hot)[1]
    assert len(columns) > 20, "no hot spot"
    away = np.abs(columns[:, None] - np.unique(burr)[None, :]).min(axis=1)
    near = float(np.median(away)) / close.shape[1]
    assert near < 0.03, f"the hot spot lies {near:.3f} of the close-up's width from the burr"


def check_time_is_told(before, after):
    changed = np.abs(part(before, TIME).astype(int) - part(after, TIME)).max(axis=-1) > 60
    assert changed.sum() > 20, "the time does not change"


def check_all(before, hottest, after, facts):
    for picture in (before, hottest, after):
        check_not_blank(picture)
        check_words(picture)
        check_legend_falls_in_lightness(picture)
    check_coating_is_ground(before, after, *facts["coating"])
    check_burr_is_ground(before, after)
    check_drum_moves(before, after, facts["travel"], facts["diameter"])
    check_hot_spot_at_burr(before, hottest)
    check_time_is_told(before, after)


def painted(picture, box, colour=(255, 255, 255)):
    out = picture.copy()
    part(out, box)[:] = colour
    return out


def recoloured(picture, colour, instead):
    out = picture.copy()
    body = part(out, CLOSE)
    body[of_colour(body, colour, 40)] = instead
    return out


def shifted(picture):
    out = picture.copy()
    body = part(picture, CLOSE)
    part(out, CLOSE)[:] = np.roll(body, body.shape[1] // 8, axis=1)
    return out


def check_that_checks_can_fail(before, hottest, after, facts):
    """Pictures that are broken on purpose: each has to be found out."""
    everywhere = (0.0, 0.0, 1.0, 1.0)
    broken = {
        "blank": (painted(before, everywhere), hottest, after),
        "no coating": (recoloured(before, COATING, METAL), hottest,
                       recoloured(after, COATING, METAL)),
        "coating not worn": (before, hottest, before),
        "always the same time": (before, before, before),
        "time runs backwards": (after, hottest, before),
        "no burr": (recoloured(before, BURR, METAL), hottest, after),
        "no drum": (painted(before, WHOLE), hottest, painted(after, WHOLE)),
        "no legend": (before, painted(hottest, LEGEND), after),
        "no note on the stretch": (painted(before, NOTE), hottest, after),
        "hot spot elsewhere": (before, shifted(hottest), after),
        "no pressure": (before, before, after),
    }
    for name, pictures in broken.items():
        try:
            check_all(*pictures, facts)
        except AssertionError:
            continue
        raise AssertionError(f"the checks do not notice: {name}")
