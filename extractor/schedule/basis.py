"""The basis of the whole job from the quick text of every sheet: code, seismic category, lumber, studs, nails from the edge."""

from collections.abc import Iterable
from typing import Any

from extractor.paper.plans import Sheet
from extractor.record import Basis, Box, Origin, Reading, State
from extractor.schedule.reading import Place
from extractor.trade.basis import basis as said
from extractor.trade.text import plain_word

KEYS = ("BUILDINGCODE", "RESIDENTIALCODE", "IBC", "IRC", "CBC", "CRC", "SDPWS", "DESIGNCATEGORY", "SDC", "S.D.C", "FIR-LARCH",
        "FIRLARCH", "DF-L", "DF/L", "HEM-FIR", "SPF", "PINE", "STUD", "EDGEDISTANCE", "PANELEDGE")  # fmt: skip
"""A sheet without any of these, in capitals without spaces, says nothing about the basis."""


def find(sheets: Iterable[Sheet]) -> Basis:
    """What the notes say, each different value once, where it stands first."""
    found: dict[str, dict[Any, Reading[Any]]] = {}
    for sheet in sheets:
        if sheet.kind == "none" or sheet.garbled or sheet.scrambled or not any(key in sheet.compact for key in KEYS):
            continue
        text = plain_word(sheet.quick)
        for one in said(text):
            values = found.setdefault(one.field, {})
            if one.value not in values:
                words = text[slice(*one.span)]
                source = Place(sheet.page, sheet.number).source(_box(sheet, words))
                values[one.value] = Reading(
                    value=one.value, as_printed=words, state=State.READ, origin=Origin.NOTE, source=source
                )
    return Basis.model_validate({field: tuple(values.values()) for field, values in found.items()})


def _box(sheet: Sheet, words: str) -> Box:
    """The line with the most of the words; all of the sheet where no line has any."""
    wanted = set(words.split())
    best = max(sheet.phrases, key=lambda line: len(wanted & {plain_word(word.text) for word in line.words}), default=None)
    return best.box if best else (0.0, 0.0, *sheet.size)
