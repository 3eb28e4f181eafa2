"""How long a build takes against the least that it could. Run: python -m tests.benchmarks.bench_build [pairs].

The floor is one process that imports every outside library that the program imports and writes both
finished documents (setup pages, drawing) to PDF, and nothing else.
"""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

from tests import house
from tests.benchmarks.timing import against, run

SPEC = "specs/worm-bracket.yaml"
AIM = 1.8

CAPTURE = """
import sys
from pathlib import Path

from setupsheet import flow
from setupsheet.papers import pdf

folder, spec = Path(sys.argv[1]), Path(sys.argv[2])
write = pdf._write


def keep(html):
    count = len(list(folder.glob("*.html")))
    (folder / f"{count}.html").write_text(html, encoding="utf-8")
    return write(html)


pdf._write = keep
assert flow.build(spec, lambda *_words: None).files
"""

FLOOR = """
import importlib
import json
import sys
from pathlib import Path

folder = Path(sys.argv[1])
for name in json.loads((folder / "libraries.json").read_text(encoding="utf-8")):
    importlib.import_module(name)

from weasyprint import HTML

for path in sorted(folder.glob("*.html")):
    HTML(string=path.read_text(encoding="utf-8")).render().write_pdf()
"""


def libraries() -> list[str]:
    """Return the outside modules that the package imports on the way of a build, sorted."""
    names = set()
    for module, tree in house.modules().items():
        for full, _line in house.imported(tree):
            top = full.split(".")[0]
            if top not in sys.stdlib_module_names and top not in ("setupsheet", "rich") and "chart" not in module:
                names.add(full.rpartition(".")[0] or full)
    return sorted(names)


def bench(pairs: int) -> None:
    """Capture the finished documents, then compare."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "libraries.json").write_text(json.dumps(libraries()), encoding="utf-8")
        run(("-c", CAPTURE, name, SPEC))
        assert len(list(folder.glob("*.html"))) == 2, "a build writes two documents"
        command = ("-m", "setupsheet", "build", SPEC, "--out", str(folder / "out"))
        against("build of the bracket", command, ("-c", FLOOR, name), AIM, pairs)


if __name__ == "__main__":
    bench(int(sys.argv[1]) if len(sys.argv) > 1 else 7)
