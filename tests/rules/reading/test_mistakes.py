"""A book with mistakes: each is named with its line and its mend, all in one reading, and none makes another."""

from __future__ import annotations

import pytest

from rules.reading import BookMistakes, Mistake, read_book
from rules.reading.mistakes import sentence

SOUND = """\
book small
  title en: A small book
  title de: Ein kleines Buch
  languages: en, de
  gearboxes: manual, automatic
roles
  series: series
  body: body
  delivery: delivery
groups
  | group | en | de |
  | structure | Structure | Rohbau |
categories
  | category | en | de |
  | A | Shell | Karosse |
lists
  | list | currency | en | de |
  | GBP | GBP | Sterling | Pfund |
  | JPY | JPY | Yen | Yen |
option body
  group: structure
  structural: yes
  category: A
  label en: Body
  label de: Aufbau
  | choice | en | de | GBP | JPY |
  | roadster | Roadster | Roadster | 11 850 | 2 000 000 |
  | coupe | Coupé | Coupé | 13200.50 | |
option bumpers
  group: structure
  label en: Bumpers
  label de: Stoßfänger
  | choice | en | de | GBP | JPY |
  | chrome | Chrome | Chrom | - | - |
  | impact | Impact | Prall | - | - |
option series
  group: structure
  label en: Series
  label de: Serie
  | choice | en | de | GBP | JPY |
  | s1 | S1 | S1 | - | - |
  | s2 | S2 | S2 | - | - |
option delivery
  group: structure
  label en: Delivery
  label de: Lieferung
  | choice | en | de | GBP | JPY |
  | collected | Collected | Abholung | - | - |
series s1
  years: 1961
  numbers: T1-00001 to T1-00100
  changes en: first
  changes de: erste
series s2
  years: 1962
  numbers: T2-00001 to T2-00100
  changes en: second
  changes de: zweite
rule N1
  never: body is coupe and bumpers is impact
  reason en: No.
  reason de: Nein.
usual
  | when | bumpers |
  | series is s2 | impact |
stage framing
  days: 2
  label en: Framing
  label de: Rahmenlehre
calendar
  zone: Europe/London
  holidays: GB-ENG
  spread: 10
closed
  every year: 2 August to 13 August
  label en: Summer
  label de: Sommer
tax
  home: GB
  label en: VAT
  label de: USt
  | since | percent |
  | 2011-01-04 | 20 % |
delivery
  | choice | goes | country |
  | collected | collected | |
terms
  deposit: 25 %
  validity: 30 days
caution lifting
  papers: delivery-note
  when: always
  text en: Mind.
  text de: Vorsicht.
measure shell
  when: body is roadster
  mass: 260 to 330 kg
  label en: Shell
  label de: Karosse
tool jig
  needed for: bumpers is impact
  label en: Jig
  label de: Lehre
  reason en: Gone.
  reason de: Weg.
"""


def mistakes_in(text: str) -> tuple[Mistake, ...]:
    with pytest.raises(BookMistakes) as caught:
        read_book(text, "small.book")
    return caught.value.mistakes


def line_of(text: str, wanted: str) -> int:
    return next(number for number, line in enumerate(text.split("\n"), start=1) if wanted in line)


def test_the_small_book_itself_has_no_mistake() -> None:
    assert read_book(SOUND, "small.book").id == "small"


# One change to the sound book each: what is replaced, by what, where the mistake stands, what is wrong, what to write.
CHANGES = [
    # heads and ids
    ("rule N1", "ruel N1", "ruel N1", "no kind of block “ruel”", "did you mean “rule”"),
    ("rule N1", "rule", "rule", "“rule” does not name one rule", "write “rule some-name”"),
    ("stage framing", "stage the framing jig", "stage the", "does not name one stage", "one word"),
    (
        "caution lifting",
        "stage framing\n  days: 1\n  label en: F\n  label de: F\ncaution lifting",
        None,
        "stage “framing” stands here a second time, first on line",
        "another id",
    ),
    ("groups\n", "groups all\n", "groups all", "“groups” takes no name", "alone on its line"),
    (
        "terms\n",
        "terms\n  deposit: 25 %\n  validity: 3 days\nterms\n",
        None,
        "“terms” stands here a second time",
        "one block",
    ),
    ("book small", "book not small", "book not", "does not name one book", "write “book some-name”"),
    # fields
    ("  days: 2\n", "  day: 2\n  days: 2\n", "  day:", "takes no “day”", "did you mean “days”"),
    ("  days: 2\n", "", "stage framing", "stage framing has no “days”", "“days: 5”"),
    ("  days: 2\n", "  days:\n", "  days:", "“days:” has no value", "write one"),
    ("  days: 2\n", "  days: 2\n  days: 3\n", "  days: 3", "“days:” stands here twice", "take one of them out"),
    ("  days: 2\n", "  days: two\n", "  days: two", "“two” is not a number of working days", "whole number from 0"),
    ("  days: 2\n", "  days 2\n", "  days 2", "“days 2” is neither a field nor a row", "name: value"),
    ("  structural: yes", "  structural: perhaps", "perhaps", "neither yes nor no", "write yes or no"),
    # languages
    ("  reason de: Nein.\n", "", "rule N1", "rule N1 has no “reason de”", "“reason de: …”"),
    ("| Coupé | Coupé |", "| Coupé | |", "| coupe ", "“coupe” has no label in de", "fill the cell under de"),
    ("  languages: en, de", "  languages: en, Deutsch", "Deutsch", "“Deutsch” is no language code", "ISO 639"),
    # conditions
    ("never: body", "never: boddy", "never:", "there is no option “boddy”", "did you mean “body”"),
    (
        "is impact\n  reason",
        "is impacted\n  reason",
        "never:",
        "“bumpers” has no choice “impacted”",
        "did you mean “impact”",
    ),
    ("coupe and bumpers", "coupe bumpers", "never:", "“bumpers” can't follow here", "“and” or “or”"),
    ("coupe and bumpers", "coupe and is bumpers", "never:", "“is” stands where an option should", "bumpers is impact"),
    ("never: body is coupe and", "never: (body is coupe and", "never:", "a bracket is not closed", "add “)”"),
    (
        "never: body is coupe and",
        "never: series is s1 or body is coupe and",
        "never:",
        "side by side without brackets",
        "“series is s1 or (body is coupe and bumpers is impact)” or “(series is s1 or body is coupe) and bumpers is",
    ),
    (
        "never: body is coupe and",
        "never: not body is coupe and",
        "never:",
        "“not” stands before no bracket",
        "not ( … )",
    ),
    (
        "never: body is coupe and",
        "never: body is the donor's and",
        "never:",
        "“body” can't be the donor's",
        "“series is the donor's”",
    ),
    ("never: body is coupe and", "never: donor gearbox is manul and", "never:", "no gearbox “manul”", "“manual”"),
    ("never: body is coupe and", "never: donor series is s3 and", "never:", "no series “s3”", "one of: s1, s2"),
    (
        "never: body is coupe and",
        "never: donor colour is red and",
        "never:",
        "nothing is known of a donor's “colour”",
        "donor number",
    ),
    (
        "never: body is coupe and",
        "never: donor number s2 to 00200 and",
        "never:",
        "no identity numbers of s2",
        "from 1 to 100",
    ),
    ("never: body is coupe and", "never: donor number s2 and", "never:", "names no numbers", "from 00001 to 06200"),
    # rules
    ("  never: body is coupe and bumpers is impact\n", "", "rule N1", "rule N1 has no condition", "never: …"),
    ("  never: body", "  caution: body is coupe\n  never: body", "rule N1", "says “never” and “caution”", "two rules"),
    ("  never: body", "  where: body is coupe\n  never: body", "rule N1", "“where” goes with “needs” only", "“and”"),
    (
        "  never: body is coupe and bumpers is impact\n",
        "  part: body is coupe\n  part en: lid\n",
        "rule N1",
        "has no “part de”",
        "part de: …",
    ),
    (
        "  never: body is coupe and bumpers is impact\n",
        "  these exist:\n  | body | bumpers |\n  | coupe |\n",
        None,
        "the row has 1 cells, the table 2 columns",
        "body, bumpers",
    ),
    (
        "  never: body is coupe and bumpers is impact\n",
        "  these exist:\n  | body | bumper |\n  | coupe | impact |\n",
        "| bumper |",
        "no option “bumper”",
        "did you mean “bumpers”?",
    ),
    (
        "  never: body is coupe and bumpers is impact\n",
        "  these exist:\n  | body |\n  | coupe |\n  | coupe |\n",
        None,
        "the combination stands here twice",
        "take one of them out",
    ),
    # size and mass
    ("  mass: 260 to 330 kg\n", "", "measure shell", "has neither a size nor a mass", "mass: 260 to 330 kg"),
    ("260 to 330 kg", "260 kg", "mass: 260 kg", "“260 kg” is no mass", "260 to 330 kg"),
    ("260 to 330 kg", "330 to 260 kg", "mass: 330", "the mass falls from 330 to 260 kg", "the smaller one first"),
    ("mass: 260 to 330 kg", "size: 4.1 x 1.75 m", "size: 4.1", "“4.1 x 1.75 m” is no size", "4100 x 1750 x 1400 mm"),
    # amounts and money
    ("11 850", "11,850", "roadster |", "“11,850” is no amount", "11 850 or 11850.00"),
    ("11 850", "11850.005", "roadster |", "more decimals than its currency", "at most 2"),
    ("2 000 000", "2 000 000.50", "roadster |", "more decimals than its currency", "at most 0"),
    ("11 850", "9999999999", "roadster |", "too large", "1 000 000 000"),
    (
        "  category: A\n  label en: Body",
        "  label en: Body",
        "option body",
        "option body has no “category”",
        "“category: A”",
    ),
    (
        "  category: A\n  label en: Body",
        "  category: B\n  label en: Body",
        "category: B",
        "no category “B”",
        "one of: A",
    ),
    ("| GBP | GBP |", "| GBP | GBQ |", "| GBQ |", "“GBQ” is no currency", "ISO 4217"),
    ("| choice | en | de | GBP | JPY |", "| choice | en | de | GBP | JYP |", "JYP", "no column “JYP”", "“JPY”"),
    (
        "| choice | en | de | GBP | JPY |",
        "| choice | en | de | GBP | GBP |",
        "de | GBP | GBP |",
        "“GBP” stands twice",
        "take one",
    ),
    (
        "  | since | percent |\n  | 2011-01-04 | 20 % |",
        "  | since |\n  | 2011-01-04 |",
        None,
        "no column “percent”",
        "since, percent",
    ),
    # the rest
    ("  body: body\n", "  body: boddy\n", "  body: boddy", "no option “boddy”", "did you mean “body”"),
    ("  body: body\n", "  bodie: body\n", "  bodie:", "roles takes no “bodie”", "did you mean “body”"),
    (
        "numbers: T2-00001",
        "numbers: T1-00100",
        "numbers: T1-00100",
        "is no range of identity numbers",
        "T1-00251 to T1-08450",
    ),
    (
        "T2-00001 to T2-00100",
        "T1-00100 to T1-00300",
        "series s2",
        "the identity numbers of s2 overlap those of s1",
        "one series",
    ),
    (
        "T2-00001 to T2-00100",
        "T2-00100 to T2-00001",
        "T2-00100 to",
        "00100 comes after 00001",
        "the lower number first",
    ),
    ("13 August", "29 February", "every year", "29 February does not exist every year", "28 February"),
    ("13 August", "31 September", "every year", "31 September does not exist every year", "every year has"),
    ("2 August to", "20 August to", "every year", "ends before it begins", "two blocks"),
    ("2011-01-04", "2011-02-30", "2011-02-30", "2011-02-30 does not exist", "a day of the calendar"),
    ("20 %", "120 %", "120 %", "120 % is out of range", "0 % to 100 %"),
    ("25 %", "a quarter", "a quarter", "“a quarter” is no percentage", "20 %"),
    ("zone: Europe/London", "zone: somewhere", "somewhere", "no time zone", "Europe/London"),
    ("holidays: GB-ENG", "holidays: England", "England", "names no region", "ISO 3166"),
    (
        "| collected | collected | |",
        "| collected | fetched | |",
        "fetched",
        "no way to go “fetched”",
        "collected, home, abroad",
    ),
    ("home: GB", "home: Britain", "Britain", "no country code", "two capital letters"),
    (
        "papers: delivery-note",
        "papers: delivery",
        "papers: delivery",
        "there is no paper “delivery”",
        "“delivery-note”",
    ),
    (
        "needed for: bumpers is impact",
        "needed for: bumpers is impact\n  speaks as: N2",
        "speaks as",
        "no rule “N2”",
        "one of: N1",
    ),
    (
        "| series is s2 | impact |",
        "| bumpers is chrome | impact |",
        "| bumpers is chrome",
        "can't hang on “bumpers”",
        "series, body",
    ),
    ("| series is s2 | impact |", "| series is s2 | |", "| series is s2", "the row says nothing", "take the row out"),
    ("  spread: 10", "\tspread: 10", "spread: 10", "a tab in this line", "write spaces"),
    ("  spread: 10", "  spread: 10\x07", "spread: 10", "can't be seen", "type the line anew"),
    # what only the whole book shows
    ("tool jig", "tool N1", "tool N1", "tool “N1” has the id of a rule", "another id"),
    ("  needed for:", "  stands in: N1\n  needed for:", "tool jig", "N1 asks for no part", "“part: …”"),
    (
        "tool jig\n",
        "rule H1\n  hold: body is coupe\n  reason en: No.\n  reason de: Nein.\ntool jig\n  speaks as: H1\n",
        "tool jig",
        "H1 bans nothing",
        "never or needs",
    ),
    ("never: body is coupe", "never: body is not usual", "never:", "“body” decides what is usual", "“body is …”"),
    (
        "terms\n  deposit: 25 %\n  validity: 30 days\n",
        "",
        None,
        "says nothing of terms",
        "add a block “terms”",
    ),
    (
        "| collected | collected | |",
        "| collected | abroad | GB |",
        None,
        "the home country is GB",
        "abroad for any other",
    ),
    ("  | collected | collected | |\n", "", None, "does not say where “collected” goes", "add a row for collected"),
]


@pytest.mark.parametrize(("old", "new", "where", "what", "instead"), CHANGES)
def test_one_mistake_is_named_once_with_its_place_and_its_mend(
    old: str, new: str, where: str | None, what: str, instead: str
) -> None:
    text = SOUND.replace(old, new, 1)
    assert text != SOUND
    found = mistakes_in(text)
    assert len(found) == 1, "\n".join(map(str, found))
    assert what in found[0].what
    assert instead in found[0].instead
    if where:
        assert found[0].line == line_of(text, where)


# Thirty mistakes in one text: old, new, and what the message says; each stands on the line of its `new`.
MANY = [
    ("  title de: Ein kleines Buch", "  titel de: Ein kleines Buch", "takes no “titel de”", "“title de”"),
    ("  body: body", "  body: boddy", "no option “boddy”", "“body”"),
    ("| structure | Structure | Rohbau |", "| structure | Structure | |", "says nothing under de", "fill every cell"),
    ("| GBP | GBP | Sterling | Pfund |", "| GBP | GBQ | Sterling | Pfund |", "“GBQ” is no currency", "ISO 4217"),
    ("  structural: yes", "  structural: si", "“si” is neither yes nor no", "write yes or no"),
    ("  category: A", "  category: Z", "no category “Z”", "one of: A"),
    ("11 850 | 2 000 000 |", "11.850,00 | 2 000 000 |", "“11.850,00” is no amount", "decimal point"),
    ("| 13200.50 | |", "| 13200.50 | 2.5 |", "more decimals than its currency", "at most 0"),
    ("option bumpers", "optoin bumpers", "no kind of block “optoin”", "“option”"),
    ("| impact | Impact | Prall | - | - |", "| impact | Impact | Prall | - |", "the row has 4 cells", "JPY"),
    ("  label de: Serie", "  label fr: Série", "takes no “label fr”", "“label de”"),
    ("  numbers: T1-00001 to T1-00100", "  numbers: T1-1 bis T1-100", "no range of identity numbers", "T1-00251"),
    ("  never: body is coupe and", "  never: body is coop and", "“body” has no choice “coop”", "“coupe”"),
    ("  reason de: Nein.", "  reason de:", "“reason de:” has no value", "write one"),
    ("  | series is s2 | impact |", "  | bumpers is chrome | impact |", "can't hang on “bumpers”", "series"),
    ("  days: 2", "  days: -2", "“-2” is not a number of working days", "from 0"),
    ("  label en: Framing", "  label en Framing", "neither a field nor a row", "name: value"),
    ("  zone: Europe/London", "  zone: here", "“here” is no time zone", "Europe/London"),
    ("  holidays: GB-ENG", "  holidays: England", "names no region", "GB-ENG"),
    ("  spread: 10", "\tspread: 10", "a tab", "spaces"),
    ("  every year: 2 August to 13 August", "  every year: 30 February", "30 February does not exist", "28 February"),
    ("  home: GB", "  home: uk", "no country code", "capital"),
    ("| 2011-01-04 | 20 % |", "| 2011-13-04 | 20 % |", "2011-13-04 does not exist", "calendar"),
    ("| collected | collected | |", "| collected | colected | |", "no way to go “colected”", "“collected”"),
    ("  deposit: 25 %", "  deposit: 250 %", "250 % is out of range", "0 % to 100 %"),
    ("  validity: 30 days", "  validity: a month", "“a month” is no validity", "30 days"),
    ("  papers: delivery-note", "  papers: delivery-not", "no paper “delivery-not”", "“delivery-note”"),
    ("  when: always", "  when: always and", "the condition ends where an option should", "bumpers is impact"),
    ("  text de: Vorsicht.", "  text de: Vorsicht.\n  text de: Obacht.", "stands here twice", "take one"),
    ("  needed for: bumpers is impact", "  needed for: bumper is impact", "no option “bumper”", "“bumpers”"),
]


def test_a_book_with_thirty_mistakes_names_each_of_them_and_no_other() -> None:
    text = SOUND
    for old, new, _, _ in MANY:
        assert old in text, old
        text = text.replace(old, new, 1)
    wanted = {(line_of(text, new.split("\n")[-1]), what, instead) for _, new, what, instead in MANY}
    found = mistakes_in(text)
    unnamed = [w for w in wanted if not any(m.line == w[0] and w[1] in m.what and w[2] in m.instead for m in found)]
    assert unnamed == []
    assert len(found) == len(MANY) == 30, "\n".join(map(str, found))


def test_a_choice_that_stands_twice_is_offered_once() -> None:
    twice = SOUND.replace("  | coupe |", "  | roadster | Again | Nochmals | | |\n  | coupe |")
    told = mistakes_in(twice.replace("body is coupe and", "body is zzz and"))
    assert [mistake.instead for mistake in told if "zzz" in mistake.what] == ["write one of: roadster, coupe"]


def test_a_book_without_a_series_can_not_speak_of_the_donors() -> None:
    text = SOUND.replace("  series: series\n", "", 1).replace("never: body", "never: series is the donor's and body", 1)
    assert "no option plays the series" in " / ".join(
        m.what for m in mistakes_in(text) if m.line == line_of(text, "never:")
    )


def test_a_text_that_is_no_book_at_all_is_told_so_on_its_first_line() -> None:
    assert [m.line for m in mistakes_in("")] == [1]
    assert "begin it with “book some-name”" in mistakes_in("")[0].instead
    assert "begin the file with a line like" in mistakes_in("  hello")[1].instead


def test_a_text_of_rubbish_stops_after_five_hundred_mistakes() -> None:
    assert len(mistakes_in("book x\n" + "  rubbish here\n" * 10_000)) == 500


def test_a_text_too_large_or_a_line_too_long_is_refused_with_its_limit() -> None:
    assert "a rule book may have 8000000" in mistakes_in("#" * 8_000_001)[0].instead
    assert "at most 20000 characters" in mistakes_in(SOUND + "x" * 20_001)[0].instead


def test_brackets_deeper_than_anybody_reads_are_refused() -> None:
    deep = SOUND.replace("never: ", "never: " + "(" * 60, 1)
    assert "more than 40 deep" in mistakes_in(deep)[0].what


def test_mistakes_print_file_line_what_and_mend() -> None:
    assert (
        str(Mistake("a.book", 3, sentence("it is wrong"), sentence("write it right")))
        == "a.book:3: it is wrong: write it right"
    )
