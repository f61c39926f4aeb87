"""The machine a bench runs on, and how it is held to one thread."""

from __future__ import annotations

import os
import platform
from pathlib import Path

import numpy as np

READ_BY_LIBRARIES = (
    "OMP_NUM_THREADS",
    "OPENBLAS_NUM_THREADS",
    "MKL_NUM_THREADS",
    "BLIS_NUM_THREADS",
    "VECLIB_MAXIMUM_THREADS",
    "NUMEXPR_NUM_THREADS",
)
ONE_THREAD = dict.fromkeys(READ_BY_LIBRARIES, "1")
"""Set for the process that measures before it starts: libraries of linear algebra read them when they are loaded."""
CPU_LIST = Path("/proc/cpuinfo")


def described() -> dict[str, str]:
    """What a reader needs to compare figures."""
    pinned = all(os.environ.get(name) == "1" for name in ONE_THREAD)
    return {
        "processor": _processor(),
        "cores": str(os.cpu_count()),
        "load when it began": f"{os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "not known",
        "system": f"{platform.system()} {platform.machine()}",
        "times": "processor time of one process",
        "Python": platform.python_version(),
        "NumPy": np.__version__,
        "threads": "one (OMP_NUM_THREADS and its like set to 1 before NumPy is loaded)" if pinned else "not pinned",
    }


def _processor() -> str:
    if CPU_LIST.is_file():
        for line in CPU_LIST.read_text(encoding="utf-8").splitlines():
            if line.startswith("model name"):
                return line.partition(":")[2].strip()
    return platform.processor() or "not known"
