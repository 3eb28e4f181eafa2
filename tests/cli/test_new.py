"""``new`` starts a part that is sound."""

from __future__ import annotations

from pathlib import Path

from setupsheet.finding import Severity
from setupsheet.flow import check, check_text
from tests.cli.runs import run


def test_new_part_has_no_error(tmp_path: Path) -> None:
    """The spec reads without an error; only the title block is left to fill in."""
    result = run("new", str(tmp_path / "plate"))
    assert result.exit_code == 0
    assert {finding.code for finding in check_text(tmp_path / "plate" / "part.yaml")} == {"title-block-blank"}


def test_editors_find_the_schemas_beside_the_files(tmp_path: Path) -> None:
    """The first line of each file names a schema that is there, by a relative path."""
    run("new", str(tmp_path))
    for name in ("part", "shop"):
        first = (tmp_path / f"{name}.yaml").read_text(encoding="utf-8").splitlines()[0]
        schema = first.partition("$schema=")[2]
        assert (tmp_path / schema).is_file()


def test_folder_with_something_in_it_is_refused(tmp_path: Path) -> None:
    """Nothing of the author's is overwritten."""
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    result = run("new", str(tmp_path))
    assert result.exit_code == 2
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    """A file in the way gives a plain sentence."""
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = run("new", str(tmp_path / "file" / "plate"))
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr


def test_new_part_has_no_open_caution(tmp_path: Path) -> None:
    """Planned and proved, all that is left is accepted in the spec, with its reason."""
    run("new", str(tmp_path / "plate"))
    found = check(tmp_path / "plate" / "part.yaml").findings
    assert {finding.severity for finding in found} == {Severity.NOTE}
    assert any("(accepted: " in finding.message for finding in found)


def test_next_command_can_be_copied(tmp_path: Path) -> None:
    """A folder with a blank in its name stands in quotes in the line that says what to type next."""
    result = run("new", str(tmp_path / "tool rest"))
    assert f"build '{tmp_path.as_posix()}/tool rest/part.yaml'" in result.stderr
