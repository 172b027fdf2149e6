"""Projects in which nothing fits, and their files with changes written into them, for tests to use."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

EXAMPLES = Path(__file__).parents[2] / "examples"


def written_into(text: str, changes: Sequence[Mapping[str, Any]]) -> str:
    """A project file with `key` and `to` of some changes written into it, by a library of its own.

    Args:
        text: of the file.
        changes: as the document of `fitter fit` gives them.
    """
    yaml = YAML()
    yaml.width = 4000
    document = yaml.load(text)
    for change in changes:
        *way, last = change["key"].split(".")
        here = document
        for step in way:
            here = here[int(step)] if isinstance(here, list) else here.setdefault(step, {})
        here[int(last) if isinstance(here, list) else last] = YAML().load(change["to"])
    out = io.StringIO()
    yaml.dump(document, out)
    return out.getvalue()
