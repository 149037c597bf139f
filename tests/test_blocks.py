"""Markdown without a parser finds what the parser finds, where only headings are to be found."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from stitchproof.language.read.blocks import _marked, _parsed, find_lines

PARTS = (
    *("#", "##", "######", "#######", "#x", "-", "--", "---", "-x", "*", "***", "___", "===", "="),
    *("|", "-|-", ":-:", "a|b", ">", ">q", "<", "<b>", "<!--x", "-->", "+", "1.", "5.Ch", "```"),
    *("~~~", "``", "[a]:", "![x](y)", "\\#", "&#35;", "#Sc", "Sc in next st, turn.", "Row 3: Ch"),
    *("\ufeff", "\xa0", "\x0c", "\0", "\x1c", "\u2028", "\u3000"),
)


@settings(max_examples=400, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(("", "", " ", "   ", "    ", "\t", " \t")),
            st.lists(st.sampled_from(PARTS), max_size=3),
        ),
        max_size=6,
    )
)
@example([("", ["***", "\ufeff"])])
def test_headings_are_found_with_and_without_a_parser(rows: list[tuple[str, list[str]]]) -> None:
    text = "\n".join(indent + " ".join(words) for indent, words in rows)
    lines, _ = find_lines(text, 0, 100)
    assert _marked(text, lines) == _parsed(text, lines)
