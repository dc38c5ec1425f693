"""Words on the screen and exit codes; nothing else in the project prints."""

from __future__ import annotations

import argparse
import io
import sys
from collections import Counter
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from quoting.domain.quotes import JobResult
    from quoting.domain.reports import BatchReport

ALL_QUOTED, SOME_HELD, NOTHING_USABLE, WRONG_CALL = 0, 1, 2, 3
SHOWN_PROBLEMS = 40

EXIT_CODES = """exit codes:
  0  every job is quoted (or, with check, nothing holds any job)
  1  some jobs are held; the others are quoted
  2  nothing could be quoted
  3  the command itself was wrong: an unknown option, a folder that isn't there or can't be written
"""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        print(f"{self.prog}: {message} (try {self.prog} --help)", file=sys.stderr)
        raise SystemExit(WRONG_CALL)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code (see `EXIT_CODES`)."""
    for stream in (sys.stdout, sys.stderr):
        # A pipe may know fewer letters than clients' names have; a "?" is better than no evening.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    try:
        chosen = _parser().parse_args(arguments)
        code: int = chosen.run(chosen)
    except _WrongCallError as wrong:
        print(f"quoting: {wrong}", file=sys.stderr)
        return WRONG_CALL
    except BrokenPipeError:
        sys.stderr.close()
        return WRONG_CALL
    except KeyboardInterrupt:
        print("quoting: stopped; nothing was left half written", file=sys.stderr)
        return WRONG_CALL
    except Exception as error:  # noqa: BLE001  any failure of ours: an owner gets one line, never a traceback
        told = f"{type(error).__name__}: {error}"
        print(f"quoting: the program itself failed ({told}); please send us this line", file=sys.stderr)
        return NOTHING_USABLE
    return code


class _WrongCallError(Exception):
    """A command that can't be carried out, in one line."""


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="quoting",
        description="Works out balloon décor quotes from spreadsheets.",
        epilog=EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=_Parser)

    quote = commands.add_parser("quote", help="check the books, work every job out and write tonight's folder")
    _add_sources(quote)
    quote.add_argument(
        "--into", type=Path, metavar="FOLDER", help="where dated folders go (else: evening/ beside the books)"
    )
    quote.set_defaults(run=_quote)

    check = commands.add_parser("check", help="work everything out and report mistakes; write nothing")
    _add_sources(check)
    check.add_argument("--all", action="store_true", help=f"list every problem, not just the first {SHOWN_PROBLEMS}")
    check.set_defaults(run=_check)

    blank = commands.add_parser("blank", help="make a blank book to fill in")
    blank.add_argument("file", type=Path, metavar="FILE.xlsx", help="the workbook to make; it must not be there yet")
    blank.add_argument(
        "--units", choices=("feet", "metric"), default="feet", help="how lengths are typed (default: feet)"
    )
    blank.set_defaults(run=_blank)
    return parser


def _add_sources(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("sources", nargs="+", type=Path, metavar="BOOK_OR_FOLDER", help="workbooks, or folders of them")
    parser.add_argument(
        "--date", type=_day, default=None, metavar="YYYY-MM-DD", help="the evening's date (else: today)"
    )


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text}" is no date; type one like 2031-05-14') from None


def _quote(chosen: argparse.Namespace) -> int:
    from quoting.batch import run_evening

    sources = _there(chosen.sources)
    into = chosen.into or (sources[0] if sources[0].is_dir() else sources[0].parent) / "evening"
    with _Progress() as progress:
        try:
            report, written = run_evening(sources, into, chosen.date or date.today(), progress.job)
        except OSError as error:
            raise _WrongCallError(f"{into} can't be written: {error.strerror or error}") from None
    _tell_problems(report, SHOWN_PROBLEMS)
    _tell_end(report)
    print(f"Unchanged since {written.folder}" if written.is_unchanged else f"Written to {written.folder}")
    return _exit_code(report)


def _check(chosen: argparse.Namespace) -> int:
    from quoting.batch import work_out

    with _Progress(quiet=True) as progress:
        report = work_out(_there(chosen.sources), chosen.date or date.today(), progress.job)
    _tell_problems(report, len(report.problems) if chosen.all else SHOWN_PROBLEMS)
    _tell_end(report)
    return _exit_code(report)


def _blank(chosen: argparse.Namespace) -> int:
    from quoting.batch import make_blank_book

    if chosen.file.suffix.lower() != ".xlsx":
        raise _WrongCallError(f"{chosen.file} should end in .xlsx")
    if chosen.file.exists():
        raise _WrongCallError(f"{chosen.file} is there already; name another file")
    try:
        make_blank_book(chosen.file, is_metric=chosen.units == "metric")
    except OSError as error:
        raise _WrongCallError(f"{chosen.file} can't be written: {error.strerror or error}") from None
    print(f"Made {chosen.file}; open it and begin at its first sheet")
    return ALL_QUOTED


def _there(sources: Sequence[Path]) -> Sequence[Path]:
    for source in sources:
        try:
            if not source.exists():
                raise _WrongCallError(f"there is no file or folder {source}")
            if source.is_dir():
                next(source.iterdir(), None)
        except OSError as error:
            raise _WrongCallError(f"{source} can't be read: {error.strerror or error}") from None
    return sources


def _tell_problems(report: BatchReport, most: int) -> None:
    from quoting.domain.problems import shown_once

    lines = shown_once(report.problems)
    for line in lines[:most]:
        print(line)
    if len(lines) > most:
        print(f"… and {len(lines) - most} more problems (quoting check --all lists them; so does summary.xlsx)")
    if lines:
        print()


def _tell_end(report: BatchReport) -> None:
    counts = Counter(result.status.value for result in report.results)
    if not report.results:
        print("No job was found in these books.")
        return
    print(", ".join(f"{count} {status}" for status, count in sorted(counts.items(), reverse=True)) + ".")
    for result in report.results:
        if result.sheet is None:
            own = [p for p in report.problems if p.job == result.job]
            why = own or [p for p in report.problems if p.level == "book"]
            first = f"{why[0].place}: {why[0].why}" if why else "see the problems above"
            more = f" (and {len(why) - 1} more)" if len(why) > 1 else ""
            print(f"  held: {result.job} {result.client} — {first}{more}")


def _exit_code(report: BatchReport) -> int:
    quoted = [result for result in report.results if result.sheet is not None]
    if not quoted:
        return NOTHING_USABLE
    return ALL_QUOTED if len(quoted) == len(report.results) else SOME_HELD


class _Progress:
    """A bar where a person is watching, one plain line a job where not."""

    def __init__(self, *, quiet: bool = False) -> None:
        self._quiet = quiet
        self._bar: object = None

    def __enter__(self) -> _Progress:
        return self

    def __exit__(self, *_: object) -> None:
        if self._bar is not None:
            self._bar.close()  # type: ignore[attr-defined]  # tqdm, imported only when watched

    def job(self, result: JobResult, number: int, total: int) -> None:
        """Tell of one job worked out."""
        if not sys.stderr.isatty():
            if not self._quiet:
                print(f"{number}/{total} {result.job} {result.client}: {result.status.value}")
            return
        if self._bar is None:
            from tqdm import tqdm

            self._bar = tqdm(total=total, unit="job", file=sys.stderr, leave=False)
        self._bar.update(1)  # type: ignore[attr-defined]


if __name__ == "__main__":
    raise SystemExit(main())
