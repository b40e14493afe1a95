"""The tape shows a stitch the same, whichever way it was wound there."""

from typing import Any

from playwright.sync_api import Page

from tests.support.plans import small_plan
from tests.support.players import Open

_WIND = """([chosen, look]) => {
  const plan = JSON.parse(document.getElementById("plan").textContent);
  const scope = chooseScope(readStage(plan, plan.stages[0]), 0);
  const view = wholeView(scope, { width: 200, height: 200 });
  const [leaping, walking, fresh] = [1, 2, 3].map(() => new Tape(200, 200, scope, view, look));
  walking.kept = [{ size: Infinity }];  // nothing to leap from
  const same = (one, other) => one.pixels.every((pixel, at) => pixel === other.pixels[at]);
  const whole = same(leaping, fresh);
  const results = chosen.map((share) => {
    const points = Math.round(share * scope.count);
    leaping.wind(points);
    walking.wind(points);
    return [same(leaping, walking), leaping.pixels.filter((pixel) => pixel > 0).length];
  });
  leaping.wind(scope.count);
  return { kept: leaping.kept.length, whole, results, back: same(leaping, fresh) };
}"""
_LOOK = {"width": 6, "bead": 3, "threads": [[40, 80, 120]], "marks": [10, 10, 10]}
_SHARES = [0.9, 0.1, 0.5, 0.52, 0.0, 1.0, 0.3, 0.95, 0.05, 0.0]


def _wound(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(_WIND, [_SHARES, _LOOK])
    return found


def test_leaps_and_steps_lead_to_the_same_picture(open_booklet: Open) -> None:
    found = _wound(open_booklet(small_plan()))
    assert found["kept"] > 2  # there is something to leap from
    assert found["whole"]
    assert found["back"]
    assert all(same for same, _ in found["results"])


def test_more_stitches_cover_more_and_none_cover_nothing(open_booklet: Open) -> None:
    covered = [count for _, count in _wound(open_booklet(small_plan()))["results"]]
    by_share = dict(zip(_SHARES, covered, strict=True))
    assert by_share[0.0] == 0
    assert sorted(covered) == [by_share[share] for share in sorted(_SHARES)]
