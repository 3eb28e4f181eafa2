"""The one door to this stage: a spec file in, the checked part and shop and all findings out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from setupsheet.finding import Finding, Findings, Place, Severity, caution, error, has_errors, in_order
from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.spec import shape
from setupsheet.spec.build import Built, Source, build_part, read_unit
from setupsheet.spec.build_mate import Others, read_mates
from setupsheet.spec.build_shop import build_shop
from setupsheet.spec.desk import Desk
from setupsheet.spec.project import Files, project_folder, with_includes
from setupsheet.spec.sense import check_sense
from setupsheet.spec.tree import Mapping, Scalar


def read_part(path: Path) -> tuple[Part | None, Shop | None, Findings]:
    """Read a spec and the shop that it names.

    The part (the shop) is None when it has an error; the findings come errors first. Loads neither
    the CAD kernel nor the PDF library.
    """
    files = Files(project_folder(path))
    read = _read(path, files)
    if read is None:
        return None, None, in_order(files.findings)
    part: Part | None = read.built.part
    if not has_errors(files.findings):
        mates = read_mates(read.desk, read.built.part, read.tree, Others(partial(_other, path, files)))
        defaults, names = tuple(read.desk.defaults), tuple(files.names)
        part = replace(read.built.part, mates=mates, defaults=defaults, files_read=names)
    if has_errors(files.findings):
        part = None
    shop, said = _shop(path, files.folder, read.tree)
    return part, shop, in_order(files.findings + said)


@dataclass(frozen=True, slots=True)
class _Read:
    """A spec as read: its desk, what was built, and its text with all that it includes."""

    desk: Desk
    built: Built
    tree: Mapping


def _read(path: Path, files: Files) -> _Read | None:
    """Read one spec without its mates and its shop; the findings come in ``files``."""
    tree = files.tree(path)
    if tree is None:
        return None
    findings = files.findings
    if "machines" in tree.entries and not {"part", "features", "size"} & set(tree.entries):
        findings.append(_shop_as_spec(path, tree))
        return None
    findings += shape.check(tree, "part")
    whole = with_includes(files, path, tree)
    desk = Desk(read_unit(whole.get("units")), findings, told=_places(findings), misspelt=_misspelt(findings))
    built = build_part(desk, whole, Source(files.name(path), files.hash.hexdigest(), tuple(files.names)))
    check_sense(desk, built, whole)
    _unread(desk, built.whole, whole)
    return _Read(desk, built, whole)


def _other(spec: Path, files: Files, node: Scalar, named: str) -> Part | None:
    """Return the part of another spec that a mate names; its own faults are told by one finding."""
    path = files.neighbour(spec, Scalar(named, node.place))
    if path is None:
        return None
    own = Files(files.folder)
    read = _read(path, own)
    files.names += [name for name in own.names if name not in files.names]
    if read is not None and not has_errors(own.findings):
        return read.built.part
    first = next(finding for finding in own.findings if finding.severity is Severity.ERROR)
    files.findings.append(
        error(
            "mate-not-read",
            f"{named} cannot be read: {first.message}",
            node.place,
            found=named,
            allowed="the spec of the other part, without errors",
            try_=f"setupsheet check {named}",
        )
    )
    return None


def read_shop(path: Path) -> tuple[Shop | None, Findings]:
    """Read a shop file; the shop is None when it has an error."""
    files = Files(project_folder(path))
    return _read_shop(path, files, None)


def _shop(spec: Path, folder: Path, tree: Mapping) -> tuple[Shop | None, Findings]:
    """Read the shop that a spec names."""
    named = tree.get("shop")
    if not isinstance(named, Scalar) or named.empty:
        place = Place(tree.place.file, 1, 1)
        missing = caution(
            "no-shop",
            "no shop: the plan cannot pick from what you own",
            place,
            found="no shop:",
            allowed="shop: shop.yaml",
            try_="add shop: shop.yaml; setupsheet new DIR writes one with remarks",
        )
        return None, [missing]
    files = Files(folder)
    path = files.neighbour(spec, named)
    if path is None:
        return None, files.findings
    return _read_shop(path, files, named.place)


def _read_shop(path: Path, files: Files, asked_at: Place | None) -> tuple[Shop | None, Findings]:
    tree = files.tree(path, asked_at)
    if tree is None:
        return None, files.findings
    files.findings += shape.check(tree, "shop")
    desk = Desk(read_unit(tree.get("units")), files.findings, told=_places(files.findings))
    shop = build_shop(desk, tree, files.hash.hexdigest())
    if not shop.machines and not has_errors(files.findings):
        desk.wrong(
            "no-machine", "the shop has no machine", tree.key_place("machines"), found="none", allowed="at least one"
        )
    return (None if has_errors(files.findings) else shop), files.findings


def _shop_as_spec(path: Path, tree: Mapping) -> Finding:
    """Say once that a shop file was given where a part is wanted."""
    return error(
        "shop-as-spec",
        f"{path.name} describes a shop, not a part",
        tree.key_place("machines"),
        found="machines:",
        allowed="a spec with part:, size: and features:",
        try_=f"give the part's file, which names this one: shop: {path.name}",
    )


def _misspelt(findings: Findings) -> frozenset[str]:
    return frozenset(finding.feature for finding in findings if finding.code == "unknown-key")


def _places(findings: Findings) -> frozenset[Place]:
    return frozenset(finding.place for finding in findings if finding.place)


def _unread(desk: Desk, whole: frozenset[str], tree: Mapping) -> None:
    """Make sure that no feature is lost silently: one that was not read needs an error that says why."""
    features = tree.get("features")
    if not isinstance(features, Mapping) or has_errors(desk.findings):
        return
    for name, entry in features.entries.items():
        if name not in whole:
            desk.findings.append(error("feature-not-read", f"{name} could not be read", entry.key.place, feature=name))
