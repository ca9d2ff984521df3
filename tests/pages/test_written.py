"""Every `<` of a written page begins an element."""

import re
from xml.etree.ElementTree import Element

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
