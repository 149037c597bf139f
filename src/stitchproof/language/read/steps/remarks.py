"""Words beside the work: "(counts as dc)", "(see Notes)", "being careful not to twist"."""

from typing import Final

from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES, read_noun
from stitchproof.language.read.steps.parts import names_part, part_length
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import as_int, read_stitch, starts_stitch
from stitchproof.language.tree import Counts, Noun, Thing

_OPENERS: Final = word_set(
    "see you note this these here now made be being take taking making should optional if refer"
    " photo picture fig figure hint tip rs ws your it that for it's it is total - = beg because"
    " pattern right wrong which so where always remember not to i i'm i've we we're you'll you're"
    " don't do if just yes there there's they let's or hooray phew move marker middle hole that's"
    " those stands between unless easy check no multiple multiples"
)
_SKIPPED: Final = word_set(
    "this it they these which skipped unworked missed first beginning beg turning starting the a an"
)
_LAST_WORDS: Final = word_set("made completed formed worked created begun total inc'd notes above")
IN_PLACE: Final = word_set("into times next same")
_THROUGHOUT: Final = word_set("throughout rest remainder every all onward onwards forward")
_PLACING: Final = word_set("in into around across next each sk skip inc dec")
_MOST_IN_ONE: Final = 8  # stitches in one place; more are a count
_NOT: Final = word_set("not never doesn't don't isn't")
_FILLERS: Final = word_set(
    "now and or here always as for the pattern whole unless otherwise this row work of piece from"
    " on rows rnds rounds time following at beginning beg start stated noted entire project"
)


def is_remark(reader: Reader, start: int, end: int) -> bool:
    """Tell whether the tokens between two brackets are advice, not steps."""
    first = reader.tokens[start]
    if reader.tokens[end - 1].text in _LAST_WORDS and not _ends_at_place_made(reader, start, end):
        return True
    if first.kind is TokenKind.WORD and first.text in _OPENERS:
        return True
    if _names_a_row(reader, start, end) or _says_where(reader, start, end):
        return True
    if first.text in {"a", "any"} and _second(reader, start, end) == "multiple":
        return True
    if first.text == "the" and _second(reader, start, end) in {"one", "ones", "same"}:
        return True  # "(the one that holds the first dc)" says again which place was named
    if first.text == "the" and _tells_where(reader, start, end):
        return True
    if (end - start == 1 and _is_a_word(reader, start)) or _explains_a_term(reader, start, end):
        return True
    if first.text == "working":  # "(working over both ch-1s)"; behind a comma stitches follow
        return not any(reader.tokens[i].text == "," for i in range(start, end))
    second = _second(reader, start, end)
    if first.kind is TokenKind.NUMBER and second in {"more", "fewer", "less", "additional"}:
        return not any(t.text in IN_PLACE for t in reader.tokens[start + 2 : start + 5])
    named = _told_by_parts(reader, start, end) or _names_a_part(reader, start, end)
    named = named or _explains(reader, start, end)
    return named or _is_count(reader, start, end) or _names_what_is_made(reader, start, end)


def _is_a_word(reader: Reader, at: int) -> bool:
    """Tell whether "chin" stands there alone: a word of the language, which names no work."""
    token = reader.tokens[at]
    letters = token.kind is TokenKind.WORD and token.text.isalpha() and len(token.text) > _SHORT
    spoken = letters and set(token.text) & set("aeiou") and token.text not in _WORKING | _ALONE
    return bool(spoken) and not starts_stitch(reader, at - reader.at)


def _explains_a_term(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "sl st = slip stitch" stands there: a name, and what it is in other words."""
    told = reader.tokens[start:end]
    at = next((i for i, token in enumerate(told) if token.text == "="), 0)
    brief = end - start - at <= _NEAR
    return (
        brief
        and 0 < at < min(end - start - 1, _NEAR)
        and all(token.kind is TokenKind.WORD for token in (*told[:at], told[at + 1]))
    )


_SHORT: Final = 3  # letters of an abbreviation
_ALONE: Final = word_set("skip miss rejoin around across chain again even rest")


def _says_where(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "same ch as first sc", "on the first of these in each ch too" stands there."""
    words = [token.text for token in reader.tokens[start : min(end, start + _NEAR)]]
    same = words[0] == "same" and words[1:2] != [] and words[2:3] in (["as"], ["where"])
    return same or words == ["on", "the", "first", "of", "these"]


_NEAR: Final = 5  # words


def _told_by_parts(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "28 on back and front each, 16 at each shoulder" stands there: a count again."""
    parts = [i for i in range(start, end) if names_part(reader, i - reader.at)]
    placed = any(reader.tokens[i].text in {"on", "at", "for"} for i in range(start, end))
    return (
        bool(parts)
        and placed
        and reader.tokens[start].kind is TokenKind.NUMBER
        and all(
            i in parts or reader.tokens[i].number is not None or reader.tokens[i].text in _BY_PARTS
            for i in range(start, end)
        )
    )


_BY_PARTS: Final = STITCHES | word_set("on at for each both and the , ; & of per sc dc hdc htr tr")


def _names_what_is_made(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "half shell", "first fan", "an increase" hangs on what was just made."""
    words = [reader.tokens[i].text for i in range(start, end)]
    named = words[-1] in _GROUPS or (len(words) > 1 and words[-1] in _CHANGES)
    if not named or not set(words[:-1]) <= _SORTS:
        return False
    before = reader.tokens[start - 2] if start > 1 else None
    after = reader.tokens[end + 1].text if end + 1 < len(reader.tokens) else ""
    hangs = before is not None and before.text not in _APART
    return hangs and after in {"", ",", ";", ".", ")", "]", "and", "then"}


_GROUPS: Final = word_set(
    "shell shells fan fans scallop scallops petal petals cluster popcorn bobble puff corner v point"
)
_CHANGES: Final = word_set("increase decrease inc dec")  # alone they are worked
_SORTS: Final = word_set(
    "half quarter full whole partial first second last end ending beg begin beginning start"
    " starting corner small large big mini a an one the single double - edge side centre center"
)
_APART: Final = word_set(", ; . * ** ( [ { work make and rep then in into")


def _ends_at_place_made(reader: Reader, start: int, end: int) -> bool:
    """Tell whether several steps end with the place "ch just made", and not with "shell made"."""
    steps = any(reader.tokens[i].text == "," for i in range(start, end))
    return steps and reader.tokens[end - 2].text == "just"


def _explains(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "the third loop is the bar below the V" stands there, a sentence of no work."""
    words = {reader.tokens[i].text for i in range(start, end)}
    if not words & _BEING or words & (_PLACING | _WORKING | CHAINS):
        return False
    here = reader.at
    works = False
    for i in range(start, end):
        reader.at = i
        works = works or reader.number() is not None or starts_stitch(reader)
    reader.at = here
    return not works


def _is_part_of(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "the center st of the corner" stands there, which says where a place is."""
    words = [reader.tokens[i].text for i in range(start, end)]
    numbers = any(reader.tokens[i].kind is TokenKind.NUMBER for i in range(start, end))
    plain = not numbers and not set(words) & (_PLACING | _WORKING | {",", ";"})
    return plain and words[1:2] != ["of"] and "of" in words[2:4] and len(words) < _FAR_PART


def _tells_where(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "the last 3 dc fall on the ch-3" stands there, "the center st of corner"."""
    falls = any(reader.tokens[i].text in _FALLING for i in range(start + 1, end))
    return falls or _is_part_of(reader, start, end)


_FALLING: Final = word_set("fall falls land lands sit sits lie lies")
_FAR_PART: Final = 9  # words
_BEING: Final = word_set("is are was that's it's thats")
_WORKING: Final = word_set("work make turn join rep repeat fasten times sl slip ss")


def _second(reader: Reader, start: int, end: int) -> str:
    """Give the second word between two brackets."""
    return reader.tokens[start + 1].text if end > start + 1 else ""


_ROW_NAMES: Final = word_set(
    "dec inc decrease increase buttonhole eyelet short shaping set up setup turning rib ribbing"
    " lace cable plain edging border joining dividing rs ws right wrong side foundation mesh bobble"
)


def _names_a_row(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "dec row", "short row", "buttonhole rnd" stands there, and nothing else."""
    words = [reader.tokens[i].text for i in range(start, end)]
    return words[-1] in {"row", "rnd", "round"} and set(words[:-1]) <= _ROW_NAMES


def _names_a_part(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "sleeve", "right front", "first armhole" stands there, and nothing else."""
    here = reader.at
    reader.at = start
    length = part_length(reader)
    reader.at = here
    return length > 0 and start + length == end


def _is_count(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "34 sts in all", "24" stands between brackets."""
    if reader.tokens[start].kind is not TokenKind.NUMBER:
        return False
    if end - start == 1:
        return True
    if end > start + 1 and reader.tokens[start + 1].text in STITCHES:
        return True
    return _only_counts(reader, start, end) and _attached(reader, start, end)


def _only_counts(reader: Reader, start: int, end: int) -> bool:
    """Tell whether "40 dc, 4 ch-2 sps" stands there: number and thing, and again."""
    begins = True
    for i in range(start, end):
        token = reader.tokens[i]
        if begins and token.kind is not TokenKind.NUMBER:
            return False
        if token.text in _PLACING:
            return False
        begins = token.text in {",", ";", "and", "+", "&"}
    return not begins


def _attached(reader: Reader, start: int, end: int) -> bool:
    """Tell whether a bracket hangs on the words before it and nothing hangs on it."""
    before = reader.tokens[start - 2].text if start > 1 else ""
    after = reader.tokens[end + 1].text if end + 1 < len(reader.tokens) else ""
    first = as_int(reader.tokens[start].number)
    counted = before not in {"", ",", ";", "*", "**", "(", "[", "{", "work", "make", "and", "rep"}
    if before in {",", ";", "."} and (first is None or first > _MOST_IN_ONE):
        counted = True
    return counted and after in {"", ",", ";", ".", "turn", "join", ")", "]", "–", "—"}


def starts_counts(reader: Reader) -> bool:
    """Tell whether "counts as", "does not count", "skipped chs count" begins at the cursor."""
    for i in range(8):
        text = reader.text(i)
        if text in {"count", "counts", "counted", "counting"}:
            return True
        known = text in _SKIPPED | CHAINS | _NOT or text in {"do", "does", "is", "are", "will"}
        if not known and reader.number(i) is None and text not in {"-", "each", "st", "sts"}:
            return False
    return False


_IS: Final = word_set(
    "= equals replaces replacing represents is are as which this standing stands in for that your"
    " first 1st a the"
)


def read_first_made(reader: Reader, end: int) -> Counts | None:
    """Read "first dc made", "= 1 dc", "not included in stitch count" beside a chain."""
    if reader.sees("not", "included"):
        return Counts("")
    lead = reader.at
    reader.pass_over(_IS)
    if reader.at == lead:
        return None
    if as_int(reader.number()) == 1:
        reader.take()
    named = read_stitch(reader) if starts_stitch(reader) else None
    reader.accept("made")
    chains = 0
    if reader.text() in {"+", "and", "plus", "&", ","} and _chain_ahead(reader):
        reader.take()
        chains = _chains(reader)
    return Counts(named.stitch.name, chains) if named is not None and reader.at == end else None


def read_equals(reader: Reader, end: int) -> Counts | None:
    """Read "ch 3 = 1 dc", "3 ch = first dc" beside a row: what its first chain counts as."""
    reader.accept("the")
    before = reader.at
    named = CHAINS | {"-", "skipped", "missed", "unworked"}
    while reader.text() in named or reader.number() is not None:
        reader.take()
    if reader.at == before or reader.text() not in {"=", "equals", "is", "are"}:
        return None
    return read_first_made(reader, end)


def read_counts(reader: Reader) -> Counts | None:
    """Read "counts as hdc and ch 1", "does not count as a st", "skipped chs do not count"."""
    negative = False
    while reader.text() not in {"count", "counts", "counted", "counting"}:
        negative = negative or reader.text() in _NOT
        reader.take()
    reader.take()
    stitch, chains = "st", 0
    if reader.accept("as"):
        read = _what(reader, negative=negative)
        if read is None:
            return None
        stitch, chains = read
    throughout = _throughout(reader)
    return Counts("" if negative else stitch, 0 if negative else chains, throughout)


def _what(reader: Reader, *, negative: bool) -> tuple[str, int] | None:
    reader.pass_over(word_set("a an the first 1st one beginning your"))
    if reader.number() is not None and as_int(reader.number()) == 1:
        reader.take()
    if reader.text() in CHAINS:
        return ("", _chains(reader))
    stitch = _stitch_name(reader)
    if stitch is None:
        return None
    chains = 0
    if reader.text() in {"and", "+", ",", "plus", "&", "or"} and _chain_ahead(reader):
        reader.take()
        reader.pass_over(word_set("a the"))
        if negative:
            _chains(reader)
        else:
            chains = _chains(reader)
    return stitch, chains


def _chain_ahead(reader: Reader) -> bool:
    ahead = 2 if reader.text(1) in {"a", "the"} else 1
    number_first = reader.number(ahead) is not None and reader.text(ahead + 1) in CHAINS
    return reader.text(ahead) in CHAINS or number_first


def _chains(reader: Reader) -> int:
    """Read "ch 1", "ch-2 sp", "1 ch"; a chain without a number is one."""
    count = as_int(reader.number())
    if count is not None:
        reader.take()
        reader.accept("-")
    reader.accept_any(CHAINS)
    if count is None:
        reader.accept("-")
        count = as_int(reader.number())
        if count is not None:
            reader.take()
    reader.accept("-")
    reader.accept_any(word_set("sp space loop lp"))
    return 1 if count is None else count


def _stitch_name(reader: Reader) -> str | None:
    if reader.text() in STITCHES:
        reader.take()
        return "st"
    if starts_stitch(reader):
        named = read_stitch(reader)
        if named is None:
            return None
        reader.accept_any(STITCHES)
        return named.stitch.name
    noun: Noun | None = read_noun(reader)
    return "st" if noun is not None and noun.thing is Thing.STITCH else None


def _throughout(reader: Reader) -> bool:
    throughout = False
    while reader.text() in _FILLERS | _THROUGHOUT | {"stitch", "st", "in", "each", "row", ","}:
        if reader.text() == "," and reader.text(1) not in {"here", "now", "throughout"}:
            break
        throughout = throughout or reader.text() in _THROUGHOUT
        reader.take()
    return throughout
