"""Printed in black and photocopied: at 1 bit and 150 dpi the digits can still be read, and lines told apart."""

from __future__ import annotations

import itertools
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from setupsheet.drawing.ink import DASHES_MM, WIDTH_MM, Pen
from tests.papers.real import pages, printed
from tests.plan.planned import DEMOS

DPI = 150
_READ_LEAST = 0.97
"""Share of the large readings that a plain reader must get right; it also trips over rules and pictures."""
_DOT_MM = 25.4 / DPI


def tool(name: str, package: str) -> str:
    """Return a program, or skip with the name of its Debian package."""
    found = shutil.which(name)
    if not found:
        pytest.skip(f"{name} is not installed here: Debian package {package}")
    return found


def photocopies(name: str, folder: Path, last: int = 99) -> list[Path]:
    """Return the pages of a part, from the first setup to page ``last``, as pictures of black and white dots."""
    file = folder / "setups.pdf"
    file.write_bytes(printed(name))
    make = [
        tool("pdftoppm", "poppler-utils"),
        "-r",
        str(DPI),
        "-mono",
        "-f",
        "2",
        "-l",
        str(last),
        str(file),
        str(folder / "page"),
    ]
    subprocess.run(make, check=True)
    return sorted(folder.glob("page*.pbm"))


def read(picture: Path, how: str) -> str:
    """Return what a reader of print sees on a picture."""
    words = [tool("tesseract", "tesseract-ocr"), str(picture), "-", "--dpi", str(DPI), "--psm", how]
    done = subprocess.run(
        words, capture_output=True, check=True, env={"OMP_THREAD_LIMIT": "1", "PATH": "/usr/bin:/bin"}
    )
    return done.stdout.decode()


def test_digits_can_be_read_back(tmp_path: Path) -> None:
    """Nearly every reading of positions, depths and zeros is read back, sign and all."""
    copies = photocopies("worm-bracket", tmp_path)
    seen = "\n".join(read(copy, how) for copy in copies for how in ("6", "11"))
    found = set(re.findall(r"\d+[.,]\d{3}", seen.replace(" ", "")))
    found = {number.replace(",", ".") for number in found}
    wanted = {number for text in readings() for number in re.findall(r"\d+\.\d{3}", text)}
    assert len(wanted) > 60
    missing = sorted(wanted - found)
    assert len(missing) <= (1 - _READ_LEAST) * len(wanted), missing


@pytest.mark.parametrize("name", [name for name in DEMOS if name != "worm-bracket"])
def test_zeros_of_the_first_setup_can_be_read_back(name: str, tmp_path: Path) -> None:
    """On the page of the first setup of every other part, the figures of each zero are read back."""
    (copy,) = photocopies(name, tmp_path, last=2)
    seen = "".join(read(copy, "11").split()).replace(",", ".")
    wanted = {figure for zero in pages(name).plan.setups[0].zero for figure in re.findall(r"\.\d{3}", zero.key_in)}
    assert wanted
    assert sorted(figure for figure in wanted if figure not in seen) == []


def readings() -> set[str]:
    """Return the large readings of the bracket: zeros, depths, places, points."""
    said = set()
    for setup in pages("worm-bracket").plan.setups:
        said |= {zero.key_in for zero in setup.zero}
        for step in setup.steps:
            said |= set(step.z_shown[-1:])
            said |= {at.shown[axis] for at in step.positions for axis in "xy"}
            said |= {text for pair in step.points for text in (pair.shown_step, pair.shown_stop)}
    return said


def test_no_grey_is_needed_to_read_a_line() -> None:
    """Every line is at least one dot wide, and the kinds that mean something differ by dashes or by a dot in width."""
    meaning = (Pen.VISIBLE, Pen.THIN, Pen.PHANTOM, Pen.HIDDEN, Pen.CENTRE)
    assert all(WIDTH_MM[pen] >= _DOT_MM for pen in meaning)
    for a, b in itertools.combinations(meaning, 2):
        apart = abs(WIDTH_MM[a] - WIDTH_MM[b]) >= _DOT_MM - 1e-9
        assert apart or DASHES_MM.get(a) != DASHES_MM.get(b), (a, b)
