"""A whole file as it was typed, kept only where the aeroplane can be read with it."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.description.safe_files import sha256_of
from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome, refused


def put_text(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Write a file of the folder, if it is still the one that was shown.

    A browser sends its line ends as CR LF whatever it was given; the file keeps its own.
    """
    bench.refresh()
    name, shown = values.get("file", ""), values.get("sha256", "")
    texts = bench.now_texts()
    if name not in texts:
        return refused(f"there is no file {name} in this folder.")
    if sha256_of(texts[name].encode()) != shown:
        return refused(f"{name} has changed since this page showed it.",
                       "Copy what you typed, and open the page again.")  # fmt: skip
    text = values.get("text", "").replace("\r\n", "\n")
    if "\r\n" in texts[name]:
        text = text.replace("\n", "\r\n")
    if text == texts[name]:
        return refused(f"{name} is what it was.", status=200)
    return bench.put_text(name, text, f"{name} edited as text")
