"""Write a build's folder whole or not at all.

The files go into a folder beside the target; then the old folder is renamed away, the new one renamed
in, and the old one deleted. A run that was killed in between leaves one of three traces, which
``put_right`` clears up at the next run: ``.<name>.new`` alone (half written), ``.<name>.old`` without the
target (the old papers were on their way out) or ``.<name>.old`` beside the target (the new papers are in).
The output folder is locked while that goes on, so that two runs do not clear each other up.
"""

from __future__ import annotations

import errno
import fcntl
import hashlib
import json
import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from setupsheet import __version__

RECORD = "written.json"
_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EROFS)


class NotWritten(Exception):  # noqa: N818 - it says what is the case
    """The folder could not be written; the old one is as it was. ``impossible``: no room, or a medium to read only."""

    def __init__(self, message: str, *, impossible: bool = False) -> None:
        super().__init__(message)
        self.impossible = impossible


@dataclass(frozen=True, slots=True)
class Papers:
    """What one spec gave: the folder's name, each file's bytes by its name in the folder, the spec's SHA-256."""

    folder: str
    files: Mapping[str, bytes]
    spec_sha256: str


def refuse_unwritable(out: Path) -> None:
    """Raise NotWritten before a long run when it is plain that nothing can be written to ``out``."""
    there = next(folder for folder in (out, *out.absolute().parents) if folder.exists())
    if not there.is_dir():
        raise NotWritten(f"{out} cannot be written: {there} is no folder")
    if not os.access(there, os.W_OK | os.X_OK):
        raise NotWritten(f"{out} cannot be written: you have no right to write to {there}")


def write(out: Path, papers: Papers) -> list[Path]:
    """Put the papers in ``out`` in the place of any older ones; return the files, sorted. Raises NotWritten."""
    target = out / papers.folder
    files = {**papers.files, RECORD: record(papers)}
    try:
        out.mkdir(parents=True, exist_ok=True)
        with _locked(out):
            put_right(target)
            _refuse_foreign(target)
            _fill(_new(target), files)
            _swap(target)
    except OSError as problem:
        reason = problem.strerror or str(problem)
        raise NotWritten(f"{target} cannot be written: {reason}", impossible=problem.errno in _FULL) from problem
    return [target / name for name in sorted(files)]


def record(papers: Papers) -> bytes:
    """Return written.json: the program's version, the spec's hash, every other file with its SHA-256."""
    content = {
        "program": "setupsheet",
        "version": __version__,
        "spec_sha256": papers.spec_sha256,
        "files": {name: hashlib.sha256(papers.files[name]).hexdigest() for name in sorted(papers.files)},
    }
    return (json.dumps(content, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def put_right(target: Path) -> None:
    """Clear up what a killed run left beside the target: bring old papers back, delete what is half done."""
    old, new = _old(target), _new(target)
    if new.is_dir():
        _delete(new)
    if old.is_dir():
        if target.exists():
            _delete(old)
        else:
            old.rename(target)


def _new(target: Path) -> Path:
    return target.with_name(f".{target.name}.new")


def _old(target: Path) -> Path:
    return target.with_name(f".{target.name}.old")


@contextmanager
def _locked(out: Path) -> Iterator[None]:
    """Hold the folder's lock; the system lets go of it when the program ends, however it ends."""
    handle = os.open(out, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _refuse_foreign(target: Path) -> None:
    """Raise NotWritten when what stands there is not ours: it would be deleted."""
    if not target.exists() or (target / RECORD).is_file():
        return
    if target.is_dir() and not any(target.iterdir()):
        return
    raise NotWritten(f"{target} is there and was not written by this program; move it away, or give another --out")


def _fill(new: Path, files: Mapping[str, bytes]) -> None:
    """Write all files; leave nothing when one of them cannot be written."""
    new.mkdir()
    try:
        for name in sorted(files):
            path = new / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(files[name])
    except BaseException:
        _delete(new)
        raise


def _swap(target: Path) -> None:
    """Rename the old folder away, the new one in, then delete the old one; put the old one back on trouble."""
    old, new = _old(target), _new(target)
    replaces = target.exists()
    if replaces:
        target.rename(old)
    try:
        new.rename(target)
    except OSError:
        if replaces:
            old.rename(target)
        _delete(new)
        raise
    if replaces:
        _delete(old)


def _delete(path: Path) -> None:
    if path.is_symlink() or not path.is_dir():
        path.unlink()
    else:
        shutil.rmtree(path)
