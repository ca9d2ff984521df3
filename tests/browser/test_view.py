"""The bench view in a real browser: one step fills the screen, next and back by every way that a bench knows."""

import pytest

BENCH = "methods/eccentric-two-pieces/bench.html"
SCREENS = {"phone": (390, 844), "phone on its side": (844, 390), "tablet": (820, 1180), "desk": (1366, 900)}


def opened(visit, **how):
    page = visit(BENCH, **how)
    page.get_by_role("button", name="At the machine").click()
    return page


def where(page) -> int:
    return int(page.locator(".ms-view-where").inner_text().split("·")[-1].split("of")[0])


def to_step(page, text, most=60):
    for _ in range(most):
        if text in page.locator(".ms-view-body").inner_text():
            return
        page.locator('[data-ms-view="next"]').click()
    raise AssertionError(f"no step with {text}")


def test_next_and_back_by_button_key_and_swipe(visit):
    page = opened(visit)
    assert where(page) == 1
    assert "Osierbank" in page.locator(".ms-view-where").inner_text()
    page.locator('[data-ms-view="next"]').click()
    assert where(page) == 2
    for key, step in (("PageDown", 3), ("ArrowRight", 4), ("PageUp", 3), ("ArrowLeft", 2)):
        page.keyboard.press(key)
        assert where(page) == step, key
    swipe = """([from, to]) => { const body = document.querySelector('.ms-view-body');
      const send = (kind, x) => body.dispatchEvent(new TouchEvent(kind, { bubbles: true, changedTouches: [
        new Touch({ identifier: 1, target: body, clientX: x, clientY: 300 })] }));
      send('touchstart', from); send('touchend', to); }"""
    page.evaluate(swipe, [300, 100])
    assert where(page) == 3
    page.evaluate(swipe, [100, 300])
    assert where(page) == 2
    page.reload()  # the step is kept, and the view comes back
    assert where(page) == 2
    page.keyboard.press("Escape")
    assert page.locator("#ms-view").count() == 0
    page.reload()
    assert page.locator("#ms-view").count() == 0
    assert page.said == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("screen", SCREENS)
def test_every_step_fits_across_and_every_target_is_large(visit, screen, scheme):
    width, height = SCREENS[screen]
    page = opened(visit, width=width, height=height, scheme=scheme)
    faults = """() => { const found = [];
      for (const e of document.querySelectorAll('.ms-view *')) {
        if (!e.getClientRects().length || e.closest('svg, .ms-unseen')) continue;
        const box = e.getBoundingClientRect();
        if (box.right > innerWidth + 1 || box.left < -1) found.push('off the screen: ' + e.className);
        if (e.matches('button, input') && Math.min(box.width, box.height) < 44) found.push('small: ' + e.className + e.type);
      } return found; }"""
    last = int(page.locator(".ms-view-where").inner_text().split("of")[-1])
    assert last > 10
    for step in range(1, last + 1):
        assert where(page) == step
        assert page.evaluate(faults) == [], step
        if step < last:
            page.keyboard.press("PageDown")
    assert page.locator('[data-ms-view="next"]').is_disabled()


def test_what_is_ticked_and_measured_in_the_view_stands_in_the_sheet(visit):
    page = opened(visit)
    to_step(page, "Pass 1")
    key = page.locator(".ms-view-pass input").get_attribute("data-ms-key")
    page.locator(".ms-view-pass input").check()
    to_step(page, "not over")
    size = page.locator('.ms-view-body input[data-ms-role="measured"]').first
    measured = size.get_attribute("data-ms-key")
    for sign in "1605⌫":
        page.locator(".ms-view-pad").get_by_text(sign, exact=True).click()
    assert size.input_value() == "160"
    assert size.get_attribute("aria-invalid") == "true"  # marked in the view as on the sheet
    page.keyboard.press("Escape")
    assert page.locator(f'.ms-sheet [data-ms-key="{key}"]').is_checked()
    assert page.locator(f'.ms-sheet [data-ms-key="{measured}"]').input_value() == "160"


def test_the_speed_and_the_dial_of_the_pass_in_hand_are_huge(visit):
    page = opened(visit, width=820, height=1180)
    to_step(page, "Pass 1")
    size = "e => parseFloat(getComputedStyle(e).fontSize)"
    assert page.locator(".ms-view .ms-big .ms-num").first.evaluate(size) >= 100
    assert page.locator(".ms-view-dial strong").evaluate(size) >= 60


@pytest.mark.parametrize("screen", ["phone", "tablet", "desk"])
def test_speed_and_dial_stand_on_the_screen_without_scrolling(visit, screen):
    width, height = SCREENS[screen]
    page = opened(visit, width=width, height=height)
    to_step(page, "Pass 1")
    foot = page.locator(".ms-view-foot").bounding_box()["y"]
    for what in (".ms-view-dial strong", ".ms-view .ms-big .ms-num"):
        box = page.locator(what).first.bounding_box()
        assert 0 < box["y"] < box["y"] + box["height"] <= foot, what


def test_without_scripts_there_is_no_dead_button_and_the_sheet_is_there(visit):
    page = visit(BENCH, scripts=False)
    assert page.get_by_role("button", name="At the machine").count() == 0
    assert page.locator(".ms-sheet-op:visible").count() == 8
