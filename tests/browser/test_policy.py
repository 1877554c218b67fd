"""The page works under its own content security policy, and the policy bites."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.browser.chromium import look, planned, written


@pytest.mark.parametrize("name", ["late-veranda", "hostile"])
def test_the_page_works_under_its_policy_and_nothing_else_does(name: str, tmp_path: Path) -> None:
    (seen,) = look({"task": "policy", "url": written(name, tmp_path).as_uri()})
    assert seen["text"] == f"yokefellow {planned(name).key}: neckband 1"
    assert (seen["cleared"], seen["restored"]) == (0, 1)
    assert seen["refused"] == []
    assert seen["said"] == []
    assert seen["ran"] is False
    # published: W3C, Content Security Policy Level 3, section 6, the names of directives
    assert set(seen["forbidden"]) == {
        "script-src-elem", "script-src-attr", "style-src-elem", "img-src", "frame-src",
        "form-action", "base-uri", "connect-src",
    }  # fmt: skip
