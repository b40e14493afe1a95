"""The booklet in a browser: for every reader, by keyboard, printed, hostile, remembered."""

import io

import pypdf
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from stitchpath.cli.files import load_project
from stitchpath.model.project import Fabric, Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.thread import ThreadPair
from stitchpath.pipeline import plan
from tests.support.booklets import HOSTILE, hostile_plan
from tests.support.command_line import DESIGNS
from tests.support.plans import small_plan
from tests.support.players import Open, held, shows

PLAN = small_plan()
HOOPINGS = 5


@pytest.mark.parametrize("colours", ["light", "dark"])
def test_no_barrier_is_found(open_booklet: Open, colours: str) -> None:
    # Source: axe-core's rules for WCAG 2.2, levels A and AA, and its best practices.
    page = open_booklet(PLAN, color_scheme=colours)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def _walk(page: Page) -> list[str]:
    """Tab through the page; return what has the focus on the way, each by a name."""
    name = (
        "(() => { const at = document.activeElement; return at === document.body ? '' :"
        " at.id || at.dataset.tick || at.dataset.watch || at.getAttribute('href'); })()"
    )
    seen = []
    for _ in range(200):
        page.keyboard.press("Tab")
        seen.append(page.evaluate(name))
        if not seen[-1]:
            break
    return seen[:-1]


def test_everything_is_reached_by_the_keyboard_in_the_order_it_is_read(
    open_booklet: Open,
) -> None:
    page = open_booklet(PLAN)
    seen = _walk(page)
    assert seen[0] == "#steps"  # the way past everything comes first
    wanted = page.evaluate(
        "[...document.querySelectorAll('a[href], button, select, input, #screen')].map((at) =>"
        " at.id || at.dataset.tick || at.dataset.watch || at.getAttribute('href'))"
    )
    assert seen == wanted


def test_player_is_worked_by_the_keyboard_alone(open_booklet: Open) -> None:
    page = open_booklet(PLAN)
    page.locator("#scope").focus()
    page.keyboard.press("ArrowDown")
    assert page.locator("#scope").input_value() == "quilt 1"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "screen"
    before = page.evaluate("document.getElementById('sheets').style.transform")
    page.keyboard.press("+")
    page.keyboard.press("ArrowLeft")
    assert page.evaluate("document.getElementById('sheets').style.transform") != before
    page.keyboard.press("0")
    page.keyboard.press("Space")
    assert page.locator("#go-play").inner_text() == "Stop"
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "scrub"
    page.keyboard.press("Home")
    page.keyboard.press("ArrowRight")
    assert shows(page, "stitch").startswith("1 of")
    page.keyboard.press("End")
    assert shows(page, "state") == "done"


def test_focus_is_seen_on_everything(open_booklet: Open) -> None:
    page = open_booklet(PLAN)
    for name in ("#screen", "#scrub", "#go-play", "nav a", ".overviews a"):
        page.locator(name).first.focus()
        page.keyboard.press("Shift+Tab")
        page.keyboard.press("Tab")
        width = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        assert width == "solid", name


def test_screen_reader_hears_where_it_rests_and_nothing_while_it_plays(
    open_booklet: Open,
) -> None:
    page = open_booklet(PLAN)
    expect(page.locator("#says")).not_to_be_empty()
    held(page)
    page.evaluate(
        "window.said = []; new MutationObserver(() =>"
        " window.said.push(document.getElementById('says').textContent))"
        ".observe(document.getElementById('says'), { childList: true })"
    )
    page.locator("#go-play").click()
    page.clock.run_for(700)
    assert page.evaluate("window.said.length") == 0
    page.locator("#go-play").click()
    for _ in range(5):
        page.locator("#go-on").click()
    page.clock.run_for(700)
    (said,) = page.evaluate("window.said")
    assert said.startswith(f"Stitch {shows(page, 'stitch')}, hooping 1 of 4")


@pytest.mark.parametrize("width", [390, 1200])
def test_overview_leads_to_a_hooping_far_down(open_booklet: Open, width: int) -> None:
    """Pages on the way are not laid out before they are seen, so their heights are guesses."""
    planned = plan(load_project(DESIGNS / "ferry-throw.toml"))
    page = open_booklet(planned, viewport={"width": width, "height": 900})
    for number in (7, 26, 12):
        page.locator(f"svg a[href='#quilt-{number}']").click()
        page.wait_for_timeout(1000)  # long enough to glide there, and for pages to grow
        top = page.locator(f"#quilt-{number}").evaluate(
            "(it) => it.getBoundingClientRect().top"
        )
        assert abs(top) < 2, number
        page.evaluate("scrollTo(0, 0)")


@pytest.mark.parametrize("width", [320, 390, 1200])
def test_nothing_sticks_out_sideways(open_booklet: Open, width: int) -> None:
    # Source: Web Content Accessibility Guidelines 2.2 (W3C), 1.4.10 Reflow: 320 CSS pixels.
    page = open_booklet(hostile_plan(), viewport={"width": width, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_tables_fit_a_telephone_however_long_a_threads_name(open_booklet: Open) -> None:
    long = ThreadPair(top="#fafad2", bobbin="#00fa9a")  # lightgoldenrodyellow, as no other
    lines = Quilting(spacing=500, thread=long)
    quilt = Quilt(width=1250, length=1650, edge="bound", edge_stitch=0, quilting=(lines,))
    made = plan(Project(units="cm", quilt=quilt, fabric=Fabric(usable_width=1060)))
    page = open_booklet(made, viewport={"width": 360, "height": 700})
    over = page.evaluate(
        "[...document.querySelectorAll('section:not([id^=stage]) .wide')]"
        ".map((table) => [table.closest('section').id, table.scrollWidth - table.clientWidth])"
    )
    assert {"thread", "buying", "cutting"} <= {name for name, _ in over}
    assert all(by <= 0 for _, by in over)


def _printed(page: Page, paper: str) -> list[str]:
    data = page.pdf(format=paper)
    return [sheet.extract_text() for sheet in pypdf.PdfReader(io.BytesIO(data)).pages]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_picture_gives_way_where_there_is_much_to_say_of_a_hooping(
    open_booklet: Open, paper: str
) -> None:
    planned = plan(load_project(DESIGNS / "pier-blanket.toml"))
    sheets = _printed(open_booklet(planned), paper)
    for number in range(1, 9):
        (sheet,) = [text for text in sheets if f"quilt, hooping {number} of 8" in text]
        assert f"Sewn: quilt, hooping {number}" in sheet  # the end of a hooping's page
        assert "may miss by" in sheet


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_hooping_is_printed_on_one_page_of_its_own(
    open_booklet: Open, paper: str
) -> None:
    sheets = _printed(open_booklet(PLAN), paper)
    heads = [
        f"{stage.name}, hooping {n} of {len(stage.hoopings)}"
        for stage in PLAN.stages
        for n in range(1, len(stage.hoopings) + 1)
    ]
    assert len(heads) == HOOPINGS
    own = [[at for at, text in enumerate(sheets) if head in text] for head in heads]
    front = own[0][0]
    assert 1 <= front <= 4
    assert own == [[front + at] for at in range(HOOPINGS)]
    assert len(sheets) == front + HOOPINGS
    for at, text in enumerate(sheets[front:], front):
        assert "Sewn: " in text  # the end of a hooping's page
        assert f"{at + 1} of {len(sheets)}" in text
        assert PLAN.project.name in text


def test_print_leaves_out_what_paper_cannot_do(open_booklet: Open) -> None:
    text = "\n".join(_printed(open_booklet(PLAN, color_scheme="dark"), "A4"))
    for words in ("Watch it sew", "Play", "Clear all ticks", "Skip to"):
        assert words not in text
    assert "Hoop and sew quilt, hooping 1" in text


def test_hostile_texts_are_shown_as_they_are(open_booklet: Open) -> None:
    page = open_booklet(
        hostile_plan(), script="window.alert = () => { document.title = 'ran'; };"
    )
    assert page.locator("h1").inner_text() == HOSTILE
    assert page.title() == f"{HOSTILE}: booklet"
    assert HOSTILE in page.locator(".findings li").first.inner_text()
    assert page.locator("h1 bdi > *").count() == 0
    foot = page.evaluate(
        "[...document.styleSheets[0].cssRules].filter((one) => one instanceof CSSPageRule)"
        ".length"
    )
    assert foot == 2  # the name at a page's foot did not break the style
    assert HOSTILE.split(" & ")[0] in "\n".join(_printed(page, "A4"))


def test_ticks_are_remembered_for_this_plan_in_both_places(open_booklet: Open) -> None:
    page = open_booklet(PLAN)
    boxes = page.locator("[data-tick='quilt-2']")
    boxes.nth(1).check()
    assert boxes.nth(0).is_checked()
    page.reload()
    assert boxes.nth(0).is_checked()
    assert boxes.nth(1).is_checked()
    assert page.locator("#done").inner_text().startswith("1 of ")
    page.locator("#clear-ticks").click()
    page.reload()
    assert page.locator(":checked[data-tick]").count() == 0


@pytest.mark.parametrize(
    "storage",
    [
        "Object.defineProperty(window, 'localStorage', { get() { throw Error('denied'); } });",
        "Storage.prototype.setItem = () => { throw new Error('full'); };",
        'Storage.prototype.getItem = () => \'{"not": "a list"}\';',
        "Storage.prototype.getItem = () => 'not json';",
    ],
)
def test_ticks_work_without_a_memory(open_booklet: Open, storage: str) -> None:
    page = open_booklet(PLAN, script=storage)
    page.locator("[data-tick='findings']").check()
    assert page.locator("#done").inner_text().startswith("1 of ")
    assert shows(page, "state") == "ready"


def test_booklet_reads_well_without_scripts(open_booklet: Open) -> None:
    page = open_booklet(PLAN, java_script_enabled=False)
    assert page.locator("#no-scripts").is_visible()
    assert not page.locator("#stand").is_visible()
    assert page.locator("article").count() == HOOPINGS


def test_policy_lets_nothing_in(open_booklet: Open) -> None:
    # Source: Content Security Policy Level 3 (W3C), 5.2: a violation is reported to the page.
    page = open_booklet(PLAN, quiet=False)
    refused = page.evaluate(
        """async () => {
          const seen = [];
          const note = (event) => seen.push(event.effectiveDirective);
          document.addEventListener("securitypolicyviolation", note);
          new Image().src = "data:image/gif;base64,R0lGODlhAQABAAAAACw=";
          await fetch("https://example.org/").catch(() => {});
          const script = document.createElement("script");
          script.textContent = "document.title = 'ran'";
          document.body.append(script);
          await new Promise((done) => setTimeout(done, 100));
          return seen;
        }"""
    )
    assert {"img-src", "connect-src", "script-src-elem"} <= set(refused)
    assert page.title() != "ran"
