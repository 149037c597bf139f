"""Stitches the author defines: `Shell: (2 dc, ch 1, 2 dc) in indicated st`.

A definition is either a group of known stitches in one place, or a movement told in words (yarn
over, insert hook, draw up). A movement with a name of the trade (`FPtr`) is that stitch; any other
name becomes a stitch of the author's, which takes one place and leaves one unless the words say
that several are drawn together.
"""

import re
from collections.abc import Callable, Mapping
from typing import Final, TypeAlias

from stitchproof.base.place import Span
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.shorthand import says_the_same
from stitchproof.language.tree import Make, Post, Remark, Special, Steps, Stitch, Unread
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms

ReadBody: TypeAlias = Callable[[int, int, Mapping[str, Special]], Steps]
"""Reads the words between two offsets as steps, knowing the stitches defined so far."""

_NAME: Final = r"[A-Za-z0-9][A-Za-z0-9’'/ .-]{0,44}?"
_SPAN: Final = (  # `Cable over 4 sts`
    r"(?i:\s{1,3}[(\[]?(?:worked )?(?:over|across) (?:next )?\d+ (?:sts?|stitches)[)\]]?)?"
)
_LEAD: Final = r"(?:[*_]*special stitch(?:es)?(?: used)?\s{0,3}[:–—-][*_]*\s{0,3})?"
_DEFINITION: Final = re.compile(
    rf"\s{{0,3}}(?:[-•–*+]\s+)?(?i:{_LEAD})[*_]*(?P<first>{_NAME}){_SPAN}\s{{0,3}}[*_]*\s{{0,3}}"
    rf"(?:[(\[](?P<second>{_NAME})[)\]])?[*_]*\s{{0,3}}"
    rf"(?:[:=–—]|\s-\s)\s{{0,3}}[*_]*\s{{0,3}}(?P<body>\S.*)",
    re.DOTALL,
)
_SENTENCE_OF_ONE: Final = re.compile(  # `A V-st is (dc, ch 1, dc)`, `Each shell means 5 dc in a st`
    r"\s{0,3}(?:[-•–*+]\s+)?[*_]*(?:(?:an?|the|each|every|one)\s+)?(?P<first>(?:v-?st(?:itch)?|shell|fan"
    r"|cluster|picot|popcorn|bobble|puff(?:\s+st(?:itch)?)?)s?)"
    r"(?:\s*[(\[](?P<second>[A-Za-z-]{1,8})[)\]])?[*_]*\s+"
    r"(?:(?:is|are)(?:\s+(?:made\s+(?:of|by|with)|worked\s+as|formed\s+by|always))?|means?|consists?\s+of"
    r"|stands?\s+for)\s+(?:making\s+|working\s+)?(?P<body>(?:\(|\[|\d)\S?.*)",
    re.DOTALL | re.IGNORECASE,
)


def _defining(words: str) -> re.Match[str] | None:
    """Match the name and the meaning of a definition."""
    return _SENTENCE_OF_ONE.match(words) or _DEFINITION.match(words)


_TITLE: Final = re.compile(
    rf"[*_]*(?P<first>{_NAME})[*_]*(?:\s{{0,3}}[(\[](?P<second>{_NAME})[)\]])?[:*_]*"
)
_MOVES: Final = re.compile(
    r"\b(?:yo|yarn over|yarn round hook|yrh|insert (?:the )?hook|draw(?:ing)? (?:up|through)"
    r"|pull(?:ing)? (?:up|through)"
    r"|loops? on (?:the )?hook|hook from (?:front|back))\b",
    re.IGNORECASE,
)
_IN_ONE: Final = re.compile(
    r"\b(?:in|into)\s+(?:the\s+)?(?:same|indicated|specified|next|designated|st|ch|sp|one|a|each|any|stated|place)\b"
    r"|\bindicated\b|\bsame (?:st|sp|ch)",
    re.IGNORECASE,
)
_OVER: Final = re.compile(
    r"\b(?:around|sk|skip|miss)\s+(?:each of\s+)?(?:the\s+)?(?:next|first|[1-9] st)", re.IGNORECASE
)
_TOGETHER: Final = re.compile(
    r"\b(?:over|in(?: each of)?)\s+(?:the\s+)?next\s+(?P<number>[2-9]|two|three|four|five)\s+"
    r"(?:sts?|stitches)",
    re.IGNORECASE,
)
_WORDS: Final = {"two": 2, "three": 3, "four": 4, "five": 5}
_TAIL: Final = re.compile(
    r"\s*(?:[.;,]\s*)?[(\[]?\s*(?:see|made|completed?)\b.*", re.DOTALL | re.IGNORECASE
)
_PLACE: Final = re.compile(
    r"\s*,?\s*(?:all\s+)?(?:worked\s+)?(?:in|into)\s+(?:the\s+|an?\s+|each\s+)?"
    r"(?:same|indicated|specified|designated|stated|st|next|one"
    r"|(?:ch[\s-]?\d{1,2}[\s-]|\d{1,2}[\s-]?ch[\s-]|corner\s)+(?:sp|space))\b"
    r"(?:\s+(?:st|sts|stitch|ch|sp|space|indicated|or|ch-sp|place|specified|as stated))*\s*$",
    re.IGNORECASE,
)
_GROUPS: Final = re.compile(
    r"(?:beg(?:inning)?[\s-]+|large\s+|small\s+|double\s+|half\s+)?(?:shells?|v-?st(?:itch)?"
    r"|clusters?|cl|puffs?(?: st)?|popcorns?"
    r"|bobbles?|picots?|fans?|crossed \w+|x-st|scallops?|pineapple|blocks?|stars?|spaces?"
    r"|corners?|point|petal|\w+\d?tog"
    r"|(?:open|closed|solid|filled|empty) (?:mesh|square|block)|[oc]m|[fb]p\w+|\w+ st(?:itch)?"
    r"|(?:\d ?[/x] ?\d |[\w-]+ )?(?:cables?|twist|cross)(?: \w+)?|\d ?[/x] ?\d ?\w{1,4}|ddc|mb|bob?"
    r"|ps|pc|sh|(?:c|t|tw|cr)\d|[A-Za-z]{1,2}\d[A-Za-z]{1,2}|cross(?:ed)?(?:[ -]\w+)?"
    r"|(?:chainless|standing|stacked)[ -][\w -]{2,25})",
    re.IGNORECASE,
)
_LONGEST: Final = 600  # characters of a definition
# words that a list of abbreviations explains, and no stitch
_NO_STITCH: Final = word_set("ch chs chain st sts sp sps rep rnd rnds sk yo rs ws beg")

_NO_SHORT: Final = re.compile(
    r"(?:rs|ws|mc|cc\d?|[a-f]|make \d+|x ?\d+|optional|us|uk)$", re.IGNORECASE
)
_SHORT: Final = re.compile(r"[A-Za-z0-9/-]{1,9}(?:[ -]?sts?)?$")
_LONGEST_SHORT: Final = 4  # letters
_TRADE: Final = re.compile(
    r"(?:bobble|cluster|popcorn|puff|shell|fan|v-?st|picot|cable|post|front|back|corner|point|peak|petal)",
    re.IGNORECASE,
)
_SAME_AS: Final = re.compile(  # `B = bobble: 5 dc …`
    r"(?P<name>bobble|cluster|popcorn|puff(?: stitch)?|shell|fan|picot|cable)\s*[:=–-]\s",
    re.IGNORECASE,
)
_LABELS: Final = re.compile(r"\b(?:rows?|rnds?|rounds?|step|next|size|note)\b", re.IGNORECASE)
_MADE_OF: Final = re.compile(
    r"(?:work |make )?(?:\(|\[|\d+ ?|an? )?(?:ch|sc|hdc|dc|tr|htr|dtr|fp|bp|sl st|ss|single"
    r"|half|double|treble|sk|skip|miss)\w*\b",
    re.IGNORECASE,
)


_STITCHES: Final = r"(?:ch|[fb]?p?[hs]?dc|sc|d?tr|htr)"


def _abbreviates(first: str, second: str | None, body: str) -> bool:
    """Whether `Drop down dc (DDC): dc in …` gives the short name of a stitch and what it is."""
    if second is None or _LABELS.search(first) or _NO_SHORT.match(second.strip()):
        return False
    letters = first.strip()[:1].lower() == second.strip()[:1].lower()
    short = _SHORT.match(second.strip()) and any(c.isalpha() for c in second)
    told = _MADE_OF.match(body) or _MOVES.search(body)
    return bool(letters and short and told and not first.strip()[:1].isdigit())


def is_definition(words: str, *, sure: bool = False) -> bool:
    """Tell whether words define a stitch; `sure`: they stand below such a heading."""
    match = _defining(words[:_LONGEST])
    if match is None:
        return False
    if sure or _abbreviates(match["first"], match["second"], match["body"]):
        return True
    long = (match["second"] or "").strip()  # `C4 (cable over 4 sts): …`
    named = " " in long and not _ROW.match(match["first"])
    if named and _abbreviates(long, match["first"], match["body"]):
        return True
    name = match["first"].strip()
    body = match["body"]
    stitchy = bool(
        _GROUPS.fullmatch(name) or stitches.named(name, "US") or stitches.named(name, "UK")
    )
    equal = words[match.end("first") : match.start("body")].strip() == "="
    if equal and len(name) <= _LONGEST_SHORT and _TRADE.match(body):  # `B = bobble: 5 dc …`
        stitchy = True
    if equal and _LETTERS.fullmatch(name) and _LISTED.match(body) and _IN_ONE.search(body[:80]):
        stitchy = True  # `V = (1tr, 2ch, 1tr) in one place`
    if name.lower().removesuffix("s") == "picot" and _CHAINED.match(body):
        return True
    if equal and len(name) <= _LONGEST_SHORT and name.isupper() and not _NO_SHORT.match(name):
        stitchy = stitchy or _MADE_OF.match(body) is not None  # `M = make 2 htr in same st`
    whole = _TRADE.match(name) and _IN_BRACKETS.match(body)
    return bool(stitchy or (equal and whole)) and bool(
        whole or _MOVES.search(body) or _IN_ONE.search(body) or _OVER.search(body)
    )


_IN_BRACKETS: Final = re.compile(  # `(dc, ch 1, dc), and counts as 3 sts`
    rf"(?P<body>\([^()]*\b\d?{_STITCHES}\b[^()]*,[^()]*\))"
    r"(?=\s*(?:$|[.;]|,?\s*(?:and|which|it|each)?\s*counts?\b))",
    re.IGNORECASE,
)
_ROW: Final = re.compile(r"(?:r|rn?d|row|round)\s?\d", re.IGNORECASE)
_LETTERS: Final = re.compile(r"[A-Za-z]{1,4}")
_LISTED: Final = re.compile(r"[(\[]|\d ?[a-z]")
_CHAINED: Final = re.compile(r"(?:\(|work |make )*(?:ch(?:ain)?[ -]?\d|\d ?ch\b)", re.IGNORECASE)


def read_special(
    text: str, place: Span, terms: Terms, known: Mapping[str, Special], read_body: ReadBody
) -> tuple[Special, ...]:
    """Read one definition.

    Parameters
    ----------
    text : str
        The whole text.
    place : Span
        The paragraph, without bullets.
    terms : Terms
        Whose stitch names the text uses.
    known : mapping of str to Special
        Defined before.
    read_body : ReadBody
        Reads a group.

    Returns
    -------
    tuple of Special
        One for each name (`Shell (sh)` has two); empty if it is no definition.
    """
    words = text[place.start : min(place.end, place.start + _LONGEST)]
    match = _defining(words)
    if match is None:
        return ()
    named = _SAME_AS.match(match["body"]) if match["second"] is None else None
    names = _names(match["first"], named["name"] if named else match["second"], terms)
    start = place.start + match.start("body")
    return _defined(names, (start, place), terms, (known, read_body, text))


def read_titled(
    title: str,
    text: str,
    place: Span,
    terms: Terms,
    reading: tuple[Mapping[str, Special], ReadBody],
) -> tuple[Special, ...]:
    """Read a definition whose name is the heading above it."""
    match = _TITLE.fullmatch(title)
    if match is None:
        return ()
    names = _names(match["first"], match["second"], terms)
    return _defined(names, (place.start, place), terms, (*reading, text))


def _defined(
    names: tuple[str, ...], where: tuple[int, Span], terms: Terms, reading: "Reading"
) -> tuple[Special, ...]:
    """Say what the words from an offset on mean, under each of the names."""
    start, place = where
    end = min(place.end, start + _LONGEST)
    end = _own_line(reading[2], start, end)
    another = _ANOTHER.search(reading[2], start, end)
    end = another.start() if another is not None else end
    body = " ".join(reading[2][start:end].split())
    made = _meaning(names, body, (start, end), terms, reading)
    if made is None or (_decreases(names[0], terms) and _leaves_open(made)):
        return ()
    steps, stitch = made
    kind = _BEGUN.sub("", names[0].lower())  # the cluster a row begins with is a cluster too
    return tuple(
        Special(
            name=name.lower(),
            written=name,
            body=steps,
            stitch=Stitch(kind, together=stitch.together)
            if stitch and stitch.kind == ""
            else stitch,
            words=body,
            place=place,
        )
        for name in names
    )


_BEGUN: Final = re.compile(r"^(?:beg(?:inning)?|start(?:ing)?)[\s-]+")
Reading: TypeAlias = tuple[Mapping[str, Special], ReadBody, str]
Meaning: TypeAlias = tuple[Steps | None, Stitch | None]
_DECREASE: Final = re.compile(  # what the trade reads without being told
    r"(?:inv(?:isible)?[. ]{0,2})?(?:sc |hdc |dc |single crochet )?dec(?:r|rease)?", re.IGNORECASE
)


def _decreases(name: str, terms: Terms) -> bool:
    """Whether a name alone says that stitches are drawn together."""
    known = trade_stitch(name, terms)
    return bool(_DECREASE.fullmatch(name)) or (known is not None and known.together > 1)


def _leaves_open(made: Meaning) -> bool:
    """Whether the words for a decrease tell how the hook moves, and not how many it takes."""
    steps, stitch = made
    if stitch is not None:
        return stitch.together == 1
    told = [step for step in steps or () if not isinstance(step, Remark)]
    return len(told) == 1 and isinstance(told[0], Make)


def _own_line(text: str, start: int, end: int) -> int:
    """Give where a definition ends that is followed by a line of other words."""
    line = text.find("\n", start, end)
    if line < 0 or _MOVES.search(text, start, end):
        return end
    ahead = text[line:end].lstrip()
    opened = sum(text.count(mark, start, line) for mark in "([")
    closed = sum(text.count(mark, start, line) for mark in ")]")
    whole = opened == closed and text[start:line].rstrip()[-1:] not in _GOES_ON
    return line if whole and ahead[:1].isupper() else end


_GOES_ON: Final = (",", ";", "-", "–", "—", ":", "+", "")


def _names(first: str, second: str | None, terms: Terms) -> tuple[str, ...]:
    """Give the names a definition is for: the trade's own long names are read without it."""
    names = [n.strip(" .'’") for n in (first, second or "") if n.strip(" .'’")]
    names = [n for n in names if n.lower() not in _NO_STITCH]
    own = [n for n in names if len(n.split()) <= 3]  # noqa: PLR2004 - more is a sentence
    short = [n for n in own if trade_stitch(n, terms) is None]
    trade = [n for n in own if n not in short]
    if trade and not short:
        return (min(trade, key=len),)
    return tuple(dict.fromkeys(short if len(short) < len(own) and short else own))


def _meaning(
    names: tuple[str, ...], body: str, place: tuple[int, int], terms: Terms, reading: Reading
) -> Meaning | None:
    """Say what a definition means: a group of steps, or a stitch."""
    if not names or says_the_same(names, body):
        return None
    stitch = trade_stitch(body.split(".", maxsplit=1)[0].split(",", maxsplit=1)[0].strip(), terms)
    if stitch is not None and not _MOVES.search(body):  # `Xst = half double crochet`
        plain = trade_stitch(names[0], terms)
        return None if plain == stitch else (None, stitch)
    if _MOVES.search(body) or (_AS_ONE.search(body) and _IN_ONE.search(body)):
        named = next((s for s in (trade_stitch(n, terms) for n in names) if s is not None), None)
        told = _TOGETHER.search(body)
        together = (_WORDS.get(told["number"].lower()) or int(told["number"])) if told else 1
        return None, named or Stitch("", together=together)
    return _group(body, place, reading) or _in_place(body, terms)


_AS_ONE: Final = re.compile(r"\btog(?:ether)?\b", re.IGNORECASE)
_ONE_STITCH: Final = re.compile(
    r"(?:work |make )?(?:an? |1 )?(?P<name>[a-z][a-z ]{1,24}?)"
    r" (?:worked )?(?:in|into|around|over)\b",
    re.IGNORECASE,
)


def _in_place(body: str, terms: Terms) -> tuple[None, Stitch] | None:
    """Read `dc in the unused loop of the stitch two rows below`: one stitch, wherever it goes."""
    match = _ONE_STITCH.match(body)
    stitch = trade_stitch(match["name"], terms) if match else None
    several = re.search(r"\b[2-9]\b(?!\s*(?:rows?|rnds?))|\bch\b", body, re.IGNORECASE)
    return None if stitch is None or several else (None, stitch)


def trade_stitch(name: str, terms: Terms) -> Stitch | None:
    """Give the stitch that a name of the trade means; None for groups and for other names."""
    named = stitches.named(name, terms)
    if named is None or stitches.stitches()[named.kind].group:
        return None
    return Stitch(named.kind, post=Post(named.post), together=named.together)


def _group(body: str, place: tuple[int, int], reading: Reading) -> Meaning | None:
    """Read `(2 dc, ch 1, 2 dc) in indicated st` as what is worked in the place."""
    known, read_body, text = reading
    start, end = place
    stop = _CLAUSE.search(text, start, end)
    if stop and text[stop.start()] == ";" and _COMES_BACK.search(text, stop.end(), end):
        stop = _SENTENCE.search(text, start, end)  # a cable: what it skipped is worked behind
    end = stop.start() if stop else end
    if not re.search(r"\d|\b(?:ch|sc|dc|hdc|tr|htr)\b", body, re.IGNORECASE):
        return None
    whole = _IN_BRACKETS.match(text, start, end)
    if whole is not None:
        end = whole.end("body")
    tail = _PLACE.search(text[start:end])
    if tail:
        end = start + tail.start()
    if (
        text[start : start + 1] in "(["
        and text[end - 1 : end] in ")]"
        and _one_pair(text[start:end])
    ):
        start, end = start + 1, end - 1
    steps = read_body(start, end, known)
    if not steps or (tail is None and any(isinstance(step, Unread) for step in steps)):
        return None
    told = [step for step in steps if not isinstance(step, Remark)]
    match told:
        case [Make(stitch)] if tail is None and stitch.together > 1:
            return None, stitch  # `sc next 2 sts tog` takes more places than one
        case _:
            return _without_last_words(steps), None


def _without_last_words(steps: Steps) -> Steps:
    """Leave out what an author adds behind a meaning: `increase (2 sc in the same stitch)`."""
    last = len(steps)
    while last > 1 and isinstance(steps[last - 1], Remark):
        last -= 1
    return steps[:last]


ANOTHER: Final = (  # a list goes on: `, fan = 9tr in one place`
    r"[,;]\s+(?=[A-Za-z][A-Za-z0-9/-]{0,14}(?:[ -]st)?(?:\s*\([^()]{1,12}\))?\s*=\s)"
)
_ANOTHER: Final = re.compile(ANOTHER)
_CLAUSE: Final = re.compile(r"[.;](?:\s|$)")
_SENTENCE: Final = re.compile(r"\.(?:\s|$)")
_COMES_BACK: Final = re.compile(r"\b(?:skipped|missed)\b", re.IGNORECASE)


def _one_pair(words: str) -> bool:
    """Whether the first bracket is closed by the last character."""
    depth = 0
    for i, char in enumerate(words):
        depth += (char in "([") - (char in ")]")
        if depth == 0:
            return i == len(words) - 1
    return False
