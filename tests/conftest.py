"""Lets tests find the helpers that stand beside other tests: generators, twins and golden cases."""

import sys
from pathlib import Path

for folder in ("crosscheck", "fitter", "fitter/checking", "golden", "rooms"):
    sys.path.append(str(Path(__file__).parent / folder))
