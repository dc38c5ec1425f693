"""The commands on the samples: exit codes, plain lines, never a traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from shutil import copy, copytree

import pytest
from scenes import ROOT, SAMPLES, report_of, told


@pytest.mark.parametrize(("name", "code"), [("dollars", 0), ("euros", 0), ("forms", 0), ("faulty", 1)])
def test_check_tells_by_its_exit_code(name, code):
    found, out, err = told(["check", SAMPLES / name, "--date", "2031-05-14"])
    assert found == code, out + err
    assert err == ""


def test_quote_tells_by_its_exit_code_and_a_line_a_job(tmp_path):
    code, out, err = told(["quote", SAMPLES / "faulty", "--date", "2031-05-14", "--into", tmp_path])
    assert (code, err) == (1, "")
    jobs = len(report_of("faulty").results)
    begun = [line.split(" ")[0] for line in out.splitlines() if line.split(" ")[0].endswith(f"/{jobs}")]
    assert jobs >= 26 and begun == [f"{n}/{jobs}" for n in range(1, jobs + 1)]
    assert str(tmp_path / "2031-05-14") in out
    assert (tmp_path / "2031-05-14" / "results.json").exists()
    assert "held: 503" in out


def test_nothing_usable(tmp_path):
    copy(SAMPLES / "euros" / "price sheets.xlsx", tmp_path)
    assert told(["check", tmp_path])[0] == 2
    (tmp_path / "price sheets.xlsx").unlink()
    assert told(["check", tmp_path])[0] == 2
    (tmp_path / "letter.xlsx").write_text("Dear client, thank you for asking us.", "utf-8")
    code, out, err = told(["check", tmp_path])
    assert (code, err) == (2, "")
    assert "letter.xlsx" in out


def test_jobs_without_price_sheets_are_held_and_told(tmp_path):
    copy(SAMPLES / "euros" / "jobs summer.xlsx", tmp_path)
    code, out, err = told(["check", tmp_path, "--date", "2031-05-14"])
    assert (code, err) == (2, "")
    assert "Balloons" in out or "Shop" in out


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["quote"],
        ["quote", "--fast", "."],
        ["paint", "."],
        ["check", "no such folder"],
        ["check", ".", "--date", "14/05/2031"],
        ["check", ".", "--date", ""],
        ["blank", "book.txt"],
        ["blank", "no such folder/book.xlsx"],
        ["quote", "{samples}", "--into", "{file}"],
        ["quote", "{samples}", "--into", "{file}/deeper"],
    ],
    ids=" ".join,
)
def test_a_wrong_call_gets_one_clear_line(arguments, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a file").write_text("x", "utf-8")
    names = {"samples": str(SAMPLES / "euros"), "file": str(tmp_path / "a file")}
    code, _, err = told([argument.format_map(names) for argument in arguments])
    assert code == 3
    assert len(err.strip().splitlines()) == 1, err
    assert "Traceback" not in err
    assert "Errno" not in err
    assert [p.name for p in tmp_path.iterdir()] == ["a file"]


def test_a_blank_book_is_never_written_over_another_file(tmp_path):
    book = tmp_path / "mine.xlsx"
    book.write_bytes(b"the owner's own")
    assert told(["blank", book])[0] == 3
    assert book.read_bytes() == b"the owner's own"


def test_a_folder_that_cannot_be_written_gets_one_line(tmp_path):
    if os.geteuid() == 0:
        into = "/proc/nothing"  # an administrator may write to any ordinary folder
    else:
        locked = tmp_path / "locked"
        locked.mkdir(mode=0o555)
        into = str(locked / "out")
    code, _, err = told(["quote", SAMPLES / "euros", "--date", "2031-05-14", "--into", into])
    assert code == 3
    assert len(err.strip().splitlines()) == 1


def test_the_command_as_an_owner_types_it(tmp_path):
    """A process of its own, from another folder, with names that have spaces and accents."""
    books = tmp_path / "été à l'atelier"
    copytree(SAMPLES / "euros", books)
    done = subprocess.run(
        [sys.executable, "-m", "quoting.cli", "quote", str(books), "--date", "2031-05-14"],
        capture_output=True, text=True, cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1"},
        timeout=60, check=False,
    )
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    assert (books / "evening" / "2031-05-14" / "summary.xlsx").exists()


def test_help_is_quick_and_says_the_exit_codes():
    code, out, _ = told(["--help"])
    assert code == 0
    assert "exit codes" in out
