"""What a text surely is as a cell of data, whatever stands over it; and which columns can hold that."""

import regex as re

_PLAIN_KINDS: tuple[tuple[str, str], ...] = (
    ("mark", r"[A-Z]{1,3}\d{1,3}[A-Z]?|[A-Z]{1,4}-(?:\d{1,2}[A-Z]?|[A-Z])(?:\d{1,3})?|[A-Z]{1,3}\d{0,2}-[A-Z]?\d{1,3}"),
    ("none", r"-+|n/?a|none|not req(?:'?d|uired)\.?|no hold-?downs?"),
    ("blocking", r"unblocked|blocked|all edges(?: blocked)?\.?|yes|block all (?:panel )?edges\.?"),
    (
        "member",
        r"(?:\(?[1-4]\)?[ -]{0,2})?[234] ?x ?(?:\d{1,2})?(?: (?:p\.?t\.?|studs?|min\.?|nom\.?|sill"
        r"|d\.?f\.?))*|.*(?:or|/) ?\(2\) ?-?2x.*|\(2\) ?-?2x\w*.*",
    ),
    ("capacity", r"\d[\d,]{2,5} ?(?:plf|#/ft|#/').*|v ?= ?\d+.*"),
    ("pounds", r"\d[\d,]{2,6} ?(?:lbs?\.?|#|pounds)"),
    ("number", r"\d[\d,]*(?:\.\d+)?"),
    ("anchors", r".*\d\"? ?(?:Ø|dia\.?)? ?(?:x ?\d+\"? ?)?(?:a\.?b\.?s?|anchor bolts?|bolts?)? ?(?:@|at) ?\d.*"),
    (
        "sheathing",
        r"(?:\(1\) )?(?:layer )?\d{1,2}/\d{1,2}(?:\"|''|-?inch)?.*(?:ply|osb|wsp|cdx|rated|sheath|shtg"
        r"|gyp|g\.?w\.?b|struct|str\.|panel).*",
    ),
    ("sheathing", r"(?:plywood|plywd\.?|osb|wsp|gyp\.? \w+\.?|gwb),? ?(?:\(?[12]\)?|one|both|each|ea\.|two) (?:sides?|faces?)"),
    ("nailing", r".*\d ?d\b.*(?:@|\bat\b|o\.?c).*\d.*|.*\d ?d ?@.*"),
    (
        "fastener",
        r"\(?\d{1,2} ?d(?: (?:com(?:mon|\.)?|cmn\.?|box|cooler|sinker|galv\w*\.?|hdg))*(?: ?\(.*\)"
        r"| .*\d.*)?|0?\.1\d\d\"? ?(?:Ø|dia\.?)? ?x.*",
    ),
    (
        "spacing",
        r"(?:@|at )? ?\d[\d/ .-]*(?:\"|in\.?|inch(?:es)?)? ?(?:o\.?/?c\.?"
        r"|on center)?(?: (?:stagg?\w*\.?|max\.?|min\.?|field|edges?|e\.n\.|f\.n\.|typ\.?))*",
    ),
    ("spacing", r"\d[\d/ -]*\"? ?[/:&,] ?\d[\d/ -]*\"?(?: ?o\.?c\.?)?"),
    ("deferred", r"(?:see|per) (?!notes?$).+|same(?: as .*)?|ditto"),
)
_KINDS = tuple((kind, re.compile(pattern, re.I)) for kind, pattern in _PLAIN_KINDS)
_HEADS = re.compile(r"\b(?:spacing|size|type|shear|allowable|capacity|schedule|nailing|material|thickness|nails)\b(?! ?\d)", re.I)


def votes(text: str) -> str | None:
    """The kind of data a text surely is (so it heads no column); None where it could be a heading.

    One of "sheathing", "nailing", "fastener", "spacing", "member" (2x, 3x), "anchors", "capacity", "pounds", "number",
    "blocking", "mark" (SW1), "none", "deferred".

    >>> votes('6" O.C.'), votes("3x"), votes("8d NAILS"), votes("EDGE NAILING")
    ('spacing', 'member', None, None)
    """
    line = text.strip()
    kind = next((kind for kind, pattern in _KINDS if pattern.fullmatch(line)), None)
    return None if kind in ("sheathing", "fastener", "nailing", "anchors") and _HEADS.search(line) else kind


FITS: dict[str, frozenset[str]] = {
    "none": frozenset(
        {
            "hold_down",
            "capacity",
            "anchors",
            "sill",
            "remarks",
            "bottom_plate",
            "top_plate",
            "washer",
            "embedment",
            "panel_edge",
            "blocking",
        }
    ),
    "mark": frozenset({"mark", "hold_down", "hd_mark", "hd_model", "hd_mark_model"}),
    "blocking": frozenset({"blocking"}),
    "member": frozenset({"panel_edge", "sill", "hd_post"}),
    "capacity": frozenset({"capacity"}),
    "pounds": frozenset({"hd_capacity"}),
    "number": frozenset({"mark", "capacity", "edge", "field", "faces", "hd_capacity", "hd_mark", "hold_down"}),
    "anchors": frozenset({"anchors", "sill_anchors"}),
    "sheathing": frozenset({"sheathing", "sheathing_and_nailing"}),
    "nailing": frozenset({"nailing", "edge", "field", "bottom_plate", "top_plate", "sheathing_and_nailing"}),
    "fastener": frozenset({"fastener", "nailing", "hd_fasteners"}),
    "spacing": frozenset({"edge", "field", "nailing", "anchors", "embedment", "hd_embedment", "hd_anchor", "sheathing"}),
}
