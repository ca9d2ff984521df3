"""Every `<` of a written page begins an element."""

import re
from xml.etree.ElementTree import Element, tostring

from hypothesis import given
from hypothesis import strategies as st

from methodsheets.pages.safe_markup import safe_markup
from methodsheets.pages.written import spelt_out, written

SIGNS = st.text(alphabet="<>\"'&=/ aimg-!x\n", max_size=40)


@given(SIGNS, SIGNS)
def test_the_words_of_an_attribute_hold_no_sign_of_an_element(title, text):
    element = Element("a", {"title": title, "class": "x"})
    element.text = text
    made = written(element)
    assert re.findall(r"<(/?\w+)", made) == ["a", "/a"]
    assert (made.count("<"), made.count(">")) == (2, 2)


@given(SIGNS)
def test_what_is_cleaned_is_written_so_too(title):
    quoted = title.replace("&", "&amp;").replace('"', "&quot;")
    made = safe_markup(f'<p title="{quoted}">words</p>')
    assert made.count("<") == 2
    assert spelt_out(made) == made


NAMES = st.sampled_from(["div", "p", "td", "br", "img", "input", "math", "script"])
ELEMENTS = st.recursive(
    st.builds(lambda name, held, after: (name, held, after, {}, []), NAMES, SIGNS, SIGNS),
    lambda inner: st.tuples(
        NAMES, SIGNS, SIGNS, st.dictionaries(st.sampled_from(["id", "title"]), SIGNS), st.lists(inner, max_size=3)
    ),
    max_leaves=8,
)


def grown(plan):
    name, held, after, attributes, inner = plan
    element = Element(name, attributes)
    element.text, element.tail = held, after
    element.extend(map(grown, inner))
    return element


@given(ELEMENTS)
def test_what_is_written_is_what_the_standard_library_writes_with_every_sign_spelt_out(plan):
    element = grown(plan)
    scripts = [one for one in element.iter("script") if set("<>") & set(one.text or "")]
    if not scripts:  # the standard library's text of a script is looked through for elements by `spelt_out`
        assert written(element) == spelt_out(tostring(element, encoding="unicode", method="html"))
