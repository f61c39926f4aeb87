"""`python -m app.bench SIZES NAME…`: what `proofbay bench` starts, held to one thread."""

from __future__ import annotations

import json
import sys

from app.bench.run import here
from app.bench.sizes import Sizes

if __name__ == "__main__":
    sys.exit(here(sys.argv[2:], Sizes(**json.loads(sys.argv[1])), print))
