"""Life numbers and microchip numbers against the rules that their issuers publish."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.record import BadIdentifier, Microchip, Ueln, microchip, ueln, ueln_of


# ueln.net, rules of attribution (read there): three examples of a number filled up with zeros.
@pytest.mark.parametrize(
    ("database", "number", "whole"),
    [
        ("250001", "00155928M", "25000100155928M"),
        ("372414", "1234567", "372414001234567"),
    ],
)
def test_a_national_number_is_filled_up_with_zeros(database: str, number: str, whole: str) -> None:
    assert str(ueln_of(database, number)) == whole
    assert ueln(whole) == ueln_of(database, number)


def test_a_slash_is_written_as_its_database_writes_it() -> None:
    """The third example of ueln.net writes 78M/234 as 0078M0234, and says that each database may choose."""
    assert str(ueln_of("121212", "78M/234", signs_as="0")) == "1212120078M0234"
    with pytest.raises(BadIdentifier, match="has “/” in it"):
        ueln_of("121212", "78M/234")


# ueln.net (read there): the database part may be letters; a Portuguese page shows points between the groups.
@pytest.mark.parametrize(
    ("typed", "parts"),
    [
        ("372IRE001234567", ("372", "IRE", "001234567")),
        (" 250001 00155928m ", ("250", "001", "00155928M")),
        ("620001.00224643.8", ("620", "001", "002246438")),
        ("826-031-000012345", ("826", "031", "000012345")),
    ],
)
def test_blanks_points_dashes_and_small_letters_do_not_matter(typed: str, parts: tuple[str, str, str]) -> None:
    assert ueln(typed) == Ueln(*parts)


def test_a_life_number_is_shown_with_its_database_apart() -> None:
    assert ueln("25000100155928m").shown == "250001 00155928M"


# Portugal's numbers end in a check digit of its own (ueln.net, secondary); no rule holds for all.
def test_the_last_sign_of_a_life_number_is_never_judged() -> None:
    assert {str(ueln(f"62000100224643{last}"))[-1] for last in "0123456789A"} == set("0123456789A")


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ("", "is empty"),
        (" - ", "is empty"),
        ("25000100155928", "has 14 characters instead of 15"),
        ("25000100155928MM", "has 16 characters instead of 15"),
        ("GBR031000012345", "begins with “GBR”, and has to begin with the three digits of a country"),
        ("000031000012345", "begins with “000”"),
        ("250001/0155928M", "has “/” in it"),
        ("25000100155928Ü", "has “Ü” in it"),
        ("2500010015592ß", "has “ß” in it"),
        ("٢50001001559280", "has “٢” in it"),
        ("25000100155928\0", "has “a sign that can't be seen” in it"),
    ],
)
def test_a_life_number_that_is_none_says_why(typed: str, wrong: str) -> None:
    with pytest.raises(BadIdentifier) as refused:
        ueln(typed)
    assert wrong in str(refused.value)
    assert str(refused.value).startswith("The life number (UELN) “")


@pytest.mark.parametrize(
    ("database", "number", "signs_as", "wrong"),
    [
        ("25001", "1", "", "has a database code of 5 characters instead of 6"),
        ("250001", "", "", "has 0 characters of the horse's own"),
        ("250001", "1234567890", "", "has 10 characters of the horse's own"),
        ("250001", "1/2", "/", "digits and capital letters only"),
    ],
)
def test_parts_that_make_no_life_number(database: str, number: str, signs_as: str, wrong: str) -> None:
    with pytest.raises(BadIdentifier) as refused:
        ueln_of(database, number, signs_as=signs_as)
    assert wrong in str(refused.value)


# ISO 11784 as quoted by ICAR (read there): 38 bits for the animal; Germany 276, one maker 972. The largest number is
# worked out again: 2**38 - 1 = 274877906943.
@pytest.mark.parametrize(
    ("typed", "code", "number", "issuer"),
    [
        ("276098101234567", "276", "098101234567", "country"),
        ("276 098 101 234 567", "276", "098101234567", "country"),
        ("276.0981.0123.4567", "276", "098101234567", "country"),
        ("972274877906943", "972", "274877906943", "maker"),
        ("826000000000000", "826", "000000000000", "country"),
        # Makers 900 to 998 and 999 for tests: from memory; a page on chip codes has 001 to 899 for countries.
        ("899000000000001", "899", "000000000001", "country"),
        ("900000000000001", "900", "000000000001", "maker"),
        ("998000000000001", "998", "000000000001", "maker"),
        ("999000000000001", "999", "000000000001", "test"),
    ],
)
def test_a_chip_is_a_code_and_a_number(typed: str, code: str, number: str, issuer: str) -> None:
    chip = microchip(typed)
    assert (chip, chip.issuer) == (Microchip(code, number), issuer)


def test_a_chip_is_shown_in_groups_of_three() -> None:
    assert microchip("276.098101234567").shown == "276 098 101 234 567"


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ("", "is empty"),
        ("27609810123456", "has 14 digits instead of 15"),
        ("2760981012345678", "has 16 digits instead of 15"),
        ("27609810123456X", "has the letter “X” in it"),
        ("000098101234567", "begins with 000"),
        ("276274877906944", "no chip can hold more than 274877906943"),
        ("276/98101234567", "has “/” in it"),
    ],
)
def test_a_chip_that_is_none_says_why(typed: str, wrong: str) -> None:
    with pytest.raises(BadIdentifier) as refused:
        microchip(typed)
    assert wrong in str(refused.value)
    assert str(refused.value).startswith("The microchip number “")


@given(st.integers(1, 999), st.integers(0, 2**38 - 1), st.sampled_from(["", " ", ".", "-"]))
def test_every_chip_reads_back_as_it_is_shown(code: int, number: int, between: str) -> None:
    digits = f"{code:03d}{number:012d}"
    chip = microchip(f"{digits[:3]}{between}{digits[3:]}")
    assert microchip(chip.shown) == chip
    assert str(chip) == digits


@given(st.integers(1, 999), st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=3, max_size=12))
def test_every_life_number_reads_back_as_it_is_shown(country: int, rest: str) -> None:
    whole = ueln_of(f"{country:03d}{rest[:3]}", rest[3:] or "0")
    assert ueln(whole.shown) == whole == ueln(str(whole).lower())


@given(st.text(max_size=20))
def test_any_text_is_a_number_or_refused_in_one_sentence(text: str) -> None:
    for reads in (ueln, microchip):
        try:
            assert len(str(reads(text))) == 15
        except BadIdentifier as refused:
            assert str(refused).endswith(".")
