"""Files of a project: what may be read, what ``include:`` adds.

The project folder is the nearest folder above the spec that holds ``.git``, else the spec's own folder. A
spec names other files by relative paths; none may lead out of the project folder, not through a
symbolic link either, so that a spec from a stranger reads nothing but its own neighbours.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from pathlib import Path

from setupsheet.finding import Findings, Place, error
from setupsheet.spec import shape
from setupsheet.spec.raw_text import MAX_BYTES
from setupsheet.spec.read import read
from setupsheet.spec.tree import Entry, Mapping, Node, Scalar, Sequence

MAX_FILES = 20
SHARED = ("parameters", "patterns", "points", "features")
"""Keys that an included file may add to."""


def project_folder(spec: Path) -> Path:
    """Return the folder that a spec's references have to stay in."""
    folder = spec.resolve().parent
    return next((above for above in (folder, *folder.parents) if (above / ".git").exists()), folder)


def shown_path(path: Path) -> str:
    """Return a path as findings show it: relative to where the program runs, if it lies there."""
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix() if path.is_absolute() else path.as_posix()
    except ValueError:
        return path.as_posix()


@dataclass
class Files:
    """Reads the files of one spec and remembers what was read, in order."""

    folder: Path
    findings: Findings = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    hash: hashlib._Hash = field(default_factory=hashlib.sha256)

    def tree(self, path: Path, asked_at: Place | None = None) -> Mapping | None:
        """Return the tree of a file, None (with a finding) when it cannot be had."""
        shown = shown_path(path)
        try:
            if path.is_dir():
                raise IsADirectoryError("it is a folder")
            if asked_at and path.exists() and not path.is_file():
                raise OSError("it is no ordinary file")
            with path.open("rb") as file:
                raw = file.read(MAX_BYTES + 1)
        except OSError as problem:
            self.findings.append(
                error(
                    "file-not-read",
                    f"{shown} cannot be read: {problem.strerror or problem}",
                    asked_at or Place(shown),
                    found=shown,
                    allowed="a file that is there and may be read",
                    try_=_near_file(path),
                )
            )
            return None
        self.names.append(self.name(path))
        self.hash.update(raw)
        tree, found = read(raw, shown)
        self.findings += found
        return tree

    def name(self, path: Path) -> str:
        """Return a file's path inside the project, the same on every machine."""
        try:
            return path.resolve().relative_to(self.folder).as_posix()
        except ValueError:
            return path.name

    def neighbour(self, spec: Path, node: Scalar) -> Path | None:
        """Return the file that a spec names, None (with a finding) when it leads out of the project."""
        named = node.text.strip()
        if not named or not named.isprintable() or Path(named).is_absolute() or "\\" in named or ":" in named:
            self._outside(node, "a relative path inside the project folder, with / between folders")
            return None
        path = spec.parent / named
        if not path.resolve().is_relative_to(self.folder):
            self._outside(node, "a file inside the project folder")
            return None
        return path

    def _outside(self, node: Scalar, allowed: str) -> None:
        self.findings.append(
            error(
                "path-outside-project",
                f"{node.text} does not lie inside the project folder",
                node.place,
                found=node.text,
                allowed=allowed,
                try_="copy the file beside the spec",
            )
        )


def _near_file(path: Path) -> str:
    """Return a hint at the file of the same folder whose name is spelled most like the one asked for."""
    try:
        names = sorted(entry.name for entry in path.parent.iterdir() if entry.suffix in (".yaml", ".yml"))
    except OSError:
        return "look at the folder's name"
    near = shape.nearest(path.name, names)
    return f"did you mean {near}?" if near else "look at the name"


def with_includes(files: Files, spec: Path, tree: Mapping) -> Mapping:
    """Return a spec's tree with what its included files add; a name that both define is a finding."""
    entries = dict(tree.entries)
    _include(files, spec, tree, entries, [spec.resolve()])
    return Mapping(tree.place, entries, tree.weight, tree.depth)


def _include(files: Files, spec: Path, tree: Mapping, entries: dict[str, Entry], chain: list[Path]) -> None:
    for node in _listed(tree.get("include")):
        path = files.neighbour(spec, node)
        if path is None:
            continue
        real = path.resolve()
        if real in chain:
            circle = " -> ".join(step.name for step in (*chain[chain.index(real) :], real))
            files.findings.append(
                error("include-circle", f"{circle}: each includes the other", node.place, found=circle)
            )
            continue
        if files.name(path) in files.names:
            continue
        if len(files.names) >= MAX_FILES:
            files.findings.append(error("too-many-files", f"more than {MAX_FILES} files", node.place, found=node.text))
            return
        added = files.tree(path, node.place)
        if added is None:
            continue
        files.findings += shape.check(added, "part", "shared")
        _same_unit(files, tree, added)
        _add(files, added, entries)
        _include(files, path, added, entries, [*chain, real])


def _listed(node: Node | None) -> list[Scalar]:
    items = node.items if isinstance(node, Sequence) else (node,)
    return [item for item in items if isinstance(item, Scalar) and not item.empty]


def _same_unit(files: Files, tree: Mapping, added: Mapping) -> None:
    """Say so when two files count in different units: their bare numbers would mix."""
    mine, other = tree.get("units"), added.get("units")
    if isinstance(mine, Scalar) and isinstance(other, Scalar) and mine.text != other.text:
        files.findings.append(
            error(
                "units-differ",
                f"this file counts in {other.text}, the one that includes it in {mine.text}",
                other.place,
                found=other.text,
                allowed=mine.text,
                try_=f"write units: {mine.text} and give other lengths their unit (3/8 in)",
            )
        )


def _add(files: Files, added: Mapping, entries: dict[str, Entry]) -> None:
    for key in SHARED:
        new = added.get(key)
        if not isinstance(new, Mapping):
            continue
        old = entries[key].value if key in entries else Mapping(new.place)
        if not isinstance(old, Mapping):
            continue
        for name, entry in new.entries.items():
            if name in old.entries:
                there = old.entries[name].key.place
                files.findings.append(
                    error(
                        "included-twice",
                        f"'{name}' stands here and in {there}",
                        entry.key.place,
                        found=name,
                        allowed="each name once over all files",
                        try_="delete one of the two, so that both parts agree",
                    )
                )
        merged = {**new.entries, **old.entries}
        entries[key] = Entry(entries[key].key if key in entries else added.entries[key].key, Mapping(old.place, merged))
