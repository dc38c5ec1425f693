"""The dated folder appears whole or not at all, and never replaces an earlier one."""

from __future__ import annotations

from datetime import date

import pytest

from quoting.writing.evening_folder import evening_folder

DAY = date(2031, 5, 14)


def write(into, text):
    with evening_folder(into, DAY) as folder:
        (folder.work / "quotes").mkdir()
        (folder.work / "quotes" / "a.txt").write_text(text)
    return folder


def test_the_folder_is_named_by_its_date_and_holds_the_files(tmp_path):
    folder = write(tmp_path / "evening", "one")
    assert folder.path == tmp_path / "evening" / "2031-05-14"
    assert (folder.path / "quotes" / "a.txt").read_text() == "one"
    assert not folder.is_unchanged


def test_the_same_files_again_add_nothing(tmp_path):
    first, second = write(tmp_path, "one"), write(tmp_path, "one")
    assert second.is_unchanged and second.path == first.path
    assert [p.name for p in tmp_path.iterdir()] == ["2031-05-14"]


def test_other_files_go_beside_the_earlier_ones(tmp_path):
    write(tmp_path, "one")
    assert write(tmp_path, "two").path == tmp_path / "2031-05-14 (2)"
    assert write(tmp_path, "three").path == tmp_path / "2031-05-14 (3)"
    assert (tmp_path / "2031-05-14" / "quotes" / "a.txt").read_text() == "one"


def test_a_failure_leaves_nothing_behind(tmp_path):
    with pytest.raises(RuntimeError), evening_folder(tmp_path, DAY) as folder:
        (folder.work / "half.txt").write_text("half")
        raise RuntimeError("stopped in the middle")
    assert list(tmp_path.iterdir()) == []


def test_until_it_is_whole_only_a_hidden_folder_is_there(tmp_path):
    with evening_folder(tmp_path, DAY) as folder:
        assert folder.work.name.startswith(".") and [p.name for p in tmp_path.iterdir()] == [folder.work.name]
    assert [p.name for p in tmp_path.iterdir()] == ["2031-05-14"]
