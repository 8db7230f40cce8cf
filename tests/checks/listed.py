"""The page of checks in README, made from the table of checks: ``python -m tests.checks.listed`` writes it anew."""

from pathlib import Path

from extractor.checks import list_checks

README = Path(__file__).parent.parent.parent / "README.md"
BEGIN, END = "<!-- checks: begin -->", "<!-- checks: end -->"


def page() -> str:
    """A line a check, in the order of the job, with its level at most and its source."""
    rows = [f"| `{code}` | {level.upper()} | {says} | {citation} |" for code, level, citation, says in list_checks()]
    return "\n".join(["| check | at most | what is wrong | source |", "|---|---|---|---|", *rows])


def with_page(readme: str) -> str:
    """The text of README with the page of checks as it is now."""
    before, _, rest = readme.partition(BEGIN)
    return f"{before}{BEGIN}\n{page()}\n{END}{rest.partition(END)[2]}"


if __name__ == "__main__":
    README.write_text(with_page(README.read_text(encoding="utf-8")), encoding="utf-8")
