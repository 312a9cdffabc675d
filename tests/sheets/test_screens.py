"""Sheets on screens: quiet, nothing wider than the window, nothing cut, targets for fingers."""

PHONES, OTHERS = ((320, 690), (390, 844)), ((768, 1024), (1200, 800))
# What scrolls on purpose can be reached with the keyboard, so it is let off.
MISFITS = """
const scrolls = (e) => ["auto", "scroll"].includes(getComputedStyle(e).overflowX);
const told = (e) => `${e.tagName}.${e.className}: ${e.textContent.trim().slice(0, 60)}`;
const window_width = document.documentElement.clientWidth;
const shown = [...document.querySelectorAll("body, body *")].filter(
  (e) => e.checkVisibility() && e.tagName !== "IMG");
const misfits = [];
for (const e of shown) {
  const style = getComputedStyle(e);
  if (scrolls(e)) {
    if (e.tabIndex !== 0) misfits.push(`no keyboard reaches ${told(e)}`);
    continue;
  }
  if (style.display !== "inline" && e.clientWidth && e.scrollWidth > e.clientWidth + 1)
    misfits.push(`${e.scrollWidth} in ${e.clientWidth}: ${told(e)}`);
  if (["hidden", "clip"].includes(style.overflowX) || style.textOverflow === "ellipsis")
    misfits.push(`cuts what is too long: ${told(e)}`);
  let around = e.parentElement;
  while (around && !scrolls(around)) around = around.parentElement;
  const { left, right } = e.getBoundingClientRect();
  if (!around && (left < -0.5 || right > window_width + 0.5))
    misfits.push(`${left} to ${right}: ${told(e)}`);
}
const page_width = document.documentElement.scrollWidth;
if (page_width > window_width) misfits.push(`page: ${page_width} in ${window_width}`);
return [shown.length, misfits];
"""
# A box and its label are one target.
TARGETS = """
const targets = [...document.querySelectorAll("a, button, summary, input")];
const sizes = targets.filter((e) => e.checkVisibility()).map((e) => {
  const boxes = [e, ...(e.labels ?? [])].map((one) => one.getBoundingClientRect());
  const span = (from, to) =>
    Math.max(...boxes.map((b) => b[to])) - Math.min(...boxes.map((b) => b[from]));
  return [e.textContent || e.id, span("left", "right"), span("top", "bottom")];
});
return sizes;
"""
UNFOLD = "for (const one of document.querySelectorAll('details')) one.open = true;"
SMALLEST_TARGET = 24
"""Side of a target [CSS px]. Source: WCAG 2.2, 2.5.8 Target Size (Minimum), level AA."""


def test_sheet_fits_every_screen_folded_and_unfolded_and_says_nothing(
    shared_browser, sheet_file, sheet
):
    with shared_browser.open(sheet_file(sheet)) as tab:
        for unfold in ("", UNFOLD):
            for width, height in (*PHONES, *OTHERS):
                tab.resize(width, height, is_phone=(width, height) in PHONES)
                count, misfits = tab.run(unfold + MISFITS)
                assert count > 50
                assert [] == misfits, f"{width} px wide"
        assert ([], []) == (tab.logged(), tab.asked())


def test_fingers_hit_every_link_button_fold_and_box(shared_browser, sheet_file, sheet):
    with shared_browser.open(sheet_file(sheet)) as tab:
        for phone in PHONES:
            tab.resize(*phone, is_phone=True)
            targets = tab.run(TARGETS)
            assert len(targets) >= 3
            assert [] == [one for one in targets if min(one[1:]) < SMALLEST_TARGET]


def test_what_does_not_fit_is_found(shared_browser, sheet_file):
    """The probe itself: a line that may not break, a text that is cut, a page too wide."""
    with shared_browser.open(sheet_file("cupboard-client"), keeps_policy=False) as tab:
        tab.resize(390, 844, is_phone=True)
        tab.run(
            "document.querySelector('h1').style.cssText = 'white-space: nowrap; width: 50px';"
            "document.querySelector('h2').style.cssText = 'overflow: hidden';"
            "document.querySelector('h3').style.cssText = 'width: 900px';"
        )
        words = " ".join(tab.run(MISFITS)[1])
        assert "in 50: H1" in words
        assert "cuts what is too long: H2" in words
        assert "page: " in words
