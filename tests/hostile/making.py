"""Plan files that somebody broke, or made to break programs: each a function that gives the bytes of a PDF."""

import io
import zlib
from collections.abc import Callable, Sequence

FONT = b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>"
MAPPED = FONT[:-2] + b"/ToUnicode 7 0 R>>"
RESOURCES = b"<</Font<</F1 3 0 R>>>>"


def written(objects: dict[int, bytes], root: int = 1, trailer: bytes = b"") -> bytes:
    """A PDF of these objects with a right cross-reference table."""
    out, places = bytearray(b"%PDF-1.7\n"), {}
    for number, body in sorted(objects.items()):
        places[number] = len(out)
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    start, last = len(out), max(objects)
    out += b"xref\n0 %d\n0000000000 65535 f \n" % (last + 1)
    out += b"".join(b"%010d 00000 %s \n" % (places.get(n, 0), b"n" if n in places else b"f") for n in range(1, last + 1))
    out += b"trailer\n<</Size %d/Root %d 0 R%s>>\nstartxref\n%d\n%%%%EOF\n" % (last + 1, root, trailer, start)
    return bytes(out)


def stream(data: bytes, extra: bytes = b"", *, packed: bool = False, length: int | None = None) -> bytes:
    """A stream object; ``length`` lies about its length."""
    body = zlib.compress(data, 9) if packed else data
    filters = b"/Filter/FlateDecode" if packed else b""
    return b"<</Length %d%s%s>>\nstream\n%s\nendstream" % (len(body) if length is None else length, filters, extra, body)


def lines(words: Sequence[bytes], *, left: float = 100, top: float = 1600, size: float = 12) -> bytes:
    """Lines of text one below the other."""
    shown = (word.replace(b"\\", b"\\\\").replace(b"(", b"\\(").replace(b")", b"\\)") for word in words)
    return b"".join(
        b"BT /F1 %d Tf 1 0 0 1 %d %d Tm (%s) Tj ET\n" % (size, left, top - 20 * i, word) for i, word in enumerate(shown)
    )


def table(x: float = 100, y: float = 1580) -> bytes:
    """A small shear wall schedule with rules."""
    rows = [
        [b"MARK", b"SHEATHING", b"NAIL", b"EDGE NAILING", b"FIELD NAILING"],
        [b"SW1", b'15/32" OSB', b"8d COMMON", b'6" O.C.', b'12" O.C.'],
        [b"SW2", b'15/32" OSB', b"8d COMMON", b'4" O.C.', b'12" O.C.'],
    ]
    out = b"BT /F1 12 Tf 1 0 0 1 %d %d Tm (SHEAR WALL SCHEDULE) Tj ET\n" % (x, y + 12)
    for i in range(len(rows) + 1):
        out += b"%d %d m %d %d l S\n" % (x, y - 20 * i, x + 600, y - 20 * i)
    for i in range(6):
        out += b"%d %d m %d %d l S\n" % (x + 120 * i, y, x + 120 * i, y - 60)
    for r, row in enumerate(rows):
        for c, cell in enumerate(row):
            out += b"BT /F1 8 Tf 1 0 0 1 %d %d Tm (%s) Tj ET\n" % (x + 120 * c + 4, y - 20 * r - 14, cell)
    return out


def block(number: bytes = b"S3.1", title: bytes = b"SCHEDULES") -> bytes:
    """A title block along the right edge."""
    return (
        b"BT /F1 6 Tf 1 0 0 1 2310 120 Tm (SHEET TITLE) Tj ET BT /F1 10 Tf 1 0 0 1 2310 104 Tm (%s) Tj ET\n"
        b"BT /F1 6 Tf 1 0 0 1 2310 70 Tm (SHEET) Tj ET BT /F1 30 Tf 1 0 0 1 2400 50 Tm (%s) Tj ET\n" % (title, number)
    )


def page(contents: bytes = b"4 0 R", box: bytes = b"0 0 2592 1728", extra: bytes = b"", parent: int = 2) -> bytes:
    """A page object of 36 x 24 in."""
    return b"<</Type/Page/Parent %d 0 R/MediaBox[%s]/Resources%s/Contents %s%s>>" % (parent, box, RESOURCES, contents, extra)


def one_sheet(
    content: bytes, *, packed: bool = False, box: bytes = b"0 0 2592 1728", more: dict[int, bytes] | None = None
) -> bytes:
    """A PDF of one sheet with this content."""
    return written({
        1: b"<</Type/Catalog/Pages 2 0 R>>", 2: b"<</Type/Pages/Kids[5 0 R]/Count 1>>", 3: FONT,
        4: stream(content, packed=packed), 5: page(box=box), **(more or {}),
    })  # fmt: skip


def sound() -> bytes:
    """Nothing wrong with it."""
    return one_sheet(table() + block())


def nested_arrays() -> bytes:
    """An array in an array, fifty thousand deep, in the page and in what it draws."""
    deep = b"[" * 50_000 + b"]" * 50_000
    return one_sheet(b"BT /F1 12 Tf " + deep + b" TJ ET\n" + table(), more={6: deep, 5: page(extra=b"/Deep " + deep)})


def nested_states() -> bytes:
    """Half a million saved states that are never restored."""
    return one_sheet(b"q " * 500_000 + table())


def form(content: bytes, box: bytes = b"0 0 2592 1728", *, then: int | None = None) -> bytes:
    """A form; ``then`` is the object number of the form that it calls /X."""
    inner = b"/XObject<</X %d 0 R>>" % then if then else b""
    return stream(content, b"/Type/XObject/Subtype/Form/BBox[%s]/Resources<</Font<</F1 3 0 R>>%s>>" % (box, inner))


def with_form(number: int, forms: dict[int, bytes], content: bytes = b"") -> bytes:
    """One sheet with this content, which draws one of the forms."""
    resources = b"<</Font<</F1 3 0 R>>/XObject<</X %d 0 R>>>>" % number
    sheet = b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 2592 1728]/Contents 6 0 R/Resources%s>>" % resources
    return one_sheet(b"", more={**forms, 5: sheet, 6: stream(content + b"/X Do")})


def nested_forms() -> bytes:
    """A form in a form, two hundred deep."""
    return with_form(10, {**{10 + i: form(b"/X Do", then=11 + i) for i in range(200)}, 210: form(table())})


def form_that_draws_itself() -> bytes:
    """A form that draws itself, beside a schedule."""
    return with_form(10, {10: form(b"/X Do " + lines([b"AGAIN"]), then=10)}, table())


def forms_that_double() -> bytes:
    """Each form draws the next one twice: thirty deep that is a thousand million times."""
    forms = {10 + i: form(b"/X Do /X Do", b"0 0 9 9", then=11 + i) for i in range(30)}
    return with_form(10, {**forms, 40: form(b"0 0 m 9 9 l S", b"0 0 9 9")}, table())


def bomb(count: int = 400_000_000) -> bytes:
    """Four hundred million blanks packed into 400 kB, and a schedule behind them."""
    return one_sheet(b" " * count + table(), packed=True)


def bomb_of_lines() -> bytes:
    """Five million lines packed into a few kB."""
    return one_sheet(table() + b"1 1 m 9 9 l S\n" * 5_000_000, packed=True)


def many_pages(count: int = 10_000) -> bytes:
    """Ten thousand sheets; the last but one holds the schedule."""
    kids = b" ".join(b"%d 0 R" % (10 + i) for i in range(count))
    objects = {1: b"<</Type/Catalog/Pages 2 0 R>>", 2: b"<</Type/Pages/Kids[%s]/Count %d>>" % (kids, count), 3: FONT,
               4: stream(lines([b"GENERAL NOTES", b"ALL WORK PER PLAN"]) + block(b"S1.1", b"GENERAL NOTES")),
               6: stream(table() + block())}  # fmt: skip
    objects |= {10 + i: page(b"6 0 R" if i == count - 2 else b"4 0 R") for i in range(count)}
    return written(objects)


def pages_in_a_ring() -> bytes:
    """The tree of pages comes back to its root."""
    return written({1: b"<</Type/Catalog/Pages 2 0 R>>", 2: b"<</Type/Pages/Kids[2 0 R 5 0 R]/Count 2>>", 3: FONT,
                    4: stream(table()), 5: page()})  # fmt: skip


def count_of_pages_is_a_lie() -> bytes:
    """The file says that it has two thousand million pages."""
    return written({1: b"<</Type/Catalog/Pages 2 0 R>>", 2: b"<</Type/Pages/Kids[5 0 R]/Count 2000000000>>", 3: FONT,
                    4: stream(table()), 5: page()})  # fmt: skip


def huge_page() -> bytes:
    """A sheet of 200 x 200 in, the largest that the format allows."""
    return one_sheet(table(100, 14_000) + block(), box=b"0 0 14400 14400")


def absurd_page() -> bytes:
    """A sheet as wide as the moon is far."""
    return one_sheet(table(10, 700), box=b"0 0 1089720000000 1728")


def page_without_size() -> bytes:
    """The sheet has no width."""
    return one_sheet(table(10, 700), box=b"0 0 0 0")


def segments(count: int) -> bytes:
    """So many short lines over the whole sheet, level and upright, beside a schedule."""
    drawn = (b"%d %d m %d %d l S\n" % (800 + i * 7919 % 1500, 100 + i * 104729 % 1500, 800 + i * 7919 % 1500 + (i % 2) * 30,
                                      100 + i * 104729 % 1500 + (1 - i % 2) * 30) for i in range(count))  # fmt: skip
    return one_sheet(table() + b"".join(drawn) + block(), packed=True)


def grid_of_lines(each_way: int) -> bytes:
    """A net of rules over the whole sheet whose cells nobody could count."""
    drawn = b"".join(b"0 %.1f m 2592 %.1f l S %.1f 0 m %.1f 1728 l S\n" % (i * 1728 / each_way, i * 1728 / each_way,
                     i * 2592 / each_way, i * 2592 / each_way) for i in range(each_way))  # fmt: skip
    return one_sheet(table() + drawn + block(), packed=True)


def characters(count: int) -> bytes:
    """A sheet full of small type."""
    rows = (b"BT /F1 4 Tf 1 0 0 1 %d %d Tm (NAIL 8d AT 6 OC SW1 PLAN NOTE WALL HD2 THE END %d) Tj ET\n"
            % (20 + i % 12 * 200, 1700 - i // 12 * 2, i) for i in range(count // 50))  # fmt: skip
    return one_sheet(table() + b"".join(rows) + block(), packed=True)


def letters_in_one_place(count: int = 5_000) -> bytes:
    """Thousands of letters on top of each other."""
    return one_sheet(
        b"".join(b"BT /F1 8 Tf 1 0 0 1 500 500 Tm (%c) Tj ET\n" % (65 + i % 26) for i in range(count)) + table() + block()
    )


def one_long_word() -> bytes:
    """A word of twenty thousand letters in a cell; it runs over all cells beside it."""
    return one_sheet(table().replace(b"8d COMMON", b"8d" + b"N" * 20_000, 1) + block())


def repetitive_note() -> bytes:
    """Notes that make a pattern try again and again."""
    notes = [b"1. SHEAR WALLS " + b"SW1, SW2 AND " * 400 + b"HAVE 3X", b"2. " + b"8d @ " * 800, b"3. " + b"1/2 " * 1200,
             b"4. WALLS " + b"A, B, C, " * 400, b"5. ALL SHEAR WALL " + b"PANEL EDGES OF THE " * 300]  # fmt: skip
    return one_sheet(table() + lines([b"SHEAR WALL NOTES", *notes], top=1480, size=6) + block())


def endless_note(word: bytes, letters: int) -> bytes:
    """Notes of one word over and over, without a point."""
    count = 2000 // (2 * len(word) + 2)
    rows = [b"1. SHEAR WALLS", *[(word + b" ") * count] * (letters // (count * (len(word) + 1)))]
    return one_sheet(
        table() + lines([b"SHEAR WALL NOTES"], top=1490)
        + b"".join(b"BT /F1 4 Tf 1 0 0 1 100 %d Tm (%s) Tj ET\n" % (1470 - 5 * i, row) for i, row in enumerate(rows)) + block()
    )  # fmt: skip


def wrong_lengths() -> bytes:
    """Streams that are longer and shorter than they say."""
    return one_sheet(b"", more={4: stream(table(), length=3), 6: stream(table(), length=999_999_999)})


def broken_xref() -> bytes:
    """Every place in the cross-reference table is wrong."""
    data = sound()
    at = data.rindex(b"xref\n0")
    return data[:at] + data[at:].replace(b"0000000", b"0007777")


def no_xref() -> bytes:
    """The cross-reference table is missing."""
    data = sound()
    return data[: data.rindex(b"xref\n0")] + b"trailer\n<</Root 1 0 R>>\n%%EOF\n"


def xref_points_nowhere() -> bytes:
    """The last line sends a reader far behind the end of the file."""
    data = sound()
    return data[: data.rindex(b"startxref")] + b"startxref\n99999999999\n%%EOF\n"


def previous_in_a_ring() -> bytes:
    """The cross-reference table says that it comes before itself."""
    data = sound()
    at = data.rindex(b"xref\n0")
    return data.replace(b"/Root 1 0 R", b"/Root 1 0 R/Prev %d" % at)


def no_pages() -> bytes:
    """A PDF without a page."""
    return written({1: b"<</Type/Catalog/Pages 2 0 R>>", 2: b"<</Type/Pages/Kids[]/Count 0>>"})


def no_catalog() -> bytes:
    """The root is a number."""
    return written({1: b"42"})


def page_that_is_none() -> bytes:
    """The second page is a font."""
    return written({1: b"<</Type/Catalog/Pages 2 0 R>>", 2: b"<</Type/Pages/Kids[5 0 R 3 0 R 99 0 R]/Count 3>>", 3: FONT,
                    4: stream(table()), 5: page()})  # fmt: skip


def broken_font() -> bytes:
    """The font's map of letters goes on for ever and makes no sense."""
    to_unicode = stream(b"begincmap\n" + b"1 beginbfrange <00> <FFFFFFFF> <D800> endbfrange\n" * 2000 + b"endcmap")
    return one_sheet(
        table() + block(), more={3: b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica/ToUnicode 7 0 R>>", 7: to_unicode}
    )


def lone_surrogates() -> bytes:
    """Letters that map to halves of a character, to nothing, and to marks that turn the line round."""
    to_unicode = stream(b"/CIDInit /ProcSet findresource begin begincmap 1 begincodespacerange <00> <FF> endcodespacerange\n"
                        b"4 beginbfchar <41> <D800> <42> <DFFF> <43> <0000> <44> <202E> endbfchar endcmap")  # fmt: skip
    return one_sheet(table() + lines([b"ABCD NOTE", b"ABCD 8d"], top=1200) + block(title=b"ABCD SCHEDULES"),
                     more={3: MAPPED, 7: to_unicode})  # fmt: skip


def annotations(count: int = 20_000) -> bytes:
    """Thousands of notes stuck on the sheet, some without a place, some nowhere."""
    notes = b" ".join(b"<</Type/Annot/Subtype/FreeText/T(TEXT)/Contents(NOTE %d)/Rect[%s]>>"
                      % (i, (b"1 1 9 9", b"9 9 1 1", b"0 0 0 0", b"1e38 1 1 -1e38")[i % 4]) for i in range(count))  # fmt: skip
    return one_sheet(b"", more={6: stream(table() + block()), 5: page(b"6 0 R", extra=b"/Annots[" + notes + b"]")})


def numbers_out_of_range() -> bytes:
    """Lines and text at places that no number holds."""
    far = b"1e308 -1e308 m 99999999999999999999 5 l S 0 0 0 0 0 0 cm\n"
    return one_sheet(
        table() + b"q " + far + b"Q BT /F1 1e30 Tf 1e30 0 0 1e-30 1e30 1e30 Tm (FAR) Tj ET BT /F1 0 Tf (NONE) Tj ET\n" + block()
    )


SMALL: dict[str, Callable[[], bytes]] = {
    made.__name__: made
    for made in (
        sound, nested_arrays, nested_forms, form_that_draws_itself, pages_in_a_ring, count_of_pages_is_a_lie, huge_page,
        absurd_page, page_without_size, wrong_lengths, broken_xref, no_xref, xref_points_nowhere, previous_in_a_ring, no_pages,
        no_catalog, page_that_is_none, broken_font, lone_surrogates, numbers_out_of_range, one_long_word, repetitive_note,
    )
}  # fmt: skip
HEAVY: dict[str, Callable[[], bytes]] = {
    "bomb": bomb,
    "bomb of lines": bomb_of_lines,
    "forms that double": forms_that_double,
    "nested states": nested_states,
    "ten thousand pages": many_pages,
    "a million segments": lambda: segments(1_000_000),
    "a net of rules": lambda: grid_of_lines(700),
    "half a million letters": lambda: characters(500_000),
    "letters in one place": letters_in_one_place,
    "annotations": annotations,
}


def encrypted(data: bytes, user: str, owner: str) -> bytes:
    """The same plans, encrypted."""
    import pikepdf

    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        pdf.save(out, encryption=pikepdf.Encryption(user=user, owner=owner))
    return out.getvalue()
