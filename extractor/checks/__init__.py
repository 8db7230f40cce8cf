"""What is wrong, missing or unclear in a job, and in which order a framer needs to know.

A check is one small function; `CHECKS` lists them in the order of the job. Levels: ``stop`` (don't build it yet), ``ask`` (the
plans are silent or unclear), ``note``. A hit may be milder than its check, never harder.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from extractor.checks import (
    agreement,
    anchors,
    capacity,
    completeness,
    crossmarks,
    framing,
    holddowns,
    pairs,
    published,
    staples,
    states,
    trust,
    twice,
    wholejob,
)
from extractor.checks.fields import step
from extractor.checks.hit import Find, each_wall
from extractor.record import Finding, Job, Level

SEVERITY = {Level.STOP: 0, Level.ASK: 1, Level.NOTE: 2}


@dataclass(frozen=True)
class Check:
    """A check as it is listed: what finds it, how much it weighs at most, and the published source if there is one."""

    find: Find
    level: Level
    citation: str | None = None

    @property
    def code(self) -> str:
        """The finding's short name in words."""
        return self.find.__name__.replace("_", "-")

    @property
    def summary(self) -> str:
        """The first line of its words: what is wrong."""
        return (self.find.__doc__ or "").partition("\n")[0]

    def findings(self, job: Job) -> list[Finding]:
        """What this check finds in a job."""
        return [
            Finding(
                code=self.code,
                level=max(hit.level or self.level, self.level, key=SEVERITY.__getitem__),
                wall_type=hit.mark,
                field=hit.field,
                message=hit.message,
                source=hit.source,
                citation=self.citation,
            )
            for hit in self.find(job)
        ]


CHECKS = (
    # what could be read at all
    Check(trust.sheet_without_text, Level.ASK),
    Check(trust.sheet_read_from_a_scan, Level.ASK),
    Check(trust.mixed_revisions, Level.NOTE),
    Check(wholejob.code_edition_not_found, Level.NOTE),
    Check(wholejob.code_editions_differ, Level.ASK),
    Check(trust.table_not_read, Level.ASK),
    Check(trust.row_without_mark, Level.ASK),
    Check(trust.words_not_used, Level.NOTE),
    # marks and rows
    Check(crossmarks.undefined_mark, Level.STOP),
    Check(twice.duplicate_mark, Level.STOP),
    Check(crossmarks.undefined_hold_down, Level.STOP),
    Check(twice.duplicate_hold_down, Level.STOP),
    Check(crossmarks.hold_down_table_not_found, Level.ASK),
    Check(completeness.hold_downs_not_given, Level.ASK),
    Check(crossmarks.unused_hold_down, Level.ASK),
    Check(crossmarks.unused_mark, Level.ASK),
    Check(crossmarks.wall_lengths_not_read, Level.NOTE),
    # values that are missing or in doubt
    Check(states.unreadable_value, Level.STOP),
    Check(states.conflicting_value, Level.STOP),
    Check(states.value_elsewhere, Level.STOP),
    Check(completeness.missing_value, Level.STOP),
    Check(completeness.nail_not_fully_named, Level.STOP, "NDS-2018 Table L4"),
    Check(holddowns.hold_down_value_missing, Level.ASK),
    Check(completeness.missing_in_one_row, Level.ASK),
    Check(completeness.not_given_anywhere, Level.ASK),
    Check(holddowns.hold_down_value_not_given, Level.NOTE),
    Check(completeness.nail_size_not_given, Level.NOTE, "NDS-2018 Table L4"),
    # values that cannot all be right
    Check(each_wall(agreement.nail_size_disagrees), Level.STOP, "NDS-2018 Table L4"),
    Check(each_wall(agreement.edge_nailing_looser_than_field), Level.STOP),
    Check(agreement.anchor_spacing_out_of_order, Level.ASK),
    Check(agreement.capacity_out_of_order, Level.ASK),
    Check(pairs.both_faces_with_the_capacity_of_one, Level.ASK),
    Check(pairs.one_hold_down_model_two_sets_of_data, Level.ASK),
    # published tables and rules
    Check(each_wall(anchors.anchor_bolt_below_house_code), Level.ASK, "IRC-2006 R403.1.6"),
    Check(anchors.plate_washer_small, Level.ASK, "IBC-2006 2305.3.11"),
    Check(each_wall(published.panel_thickness_unknown), Level.ASK, "PS 1 / PS 2 performance categories"),
    Check(each_wall(published.panel_too_thin_for_the_nail), Level.ASK, "SDPWS-2008 Table 4.3A"),
    Check(each_wall(framing.panel_edge_framing_too_narrow), Level.STOP, "SDPWS-2008 4.3.7.1"),
    Check(framing.panel_edge_framing_not_given, Level.ASK, "SDPWS-2008 4.3.7.1"),
    Check(framing.panel_edge_framing_narrow_for_shear, Level.ASK, "SDPWS-2008 4.3.7.1"),
    Check(each_wall(published.nail_penetration_short), Level.STOP, "SDPWS-2008 Table 4.3A"),
    Check(each_wall(published.nail_thinner_than_the_table), Level.ASK, "SDPWS-2008 Table 4.3A"),
    Check(each_wall(published.edge_nailing_too_wide), Level.STOP, "SDPWS-2015 4.3.7.1"),
    Check(each_wall(published.field_nailing_too_wide), Level.STOP, "SDPWS-2015 4.3.7.1"),
    Check(wholejob.field_nailing_wide_for_the_studs, Level.ASK, "SDPWS-2015 4.3.7.1"),
    Check(wholejob.nails_close_to_the_panel_edge, Level.ASK, "SDPWS-2015 4.3.7.1"),
    Check(each_wall(published.close_nailing_on_unblocked_wall), Level.ASK, "SDPWS-2015 4.3.3.2"),
    Check(published.drawn_wall_too_narrow, Level.ASK, "SDPWS-2015 Table 4.3.4"),
    Check(capacity.capacity_over_the_table, Level.STOP, "SDPWS-2008 Table 4.3A"),
    Check(wholejob.capacity_without_the_lumber_factor, Level.ASK, "SDPWS-2015 Table 4.3A footnote 3"),
    Check(each_wall(staples.stapled_capacity_over_the_table), Level.STOP, "IBC-2009 Table 2306.3"),
    Check(capacity.capacity_rests_on_a_credit, Level.ASK, "SDPWS-2008 Table 4.3A footnote 2"),
    Check(capacity.capacity_basis_not_stated, Level.NOTE, "SDPWS-2008 Table 4.3A"),
    Check(framing.stagger_not_stated, Level.NOTE, "SDPWS-2008 4.3.7.1"),
    Check(framing.joints_on_both_faces, Level.NOTE, "SDPWS-2015 Table 4.3A footnote 6"),
    Check(published.special_inspection_possible, Level.NOTE, "IBC-2015 1705"),
)


def check(job: Job) -> tuple[Finding, ...]:
    """What reading the plans found and what the checks find in a job, worst first, then in the order of the job.

    Findings of the job that have no check's code come from reading and stay; what the checks found before is found anew.
    """
    codes = {one.code for one in CHECKS}
    kept = [finding for finding in job.findings if finding.code not in codes]
    return worst_first([*kept, *(finding for one in CHECKS for finding in one.findings(job))])


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings by level, then by the step of the job that they hold up; otherwise as they came."""
    return tuple(sorted(findings, key=lambda found: (SEVERITY[Level(found.level)], step(found.field, found.code))))


def list_checks() -> tuple[tuple[str, str, str, str], ...]:
    """Code, level at most, citation and what is wrong, for each check in the order of the job."""
    return tuple((one.code, one.level.value, one.citation or "common practice, no source", one.summary) for one in CHECKS)
