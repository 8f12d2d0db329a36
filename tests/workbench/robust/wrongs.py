"""Requests that are wrong in one way: no session, another origin, a stale value, bytes that are no form."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from urllib.parse import quote, quote_from_bytes, urlencode

from hardstand.workbench.bench import Bench
from hardstand.workbench.gate import Gate
from hardstand.workbench.guard import LARGEST_BODY
from tests.workbench.asking import ORIGIN
from tests.workbench.robust.calling import FORM, Call
from tests.workbench.robust.chance import Chance
from tests.workbench.robust.wishes import FILES, Form, form_for, query_for

HOST = ORIGIN.partition("://")[2]
CLIMBS = (
    "/../beside/secret.toml", "/static/../../beside/secret.toml", "/static/%2e%2e/%2e%2e/etc/passwd",
    "/look/..\\..\\secret.toml", "/static//etc/passwd", "/static/\x00", "/look/" + "a" * 300, "/static/",
    "/static/vendored", "//evil.example/", "/./change", "/change/", "/{rest}", "/ü/\udcff", "/static/é\n",
)  # fmt: skip
COOKIES = ("", "hardstand-8620=", "hardstand-8620=guessed", "hardstand-8620=é; a", "a=b;;;=,\x01",
                           'hardstand-8620="\\777"', "hardstand-8620=" + "x" * 3000)  # fmt: skip
HOSTS = ("evil.example", "", "127.0.0.1", "127.0.0.1:1", "127.0.0.1:8620, a", "é", "localhost")
ORIGINS = (None, "null", "", "http://evil.example", "https://127.0.0.1:8620", "http://127.0.0.1:8621")
METHODS = ("PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT", "HEAD", "GET", "POST", "get", "Ü")


def valid(route: str, bench: Bench, gate: Gate, session: str, chance: Chance) -> Call:
    """A request as a page of the workbench makes it."""
    method, _, path = route.partition(" ")
    if method == "GET":
        path = chance.pick(FILES) if path in ("/static", "/look") else path
        return _call(route, "GET", path, query_for(path, bench, chance), session, {})
    form = {"code": gate.code} if path == "/enter" else form_for(path, bench, chance)
    swapping = {"hx-request": "true"} if chance.pick((True, False)) else {}
    return _call(route, "POST", path, form, session, {"origin": ORIGIN, "content-type": FORM, **swapping})


def _call(route: str, method: str, path: str, form: Form, session: str, more: Form) -> Call:
    headers = {"host": HOST, **({"cookie": f"hardstand-8620={session}"} if session else {}), **more}
    coded = urlencode(form).encode()
    raw = [(name.encode(), value.encode("utf-8")) for name, value in headers.items()]
    if method == "GET":
        return Call(route, method, path, coded, raw)
    return Call(route, method, path, b"", [*raw, (b"content-length", str(len(coded)).encode())], (coded,))


def headed(call: Call, name: str, value: str | None) -> Call:
    """A call with one header as it is given, or without it."""
    kept = [one for one in call.headers if one[0] != name.encode()]
    return replace(call, headers=[*kept, *([] if value is None else [(name.encode(), value.encode())])])


def _body(call: Call, *pieces: bytes) -> Call:
    size = str(sum(map(len, pieces)))
    return headed(replace(call, pieces=pieces), "content-length", size)


def _hostile(call: Call, chance: Chance) -> Call:
    """One of its values, or one more, is another than any page would send."""
    coded = call.query if call.method == "GET" else call.pieces[0]
    pairs = [one for one in coded.decode().split("&") if one]
    spare = (["back", "then", "said", "old", "new", "table", "row", "of", "line", "leave", "code", "why"])
    chosen = chance.whole(0, len(pairs))
    name = pairs.pop(chosen).partition("=")[0] if chosen < len(pairs) else chance.pick(spare)
    made = "&".join([*pairs, f"{name}={quote(chance.hostile, safe='')}"]).encode()
    return replace(call, query=made) if call.method == "GET" else _body(call, made)


def _stale(call: Call, chance: Chance) -> Call:
    """It was made for a page that showed other values."""
    form = dict(one.split("=", 1) for one in call.pieces[0].decode().split("&") if "=" in one)
    for name, value in (("old", quote(chance.pick(["[1, 2]", "77.5", '"else"', "null"]))),
                        ("sha256", "0" * 64), ("text", "Else."), ("search", "99")):  # fmt: skip
        if name in form and (name != "text" or "sha256" not in form):
            form[name] = value
    return _body(call, "&".join(f"{name}={value}" for name, value in form.items()).encode())


def _binary(call: Call, chance: Chance) -> Call:
    return _body(call, chance.binary)


def _malformed(call: Call, chance: Chance) -> Call:
    return _body(call, chance.pick([
        b"", b"&&&", b"=", b"%", b"%zz=%", b"address", b"{}", b"a=b" * 3000,
        b"&".join(b"a%d=1" % k for k in range(400)),
        b"address=item.rx.at_mm&old=]&new=[", b"text=" + quote_from_bytes(b"\xff\xfe\x00").encode(), b"\xff=\xfe",
    ]))  # fmt: skip


def _large(call: Call, chance: Chance) -> Call:
    """More than any file, told or untold or told wrongly."""
    size = chance.pick([None, str(LARGEST_BODY + 1), "-1", "²", "1e3", "", "9" * 5000, "5"])
    pieces = (b"x" * LARGEST_BODY, b"x") if size in (None, "5") and chance.whole(0, 3) == 0 else (b"text=x",)
    return headed(replace(call, pieces=pieces), "content-length", size)


def _climbing(call: Call, chance: Chance) -> Call:
    return replace(call, path=chance.pick(CLIMBS))


def _long_address(call: Call, chance: Chance) -> Call:
    return replace(call, query=b"of=" + b"x" * chance.pick([4000, 4095, 5000, 100_000]))


def _twice(call: Call, chance: Chance) -> Call:
    name = chance.pick([b"host", b"origin", b"cookie"])
    return replace(call, headers=[*call.headers, (name, chance.pick([b"evil.example", b"\xff\xfe", b""]))])


Wrong = Callable[[Call, Chance], Call]
WRONGS: dict[str, Wrong] = {
    "session": lambda call, chance: headed(call, "cookie", chance.pick(COOKIES)),
    "host": lambda call, chance: headed(call, "host", chance.pick(HOSTS)),
    "origin": lambda call, chance: headed(call, "origin", chance.pick(ORIGINS)),
    "site": lambda call, chance: headed(call, "sec-fetch-site", chance.pick(["cross-site", "same-site", ""])),
    "kind": lambda call, chance: headed(call, "content-type", chance.pick(
        [None, "application/json", "multipart/form-data; boundary=x", "text/plain", "é"])),
    "method": lambda call, chance: replace(call, method=chance.pick(METHODS)),
    "hostile": _hostile, "hostile again": _hostile, "stale": _stale, "binary": _binary, "malformed": _malformed,
    "large": _large, "climbing": _climbing, "long": _long_address, "twice": _twice,
}  # fmt: skip
