"""YAML text -> a tree that knows line and column. The only place that knows YAML.

Everything stays text: YAML's own guesses (``no`` is false, ``6:1`` is 361, ``010`` is 8) never happen.
What YAML lets through silently is a finding here: a key that stands twice, a value that became a comment,
an expression that was split at its comma, tags, more than one document. The limits keep a hostile
file from taking the machine's memory or time.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from setupsheet.finding import Findings, Place, error
from setupsheet.spec.raw_text import decoded, printable
from setupsheet.spec.tree import Entry, Mapping, Node, Scalar, Sequence, depth, weight

MAX_DEPTH = 32
MAX_NODES = 100_000
MAX_UNFOLDED = 200_000

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_COMMA = re.compile(r"[0-9]+(?:\.[0-9]+)?\s*(?:mm|in)?")
"""What stands behind a decimal comma: YAML takes it for a key without a value."""
_TOO_DEEP = "nested more than {} deep"


class _GivenUpError(Exception):
    """Reading stops here; the finding has been written down."""


def read(raw: bytes, file: str) -> tuple[Mapping | None, Findings]:
    """Read one file's bytes; ``file`` is the name that places carry. None when it is no mapping."""
    findings: Findings = []
    text = decoded(raw, file, findings)
    if text is None:
        return None, findings
    reader = _Reader(file, text.split("\n"), findings)
    try:
        root = reader.document(_events(text))
    except yaml.MarkedYAMLError as problem:
        findings.append(_syntax(problem, reader))
        return None, findings
    except _GivenUpError:
        return None, findings
    if isinstance(root, Mapping):
        return root, findings
    what = "nothing" if root is None else "a list" if isinstance(root, Sequence) else "a single text"
    findings.append(
        error(
            "not-a-spec",
            f"{what} stands in the file; it has to hold keys such as 'format: 1'",
            Place(file, 1, 1),
            found=what,
            allowed="keys with values",
            try_="setupsheet new DIR writes a part that builds; start from its spec",
        )
    )
    return None, findings


def _events(text: str) -> Iterator[Any]:
    yield from yaml.parse(text, Loader=_LOADER)


@dataclass
class _Reader:
    """Builds the tree from YAML's events; one object a file."""

    file: str
    lines: list[str]
    findings: Findings
    anchors: dict[str, Node] = field(default_factory=dict)
    open_anchors: set[str] = field(default_factory=set)
    count: int = 0

    def document(self, events: Iterator[Any]) -> Node | None:
        """Return the one document of the stream."""
        root: Node | None = None
        seen = False
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if seen:
                    self._say("two-documents", "a second document starts here", self._place(event), "one part a file")
                    break
                seen = True
            elif isinstance(event, yaml.NodeEvent):
                root = self._node(event, events, 0)
        if isinstance(root, Scalar) and root.empty:
            return None
        return root

    def _place(self, event: Any) -> Place:
        mark = event.start_mark
        return Place(self.file, mark.line + 1, mark.column + 1)

    def _say(self, code: str, message: str, place: Place, try_: str, *, give_up: bool = False) -> None:
        self.findings.append(error(code, message, place, try_=try_))
        if give_up:
            raise _GivenUpError

    def _node(self, event: Any, events: Iterator[Any], level: int) -> Node:
        """Return the node that starts with ``event``."""
        place = self._place(event)
        self.count += 1
        if self.count > MAX_NODES:
            self._say("too-many-values", f"more than {MAX_NODES} values", place, "use a pattern", give_up=True)
        if level > MAX_DEPTH:
            self._say("too-deep", _TOO_DEEP.format(MAX_DEPTH), place, "write it flatter", give_up=True)
        if isinstance(event, yaml.AliasEvent):
            return self._alias(str(event.anchor), place)
        if event.tag is not None:
            self._say("tag", f"{event.tag!r}: a spec has no tags", place, "leave out the word that starts with !")
        if event.anchor:
            self.open_anchors.add(event.anchor)
        node = self._body(event, events, place, level)
        if event.anchor:
            self.open_anchors.discard(event.anchor)
            self.anchors[event.anchor] = node
        return node

    def _body(self, event: Any, events: Iterator[Any], place: Place, level: int) -> Node:
        if isinstance(event, yaml.ScalarEvent):
            self._visible(event.value, place)
            return Scalar(event.value, place, event.style in (None, ""))
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(events, place, level)
        return self._mapping(events, place, level, flow=bool(event.flow_style))

    def _visible(self, text: str, place: Place) -> None:
        """Refuse what an escape in quotes has put into a text and no paper can show."""
        hidden = next((sign for sign in text if sign != "\n" and not printable(sign)), "")
        if hidden:
            shown = f"U+{ord(hidden):04X}"
            self.findings.append(
                error(
                    "control-character",
                    f"an invisible character ({shown}) is written into this text",
                    place,
                    found=shown,
                    allowed="printable text",
                    try_="take out the escape that starts with a backslash",
                )
            )

    def _alias(self, name: str, place: Place) -> Node:
        if name in self.open_anchors:
            self._say("alias-cycle", f"*{name} stands inside of &{name}", place, "write the value out", give_up=True)
        if name not in self.anchors:
            self._say(
                "unknown-alias",
                f"*{name} has no &{name} before it",
                place,
                "write the value out, or quote a text that starts with *",
                give_up=True,
            )
        return self.anchors[name]

    def _bounded(self, node: Mapping | Sequence) -> None:
        if node.weight > MAX_UNFOLDED:
            self._say(
                "aliases-unfold",
                f"aliases unfold to more than {MAX_UNFOLDED} values",
                node.place,
                "write fewer aliases of aliases",
                give_up=True,
            )
        if node.depth > MAX_DEPTH:
            self._say("too-deep", _TOO_DEEP.format(MAX_DEPTH), node.place, "write it flatter", give_up=True)

    def _sequence(self, events: Iterator[Any], place: Place, level: int) -> Sequence:
        items: list[Node] = []
        split = _Split(self)
        for event in events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            item = self._node(event, events, level + 1)
            if split.swallows(item):
                continue
            self._empty_item(item)
            items.append(item)
        node = Sequence(place, tuple(items), 1 + sum(map(weight, items)), 1 + max(map(depth, items), default=0))
        self._bounded(node)
        return node

    def _mapping(self, events: Iterator[Any], place: Place, level: int, *, flow: bool) -> Mapping:
        entries: dict[str, Entry] = {}
        merged: list[Node] = []
        split = _Split(self)
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            key = self._node(event, events, level + 1)
            value = self._node(next(events), events, level + 1)
            if flow and split.swallows(key):
                continue
            if flow and split.swallows(value) and isinstance(key, Scalar):
                entries.setdefault(key.text, Entry(key, Scalar("", value.place)))
                continue
            self._enter(key, value, entries, merged)
        for source in merged:
            self._merge(source, entries)
        values = [entry.value for entry in entries.values()]
        node = Mapping(
            place, entries, 1 + len(values) + sum(map(weight, values)), 1 + max(map(depth, values), default=0)
        )
        self._bounded(node)
        return node

    def _enter(self, key: Node, value: Node, entries: dict[str, Entry], merged: list[Node]) -> None:
        """Put one key and value into ``entries``, or say what is wrong with it."""
        if not isinstance(key, Scalar):
            self._say("key-not-text", "a key has to be a word", key.place, "write key: value")
            return
        if key.plain and key.text == "<<":
            merged.append(value)
            return
        if key.text in entries:
            first = entries[key.text].key.place
            self.findings.append(
                error(
                    "key-twice",
                    f"'{key.text}' stands twice: line {first.line} and line {key.place.line}",
                    key.place,
                    found=f"'{key.text}' again",
                    allowed="each key once",
                    try_=f"delete one of the two, or rename it (first: {first})",
                )
            )
            return
        entries[key.text] = Entry(key, value)
        if isinstance(value, Scalar) and value.empty:
            self._empty(f"'{key.text}'", key)

    def _merge(self, source: Node, entries: dict[str, Entry]) -> None:
        """Add the keys of a merge (``<<: *other``); a key of the mapping itself wins."""
        parts = source.items if isinstance(source, Sequence) else (source,)
        for part in parts:
            if not isinstance(part, Mapping):
                self._say("merge", "<<: takes keys from another mapping", source.place, "write <<: *name")
                continue
            for name, entry in part.entries.items():
                entries.setdefault(name, entry)

    def _empty_item(self, item: Node) -> None:
        if isinstance(item, Scalar) and item.empty:
            self._empty("an entry of the list", item)

    def _empty(self, what: str, mark: Scalar) -> None:
        """Say that a value is missing, and why when YAML took it for a comment."""
        line = self.lines[mark.place.line - 1] if mark.place.line <= len(self.lines) else ""
        rest = line[mark.place.column - 1 + len(mark.text) :].lstrip("'\" :-")
        shown = line.strip()
        if rest.startswith("#") and len(rest) > 1 and rest[1] != " ":
            word = rest.split()[0]
            self.findings.append(
                error(
                    "value-is-comment",
                    f"{what} is empty: YAML takes '{word}' for a comment",
                    mark.place,
                    found=shown,
                    allowed="a value",
                    try_=f'write no. {word[1:]}, or put it in quotes: "{word}"',
                )
            )
            return
        if _COMMA.fullmatch(mark.text) and line[: mark.place.column - 1].rstrip().endswith(","):
            self._comma(line[: mark.place.column - 1], mark)
            return
        self.findings.append(
            error(
                "value-missing",
                f"{what} is empty",
                mark.place,
                found=shown,
                allowed="a value",
                try_="write a value behind it, or delete the line",
            )
        )

    def _comma(self, before: str, mark: Scalar) -> None:
        """Say that a number was cut at its decimal comma."""
        whole = before.rstrip(" ,").split()[-1]
        meant = f"{whole}{mark.text}" if "." in mark.text else f"{whole}.{mark.text}"
        self.findings.append(
            error(
                "decimal-comma",
                f"'{whole},{mark.text}' was cut at the comma",
                mark.place,
                found=f"{whole},{mark.text}",
                allowed="a decimal point",
                try_=f"write {meant}",
                because="inside { } and [ ] a comma ends the value",
            )
        )


@dataclass
class _Split:
    """Watches for an expression that was cut at its comma: ``{radius: =max(a, b)}``."""

    reader: _Reader
    missing: int = 0

    def swallows(self, node: Node) -> bool:
        """Tell whether this node is a piece of a split expression, and say so at its first piece."""
        if not isinstance(node, Scalar) or not node.plain:
            return False
        if self.missing > 0:
            self.missing -= node.text.count(")") - node.text.count("(")
            return True
        missing = node.text.count("(") - node.text.count(")")
        if not node.text.startswith("=") or missing <= 0:
            return False
        self.missing = missing
        self.reader.findings.append(
            error(
                "expression-split",
                f"'{node.text}' was cut at the comma",
                node.place,
                found=node.text,
                allowed="the whole expression",
                try_='put it in quotes: "=max(a, b)", or give the key its own line',
                because="inside { } and [ ] a comma ends the value",
            )
        )
        return True


def _syntax(problem: yaml.MarkedYAMLError, reader: _Reader) -> Any:
    """Return YAML's own complaint as a finding."""
    opened = "end of stream" in (problem.problem or "") and "quoted" in (problem.context or "")
    mark = (problem.context_mark if opened else None) or problem.problem_mark or problem.context_mark
    place = Place(reader.file, mark.line + 1, mark.column + 1) if mark else Place(reader.file)
    line = reader.lines[place.line - 1].strip() if 0 < place.line <= len(reader.lines) else ""
    said = (problem.problem or "it cannot be read").replace("\n", " ")
    return error(
        "not-yaml",
        f"the file cannot be read from here on: {said}",
        place,
        found=line[:60],
        allowed="YAML: key: value, two spaces further in for what belongs to it",
        try_="close the quote that opens here"
        if opened
        else _repair(said, reader.lines[: place.line], _comments(reader.lines[: place.line])),
    )


def _comments(lines: list[str]) -> str:
    """Return the word that became a comment inside of an open bracket, looking upwards from the last line; else ''."""
    written = [line for line in lines if line.strip()][-2:]
    for line in reversed(written):
        before, sign, after = line.partition(" #")
        if sign and after[:1].strip() and before.count("{") + before.count("[") > before.count("}") + before.count("]"):
            return f"#{re.split(r'[ ,}]', after, maxsplit=1)[0]}"
    return ""


def _further_in(lines: list[str]) -> str:
    """Say that the last line stands further in than the one above, which has its value already; else ''."""
    written = [line for line in lines if line.strip() and not line.lstrip().startswith("#")][-2:]
    if len(written) < 2 or ": " not in written[0]:
        return ""
    above, here = (len(line) - len(line.lstrip(" ")) for line in written)
    return f"begin both lines under each other: this one stands {here - above} further in" if here > above else ""


def _repair(said: str, lines: list[str], comment: str) -> str:
    """Return what to do about YAML's complaint in the last of the lines."""
    line = lines[-1].strip() if lines else ""
    if comment:
        return f'put it in quotes: "{comment}"; a # behind a blank starts a comment'
    if "mapping values are not allowed" in said and (further := _further_in(lines)):
        return further
    if "mapping values are not allowed" in said:
        return "a text with ': ' in it needs quotes around it"
    if "cannot start any token" in said or "alias" in said:
        return "put the text in quotes"
    if line.count("[") != line.count("]") or line.count("{") != line.count("}"):
        return "close the bracket"
    return "look at the line above: a quote, a bracket or an indent is not right"
