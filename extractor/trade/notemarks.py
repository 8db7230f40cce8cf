"""Which wall types a clause of a note names: a list, a range, all but some, all others, those with a prime or a star."""

from collections.abc import Collection, Iterator
from typing import NamedTuple

import regex as re

from extractor.trade.text import Span, plain_word

_MARK = (
    r"(?:\d{1,2}-\d{1,2}|[A-Z]{1,4}-?\d{1,2}[A-Z]?|[A-Z]-\d|\d{1,2}[A-Z]?|[A-Z])"
    r"(?![\w\"'/*]|-\d|\.\d|\.[A-Z]\b| ?x ?\d| (?:in\b|inch"
    r"|ft\b|feet|hours?|plf|psf|percent|o\.c|sides?|faces?|rows?))"
)
_JOIN = r"(?i: ?, ?(?:and |& |or )?| ?& ?| and | or | thru | through | to | ?- ?|/)"
_LISTED = re.compile(
    r"(?:\b(?i:(?:shear[ -]?(?:walls?|panels?)|walls?|s\.?w\.?)(?: types?| marks?| (?:marked|noted"
    r"|designated|tagged)(?: as)?)?|(?:wall )?types?"
    rf"|marks?|nos?\.))[ :]+(?P<list>{_MARK}(?:{_JOIN}(?:(?i:types?|walls?) )?{_MARK})*)"
    rf"|\b(?P<own>(?:P?SW|S\.W\.)[ -]?\d{{1,2}}[A-Z]?(?![\w\"'/])(?:{_JOIN}(?:P?SW)?-?\d{{1,2}}[A-Z]?(?![\w\"'/]))*)",
)
_OPENS = re.compile(
    rf"\W*(?P<list>{_MARK}(?:{_JOIN}{_MARK})*)"
    r"(?: ?[:=]| - | (?i:are|is|shall|have|has|means?|must|to have|to be)\b)"
)
_ARTICLE = re.compile(r"[A-Z]")
_ENDS_LIST = re.compile(r" ?(?:[:;,.)(]|$|-)| (?:and|&|or|at|shall|use|provide|has|have|are|is|to|thru|space|with|only)\b", re.I)
_GYPSUM_TYPE = re.compile(r"(?:X|C|S|W)\b(?= (?:gyp|gwb|board|drywall|screw))", re.I)
_RANGE = re.compile(r"(?P<stem>[A-Z]*-?)(?P<first>\d{1,2}) ?(?:-|thru|through|to) ?(?:(?P=stem))(?P<last>\d{1,2})", re.I)
_LETTERS = re.compile(r"(?P<first>[A-Z]) ?(?:-|thru|through|to) ?(?P<last>[A-Z])")
_MOST_IN_RANGE = 20
_LIST_AT = re.compile(rf"(?i:(?:types?|walls?|marks?) )?(?P<list>{_MARK}(?:{_JOIN}(?:(?i:types?|walls?) )?{_MARK})*)")


def marks(clause: str, known: Collection[str] = ()) -> Iterator[tuple[tuple[str, ...], Span]]:
    """Wall types that the clause names, in groups with their spans; a range as given, then all it holds."""
    spans: list[Span] = []
    for m in _LISTED.finditer(clause):
        group = "list" if m["list"] else "own"
        if names := _names(
            m[group],
            clause,
            m.start(group),
            known,
            typed=re.search(r"(?i)types?|mark(?:s|ed)?|noted|designated|tagged", m[0][: m.start(group) - m.start()]) is not None,
        ):
            spans.append(m.span(group))
            yield names, m.span(group)
    m = _OPENS.match(clause)
    if m and not spans and set(names := _names(m["list"], clause, m.start("list"), known, typed=True)) <= set(known):
        spans.append(m.span("list"))
        yield names, m.span("list")
    for m in _WITH_SIGN.finditer(clause):
        if m["mark"] in known:
            spans.append(m.span("mark"))
            yield (m["mark"],), m.span("mark")
    for mark in sorted((mark for mark in known if len(mark) > 1 and any(c.isalpha() for c in mark)), key=len, reverse=True):
        for m in re.finditer(rf"(?<![\w-]){re.escape(mark)}(?![\w-])", clause):
            if not any(a < m.end() and m.start() < b for a, b in spans):
                spans.append(m.span())
                yield (mark,), m.span()


def _names(text: str, clause: str, start: int, known: Collection[str], *, typed: bool) -> tuple[str, ...]:
    """The marks in one list; nothing for a letter that is an article or the X of a gypsum board."""
    if _GYPSUM_TYPE.match(clause, start):
        return ()
    single = _ARTICLE.fullmatch(text) is not None
    if single and not typed and not _ENDS_LIST.match(clause, start + len(text)):
        return ()
    if text in known:
        return (text,)
    out: list[str] = []
    for part in re.split(r"(?i) ?, ?(?:and |& |or )?| ?& ?| and | or |/", text):
        name = re.sub(r"(?i)^(?:types?|walls?) ", "", part)
        out += [name, *_held(name)] if name not in known else [name]
    return tuple(dict.fromkeys(out))


def _held(name: str) -> list[str]:
    """The marks a range holds, its ends among them; nothing for what is no range."""
    if (m := _RANGE.fullmatch(name)) and 0 < int(m["last"]) - int(m["first"]) < _MOST_IN_RANGE:
        return [f"{m['stem']}{n}" for n in range(int(m["first"]), int(m["last"]) + 1)]
    if (m := _LETTERS.fullmatch(name)) and m["first"] < m["last"]:
        return [chr(n) for n in range(ord(m["first"]), ord(m["last"]) + 1)]
    return []


class Whom(NamedTuple):
    """The types a clause is for, and the clause with the words blanked that say it by way of others, as long as before.

    ``rest`` says that the clause speaks of all other types. ``unclear`` says that it is for some types, and that the scheduled
    marks don't tell which: TYPES WITH A PRIME, where no mark has one.
    """

    marks: tuple[str, ...]
    words: str
    rest: bool = False
    unclear: bool = False


_NOUN = r"(?:wall types?|types?|shear walls?|walls?|marks?|numbers?|symbols?|panels?)"
_TYPE = r"(?:wall types?|types?|shear walls?|shear panels?|marks?|numbers?|symbols?)"  # other walls may be no shear walls
_OTHERS = re.compile(rf"\b(?:all |the |at )*(?:others\b|(?:other|remaining) {_TYPE}\b)", re.I)
_ALL_BUT = re.compile(rf"\b(?:all|every) (?:shear )?{_NOUN} (?:except(?: for)?|other than|but(?: not)?) ", re.I)
_ENDS = (
    r"(?:(?:marked|shown|noted|designated|tagged) )?"
    r"(?:with|having|that have|followed by|ending (?:in|with)|that end (?:in|with))"
)
_WITH_SIGN = re.compile(r"(?i)(?:\b(?:types?|walls?|marks?)|,|&|\band|\bor) (?P<mark>[A-Z]{0,3}-?\d{1,2}['*])(?![\w\"'-])")
_SOME_TYPE = re.compile(
    r"\b(?i:types?|marks?) (?i:nos?\.? )?[(\"']?(?:[A-Z]{0,4}-?\d|(?!X\b)[A-Z](?=[*'\")]|[ ,]? ?(?:[,:;.]|$)))"
)  # a type that no pattern read: the clause isn't for all walls
_SIGN = re.compile(
    rf"\b(?:all |the )*{_NOUN} {_ENDS} (?:an? |the )?"
    r"(?:(?P<prime>primes?(?: marks?)?(?: ?\('\))?)|(?P<star>(?:asterisks?|stars?)(?: ?\(\*\))?)"
    r"|(?:suffix|letter) [\"'(]?(?P<letter>(?-i:[A-Z]))[\"')]?(?: suffix)?(?!\w)"
    r"|[\"'](?P<letter>(?-i:[A-Z]))[\"'](?: suffix)?(?!\w)"
    r"|(?P<sign>['*])(?!\w))",
    re.I,
)
_DOUBLED = re.compile(rf"\b(?:an? |all |the )*(?:doubled?|repeated) {_NOUN}(?: ?\((?P<list>[^()]+)\))?", re.I)


def whom(clause: str, known: Collection[str], told: Collection[str]) -> Whom:
    """The types that a clause is for; ``told`` are the types named right before it."""
    if m := _ALL_BUT.search(clause):
        listed = _LIST_AT.match(clause, m.end())
        named = _names(listed["list"], clause, m.end(), known, typed=True) if listed else ()
        return _all_but(known, named, clause, (m.start(), listed.end() if listed else m.end()))
    if m := _OTHERS.search(clause):
        return _all_but(known, told, clause, m.span())
    for found in (_signed(clause, known), _doubled(clause, known)):
        if found:
            return found if found.marks else found._replace(words=clause, unclear=True)
    named = tuple(dict.fromkeys(mark for group, _ in marks(clause, known) for mark in group))
    return Whom(named, clause, unclear=not named and _SOME_TYPE.search(clause) is not None)


def _all_but(known: Collection[str], named: Collection[str], clause: str, span: Span) -> Whom:
    """All scheduled types but the named ones; none, and nothing blanked, where a named one isn't scheduled or nothing is left."""
    rest = tuple(mark for mark in sorted(known) if mark not in named)
    if not named or not rest or not set(named) <= set(known):
        return Whom((), clause, rest=True, unclear=True)
    return Whom(rest, _blank(clause, span), rest=True)


def _signed(clause: str, known: Collection[str]) -> Whom | None:
    """The scheduled types that end in the sign a clause names: TYPES WITH A PRIME, MARKS ENDING IN "B"."""
    m = _SIGN.search(clause)
    if not m:
        return None
    sign = "'" if m["prime"] else "*" if m["star"] else m["letter"] or m["sign"]
    ending = tuple(mark for mark in sorted(known) if re.search(rf"\d{re.escape(sign)}$", plain_word(mark)))
    return Whom(ending, _blank(clause, m.span()))


def _doubled(clause: str, known: Collection[str]) -> Whom | None:
    """The scheduled types whose mark is another one's written twice: 33 beside 3; those in brackets have to be the same."""
    m = _DOUBLED.search(clause)
    if not m:
        return None
    twice = tuple(mark for mark in sorted(known) if len(mark) == 2 and mark[0] == mark[1])
    listed = re.split(r"(?i) ?, ?(?:and |& |or )?| ?& ?| and | or ", m["list"].strip()) if m["list"] else list(twice)
    return Whom(twice if set(listed) == set(twice) else (), _blank(clause, m.span()))


def _blank(text: str, span: Span) -> str:
    """The text with a span blanked out."""
    return text[: span[0]] + " " * (span[1] - span[0]) + text[span[1] :]
