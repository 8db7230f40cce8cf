"""Hold-downs: the marks or models a wall's row names, and the cells of a hold-down table."""

import regex as re

from extractor.record import State
from extractor.trade.anchors import diameters, embedment_cell, embedments
from extractor.trade.spans import MASK, around, mask, mask_found, overlap, trimmed
from extractor.trade.states import deferrals
from extractor.trade.text import Found

_TAIL = r"(?:-[A-Z]?\d{1,3}[A-Z]?|-[A-Z])?"
NAME = (
    rf"(?:[A-Z]{{1,5}}-?\d{{1,3}}[A-Za-z]{{0,2}}{_TAIL}|[A-Z]{{2,4}}-[A-Z]{{1,2}}\d{{0,3}}(?![\w])"
    rf"|(?:HD|TD|H\.D\.) ?\d{{1,2}}[A-Z]?|(?:HD|TD) [A-Z])"
)
_NAME = re.compile(rf"(?<![\w.#-])(?<!(?<![\w-])\d{{1,2}}/)(?P<mark>{NAME})(?![\w\"'-]|\.\d|/\d)", re.I)
_NOT_A_NAME = re.compile(r"(?:[A-Z]\d{1,3}\.\d|DF-?\d|NO-?\d|SW-?\w{1,3})", re.I)
_PLAIN = r"(?:\d{1,2}|[A-Z])"
_PLAIN_LIST = re.compile(
    (
        rf"\s*\(?(?:(?:hold-?down|holdown|tie-?down|hd|type|mark)s? )?(?P<mark>{_PLAIN})\)?(?:(?: ?& ?"
        rf"|, ?| and )\(?(?P<mark>{_PLAIN})\)?)*(?P<ends>[ ,]*[^\d]*)"
    ),
    re.I,
)
_ENDS = r"(?:(?:@|at )? ?(?:(?:ea\.?|each|both) ends?(?: of (?:wall|panel))?|(?:ea\.?|each) side|e\.e\.)(?!\w)\.?)"
_DOUBT = re.compile(r"(?<!\w)(?:no|not|none|except|omit|unless|n/a)(?![\w.])", re.I)
_AFTER = re.compile(rf"[ ,]*{_ENDS}", re.I)
_BEFORE = re.compile(
    r"(?:(?:\((?P<count>\d)\) ?)|(?:(?:strap|hold-?downs?|holdowns?|hold downs?|tie-?downs?|h\.d\.|type|mark)s?:? ))+$", re.I
)
_WITH = re.compile(r"(?<!\w)(?:w/|with(?!\w)|to (?:\(|\d|post)).*", re.I)
_HOLD = r"(?:hold-?downs?|holdowns?|hold downs?|tie-?downs?|ties?)"
_LETTERS = r"(?!(?:at|ea|in|on|or|to|for|per|see|all)\b)[A-Z]{2,3}"  # TA; not TIE-DOWN AT EACH END
_IN_WORDS = re.compile(
    rf"(?<!\w){_HOLD}(?: type"
    rf"| mark)?:? ?(?:\(\d\) ?)?(?P<mark>{NAME}|[A-Z]\d{{1,2}})(?![\w\"'./])(?:{_ENDS}| {_ENDS})?"
    rf"|(?<!\w){_HOLD}(?: type| mark)? (?P<mark>[A-Z]|\d{{1,2}}|{_LETTERS})[ ,]{_ENDS}"
    rf"|(?<![\w./-])(?P<mark>{NAME})(?: hold-?downs?| holdowns?)?[ ,]{_ENDS}",
    re.I,
)
_NONE_IN_WORDS = re.compile(
    (rf"(?<!\w)(?:no {_HOLD}|{_HOLD}:? (?:none|not req'?d\.?|not required))(?!\w)(?: (?:req'?d\.?|required))?"),
    re.I,
)

_POUNDS = r"(?:lbs?(?![a-qs-z])\.?|#|pounds(?!\w))"
_CAPACITY = re.compile(
    rf"(?<![\w/.,<>#-])(?<![<>] )(?:(?<!\w)t ?= ?)?(?P<n>\d{{1,3}}(?:,\d{{3}}){{1,2}}+|\d{{1,6}}+(?!\d)(?:\.\d{{1,6}}+)?)"
    rf"(?![\d/\"',.])(?! \d)(?: ?(?:{_POUNDS}|(?P<kips>k(?:ips?)?(?!\w))))?",
    re.I,
)
_LEAST_LB, _MOST_LB = 200.0, 100_000.0
_ROD_SIZE = re.compile(
    r" (?:dia\.? )?(?:thread(?:ed)? rods?|all-?thread(?: rods?)?|rods?|anchor bolts?|bolts?|a\.b\.)(?!\w)", re.I
)


def wall_hold_downs(text: str) -> list[Found]:
    """The marks a hold-down cell names, in order; words after W/ (the post) are left over, counts stay in the words printed."""
    masked = _WITH.sub(lambda m: MASK * len(m.group()), mask(text, deferrals(text)))
    named = [m for m in _NAME.finditer(masked) if not _NOT_A_NAME.fullmatch(m["mark"])]
    if named:
        marks = tuple(dict.fromkeys(m["mark"] for m in named))
        span = _with_words(masked, named[0].start("mark"), named[-1].end("mark"))
        if _DOUBT.search(masked) or (len(marks) > 1 and "(" in masked[named[0].end("mark") : named[-1].start("mark")]):
            return [Found("hold_down.marks", None, span, State.UNREADABLE)]  # NO HD2; HD2 (HD4 @ GARAGE)
        return [Found("hold_down.marks", marks, span)]
    plain = _PLAIN_LIST.fullmatch(masked)
    if plain and not re.search(r"[A-Z]", re.sub(_ENDS, "", plain["ends"], flags=re.I), re.I) and plain.start("mark") >= 0:
        marks = tuple(dict.fromkeys(plain.captures("mark")))
        start = len(text) - len(text.lstrip())
        return [Found("hold_down.marks", marks, (start, len(masked.rstrip(f"{MASK} "))))]
    return []


def posts(text: str) -> list[tuple[int, int]]:
    """Spans of the words after W/, which are the post's, and of counts."""
    return [m.span() for m in _WITH.finditer(text)]


def _with_words(text: str, start: int, end: int) -> tuple[int, int]:
    before, after = _BEFORE.search(text, 0, start), _AFTER.match(text, end)
    return before.start() if before else start, after.end() if after else end


def hold_downs_in_words(text: str) -> list[Found]:
    """Marks out of running text: HOLD-DOWN H1, HD2 EA. END; and NO HOLD-DOWNS."""
    none = _NONE_IN_WORDS.search(text)
    named = [m for m in _IN_WORDS.finditer(text) if not none or not overlap(m.span(), none.span())]
    if none and named:
        return [Found("hold_down.marks", None, around([none.span(), *(m.span() for m in named)]), State.UNREADABLE)]
    if none:
        return [Found("hold_down.marks", (), none.span(), State.NONE)]
    if not named:
        return []
    return [Found("hold_down.marks", tuple(dict.fromkeys(m["mark"] for m in named)), around(m.span() for m in named))]


def printed(text: str, field: str) -> list[Found]:
    """The whole cell, tidy, as the field's value: a post, a model, a list of fasteners."""
    tidy = " ".join(text.split())
    start = len(text) - len(text.lstrip())
    return [Found(field, tidy, (start, start + len(text.strip())))] if tidy else []


def capacity_lb(text: str) -> list[Found]:
    """Pounds out of a hold-down table: 2,215 LB; 3.2 K is 3200; words after the number are left over."""
    found: list[Found] = []
    for m in _CAPACITY.finditer(text):
        value = float(m["n"].replace(",", "")) * (1000 if m["kips"] else 1)
        fits = _LEAST_LB <= value <= _MOST_LB
        if found and not fits:
            continue
        found.append(Found("capacity_lb", round(value, 6) if fits else None, m.span(), State.READ if fits else State.UNREADABLE))
    return found


def anchor(text: str) -> list[Found]:
    """Diameter and embedment of a hold-down's rod or bolt, inches."""
    found = [f._replace(field="anchor.embedment_in") for f in embedments(text)]
    masked = mask_found(text, found)
    for f in diameters(masked):
        rod = _ROD_SIZE.match(masked, f.span[1])
        found.append(f._replace(field="anchor.diameter_in", span=(f.span[0], rod.end() if rod else f.span[1])))
    return found


def embedment(text: str) -> list[Found]:
    """Embedment out of a column of its own, inches."""
    return [f._replace(field="anchor.embedment_in") for f in embedment_cell(text)]


_STACKED = (
    (
        "hd_capacity",
        re.compile(rf"(?:capacity:? )?\d[\d,.]* ?(?:{_POUNDS}|k(?:ips?)?)(?: (?:capacity|allow\w*|tension|uplift))?", re.I),
    ),
    ("hd_fasteners", re.compile(r".*(?<!\w)(?:screws?|nails?|\d{1,2} ?d)(?!\w).*", re.I)),
    ("hd_anchor", re.compile(r".*\d.*(?<!\w)(?:rods?|bolts?|anchors?|all-?thread|a\.b\.|embed\w*|atr)(?!\w).*", re.I)),
    ("hd_post", re.compile(r".*(?<!\w)(?:\d ?x ?\d|studs?|posts?)(?!\w).*", re.I)),
    ("hd_model", re.compile(NAME, re.I)),
)


def stacked_kind(line: str) -> str | None:
    """What a line of a cell that stacks a hold-down's values tells, where it can be only one thing; else None."""
    return next((kind for kind, pattern in _STACKED if pattern.fullmatch(line.strip())), None)


_MARK = re.compile(
    r"[(\[{<]*(?P<mark>(?=[^\d]{0,3}$|[^ ]*\d|[A-Z]{1,5}[ -][A-Z\d]{1,3}$)[A-Z\d][A-Z\d.'*/-]*(?: [A-Z\d.'*/-]{1,8})?)[)\]}>]*"
    r"(?: ?\(\d\))*",  # footnotes
    re.I,
)


def mark(text: str) -> list[Found]:
    """The mark in a mark cell, as printed, its symbol left out; anything long or wordy is unreadable."""
    start, end = trimmed(text, (0, len(text)))
    while start < end and not (text[start].isalnum() or text[start] in "([{<"):
        start += 1
    while end > start and not (text[end - 1].isalnum() or text[end - 1] in ")]}>'*"):
        end -= 1
    m = _MARK.fullmatch(text, start, end)
    if m and len(m["mark"]) <= 12:
        return [Found("mark", m["mark"], m.span())]
    return []
