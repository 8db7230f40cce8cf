"""How the engineer is asked: one question a finding, in the trade's words, and when its answer is needed."""

from extractor.checks.fields import Step
from extractor.record import Finding

BEFORE = {Step.POUR: "THE POUR", Step.ORDER: "THE ORDER", Step.NAIL: "NAILING", Step.INSPECT: "COVER"}
WHY = {
    Step.POUR: "hold-downs, anchors and the walls above them are set out for the concrete",
    Step.ORDER: "panels, studs and nails are ordered from it",
    Step.NAIL: "the wall is nailed from it",
    Step.INSPECT: "it is looked at before the wall is covered",
}
LATE = {
    Step.POUR: "Holds the pour.",
    Step.ORDER: "Holds the order, then nailing.",
    Step.NAIL: "Holds nailing of these walls.",
    Step.INSPECT: "Holds inspection and cover.",
}

_ASKS = {
    "missing-value": "What applies to {who}?",
    "missing-in-one-row": "What applies to {who}?",
    "not-given-anywhere": "What applies to {who}?",
    "hold-down-value-missing": "What applies to {who}?",
    "unreadable-value": "What should these words say?",
    "value-elsewhere": "Which value applies to {who}?",
    "nail-not-fully-named": "Which nail is meant: kind, length and diameter?",
    "nail-size-disagrees": "Which nail is meant: kind, length and diameter?",
    "undefined-mark": "Which row of the schedule is meant, or which row is to be added?",
    "unused-mark": "Was a wall meant to have this mark?",
    "undefined-hold-down": "Which hold-down is meant, with which post, anchor and embedment?",
    "unused-hold-down": "Was a hold-down meant to be drawn with this mark?",
    "hold-down-table-not-found": "Where do post, anchor and embedment stand?",
    "hold-downs-not-given": "Do these walls have no hold-downs, or where do they stand?",
    "duplicate-mark": "Which of the rows holds?",
    "duplicate-hold-down": "Which of the rows holds?",
    "edge-nailing-looser-than-field": "Which spacing is for panel edges, and which for the field?",
    "panel-edge-framing-too-narrow": "What do panel edges meet on, and are the nails staggered?",
    "panel-edge-framing-not-given": "What do panel edges meet on, and are the nails staggered?",
    "panel-edge-framing-narrow-for-shear": "What do panel edges meet on, and are the nails staggered?",
    "capacity-over-the-table": "Which capacity is right, for which load and by which method? Are panel, nail and spacing right?",
    "stapled-capacity-over-the-table": "Which capacity is right, for which load? Are panel, staple and spacing right?",
    "both-faces-with-the-capacity-of-one": "Is {who} sheathed on both faces, and what is its capacity?",
    "one-hold-down-model-two-sets-of-data": "Which capacity and which anchor apply to {who}?",
    "code-editions-differ": "Which edition holds?",
    "capacity-without-the-lumber-factor": "Is the capacity for the lumber that the notes name?",
    "field-nailing-wide-for-the-studs": "Which field nailing and which stud spacing hold?",
    "nails-close-to-the-panel-edge": "How far from the panel edge do nails stand?",
    "capacity-out-of-order": "Which rows are right?",
    "anchor-spacing-out-of-order": "Which rows are right?",
    "row-without-mark": "Which wall type is this row for, with which mark?",
    "table-not-read": "Can this schedule be had as a table drawn in the PDF, or does it not apply?",
    "sheet-without-text": "Can these sheets be had as a PDF with text?",
    "sheet-read-from-a-scan": "Can these sheets be had as a PDF drawn from the file?",
    "drawn-wall-too-narrow": "Is this a shear wall as marked?",
}


def asks(finding: Finding, who: str, choices: int) -> str:
    """The question of a finding in one sentence; ``choices`` is how many values the plans give."""
    if finding.code == "conflicting-value" or choices > 1:
        letters = [chr(ord("A") + i) for i in range(choices)]
        which = f": {', '.join(letters[:-1])} or {letters[-1]}" if len(letters) > 1 else ""
        return f"Which holds for {who}{which}?"
    return _ASKS.get(finding.code, "What applies to {who} here?").replace("{who}", who)
