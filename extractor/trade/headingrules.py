"""From the ideas in a heading to the kind of its column; headingwords.py finds the ideas, headings.py asks."""

from typing import NamedTuple

import regex as re


class Named(NamedTuple):
    """A kind as the ideas give it."""

    kind: str
    sure: bool = True
    also: tuple[str, ...] = ()


_UNIT = r"(?:[ ,]*\(?in(?:ches|\.)?\)?)?"
_WORD_FOR_WORD = (
    ("hold_down", re.compile(r"(?i)(?:(?:end|anchor|uplift|holdown) )+devices?(?: (?:@ ?)?(?:ea\.?|each) end)?")),
    ("nail_length", re.compile(rf"(?i)(?:(?:min\.?|nails?|fasteners?|size) )*length{_UNIT}")),
    ("nail_diameter", re.compile(rf"(?i)(?:(?:min\.?|nails?|fasteners?|shank|size) )*(?:dia(?:meter|m?\.)?|shank|Ø){_UNIT}")),
    (
        "bottom_plate",
        re.compile(
            r"(?i)(?:at )?base(?: of walls?)?|(?:at )?(?:wood|framed|floor) base|base (?:at|on|to) (?:wood|floor|framing)"
        ),
    ),
    ("hold_down", re.compile(r"(?i)(?:at (?:upper |framed )?floors? )?(?:floor )?straps?(?: (?:ea\.?|each) end)?")),
    ("anchors", re.compile(r"(?i)(?:at|on|to) (?:the )?(?:concrete|conc\.?|foundations?|slabs?|footings?)")),
    ("bottom_plate", re.compile(r"(?i)(?:at|on|to) (?:the )?(?:(?:wood|framed) )?floors?(?: framing)?")),
    (
        "bottom_plate",
        re.compile(
            r"(?i)(?:attachment|connection|anchorage|fastening)(?: at| of)? (?:the )?(?:bottom|base)(?: plate| of wall)?"
            r"|(?:base|bottom)(?: of wall)?,? (?:framed|wood|upper) (?:floors?|framing|flr\.?)"
        ),
    ),
    ("sill_anchors", re.compile(r"(?i)(?:base|bottom)(?: of wall)?,? (?:foundation|concrete|slab|at foundation|at concrete)")),
    (
        "top_plate",
        re.compile(
            r"(?i)(?:(?:attachment|connection|nailing) (?:of|at) (?:plates?|wall) )?top(?: of wall| plate)?"
            r"(?: (?:spacing|connection|conn\.?|clips?))?"
        ),
    ),
    (
        "bottom_plate",
        re.compile(
            r"(?i)(?:(?:base|bottom|plate|attachment|connection|anchorage)(?: of (?:wall|plates?))? )*(?:bottom )?(?:nailing )?"
            r"to (?:wood|rim|floor|joists?|framing|blocking|blkg\.?)(?: (?:or|/) \w+)?(?: \(?nail(?:s|ing)?\)?)?"
        ),
    ),
)


_HOLD_DOWN_WORDS = (
    (
        "hd_model",
        re.compile(r"(?i)(?:catalog(?:ue)?|cat\.?|item|make(?: ?up)?|unit|connector)(?: (?:no\.?|number|#))?"),
    ),
    ("hd_mark_model", re.compile(r"(?i)model ?\(?(?:is )?mark (?:on|per|in) (?:the )?plans?\)?")),
    (
        "hd_fasteners",
        re.compile(
            r"(?i)(?:fasten(?:ed|ing)? |attach(?:ed|ment)? )?to (?:the )?(?:end )?(?:posts?|studs?)"
            r"|(?:post|stud) (?:attachment|connection|fastening)"
        ),
    ),
    ("hd_capacity", re.compile(r"(?i)(?:holds|resists|good for|allowable(?: tension)?|tension)[ ,]*\(?(?:lbs?\.?|pounds)\)?")),
)


def word_for_word(text: str, table: str = "wall") -> Named | None:
    """The kind of a heading that says no more than its kind, in words that mean something else in longer ones."""
    words = _WORD_FOR_WORD if table == "wall" else _HOLD_DOWN_WORDS
    return next((Named(kind) for kind, pattern in words if pattern.fullmatch(text.strip(" :"))), None)


def wall_column(names: list[str], text: str) -> Named | None:
    """The kind of a shear wall schedule's column, from the ideas in its heading."""
    for rule in (_strength, _hardware, _plates, _edges, _nails, _panel, _row):
        if named := rule(names, set(names), text):
            return named
    return None


def _strength(names: list[str], have: set[str], _: str) -> Named | None:
    """Capacity, and the columns that hold no field of the record."""
    if have & {"LOADS", "CAPACITY"} and not have & {"HOLD", "BOLT", "FASTEN", "EDGE"}:
        return Named("capacity")
    if (
        have
        and have <= {"SEISMIC", "WIND", "METHOD", "SHEAR", "SHEARWALL", "TYPE"}
        and have & {"SEISMIC", "WIND", "METHOD", "SHEAR"}
    ):
        return Named("capacity", sure=have & {"SHEAR", "TYPE"} == set())
    if "STUDSPACING" in have or (
        names[:1] == ["STUD"] and set(names) <= {"STUD", "SPACING", "SIZE", "MARK"} and "SPACING" in have
    ):
        return Named("remarks")
    if "REMARK" in have and not have & {"FASTEN", "SHEATH", "EDGE", "FIELD", "BOLT"}:
        return Named("remarks", sure="HOLD" not in have)
    return None


def _hardware(names: list[str], have: set[str], text: str) -> Named | None:
    """Washers, embedment, hold-downs and the connection at the top."""
    if "TOP" in have and not have & {"HOLD", "SHEATH"}:
        return Named("top_plate", sure=not have & {"BOTTOM", "SILL"} and not re.fullmatch(r"(?i)\W*(?:angles?|clips?)\W*", text))
    if "HOLD" in have:
        part = have & {"CAPACITY", "LOADS", "UPLIFT", "EMBED", "BOLT", "FASTEN", "STUD", "MEASURE", "REMARK"}
        if part and names[0] == "HOLD":  # HOLD-DOWN POST: a part of it, not its mark; END POST / HD names it
            return Named("remarks", sure=False)
        return Named("hold_down", sure=not part, also=("remarks",) if "ANCHOR" in have else ())
    if "EMBED" in have:
        return Named("anchors" if have & {"SPACING", "DIAMETER", "SIZE"} else "embedment")
    if "WASHER" in have:
        return Named("anchors" if have & {"BOLT", "ANCHOR", "SILLANCHOR"} else "washer")
    if have == {"ENDS"}:
        return Named("hold_down", sure=False, also=("remarks",))
    return Named("remarks", sure=False) if "BOUNDARYMEMBER" in have and re.search(r"(?i)end|chord|jamb", text) else None


def _plates(names: list[str], have: set[str], text: str) -> Named | None:
    """The sill or bottom plate, its bolts to concrete and its nails to wood."""
    plate, bolted = have & {"SILL", "BOTTOM"}, have & {"BOLT", "ANCHOR", "SILLANCHOR"}
    if bolted:
        if "FASTEN" in have or ("WOOD" in have and "CONC" not in have):
            return Named("bottom_plate", sure="BOLT" not in have, also=("anchors",))
        both = "SILL" in have and re.search(
            r"(?i)sill(?: p\w+\.?)?(?: size)? ?(?:/|&|\band\b|,|\+|w/|with) ?(?:anch|a\.? ?b|bolt)", text
        )
        return Named("sill_anchors" if both else "anchors", sure="LENGTH" not in have)
    if (
        (plate or re.search(r"(?i)\bpl(?:ate|\.)", text))
        and have & {"FASTEN", "NAILED"}
        and not have & {"EDGE", "FIELD", "SHEATH"}
    ):
        return Named("bottom_plate")
    if plate and "CONC" in names[1:] and "SIZE" not in have and re.search(r"(?i)\bto\b|-|\(|conn|attach", text):
        return Named("anchors", also=("sill",))
    if plate and have & {"ATTACH", "WOOD"}:
        return Named("bottom_plate", sure="WOOD" in have, also=() if "WOOD" in have else ("anchors",))
    if plate and have <= {
        "SILL",
        "BOTTOM",
        "PLATE",
        "SIZE",
        "STUD",
        "JOINT",
        "SHEARWALL",
        "WALL",
        "TYPE",
        "CONC",
        "GRADE",
        "MATERIAL",
    }:
        if "SILL" in have or "SIZE" in have:
            return Named("sill", also=("bottom_plate", "sill_anchors"), sure="BOTTOM" not in have)
        return Named("bottom_plate", sure=False, also=("sill",))
    return None


def _edges(_names: list[str], have: set[str], text: str) -> Named | None:
    """Blocking, and the framing where panels meet."""
    at_edge = have & {"EDGE", "JOINT", "BOUNDARY"}
    if {"BLOCK", "STUD"} <= have and re.search(r"(?i)\b(?:studs?|framing|members?) (?:or|/|&|and) (?:flat )?bl", text):
        return Named("panel_edge", sure=False, also=("blocking",))
    if "BLOCK" in have:
        return Named("blocking", sure="FASTEN" not in have, also=("nailing",) if "FASTEN" in have else ())
    if "BOUNDARYMEMBER" in have:
        return Named("panel_edge", sure=False, also=("remarks",))
    if "STUD" in have and not have & {"FASTEN", "FIELD", "SPACING"}:
        return Named("panel_edge", sure=bool(at_edge) or "framing" in text.lower(), also=() if at_edge else ("remarks",))
    if "JOINT" in have and not have & {"FASTEN", "SPACING", "FIELD"}:
        return Named("panel_edge", sure=False, also=("blocking", "edge"))
    return None


def _nails(names: list[str], have: set[str], text: str) -> Named | None:
    """Fastener, edge and field, alone and together."""
    edge, field = have & {"EDGE", "BOUNDARY", "JOINT"}, "FIELD" in have
    if re.match(r"(?i)(?:no\.? of |number of |# )?(?:(?:edge )?nail )?rows?\b", text) and not have & {"SPACING"}:
        return Named("edge_rows")
    if {"SHEATH", "FASTEN"} <= have and re.search(r"(?i)(?:sh\S*|ply\w*|panel) ?(?:&|\band\b|/|\+|w/) ?(?:nail|fast)", text):
        return Named("sheathing_and_nailing")
    if edge and field:
        return Named("nailing")
    if field:
        return Named("field")
    if edge:
        if have <= {"EDGE", "BOUNDARY"} or have & {"FASTEN", "SPACING"}:
            plain = names in (["EDGE"], ["BOUNDARY"])
            return Named("edge", sure="BOUNDARY" not in have or "EDGE" in have, also=("blocking", "panel_edge") if plain else ())
        if have & {"SHEATH", "SIZE", "TYPE", "ATTACH", "SHEARWALL", "PANEL"} | {"EDGE"} and not have & {"MARK", "REMARK"}:
            return Named("edge", sure=False, also=("blocking", "panel_edge"))
    if "FASTEN" in have:
        if have & {"SIZE", "TYPE", "MARK", "DIAMETER", "LENGTH", "GRADE"} and "SPACING" not in have:
            return Named("fastener", also=("nailing",))
        if "SPACING" in have:
            return Named("nailing", sure=False, also=("edge",))
        nailing = re.search(r"(?i)nail'?i?n?g|fastening", text) is not None
        return Named("nailing", also=("fastener",)) if nailing else Named("fastener", also=("nailing",))
    return None


def _panel(_names: list[str], have: set[str], text: str) -> Named | None:
    """Sheathing and the faces it is on."""
    if have & {"SHEATH", "MATERIAL", "GRADE", "PANEL"}:
        faces = "FACES" in have and re.search(
            r"(?i)(?:^|sheath\w*|shtg\.?|\))\W*(?:no\.? of |number of |# of |# )?(?:faces?|sides?)\W*$|(?:faces?|sides?) sheath",
            text,
        )
        if (
            faces
            and not re.search(r"(?i)(?:&|\band\b|,) (?:faces?|sides?)", text)
            and not re.search(r"(?i)\b(?:one|both|two|each|ea\.|single|double|1|2)\b", text)
        ):
            return Named("faces")
        return Named("sheathing", sure="SHEATH" in have or "MATERIAL" in have or have >= {"PANEL", "GRADE"})
    if "FACES" in have and have <= {"FACES", "SHEARWALL", "WALL", "MARK"} and re.search(r"(?i)side|face", text):
        return Named("faces")
    return None


def _row(_names: list[str], have: set[str], _: str) -> Named | None:
    """The mark, and measures that belong to no field."""
    if have & {"MARK", "SHEARWALL", "TYPE", "WALL"} and have <= {"MARK", "SHEARWALL", "TYPE", "WALL", "SHEAR"}:
        return Named("mark")
    if have & {"MEASURE", "REMARK"}:
        return Named("remarks")
    return None


def hold_down_column(names: list[str], text: str) -> Named | None:
    """The kind of a hold-down table's column."""
    have = set(names)
    plain = have - {"HOLD"}
    if "EMBED" in have:
        both = have & {"DIAMETER", "SIZE"} or (have & {"ANCHOR", "BOLT"} and re.search(r"(?i)\band\b|&|/", text))
        return Named("hd_anchor" if both else "hd_embedment")
    if (
        have & {"CAPACITY", "UPLIFT", "LOADS"}
        or re.fullmatch(r"(?i)[(\s]*(?:lbs?\.?|pounds|#|kips?)[)\s]*", text)
        or (have and have <= {"SEISMIC", "WIND", "METHOD"})
    ):
        return Named("hd_capacity")
    if {"MARK", "MODEL"} <= have or ({"TYPE", "MODEL"} <= have and "/" in text):
        return Named("hd_mark_model")
    if "MODEL" in have:
        return Named("hd_model")
    if have & {"BOLT", "FASTEN"} and re.search(
        r"(?i)\b(?:to|thru|through|in|into|at|@) (?:the )?(?:end )?(?:post|stud|member)", text
    ):
        return Named("hd_fasteners")
    if "STUD" in have or "BOUNDARYMEMBER" in have:
        return (
            None
            if "FASTEN" in have and re.search(r"/|&|(?i)\band\b", text)
            else (Named("hd_fasteners") if "FASTEN" in have else Named("hd_post"))
        )
    if "FASTEN" in have:
        return Named("hd_fasteners")
    if have & {"BOLT", "ANCHOR", "SILLANCHOR", "DIAMETER"}:
        return Named("remarks", sure=False) if "LENGTH" in have else Named("hd_anchor", sure="ATTACH" not in have)
    if have & {"REMARK", "MEASURE", "WASHER"}:
        return Named("remarks")
    if plain and plain <= {"MARK", "TYPE"}:
        return Named("hd_mark", sure="MARK" in plain or bool(have & {"HOLD"}), also=("hd_model",) if "MARK" not in plain else ())
    if have == {"HOLD"}:
        tie = re.fullmatch(r"(?i)\W*ties?\W*", text) is not None
        return Named("hd_mark", sure=tie, also=() if tie else ("hd_model",))
    return None
