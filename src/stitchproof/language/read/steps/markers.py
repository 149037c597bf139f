"""Markers: "place marker in last st made", "mark both edges at the top of Row 42", "sl marker"."""

from types import MappingProxyType
from typing import Final

from stitchproof.language.number import Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.adornment import read_adornment
from stitchproof.language.read.steps.both_ends import at_both_ends
from stitchproof.language.read.steps.manner import tells_over_what
from stitchproof.language.read.steps.marked_sts import read_marked_sts
from stitchproof.language.read.steps.nouns import BEGINNING, CENTRE_STITCH, STITCHES
from stitchproof.language.read.steps.placed import read_numbered
from stitchproof.language.read.steps.places import EACH, IN, read_target
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import as_int, read_stitch, starts_stitch
from stitchproof.language.tree import Each, Leave, Mark, Marked, Remark, Same, Steps, Target

_ROUNDS: Final = word_set("row rnd round")


_MARKERS: Final = word_set("marker markers m pm stitch-marker")


_ENDS: Final = frozenset((",", ";", ".", "(", "[", "*"))


_MARKING: Final = MappingProxyType(
    {"move": "move", "moving": "move", "replace": "move", "replacing": "move"}
    | {"remove": "remove", "removing": "remove"}
)


_SHOWING: Final = word_set("mark show indicate note denote designate")


def _begins_round(reader: Reader) -> bool:
    """Read "the beginning of the rnd" and tell whether it stood there."""
    ahead = 1 if reader.text() == "the" else 0
    if reader.text(ahead) not in BEGINNING or reader.text(ahead + 1) != "of":
        return False
    ahead += 2
    while reader.text(ahead) in {"the", "this", "each", "every"}:
        ahead += 1
    if reader.text(ahead) not in _ROUNDS | {"rnds", "rows", "rounds"}:
        return False
    reader.take(ahead + 1)
    return True


def read_marker(reader: Reader, frame: Frame) -> Steps | None:
    """Read "place marker in last st made", "move marker up", "pm", "remove marker"."""
    start = reader.at
    if reader.number(1) is not None and starts_stitch(reader, 2):
        reader.take()
        return read_numbered(reader, frame)  # "placing 1 dc in each ch"
    no_marker = _no_marker(reader, frame)
    if no_marker is not None:
        return no_marker
    if any(reader.sees_at(i, "on", "hold") for i in range(1, 8)):
        return _on_hold(reader, start)
    action = _MARKING.get(reader.text(), "place")
    if reader.text() != "pm":
        reader.take()
        if action == "move" and reader.accept_any(word_set("it them these this")):
            return _to_clause_end(reader, start)
        reader.take(counted_markers(reader))
        reader.pass_over(word_set("a the your each stitch st new locking"))
        if reader.text() not in _MARKERS:
            return None
    reader.take()
    reader.take(3 if reader.sees("(", "pm", ")") else 0)
    reader.take(2 if reader.sees(",", "one", "in") else 0)
    reader.accept_any(word_set("up"))
    action = "move" if reader.accept("back") else action
    if action == "move" and reader.text() in _AS_ROWS_GO:
        return _to_clause_end(reader, start)
    if at_both_ends(reader):
        reader.take(at_both_ends(reader))
        if reader.text() in {"of", "to", "for"}:
            return _to_clause_end(reader, start)
        return (Remark(reader.words(start), reader.span(start)),)
    return _mark_place(reader, action, start)


def counted_markers(reader: Reader) -> int:
    """Count the tokens of "4" in "4 markers", "4 stitch markers"; 0: no number stands there."""
    ahead = 2 if reader.text(1) in {"stitch", "locking"} else 1
    return int(reader.number() is not None and reader.text(ahead) in _MARKERS)


_AS_ROWS_GO: Final = word_set("each every as with after")


def _no_marker(reader: Reader, frame: Frame) -> Steps | None:
    """Read "put the eyes between R7 and R8", "placing each sc into a dc": no marker is meant."""
    adorned = None if names_marker(reader) else read_adornment(reader, frame)
    if adorned is not None:
        return adorned
    start = reader.at
    if reader.text() in {"put", "putting", "placing"}:
        reader.take()
        if tells_over_what(reader):
            return (Remark(reader.words(start), reader.span(start)),)
        reader.at = start
    return None


def names_marker(reader: Reader) -> bool:
    """Tell whether a marker, or a stitch that is worked, is named in the next few words."""
    return any(
        reader.text(i) in _MARKERS or (i > 1 and reader.number(i - 1) and starts_stitch(reader, i))
        for i in range(1, _NEAR)
    )


_NEAR: Final = 8  # words


def _to_clause_end(reader: Reader, start: int) -> Steps:
    """Keep "move it up as you go" as a remark: markers go up with the rows anyhow."""
    reader.take_until(_ENDS)
    return (Remark(reader.words(start), reader.span(start)),)


def _on_hold(reader: Reader, start: int) -> Steps | None:
    """Read "place remaining 47 sts on hold": they are left."""
    reader.take()
    reader.pass_over(word_set("the remaining rem last other"))
    number = reader.number()
    if number is not None:
        reader.take()
    reader.accept_any(STITCHES)
    return (Leave(number, reader.span(start)),) if reader.accept("on", "hold") else None


def _more_ordinals(reader: Reader) -> bool:
    """Go past ", 17th and 33rd" of "the 1st, 17th and 33rd sts"."""
    start = reader.at
    while reader.text() in {",", "and", "&"} and reader.ordinal(1) is not None:
        reader.take(2)
    return reader.at > start


def _mark_place(reader: Reader, action: str, start: int) -> Steps | None:
    _pass_purpose(reader)
    if reader.accept("where", "told"):
        return (Mark(action, Marked(), place=reader.span(start)),)
    if reader.text() not in IN | {"at", "on", "to", "around"}:
        return (Mark(action, place=reader.span(start)),)
    reader.take()
    if reader.text() in {"this", "that"} and reader.text(1) != "new":
        reader.take(2)
        return (Mark(action, Same(), place=reader.span(start)),)
    if action == "move" and (_to_new_centres(reader) or _to_where_marked(reader)):
        return (Mark(action, place=reader.span(start)),)  # they go up with the row
    centre = _centre(reader)
    if centre is not None:
        _pass_tally(reader)
        return (Mark(action, centre, place=reader.span(start)),)
    target = read_marked_sts(reader) or _target(reader, action)
    several = reader.text() == "and" and (reader.text(1) in _WHICH or reader.ordinal(1) is not None)
    if _more_ordinals(reader) or target is None or several or reader.text() == "of":
        reader.take_until(_ENDS)
        return (Mark(action, Marked(), place=reader.span(start)),)  # where is not known
    reader.pass_over(_MADE)
    _pass_purpose(reader)
    return (Mark(action, target, place=reader.span(start)),)


def _pass_purpose(reader: Reader) -> None:
    """Go past "to mark the raglan lines", "for the corners"."""
    if reader.text() == "for" or (reader.text() == "to" and reader.text(1) in _SHOWING):
        reader.take_until(_ENDS)


def _pass_tally(reader: Reader) -> None:
    """Go past "– 4 markers placed"."""
    ahead = int(reader.text() in _DASHES)
    if ahead and reader.number(ahead) is not None and reader.text(ahead + 1) in _MARKERS:
        reader.take_until(_ENDS)


_DASHES: Final = frozenset("-–—:")
_WHICH: Final = word_set("first last next the in each")
_MIDDLE: Final = word_set("center centre middle")
_MADE: Final = word_set("just made worked")


def _to_new_centres(reader: Reader) -> bool:
    """Read "the new centre sts", "new middle sts": those worked where the markers were."""
    ahead = 1 if reader.text() == "the" else 0
    centre = reader.text(ahead) == "new" and reader.text(ahead + 1) in _MIDDLE
    named = centre and (reader.text(ahead + 2) in STITCHES or starts_stitch(reader, ahead + 2))
    reader.take(ahead + 3 if named else 0)
    return named


def _to_where_marked(reader: Reader) -> bool:
    """Read "the sc worked in the marked st", "st made in it": the one the marker goes up to."""
    length = 0
    while reader.text(length) not in _ENDS | {"", "and", ")"}:
        length += 1
    words = [reader.text(i) for i in range(length)]
    goes_up = bool(_MADE & set(words)) and {"in", "into"} & set(words) != set()
    goes_up = goes_up and words[-1] in STITCHES | {"it", "them"} and "sp" not in words
    reader.take(length if goes_up and {"marked", "it", "them"} & set(words) else 0)
    return goes_up and bool({"marked", "it", "them"} & set(words))


def _centre_of_made(reader: Reader) -> bool:
    """Read "the centre one", "center st", "middle sc of the 3 just made", "middle of these 3 sts".

    The one in the middle of what was made last is meant.
    """
    start = reader.at
    reader.accept("the")
    if not reader.accept_any(_MIDDLE) and not _middle_by_number(reader):
        reader.at = start
        return False
    named = reader.accept_any(STITCHES | {"one"}) or (
        starts_stitch(reader) and read_stitch(reader) is not None
    )
    of = reader.accept("of")
    if of:
        reader.pass_over(word_set("the these those last"))
        reader.take(reader.number() is not None)
        reader.accept("-")
        if not reader.accept_any(STITCHES) and starts_stitch(reader):
            read_stitch(reader)
        reader.accept_any(word_set("group inc increase corner"))
    reader.pass_over(_MADE)
    if (named or of) and (reader.ended() or reader.text() in _ENDS | {"and", "as"}):
        return True
    reader.at = start
    return False


def _centre(reader: Reader) -> Same | Each | None:
    """Read the middle of what was made last, or of every increase."""
    if _centre_of_made(reader):
        return Same(CENTRE_STITCH)
    return Each(CENTRE_STITCH) if _centre_of_each(reader) else None


def _target(reader: Reader, action: str) -> Target | None:
    """Read where a marker goes; "the new ch-1 sp" that it is moved to is the one just made."""
    ahead = int(reader.text() in {"the", "this"})
    if action == "move" and reader.text(ahead) == "new":
        reader.take(ahead + 1)
    return read_target(reader)


def _centre_of_each(reader: Reader) -> bool:
    """Read "the center hdc of each of the four 3-hdc groups": the middle of all increases."""
    start = reader.at
    reader.accept("the")
    middle = reader.accept_any(_MIDDLE) or _middle_by_number(reader)
    if not reader.accept_any(STITCHES) and starts_stitch(reader):
        read_stitch(reader)
    if middle and reader.accept("of") and reader.accept_any(EACH):
        reader.pass_over(word_set("of the"))
        many = reader.number() is not None and reader.number(1) is not None
        reader.take(many)  # "four 3-hdc groups"
        grouped = reader.number() is not None
        reader.take(grouped)
        reader.accept("-")
        if grouped and not reader.accept_any(STITCHES) and starts_stitch(reader):
            read_stitch(reader)
        reader.accept_any(_GROUPED)  # "dc groups" may be read as one
        named = reader.tokens[reader.at - 1].text in _GROUPED
        if named and reader.text() == "of" and reader.number(1) is not None:
            reader.take(2)  # "each group of 3 hdc"
            if not reader.accept_any(STITCHES) and starts_stitch(reader):
                read_stitch(reader)
        if named and (reader.text() in _DASHES or reader.ended() or reader.text() in _ENDS):
            return True
    reader.at = start
    return False


_GROUPED: Final = word_set("group groups inc incs increase increases corner corners")


def _middle_by_number(reader: Reader) -> bool:
    """Go past "2nd" where the middle is meant: "2nd of these 3 hdc", "third dc of the 5"."""
    which = reader.ordinal()
    ahead = 1
    while reader.text(ahead) not in {"of", ""} and ahead <= _NEAR:
        ahead += 1
    ahead += 1
    while reader.text(ahead) in {"the", "these", "those", "last"}:
        ahead += 1
    among = reader.number(ahead)
    if which is None or among is None:
        return False
    place, held = as_int(which), as_int(among)
    if place is None or held is None or held != 2 * place - 1:
        return False
    reader.take()
    return True


def read_mark_verb(reader: Reader, frame: Frame) -> Steps | None:
    """Read "mark both edges at the top of Row 42", "mark first st"."""
    start = reader.at
    reader.take()
    _ = frame
    edges = {"both": 2, "each": 2, "one": 1}.get(reader.text(), 0)
    if edges and reader.text(1) in {"edges", "edge", "sides", "side", "ends", "end"}:
        reader.take(2)
        rows = _row(reader)
        return None if rows is None else (_edge_mark(rows, edges, reader, start),)
    if reader.text() in {"this", "that"} and reader.text(1) in {"st", "stitch"}:
        reader.take(2)
        return (Mark("place", Same(), place=reader.span(start)),)
    if _centre_of_made(reader):
        return (Mark("place", Same(CENTRE_STITCH), place=reader.span(start)),)
    if _centre_of_each(reader):
        return (Mark("place", Each(CENTRE_STITCH), place=reader.span(start)),)
    if reader.number() is not None:
        return _listed_behind(reader, start) or _somewhere(reader, start)
    if _begins_round(reader):
        return (Mark("place", place=reader.span(start)),)
    target = read_target(reader)
    reader.pass_over(_MADE)
    several = reader.text() == "and" and reader.text(1) in _WHICH
    if target is None or several or not _ends_clause(reader):
        return _somewhere(reader, start)
    if reader.text() == "of" and reader.text(1) in EACH and reader.text(2) in _ROUNDS:
        reader.take(3)
    if reader.text() in {"as", "for"}:
        reader.take_until(_ENDS)
    return (Mark("place", target, place=reader.span(start)),)


_ON: Final = word_set("of as for with")


def _ends_clause(reader: Reader) -> bool:
    """Tell whether the clause ends here, or says of which row or what for."""
    if reader.text() in OPENING and reader.ordinal(1) is not None:
        return False  # another stitch in another size
    return reader.ended() or reader.text() in _ENDS | _ON | {"and"}


def _listed_behind(reader: Reader, start: int) -> Steps | None:
    """Read "4 sts for the raglan: 8th, 15th, 30th and 37th sts" behind "mark"."""
    here = reader.at
    reader.take_until({":", ".", ",", ";"})
    listed = read_marked_sts(reader) if reader.accept(":") else None
    if listed is None:
        reader.at = here
        return None
    return (Mark("place", listed, place=reader.span(start)),)


def _somewhere(reader: Reader, start: int) -> Steps:
    """Keep "mark the 20th st (22nd st) of Row 1" as a marker; in which stitch is not known."""
    while not reader.ended() and reader.text() not in {",", ";", ".", "*"}:
        partner = reader.partner[reader.at] if reader.text() in OPENING else -1
        reader.take(max(partner + 1 - reader.at, 1))
    return (Mark("place", Marked(), place=reader.span(start)),)


def _edge_mark(rows: Number, edges: int, reader: Reader, start: int) -> Mark:
    return Mark("place", None, "", rows, edges, reader.span(start))


def _row(reader: Reader) -> Number | None:
    """Read "at the top of Row 42", "at end of row 42"."""
    reader.pass_over(word_set("of at in the top end on last"))
    if not reader.accept_any(word_set("row rnd round")):
        return None
    number = reader.number()
    if number is not None:
        reader.take()
    return number


def read_slip_marker(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sl marker"."""
    start = reader.at
    if reader.text(1) == "a":
        return read_marker(reader, frame)
    short = reader.text() == "sm"
    reader.take()
    reader.accept_any(word_set("the each your all"))
    if not short and not reader.accept_any(_MARKERS):
        return None
    return (Mark("slip", place=reader.span(start)),)
