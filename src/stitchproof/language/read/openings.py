"""How an instruction line opens: row labels, verbs of the grammar, and words that only look so.

Nothing is read here. These shapes decide whether a line is an instruction at all, so they err on
the side of prose wherever a sentence about the work ("Row 1 is the right side", "Work loosely",
"Ch 3 counts as a dc") opens as an instruction would.
"""

import re
from typing import Final

# A number as it may stand in a line: `12`, `{rows}`, `70 (76, 84)`, `(18, 20)`, or a word.
WORD_NUMBERS: Final = (
    "one two three four five six seven eight nine ten eleven twelve".split()  # noqa: SIM905
)
_WORDS: Final = "|".join(WORD_NUMBERS)
_LIST: Final = r"[(\[]\s*\d[\d\s,:;/-]*[)\]]"
NUMBER: Final = (
    rf"(?:\d+(?:/\d+)*(?:\s*{_LIST})*|\{{[^{{}}\n]{{1,200}}\}}|{_LIST}|\b(?:{_WORDS})\b"
    r"|-\s*[(\[][-\d\s,]+[)\]])"
)

_BASE: Final = (
    r"sl\.?[\s-]?st(?:itch)?s?|slip[\s-]?st(?:itch)?(?:es)?|ss|f?(?:sc|hdc|dc|htr|tr|dtr|ttr|trtr|qtr)"
    r"|(?:half|single|double|treble|triple|quadruple)(?:[\s-](?:double|treble|triple))*"
    r"(?:[\s-]crochets?)?|e[sd]c|ehdc|(?:fp|bp)\w{1,5}|\w{1,5}\d?tog|inv(?:isible)?[\s-]?dec|inc|dec"
    r"|shells?|v-?sts?|cl|clusters?|puffs?|popcorns?|bobbles?|picots?|increase|decrease"
)
_STITCH: Final = rf"(?:{_BASE})\b(?:[\s-]+(?:[bf]lo|sts?|stitch))?"
_PLACE: Final = (
    rf"(?:in|into|around|across|each|every|evenly|to|along|over|next|twice|through|all|even|loosely"
    rf"|[bf]lo|together|as|at|between|join|seam|{NUMBER})"
)
_CHAIN: Final = r"(?:ch|chain)s?"
_COUNTED_TITLE: Final = (  # `Eight Shell Doily`
    rf"(?:{_WORDS}) (?:{_BASE}) (?!{_PLACE}\b|sts?\b|stitch|worked\b|made\b|all\b)[a-z]"
)
_STRONG: Final = (
    rf"(?!{_COUNTED_TITLE})(?:"
    rf"(?:(?:very |fairly )?loosely )?{_CHAIN}[\s-]*{NUMBER}|{NUMBER}[\s-]*(?:{_CHAIN}|{_BASE})\b"
    rf"|{_CHAIN}\s+(?:to|loosely|a(?!\s+multiple))\b|cast on {NUMBER}\s?{_CHAIN}\b"
    r"|(?:begin|start|commence)(?:ning|ing)? (?:with|by making) (?:an? )?"
    r"(?:(?:foundation|base|loose|starting|beginning) )*"
    rf"(?:{_CHAIN} of {NUMBER}|{NUMBER}\s?{_CHAIN}\b)"
    rf"|{_STITCH}(?:\s+{_PLACE}|\s*[,;]|\s*(?:[x×]\s*)?\d)|[bf]lo:?\s+(?:\d+\s?)?(?:{_BASE})\b"
    rf"|(?:rep(?:eat)?s?|rpt)\b|(?:do not |don['’]t )?(?:(?:fasten|finish|end|tie) off|f/o\b)"
    rf"|cut (?:the )?yarn"
    rf"|break (?:off )?(?:the )?yarn|do not (?:turn|join|cut|break)|(?:sk|skip|miss)\b"
    rf"|turn\b(?!\s+(?:out|up|heels?\b|the (?:piece|work|panel|cap|hat|heel)\b))|rotate\b"
    rf"|(?:make )?(?:an? )?(?:magic|adjustable|sliding) (?:ring|circle|loop)|mr\b"
    rf"|(?:make|work) {NUMBER}(?:\s*[(\[][\d\s,:;/-]+[)\]])?\s*(?:{_CHAIN}"
    rf"|{_BASE})\b|make an? (?:(?:foundation|base|loose|starting|beginning) )*(?:ch|chain) of\b"
    rf"|(?:work )?(?:in )?patt?(?:ern)?\s+(?:across|to|over|until|{NUMBER})\b"
    rf"|whip[\s-]?stitch\b|change to\b|switch to\b"
    rf"|[*(\[#†‡]+\s*(?:{_CHAIN}[\s-]?{NUMBER}|{NUMBER}\s?(?:{_CHAIN}|{_BASE})\b|(?:{_BASE})\b|sk|skip|miss)\b"
    rf"|[*(\[]+\s*(?:work )?(?:{NUMBER}|a)(?: more)?(?: plain| even)? (?:rows?|rnds?|rounds?)\b"
    rf"|[*(\[]+\s*(?:rep(?:eat)?|work) (?:the )?(?:\w+ )?(?:rows?|rnds?|rounds?)\b"
    rf"|in (?:(?:the )?(?:next|same|first|last|each|every)|ring|{NUMBER}(?:st|nd|rd"
    rf"|th)?)\b[^.;]{{0,60}}"
    rf"(?:work|make|\()"
    rf"|as (?:for )?(?:rows?|rnds?|rounds?)\b|=\s*\S)"
)
_BY_ORDINAL: Final = (  # rows named as `3rd to 6th rows`
    r"(?:the )?\d+(?:st|nd|rd|th)(?: ?(?:,|to|and|&|-|–) ?\d+(?:st|nd|rd|th))*"
    r" (?:rows?|rnds?|rounds?)"
)
_WORKED_AGAIN: Final = (
    rf"work (?:{_BY_ORDINAL}"
    rf"|(?:the )?(?:last|previous|these) (?:{NUMBER} )?(?:rows?|rnds?|rounds?))"
    rf" (?:again|once|twice|\d|{_WORDS})"
)
_NAMED_AGAIN: Final = (  # `Working even in between, rep the inc row on every 4th row`
    r"(?:work|cont)(?:inu(?:e|ing)|ing)?\b[^.;:]{1,40}?,? rep(?:eat)?(?:ing)? (?:the )?"
    r"(?:dec|inc)\w* (?:row|rnd|round)s?\b"
)
_GOING_ON: Final = (
    r"(?:cont(?:inue)?\.?|keep|carry on|go on) (?:on )?(?:to )?"
    r"(?:rep(?:eat)?(?:ing)?|work(?:ing)?|with)"
    r" (?:the )?(?:rows?|rnds?|rounds?|last|previous|these|this|\d+(?:st|nd|rd|th))\b"
)
_WEAK: Final = (
    r"join\b(?!\s+(?:us|me|in on|(?:each|every|all) (?:the )?(?:rnds?|rounds?)"
    r"|the (?:panels?|pieces?|fun|group|discussion|sides?)|shoulders?"
    r"|sides?|sides|pieces|all|together|side))"
    r"|rejoin\b|attach\b"
    rf"|{_NAMED_AGAIN}"
    r"|(?:sl\.?[\s-]?st|slip[\s-]?stitch|ss|sc|dc|single crochet|double crochet) (?:the |both |left"
    r" |right )*(?:shoulders?|sides?|underarms?|row ends?)(?: (?:seams?|edges?))?"
    r",? (?:together|tog|closed|through|working through)\b"
    rf"|work(?:ing)?\s+(?:{NUMBER}|even|same|as|rows?|rnds?|rounds?|in (?:each|next|patt|rows|rnds)"
    rf"|around|across|another|until|first|to end|straight|foundation|{_BASE})(?!\w)"
    rf"|{_WORKED_AGAIN}"
    rf"|{_GOING_ON}"
    r"|(?:rs|ws|right side|wrong side) facing, |(?:return|go back) to (?:the )?(?:row|rnd|round)\b"
    r"|with (?:rs|ws|right sides?|wrong sides?)\b"
    rf"|(?:place|put|insert|pop|hang|clip|attach|slip) (?:a |your |the |{NUMBER} )?"
    r"(?:st |stitch |locking )*markers?|pm\b"
    r"|(?:re)?move (?:the )?markers?|mark (?!the difference)"
    r"|cont(?:inue)?\.? (?:in|as|even|working|to|with|until|rows?|rep|on (?:these|those))\b"
    rf"|(?:at the same time|(?:keeping|maintaining)\b[^.;:]{{1,60}}),\s+(?:dec|inc)(?:rease)?\b"
    rf"|(?:inc|dec)(?:rease)?\s+(?:{NUMBER}|at|in|evenly|every|on)\b|leav(?:e|ing)\s+(?:the\s+)?"
    rf"(?:{NUMBER}|last|next|rem|(?:cent(?:re|er)|middle)\s+{NUMBER})"
)
_LEAD: Final = (  # a lead that sets something up before the first verb
    r"(?:with|using|holding|working|start(?:ing)?|commenc(?:e|ing)|beginning|beg|begin|from|along|around|into?|at|on|leaving"
    r"|in (?:mc|cc\d?|(?:yarn|colou?r|shade) \w+"
    r"|(?:the )?(?:main|contrast(?:ing)?) (?:colou?r|shade|yarn))"
    r"|return|counting|for|to (?:begin|start)|rs|ws|right side|wrong side)\b"
)
_GAUGE: Final = re.compile(
    r"\brows?\b[^.]{0,80}(?:=|equal|to \d+(?:\.\d+)? ?(?:cm|in))|= ?\d[\d.½¼¾]* ?(?:cm|in\b|\")",
    re.IGNORECASE,
)
STANDS_FOR: Final = (  # what a chain is or does where it counts, and nobody says `counts`
    r"(?:(?:(?:is|are)\s+(?:always\s+)?(?:(?:treated|considered|taken|seen|regarded|used|worked)"
    r"\s+(?:as|like|for|in\s+place\s+of|instead\s+of)|(?:equal|equivalent)\s+to|worth)"
    r"|(?:acts?|serves?|works?|functions?)\s+(?:as|like)|equals?"
    r"|(?:always\s+)?(?:stands?(?:\s+in)?\s+for|takes?\s+the\s+place\s+of|replaces?))\b"
    r"|(?:makes?|forms?|represents?|becomes?)(?=\s+(?:the|your|its)\s+(?:first|1st)\b))"
)
STANDS_FOR_NOTHING: Final = (
    r"(?:is|are)\s+(?:always\s+)?(?:extra|nothing|no\s+st(?:itch(?:es)?|s)?)\b"
)
CONVENTION: Final = re.compile(
    rf"(?:the |an? |beg(?:inning|\.)? |start(?:ing)? |turning |initial |first |each |every |all )*"
    rf"(?:t-?ch|{_CHAIN}|\d\s?{_CHAIN}(?=\s*=|\s+(?:at|is|are|do(?:es)?|counts?|always|stands?"
    r"|acts?|serves?|equals?|replaces?|takes?|before\s+\w+\s+(?:is|are|and|do(?:es)?|counts?)"
    r"|(?:and|or)\s+\d\s?ch|turns?\s+(?:are|is|do)"
    r"|(?:and\s+)?turn(?:ing)?\s+at)\b|,\s*turn\s+at\b)"
    r"|sl(?:ip)?[\s-]st(?:itch)?(?:es|s)?)\b[^.;:*]{0,80}?\b(?:"
    r"(?:(?:do(?:es)?|is|are|will|shall)\s*(?:not|n['’]t)|never|always)?\s*(?:count(?:s|ed)?)\b"
    r"|\s*=\s*[^.;:*]{1,20}?\b(?:throughout|unless|always|here"
    r"|(?:at|in)\s+the\s+(?:start|beg(?:inning)?)|in\s+(?:every|each|this\s+pattern))\b"
    rf"|\s*=\s*(?:(?:the|a|an|one|1|first) ?)*(?:{_BASE})\b(?=\s*(?:\.(?!\d)|$))"
    r"|(?:is|are)\s*(?:not|n['’]t|never)\s+(?:considered\s+)?(?:an?\s+)?st(?:itch(?:es)?|s)?\b"
    r"|(?:is|are)\s+(?:only|just|merely|simply)\s+(?:there\s+)?(?:for|to)\b"
    rf"|(?:is|are)\s+(?:always\s+)?(?:an?|the|one|1|your)\s+(?:first\s+)?(?:{_BASE})\b"
    rf"|{STANDS_FOR}|{STANDS_FOR_NOTHING})",
    re.IGNORECASE,
)


def _compiled(pattern: str) -> re.Pattern[str]:
    """Compile a shape of words, whatever space the author put between them."""
    return re.compile(pattern.replace(" ", r"\s+"), re.IGNORECASE)


_STRONGLY: Final = _compiled(_STRONG)
_WEAKLY: Final = _compiled(_WEAK)
_LEADS: Final = _compiled(_LEAD)
_JOIN: Final = re.compile(r"join\b", re.IGNORECASE)
_MARKED: Final = _compiled(
    rf"(?:place|put|hang|pm) (?:a |{NUMBER} )?(?:st |stitch |locking )*markers? in\b"
)
_SPACE: Final = re.compile(r"\s")
_SENTENCE_END: Final = re.compile(r"[;:]|\.(?!\d)")
_JOINT: Final = re.compile(r"^|[,;:(*\[]\s*|\b(?:then|and|together)\s+", re.IGNORECASE)
_SEAM: Final = _compiled(
    r"\b(?:whip[\s-]?stitch|(?:sl st|sc|sew|seam|join) (?:(?:the |both |front |back )*"
    r"(?:shoulders?|sides?|panels?|pieces?|row ends?|seams?))|mattress stitch)"
)

ROWS_AGAIN: Final = _compiled(
    rf"(?:{_GOING_ON}|(?:rep(?:eat)?s?|rpt) (?:the )?"
    r"(?:rows?|rnds?|rounds?|last|previous|these|this|first|\d+(?:st|nd|rd|th))\b"
    r"|rep(?:eat)? (?:the )?"
    r"(?:(?!(?:from|to|until|across|around|in|on|of|for|entire|whole|as|next)\b)"
    r"[a-z]+ ){1,2}(?:rows?|rnds?|rounds?)\b"
    rf"|work (?:even|straight|as|same|(?:{NUMBER}|\w+)(?: more)? (?:rows?|rnds?|rounds?)"
    r"|(?:the )?(?:foundation|base) (?:ch|chain|row|rnd)s?,? (?:and|&) (?:rows?|rnds?|rounds?)"
    rf"|in (?:{_BASE}) (?:for|until)|in (?:the )?(?:est(?:ablished)? )?patt(?:ern)?)\b"
    r"|cont(?:inue)?\.? (?:in (?:patt|this|the same)|even|to rep|as(?! follows)"
    r"|without shaping|straight"
    rf"|in (?:{_BASE}) (?:for|until))"
    rf"|{_WORKED_AGAIN}"
    rf"|{_NAMED_AGAIN}"
    rf"|work (?:a )?(?:further|another) {NUMBER} (?:rows?|rnds?|rounds?)\b"
    r"|shape (?:\w+ ){1,3}by (?:dec|inc|work)\w*\b"
    r"|(?:dec|inc)(?:rease)? (?:\d+|one) (?:sts?|sc|hdc|dc|htr|tr)\b"
    rf"|(?:sl st|ss|skip|sk|miss|leave|bind off|cast off) (?:across |over |in )?(?:first )?{NUMBER}"
    r" sts? (?:unworked )?(?:at|on) (?:the )?(?:beg(?:inning)?|end|each|both|start)\b"
    r"|(?:keeping|maintaining|work(?:ing)? in|cont(?:inu(?:e|ing))?\.? (?:in|to work)"
    r"|at the same time)\b[^.;:]{0,60}?,? (?:dec|inc)(?:rease)? (?:\d+|one) sts?\b)"
)
ROWS_AGAIN_INSIDE: Final = re.compile(
    r"(?<=[.)\]}])\s+(?=Rep(?:eat)?\s+(?:the\s+)?(?:[Rr]ows?|[Rr]nds?|[Rr]ounds?|last|previous"
    r"|(?:this|these)\s+(?:rows?|rnds?|rounds?))\b"
    r"|Work\s+\d+\s+(?:more\s+)?(?:rows|rnds|rounds)\s+even\b)"
)

LABEL_INSIDE: Final = re.compile(
    r"(?<=[.;])\s+(?=(?:Row|Rnd|Round)\s+\d+\s*(?:\([^()\n]{1,30}\)\s*)?:)"
)
REACH: Final = 400  # characters of a line that decide what it is; keeps every search bounded
BULLET: Final = re.compile(r"\s*(?:[-–—•·◦▪*+]\s+)?")
EMPHASIS: Final = re.compile(
    r"(?:\*\*\*|\*\*|___|__|_(?=\w)"
    r"|\*(?=[A-Z]\w|\d{1,3}(?:st|nd|rd|th)\s[^*\n]{1,60}\*)(?![^*\n]{0,400}\bfrom (?:the )?\*))"
)

_ROW: Final = r"(?:rows?|rn?ds?|rounds?|r(?:\.|(?=\s?\d)))"
_ORDINAL: Final = r"(?:\d+\s?(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|last|final)"
_LABEL: Final = re.compile(
    rf"(?:{_ROW}\s*{NUMBER}|next\s+(?:{NUMBER}[^:.]{{0,40}}\s*)?{_ROW}"
    rf"|{_ORDINAL}(?:\s*(?:,|and|&|to|-|–)\s*{_ORDINAL})*(?:\s*[(\[][\w\s,:;/–-]{{1,60}}[)\]])?"
    rf"\s+(?:[a-z-]{{3,12}}\s+){{0,2}}?{_ROW}\b"
    rf"|(?:[a-z][\w-]*\s+){{1,3}}?{_ROW}\b\s*(?:{NUMBER})?"
    rf"|step\s+{NUMBER})",
    re.IGNORECASE,
)
_BARE: Final = re.compile(
    r"\d{1,3}(?:\s*(?:-|–|—|to|,|and|&)\s*\d{1,3})*\s*"
    r"(?:(?:[(\[][\d\s,:;–-]{3,60}[)\]]\s*)?[.:)]|\s[-–—])\s+(?=\S)"
)


_TITLED: Final = re.compile(  # `**Left neck** Row 11:`, a part set off before its first row
    r"(?P<marks>\*{1,3}|_{1,3})(?=[A-Z])[^*_:.;,\d]{2,40}[.]?(?P=marks)[.]?\s*(?:[–—-]\s*)?"
    rf"(?=(?:\*\*|__)?{_ROW}\s*\d)",
    re.IGNORECASE,
)


def skip_marks(line: str) -> int:
    """Tell how many characters of a bullet and of emphasis stand before the words."""
    at = BULLET.match(line)
    start = at.end() if at else 0
    title = _TITLED.match(line, start)
    start = title.end() if title else start
    marks = EMPHASIS.match(line, start)
    return marks.end() if marks else start


def opens_with_a_label(line: str) -> bool:
    """Tell whether a line opens as a row label would; the label reader has the last word."""
    line = line[:REACH]
    start = skip_marks(line)
    return bool(_LABEL.match(line, start) or _BARE.match(line, start))


_YARN_FIRST: Final = re.compile(r"(?:with|using)\s(?:[^.,;:]|\.\d){1,40},\s+", re.IGNORECASE)


def works_rows_again(line: str) -> bool:
    """Tell whether a line opens with rows that are worked again: `With B, rep Row 2`."""
    start = skip_marks(line)
    lead = _YARN_FIRST.match(line, start)
    return bool(ROWS_AGAIN.match(line, lead.end() if lead else start))


def opens_with_a_verb(line: str) -> bool:
    """Tell whether a line opens with a verb of the grammar rather than with a sentence about it."""
    return opens_strongly(line) or opens_weakly(line)


_CHAIN_BESIDE: Final = re.compile(
    rf"(?:{_CHAIN}[\s-]*\d+|\d+\s?{_CHAIN})\s*[(\[][^()\[\]]{{0,60}}[)\]]\s*[,;.]", re.IGNORECASE
)


def is_convention(line: str, start: int) -> bool:
    """Tell `Ch 3 counts as a dc` from `ch 3 (counts as dc), turn`, which is done."""
    return bool(CONVENTION.match(line, start)) and not _CHAIN_BESIDE.match(line, start)


def explains_a_term(line: str, start: int) -> bool:
    """Tell whether a line says what an abbreviation is: `hdc2tog = half double crochet 2 tog`."""
    return _EXPLAINED.match(line, skip_marks(line[start:]) + start) is not None


_EXPLAINED: Final = re.compile(
    r"\(?[a-z][\w()-]{0,12}(?:[ /][a-z][\w()-]{0,8}){0,2}\s*=\s*"
    r"(?:front|back|half|double|single|treble|slip|chain|extended|raised|stitch|foundation)"
    r"(?![\w-]*\s*(?:\d|=))\b",
    re.IGNORECASE,
)


def states_a_convention(line: str, start: int) -> bool:
    """Tell `Ch 3 always = dc` from `Ch 4, 2 dc in 4th ch (skipped chs count as dc)`."""
    found = CONVENTION.match(line, start)
    return found is not None and "(" not in found.group()


def opens_strongly(line: str) -> bool:
    """Tell whether a line opens with words that only an instruction opens with."""
    line = line[:REACH]
    start = skip_marks(line)
    if is_convention(line, start) or explains_a_term(line, start) or _is_gauge(line, start):
        return False
    return bool(_STRONGLY.match(line, start))


def opens_weakly(line: str) -> bool:
    """Tell whether a line opens with a verb of the grammar that prose opens with as well."""
    line = line[:REACH]
    start = skip_marks(line)
    if is_convention(line, start) or explains_a_term(line, start) or _is_gauge(line, start):
        return False
    return bool(_WEAKLY.match(line, start) or _is_led(line, start))


def _is_gauge(line: str, start: int) -> bool:
    """Tell `14 sts and 9 rows = 10 cm` from `Rep Row 2 until piece measures 10 cm = 12 rows`."""
    return _GAUGE.search(line) is not None and not ROWS_AGAIN.match(line, start)


def _is_led(line: str, start: int) -> bool:
    """Tell whether a lead (`With larger hook,`) comes before a verb in the same sentence."""
    lead = _LEADS.match(line, start)
    if lead is None:
        return False
    stop = _SENTENCE_END.search(line, lead.end())
    # The verb may follow the mark that ends the lead: `For the cuff: ch 20`.
    bound = len(line) if stop is None else stop.end() + 1
    return any(
        (
            _STRONGLY.match(line, space.end())
            or _JOIN.match(line, space.end())
            or (line[space.start() - 1] == "," and _MARKED.match(line, space.end()))
        )
        and not is_convention(line, space.end())
        for space in _SPACE.finditer(line, lead.end(), bound)
    )


def holds_a_verb(words: str) -> bool:
    """Tell whether the words after a label hold something to work."""
    head = words[:REACH]
    within = any(_STRONGLY.match(head, joint.end()) for joint in _JOINT.finditer(head))
    return within or opens_with_a_verb(head) or bool(_SEAM.search(head))


def first_words(text: str, most: int = 6) -> str:
    """Name an instruction without a label: its first words, up to a comma or stop."""
    head = re.split(r"[,;:](?![^()]*\))|\.(?!\d)", " ".join(text[:200].split()), maxsplit=1)[0]
    words = head.split()
    named = " ".join(words[:most])
    while named.count("(") > named.count(")") and most < len(words):
        named += f" {words[most]}"  # a list of sizes is not cut in two
        most += 1
    return named.strip("*_ ")


def skip_space(text: str, at: int, end: int) -> int:
    """Go past space to the next word."""
    while at < end and text[at].isspace():
        at += 1
    return at
