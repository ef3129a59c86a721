"""Paper: one self-contained HTML page that prints well in black and white; nothing is loaded, nothing runs.

Every text goes through `words`, which shows hidden characters and escapes markup.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from torqref.document.escape import escape
from torqref.library.source import PRACTICE

_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})
# Black on white; every state is a word; a block is not torn over two pages where it fits on one.
_STYLE = """
@page { size: A4; margin: 14mm 12mm 16mm; PAGE_BOX }
* { box-sizing: border-box; }
html { color: #000; background: #fff; font: 10pt/1.35 "DejaVu Sans", Arial, Helvetica, sans-serif; }
body { margin: 0 auto; max-width: 186mm; padding: 4mm; overflow-wrap: anywhere; }
td.tight, th.tight { white-space: nowrap; overflow-wrap: normal; }
th { overflow-wrap: normal; }
h1 { font-size: 16pt; margin: 0 0 1mm; }
h2 { font-size: 12.5pt; margin: 6mm 0 1mm; border-top: 0.6mm solid #000; padding-top: 1.5mm; }
h2 { break-after: avoid; }
h3 { font-size: 10.5pt; margin: 3.5mm 0 1mm; break-after: avoid; }
p, ul, ol { margin: 1mm 0; } ul, ol { padding-left: 6mm; }
table { border-collapse: collapse; width: 100%; margin: 1mm 0 2mm; font-size: 9pt; }
th, td { border: 0.2mm solid #000; padding: 0.8mm 1.4mm; text-align: left; vertical-align: top; }
th { border-bottom-width: 0.5mm; font-weight: bold; }
thead { display: table-header-group; } tr { break-inside: avoid; }
.practice { border: 0.8mm solid #000; font-weight: bold; padding: 0.8mm 2mm; margin: 1.5mm 0; }
.caution { border-left: 1.6mm solid #000; padding-left: 2mm; margin: 1mm 0; }
.facts td:first-child { width: 38mm; font-weight: bold; }
.fill td { height: 9mm; } .fill td:nth-child(n+3) { min-width: 25mm; }
.small { font-size: 7.5pt; line-height: 1.25; }
.pictures { display: flex; flex-wrap: wrap; gap: 3mm; }
figure { margin: 1mm 0; break-inside: avoid; flex: 1 1 60mm; max-width: 130mm; }
figure svg { width: 100%; height: auto; max-height: 88mm; }
figure.wide { flex-basis: 100%; max-width: none; } figure.wide svg { max-height: 235mm; }
figcaption { font-size: 8.5pt; }
.sign { display: flex; gap: 8mm; margin-top: 8mm; break-inside: avoid; }
.sign div { flex: 1; border-top: 0.3mm solid #000; padding-top: 1mm; font-size: 8.5pt; min-height: 12mm; }
.box { display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.3mm solid #000; margin-right: 1.5mm; }
.whole { break-inside: avoid; }
.card { font-size: 10.5pt; } .card h1 { font-size: 19pt; }
.card .stages { font-size: 11pt; } .card .stages td:nth-child(2) { font-size: 14pt; font-weight: bold; }
.card figure { max-width: none; } .card figure svg { max-height: 72mm; }
.sheet { break-before: page; }
.sheet:first-child { break-before: auto; }
@media print { body { padding: 0 0.3mm; max-width: none; } }
"""
_NOTHING_LOADED = "default-src 'none'; style-src 'unsafe-inline'"
_LONGEST_TIGHT = 24
_PAGE_BOX = (
    '@bottom-left { content: "TITLE"; font-size: 7pt; } '
    '@bottom-right { content: "page " counter(page) " of " counter(pages); font-size: 7pt; }'
)


def words(text: object) -> str:
    """A text for HTML: hidden characters shown, markup escaped.

    >>> words('<b>24 N·m</b> & "new"')
    '&lt;b&gt;24 N·m&lt;/b&gt; &amp; &quot;new&quot;'
    """
    return escape(str(text)).translate(_ESCAPES)


def page(title: str, body: Iterable[str], *, practice: bool, kind: str = "") -> str:
    """A whole page; its arguments are those of `page_parts`."""
    return "".join(page_parts(title, body, practice=practice, kind=kind))


def page_parts(title: str, body: Iterable[str], *, practice: bool, kind: str = "") -> Iterator[str]:
    """A whole page, part by part, so that a long one needs little room.

    Args:
        title: shown by the browser, and at the foot of every printed page.
        body: the parts of the page, as HTML.
        practice: practice values: said at the foot of every printed page, too.
        kind: `card` for a page that is read from a step away.
    """
    foot = f"{PRACTICE}   {title}" if practice else title
    # Inside a style sheet no markup is escaped; a quote, a backslash or a bracket would end the text.
    plain = "".join(char for char in escape(foot) if char not in "\\\"'<>{}")
    style = _STYLE.replace("PAGE_BOX", _PAGE_BOX.replace("TITLE", plain[:150]))
    yield (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_NOTHING_LOADED}">\n'
        f"<title>{words(title)}</title>\n<style>{style}</style>\n</head>\n"
        + (f'<body class="{kind}">' if kind else "<body>")
    )
    yield from (f"\n{part}" for part in body if part)
    yield "\n</body>\n</html>\n"


def practice_box(practice: bool) -> str:
    """The box that says practice values, or nothing."""
    return f'<p class="practice">{PRACTICE}</p>' if practice else ""


def heading(text: str, level: int = 2) -> str:
    """A heading."""
    return f"<h{level}>{words(text)}</h{level}>"


def paragraph(text: str, kind: str = "") -> str:
    """A paragraph, or nothing where there is no text."""
    attribute = f' class="{kind}"' if kind else ""
    return f"<p{attribute}>{words(text)}</p>" if text else ""


def listed(texts: Iterable[str], kind: str = "") -> str:
    """A list, or nothing where it is empty."""
    attribute = f' class="{kind}"' if kind else ""
    items = "".join(f"<li{attribute}>{words(text)}</li>" for text in texts)
    return f"<ul>{items}</ul>" if items else ""


def table(
    head: Sequence[str], rows: Iterable[Sequence[object]], kind: str = "", tight: Sequence[int] = ()
) -> str:
    """A table with a heading that is printed again on every page; nothing where it has no rows.

    Args:
        head: words above the columns; none for no heading.
        rows: the cells.
        kind: class of the table.
        tight: columns, from 0, that are as wide as what is in them and are not broken.
    """
    body = "".join(f"<tr>{_cells('td', row, tight)}</tr>" for row in rows)
    start = f"<thead><tr>{_cells('th', head, tight)}</tr></thead>" if head else ""
    attribute = f' class="{kind}"' if kind else ""
    return f"<table{attribute}>{start}<tbody>{body}</tbody></table>" if body else ""


def _cells(name: str, texts: Sequence[object], tight: Sequence[int]) -> str:
    """Cells of one row; a long text is never kept in one line."""
    return "".join(_cell(name, str(text), at in tight) for at, text in enumerate(texts))


def _cell(name: str, text: str, tight: bool) -> str:
    attribute = ' class="tight"' if tight and len(text) <= _LONGEST_TIGHT else ""
    return f"<{name}{attribute}>{words(text)}</{name}>"


def facts(pairs: Iterable[tuple[str, object]]) -> str:
    """Names and values, two columns; pairs without a value are left out."""
    return table((), ((name, value) for name, value in pairs if value), "facts")


def figure(picture: str, caption: str, kind: str = "") -> str:
    """An SVG picture with its caption; the picture comes escaped from its writer."""
    inside = picture[picture.index("<svg") :]  # the declaration of a document of its own has no place here
    attribute = f' class="{kind}"' if kind else ""
    return f"<figure{attribute}>{inside}<figcaption>{words(caption)}</figcaption></figure>"


def boxes(texts: Iterable[str]) -> str:
    """A list to tick by hand."""
    items = "".join(f'<p><span class="box"></span>{words(text)}</p>' for text in texts)
    return items


def signatures(names: Sequence[tuple[str, str]], wanted: int) -> str:
    """Lines for signing: those who signed with their time, and empty ones for who is still to sign."""
    blank = [("", "")] * max(wanted - len(names), 0)
    cells = "".join(_signature(name, time) for name, time in (*names, *blank))
    return f'<div class="sign">{cells}</div>'


def _signature(name: str, time: str) -> str:
    said = f"signed {words(name)}, {words(time)}" if name else "name, date, signature"
    return f"<div>{said}</div>"


def whole(parts: Iterable[str]) -> str:
    """Parts that stay together on one printed page where it has room for them."""
    return _section("whole", parts)


def sheets(parts: Iterable[Iterable[str]]) -> Iterator[str]:
    """Each part on a sheet of its own."""
    for part in parts:
        yield _section("sheet", part)


def _section(kind: str, parts: Iterable[str]) -> str:
    inside = "\n".join(part for part in parts if part)
    return f'<section class="{kind}">\n{inside}\n</section>'
