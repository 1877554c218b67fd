"""The script of the page, in a real browser when there is one."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from collections.abc import Callable
from functools import cache
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from tests.sheet.plans import inches, meadow, small
from yokefellow.plan import Plan
from yokefellow.sheet.html import render_html

BROWSER = next(
    filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None
)

pytestmark = pytest.mark.skipif(BROWSER is None, reason="no Chromium is here to run the script")

_QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--virtual-time-budget=4000",
)

STEPS = """
var byId = function (id) { return document.getElementById(id); };
var seen = {};
var click = function (id) { byId(id).click(); };
var bar = function () { return byId("where").textContent; };
var here = function () { byId("continue").click(); return document.activeElement.id; };
if (sessionStorage.getItem("again") === null) {
  seen.hidden = byId("bar").hidden;
  seen.fresh = bar();
  seen.freshNext = here();
  click("neckband-1");
  seen.afterOne = bar();
  seen.afterOneNext = here();
  seen.stored = Object.keys(localStorage);
  document.querySelectorAll("tr.line input").forEach(function (box) {
    if (!box.dataset.copy && !box.checked) { box.click(); }
  });
  seen.bodyDone = bar();
  seen.firstSleeve = here();
  click("sleeve-right-1"); click("sleeve-right-2");
  seen.oneAfterTheOther = here();
  click("sleeve-left-1"); click("sleeve-left-2");
  seen.sideBySide = here();
  click("sleeve-right-3");
  seen.sideBySideOther = here();
  click("save");
  seen.text = byId("ticks-text").value;
  sessionStorage.setItem("seen", JSON.stringify(seen));
  sessionStorage.setItem("again", "1");
  location.reload();
} else {
  seen = JSON.parse(sessionStorage.getItem("seen"));
  seen.reloaded = byId("sleeve-right-3").checked && !byId("sleeve-left-3").checked;
  seen.reloadedNext = here();
  window.confirm = function () { return false; };
  click("clear");
  seen.keptOnNo = byId("neckband-1").checked;
  window.confirm = function () { return true; };
  click("clear");
  seen.cleared = document.querySelectorAll("input:checked").length;
  byId("ticks-text").value = "of another sheet: yoke 1-5";
  click("restore");
  seen.foreign = document.querySelectorAll("input:checked").length;
  byId("ticks-text").value = seen.text;
  click("restore");
  click("save");
  seen.textAgain = byId("ticks-text").value;
  document.querySelectorAll("tr.line input").forEach(function (box) {
    if (!box.checked) { box.click(); }
  });
  seen.end = bar();
  seen.nothingToContinue = byId("continue").hidden;
  var out = document.createElement("pre");
  out.id = "seen";
  out.textContent = JSON.stringify(seen);
  document.body.appendChild(out);
}
"""

NO_MEMORY = """
Object.defineProperty(window, "localStorage", {
  get: function () { throw new Error("refused"); }
});
"""


def dumped(html: str, folder: Path) -> str:
    """The page as it stands after its script has run."""
    file = folder / "page.html"
    file.write_text(html, "utf-8")
    assert BROWSER is not None
    ran = subprocess.run(
        [BROWSER, *_QUIET, f"--user-data-dir={folder / 'profile'}", "--dump-dom", file.as_uri()],
        capture_output=True,
        text=True,
        timeout=90,
    )
    return ran.stdout


def with_script(before: str, after: str, *, plan: Plan | None = None) -> str:
    """The page with scripts of ours beside its own, and without the policy that forbids them."""
    html = render_html(plan or small())
    html = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", html)
    html = html.replace("<head>", f"<head><script>{before}</script>", 1)
    return html.replace("</body>", f"<script>{after}</script></body>", 1)


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    dom = dumped(with_script("", STEPS), tmp_path_factory.mktemp("ticks"))
    found = re.search(r'<pre id="seen">(.*?)</pre>', dom, re.DOTALL)
    assert found, dom[-2000:]
    result: dict[str, Any] = json.loads(unescape(found[1]))
    return result


@cache
def rows() -> int:
    return len(small().rows)


def test_the_bar_says_where_the_knitter_is(seen: dict[str, Any]) -> None:
    assert seen["hidden"] is False
    assert seen["fresh"] == f"Next: row 1 of {rows()} · 0 % done"
    assert seen["afterOne"].startswith(f"Next: row 2 of {rows()} · ")
    assert seen["end"] == f"All {rows()} rows are done · 100 % done"
    assert seen["nothingToContinue"] is True


def test_continue_goes_to_the_next_row(seen: dict[str, Any]) -> None:
    assert seen["freshNext"] == "neckband-1"
    assert seen["afterOneNext"] == "neckband-2"
    assert seen["firstSleeve"] == "sleeve-right-1"


def test_sleeves_go_on_one_after_the_other_or_side_by_side(seen: dict[str, Any]) -> None:
    assert seen["oneAfterTheOther"] == "sleeve-right-3"
    # The left one stands where the right one does: neither is behind.
    assert seen["sideBySide"] == "sleeve-left-3"
    assert seen["sideBySideOther"] == "sleeve-left-3"


def test_the_share_in_the_bar_is_the_share_on_the_sheet(seen: dict[str, Any]) -> None:
    html = render_html(small())
    hem = re.findall(r'data-section="hem"[^>]*data-so-far="([^"]*)"', html)[-1]
    assert seen["bodyDone"].split(" · ")[1] == f"{hem.split(' · ')[1]} done"


def test_ticks_are_remembered_by_the_plan(seen: dict[str, Any]) -> None:
    assert seen["stored"] == [f"yokefellow {small().key}"]
    assert seen["reloaded"] is True
    assert seen["reloadedNext"] == "sleeve-left-3"


def test_ticks_are_cleared_only_when_asked_twice(seen: dict[str, Any]) -> None:
    assert seen["keptOnNo"] is True
    assert seen["cleared"] == 0


def test_ticks_can_be_kept_as_a_text(seen: dict[str, Any]) -> None:
    assert seen["text"].startswith(f"yokefellow {small().key}: neckband 1-")
    assert "sleeve-right 1-3" in seen["text"]
    assert seen["foreign"] == 0
    assert seen["textAgain"] == seen["text"]


def test_the_script_runs_under_the_pages_own_policy(tmp_path: Path) -> None:
    dom = dumped(render_html(small()), tmp_path)
    assert f"Next: row 1 of {rows()} · 0 % done" in dom
    assert "remembered in this browser" in dom


def test_a_browser_that_cannot_remember_says_so(tmp_path: Path) -> None:
    dom = dumped(with_script(NO_MEMORY, "document.getElementById('yoke-2').click();"), tmp_path)
    assert "does not let the page remember your ticks" in dom
    assert f"Next: row 1 of {rows()}" in dom


FRAMES = """
<!doctype html><title>frames</title><pre id="seen"></pre><script>
var page = PAGE;
var seen = {};
[320, 390, 1280].forEach(function (width) {
  var frame = document.createElement("iframe");
  frame.style.width = width + "px";
  frame.style.height = "800px";
  frame.style.border = "0";
  frame.srcdoc = page;
  frame.onload = function () {
    var inside = frame.contentDocument;
    var sizes = Array.from(inside.querySelectorAll("input, button")).filter(function (control) {
      return control.offsetParent !== null;
    }).map(function (control) {
      var box = control.getBoundingClientRect();
      return Math.min(box.width, box.height);
    });
    seen[width] = { wide: inside.documentElement.scrollWidth, least: Math.min.apply(null, sizes),
      controls: sizes.length };
    document.getElementById("seen").textContent = JSON.stringify(seen);
  };
  document.body.appendChild(frame);
});
</script>
"""


@pytest.mark.parametrize("which", [small, inches, meadow])
def test_a_phone_shows_it_without_scrolling_sideways(
    which: Callable[[], Plan], tmp_path: Path
) -> None:
    text = json.dumps(with_script("", "", plan=which())).replace("</", "<\\/")
    dom = dumped(FRAMES.replace("PAGE", text, 1), tmp_path)
    found = re.search(r'<pre id="seen">(.*?)</pre>', dom, re.DOTALL)
    assert found
    seen: dict[str, dict[str, float]] = json.loads(unescape(found[1]))
    assert set(seen) == {"320", "390", "1280"}
    for width, measured in seen.items():
        assert measured["wide"] <= int(width), width
        # published: W3C, Web Content Accessibility Guidelines 2.2, criterion 2.5.8, 24 px
        assert measured["least"] >= 24, width
        assert measured["controls"] > len(which().rows)
