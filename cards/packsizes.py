"""The buyer's own pack sizes, ``packs.toml``: nothing is built in, because strips, coils and boxes differ by nail and maker."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from extractor import files
from extractor.errors import UsageError

NAME = "packs.toml"
TEMPLATE = "packs-to-fill.toml"
FORMAT = "nailcard.packs/1"
SIZES = ("strip", "coil", "box", "per_pound")


@dataclass(frozen=True)
class Packs:
    """Nails to a strip, coil, box or pound, by the nail's name; ``allowance`` is what is added to counts, in percent."""

    allowance: float = 0.0
    nails: Mapping[str, Mapping[str, float]] = field(default_factory=dict)

    @property
    def given(self) -> bool:
        """Whether the buyer gave anything."""
        return bool(self.allowance or any(self.nails.values()))

    def of(self, nail: str) -> Mapping[str, float]:
        """The sizes of a nail; nothing where the buyer gave none."""
        return self.nails.get(key(nail), {})


def key(nail: str) -> str:
    """A nail's name as it is compared: without its spaces, case and inch marks."""
    return "".join(nail.casefold().replace('"', "").replace("×", "x").split())


def load(path: Path) -> Packs:
    """The sizes in ``packs.toml``; a UsageError says what is not understood."""
    try:
        found = files.toml(path)
    except OSError as error:
        raise _bad(f"The pack sizes cannot be read: {error.strerror}.", path) from error
    except ValueError as error:
        raise _bad(f"This is not TOML: {error}.", path) from None
    if found.get("format") != FORMAT:
        raise _bad(f"Its format is not {FORMAT}.", path)
    if extra := set(found) - {"format", "allowance_percent", "nail"}:
        raise _bad(f"There is no setting {', '.join(sorted(extra))}.", path)
    nails = found.get("nail", [])
    if not isinstance(nails, list) or not all(isinstance(one, dict) for one in nails):
        raise _bad("Each nail is a [[nail]] of its own.", path)
    names = [key(str(one.get("name", ""))) for one in nails]
    if "" in names or len(set(names)) < len(names):
        raise _bad("A [[nail]] has no name, or two have the same.", path)
    percent = _number(found.get("allowance_percent", 0), "allowance_percent", path, least=0, most=100)
    return Packs(percent, {name: _sizes(one, path) for name, one in zip(names, nails, strict=True)})


def _sizes(one: dict[str, object], path: Path) -> dict[str, float]:
    if extra := set(one) - {"name", *SIZES}:
        raise _bad(f"A nail has no {', '.join(sorted(extra))}.", path)
    sizes = {name: _number(one[name], name, path, least=1, most=100_000) for name in SIZES if name in one}
    for name, size in sizes.items():
        if name != "per_pound" and size != int(size):
            raise _bad(f"A {name} holds a whole number of nails.", path)
    return sizes


def _number(value: object, name: str, path: Path, *, least: float, most: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not least <= value <= most:
        raise _bad(f"{name} is not a number from {least:g} to {most:g}.", path)
    return float(value)


def template(nails: Iterable[str]) -> str:
    """A ``packs.toml`` to fill in, with the nails of the job."""
    lines = ["# Your own pack sizes, from the labels of what you buy. Take away the # before a line and put in the number.",
             f"# Save it as {NAME} beside the job, or name it: nailcard order PLANS --packs {NAME} --out DIR",
             f'format = "{FORMAT}"', "# allowance_percent =    what you add to counts of nails"]  # fmt: skip
    for nail in nails:
        name = "".join(c if c.isprintable() else " " for c in nail).replace("\\", "\\\\").replace('"', '\\"')
        lines += ["", "[[nail]]", f'name = "{name}"', *(f"# {size} =" for size in SIZES)]
    return "\n".join(lines) + "\n"


def _bad(what: str, path: Path) -> UsageError:
    return UsageError(what, where=str(path), do=f"Put that right, or start again from {TEMPLATE}.")
