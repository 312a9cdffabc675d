"""Elements become HTML and SVG; nothing that is put into them can be anything but text."""

import doctest
import xml.etree.ElementTree as ET
from html.parser import HTMLParser

import pytest

from surfacecalc import elements
from surfacecalc.elements import Element, Picture, element, html_of, name, nodes, svg_of
from surfacecalc.problems import printable

HOSTILE = [
    "<script>alert(1)</script>",
    "]]>&lt;\"'><svg onload='x'>",
    "left\u202eright\u2066x\u200f",
    "tab\tnul\x01escape\x1b[31m",
    "&amp; &#60; \u2028 \u00ad",
]
HIDDEN = "\x00\x01\x1b\t\u00ad\u200f\u202e\u2066\u2028"


class Seen(HTMLParser):
    """Tags, attributes and text that a reader of HTML finds."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.text += data


def test_examples_of_the_docstrings_are_true():
    assert doctest.testmod(elements).failed == 0
    assert doctest.testmod(elements).attempted >= 2


@pytest.mark.parametrize("text", HOSTILE)
def test_any_text_is_text_in_an_element_and_in_an_attribute(text):
    seen = Seen(html_of(element("p", name(text), title=text)))
    assert ["p", "bdi"] == [tag for tag, _ in seen.tags]
    assert ["title"] == list(seen.tags[0][1])
    shown = printable(text)
    assert shown == seen.tags[0][1]["title"] == seen.text.rstrip("\n")


@pytest.mark.parametrize("text", HOSTILE)
def test_any_text_is_text_in_a_drawing(text):
    drawing = element("svg", element("text", text, id=text))
    root = ET.fromstring(svg_of(drawing))  # noqa: S314 it was written a moment ago
    (found,) = root
    assert printable(text) == found.text == found.get("id")


@pytest.mark.parametrize("write", [html_of, svg_of])
def test_what_hides_or_turns_text_is_spelled_out(write):
    made = write(element("p", HIDDEN, title=HIDDEN))
    assert set() == set(HIDDEN) & set(made)


def test_a_script_that_would_end_itself_is_refused():
    assert "<script>a < b</script>\n" == html_of(element("script", "a < b"))
    for text in ("</script>", "<!--"):
        with pytest.raises(ValueError, match="must not hold"):
            html_of(element("script", text))


def test_elements_without_content_have_no_end_tag_in_html_and_one_sign_in_a_drawing():
    assert "<br>" == html_of(element("br"))
    assert "<td></td>" == html_of(element("td"))
    assert svg_of(element("rect", width=2)).endswith('<rect width="2"/>\n')


def test_attributes_are_named_as_html_names_them():
    made = element("label", for_="a", aria_label="b", hidden=True, open=False, title=None)
    assert '<label for="a" aria-label="b" hidden=""></label>' == html_of(made)


def test_nothing_is_no_content_and_lists_are_what_is_in_them():
    assert [] == list(nodes([None, [], [None]]))
    made = element("p", None, ["a", [element("b", "c"), None]], (one for one in "de"))
    assert "acde" == made.text
    assert ("b",) == tuple(child.tag for child in made.elements)


def test_a_picture_is_an_image_in_the_page_itself_with_its_words():
    drawing = element("svg", element("text", "x"))
    seen = Seen(html_of(Picture(drawing, 'a "dresser"')))
    ((tag, given),) = seen.tags
    assert ("img", 'a "dresser"') == (tag, given["alt"])
    assert given["src"].startswith("data:image/svg+xml;base64,")


def test_a_drawing_in_a_drawing_is_refused():
    with pytest.raises(TypeError):
        svg_of(Element("svg", children=(Picture(element("svg"), ""),)))
