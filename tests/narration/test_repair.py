"""Misheard trade words are read as they were meant; ordinary talk is left alone.

The heard forms are own measurement: what a speech recogniser wrote for synthetic voices that read an invented
narration. Every fourth of the measured forms of one body part or technique is taken, good or bad.
"""

import pytest
from narration_samples import lexicon, tables, texts, words

from haywisp.narration import Repair
from haywisp.narration.tokens import Token, tokenise
from haywisp.narration.understanding import prepared

PLACES = (
    ("outlist", "atlas"),
    ("mysex temoris", "biceps femoris"),
    ("biceps femuris", "biceps femoris"),
    ("brachiosalicus", "brachiocephalicus"),
    ("barakio cephalicus", "brachiocephalicus"),
    ("rachios phallicus", "brachiocephalicus"),
    ("brachios hallicus", "brachiocephalicus"),
    ("baroquio seth alicus", "brachiocephalicus"),
    ("croop", "croup"),
    ("gasket", "gaskin"),
    ("hand string", "hamstring"),
    ("empress spinatus", "infraspinatus"),
    ("interested at us", "infraspinatus"),
    ("impor spinettis", "infraspinatus"),
    ("aspenachus or in foraspenachus", "infraspinatus"),
    ("lattice", "latissimus dorsi"),
    ("lattice immerse dorset", "latissimus dorsi"),
    ("old chisimis dorsi", "latissimus dorsi"),
    ("old chisimus dorsi", "latissimus dorsi"),
    ("wind", "loin"),
    ("long as semis", "longissimus"),
    ("longness in this", "longissimus"),
    ("peck rolls", "pectorals"),
    ("fectules", "pectorals"),
    ("bowel", "poll"),
    ("ramboy", "rhomboid"),
    ("act", "sacroiliac"),
    ("somatininossus", "semitendinosus"),
    ("some atintinosus", "semitendinosus"),
    ("some atinanasis", "semitendinosus"),
    ("semachandenesis", "semitendinosus"),
    ("semi tending losses", "semitendinosus"),
    ("spleenius", "splenius"),
    ("splinius", "splenius"),
    ("splinniest", "splenius"),
    ("sifle", "stifle"),
    ("super spinettis", "supraspinatus"),
    ("supraspidatus", "supraspinatus"),
    ("superspinatus", "supraspinatus"),
    ("super ospinatus", "supraspinatus"),
    ("riceps", "triceps"),
    ("tuber cocks", "tuber coxae"),
    ("tubercotzi", "tuber coxae"),
    ("tuber cotsy", "tuber coxae"),
    ("whimmers", "withers"),
    ("winners", "withers"),
)
TECHNIQUES = (
    ("effort y urge", "effleurage"),
    ("f e e e", "effleurage"),
    ("efflaryge", "effleurage"),
    ("effigurch", "effleurage"),
    ("efflaryage", "effleurage"),
    ("efflaryd", "effleurage"),
    ("effort", "effleurage"),
    ("effa yurch", "effleurage"),
    ("pepper sage", "petrissage"),
    ("petrousage", "petrissage"),
    ("petrusage", "petrissage"),
    ("scan rolling", "skin rolling"),
    ("tap opment", "tapotement"),
    ("tap open it", "tapotement"),
    ("tap opening", "tapotement"),
    ("ringing", "wringing"),
)
READ_AT_LEAST = 0.8

ORDINARY = """
My sister sings in a choir that meets on Tuesday evenings.
The library closes early on the last day of the month.
Her brother plays the piano rather well.
I forgot to buy milk and had to go back.
The train was twelve minutes late this morning.
Everyone agreed that the garden looked lovely in spring.
He wrote a letter to the council about the parking.
There is a sale on at the furniture place in town.
My neighbour is learning to play chess with his daughter.
We booked a table for four at half past seven.
The children built a castle out of cardboard boxes.
I am reading a novel about a lighthouse keeper.
The computer needs a new battery before long.
She bought two tickets for the concert next week.
His answer was polite but not very useful.
They are moving to a flat near the station.
The recipe calls for butter, flour and three eggs.
It was the coldest January that I can remember.
The museum has a fine collection of old maps.
You could hear the bells from the other end of the village.
The plumber fixed the tap and charged us fifty pounds.
I would like to visit Portugal one day.
The meeting was moved to the larger room upstairs.
He told a long story about a lost umbrella.
Nobody knew who had ordered the extra chairs.
The cat slept on the warm windowsill all day.
We are out of coffee, so tea will have to do.
That film was longer than I thought it would be.
They painted the front door a bright shade of green.
I left the keys on the kitchen table again.
The accountant sent her invoice at the end of April.
Our flight was delayed because of fog at the airport.
Grandad keeps his photographs in a biscuit tin.
The new teacher has a very quiet voice.
Somebody parked across our drive last night.
The baker had sold out of rye bread by ten.
She is saving up for a telescope.
The committee could not agree on a date.
Our internet went down during the storm.
He always takes the stairs instead of the lift.
""".strip().splitlines()

# Everyday words that recognisers also write for trade words, here meant as they stand.
TEMPTING = """
We had soup and cold bread for lunch, and then it rained.
The patient waited for an hour before the doctor came.
A group of us went to the cinema on Saturday.
It took a lot of effort to finish the report by Friday.
The development of the new bridge has been slow.
She put the pen back in the drawer and went home.
He has been keeping bees for about twenty years.
The winners were announced at the end of the show.
We walked along the river until it was dark.
Can you ring me when the shop opens tomorrow?
The weather turned in the afternoon and we stayed inside.
There was a bowl of apples on the table.
""".strip().splitlines()


def repaired(text: str) -> tuple[list[Token], list[Repair]]:
    repairer = prepared(tables())[1].repairer
    return repairer.repair(tokenise(words(text), lexicon().spellings))


def read(text: str) -> str:
    return texts(repaired(text)[0])


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [(PLACES, "long strokes over the {}, left side"), (TECHNIQUES, "{} over the left side of the neck, three times")],
)
def test_measured_mishearings_are_read_as_meant(rows: tuple[tuple[str, str], ...], sentence: str) -> None:
    missed = [(heard, meant) for heard, meant in rows if meant not in read(sentence.format(heard))]
    assert len(missed) <= (1 - READ_AT_LEAST) * len(rows), missed


def test_ordinary_sentences_are_left_alone() -> None:
    assert len(ORDINARY) == 40
    slips = [repair for sentence in ORDINARY for repair in repaired(sentence)[1]]
    assert len(slips) <= 1, slips


def test_everyday_words_beside_everyday_words_mostly_stand() -> None:
    slips = [repair for sentence in TEMPTING for repair in repaired(sentence)[1]]
    assert len(slips) <= len(TEMPTING) // 4, slips


@pytest.mark.parametrize(
    "place", ["withers", "splenius", "longissimus", "biceps femoris", "tuber coxae", "croup", "serratus ventralis"]
)
def test_a_trade_word_that_was_heard_well_is_no_repair(place: str) -> None:
    assert repaired(f"long strokes over the {place}, left side")[1] == []


def test_a_repair_tells_what_was_heard_and_where() -> None:
    made, repairs = repaired("long strokes over the biceps femuris, left side")
    assert [(repair.heard, repair.meant) for repair in repairs] == [("biceps femuris", "biceps femoris")]
    assert (repairs[0].span.first, repairs[0].span.last) == (4, 6)
    assert 0.5 < repairs[0].confidence <= 1
    assert texts(made) == "long strokes over the biceps femoris left side"


def test_repaired_tokens_keep_the_times_and_the_mark_of_the_words_that_were_heard() -> None:
    heard = tokenise(words("over the baroquio seth alicus, (2) soft"), lexicon().spellings)
    made, _ = repaired("over the baroquio seth alicus, (2) soft")
    assert [token.text for token in made] == ["over", "the", "brachiocephalicus", "soft"]
    assert (made[2].start, made[2].end, made[2].pause, made[2].mark) == (heard[2].start, heard[4].end, 2.0, "comma")


def test_nothing_is_repaired_in_silence() -> None:
    assert repaired("") == ([], [])
