"""Lets the laws draw their random projects from the cross-checks' generator."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parent.parent / "crosscheck"))
