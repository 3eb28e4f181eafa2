"""Reading a spec is what an editor asks for at each save: it loads nothing heavy."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]

PROGRAM = """
import sys
from pathlib import Path
from setupsheet.spec.reader import read_part
assert read_part(Path("specs/worm-bracket.yaml"))[0]
print(" ".join(sorted({name.partition(".")[0] for name in sys.modules})))
"""


def test_no_heavy_library() -> None:
    """Neither kernels nor writers nor, for a sound spec, the schema library are loaded."""
    done = subprocess.run([sys.executable, "-c", PROGRAM], cwd=ROOT, capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    heavy = {
        "OCP",
        "weasyprint",
        "manifold3d",
        "shapely",
        "ezdxf",
        "matplotlib",
        "numpy",
        "jinja2",
        "fontTools",
        "jsonschema",
    }
    assert loaded & heavy == set()
