import re
from string import Formatter

import pytest

from cards.words import WORDS, Words


@pytest.mark.parametrize("key", WORDS)
def test_both_languages_fill_in_the_same_things(key):
    english, spanish = WORDS[key]
    assert fields(english) == fields(spanish)
    assert english.strip()
    assert spanish.strip()


def fields(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("wrong", ["esta en", "perimetro", "mas de", "pregunte esta", "numero", "renglon", "pagina", "junta-"])
def test_spanish_is_set_with_its_accents(wrong):
    assert not [text for _, text in WORDS.values() if re.search(rf"\b{wrong}\b", text.lower())]


@pytest.mark.parametrize(
    ("language", "iso", "date", "source"),
    [
        ("en", "2026-05-12", "12 May 2026", "no month that can be taken for a day"),
        ("es", "2026-01-02", "2 ene 2026", "no month that can be taken for a day"),
        ("en", "MAY 12", "MAY 12", "words that are no date stay"),
        ("en", "2026-13-01", "2026-13-01", "there is no 13th month"),
    ],
)
def test_dates(language, iso, date, source):
    assert Words(language).date(iso) == date


def test_no_advice_and_no_approval_in_any_words():
    said = " ".join(text for pair in WORDS.values() for text in pair).lower()
    assert not re.search(r"\b(passes|approved for|assume|typ\.|substitute)\b", said)
