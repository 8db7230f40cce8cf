"""The words on the foreman's papers and the two handy cards, English and Spanish.

Letters to the engineer and the summary are in English. Spanish: as on the cards; have a bilingual framer read it first.
"""

from cards.words import Words

# key: (English, Spanish). {braces} are filled in from the job.
TEXTS: dict[str, tuple[str, str]] = {
    # every page
    "job": ("Job {job}", "Obra {job}"),
    "no_sheet": ("no schedule sheet found", "no se halló hoja de la tabla"),
    "mixed": (
        "The schedule sheets do not have the same revision and date. Look whether this set is whole and the newest.",
        "Las hojas de la tabla no tienen la misma revisión y fecha. Revise si el juego está completo y al día.",
    ),
    "date": ("Date", "Fecha"),
    "open_stop": ("STOP", "ALTO"),
    "open_ask": ("ASK", "PREGUNTE"),
    # before the pour
    "pour_title": ("Before the pour", "Antes del colado"),
    "pour_open": ("Open questions that hold the pour", "Preguntas abiertas que detienen el colado"),
    "pour_none_open": (
        "No question that holds the pour was found. That is not an approval.",
        "No se halló pregunta que detenga el colado. Esto no es una aprobación.",
    ),
    "pour_hold_downs": ("Hold-down anchors, by type", "Anclajes de extremo (hold-down), por tipo"),
    "pour_sills": ("Sill bolts, by wall type", "Pernos de solera, por tipo de muro"),
    "pour_framing": ("On framing, not in the concrete", "Sobre madera, no en el concreto"),
    "mark": ("Mark", "Marca"),
    "model": ("Model", "Modelo"),
    "marks_drawn": ("Marks drawn, by sheet", "Marcas dibujadas, por hoja"),
    "walls_drawn": ("Walls drawn, by sheet", "Muros dibujados, por hoja"),
    "rod": ("Anchor dia.", "Diám. de ancla"),
    "embedment": ("Embedment", "Empotramiento"),
    "post_column": ("Post", "Poste"),
    "fastening": ("Fasteners to post", "Fijaciones al poste"),
    "bolt": ("Bolt", "Perno"),
    "spacing": ("Spacing", "Distancia"),
    "washer_column": ("Washer", "Arandela"),
    "sill_column": ("Sill plate", "Solera"),
    "plate_nails": ("Plate nailing", "Clavado de solera"),
    "counted": ("Counted on plans", "Contado en planos"),
    "in_place": ("In place", "Colocado"),
    "checked": ("Checked", "Revisado"),
    "none_drawn": ("none drawn", "ninguna dibujada"),
    "named_by": ("named in rows {marks}", "en renglones {marks}"),
    "no_table_row": ("NO ROW IN A HOLD-DOWN TABLE - ASK{q}", "SIN RENGLÓN EN LA TABLA - PREGUNTE{q}"),
    "no_wall_row": ("NO ROW IN THE SCHEDULE - ASK{q}", "SIN RENGLÓN EN LA TABLA - PREGUNTE{q}"),
    "no_hold_downs": (
        "No hold-down was found in a row, in a table or on a plan{q}.",
        "No se halló anclaje en un renglón, una tabla o un plano{q}.",
    ),
    "no_sills": ("No wall type was read.", "No se leyó ningún tipo de muro."),
    "counts_caution": (
        "Counts are marks that were found, sheet by sheet. One hold-down may be drawn on two sheets, and one mark may stand for "
        "both ends of a wall. Count on the plans, write it down, and ask where the two differ.",
        "Son marcas halladas, hoja por hoja. Un anclaje puede estar en dos hojas, y una marca puede valer por los dos "
        "extremos. Cuente en los planos, anótelo, y pregunte si no coinciden.",
    ),
    "not_counted": (
        "Not counted, no text on the sheet: {pages}. Count these yourself.",
        "Sin contar, hoja sin texto: {pages}. Cuéntelas usted.",
    ),
    "pour_look": ("Before calling for concrete", "Antes de pedir el concreto"),
    "pour_1": (
        "Plan sheets on site are the approved ones and the newest.",
        "Los planos en obra son los aprobados y los más nuevos.",
    ),
    "pour_2": (
        "Every hold-down mark on the plans has its anchor, held so that it moves neither sideways nor up and down.",
        "Cada marca de anclaje en los planos tiene su ancla, fija para que no se mueva.",
    ),
    "pour_3": (
        "Each anchor measured from the face of the actual post, and clear of where studs will stand.",
        "Cada ancla medida desde la cara del poste real, y donde no caiga un montante.",
    ),
    "pour_4": (
        "Diameter and embedment of each anchor measured.",
        "Diámetro y empotramiento de cada ancla medidos.",
    ),
    "pour_5": (
        "Sill bolts by plate piece: every piece and its ends looked at against the plans.",
        "Pernos por pieza de solera: cada pieza y sus extremos revisados con los planos.",
    ),
    "pour_6": (
        "Foundation inspection signed before the concrete is placed.",
        "Inspección de cimentación firmada antes de colar.",
    ),
    "pour_7": (
        "Every question above is answered in writing.",
        "Cada pregunta de arriba contestada por escrito.",
    ),
    "checked_by": ("Checked by", "Revisado por"),
    # checklist
    "check_title": ("Before cover", "Antes de cubrir"),
    "check_how": (
        "Foreman reads, partner answers at the wall. Tick what was seen.",
        "El mayordomo lee, el compañero contesta en el muro. Marque lo que vio.",
    ),
    "check_hold": ("HOLD: {q} open. Do not nail or cover this type.", "ALTO: {q} sin respuesta. No clave ni cubra este tipo."),
    "check_open": ("Open: {q}. Get the answer before cover.", "Sin respuesta: {q}. Consiga la respuesta antes de cubrir."),
    "check_not_passing": (
        "Passing this list is not passing inspection. Do not cover before sign-off.",
        "Pasar esta lista no es pasar la inspección. No cubra antes de la firma.",
    ),
    "walls": ("Walls of this type, a box a mark", "Muros de este tipo, un cuadro por marca"),
    "walls_none": ("No mark of this type was found on a plan.", "No se halló marca de este tipo en un plano."),
    "check_1": ("Mark on the wall is the mark on the plans; plans are current", "Marca del muro = marca en planos al día"),
    "check_2": ("Stamp on the panels", "Sello de los tableros"),
    "check_3": ("Sheathed sides, full length of the wall", "Caras con tablero, todo el largo del muro"),
    "check_4": ("Label of the nail box", "Etiqueta de la caja de clavos"),
    "check_5": ("Edge nailing, counted", "Clavado en bordes, contado"),
    "check_6": ("Field nailing, counted", "Clavado en el centro, contado"),
    "check_7": (
        "All four edges of each panel nailed, top and bottom plates included, and sill or rim",
        "Los cuatro bordes de cada tablero clavados, también soleras y borde de piso",
    ),
    "check_8": ("Panel joints: block behind, nailed on both sides of the joint", "Juntas: bloque atrás, clavado a ambos lados"),
    "check_9": ("Edge nailing into hold-down posts and boundary members", "Clavado de borde en postes de anclaje y extremos"),
    "check_10": (
        "Openings: boundary nailing and straps as the plans show",
        "Vanos: clavado perimetral y flejes según los planos",
    ),
    "check_11": (
        'Nails at least 3/8" from the panel edge, no split studs, no nail beside a stud',
        'Clavos a 3/8" o más del borde, sin rajaduras, ningún clavo fuera del montante',
    ),
    "check_12": ("Nail heads flush, none sunk into the panel", "Cabezas al ras, ninguna hundida en el tablero"),
    "check_13": ("Stud where panels meet, and stagger", "Montante de junta, y tresbolillo"),
    "check_14": (
        "Hold-downs: right one, right post, every fastener, no shims, nut tight, thread showing",
        "Anclajes: el correcto, poste correcto, todas las fijaciones, sin calzas, tuerca apretada, rosca a la vista",
    ),
    "check_15": (
        'Sill: bolts, washers within 1/2" of the sheathed edge, nuts. Top connection',
        'Solera: pernos, arandelas a 1/2" o menos de la cara con tablero, tuercas. Unión superior',
    ),
    "check_16": ("After the framing has dried: nuts tightened again", "Cuando la madera seque: tuercas apretadas otra vez"),
    "count_edge": ("{n} nails in 2 ft", "{n} clavos en 2 pies"),
    "plate_label": ("plate nails", "clavos de solera"),
    "top_label": ("top", "arriba"),
    "sill_label": ("sill", "solera"),
    "not_in_row": ("not in the row: see the plans", "no está en el renglón: vea los planos"),
    "see_plans": ("see the plans", "vea los planos"),
    "special_unknown": (
        "Edge spacing is not known: ask the building department whether a special inspection applies.",
        "No se sabe la distancia en bordes: pregunte al departamento de construcción por la inspección especial.",
    ),
    "read_by": ("Read by", "Leyó"),
    "answered_by": ("Answered by", "Contestó"),
    "ready_title": ("Ready for the inspector", "Listo para el inspector"),
    "ready_1": ("Approved plans on site, every sheet", "Planos aprobados en obra, todas las hojas"),
    "ready_2": ("Answers of the engineer in writing, with the plans", "Respuestas del ingeniero por escrito, con los planos"),
    "ready_3": (
        "Reports of special inspection or observation, where the plans or the building department ask for them",
        "Informes de inspección especial u observación, donde los planos o el departamento los pidan",
    ),
    "ready_4": ("Every list of the wall types filled in", "Todas las listas de los tipos llenas"),
    "ready_5": ("All nailing, straps, hold-downs and transfers complete", "Clavado, flejes, anclajes y uniones completos"),
    "ready_6": ("Ladders up, upper rows can be reached", "Escaleras puestas, se alcanzan las hileras de arriba"),
    "ready_7": ("Nail gun and the right nails at hand", "Clavadora y los clavos correctos a la mano"),
    "ready_8": ("Corrections of the last visit closed", "Correcciones de la última visita cerradas"),
    "deep_title": ("Nails driven too deep", "Clavos hundidos de más"),
    "deep": (  # the figures: Effect of Overdriven Fasteners on Shear Wall Capacity, a technical note, second-hand
        'Measure and count round each panel. Any nail sunk over 1/8", or more than one in five of the edge nails sunk over '
        '1/16": ask the engineer before covering. The engineer or a local rule may allow none.',
        'Mida y cuente alrededor de cada tablero. Algún clavo hundido más de 1/8", o más de uno de cada cinco del borde '
        'hundido más de 1/16": pregunte al ingeniero antes de cubrir. El ingeniero o una regla local puede no permitir ninguno.',
    ),
    "corrections": ("Corrections asked for", "Correcciones pedidas"),
    "correction": ("Wall and what", "Muro y qué"),
    "done_by": ("Done by, date", "Hecho por, fecha"),
    "signed_off": ("Inspector's sign-off seen, date", "Firma del inspector vista, fecha"),
    # legend card
    "legend": ("LEGEND", "LEYENDA"),
    "legend_head": ("Marks and abbreviations of this job", "Marcas y abreviaturas de esta obra"),
    "legend_of": ("Legend {n} of {of}", "Leyenda {n} de {of}"),
    "legend_back": ("Legend {n} of {of}, back", "Leyenda {n} de {of}, reverso"),
    "legend_govern": (
        "Usual meanings. The plans' own legend governs.",
        "Significados usuales. Manda la leyenda de los planos.",
    ),
    "legend_walls": ("wall type: see its card", "tipo de muro: vea su tarjeta"),
    "legend_no_row": (
        "WALL MARK, NOT IN SCHEDULE - ASK{q}",
        "MARCA DE MURO, NO ESTÁ EN LA TABLA - PREGUNTE{q}",
    ),
    "legend_hold_down": ("hold-down{model}", "anclaje de extremo{model}"),
    "legend_unknown": ("not in our list: see the plans' legend", "no está en la lista: vea la leyenda de los planos"),
    "legend_none": ("no abbreviation was read", "no se leyó ninguna abreviatura"),
    # why card
    "why": ("WHY", "POR QUÉ"),
    "why_head": ("What each part of a shear wall does", "Qué hace cada parte de un muro de corte"),
    "why_racking": ("RACKING", "DEFORMACIÓN"),
    "why_racking_is": (
        "Wind or quake pushes the top sideways. Panel and nails keep the wall square. The edge nails carry the most: spacing, "
        "flush heads and blocked joints count.",
        "Viento o sismo empuja la parte alta. Tablero y clavos mantienen el muro a escuadra. Los clavos de borde cargan más: "
        "cuentan la distancia, la cabeza al ras y los bloques.",
    ),
    "why_sliding": ("SLIDING", "DESLIZAMIENTO"),
    "why_sliding_is": (
        "The same push slides the wall along the floor. Sill bolts with their washers, or plate nails on framing, hold the "
        "bottom; the top connection brings the load in.",
        "El mismo empuje desliza el muro sobre el piso. Pernos con arandela, o clavos de solera sobre madera, sujetan abajo; "
        "la unión superior mete la carga.",
    ),
    "why_tipping": ("TIPPING", "VOLTEO"),
    "why_tipping_is": (
        "One end lifts, the other presses down. Hold-down, post and the anchor in the concrete keep the end down. A loose nut or "
        "a missed post row lets it lift.",
        "Un extremo se levanta, el otro empuja. Anclaje, poste y ancla en el concreto lo sujetan. Tuerca floja o poste sin "
        "clavar deja que se levante.",
    ),
    "why_weakest": (
        "The wall is as good as its weakest part. Something is missing or does not fit? Stop and ask.",
        "El muro vale lo que su parte más débil. ¿Falta algo o no queda? Pare y pregunte.",
    ),
    "why_card": ("Why card", "Tarjeta por qué"),
    "why_racks": ("racks: panel + nails", "se deforma: tablero + clavos"),
    "why_slides": ("slides: bolts + plate", "se desliza: pernos + solera"),
    "why_tips": ("tips: hold-down + post", "se voltea: anclaje + poste"),
}


class PaperWords(Words):
    """The words of cards and papers in one language, or in English with Spanish after it."""

    def lines(self, key: str, **fill: object) -> tuple[str, ...]:
        """A phrase, once for each language that is printed; once only where both say the same."""
        if key not in TEXTS:
            return super().lines(key, **fill)
        said = []
        for language in self.spoken:
            one = PaperWords(language)
            filled = {name: value(one) if callable(value) else value for name, value in fill.items()}
            said.append(TEXTS[key][language == "es"].format(**filled))
        return tuple(dict.fromkeys(said))
