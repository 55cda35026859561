"""The front end's files as they lie there, and the headers that every answer carries. No view of the API is here.

Only what is named is served: our own front end, and of the installed modules the files that the import map and the
styles need.
"""

from __future__ import annotations

import base64
import hashlib
import re
from pathlib import Path

from flask import Flask, Response, abort, current_app, request, send_from_directory
from werkzeug.exceptions import NotFound
from werkzeug.wrappers import Response as AnyResponse

from app.web import here
from app.web.problems import answer_http
from app.wording import knows, say

#: Kinds of file that are served, with their media types.
KINDS = {
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".css": "text/css",
    ".svg": "image/svg+xml",
    ".json": "application/json",
    ".ttf": "font/ttf",
    ".woff2": "font/woff2",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".webp": "image/webp",
}

#: The installed modules that pages may use.
MODULES = ("preact", "htm", "@preact/signals", "@preact/signals-core", "@expo-google-fonts", "@fontsource")

#: Addresses that belong to the page itself: it draws what they name.
#: /r/CODE shows anybody the as-built record behind a paper's code.
#: /s/CODE tells anybody whether a build sheet still holds.
#: /q/CODE is where a paper's QR code leads: the same page for everybody, so that it tells a stranger nothing.
PAGE_ADDRESSES = (
    "/",
    "/enquiries",
    "/quotations",
    "/orders",
    "/shells",
    "/calendar",
    "/floor",
    "/leaving",
    "/parts",
    "/inspections",
    "/approvals",
    "/customers",
    "/retention",
    "/bank-details",
    "/chasing",
    "/house",
    "/outlook",
    "/people",
    "/watching",
    "/safety",
    "/password",
    "/work-to-come",
    "/tools",
    "/book",
    "/book-drafts",
    "/q",
    "/r",
    "/s",
)

#: Addresses under which nobody looks for a page.
FOR_PROGRAMS = ("/api/", "/static/", "/problems/")

#: What is never changed under its address.
LASTING = "public, max-age=31536000, immutable"

#: What programs read.
DATA = ("application/json", "application/problem+json")

#: Where the application keeps the version of its front end: found anew with each page, for a file may change meanwhile.
VERSION = "front end's version"

ALWAYS = {
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}

#: Of data, which a browser is to read and never to show or run: what only a page can do needs no forbidding.
OF_DATA = {
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
}


def register(app: Flask) -> None:
    """Serve the page and its parts."""
    policy = content_policy(here_frontend(app) / "index.html")
    app.add_url_rule("/static/app/<path:name>", "own_file", own_file)
    app.add_url_rule("/static/app-<version>/<path:name>", "own_file_of", own_file)
    app.add_url_rule("/static/lib/<path:name>", "installed_file", installed_file)
    app.add_url_rule("/problems/<slug>", "about_problem", about_problem)
    app.add_url_rule("/favicon.ico", "favicon", lambda: Response(status=204))
    for address in PAGE_ADDRESSES:
        app.add_url_rule(address, f"page_{address}", index)
        if address != "/":
            app.add_url_rule(f"{address}/<path:rest>", f"page_{address}_below", index)
    app.register_error_handler(404, unknown_address)
    app.after_request(lambda response: guarded(response, policy))


def here_frontend(app: Flask) -> Path:
    """Where the front end lies."""
    folder: Path = app.extensions["desk"].config.frontend
    return folder


def index(rest: str = "") -> Response:
    """The one page. It names its parts by their version, so that a browser that has them asks for none again."""
    response = Response(versioned(here.parts().config.frontend), mimetype="text/html")
    response.headers["Cache-Control"] = "no-cache"
    response.add_etag()
    response.make_conditional(request)
    return response


def unknown_address(error: NotFound) -> AnyResponse:
    """Who came with a browser gets the page, which says that there is nothing; a program gets the problem."""
    program = request.path.startswith(FOR_PROGRAMS) or not request.accept_mimetypes.accept_html
    if program or request.method not in ("GET", "HEAD"):
        return answer_http(error)
    response = index()
    response.status_code = 404
    return response


def own_file(name: str, version: str = "") -> Response:
    """A file of our own front end: kept under the version the page named last, else asked for again each time."""
    if name.startswith("node_modules") or Path(name).suffix not in KINDS or _hidden(name):
        abort(404)
    lasting = version and version == current_app.extensions.get(VERSION)
    return _file(here.parts().config.frontend, name, LASTING if lasting else "no-cache")


def installed_file(name: str) -> Response:
    """A file of an installed module that pages may use."""
    if (
        not name.startswith(tuple(f"{module}/" for module in MODULES))
        or Path(name).suffix not in KINDS
        or _hidden(name)
    ):
        abort(404)
    lasting = Path(name).suffix in (".ttf", ".woff2")
    caching = LASTING if lasting else "public, max-age=3600"
    return _file(here.parts().config.frontend / "node_modules", name, caching)


def about_problem(slug: str) -> Response:
    """What a problem's `type` leads to: its title and how to mend it."""
    if not knows(f"problem.{slug}.title"):
        abort(404)
    text = "\n\n".join(say(f"problem.{slug}.{part}", here.language()) for part in ("title", "detail", "repair"))
    return Response(text + "\n", content_type="text/plain; charset=utf-8")


def versioned(folder: Path) -> str:
    """The page's text: our own files under their version, and every module named at once, not one after the other."""
    files = own_files(folder)
    modules = [path.relative_to(folder).as_posix() for path in files if path.suffix == ".js"]
    ahead = "".join(f'<link rel="modulepreload" href="/static/app/{name}">\n' for name in modules)
    text = (folder / "index.html").read_text(encoding="utf-8").replace("</head>", ahead + "</head>")
    version = current_app.extensions[VERSION] = version_of(files)
    return text.replace("/static/app/", f"/static/app-{version}/")


def own_files(folder: Path) -> list[Path]:
    """All files of our own front end, in one order."""
    parts = (part for part in sorted(folder.iterdir()) if part.name != "node_modules" and not _hidden(part.name))
    found = (file for part in parts for file in ([part] if part.is_file() else part.rglob("*")))
    return sorted(file for file in found if file.suffix in KINDS)


def version_of(files: list[Path]) -> str:
    """Eight letters that change with any of these files: their names, sizes and times of change."""
    lie = [(file.name, file.stat()) for file in files]
    facts = [(name, lies.st_size, lies.st_mtime_ns) for name, lies in lie]
    return hashlib.sha256(repr(facts).encode()).hexdigest()[:8]


def content_policy(page: Path) -> str:
    """The Content-Security-Policy of everything: our own files, and the page's import map by its hash."""
    hashes = "".join(f" '{hash_of(script)}'" for script in inline_scripts(page))
    return (
        f"default-src 'none'; script-src 'self'{hashes}; style-src 'self'; img-src 'self'; font-src 'self'; "
        "connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    )


def inline_scripts(page: Path) -> list[str]:
    """What stands between the tags of scripts without an address: the import map."""
    text = page.read_text(encoding="utf-8") if page.is_file() else ""
    return [
        inner
        for attributes, inner in re.findall(r"<script([^>]*)>(.*?)</script>", text, re.S)
        if "src=" not in attributes
    ]


def hash_of(script: str) -> str:
    """As a Content-Security-Policy names it."""
    return "sha256-" + base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()


def guarded(response: AnyResponse, policy: str) -> AnyResponse:
    """The headers that every answer carries; what the API says is for nobody's store."""
    given = {name.lower() for name, _ in response.headers}
    own = dict(OF_DATA) if response.mimetype in DATA else {**ALWAYS, "Content-Security-Policy": policy}
    if request.path.startswith("/api/"):
        own["Cache-Control"] = "no-store"
    for name, value in own.items():
        if name.lower() not in given:
            response.headers.add(name, value)
    if request.path.startswith("/api/"):
        response.headers.add("Vary", "Cookie, Accept-Language")
    return response


def _file(folder: Path, name: str, caching: str) -> Response:
    response = send_from_directory(folder, name, mimetype=KINDS[Path(name).suffix], conditional=True)
    response.headers["Cache-Control"] = caching
    return response


def _hidden(name: str) -> bool:
    return any(part.startswith(".") for part in name.split("/"))
