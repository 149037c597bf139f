"""Sentences among the rows that make no stitch: "Pull tight.", "Seam the short ends.".

Nobody can list all that a maker may be told to do between two rows. What is known is the trade's
own words for working: a sentence in which none of them stands, nor any words that place a stitch,
changes nothing that is counted.
"""

import re
from functools import lru_cache
from itertools import pairwise
from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.vocabulary import near, one_word
from stitchproof.trade.stitches import words as stitch_names
from stitchproof.trade.tables import Terms

_WORKING: Final = word_set(
    "ch chs chain chains sl ss slst slip turn join rep repeat repeats rpt reps sk skip miss inc"
    " incs dec decs increase increases increasing decrease decreases decreasing fasten fo work"
    " works working worked pattern patt patts even evenly straight established until measure"
    " measures times time x twice once magic ring mr mc hook mark marker markers marked pm change"
    " changing switch switching each every next same across foundation rejoin reverse reversing"
    " shaping blo flo yo row's gauge"
)
_STITCH_WORDS: Final = word_set("st sts stitch stitches sp sps space spaces lp lps loop loops")
_PLACING: Final = word_set(
    "first last remaining rem unworked to around in into over all both through"
)
_ROWS: Final = word_set("row rows rnd rnds round rounds")
_COUNTING: Final = word_set("more last these this those following previous")
_WORD: Final = re.compile(r"[a-z][a-z'’]*|\d+|[*\[\]{}#†]")
# What is sewn or put in beside the work.
ADORNMENTS: Final = word_set(
    "eye eyes nose button buttons stuffing fiberfill bead beads label tag ribbon bell wire joints"
    " straps ties tassel tassels fringe cords drawstring pompom pompoms"
)
# A part of a garment that stands alone names what follows: `Neck shaping`, `Yoke`.
_PART: Final = re.compile(
    r"(?:(?:right|left|first|second|both|back|front|upper|lower|side|v)[ -])*"
    r"(?:neck(?:line)?|armholes?|shoulders?|raglan|yoke|sleeves?|body|waist|hips?|bust|crown|collar"
    r"|cuffs?|heel|toe|thumb|gusset|hood|brim|hand|foot|leg|arms?|head|ears?|tail|panel|border|edging"
    r"|straps?|pocket|bib|skirt|bodice|sole|upper|band|fronts?|backs?)"
    r"(?: cap)?(?: shaping| decreases| increases)?:?",
    re.IGNORECASE,
)
# What is made already looks so: `The bobbles pop out at the back`, `The last round should sit low`.
_LOOKS: Final = re.compile(
    r"\s*(?:the|your|these|those|all|both)\s+(?:[a-z-]+\s+){1,2}?"
    r"(?:(?:should|will|may|might|must|can)\s+(?:(?:now|all|then|just|still|naturally)\s+)?)?"
    r"(?:pop|stick|show|sit|lie|lay|curl|lean|stand|point|face|fall|look|appear|puff|bend|hang)s?"
    r"\s+(?!(?:up|out)?\s*(?:a|an|the)?\s*(?:sts?|stitch(?:es)?)\b)",
    re.IGNORECASE,
)
# What is left to the maker may name a stitch: `Edge the sides with sc if you like`.
_AS_LIKED: Final = re.compile(
    r"\s+(?:with|in)\s+(?:(?:a|one|some)\s+(?:row|round|rnd|bit)\s+of\s+)?[a-z]+(?:\s+crochet)?"
    r"\s+(?:(?:if|as)\s+you\s+(?:like|wish|want|prefer|please)|if\s+desired)\s*[.!]?\s*$",
    re.IGNORECASE,
)
# Which part comes next: `Go straight on with the strap`, `move on to the flap`.
_NEXT_PART: Final = re.compile(
    r"\s*(?:now\s+)?(?:(?:go|move|carry|pass|proceed|head)\s+)?(?:straight|right|directly)?\s*"
    r"(?:on|over)?\s*(?:to|with|onto)\s+(?:the|your)\s+(?:(?:first|second|other|next)\s+)?[a-z]+\s*",
    re.IGNORECASE,
)
_LEFT_FOR: Final = re.compile(  # `20 sts remain for second shoulder`
    r"\s*(?:there\s+(?:are|will\s+be)\s+)?[\d(),/\s\[\]-]+(?:sts?|stitches)\s+"
    r"(?:(?:will\s+)?remain(?:ing)?|(?:are\s+)?left)\s+(?:for|on)\s+[a-z\s]+[.;]?\s*",
    re.IGNORECASE,
)
_OF_MYSELF: Final = re.compile(r"\s*I(?:['’](?:m|ve|d))?\s+[a-z]")  # `I like to pop a marker in`
# What is reached is praised: `That's your first ring of petals!`
_THAT_IS: Final = re.compile(
    r"\s*(?:that['’]s|you['’]ve|you have|it['’]s|there['’]s)\s", re.IGNORECASE
)
_SOFT: Final = re.compile(r"\b(?:first|last|ring|round|row|time|even|next)\b", re.IGNORECASE)
_NAMED: Final = re.compile(r"\d|[*\[\]{}#†]")
_VERBS: Final = word_set("try")  # that look much like a stitch
_FEWEST: Final = 2
_LONGEST: Final = 300  # characters
_SHORTEST_FIRST: Final = 3
_SHORT_WORDS: Final = word_set("a an go if it i we my or so")


@lru_cache(maxsize=4)
def _names(terms: Terms) -> frozenset[str]:
    """Give every word that stands in the name of a stitch alone, or begins one."""
    return frozenset(name.split()[0] for name in stitch_names(terms) if not name[0].isdigit())


def names_part(words: str) -> bool:
    """Tell whether words name a part of a garment and no more: "Yoke", "right front"."""
    return bool(_PART.fullmatch(words.strip()))


def is_aside(words: str, terms: Terms = "US") -> bool:
    """Tell whether a whole sentence or clause makes no stitch and places none."""
    if names_part(words):
        return True
    if _LEFT_FOR.fullmatch(words):
        return True
    if goes_on_to_part(words, terms) or _OF_MYSELF.match(words):
        return True
    if _THAT_IS.match(words) and not _NAMED.search(words):
        words = _SOFT.sub("", words)
    looks = _LOOKS.match(words)
    if looks is not None and not _NAMED.search(words):
        return makes_nothing(words[looks.end() :], terms)
    found = _WORD.findall(words[:_LONGEST].lower().replace("-", " "))
    plain = [word for word in found if word[0].isalpha()]
    if len(plain) < _FEWEST or not found[0][0].isalpha():
        return False
    if len(plain[0]) < _SHORTEST_FIRST and plain[0] not in _SHORT_WORDS:
        return False
    if not set(plain[0]) & set("aeiouy") or (plain[0] not in _VERBS and near(plain[0], terms)):
        return False
    if _AS_LIKED.search(words) and plain == found and not set(plain) & _PLACED:
        return True
    return makes_nothing(words, terms)


_PLACED: Final = word_set("each next every same last first rep repeat")


def goes_on_to_part(words: str, terms: Terms) -> bool:
    """Tell whether words say which part comes next: "go straight on with the strap"."""
    return bool(_NEXT_PART.fullmatch(words)) and makes_nothing(words.rsplit(maxsplit=1)[-1], terms)


def makes_nothing(words: str, terms: Terms = "US") -> bool:
    """Tell whether no word of working, and none that places a stitch, stands among some words."""
    if len(words) > _LONGEST:
        return False
    found = _WORD.findall(words.lower().replace("-", " "))
    plain = [word for word in found if word[0].isalpha()]
    marks = [word for word in found if not word[0].isalnum()]
    if marks or any(_works(word, terms) for word in plain):
        return False
    placing = set(plain) & _PLACING
    if placing and set(plain) & _STITCH_WORDS:
        return False
    return not any(
        word in _ROWS and (before.isdigit() or before in _COUNTING)
        for before, word in pairwise(found)
    )


def _works(word: str, terms: Terms) -> bool:
    return word in _WORKING or word in _names(terms) or one_word(word, terms) is not None
