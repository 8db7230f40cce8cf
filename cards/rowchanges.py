"""Rows of two schedules matched and compared. The mark decides; the same values under another mark are said, never assumed.

A value that stands somewhere else, or in other words, and means the same is listed apart.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from cards.answers import shown
from cards.changed import RowChange, Side, ValueChange
from cards.traced import Row, kind_of, label_of, mark_of
from cards.words import Words
from extractor.checks.hit import mark_key, place
from extractor.record import Job, Reading, Record, SheetRecord, State, WallType, readings
from extractor.trade.text import plain_word

MOVED = 1.5  # points: a box that moved less stands where it stood


def same(a: Reading[Any] | None, b: Reading[Any] | None) -> bool:
    """Whether two readings mean the same, wherever and in whatever words they stand."""
    return _meaning(a) == _meaning(b)


def words_of(text: str) -> str:
    """Printed words as they are compared: one spelling of quotes, dashes and spaces, no capitals."""
    return plain_word(text).casefold()


def revision(sheet: SheetRecord) -> str:
    """A sheet with its revision and date: "S3.1 rev 1, 17 Mar 2026"; what was not found is left out."""
    name = sheet.number or f"page {sheet.page}"
    more = [f"rev {sheet.revision}" if sheet.revision else "", Words("en").date(sheet.date) if sheet.date else ""]
    told = ", ".join(part for part in more if part)
    return f"{name} {told or '(no revision or date found)'}"


def _meaning(one: Reading[Any] | None) -> object:
    if one is None:
        return None
    if one.state in (State.UNREADABLE, State.DEFERRED):
        return one.state, words_of(one.as_printed)
    return one.state, _value(one.value), tuple(sorted(repr(_meaning(other)) for other in one.also))


def _value(value: Any) -> object:
    if isinstance(value, tuple):
        return tuple(_value(part) for part in value)
    if isinstance(value, Record):
        return tuple((name, _meaning(one)) for name, one in readings(value))
    return round(value, 6) if isinstance(value, float) else value


def row_changes(job: Job, old: Sequence[Row], new: Sequence[Row]) -> Iterator[RowChange]:
    """Each row in the new schedule's order, those that were withdrawn after them."""
    pairs, left_old, left_new = _by_mark(old, new)
    alike = _by_content(left_old, left_new)
    number = {id(row): i for i, row in enumerate(old, 1)}
    still = {(mark_key(mark_of(row)), _content(row)) for row in new}
    given_up = [row for row in old if (mark_key(mark_of(row)), _content(row)) not in still]
    for row in new:
        before = pairs.get(id(row)) or alike.get(id(row))
        yield _row(job, before, row, number.get(id(before)), given_up, renumbered=id(row) in alike)
    gone = {id(row) for row in alike.values()}
    yield from (_row(job, row, None, number[id(row)], ()) for row in left_old if id(row) not in gone)


def _by_mark(old: Sequence[Row], new: Sequence[Row]) -> tuple[dict[int, Row], list[Row], list[Row]]:
    """Old rows by the new row with the same mark, then the old and the new rows without a partner; twins pair in order."""
    waiting: dict[str, list[Row]] = {}
    for row in old:
        waiting.setdefault(mark_key(mark_of(row)), []).append(row)
    pairs: dict[int, Row] = {}
    left: list[Row] = []
    for row in new:
        same_mark = waiting.get(mark_key(mark_of(row)))
        if same_mark:
            pairs[id(row)] = same_mark.pop(0)
        else:
            left.append(row)
    taken = {id(row) for row in pairs.values()}
    return pairs, [row for row in old if id(row) not in taken], left


def _by_content(old: Sequence[Row], new: Sequence[Row]) -> dict[int, Row]:
    """Old rows by the new row that says exactly the same under another mark; only where no other row says it."""
    before, now = Counter(map(_content, old)), Counter(map(_content, new))
    by_content = {_content(row): row for row in old}
    return {id(row): by_content[said] for row in new
            if len(said := _content(row)) > 2 and before[said] == now[said] == 1}  # fmt: skip


def _content(row: Row) -> tuple[object, ...]:
    return tuple((name, repr(_meaning(one))) for name, one in readings(row) if name != "mark" and not name.startswith("other"))


def _row(job: Job, old: Row | None, new: Row | None, number: int | None, before: Sequence[Row], *,
         renumbered: bool = False) -> RowChange:  # fmt: skip
    row = new or old
    assert row is not None
    told: dict[str, Any] = {"kind": kind_of(row), "mark": mark_of(row), "old_mark": old and mark_of(old),
                            "new_mark": new and mark_of(new), "number": number}  # fmt: skip
    if old is None or new is None:
        values = tuple(_change(name, *((one, None) if old else (None, one))) for name, one in readings(row) if name != "mark")
        return RowChange(**told, status="withdrawn" if old else "added", values=values, says=_seen_before(new, before))
    values, moved = _fields(old, new)
    if renumbered:
        says = (f"{mark_of(new)} has the values that {mark_of(old)} had, and {mark_of(old)} is gone. Matched by content, not by "
                "mark: look whether the office renumbered.")  # fmt: skip
        return RowChange(**told, status="renumbered", values=values, moved=moved, says=says)
    if values:
        return RowChange(**told, status="changed", values=values, moved=moved, says=_seen_before(new, before))
    return RowChange(**told, status="no change", moved=moved, says=f"No change since {_since(job, old)}.")


def _since(job: Job, row: Row) -> str:
    sheet = next((one for one in job.sheets if one.page == row.mark.source.page), None)
    return revision(sheet) if sheet and (sheet.revision or sheet.date) else f"file {job.plan_set.sha256[:8]}"


def _seen_before(new: Row | None, before: Sequence[Row]) -> str:
    """A row that now says exactly what another mark said before and no longer says: a sign of renumbering."""
    if new is None:
        return ""
    alike = [row for row in before if _content(row) == _content(new) and mark_key(mark_of(row)) != mark_key(mark_of(new))]
    if len(alike) != 1 or len(_content(new)) < 3:
        return ""
    return f"{mark_of(new)} now has the values that {mark_of(alike[0])} had before: look whether the office renumbered."


def _fields(old: Row, new: Row) -> tuple[tuple[ValueChange, ...], tuple[ValueChange, ...]]:
    """Values that changed, and those that only moved or were reworded."""
    before, now = ({name: one for name, one in readings(row) if not name.startswith("other[")} for row in (old, new))
    changed, moved = [], []
    for name in dict.fromkeys((*before, *now)):
        a, b = before.get(name), now.get(name)
        if name == "mark":
            continue
        if not same(a, b):
            changed.append(_change(name, a, b))
        elif a and b and (why := _moved(a, b)):
            moved.append(_change(name, a, b, why))
    changed += _other(old, new)
    return tuple(changed), tuple(moved)


def _other(old: Row, new: Row) -> Iterator[ValueChange]:
    """Words of the row that belong to no field and stand on one side alone."""
    left = Counter(words_of(one.as_printed) for one in new.other)
    for one in old.other:
        if left[words_of(one.as_printed)]:
            left[words_of(one.as_printed)] -= 1
        else:
            yield _change("other", one, None)
    for one in reversed(new.other):
        if left[words_of(one.as_printed)]:
            left[words_of(one.as_printed)] -= 1
            yield _change("other", None, one)


def _moved(a: Reading[Any], b: Reading[Any]) -> str:
    """How two readings of the same meaning differ: in words, in origin, in place; nothing where they don't."""
    why = []
    if words_of(a.as_printed) != words_of(b.as_printed):
        why.append(f"“{a.as_printed}” is now “{b.as_printed}”")
    if a.origin != b.origin:
        why.append(f"from the {a.origin} before, from the {b.origin} now")
    if (a.source.sheet or a.source.page) != (b.source.sheet or b.source.page):
        why.append(f"{place(a.source)} before, {place(b.source)} now")
    elif max(abs(p - q) for p, q in zip(a.source.box, b.source.box, strict=True)) > MOVED:
        why.append(f"elsewhere on {place(b.source)}")
    return "; ".join(why)


def _change(name: str, old: Reading[Any] | None, new: Reading[Any] | None, why: str = "") -> ValueChange:
    by_note = any(one and one.origin in ("note", "legend") for one in (old, new))
    return ValueChange(field=name, label=label_of(name), old=_side(name, old), new=_side(name, new), by_note=by_note, why=why)


def _side(name: str, one: Reading[Any] | None) -> Side | None:
    if one is None:
        return None
    return Side(text=_text(name, one), as_printed=one.as_printed, state=one.state, origin=one.origin, source=one.source)


def _text(name: str, one: Reading[Any]) -> str:
    if one.state is State.UNREADABLE:
        return f"CAN'T READ “{one.as_printed}”"
    if one.state is State.DEFERRED:
        return f"SEE “{one.as_printed}”"
    if one.state is State.NONE:
        return "NONE (per plans)"
    if one.state is State.CONFLICT:
        return "CONFLICT: " + " | ".join(f"“{other.as_printed}”" for other in (one, *one.also))
    return f"“{one.as_printed}”" if name.startswith("other") else shown(name, one.value)


def with_hold_downs(row: RowChange, old: Job, new: Job, holds: Sequence[RowChange]) -> RowChange:
    """A wall type whose own row is the same and whose hold-down changed prints another card: it changed."""
    walls = [wall for job in (old, new) for wall in job.wall_types if mark_of(wall) in (row.old_mark, row.new_mark)]
    names = {name for wall in walls for name in _names(wall)}
    touched = tuple(hold.mark for hold in holds if hold.status != "no change" and names & _called(hold, old, new))
    if not touched:
        return row
    if row.status != "no change":
        return row.model_copy(update={"hold_downs": touched})
    says = f"The row is the same. Hold-down {', '.join(touched)} changed."
    return row.model_copy(update={"status": "changed", "hold_downs": touched, "says": says})


def _names(wall: WallType) -> tuple[str, ...]:
    return (wall.hold_down.marks.value or ()) if wall.hold_down.marks else ()


def _called(hold: RowChange, old: Job, new: Job) -> set[str]:
    """Mark and model of a hold-down, before and now."""
    rows = [row for job in (old, new) for row in job.hold_downs if mark_of(row) in (hold.old_mark, hold.new_mark)]
    return {name.value for row in rows for name in (row.mark, row.model) if name and name.value}
