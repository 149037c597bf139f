"""Reading never raises, keeps every word, and its time grows in a line with the text."""

from hypothesis import given
from hypothesis import strategies as st

from stitchproof.base.place import Span
from stitchproof.language.read.lex import Token, TokenKind, lex
from stitchproof.language.read.steps.line import read_steps, work_of
from stitchproof.language.read.steps.reader import Context
from stitchproof.language.tree import Either, Group, Repeat, Step, Steps

WORDS = """
ch sc hdc dc tr htr sl st sts sp sps ch-1 ch-2 3 12 two twice once in into next each every first
last same top of turning ring from hook 2nd 4th ch * ** # ( ) [ ] { } rep repeat from to across
around end times more x , ; . : and then work turn join with sl st yarn B RS facing FPtr BLO loop
only 2 rows below behind sk skip leave unworked inc dec 2tog counts as does not count skipped chs
ending last rep at ** magic ring fasten off mark both edges Row shell made v-st wibble whipstitch
edge row ends evenly along opposite side another total all - – … ½ cm in. a the picot including
""".split()  # noqa: SIM905 - a list of words reads better as words
PHRASES = (
    "sc in each st across",
    "and in each ch",
    "2 dc in next ch-2 sp",
    "70 (76, 84)",
    "rep from * 3 times",
    "rep from * to last 3 sts",
    "in next sp work",
    "ending last rep at **",
    "ending with sc in last st",
    "(counts as dc)",
    "picot",
    "join with sl st in",
    "join B",
    "sk st behind FPtr",
    "working in back loops only",
    "leave last 5 sts unworked",
    "repeat around.",
    "4 times",
    "[sc, ch 1]",
    "FPdc around each FPdc and BPdc around each BPdc",
)
TOKENS = st.lists(st.sampled_from((*WORDS, *PHRASES)), max_size=30).map(" ".join)
CONTEXTS = st.sampled_from((Context(), Context(terms="UK"), Context(rounds=True, main="hdc")))


def tokens_of(text: str) -> tuple[Token, ...]:
    return lex(text, Span("t", 0, len(text)), frozenset())[0]


def walk(steps: Steps, depth: int = 0) -> list[Step]:
    found: list[Step] = []
    for step in steps:
        found.append(step)
        match step:
            case Group() | Repeat():
                found += walk(step.body, depth + 1)
            case Either():
                for reading in step.readings:
                    found += walk(reading, depth + 1)
            case _:
                pass
    return found


@given(TOKENS, CONTEXTS)
def test_shuffled_pattern_words_are_read(text: str, context: Context) -> None:
    tokens = tokens_of(text)
    steps, found = read_steps(tokens, context)
    for step in walk(steps):
        assert 0 <= step.place.start <= step.place.end <= len(text)
        if isinstance(step, Either):
            assert 2 <= len(step.readings) <= 8
            assert len(step.names) == len(step.readings)
    for one in found:
        assert one.message()
        assert 0 <= one.place.start < one.place.end <= len(text)


@given(st.text(max_size=200), CONTEXTS)
def test_any_text_is_read(text: str, context: Context) -> None:
    tokens = tokens_of(text)
    for token in tokens:
        assert text[token.place.start : token.place.end] == token.written
        if token.kind is TokenKind.NUMBER:
            assert token.number is not None
    read_steps(tokens, context)


def test_reading_is_the_same_every_time() -> None:
    text = "*Sc in next st, wibble; rep from * 4 times, (2 dc, ch 1) in next sp, 3 sc, turn."
    assert read_steps(tokens_of(text)) == read_steps(tokens_of(text))


def test_work_grows_in_a_line_with_the_text() -> None:
    for piece in (
        "sc in next st, ",
        "(sc, ch 1) in next sp, ",
        "*sc in next st; rep from * across, ",
        "wibble wobble ",
        "( ",
        ") ",
        "( ) ",
        "* ",
        "1 (",
        "in next ",
        "rep from * ",
        "{ ",
        "and in each ",
        "same st as ",
        "2nd and ",
        "skipped ch ",
        "sc … ",
        "(24 sc) ",
        "5-dc cl ",
        "rep around. sc, ",
        "sl st in first ch ",
    ):
        small, large = (work_of(tokens_of(piece * n), Context()) for n in (200, 800))
        assert large <= 4 * small + 100, piece


def test_deep_brackets_are_a_finding() -> None:
    text = "(" * 5000 + "sc" + ")" * 5000
    steps, found = read_steps(tokens_of(text))
    assert [one.finding.code.slug for one in found] == ["brackets-too-deep"]
    assert any(type(step).__name__ == "Unread" for step in walk(steps))


def test_words_that_come_twice_do_not_hold_the_reader() -> None:
    steps, _ = read_steps(tokens_of("Ch 1, pull the yarn and the end tight, sc in next st."))
    assert len(steps) > 1
