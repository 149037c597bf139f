"""Read the front matter: TOML between `+++` lines, its values and where they stand.

`tomllib` gives the values, tree-sitter's TOML grammar the places. A line that is no TOML is
reported and the statement around it left out, so that one slip does not hide the rest; names whose
statement was left out still count as declared, so nothing later complains about them. Front matter
that is never closed ends before the first line that is no TOML: that is where the words begin.
"""

import re
import tomllib
from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, ClassVar, Final, TypeAlias

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Lines, Span
from stitchproof.base.records import dataclass
from stitchproof.language.manuscript import FrontMatter
from stitchproof.trade.bodies import body_table

if TYPE_CHECKING:
    from tree_sitter import Node

Places: TypeAlias = dict[tuple[str | int, ...], Span]

_OPENING: Final = re.compile(r"\ufeff?\+\+\+[ \t]*(?:\r\n|\n|\r|$)")
_CLOSING: Final = re.compile(r"(?:(?<=\n)|(?<=\r))\+\+\+[ \t]*(?:\r\n|\n|\r|$)")
_STATEMENT: Final = re.compile(r"^[ \t]*(?:\[|[\w\"'.-]+[ \t]*=)", re.MULTILINE)
_ERROR_AT: Final = re.compile(r"\(at line (\d+), column (\d+)\)$")
_MOST_FAULTS: Final = 8
_MOST_STOPS: Final = 200  # in a line; reading a dotted key takes time that grows in its square
_DEEPEST: Final = 64  # brackets inside one another, parts of a key


@facts
class FrontMatterUnclosed:
    """No second `+++` line follows the first."""

    code: ClassVar[Code] = Code("L160", "front-matter-unclosed", Level.ERROR)
    ends_before: int | None  # line number, from 1

    def message(self) -> str:
        """Say where it was taken to end."""
        if self.ends_before is None:
            return "the front matter that `+++` opens is not closed"
        until = f"it reads as TOML up to line {self.ends_before}"
        return f"the front matter that `+++` opens is not closed; {until}"

    def help(self) -> str:
        """Say what closes it."""
        return "put a line `+++` below its last line"


@facts
class FrontMatterSyntax:
    """A line of the front matter is no TOML."""

    code: ClassVar[Code] = Code("L161", "front-matter-syntax", Level.ERROR)
    why: str
    line: int
    column: int

    def message(self) -> str:
        """Say what and where."""
        return f"line {self.line}, column {self.column} of the file is no TOML: {self.why}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


def read_front(text: str, source: str) -> tuple[FrontMatter | None, int, list[Diagnostic]]:
    """Read the front matter of a manuscript.

    Parameters
    ----------
    text : str
        The whole manuscript.
    source : str
        Its name.

    Returns
    -------
    front, body_start, findings
        `front` is None when the file has none. The body is `text[body_start:]`.
    """
    opening = _OPENING.match(text)
    if opening is None:
        return None, text.startswith("\ufeff"), []
    start = opening.end()
    closing = _CLOSING.search(text, start)
    if closing is None:
        return _unclosed(text, source, start)
    front, found = _front(text, source, start, closing.start())
    return front, closing.end(), found


def declared_names(front: FrontMatter | None) -> frozenset[str]:
    """Give every name a formula may use; not empty when there is front matter.

    `body.*` stands for any measuring point, where the points are not known yet.
    """
    if front is None:
        return frozenset()
    names = {""}
    for table in ("measures", "counts", "finished"):
        prefix = "finished." if table == "finished" else ""
        names.update(prefix + key for key in _keys(front, table))
    names.update(f"body.{point}" for point in _points(front))
    return frozenset(names)


def _keys(front: FrontMatter, table: str) -> set[str]:
    """Keys of a table, also those whose statement could not be read."""
    value = front.table.get(table)
    keys = set(value) if isinstance(value, Mapping) else set()
    keys.update(str(p[1]) for p in front.places if len(p) > 1 and p[0] == table and p[1] != "")
    return keys


def _points(front: FrontMatter) -> set[str]:
    own = _keys(front, "body") - {"sizes", "unit"}
    sizes = front.table.get("sizes")
    if not isinstance(sizes, Mapping):
        return own | ({"*"} if ("sizes",) in front.places else set())
    if "table" in sizes:
        return own | {"*"}
    name = sizes.get("body")
    if name is None:
        return own | ({"*"} if ("sizes", "body") in front.places else set())
    table = body_table(name) if isinstance(name, str) else None
    return own | ({"*"} if table is None else set(table.rows))


# --------------------------------------------------------------------------- where it ends


def _unclosed(
    text: str, source: str, start: int
) -> tuple[FrontMatter | None, int, list[Diagnostic]]:
    """Take the lines that read as TOML, less the comments at their end: those are headings."""
    place = Span(source, text.index("+"), text.index("+") + 3)
    fault = _parse(_plain_ends(text[start:]))
    end = len(text) if isinstance(fault, dict) else _words_begin(text, start, fault)
    if end <= start:
        return None, 0, [Diagnostic(finding=FrontMatterUnclosed(None), place=place)]
    front, found = _front(text, source, start, end)
    line, _ = Lines.of(text).line_column(end)
    unclosed = FrontMatterUnclosed(line - 1 if end < len(text) else None)
    return front, end, [Diagnostic(finding=unclosed, place=place), *found]


def _words_begin(text: str, start: int, fault: "_Fault") -> int:
    """Offset of the first line that belongs to the words below unclosed front matter."""
    if fault.line is None:
        return start
    starts = Lines.of(text[start:]).starts
    line = min(fault.line, len(starts)) - 1
    while line > 0:
        above = text[start + starts[line - 1] : start + starts[line]].strip()
        if above and not above.startswith("#"):
            break
        line -= 1
    return start + starts[line]


# --------------------------------------------------------------------------- values


@dataclass(frozen=True, slots=True)
class _Fault:
    """What tomllib says; line and column from 1, None where it gives none."""

    why: str
    line: int | None = None
    column: int | None = None


def _plain_ends(toml: str) -> str:
    """Give the same text, offset by offset, with LF as its only line end."""
    if "\r" not in toml:
        return toml
    return toml.replace("\r\n", " \n").replace("\r", "\n")


def _parse(toml: str) -> dict[str, object] | _Fault:
    if _depth(toml) > _DEEPEST:
        return _Fault(f"brackets stand more than {_DEEPEST} deep in one another")
    for number, line in enumerate(toml.split("\n"), 1):
        if line.count(".") > _MOST_STOPS:
            return _Fault(f"more than {_MOST_STOPS} stops in a line", number, 1)
    try:
        return tomllib.loads(toml, parse_float=_decimal)
    except tomllib.TOMLDecodeError as error:
        words = str(error)
        at = _ERROR_AT.search(words)
        why = words.split(" (at ", maxsplit=1)[0]
        why = why[:1].lower() + why[1:]
        return _Fault(why, int(at[1]), int(at[2])) if at else _Fault(why, toml.count("\n") + 1, 1)
    except ValueError:
        return _Fault("a number has too many digits")


def _decimal(words: str) -> Decimal | str:
    """Give a number exactly; one beyond all sense stays text, and whoever reads it says so."""
    value = Decimal(words)
    largest = 30  # digits before or behind the point
    return value if value.is_finite() and abs(value.adjusted()) <= largest else words


def _depth(toml: str) -> int:
    """How deep brackets may stand in one another, at most."""
    deepest = depth = 0
    for mark in re.finditer(r"[\[\]{}]", toml):
        depth = depth + 1 if mark[0] in "[{" else max(depth - 1, 0)
        deepest = max(deepest, depth)
    return deepest


def _front(text: str, source: str, start: int, end: int) -> tuple[FrontMatter, list[Diagnostic]]:
    """Read values and places; leave out statements that are no TOML, and report each."""
    toml = _plain_ends(text[start:end])
    places = _places(toml, source, start)
    whole = Span(source, start, end)
    found: list[Diagnostic] = []
    left = toml
    while len(found) < _MOST_FAULTS:
        read = _parse(left)
        if isinstance(read, dict):
            return FrontMatter(read, places, whole), found
        found.append(_reported(text, toml, whole, read))
        statement = _statement(left, read)
        if statement is None:
            break
        first, last = statement
        key = _lost_key(left, first)
        places.setdefault(key, Span(source, start + first, start + last))
        blank = "".join("\n" if c == "\n" else " " for c in left[first:last])
        left = left[:first] + blank + left[last:]
    return FrontMatter({}, places, whole), found


def _reported(text: str, toml: str, whole: Span, fault: _Fault) -> Diagnostic:
    starts = Lines.of(toml).starts
    if fault.line is None or fault.column is None:
        at = whole.start
    else:
        line = min(fault.line, len(starts)) - 1
        at = whole.start + min(starts[line] + fault.column - 1, len(toml))
    # A fault at the end of a line points at its last word.
    while at > whole.start and (at >= whole.end or text[at] in "\r\n"):
        at -= 1
    line, column = Lines.of(text).line_column(at)
    place = Span(whole.source, at, min(at + 1, whole.end))
    return Diagnostic(finding=FrontMatterSyntax(fault.why, line, column), place=place)


def _statement(toml: str, fault: _Fault) -> tuple[int, int] | None:
    """Find the statement around a fault; None when the others mean something else without it."""
    if fault.line is None:
        return None
    starts = Lines.of(toml).starts
    line = min(fault.line, len(starts)) - 1
    line_end = starts[line + 1] if line + 1 < len(starts) else len(toml)
    heads = [m.start() for m in _STATEMENT.finditer(toml)]
    first = max((h for h in heads if h < line_end), default=0)
    last = min((h for h in heads if h >= line_end), default=len(toml))
    statement = toml[first:last].strip()
    # Without its header, the keys below would land in another table.
    return (first, last) if statement and not statement.startswith("[") else None


def _lost_key(toml: str, first: int) -> tuple[str | int, ...]:
    """Give the path of the key that a statement starts with."""
    headers = re.findall(r"^[ \t]*\[([^\[\]\n]+)\]", toml[:first], re.MULTILINE)
    key = toml[first:].split("=", 1)[0]
    parts = [*(headers[-1].split(".") if headers else ()), *key.split(".")]
    return tuple(part.strip().strip("\"'") for part in parts[:_DEEPEST])


# --------------------------------------------------------------------------- places


def _places(toml: str, source: str, start: int) -> Places:
    """Find where every key and every value stands."""
    import tree_sitter  # only with front matter
    import tree_sitter_toml

    # Keys are cut from the text by offset, so any one-byte stand-in does for what is not ASCII:
    # then bytes and code points are counted alike.
    masked = re.sub(r"[^\x00-\x7f]", "x", toml).encode("ascii")
    parser = tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language()))
    return _Places(toml, source, start).of(parser.parse(masked).root_node)


class _Places:
    """Walks the concrete tree; a stack of its own, as deep text must not end the program."""

    def __init__(self, toml: str, source: str, start: int) -> None:
        self._toml = toml
        self._source = source
        self._start = start
        self._found: Places = {}
        self._arrays: dict[tuple[str | int, ...], int] = {}

    def of(self, root: "Node") -> Places:
        stack: list[tuple[Node, tuple[str | int, ...]]] = [(root, ())]
        while stack:
            node, path = stack.pop()
            stack += reversed(self._below(node, path))
        return self._found

    def _below(
        self, node: "Node", path: tuple[str | int, ...]
    ) -> list[tuple["Node", tuple[str | int, ...]]]:
        """Note the place of a node and give the nodes inside it with their paths."""
        children = node.named_children
        if node.type == "pair":
            return self._pair(children, path)
        if node.type in {"table", "table_array_element"}:
            return self._table(node, children)
        if node.type == "array":
            items = [one for one in children if one.type != "comment"]
            for i, one in enumerate(items):
                self._found.setdefault((*path, i), self._span(one))
            return [(one, (*path, i)) for i, one in enumerate(items)]
        return [(one, path) for one in children]

    def _pair(
        self, children: list["Node"], path: tuple[str | int, ...]
    ) -> list[tuple["Node", tuple[str | int, ...]]]:
        if not children or children[0].type not in _KEYS:
            return []
        own = (*path, *self._key(children[0]))
        if len(own) > _DEEPEST:
            return []
        value = next((one for one in children[1:] if one.type not in {"ERROR", "comment"}), None)
        span = self._span(children[0] if value is None else value)
        for end in range(len(path) + 1, len(own) + 1):
            self._found.setdefault(own[:end], span)
        self._found[(*own, "")] = self._span(children[0])
        return [] if value is None else [(value, own)]

    def _table(
        self, node: "Node", children: list["Node"]
    ) -> list[tuple["Node", tuple[str | int, ...]]]:
        if not children or children[0].type not in _KEYS:
            return [(one, ()) for one in children]
        path = self._indexed(self._key(children[0]))
        if len(path) > _DEEPEST:
            return []
        if node.type == "table_array_element":
            at = self._arrays[path] = self._arrays.get(path, -1) + 1
            path = (*path, at)
        span = self._span(node)
        for end in range(1, len(path) + 1):
            self._found.setdefault(path[:end], span)
        self._found[(*path, "")] = self._span(children[0])
        return [(one, path) for one in children[1:]]

    def _indexed(self, key: tuple[str, ...]) -> tuple[str | int, ...]:
        """Put the index of the last element behind the name of each array of tables."""
        path: tuple[str | int, ...] = ()
        for at, part in enumerate(key[: _DEEPEST + 1]):
            path = (*path, part)
            if path in self._arrays and at + 1 < len(key):
                path = (*path, self._arrays[path])
        return path

    def _key(self, node: "Node") -> tuple[str, ...]:
        """Give the parts of a key, `a."b c".d`."""
        parts: list[str] = []
        stack = [node]
        while stack:
            one = stack.pop()
            words = self._toml[one.start_byte : one.end_byte]
            if one.type == "bare_key":
                parts.append(words)
            elif one.type == "quoted_key":
                parts.append(_unquoted(words))
            else:
                stack += reversed(one.named_children)
        return tuple(parts)

    def _span(self, node: "Node") -> Span:
        end = node.end_byte
        if node.type in {"table", "table_array_element"}:
            end = node.start_byte + len(self._toml[node.start_byte : end].rstrip())
        return Span(self._source, self._start + node.start_byte, self._start + end)


_KEYS: Final = frozenset(("bare_key", "quoted_key", "dotted_key"))


def _unquoted(words: str) -> str:
    """Read a quoted key; one that is no TOML stands for itself."""
    read = _parse(f"{words} = 0")
    return next(iter(read)) if isinstance(read, dict) else words.strip("\"'")
