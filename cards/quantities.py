"""The arithmetic of ordering: panels, nails, blocking, bolts, packs. Pure functions; every result is rounded up.

Lengths are in inches. Nothing here comes off a drawing, and nothing here is a value to build from: for ordering only.
"""

import math
from collections.abc import Sequence

PANEL_WIDTH = 48.0  # panels stand upright, 4 ft wide; panel trade practice
STUD_IN = 1.5  # thickness of a stud or plate, dressed; common practice
END_MAX = 12.0  # a sill bolt within 12 in of each end of a plate piece: IRC R403.1.6
STOCK = (96.0, 97.125, 108.0, 109.125, 120.0, 121.125)
"""Panel lengths: 8, 9, 10 ft (panel trade practice) and cut to plate height (common practice, no source)."""
_EPS = 1e-9


def up(value: float) -> int:
    """The next whole number, with nothing added for the dust of a division."""
    return math.ceil(value - _EPS)


def plate_height(stud_in: float) -> float:
    """Height of a wall from precut studs with one bottom and two top plates. Source: arithmetic.

    >>> plate_height(92.625), plate_height(104.625), plate_height(116.625)
    (97.125, 109.125, 121.125)
    """
    return stud_in + 3 * STUD_IN


def interior_studs(stud_spacing_in: float) -> int:
    """Studs behind a 4 ft panel that stand between its two edges. Source: arithmetic.

    >>> interior_studs(16), interior_studs(24), interior_studs(12)
    (2, 1, 3)
    """
    return up(PANEL_WIDTH / stud_spacing_in) - 1


def panel_nails(height_in: float, edge_in: float, field_in: float, studs: int, *, rows: int = 1) -> int:
    """Nails of one upright panel, corners counted once, rounded up because a spacing is a maximum. Source: arithmetic.

    2 ceil(H/edge) + 2 ceil(W/edge) for each edge row, and ceil(H/field) - 1 for each stud between the edges.

    >>> panel_nails(96, 6, 12, 2), panel_nails(108, 4, 12, 2), panel_nails(120, 2, 12, 1)
    (62, 94, 177)
    """
    return rows * edge_nails(height_in, edge_in) + studs * max(0, up(height_in / field_in) - 1)


def edge_nails(height_in: float, edge_in: float, *, width_in: float = PANEL_WIDTH) -> int:
    """Nails round the four edges of a panel or an opening, corners counted once. Source: arithmetic.

    >>> edge_nails(96, 6)
    48
    """
    return 2 * up(height_in / edge_in) + 2 * up(width_in / edge_in)


def panel_columns(length_in: float) -> int:
    """Panels side by side along a wall; a part of a panel counts as a whole one. Source: arithmetic.

    >>> panel_columns(144), panel_columns(145)
    (3, 4)
    """
    return up(length_in / PANEL_WIDTH)


def with_allowance(count: int, percent: float) -> int:
    """A count with an allowance on top, rounded up. Source: arithmetic.

    >>> with_allowance(282, 10)
    311
    """
    return up(count * (100 + percent) / 100)


def packs(count: int, size: int) -> int:
    """Strips, coils or boxes of ``size`` that hold ``count`` nails. Source: arithmetic; the size is the buyer's own.

    >>> packs(311, 25)
    13
    """
    return up(count / size)


def pounds(count: int, per_pound: float) -> float:
    """Pounds of nails, rounded up to a tenth; ``per_pound`` is the buyer's own. Source: arithmetic.

    311 nails at 106 a pound are 2.93, so 3.0 to be bought.

    >>> pounds(311, 106)
    3.0
    """
    return up(count / per_pound * 10) / 10


def panel_length(height_in: float, stock: Sequence[float] = STOCK) -> float | None:
    """The shortest panel that reaches from the foot of the sill to the top of the plates; None where none is long enough.

    A 9 ft panel on 109-1/8 in ends 1-1/8 in short, so it is none. Source: arithmetic.

    >>> panel_length(109.125), panel_length(108), panel_length(110), panel_length(130)
    (109.125, 108.0, 120.0, None)
    """
    return min((length for length in stock if length >= height_in - _EPS), default=None)


def stacked(height_in: float, panel_in: float) -> tuple[float, ...]:
    """Heights of the pieces that cover a wall with panels of one length, from the foot up; the last is cut. Source: arithmetic.

    >>> stacked(108.0, 96.0), stacked(96.0, 120.0), stacked(240.0, 96.0)
    ((96.0, 12.0), (96.0,), (96.0, 96.0, 48.0))
    """
    pieces = []
    while height_in > _EPS:
        pieces.append(min(height_in, panel_in))
        height_in -= panel_in
    return tuple(pieces)


def blocking(length_in: float, stud_spacing_in: float) -> tuple[int, float]:
    """Blocks behind one horizontal joint and the inches of lumber in them: bays times the clear bay. Source: arithmetic.

    >>> blocking(144, 16)
    (9, 130.5)
    """
    bays = up(length_in / stud_spacing_in)
    return bays, bays * (stud_spacing_in - STUD_IN)


def sill_bolts(piece_in: float, spacing_in: float, end_in: float = END_MAX) -> int:
    """Bolts of one plate piece: never fewer than two, one within ``end_in`` of each end. Source: arithmetic, IRC R403.1.6.

    >>> sill_bolts(144, 32), sill_bolts(96, 32) + sill_bolts(48, 32)
    (5, 6)
    """
    return max(2, up((piece_in - 2 * end_in) / spacing_in) + 1)


def hold_downs_expected(segments: int) -> int:
    """One at each end of each wall segment: what marks are compared with, never what is ordered. Common practice.

    >>> hold_downs_expected(6)
    12
    """
    return 2 * segments
