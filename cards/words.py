"""The words on cards, English and Spanish: the one file to edit when a crew says it another way.

The plans' own abbreviations and numbers are never translated. Spanish: site guides and glossaries in Spanish where there
is one, common practice otherwise; have a bilingual framer read a card before it is handed out.
"""

from dataclasses import dataclass
from typing import Literal, get_args

Language = Literal["en", "es", "en+es"]
LANGUAGES: tuple[Language, ...] = get_args(Language)

MONTHS = {
    "en": "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(),
    "es": "ene feb mar abr may jun jul ago sep oct nov dic".split(),
}

# key: (English, Spanish). {braces} are filled in from the job.
WORDS: dict[str, tuple[str, str]] = {
    # labels on the front
    "nail": ("NAIL", "CLAVO"),
    "staple": ("STAPLE", "GRAPA"),
    "screw": ("SCREW", "TORNILLO"),
    "fastener": ("FASTENER", "FIJACIÓN"),
    "edge": ("EDGE", "BORDES"),
    "field": ("FIELD", "CENTRO"),
    "sheathing": ("SHEATHING", "TABLERO"),
    "block": ("BLOCKING", "BLOQUES"),
    "joint": ("JOINT STUD", "JUNTA"),
    "hold_down": ("HOLD-DOWN", "ANCLAJE"),
    "sill": ("SILL", "SOLERA INF."),
    "bottom_plate": ("PLATE NAILS", "CLAVOS SOL."),
    "top_plate": ("TOP", "ARRIBA"),
    # value states
    "missing": ("{what}NOT ON PLANS - ASK{q}", "{what}NO ESTÁ EN LOS PLANOS - PREGUNTE{q}"),
    "unreadable": ("CAN'T READ - SEE {where}{q}", "NO SE LEE - VEA {where}{q}"),
    "conflict": ("CONFLICT - ASK{q}", "NO COINCIDEN - PREGUNTE{q}"),
    "doubted": ("ASK{q}", "PREGUNTE{q}"),
    "short_missing": ("NOT THERE", "NO ESTÁ"),
    "short_unreadable": ("CAN'T READ", "NO SE LEE"),
    "short_conflict": ("CONFLICT", "NO COINCIDEN"),
    "none": ("NONE (per plans)", "NINGUNO (según planos)"),
    "deferred": ("SEE: “{words}”", "VEA: “{words}”"),
    "too_long": ("SEE {where}: too long for this card", "VEA {where}: no cabe en esta tarjeta"),
    "see_card": ("SEE 3x5 CARD", "VEA TARJETA 3x5"),
    "see_back": ("Sill, plates, top, joints, questions: SEE 3x5 CARD.", "Soleras, uniones, preguntas: VEA TARJETA 3x5."),
    "rest": ("REST", "LO DEMÁS"),
    "see_rest": ("rest: SEE 3x5 CARD", "lo demás: VEA TARJETA 3x5"),
    "too_long_both": ("SEE / VEA {where}", "SEE / VEA {where}"),
    "from_note": ("note, {sheet}", "nota, {sheet}"),
    "from_legend": ("legend, {sheet}", "leyenda, {sheet}"),
    "from_answer": ("ANSWER: {reference}", "RESPUESTA: {reference}"),
    "question": ("Q-{n:02}", "P-{n:02}"),
    # what a missing value is called
    "fastener.kind": ("KIND", "TIPO"),
    "fastener.penny": ("PENNY SIZE", "MEDIDA (d)"),
    "fastener.style": ("KIND", "TIPO"),
    "fastener.size": ("SIZE", "MEDIDAS"),
    "fastener.diameter_in": ("DIAMETER", "DIÁMETRO"),
    "fastener.length_in": ("LENGTH", "LARGO"),
    "fastener.gauge": ("GAUGE", "CALIBRE"),
    "edge.spacing_in": ("EDGE SPACING", "DISTANCIA EN BORDES"),
    "edge.staggered": ("STAGGER", "TRESBOLILLO"),
    "field.spacing_in": ("FIELD SPACING", "DISTANCIA EN EL CENTRO"),
    "sheathing.thickness_in": ("THICKNESS", "ESPESOR"),
    "sheathing.material": ("PANEL KIND", "TIPO DE TABLERO"),
    "sheathing.grade": ("GRADE", "GRADO"),
    "sheathing.faces": ("SIDES", "CARAS"),
    "framing.blocked": ("BLOCKING", "BLOQUES"),
    "framing.panel_edge": ("JOINT STUD", "MONTANTE DE JUNTA"),
    "framing.sill": ("SILL SIZE", "MEDIDA DE SOLERA"),
    "anchors.kind": ("ANCHOR KIND", "TIPO DE ANCLAJE"),
    "anchors.diameter_in": ("BOLT SIZE", "MEDIDA DE PERNO"),
    "anchors.spacing_in": ("BOLT SPACING", "DISTANCIA DE PERNOS"),
    "anchors.embedment_in": ("EMBEDMENT", "EMPOTRAMIENTO"),
    "anchors.washer_in": ("WASHER", "ARANDELA"),
    "bottom_plate.penny": ("PLATE NAILS", "CLAVOS DE SOLERA"),
    "bottom_plate.spacing_in": ("PLATE NAIL SPACING", "DISTANCIA DE CLAVOS"),
    "top_plate.connector": ("TOP CONNECTION", "UNIÓN SUPERIOR"),
    "top_plate.spacing_in": ("TOP SPACING", "DISTANCIA ARRIBA"),
    "hold_down.marks": ("HOLD-DOWN", "ANCLAJE DE EXTREMO"),
    "hold_down.post": ("POST", "POSTE"),
    # words of a value
    "plywood": ("plywood", "triplay"),
    "osb": ("OSB", "OSB"),
    "wood structural panel": ("wood structural panel", "panel estructural de madera"),
    "gypsum": ("gypsum board", "tablero de yeso"),
    "fiberboard": ("fiberboard", "tablero de fibra"),
    "structural 1": ("Structural 1", "Estructural 1"),
    "rated sheathing": ("rated sheathing", "grado revestimiento"),
    "faces_1": ("ONE side", "UNA cara"),
    "faces_2": ("BOTH sides", "AMBAS caras"),
    "blocked_yes": ("all panel edges", "todos los bordes"),
    "blocked_no": ("NOT BLOCKED (per plans)", "SIN BLOQUES (según planos)"),
    "2-2x": ("two 2x stitched", "dos 2x unidos"),
    "or": ("or", "o"),
    "staggered_yes": ("stagger nails", "clavos al tresbolillo"),
    "staggered_no": ("not staggered", "sin tresbolillo"),
    "rows": ("{n} rows", "{n} hileras"),
    "anchor bolt": ("anchor bolts", "pernos de anclaje"),
    "screw anchor": ("screw anchors", "anclas de tornillo"),
    "strap anchor": ("strap anchors", "anclas de fleje"),
    "epoxy rod": ("epoxied rods", "varillas con epóxico"),
    "washer": ("{value} washer", "arandela {value}"),
    "plate": ("{value} plate", "solera {value}"),
    "post": ("post {value}", "poste {value}"),
    "no_row": ("{mark} NOT IN HOLD-DOWN TABLE - ASK{q}", "{mark} NO ESTÁ EN LA TABLA - PREGUNTE{q}"),
    "see_plans": ("SEE PLANS", "VEA PLANOS"),
    "at_plan_marks_both": ("SEE PLANS / VEA PLANOS: {marks} ({sheets})", "SEE PLANS / VEA PLANOS: {marks} ({sheets})"),
    "at_plan_marks": ("SEE PLANS: {marks} drawn on {sheets}", "VEA PLANOS: {marks} en {sheets}"),
    "on_centre": ("{value} o.c.", "{value} o.c."),
    "long": ("{value} long", "{value} de largo"),
    "thick": ("{value} thick", "{value} de grueso"),
    "gauge": ("{value} ga", "cal. {value}"),
    # hold band and header
    "hold": ("HOLD - DO NOT NAIL FROM THIS CARD", "ALTO - NO CLAVE CON ESTA TARJETA"),
    "hold_short": ("HOLD - DO NOT NAIL", "ALTO - NO CLAVE"),
    # the shape in the corner, one for each revision
    "circle": ("circle", "círculo"),
    "square": ("square", "cuadro"),
    "triangle": ("triangle", "triángulo"),
    "diamond": ("diamond", "rombo"),
    "hexagon": ("hexagon", "hexágono"),
    "rev": ("REV {revision}", "REV {revision}"),
    "mixed": (
        "SCHEDULE SHEETS OF DIFFERENT ISSUES - ASK: {sheets}",
        "HOJAS DE LA TABLA DE EMISIONES DISTINTAS - PREGUNTE: {sheets}",
    ),
    "no_rev": ("REV NOT ON SHEET", "HOJA SIN REV"),
    "no_date": ("DATE NOT ON SHEET", "HOJA SIN FECHA"),
    "card_of": ("Card {n} of {of}", "Tarjeta {n} de {of}"),
    "row": ("{sheet} row {n}", "{sheet} renglón {n}"),
    "notes": ("notes {sheets}", "notas {sheets}"),
    "page": ("page {n}", "página {n}"),
    "file": ("file {digest}", "archivo {digest}"),
    # back
    "back": ("back", "reverso"),
    "count": ("{n} nails in\u00a02\u00a0ft", "{n} clavos en\u00a02\u00a0pies"),
    "from_edge": ('at least 3/8" from edge', 'mínimo 3/8" del borde'),  # SDPWS-2008 4.3.7
    "drawn": ('drawn: 4x8, studs 16"', 'dibujo: 4x8, montantes 16"'),
    "length_only": ("length check only - read the DIAMETER on the box", "solo revisa el largo - lea el DIÁMETRO en la caja"),
    "gauge_line": ("EDGE GAUGE, line to line", "MEDIDA DE BORDE, raya a raya"),
    "flush_ok": ("FLUSH", "AL RAS"),
    "joint_caption": ("joint {value}", "junta {value}"),
    "stagger": ("stagger", "tresbolillo"),
    "opening": ("opening", "vano"),
    "blocked_joint": ("block", "bloque"),
    "openings": (
        "Windows, doors, hold-down posts: edge nailing as the plans show.",
        "Ventanas, puertas, postes de anclaje: clavado de borde según los planos.",
    ),
    "special": (
        "May need special inspection: see the special inspection sheet / ask the building department.",
        "Puede requerir inspección especial: vea esa hoja / pregunte al departamento de construcción.",
    ),
    "govern_both": (
        "Approved plans govern. Card differs? Stop and ask.",
        "Mandan los planos aprobados. ¿No coincide? Pare y pregunte.",
    ),
    "not_given": ("Not on plans for this type: {what}.", "No está en los planos para este tipo: {what}."),
    "other": ("Also in the row: {what}", "También en el renglón: {what}"),
    "other_see": ("More words in {where}", "Más palabras en {where}"),
    "embed": ("embed {value}", "empotrado {value}"),
    "anchor": ("anchor {value}", "perno {value}"),
    "fasteners": ("fasteners {value}", "fijaciones {value}"),
    "see_questions": ("see the questions page", "vea la hoja de preguntas"),
    "safety": (
        "Full sequential trigger. Eyes and ears on. Other hand 12 in away. Nobody under a wall being raised. "
        "Brace before letting go.",
        "Gatillo secuencial. Lentes y tapones. La otra mano a 12 pulg. Nadie debajo de un muro que se levanta. "
        "Apuntale antes de soltar.",
    ),
    "govern": (
        "Copy of the plans for handy use. Approved plans and the engineer govern. Card and plans differ? Stop and ask.",
        "Copia de los planos para consulta. Mandan los planos aprobados y el ingeniero. Si no coinciden, pare y pregunte.",
    ),
    "newer": ("Newer sheet? Hand this in.", "¿Hoja más nueva? Entregue esta."),
    "govern_short": ("Approved plans govern", "Mandan los planos aprobados"),
    # sheet of cards
    "bilingual": ("Have a bilingual framer read the Spanish first.", "Que un carpintero bilingüe lo lea primero."),
    "sheet_page": ("page {n} of {of}", "página {n} de {of}"),
    "sheet_fold": (
        "Cut on the solid lines. Fold on the dashed line, print outside. Laminate with a sealed border.",
        "Corte en las líneas continuas. Doble en la línea punteada, impreso por fuera. Plastifique con borde sellado.",
    ),
    "sheet_duplex": (
        "Print both sides, flip on the long edge. Cut on the solid lines. Try one sheet first.",
        "Imprima por ambos lados, gire por el lado largo. Corte en las líneas. Pruebe primero una hoja.",
    ),
    "sheet_single": (
        "Cut on the solid lines. Put front and back together in one pouch.",
        "Corte en las líneas. Ponga frente y reverso juntos en una funda.",
    ),
    "sheet_tag": (
        "Cut on the line. Staple to the wall, under the wrap. Do not laminate.",
        "Corte en la línea. Engrape al muro, bajo la membrana. No plastifique.",
    ),
    "bar_in": ("4.00 in", "4.00 pulg."),
    "bar_mm": ("100 mm", "100 mm"),
    "bar_warning": (
        "Print at 100 %. If this bar is not 4 in, do not use the nail drawing or gauge.",
        "Imprima al 100 %. Si esta barra no mide 4 pulg., no use el dibujo del clavo ni la medida.",
    ),
    "no_cards": (
        "No card to issue: every wall type has an open stop. Print the draft cards and see the questions page.",
        "No hay tarjeta para entregar: todos los tipos tienen un alto abierto. Vea la hoja de preguntas.",
    ),
}


def _filled(key: str, language: Literal["en", "es"], fill: dict[str, object]) -> str:
    one = Words(language)
    return WORDS[key][language == "es"].format(**{name: v(one) if callable(v) else v for name, v in fill.items()})


@dataclass(frozen=True)
class Words:
    """The words in one language, or in English with Spanish after it."""

    language: Language = "en"

    @property
    def both(self) -> bool:
        """True when each phrase is printed in English and Spanish."""
        return self.language == "en+es"

    @property
    def spoken(self) -> tuple[Literal["en", "es"], ...]:
        """The languages that are printed, in order."""
        return ("en", "es") if self.both else ("es",) if self.language == "es" else ("en",)

    def lines(self, key: str, **fill: object) -> tuple[str, ...]:
        """A phrase, once for each language that is printed; once only where both say the same.

        What is filled in is text, or a function that gives it in the words of one language.
        """
        return tuple(dict.fromkeys(_filled(key, language, fill) for language in self.spoken))

    def say(self, key: str, **fill: object) -> str:
        """A phrase on one line.

        >>> Words("en+es").say("faces_1")
        'ONE side / UNA cara'
        """
        return " / ".join(self.lines(key, **fill))

    def first(self, key: str, **fill: object) -> str:
        """A phrase in the first language alone: short words beside a number, which need no second telling."""
        return self.lines(key, **fill)[0]

    def known(self, value: str) -> str:
        """A word of a value in the card's first language; a word that is not in the list stays as the plans have it."""
        return self.first(value) if value in WORDS else value

    def date(self, iso: str) -> str:
        """A date nobody can turn round: 2026-05-12 is 12 May 2026. Other text stays as it is."""
        year, month, day = [*iso.split("-"), "", ""][:3]
        if not (year.isdigit() and month.isdigit() and day.isdigit() and 1 <= int(month) <= 12):
            return iso
        return f"{int(day)} {MONTHS[self.spoken[0]][int(month) - 1]} {year}"
