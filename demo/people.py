"""The people of the demo firm and what they sign in with: invented, and printed on the screen at each start."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.asking.people import Person, Role

#: What each of the workshop signs a stage with; printed with the passwords.
CODES = {"tomasz": "1947", "oona": "2618", "idris": "3305"}

#: Each person with the password that the demo prints.
PEOPLE: tuple[tuple[Person, str], ...] = (
    (Person("imogen", "Imogen Faulk", Role.CLERK), "blue-ledger"),
    (Person("piers", "Piers Adeyemi", Role.MANAGER), "brass-key"),
    (Person("maren", "Maren Tolley", Role.MANAGER), "second-key"),
    (Person("tomasz", "Tomasz Brandl", Role.LEAD), "long-bench"),
    (Person("oona", "Oona Reyes", Role.INSPECTOR), "feeler-gauge"),
    (Person("idris", "Idris Vale", Role.WELDER), "warm-torch"),
    (Person("nell", "Nell Arkwell", Role.DEALER, "hollin-lane"), "hollow-lane"),
    (Person("greta", "Greta Lindenhof", Role.DEALER, "lindenhof", "de"), "linden-tor"),
    (Person("wade", "Wade Thibault", Role.DEALER, "bayou-road"), "slow-water"),
    (Person("themba", "Themba Kroll", Role.DEALER, "karoo-road"), "dry-river"),
)

#: Each by what he signs in with.
PERSON: Mapping[str, Person] = {person.name: person for person, _ in PEOPLE}
