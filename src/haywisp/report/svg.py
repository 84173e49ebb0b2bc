"""What drawings share: elements with text that XML can hold."""

import xml.etree.ElementTree as ET


def child(parent: ET.Element, tag: str, text: str = "", **attributes: str) -> ET.Element:
    """A new element in ``parent``; a ``_`` in an attribute's name becomes a hyphen."""
    element = ET.SubElement(parent, tag, {key.replace("_", "-"): value for key, value in attributes.items()})
    element.text = legal(text) or None
    return element


def legal(text: str) -> str:
    """Without the control characters that XML cannot hold."""
    return "".join(char for char in text if char in "\t\n" or (ord(char) >= 32 and not 0xD800 <= ord(char) <= 0xDFFF))
