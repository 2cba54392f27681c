"""What the maths cites stands in the bibliography, and says how it was read."""

import re
from pathlib import Path

import sessions.maths
from sessions.maths.references import BIBLIOGRAPHY


def test_every_key_a_docstring_names_is_in_the_bibliography() -> None:
    named: set[str] = set()
    for module in Path(sessions.maths.__file__).parent.glob("*.py"):
        for keys in re.findall(r"keys?\s+((?:``[a-z0-9-]+``[,\s]*)+)", module.read_text()):
            named.update(re.findall(r"``([a-z0-9-]+)``", keys))
    assert len(named) >= 8
    assert named <= set(BIBLIOGRAPHY)


def test_every_entry_says_where_and_how_it_was_read() -> None:
    for citation in BIBLIOGRAPHY.values():
        assert citation.text
        assert citation.where
        assert citation.how_read in {"first hand", "second hand", "from memory"}
