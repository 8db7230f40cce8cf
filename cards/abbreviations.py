"""Abbreviations of shear wall schedules and what they usually mean, English and Spanish.

Source: common practice, no source. The plans' own legend governs; what has two usual meanings is left out, and so sends the
reader to the plans.
"""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple


class Abbreviation(NamedTuple):
    """The short form as a legend prints it, how plans write it, and what it means."""

    short: str
    pattern: re.Pattern[str]
    meaning: tuple[str, str]


def _of(short: str, written: str, english: str, spanish: str) -> Abbreviation:
    """An abbreviation that stands alone: no letter or digit right before or after it."""
    return Abbreviation(short, re.compile(rf"(?<![\w])(?:{written})(?!\w)", re.I), (english, spanish))


KNOWN = (
    _of("A.B.", r"A\.B\.?|A\.?B\.?(?='?S\b)|AB", "anchor bolt", "perno de anclaje"),
    _of("ABUT.", r"ABUT(?:\.|T'?G\.?)", "abutting, meeting", "que se juntan"),
    _of("ALLOW.", r"ALLOW\.?", "allowable", "admisible"),
    _of("ALT.", r"ALT\.", "alternate", "alterno"),
    _of("ASD", r"ASD", "allowable stress design", "diseño por esfuerzos admisibles"),
    _of("B.N.", r"B\.N\.?|BN", "boundary nailing", "clavado perimetral"),
    _of("BLKD", r"BLK'?D\.?|BLKD\.?", "blocked", "con bloques"),
    _of("BLKG", r"BLK'?G\.?|BLKG\.?", "blocking", "bloques"),
    _of("BTWN", r"BTWN\.?|BTW\.?|BET\.", "between", "entre"),
    _of("CDX", r"CDX", "plywood grade C and D, exterior glue", "triplay grado C y D, pegamento exterior"),
    _of("CL", r"C/?L|℄", "center line", "eje"),
    _of("COM.", r"COM\.?|CMN\.?", "common (nail)", "común (clavo)"),
    _of("CONC.", r"CONC\.?", "concrete", "concreto"),
    _of("CONT.", r"CONT\.?", "continuous", "continuo"),
    _of("D.F.", r"D\.F\.?(?:-?L\.?)?|DF(?:-?L)?|DOUG\.? ?FIR", "Douglas fir", "abeto Douglas"),
    _of("DBL.", r"DBL\.?", "double", "doble"),
    Abbreviation("DIA. or Ø", re.compile(r"(?<!\w)DIA\.?(?!\w)|[Øø⌀]", re.I), ("diameter", "diámetro")),
    _of("DTL.", r"DTL\.?|DET\.", "detail", "detalle"),
    _of("E.N.", r"E\.N\.?|EN", "edge nailing", "clavado en los bordes"),
    _of("E.S.", r"E\.S\.", "each side", "cada lado"),
    _of("EA.", r"EA\.?", "each", "cada uno"),
    _of("EMBED.", r"EMBED?\.?|EMBED'?T\.?", "embedment", "empotramiento"),
    _of("EXT.", r"EXT\.?", "exterior", "exterior"),
    _of("F.N.", r"F\.N\.?|FN", "field nailing", "clavado en el centro"),
    _of("FDN.", r"FDN\.?|FND\.?", "foundation", "cimentación"),
    _of("FTG.", r"FTG\.?", "footing", "zapata"),
    _of("GA.", r"GA\.?", "gauge", "calibre"),
    _of("GALV.", r"GALV\.?", "galvanized", "galvanizado"),
    _of("GWB", r"GWB|GYP\.?(?: ?BD\.?)?|G\.W\.B\.", "gypsum board", "tablero de yeso"),
    _of("H.D.", r"H\.D\.?|HD", "hold-down", "anclaje de extremo"),
    _of("H.F.", r"H\.F\.|HEM-?FIR", "hem-fir (lumber)", "hem-fir (madera)"),
    _of("INT.", r"INT\.?", "interior or intermediate: see the row", "interior o intermedio: vea el renglón"),
    _of("LB", r"LBS?\.?|#", "pounds; # may also be a number", "libras; # puede ser número"),
    _of("LRFD", r"LRFD", "load and resistance factor design", "diseño por factores de carga"),
    _of("MAX.", r"MAX\.?", "at most", "máximo"),
    _of("MIN.", r"MIN\.?", "at least", "mínimo"),
    _of("N/A", r"N/?A|N\.A\.", "not applicable: none", "no aplica: ninguno"),
    _of("O.C.", r"O\.? ?C\.?|O/C", "on center", "entre centros"),
    _of("OSB", r"O\.?S\.?B\.?", "oriented strand board", "tablero OSB"),
    _of("P.T.", r"P\.T\.?|PT|P\.T\.D\.F\.?|PTDF", "pressure treated", "tratado a presión"),
    _of("PL", r"PL\.?|PLT\.?", "plate", "placa o solera"),
    _of("PLF", r"PLF|LBS?\.?/FT\.?|#/FT\.?|#/'", "pounds per foot", "libras por pie"),
    _of("PLYWD", r"PLY(?:'?WD|W'?D)?\.?", "plywood", "triplay"),
    _of("REQ'D", r"REQ'?D\.?|REQ\.", "required", "requerido"),
    _of("S.P.F.", r"S\.?P\.?F\.?", "spruce-pine-fir (lumber)", "spruce-pine-fir (madera)"),
    _of("SHTG.", r"SHT'?G\.?|SHEATH\.|SHTHG\.?", "sheathing", "revestimiento"),
    _of("SIM.", r"SIM\.?", "similar", "similar"),
    _of("STAGG.", r"STAGG?\.?|STGR'?D?\.?", "staggered", "al tresbolillo"),
    _of("STR. I", r"STR(?:UCT)?\.? ?(?:I|1)", "Structural 1 (panel grade)", "Estructural 1 (grado)"),
    _of("TYP.", r"TYP\.?", "typical: as the plans say where", "típico: donde digan los planos"),
    _of("U.N.O.", r"U\.?N\.?O\.?|U\.O\.N\.?", "unless noted otherwise", "salvo que se indique otra cosa"),
    _of("VERT.", r"VERT\.?", "vertical", "vertical"),
    _of("W.S.P.", r"W\.?S\.?P\.?", "wood structural panel", "panel estructural de madera"),
    _of("W/", r"W/(?:O)?", "with; W/O without", "con; W/O sin"),
)
MARKS = (
    Abbreviation("@", re.compile("@"), ("at, spaced", "a cada")),
    Abbreviation("8d, 10d", re.compile(r"(?<!\w)\d{1,2}d(?!\w)"), ("penny: a nail's size by name", "medida del clavo")),
    Abbreviation("2x, 3x", re.compile(r"(?<!\w)[2-6]x(?!\w)", re.I), ("lumber, nominal inches thick", "madera, espesor nominal")),
    Abbreviation("(2) 2x", re.compile(r"2-2x|\(2\) ?2x", re.I), ("two 2x together", "dos 2x juntos")),
)
_DOTTED = re.compile(r"(?<![\w.])(?:[A-Za-z]\.){2,4}")


def used(texts: Iterable[str]) -> Iterator[tuple[str, tuple[str, str]]]:
    """Signs and abbreviations that stand in any of the texts, with their meaning; signs first."""
    words = "\n".join(texts).replace("’", "'")
    yield from ((one.short, one.meaning) for one in (*MARKS, *KNOWN) if one.pattern.search(words))


def unknown(texts: Iterable[str]) -> list[str]:
    """Dotted abbreviations in the texts that nothing here explains, in the order of the alphabet."""
    found = {dotted.upper() for text in texts for dotted in _DOTTED.findall(text)}
    return sorted(dotted for dotted in found if not any(one.pattern.fullmatch(dotted) for one in KNOWN))
