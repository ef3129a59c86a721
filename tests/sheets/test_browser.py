"""The pages in a real browser: they load without a complaint, print on paper, and show their pictures.

Needs Debian's Chromium; where it is not installed these tests are skipped and say so.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.sheets.folder import HOSTILE, walked
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.sheets.card_page import card_page
from torqref.sheets.job_page import job_page
from torqref.sheets.record_page import record_page
from torqref.sheets.slip import job_slip, slip_page
from torqref.walk.job_archive import JobRecord

BROWSER = shutil.which("chromium")
pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(BROWSER is None, reason="no Chromium here: apt-get install chromium"),
]
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--enable-logging=stderr",
)  # fmt: skip
# What a page itself says on its console; what the browser says of the machine it runs on is not ours.
CONSOLE = re.compile(r"CONSOLE.*\] \"(?P<said>.*)\", source: file:")


def browse(page: Path, *flags: str) -> subprocess.CompletedProcess[str]:
    """Open a page in a browser of its own with an empty profile."""
    profile = page.parent / f"profile-{page.stem}"
    call = (str(BROWSER), *FLAGS, f"--user-data-dir={profile}", *flags, page.as_uri())
    done = subprocess.run(call, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    return done


def written(folder: Path, name: str, text: str) -> Path:
    page = folder / name
    page.write_text(text, encoding="utf-8")
    return page


def sheets(pdf: Path) -> int:
    """Pages of a printed file, as its page tree counts them."""
    counts = [
        int(number) for number in re.findall(rb"/Type\s*/Pages\b[^>]*?/Count\s+(\d+)", pdf.read_bytes())
    ]
    counts += [
        int(number) for number in re.findall(rb"/Count\s+(\d+)[^>]*?/Type\s*/Pages\b", pdf.read_bytes())
    ]
    return max(counts)


def test_the_signed_record_opens_without_a_complaint_and_prints(signed: JobRecord, tmp_path: Path) -> None:
    page = written(tmp_path, "job.html", job_page(signed))
    pdf = tmp_path / "job.pdf"
    done = browse(page, f"--print-to-pdf={pdf}", "--no-pdf-header-footer")
    assert CONSOLE.findall(done.stderr) == []
    assert pdf.read_bytes().startswith(b"%PDF")
    assert 8 <= sheets(pdf) <= 16


def test_a_complaint_of_a_page_would_be_heard(tmp_path: Path) -> None:
    page = "<meta http-equiv='Content-Security-Policy' content=\"default-src 'none'\"><script>1</script>"
    assert CONSOLE.findall(browse(written(tmp_path, "bad.html", page), "--dump-dom").stderr)


def test_the_browser_keeps_what_we_wrote(signed: JobRecord, tmp_path: Path) -> None:
    """A table or picture that is not well formed is torn apart and put together otherwise by the browser."""
    text = job_page(signed)
    tree = browse(written(tmp_path, "tree.html", text), "--dump-dom").stdout
    for tag in ("<tr>", "<table", "<section", "<svg", "<circle", "<p ", "<li"):
        assert tree.count(tag) == text.count(tag), tag
    assert "signed Ada" in tree


@pytest.mark.parametrize("name", ["slip", "card"])
def test_slip_and_card_are_one_sheet_each(signed: JobRecord, tmp_path: Path, name: str) -> None:
    pump = read_shelf((shipped_folder(),)).groups["coolant-pump"]
    text = slip_page([job_slip(signed)]) if name == "slip" else card_page(pump)
    pdf = tmp_path / f"{name}.pdf"
    browse(written(tmp_path, f"{name}.html", text), f"--print-to-pdf={pdf}", "--no-pdf-header-footer")
    assert sheets(pdf) == 1


def test_hostile_words_run_nothing_in_a_browser(tmp_path: Path) -> None:
    notes = [f"note {text} document.title='run'" for text in HOSTILE]
    record = walked(tmp_path / "records", "", *notes, by="<script>document.title='run'</script>")
    text = record_page([record])
    done = browse(written(tmp_path, "odd.html", text), "--dump-dom")
    assert CONSOLE.findall(done.stderr) == []
    assert "<title>Record: sample</title>" in done.stdout
    assert "<script" not in done.stdout


def test_two_hundred_bolts_and_long_words_stay_on_the_paper(tmp_path: Path) -> None:
    """Nothing is wider than the window: the browser measures it itself."""
    text = 'layout = { circle = 200 }\n[[group.stage]]\ntorque = "12 N·m"\n'
    record = walked(tmp_path / "records", "", f"note {'W' * 2000}", "", "", "round", text=text)
    page = record_page([record])
    # The page forbids scripts; for the measuring alone a copy is let run one.
    probe = "<script>document.title='wide '+(document.documentElement.scrollWidth-innerWidth)</script>"
    page = page.replace("default-src 'none'", "script-src 'unsafe-inline'").replace(
        "</body>", f"{probe}</body>"
    )
    tree = browse(written(tmp_path, "wide.html", page), "--window-size=900,1200", "--dump-dom").stdout
    title = re.search(r"<title>wide (-?\d+)</title>", tree)
    assert title is not None
    assert int(title[1]) <= 0
