"""A real browser on a real server, for the tests: started once, closed at the end."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

FLAGS = ["--headless", "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip
NAMES = ("chromium", "chromium-browser")


def chromium() -> str:
    """The path of a Chromium; the test is skipped where there is none."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        pytest.skip("no Chromium on this machine")
    return found


@contextmanager
def launched() -> Iterator[Browser]:
    """A Chromium that asks nothing of the network by itself."""
    api: Any = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    path = chromium()
    driver = Path(api.__file__).parent.parent / "driver"
    if any(subprocess.run([one, "--version"], capture_output=True, check=False).returncode
           for one in driver.glob("node*")):  # fmt: skip
        pytest.skip("the browser's driver does not start on this machine")
    with api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """`hardstand serve` over a folder; its link."""
    words = [sys.executable, "-m", "hardstand", "serve", str(folder), "--port", "0", "--no-browser"]
    environ = {**os.environ, "PYTHONUNBUFFERED": "1", "COLUMNS": "200"}
    environ["PYTHONPATH"] = os.pathsep.join(filter(None, ["src", environ.get("PYTHONPATH")]))
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=environ)
    assert process.stdout is not None
    try:
        said = ""
        for line in process.stdout:
            said += line
            found = re.search(r"http://\S+/enter#\S+", line)
            if found:
                break
        else:
            raise AssertionError(said)
        yield found[0]
    finally:
        process.terminate()
        process.wait(10)
        process.stdout.close()


def entered(browser: Browser, link: str, width: int = 1440, height: int = 900, **given: Any) -> Page:
    """A page that has come in by the link, and fails the test for whatever goes wrong in it.

    `page.outward` lists every request to another host, `page.wrong` what the console complained of.
    """
    context = browser.new_context(viewport={"width": width, "height": height}, **given)
    page = context.new_page()
    page.set_default_timeout(20_000)
    page.goto(link)
    page.wait_for_selector("#title-block")
    return page
