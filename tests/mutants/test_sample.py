"""The sample of mutants: the same by the same seed, and counted as what became of each."""

from __future__ import annotations

import json
from pathlib import Path

from tests.mutants.alone import forget, found_alone, keep_alone, look_alone
from tests.mutants.sample import drawn, mutants_of, told

NAMES = [f"rules.money.rounding.x_half_up__mutmut_{n}" for n in range(30)]


def test_the_same_seed_draws_the_same_mutants_in_the_same_order() -> None:
    assert drawn(NAMES, 10, 1) == drawn(reversed(NAMES), 10, 1) != drawn(NAMES, 10, 2)
    assert sorted(drawn(NAMES, 99, 1)) == sorted(NAMES)


def test_a_mutant_more_or_less_leaves_the_others_in_the_sample() -> None:
    assert set(drawn(NAMES[1:], 10, 1)) >= set(drawn(NAMES, 10, 1)) - {NAMES[0]}


def test_what_became_of_them_is_read_from_beside_the_mutants(tmp_path: Path) -> None:
    folder = tmp_path / "mutants" / "rules" / "reading"
    folder.mkdir(parents=True)
    (folder / "text.py.meta").write_text(json.dumps({"exit_code_by_key": {"b": 0, "a": None}}))
    assert mutants_of(tmp_path) == {"a": None, "b": 0}


def test_those_that_nobody_noticed_are_named_and_time_outs_count_as_noticed() -> None:
    codes = {"a": 1, "b": 0, "c": 24, "d": 33, "e": None, "f": -11}
    assert told(list("abcde"), codes, 7) == [
        "  no test calls it: d",
        "  survived: b",
        "killed 1, no test calls it 1, not looked at 1, survived 1, time-out 1",
        "50.0 % of 4 mutants noticed (sample of 5 out of 6, seed 7)",
    ]
    assert told(["f"], codes, 7)[0] == "  ended oddly: f"


def test_before_anything_is_looked_at_there_is_no_figure() -> None:
    assert told(["e"], {"e": None}, 1)[-1] == "nothing yet of 0 mutants noticed (sample of 1 out of 1, seed 1)"


def test_one_that_survived_is_looked_at_alone_with_the_files_of_tests_that_call_it(tmp_path: Path) -> None:
    folder, name = tmp_path / "mutants", "rules.a.x_f__mutmut_1"
    folder.mkdir()
    tests = "import os\ndef test_slow(): assert os.environ['MUTANT_UNDER_TEST'] == 'other'\ndef test_quick(): pass\n"
    (folder / "test_one.py").write_text(tests, encoding="utf-8")
    told_of = {
        "tests_by_mangled_function_name": {"rules.a.x_f": ["test_one.py::test_quick"]},
        "duration_by_test": {"test_one.py::test_slow": 2.0, "test_one.py::test_quick": 0.1},
    }
    (folder / "mutmut-stats.json").write_text(json.dumps(told_of), encoding="utf-8")
    assert look_alone(tmp_path, name, ("-q", "-x", "-p", "no:cacheprovider")) == (name, 1)
    keep_alone(tmp_path, name, 1)
    keep_alone(tmp_path, "rules.a.x_g__mutmut_1", 0)
    forget(tmp_path, ["rules.a.x_g__mutmut_1", "rules.a.x_h__mutmut_1"])
    assert found_alone(tmp_path) == {name: 1}
