"""What a rule book is. Frozen types only: reading makes them, everything else asks them.

Ids are the book's own words in lower case with hyphens (`wheel-well`); the code knows no id of any book. Where the
service has to know which option plays a part (the series, the market …) the book says so in `roles`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import Enum

from rules.condition import ALWAYS, Condition
from rules.making import Making

#: A text in every language of the book: {"en": "…", "de": "…"}.
Words = Mapping[str, str]


class Kind(Enum):
    """The six kinds of rule. NEVER and NEEDS decide what can be built; the others say what it depends on."""

    NEVER = "never"
    NEEDS = "needs"
    PART = "part"
    APPROVAL = "approval"
    CAUTION = "caution"
    HOLD = "hold"


class Role(Enum):
    """Parts that an option may play for the service; the first three also key the usual table."""

    SERIES = "series"
    MARKET = "market"
    BODY = "body"
    STEERING = "steering"
    DELIVERY = "delivery"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a thing stands in the text: `file`, `line` counted from 1."""

    file: str
    line: int


@dataclass(frozen=True, slots=True)
class PriceList:
    """`currency` is an ISO 4217 code; amounts of the list are whole minor units of it."""

    id: str
    currency: str
    label: Words


@dataclass(frozen=True, slots=True)
class Category:
    """A discount category (A, B, C, D in the demo)."""

    id: str
    label: Words


@dataclass(frozen=True, slots=True)
class Group:
    id: str
    label: Words


@dataclass(frozen=True, slots=True)
class Choice:
    """`lost`: declared lost, kept only so that its refusal can be explained.

    `clause` says within a sentence that a shell has it, as after *because* or *if* (“the steering is on the right”);
    `shell` names such a shell (“a right-hand shell”). Both empty where the book leaves them to the labels.
    """

    id: str
    label: Words
    lost: bool = False
    clause: Words = field(default_factory=dict)
    shell: Words = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Option:
    """One question of the specification. `structural` options make the variant; the rest dress it."""

    id: str
    group: str
    label: Words
    choices: tuple[Choice, ...]
    structural: bool = False
    help: Words = field(default_factory=dict)
    place: Place | None = field(default=None, compare=False)

    def choice(self, choice_id: str) -> Choice:
        """The choice with this id; KeyError where there is none."""
        for choice in self.choices:
            if choice.id == choice_id:
                return choice
        raise KeyError(choice_id)


@dataclass(frozen=True, slots=True)
class Line:
    """A price line: appears on a shell when `when` holds. A choice's own price is such a line.

    `amounts`: price-list id → whole minor units (negative for an allowance); a list that is missing means *not priced*.
    `option`/`choice` are set where the line is a choice's own price, None where it stands by itself (an allowance).
    A choice that is included at no charge has no line at all. `base` marks the lines that the discount for several
    shells is taken from.
    """

    id: str
    when: Condition
    category: str
    label: Words
    amounts: Mapping[str, int]
    option: str | None = None
    choice: str | None = None
    base: bool = False


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Multiplies (`factor`) or waives (`factor` 0, `waives` True) every line of `lines` when `when` holds."""

    id: str
    lines: tuple[str, ...]
    when: Condition
    factor: Decimal
    label: Words
    waives: bool = False


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule with a stable `id` and the reason a customer reads.

    `kinds`: one or two of the six. For NEVER: `when` is what can't be built. For NEEDS: where `when` holds, `needs`
    must hold. A table of the combinations that exist is NEEDS with `when` ALWAYS and `needs` an Among. For the other
    kinds: `when` is what makes the rule speak. `title` is a short name; `part`: for PART, what the customer sends
    and `needed_before` the stage id before which it must have passed; for HOLD, the stage that waits. `clause`: the
    reason as it goes on after *because*; empty where the book leaves it to the reason.
    """

    id: str
    kinds: frozenset[Kind]
    when: Condition
    needs: Condition | None
    reason: Words
    title: Words = field(default_factory=dict)
    part: Words = field(default_factory=dict)
    needed_before: str | None = None
    place: Place | None = field(default=None, compare=False)
    clause: Words = field(default_factory=dict)


class ToolCondition(Enum):
    """The state of a tool: live, dated data beside the book."""

    OK = "ok"
    DOWN = "down"
    LOST = "lost"


@dataclass(frozen=True, slots=True)
class Tool:
    """`needed_for`: the choices or combination that depend on it.

    When lost: the part rule `stands_in` takes its place; else it speaks through the rule `speaks_as` and makes no ban
    of its own; else what depends on it is never, under the tool's own `id` and `reason`. `clause`: as a rule's.
    `stage`: where it is used; a shell past that stage needs it no more. None: nobody has said.
    """

    id: str
    label: Words
    needed_for: Condition
    reason: Words
    stands_in: str | None = None
    speaks_as: str | None = None
    place: Place | None = field(default=None, compare=False)
    clause: Words = field(default_factory=dict)
    stage: str | None = None


@dataclass(frozen=True, slots=True)
class UsualRow:
    """`when` speaks of the key options and of the donor; `values`: option id → choice id. Later rows win."""

    when: Condition
    values: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Series:
    """`choice`: of the series option. Identity numbers run `prefix`-`first` … `prefix`-`last`, `width` digits."""

    choice: str
    years: str
    prefix: str
    first: int
    last: int
    width: int
    changes: Words


class Work(Enum):
    """What is done at a stage: a shell is built, inspected or painted; NONE: it only has its days, as a buffer has."""

    BUILD = "build"
    INSPECTION = "inspection"
    PAINT = "paint"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage of building: `days` working days; `before_slot` for what is done before the framing slot.

    `per_week`: shells the stage can take in a week; `bays`: shells that can stand in it at once; None: no such limit.
    `changeover`: slots lost when the choice of option `changeover_of` differs from the shell before it.
    """

    id: str
    label: Words
    days: int
    before_slot: bool = False
    per_week: Decimal | None = None
    bays: int | None = None
    changeover: Decimal = Decimal(0)
    changeover_of: str | None = None
    work: Work = Work.BUILD


@dataclass(frozen=True, slots=True)
class Addition:
    """`days` more working days at `stage` when `when` holds.

    `from_gate`: counted from the passing of the customer's part to the earliest framing, beside the work before the
    slot rather than after it; the longest of them counts.
    """

    id: str
    stage: str
    days: int
    when: Condition
    label: Words
    from_gate: bool = False


@dataclass(frozen=True, slots=True)
class Closure:
    """Closed from `start` to `end` (month, day), both included, every year."""

    label: Words
    start: tuple[int, int]
    end: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Calendar:
    """`country`/`subdivision` as ISO 3166 names them for public holidays; `zone` is an IANA time zone.

    `spread`: a date is quoted as ready … ready + `spread` working days. The load planned over any `load_weeks`
    consecutive weeks is held to `load_percent` of what the stages can take.
    """

    zone: str = "UTC"
    country: str = ""
    subdivision: str | None = None
    closures: tuple[Closure, ...] = ()
    spread: int = 0
    load_percent: Decimal = Decimal(100)
    load_weeks: int = 1


@dataclass(frozen=True, slots=True)
class Goes:
    """What a choice of the delivery option means for tax: `how` is collected, home or abroad.

    `country`: ISO 3166-1 alpha-2 where the choice names one country; None: any that fits `how`.
    """

    choice: str
    how: str
    country: str | None = None


@dataclass(frozen=True, slots=True)
class TaxRate:
    """Standard rate from a day on (ISO date), percent as a Decimal: 20 means 20 %."""

    since: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class Tax:
    """Tax follows where the goods go. `home` is an ISO 3166-1 alpha-2 country."""

    home: str = ""
    rates: tuple[TaxRate, ...] = ()
    goes: tuple[Goes, ...] = ()
    label: Words = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Terms:
    """The firm's terms of sale: percents as Decimals (25 means 25 %), `validity` in days.

    `several_from` uncancelled shells on an order take `several_percent` off the base line of each, after trade
    discount. A total discount on a line of `ceiling_category` beyond `ceiling_percent` needs the manager.
    """

    deposit_percent: Decimal = Decimal(0)
    validity_days: int = 30
    several_from: int = 0
    several_percent: Decimal = Decimal(0)
    ceiling_category: str = ""
    ceiling_percent: Decimal = Decimal(100)


@dataclass(frozen=True, slots=True)
class Extra:
    """Sold beside the specification, in no count; `unit` names what one piece is."""

    id: str
    label: Words
    unit: Words
    category: str
    amounts: Mapping[str, int]


#: The sides of a part that may be given a margin, as the car stands.
SIDES = ("front", "rear", "left", "right", "above", "below")

#: One margin for every side that a part has.
ALL_ROUND = "all round"

#: The papers that may carry a standing caution.
PAPERS = (
    "quotation",
    "order-confirmation",
    "build-sheet",
    "inspection-record",
    "delivery-note",
    "part-tag",
    "where-to-cut",
    "change-note",
    "evidence-letter",
    "difference-sheet",
    "conformity-declaration",
)


@dataclass(frozen=True, slots=True)
class Caution:
    """A standing caution printed on `papers` (some of PAPERS) when `when` holds."""

    id: str
    papers: frozenset[str]
    when: Condition
    text: Words


@dataclass(frozen=True, slots=True)
class Wording:
    """A text of a paper or letter in the firm's own words; `id` is one of `rules.wordings.WORDINGS`."""

    id: str
    text: Words


@dataclass(frozen=True, slots=True)
class Measure:
    """About how large and heavy a thing is that is sent, when `when` holds: millimetres, kilograms; 0: not stated."""

    id: str
    when: Condition
    label: Words
    length_mm: int = 0
    width_mm: int = 0
    height_mm: int = 0
    mass_from_kg: int = 0
    mass_to_kg: int = 0


class Remark(Enum):
    """What a line about a customer's part says: what is not cut, a limit of its condition, a step of taking it out."""

    SPARE = "spare"
    LIMIT = "limit"
    STEP = "step"


class Bound(Enum):
    """How a limit is measured: what is found may be at most, or has to be at least, the length that it names."""

    MOST = "at most"
    LEAST = "at least"


@dataclass(frozen=True, slots=True)
class Remarked:
    """One such line. Lengths stand in it as `{2 mm}` (`rules.lengths`). `bound` None: nothing is measured for it."""

    about: Remark
    text: Words
    bound: Bound | None = None

    @property
    def written(self) -> str:
        """What the book's table says it is about."""
        return f"{self.about.value} {self.bound.value}" if self.bound else self.about.value


@dataclass(frozen=True, slots=True)
class Cut:
    """How the customer's part of the part rule `rule` is taken out of the donor car.

    `margins`: side (one of SIDES, or ALL_ROUND alone) → millimetres that are left on beyond the part; empty: it is not
    cut, it comes off whole.
    `sketch`: the line art that shows it; empty: none does.
    """

    rule: str
    margins: Mapping[str, int] = field(default_factory=dict)
    remarks: tuple[Remarked, ...] = ()
    sketch: str = ""
    place: Place | None = field(default=None, compare=False)

    @property
    def limits(self) -> tuple[Remarked, ...]:
        """Of the part's condition: what is answered, one by one, when it arrives."""
        return tuple(one for one in self.remarks if one.about is Remark.LIMIT)


@dataclass(frozen=True, slots=True)
class Keep:
    """A part of the donor car to be kept when it is stripped, while `when` holds, and `why`.

    `together_with`: a part rule; it is sent with that customer's part, where one is needed. `before`: it is sent, to
    be here before that stage. Neither: it is kept for the new shell, since no shell comes with one.
    """

    id: str
    when: Condition
    label: Words
    why: Words
    together_with: str | None = None
    before: str | None = None


class Allowed(Enum):
    """How a change is taken: without a fee, at a price, once it is approved (with price and new date), not at all."""

    FREE = "free"
    PRICED = "priced"
    APPROVAL = "approval"
    NO = "no"


#: Where a change is asked for before any stage, and after the last.
ORDERED, DESPATCHED = "ordered", "despatched"


@dataclass(frozen=True, slots=True)
class LateChange:
    """What may still change after the order, and until when, on shells of which `when` holds.

    `since`: ORDERED, a stage or DESPATCHED → how the change is taken from there on, up to the next that is named;
    ORDERED is always among them. `options`: what it speaks of; empty where that is no option (who is called, where it
    goes).
    """

    id: str
    label: Words
    since: Mapping[str, Allowed]
    options: tuple[str, ...] = ()
    when: Condition = ALWAYS


@dataclass(frozen=True, slots=True)
class Drawn:
    """The shell drawing shows `choice` of `option` as `element`, a name that the line art knows."""

    option: str
    choice: str
    element: str
    place: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Known:
    """A specification of which the firm knows what the book has to say: the book's own test.

    `answer`: "yes" (neither part nor approval), "once" or "no". `made`: option → choice; with `usual` what is not in it
    is taken over. `because`: rules and tools that the answer waits for or, where it is no, one cause of it; empty: not
    looked at. `price`: list and whole minor units, of one shell before tax and discount; None: not looked at.
    """

    id: str
    label: Words
    answer: str
    made: Mapping[str, str]
    usual: bool = False
    because: frozenset[str] = frozenset()
    price: tuple[str, int] | None = None
    series: str | None = None
    number: int | None = None
    gearbox: str | None = None
    place: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Book:
    """A whole rule book. `number` is given at publication; 0 is a draft or a file."""

    id: str
    title: Words
    languages: tuple[str, ...]
    options: tuple[Option, ...]
    rules: tuple[Rule, ...] = ()
    number: int = 0
    lists: tuple[PriceList, ...] = ()
    categories: tuple[Category, ...] = ()
    groups: tuple[Group, ...] = ()
    lines: tuple[Line, ...] = ()
    adjustments: tuple[Adjustment, ...] = ()
    tools: tuple[Tool, ...] = ()
    roles: Mapping[Role, str] = field(default_factory=dict)
    usual: tuple[UsualRow, ...] = ()
    series: tuple[Series, ...] = ()
    gearboxes: tuple[str, ...] = ()
    stages: tuple[Stage, ...] = ()
    additions: tuple[Addition, ...] = ()
    calendar: Calendar = Calendar()
    tax: Tax = Tax()
    terms: Terms = Terms()
    extras: tuple[Extra, ...] = ()
    cautions: tuple[Caution, ...] = ()
    wordings: tuple[Wording, ...] = ()
    drawing: tuple[Drawn, ...] = ()
    measures: tuple[Measure, ...] = ()
    known: tuple[Known, ...] = ()
    keeps: tuple[Keep, ...] = ()
    cuts: tuple[Cut, ...] = ()
    making: Making = field(default_factory=Making)
    late_changes: tuple[LateChange, ...] = ()

    def option(self, option_id: str) -> Option:
        """The option with this id; KeyError where there is none."""
        for option in self.options:
            if option.id == option_id:
                return option
        raise KeyError(option_id)

    def wording(self, wording_id: str, language: str) -> str | None:
        """What the firm says in place of a shipped text; None where it leaves that as it is."""
        return next((one.text.get(language) for one in self.wordings if one.id == wording_id), None)

    def cut(self, rule_id: str) -> Cut | None:
        """How the customer's part of that rule is taken out; None where the book doesn't say."""
        return next((cut for cut in self.cuts if cut.rule == rule_id), None)

    def rule(self, rule_id: str) -> Rule:
        """The rule with this id; KeyError where there is none."""
        for rule in self.rules:
            if rule.id == rule_id:
                return rule
        raise KeyError(rule_id)
