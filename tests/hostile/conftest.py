from collections.abc import Callable

import pytest

from cards import cli

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """A function that runs the command in this process: exit code, stdout, stderr."""

    def go(*words: object) -> tuple[int, str, str]:
        with pytest.raises(SystemExit) as ended:
            cli.main([str(word) for word in words])
        said = capsys.readouterr()
        return int(ended.value.code or 0), said.out, said.err

    return go
