"""Numbers -> line drawings as SVG, black, to scale. What the plans don't give is not drawn here: the caller asks instead.

Widths and heights are in points; the trade's own lengths in inches.
"""

import math
from collections.abc import Iterable, Sequence

PANEL = (48.0, 96.0)  # the panel that is drawn: 4 x 8, studs at 16 in; common practice
INTERIOR_STUDS = 2
OPENING = (36.0, 48.0)  # the window that is drawn
WIDTHS_IN = {"2x": (1.5,), "3x": (2.5,), "4x": (3.5,), "2-2x": (1.5, 1.5)}  # dressed lumber; common practice
EDGE_DISTANCE_IN = 0.375  # nail to panel edge, at least: SDPWS-2008 4.3.7
GAP_IN = 0.125  # between panels; published panel advice
GAUGE_ROOM_IN = 4.2  # of a 3x5 card's long edge
SHAPES = ("circle", "square", "triangle", "diamond", "hexagon")  # of a revision, in order
INCH = 72.0


def svg(width: float, height: float, *shapes: str) -> str:
    """A drawing of that many points."""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}pt" height="{_n(height)}pt" '
            f'viewBox="0 0 {_n(width)} {_n(height)}">{"".join(shapes)}</svg>')  # fmt: skip


def line(points: Sequence[tuple[float, float]], width: float = 1.0, *, dashed: bool = False, filled: bool = False) -> str:
    """A line through points; ``filled`` closes it and fills it black."""
    path = "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + ("Z" if filled else "")
    style = ' stroke-dasharray="3 2"' if dashed else ""
    return f'<path d="{path}" fill="{"#000" if filled else "none"}" stroke="#000" stroke-width="{_n(width)}"{style}/>'


def box(x: float, y: float, width: float, height: float, line_width: float = 1.0, fill: str = "none") -> str:
    """A rectangle."""
    return (f'<rect x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}" fill="{fill}" '
            f'stroke="#000" stroke-width="{_n(line_width)}"/>')  # fmt: skip


def dots(points: Iterable[tuple[float, float]], size: float) -> str:
    """A round dot for each nail, all in one path."""
    path = "".join(f"M{_n(x)} {_n(y)}h.01" for x, y in points)
    return f'<path class="dots" d="{path}" fill="none" stroke="#000" stroke-width="{_n(size)}" stroke-linecap="round"/>'


def panel_nails(edge_in: float, field_in: float, rows: int = 1, inset_in: float = EDGE_DISTANCE_IN) -> list[tuple[float, float]]:
    """Where the nails of one 4 x 8 panel go, in inches from its top left corner; corners counted once.

    One row: 2 ceil(H/edge) + 2 ceil(W/edge) + interior studs (ceil(H/field) - 1), each rounded up because a spacing is a
    maximum. A second row stands 1-1/2 in further in.

    >>> len(panel_nails(6, 12)), len(panel_nails(4, 12))
    (62, 86)
    """
    wide, high = PANEL
    nails: list[tuple[float, float]] = []
    for row in range(rows):
        inset = inset_in + 1.5 * row
        across, down = math.ceil(wide / edge_in), math.ceil(high / edge_in)
        xs = [inset + i * (wide - 2 * inset) / across for i in range(across + 1)]
        ys = [inset + i * (high - 2 * inset) / down for i in range(down + 1)]
        nails += [(x, y) for y in (ys[0], ys[-1]) for x in xs] + [(x, y) for x in (xs[0], xs[-1]) for y in ys[1:-1]]
    spaces = math.ceil(high / field_in)
    studs = [wide * (i + 1) / (INTERIOR_STUDS + 1) for i in range(INTERIOR_STUDS)]
    return nails + [(x, i * high / spaces) for x in studs for i in range(1, spaces)]


def panel(height: float, edge_in: float, field_in: float, rows: int = 1) -> str:
    """One panel with its nails as dots, studs dashed; the edge row is drawn clear of the outline so that it can be seen."""
    scale = (height - 2) / PANEL[1]
    wide, high = PANEL[0] * scale, PANEL[1] * scale
    dot = min(2.4, 0.62 * edge_in * scale)
    clear = 1.2 + dot / 2
    studs = [wide * (i + 1) / (INTERIOR_STUDS + 1) + 1 for i in range(INTERIOR_STUDS)]
    nails = [(1 + x * scale, 1 + y * scale) for x, y in panel_nails(edge_in, field_in, rows, clear / scale)]
    inside = INTERIOR_STUDS * (math.ceil(PANEL[1] / field_in) - 1)
    return svg(wide + 2, height, box(1, 1, wide, high), *(line([(x, 1), (x, 1 + high)], 0.5, dashed=True) for x in studs),
               dots(nails[: len(nails) - inside], dot), dots(nails[len(nails) - inside :], 2.6))  # fmt: skip


def joint(width: float, height: float, option: str, thickness_in: float, nail: tuple[float, float] | None) -> str:
    """Section through a joint of two panels on a stud; ``nail`` is its length and diameter, or None where the plans lack one.

    Without a nail's size only its center line is drawn.
    """
    members = WIDTHS_IN[option]
    deep, scale = _joint_depth(width, height, option, thickness_in, nail)
    mid, top = width / 2, 1 + 0.2 * scale
    skin = thickness_in * scale
    shapes = []
    left = mid - sum(members) * scale / 2
    for member in members:
        right, bottom = left + member * scale, top + skin + deep * scale
        shapes += [box(left, top + skin, member * scale, deep * scale), line([(left, top + skin), (right, bottom)], 0.5),
                   line([(right, top + skin), (left, bottom)], 0.5)]  # fmt: skip
        left = right
    for side in (-1, 1):
        near, far = mid + side * GAP_IN / 2 * scale, mid + side * (width / 2 - 1)
        shapes.append(box(min(near, far), top, abs(far - near), skin, fill="#bbb"))
        shapes.append(_driven(near + side * EDGE_DISTANCE_IN * scale, top, scale, nail, thickness_in))
    return svg(width, height, *shapes)


def blocked(width: float, height: float, option: str, thickness_in: float, nail: tuple[float, float] | None) -> str:
    """Section through a horizontal joint of two panels with the block behind it, panels standing at the left."""
    drawn = joint(height, width, option, thickness_in, nail)
    inner = drawn[drawn.index(">") + 1 : drawn.rindex("</svg>")]
    deep, scale = _joint_depth(height, width, option, thickness_in, nail)
    left = (width - (deep + thickness_in + 0.2) * scale - 2) / 2
    return svg(width, height, f'<g transform="translate({_n(left)} {_n(height)}) rotate(-90)">{inner}</g>')


def _joint_depth(
    width: float, height: float, option: str, thickness_in: float, nail: tuple[float, float] | None
) -> tuple[float, float]:
    """How deep the stud of a joint is drawn, in inches, so that the nail ends in it; and points to an inch."""
    deep = max(2.2, (nail[0] - thickness_in if nail else 0) + 0.3)
    return deep, min((width - 2) / (sum(WIDTHS_IN[option]) + 1.5), (height - 3) / (deep + thickness_in + 0.25))


def heights(width: float, height: float, thickness_in: float) -> str:
    """Three nails in one panel: standing high, flush, driven too deep; crosses and a tick above."""
    top = 15.5
    skin = min(15.0, max(6.0, thickness_in * 24), max(6.5, 0.24 * height))
    shapes = [box(1, top, width - 2, skin, fill="#bbb"), line([(1, top + skin + 0.5), (1, height - 1)], 0.5),
              line([(width - 1, top + skin + 0.5), (width - 1, height - 1)], 0.5)]  # fmt: skip
    for i, sink in enumerate((-4.5, 0.0, 4.5)):
        x = width * (2 * i + 1) / 6
        if sink > 0:
            shapes.append(f'<rect x="{_n(x - 4)}" y="{_n(top - 0.6)}" width="8" height="{_n(sink + 0.6)}" fill="#fff"/>')
            shapes.append(line([(x - 4, top), (x - 4, top + sink), (x + 4, top + sink), (x + 4, top)]))
        shapes += [line([(x - 4, top + sink), (x + 4, top + sink)], 2), line([(x, top + sink), (x, height - 3)], 2)]
        shapes.append(tick(x, 6) if not sink else cross(x, 6))
    return svg(width, height, *shapes)


def tick(x: float, y: float) -> str:
    """The sign for right."""
    return line([(x - 5, y), (x - 1.5, y + 4), (x + 5, y - 5)], 2)


def cross(x: float, y: float) -> str:
    """The sign for wrong."""
    return line([(x - 4, y - 4), (x + 4, y + 4)], 2) + line([(x - 4, y + 4), (x + 4, y - 4)], 2)


def wall_end(width: float, height: float, edge_in: float) -> str:
    """The foot of a wall end, to one scale: post, hold-down on it, anchor into concrete, and an edge row of nails into the post.

    As much of the lowest 2 ft is drawn as its height takes. Post 3-1/2 in wide, plate 1-1/2 in: dressed lumber, common practice.
    """
    concrete = min(26.0, max(11.0, height * 0.26))
    floor = height - concrete
    scale = min(3.0, max(1.5, (floor - 2) / 24))
    plate, wide = 1.5 * scale, 3.5 * scale
    post = width / 2 - wide / 2
    body = min(10 * scale, (floor - plate) * 0.6)
    anchor = post - 1.4 * scale
    nails = [(post + wide / 2, y) for y in _down(floor - plate / 2, 2.5, edge_in * scale)]
    hatch = [line([(x, height - 1), (x + 7, floor + 1)], 0.5) for x in range(2, int(width) - 8, 7)]
    return svg(width, height, box(post, 1, wide, floor - plate - 1), box(1, floor - plate, width - 2, plate, 0.75),
               line([(1, floor), (width - 1, floor)], 1.5),
               box(anchor - 1.2 * scale, floor - plate - body, 2.4 * scale, body, 1.25), *hatch,
               line([(anchor, floor - plate - 3), (anchor, height - 2)], 1.75),
               line([(anchor - 4, height - 2), (anchor + 4, height - 2)], 1.75),
               line([(post + wide, 1), (width - 1, 1)], 0.5, dashed=True),
               dots(nails, min(2.4, 0.3 * edge_in * scale)))  # fmt: skip


def shape(name: str, side: float) -> str:
    """One of `SHAPES`, heavy, ``side`` points wide and high."""
    low, high, mid = 1.2, side - 1.2, side / 2
    if name == "circle":
        return svg(side, side, f'<circle cx="{_n(mid)}" cy="{_n(mid)}" r="{_n(mid - 1.2)}" fill="none" stroke="#000" '
                               'stroke-width="2"/>')  # fmt: skip
    corners = {
        "square": [(low, low), (high, low), (high, high), (low, high)],
        "triangle": [(mid, low), (high, high), (low, high)],
        "diamond": [(mid, 0.8), (side - 0.8, mid), (mid, side - 0.8), (0.8, mid)],
        "hexagon": [
            (side * x, side * y) for x, y in ((0.28, 0.06), (0.72, 0.06), (0.95, 0.5), (0.72, 0.94), (0.28, 0.94), (0.05, 0.5))
        ],
    }[name]
    path = "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in corners) + "Z"
    return svg(side, side, f'<path d="{path}" fill="none" stroke="#000" stroke-width="2" stroke-linejoin="round"/>')


def opening_nails(edge_in: float) -> list[tuple[float, float]]:
    """Where the boundary nails of a 3 x 4 ft opening go, in inches from its top left corner; corners counted once.

    >>> len(opening_nails(6)), len(opening_nails(4))
    (28, 42)
    """
    wide, high = OPENING
    across, down = math.ceil(wide / edge_in), math.ceil(high / edge_in)
    xs, ys = [i * wide / across for i in range(across + 1)], [i * high / down for i in range(down + 1)]
    return [(x, y) for y in (ys[0], ys[-1]) for x in xs] + [(x, y) for x in (xs[0], xs[-1]) for y in ys[1:-1]]


def opening(width: float, height: float, edge_in: float) -> str:
    """A window in a sheathed wall with a row of nails all round, at edge spacing, to scale."""
    scale = min((width - 2) / (OPENING[0] + 24), (height - 2) / (OPENING[1] + 24))
    wide, high = OPENING[0] * scale, OPENING[1] * scale
    left, top = (width - wide) / 2, (height - high) / 2
    dot = min(2.4, 0.62 * edge_in * scale)
    out = dot / 2 + 1.6  # the row stands outside the opening
    nails = [(left - out + x * (wide + 2 * out) / OPENING[0], top - out + y * (high + 2 * out) / OPENING[1])
             for x, y in opening_nails(edge_in)]  # fmt: skip
    return svg(width, height, box(1, 1, width - 2, height - 2, 0.75), box(left, top, wide, high, 1.5),
               line([(left, top), (left + wide, top + high)], 0.5), line([(left + wide, top), (left, top + high)], 0.5),
               dots(nails, dot))  # fmt: skip


def nail(length_in: float, diameter_in: float | None, marks: Sequence[tuple[float, str]], size: float) -> str:
    """A nail lying at actual size over a ruler of quarter inches; ``marks`` are the inches that have words, ``size`` their type.

    The head is drawn as a sign: its size is not on the plans. A shank whose diameter is not on the plans is a line.
    """
    thick = (diameter_in or 0.03) * INCH
    middle, start = 8.0, 3.0
    end, rule = start + length_in * INCH, 17.0
    shank = [(start, middle - thick / 2), (end - thick * 1.3, middle - thick / 2), (end, middle),
             (end - thick * 1.3, middle + thick / 2), (start, middle + thick / 2)]  # fmt: skip
    quarters = [(i / 4, 6 if i % 4 == 0 else 4.5 if i % 2 == 0 else 3) for i in range(int(length_in * 4 + 1e-6) + 1)]
    ticks = [line([(start + q * INCH, rule), (start + q * INCH, rule + h)]) for q, h in quarters]
    ends = [line([(x, middle), (x, rule + 6)], 1) for x in (start, end)]
    words = [_word(start + at * INCH, rule + 6 + size * 0.8, text, size) for at, text in marks]
    return svg(end + 22, rule + 7 + size, box(start, middle - 7, 2.5, 14, fill="#000"), line(shank, 1, filled=True),
               line([(start, rule), (end, rule)]), *ticks, *ends, *words)  # fmt: skip


def gauge_steps(edge_in: float, room_in: float = GAUGE_ROOM_IN) -> int:
    """Into how many equal parts an edge spacing is divided so that a part fits on the card's long edge."""
    return max(1, math.ceil(edge_in / room_in))


def gauge(edge_in: float, height: float, room_in: float = GAUGE_ROOM_IN) -> str:
    """Two heavy ticks one spacing apart, or half a spacing where the whole is longer than the card."""
    part = edge_in / gauge_steps(edge_in, room_in) * INCH
    return svg(part + 4, height, *(line([(x, 0), (x, height)], 2) for x in (2, 2 + part)),
               line([(2, height - 3), (2 + part, height - 3)], 1))  # fmt: skip


def bar(length_in: float, height: float = 9) -> str:
    """A bar of exactly that length, outer edge to outer edge, for checking the printer's scale."""
    long = length_in * INCH
    return svg(long, height, *(line([(x, 0), (x, height)], 1) for x in (0.5, long - 0.5)),
               line([(0, height / 2), (long, height / 2)], 3))  # fmt: skip


def stripes(width: float, height: float, pitch: float = 8.0) -> str:
    """Slanting black stripes over the whole box, for the hold band."""
    half = pitch / 2
    slants = [line([(x, height), (x + height, 0), (x + height + half, 0), (x + half, height)], 0, filled=True)
              for x in (i * pitch - height for i in range(int((width + height) / pitch) + 2))]  # fmt: skip
    return svg(width, height, *slants)


def _driven(x: float, top: float, scale: float, nail_size: tuple[float, float] | None, thickness_in: float) -> str:
    if nail_size is None:
        return line([(x, top - 3), (x, top + (thickness_in + 1) * scale)], 1, dashed=True)
    length, diameter = nail_size
    return (line([(x - diameter * scale, top), (x + diameter * scale, top)], 2)
            + line([(x, top), (x, top + length * scale)], max(1.0, diameter * scale)))  # fmt: skip


def _down(bottom: float, top: float, step: float) -> list[float]:
    return [bottom - i * step for i in range(int((bottom - top) / step) + 1)]


def _word(x: float, y: float, text: str, size: float) -> str:
    return (f'<text x="{_n(x)}" y="{_n(y)}" font-family="Card" font-size="{_n(size)}" font-weight="bold" '
            f'text-anchor="middle">{text}</text>')  # fmt: skip


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
