"""A build's folder is written whole or not at all, and a killed run is put right by the next."""

from __future__ import annotations

import errno
import hashlib
import json
from pathlib import Path

import pytest

from setupsheet.cli import written
from setupsheet.cli.written import NotWritten, Papers

OLD = Papers("P-1-A", {"plan.json": b"old", "views/top.dxf": b"old view"}, "0" * 64)
NEW = Papers("P-1-A", {"plan.json": b"new", "part.step": b"new solid"}, "1" * 64)


def _content(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def _plain(papers: Papers) -> dict[str, bytes]:
    return {**papers.files, "written.json": written.record(papers)}


def test_new_papers_take_the_place_of_the_old_ones(tmp_path: Path) -> None:
    """After a second build nothing of the first is left, and nothing else lies in the output folder."""
    written.write(tmp_path, OLD)
    paths = written.write(tmp_path, NEW)
    assert _content(tmp_path / "P-1-A") == _plain(NEW)
    assert paths == [tmp_path / "P-1-A" / name for name in ("part.step", "plan.json", "written.json")]
    assert [entry.name for entry in tmp_path.iterdir()] == ["P-1-A"]


def test_record_tells_the_truth(tmp_path: Path) -> None:
    """written.json holds the SHA-256 of every other file and that of the spec."""
    written.write(tmp_path, NEW)
    record = json.loads((tmp_path / "P-1-A" / "written.json").read_text(encoding="utf-8"))
    assert record["files"] == {name: hashlib.sha256(data).hexdigest() for name, data in NEW.files.items()}
    assert record["spec_sha256"] == NEW.spec_sha256


@pytest.mark.parametrize("killed_after", ["filling", "old away", "new in"])
def test_killed_run_is_put_right_by_the_next(tmp_path: Path, killed_after: str) -> None:
    """Whatever a killed run left, the next one ends with its own papers alone."""
    written.write(tmp_path, OLD)
    target = tmp_path / "P-1-A"
    (tmp_path / ".P-1-A.new").mkdir()
    (tmp_path / ".P-1-A.new" / "half").write_bytes(b"x")
    if killed_after != "filling":
        target.rename(tmp_path / ".P-1-A.old")
    if killed_after == "new in":
        (tmp_path / ".P-1-A.new").rename(target)
        (target / "written.json").write_bytes(b"{}")
    written.write(tmp_path, NEW)
    assert _content(target) == _plain(NEW)
    assert [entry.name for entry in tmp_path.iterdir()] == ["P-1-A"]


def test_old_papers_on_their_way_out_come_back(tmp_path: Path) -> None:
    """A run killed between the two renames leaves no folder; putting right brings the old papers back."""
    written.write(tmp_path, OLD)
    (tmp_path / "P-1-A").rename(tmp_path / ".P-1-A.old")
    written.put_right(tmp_path / "P-1-A")
    assert _content(tmp_path / "P-1-A") == _plain(OLD)


@pytest.mark.parametrize(("number", "impossible"), [(errno.ENOSPC, True), (errno.EACCES, False)])
def test_disk_that_gives_out_leaves_the_old_papers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, impossible: bool
) -> None:
    """When a file cannot be written, the old papers stay whole and nothing half done lies about."""
    written.write(tmp_path, OLD)
    write_bytes = Path.write_bytes

    def gives_out(path: Path, data: bytes) -> int:
        if path.name == "plan.json":
            raise OSError(number, "it is so")
        return write_bytes(path, data)

    monkeypatch.setattr(Path, "write_bytes", gives_out)
    with pytest.raises(NotWritten, match="it is so") as caught:
        written.write(tmp_path, NEW)
    assert caught.value.impossible is impossible
    assert _content(tmp_path / "P-1-A") == _plain(OLD)
    assert [entry.name for entry in tmp_path.iterdir()] == ["P-1-A"]


def test_rename_that_fails_brings_the_old_papers_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the new folder cannot be renamed in, the old one is put back."""
    written.write(tmp_path, OLD)
    rename = Path.rename

    def fails(path: Path, target: Path) -> Path:
        if path.name == ".P-1-A.new":
            raise OSError(errno.EIO, "the disk is broken")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", fails)
    with pytest.raises(NotWritten):
        written.write(tmp_path, NEW)
    assert _content(tmp_path / "P-1-A") == _plain(OLD)


def test_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    """A folder that this program did not write is never deleted."""
    (tmp_path / "P-1-A").mkdir()
    (tmp_path / "P-1-A" / "notes.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(NotWritten, match="not written by this program"):
        written.write(tmp_path, NEW)
    assert _content(tmp_path / "P-1-A") == {"notes.txt": b"mine"}


def test_files_with_like_names_are_left_alone(tmp_path: Path) -> None:
    """Only the traces of this very folder are cleared up."""
    (tmp_path / ".profile.old").write_text("mine", encoding="utf-8")
    (tmp_path / ".other.new").mkdir()
    written.write(tmp_path, NEW)
    assert {entry.name for entry in tmp_path.iterdir()} == {"P-1-A", ".profile.old", ".other.new"}


def test_file_in_the_way_is_told(tmp_path: Path) -> None:
    """An output folder that is a file gives a plain sentence."""
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    with pytest.raises(NotWritten, match="cannot be written"):
        written.write(tmp_path / "out", NEW)


def test_folder_without_the_right_to_write_is_told_before_the_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The nearest folder that is there decides, and nothing is made by asking."""
    written.refuse_unwritable(tmp_path / "new" / "deeper")
    assert list(tmp_path.iterdir()) == []
    monkeypatch.setattr("os.access", lambda _path, _mode: False)
    with pytest.raises(NotWritten, match="no right"):
        written.refuse_unwritable(tmp_path / "new" / "deeper")
