"""Yarns and hooks by name: "with A", "in blue:", "change to B", "with larger hook"."""

from itertools import pairwise
from typing import Final

from stitchproof.language.number import Number
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.reader import CLOSING, MARKS, STOPS, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import as_int, starts_stitch
from stitchproof.language.read.steps.yarn_names import yarn_name
from stitchproof.language.tree import Colour, Make, Next, Remark, Steps, Stitch

ENDS: Final = frozenset((",", ";", ".", "(", "[", "*"))


def read_colour(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read the name of a yarn or a hook up to the next stop."""
    _ = frame
    if reader.text() in {"color", "colour", "yarn"} and reader.number(1) is not None:
        named = reader.at
        reader.take(2)  # "color 3"
        return (Colour(reader.words(named), place=reader.span(start)),)
    if reader.ordinal() is not None and reader.text(1) in {"color", "colour", "yarn", "shade"}:
        named = reader.at
        reader.take(2)  # "3rd colour"
        return (Colour(reader.words(named), place=reader.span(start)),)
    reader.pass_over(word_set("color colour yarn"))
    at = reader.at
    while not reader.ended() and reader.text() not in ENDS | {
        "and",
        "join",
        "ch",
        ":",
        "work",
        "make",
    }:
        if reader.at - at >= 6:  # noqa: PLR2004 - the name of a yarn is short
            return None
        if reader.at > at and _stitches_follow(reader):
            break
        reader.take()
    words = reader.words(at)
    if not words:
        return None
    name, hook = _named_hook(yarn_name(words))
    place = reader.span(start)
    if name != words and not hook:
        return (Colour(name, place=place),)
    if _is_plain_name(reader, at, hook=hook):
        return (Colour(name, hook, place),)
    return None


def read_counted_colour(reader: Reader, frame: Frame) -> Steps | None:
    """Read "A x 6" of a colour chart in words: so many of the row's stitch in that yarn."""
    _ = frame
    first = reader.number()
    if first is not None:
        return _number_and_yarn(reader, first)
    token, number = reader.token(), reader.number(2)
    if token is None or number is None or reader.text(1) != "x" or starts_stitch(reader):
        return None
    if not is_yarn(token):
        return None
    start = reader.at
    reader.take(3)
    place = reader.span(start)
    return (
        Colour(token.written, place=place),
        Make(Stitch(reader.main), at=Next(number), place=place),
    )


def _number_and_yarn(reader: Reader, number: Number) -> Steps | None:
    """Read "2A", "3 MC" of a colour chart in words."""
    token = reader.token(1)
    if token is None or not token.written.isupper() or not is_yarn(token):
        return None
    if reader.text(2) not in STOPS | CLOSING | {""} or starts_stitch(reader, 1):
        return None
    start = reader.at
    reader.take(2)
    place = reader.span(start)
    make = Make(Stitch(reader.main), at=Next(number), place=place)
    return (Colour(token.written, place=place), make)


def colour_follows(reader: Reader) -> int:
    """Count the tokens of "in A", "A" behind stitches: their yarn, not their place; else 0."""
    ahead = int(reader.text() == "in")
    return ahead + 1 if _is_yarn_of_stitches(reader, ahead, STOPS | CLOSING | {""}) else 0


def _is_yarn_of_stitches(reader: Reader, ahead: int, before: frozenset[str]) -> bool:
    token = reader.token(ahead)
    if token is None or not is_yarn(token) or starts_stitch(reader, ahead):
        return False
    ring = token.text == "mr" or (token.text == "mc" and not _names_yarns(reader))
    side = not ahead and token.text in {"rs", "ws"}
    return reader.text(ahead + 1) in before and not ring and not side


def yarn_before_place(reader: Reader) -> Steps:
    """Read "B" of "2 dc B into next st": the yarn between stitches and their place."""
    if not _is_yarn_of_stitches(reader, 0, _INTO):
        return ()
    return _taken(reader, 1)


def yarn_behind(reader: Reader) -> Steps:
    """Read "B" of "sc 4 B", "in B" of "sc in next 4 sts in B": the yarn behind their place."""
    length = colour_follows(reader)
    return _taken(reader, length) if length else ()


def _taken(reader: Reader, length: int) -> Steps:
    """Go past the name of a yarn, the last of so many tokens."""
    reader.take(length)
    at = reader.at - length
    return (Colour(reader.tokens[reader.at - 1].written, place=reader.span(at)),)


_INTO: Final = word_set("in into")


_FURTHEST: Final = 80  # tokens of a line that are looked at


def _names_yarns(reader: Reader) -> bool:
    """Tell whether stitches go "in MC" twice, or "in CC" too: a yarn, no magic circle."""
    words = [token.text for token in reader.tokens[:_FURTHEST]]
    return "cc" in words or list(pairwise(words)).count(("in", "mc")) > 1


def _stitches_follow(reader: Reader) -> bool:
    """Tell whether stitches begin where the name of a yarn ends: "with B sc in next 10 sts"."""
    ahead = 0 if reader.number() is None else 1
    if ahead and reader.text(1) in CHAINS:
        return True
    return starts_stitch(reader, ahead) and not reader.text(ahead).startswith("hook")


def read_in_colour(reader: Reader, frame: Frame) -> Steps | None:
    """Read "in blue: sc in next 12 sts", "in white 4 sc"; None, and nothing taken, otherwise."""
    _ = frame
    start = reader.at
    named = _yarn_ahead(reader)
    ahead = named or 1
    token = reader.token(ahead)
    if token is None or token.kind is not TokenKind.WORD or not (named or reader.text() == "in"):
        return None
    if token.text in _NO_COLOURS or starts_stitch(reader, ahead):
        return None
    reader.take(ahead + 1)
    lead = reader.text() == "," and is_yarn(token)
    lead = lead or (is_yarn(token) and _long_chain(reader))
    if lead or reader.text() == ":" or (reader.number() is not None and starts_stitch(reader, 1)):
        reader.accept_any(frozenset((":", ",")))
        return (Colour(token.written, place=reader.span(start + ahead, start + ahead + 1)),)
    reader.at = start
    return None


def _long_chain(reader: Reader) -> bool:
    """Tell whether "ch 36" stands there, which no ring is worked with: "in MC ch 36"."""
    number = reader.number(1) if reader.text() in CHAINS else None
    count = None if number is None else as_int(number)
    return number is not None and (count is None or count > _SHORT_CHAIN)


_SHORT_CHAIN: Final = 6  # chains that may stand for a stitch worked into a magic circle


def _yarn_ahead(reader: Reader) -> int:
    """Count the tokens before the name in "in yarn B", "yarn B", "in the colour blue"; else 0."""
    ahead = 1 if reader.text() == "in" else 0
    ahead += ahead > 0 and reader.text(ahead) == "the"
    if reader.text(ahead) not in _YARNS:
        return 0
    token = reader.token(ahead + 1)
    return ahead + 1 if token is not None and is_yarn(token) else 0


_YARNS: Final = word_set("yarn yarns colour color shade")
_LONGEST_CODE: Final = 3  # letters of a yarn's short name


def is_yarn(token: Token) -> bool:
    """Tell whether a word is a colour, or the short name of a yarn in capitals: "A", "MC"."""
    if token.kind is not TokenKind.WORD:
        return False
    short = token.written.isupper() and len(token.text) <= _LONGEST_CODE
    return token.text in _COLOURS or short


def colour_behind(reader: Reader, frame: Frame, start: int, close: int) -> bool:
    """Read the yarn of "10 sc (white)", said behind the stitches that it makes."""
    last = len(frame.steps) - 1
    behind = reader.tokens[close + 1].text if close + 1 < len(reader.tokens) else ""
    if last < 0 or not isinstance(frame.steps[last], Make) or close != start + 2:
        return False
    if not is_yarn(reader.tokens[start + 1]) or behind not in STOPS | CLOSING | {""}:
        return False
    name = reader.tokens[start + 1].written
    frame.steps.insert(last, Colour(name, place=reader.span(start, close + 1)))
    return True


def named_colour(reader: Reader, start: int, close: int) -> Colour | None:
    """Give the yarn of "(A) sc 6", "(red) 2 sc in next st": its name, then work."""
    name = reader.tokens[start + 1]
    if close != start + 2 or not is_yarn(name) or starts_stitch(reader, 1):
        return None
    ahead = 3 if reader.number(3) is None else 4
    starred = reader.text(3) in MARKS or (
        start == 0 and not reader.text(3)
    )  # rows are named behind
    if not starred and not starts_stitch(reader, ahead) and reader.text(ahead) not in CHAINS:
        return None
    return Colour(name.written, place=reader.span(start, close + 1))


_COLOURS: Final = word_set(
    "white black red blue green yellow orange purple pink brown grey gray cream ivory beige gold"
    " silver navy teal turquoise lilac mint rose mustard charcoal natural"
)


def read_bare_colour(reader: Reader, frame: Frame) -> Steps | None:
    """Read "white: 5 sc; red: 1 sc", "white 4 sc": the yarn before the stitches it makes."""
    _ = frame
    token = reader.token()
    if token is None or token.kind is not TokenKind.WORD:
        return None
    stop = 1 if reader.text(1) == ":" else 0
    ahead = 1 + stop if reader.number(1 + stop) is None else 2 + stop
    named = is_yarn(token) if len(token.text) == 1 else token.text in _COLOURS
    named = named or (bool(stop) and token.text not in _NO_COLOURS)
    if not named or not starts_stitch(reader, ahead) or starts_stitch(reader):
        return None
    if (
        not stop
        and ahead == 1
        and reader.number(2) is None
        and reader.text(2) not in {"in", "into"}
    ):
        return None
    reader.take(1 + stop)
    return (Colour(token.written, place=reader.span(reader.at - 1 - stop, reader.at - stop)),)


_NO_COLOURS: Final = word_set(
    "the a an next each every first last same ring pattern patt back front both this that these"
    " corner middle center centre top base marked all any space sp rem remaining total turn place"
    " st sts stitch stitches ch chs chain loop loops lp order row rows rnd rnds round rounds seam"
)


def _named_hook(words: str) -> tuple[str, bool]:
    """Give the name of a yarn, or of a hook without what says that it is one."""
    parts = words.split()
    said = [part.lower() for part in parts]
    if said and (set(said[-2:]) & {"hook", "hooks"} or said[0] in {"hook", "size"}):
        kept = [part for part in parts if part.lower() not in _OF_A_HOOK]
        return " ".join(kept) or "main", True
    return words, False


_OF_A_HOOK: Final = word_set("hook hooks size no number a an the crochet")


def _is_plain_name(reader: Reader, at: int, *, hook: bool) -> bool:
    """Tell whether the words can be a name: letters and, for a hook, its size."""
    tokens = [reader.tokens[i] for i in range(at, reader.at)]
    if hook:
        return True
    coded = len(tokens) == 2 and tokens[1].text.isdigit() and not reader.apart(at)  # noqa: PLR2004
    plain = all(token.kind is TokenKind.WORD or token.text == "-" for token in tokens)
    return plain or (coded and tokens[0].written.isupper())  # "CC2"


def read_beside_hook(reader: Reader, frame: Frame) -> Steps | None:
    """Read "A" behind "with smaller hook and"; None, and nothing taken, otherwise."""
    last = frame.steps[-1] if frame.steps else None
    beside = frame.joined and isinstance(last, Colour) and not last.hook
    article = reader.text() in {"a", "the"} and reader.text(2) == "hook"
    token = reader.token(1 if article else 0)
    sized = token is not None and token.kind is TokenKind.NUMBER
    sized = sized and reader.number(1 if article else 0) is None
    reader.take(beside and article and sized)
    token = reader.token()
    if beside and reader.text() == "hook":
        return read_colour(reader, frame, reader.at)  # "with B and hook size 4 mm"
    if beside and sized and token is not None and reader.text(1) == "hook":
        reader.take(2)  # "using MC and 4.5 mm hook"
        return (Colour(token.written, hook=True, place=reader.span(reader.at - 2)),)
    if not (frame.joined and isinstance(last, Colour) and last.hook) or token is None:
        return None
    start = reader.at
    if reader.text() in _BEFORE_ITS_NAME and reader.text(1) and reader.text(1) not in ENDS:
        reader.take()  # "using 4 mm hook and yarn A"
        token = reader.tokens[reader.at]
    stops = reader.text(1) in ENDS or not reader.text(1)
    plain = token.kind is TokenKind.WORD and token.written[:1].isupper()
    if not plain or not stops or starts_stitch(reader):
        reader.at = start
        return None
    reader.take()
    return (Colour(token.written, place=reader.span(reader.at - 1)),)


_BEFORE_ITS_NAME: Final = word_set("yarn color colour shade")


def _stripes(reader: Reader, start: int) -> Steps:
    """Keep "changing shade every 2 rows in the order A, B, C" as a remark."""
    reader.take_until({".", ";", ":", "("})
    return (Remark(reader.words(start), reader.span(start)),)


def read_hook(reader: Reader, frame: Frame) -> Steps | None:
    """Read "smaller hook" behind "with RS facing and"."""
    return read_colour(reader, frame, reader.at)


_WHENEVER: Final = word_set("every each after as when whenever")


def read_change(reader: Reader, frame: Frame) -> Steps | None:
    """Read "change to B", "switching to MC", "changing colour to A in last st"."""
    start = reader.at
    reader.take()
    reader.pass_over(
        word_set("color colour colors colours shade shades yarn yarns hook hooks to the back")
    )
    if reader.text() in {"every", "each", "as", "when"}:
        return _stripes(reader, start)
    at = reader.at
    if reader.text() in _WHENEVER:  # "changing color every 4 rows": to which, is not said
        reader.at = start
        return read_advice(reader, frame)
    while not reader.ended() and reader.text() not in ENDS | {"and", "in", "on", "at"}:
        if reader.at - at >= 6:  # noqa: PLR2004 - the name of a yarn is short
            return None
        reader.take()
    _ = frame
    name, hook = _named_hook(yarn_name(reader.words(at)))
    if reader.text() in {"in", "on", "at"}:
        reader.take_until(ENDS)
    if not name and reader.at > at:  # "change colour on the last yarn over": which, is not said
        return (Remark(reader.words(start), reader.span(start)),)
    return (Colour(name, hook, reader.span(start)),) if name else None
