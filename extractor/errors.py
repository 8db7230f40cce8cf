"""What can stop a run, and the exit code each gives.

NailcardError                     a person can act on it
├── PlansError                3   the plans cannot be opened or read
│   ├── MissingPlansError         no such file or folder
│   ├── NotPdfError               the file is not a PDF
│   ├── EmptyPlansError           no bytes, or no pages
│   ├── DamagedPlansError         truncated or broken
│   ├── LockedPlansError          a password is needed
│   ├── ScannedPlansError         pages are pictures without text
│   ├── GarbledPlansError         letters that make no words
│   └── OverLimitError            more than any plan set holds: see limits.py
├── NoScheduleError           4   no shear wall schedule was found
├── OutputError               5   the output cannot be written
└── UsageError                2   what was asked for makes no sense
"""

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes of the command; they are interface and stand in README."""

    FINE = 0
    STOP_OPEN = 1
    USAGE = 2
    PLANS = 3
    NO_SCHEDULE = 4
    OUTPUT = 5
    BUG = 70


class NailcardError(Exception):
    """Something about this run that a person can act on: what happened, where, what to do."""

    exit_code = Exit.PLANS

    def __init__(self, what: str, *, where: str, do: str) -> None:
        """Say what happened in the crew's words, where (file, page, sheet) and what to do about it."""
        super().__init__(f"{what}\n  where: {where}\n  do: {do}")
        self.what, self.where, self.do = what, where, do


class PlansError(NailcardError):
    """The plans cannot be opened or read."""


class MissingPlansError(PlansError):
    """There is no such file or folder, or the folder holds no PDF."""


class NotPdfError(PlansError):
    """The file is something other than a PDF."""


class EmptyPlansError(PlansError):
    """The file has no bytes, or the PDF has no pages."""


class DamagedPlansError(PlansError):
    """The file is cut short or broken."""


class LockedPlansError(PlansError):
    """The PDF needs a password to open."""


class ScannedPlansError(PlansError):
    """The sheets are pictures: there is no text to read."""


class GarbledPlansError(PlansError):
    """The sheets' text has letters that make no words: the file's map from glyphs to letters is broken."""


class OverLimitError(PlansError):
    """The plans hold more than any plan set does, or take more memory or time to read."""


class NoScheduleError(NailcardError):
    """The plans were read and hold no shear wall schedule."""

    exit_code = Exit.NO_SCHEDULE


class OutputError(NailcardError):
    """The output cannot be written."""

    exit_code = Exit.OUTPUT


class UsageError(NailcardError):
    """What was asked for makes no sense."""

    exit_code = Exit.USAGE
