"""The docs agree with the code."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import rebuild

from quoting.domain.codes import CODES

ROOT = Path(__file__).parent.parent


def test_the_tables_of_the_docs_are_fresh():
    text = rebuild.DEVELOPERS.read_text("utf-8")
    assert rebuild.docs_with_tables(text) == text, "stale: run python tests/rebuild.py"


def test_the_readme_example_runs():
    blocks = re.findall(r"```python\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), flags=re.S)
    assert len(blocks) == 1
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", blocks[0]],
        cwd=ROOT, capture_output=True, text=True, timeout=60, check=False,
    )
    assert done.returncode == 0, done.stderr
    assert re.search(r"^Q-401 Fernhill Library \d+\.\d\d 0\.\d+$", done.stdout, flags=re.M), done.stdout


def test_the_readme_names_commands_and_options_that_exist():
    text = (ROOT / "README.md").read_text("utf-8")
    helps = ""
    for command in ([], ["quote"], ["check"], ["blank"]):
        helps += subprocess.run(
            [sys.executable, "-m", "quoting.cli", *command, "--help"],
            cwd=ROOT, capture_output=True, text=True, check=True,
        ).stdout
    for option in set(re.findall(r"(?<!\S)`?quoting \w+[^\n`]*?(--[a-z]+)", text)):
        assert option in helps
    for command in set(re.findall(r"`quoting (\w+)", text)):
        assert f"    {command} " in helps


def test_ci_calls_the_very_test_command_of_the_readme():
    readme = (ROOT / "README.md").read_text("utf-8")
    command = re.search(r"\*\*Install and pass the tests:\*\*\n\n    (.+)\n", readme)[1]
    assert command in (ROOT / ".ci/run").read_text("utf-8")


def test_every_code_is_used_and_every_used_code_is_in_the_table():
    used = set()
    for path in (ROOT / "quoting").rglob("*.py"):
        if path.name == "codes.py":
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and re.fullmatch(r"P\d{3}", node.value):
                used.add(node.value)
    assert used == set(CODES)
