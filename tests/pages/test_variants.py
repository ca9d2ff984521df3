"""Tests of `pages.variants`: equal parts once, different parts one for each workshop."""

from methodsheets.pages import document as d
from methodsheets.pages.variants import merge, merge_words, workshops_in


def card(*content, id="op-10"):
    return d.Group("card", content, id=id)


def say(words):
    return d.Paragraph(d.words(words))


def test_equal_trees_are_there_once():
    tree = (card(say("the same")),)
    assert merge({"small": tree, "large": tree}, "small") == tree


def test_only_the_paragraph_that_differs_is_there_twice():
    made = merge({"small": (card(say("same"), say("130")),), "large": (card(say("same"), say("200")),)}, "small")
    group = made[0]
    assert isinstance(group, d.Group)
    assert group.content == (
        say("same"),
        d.For(("small",), (say("130"),), True),
        d.For(("large",), (say("200"),), False),
    )


def test_a_single_cell_of_a_grid_differs():
    def grid(speed):
        cells = (
            d.Pair(d.words("Spindle speed"), d.words(speed), key="spindle_speed"),
            d.Pair(d.words("Feed"), d.words("0.1")),
        )
        return (d.Pairs(cells),)

    made = merge({"small": grid("130"), "large": grid("200")}, "large")
    cells = made[0].cells
    assert [type(cell) for cell in cells] == [d.For, d.For, d.Pair]
    assert cells[0].workshops == ("large",)
    assert cells[0].shown
    assert not cells[1].shown


def test_workshops_that_say_the_same_share_a_variant():
    made = merge({"a": (say("1"),), "b": (say("2"),), "c": (say("1"),)}, "b")
    assert [(block.workshops, block.shown) for block in made] == [(("b",), True), (("a", "c"), False)]


def test_lists_that_run_apart_keep_their_anchors_single():
    one = (say("box"), card(say("x")), say("tail"))
    two = (card(say("y")), say("tail"))
    made = merge({"a": one, "b": two}, "a")
    anchored = [block for block in made if isinstance(block, d.Group)]
    assert len(anchored) == 1
    assert made[0] == d.For(("a",), (say("box"),), True)
    assert made[-1] == say("tail")


def test_a_workshop_without_the_author_s_shows_the_first():
    made = merge({"a": (say("1"),), "b": (say("2"),)}, "not there")
    assert made[0].workshops == ("a",)
    assert made[0].shown


def test_words_of_a_cell():
    made = merge_words({"a": d.words("130"), "b": d.words("200")}, "a")
    assert [(span.kind, dict(span.attributes)["data-ms-for"]) for span in made] == [
        ("variant", "a"),
        ("variant other", "b"),
    ]
    assert merge_words({"a": d.words("1"), "b": d.words("1")}, "a") == d.words("1")
    assert merge_words({}, "a") == ()


def test_nothing_for_nothing():
    assert merge({}, "a") == ()


def test_all_workshops_of_a_tree_are_found():
    made = merge({"small": (card(say("1")),), "large": (card(say("2")),)}, "small")
    assert workshops_in(made) == {"small", "large"}
