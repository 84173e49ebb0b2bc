"""Decisions for afterwards in the words of many speakers: each sentence gives its action, with and without full stops.

Source of the sentences: invented; the wording is common practice, no source.
"""

import pytest
from narration_samples import tables, understood, unpointed

BOUT = "[0:02] Left side of the neck, long strokes, light. [0:20] Fine. [0:40] "
DONE = "Hands off, all done. [0:45] "
ACTIONS = {
    "refer-vet": [
        "Please get your vet to look at that fetlock.",
        "I'll be ringing the vet about that lump.",
        "I want your vet's opinion before we go on.",
        "That needs the vet.",
        "The vet should come to see this.",
        "Let's have the vet out to him.",
        "Vet, please.",
        "You need to have a vet look at that.",
        "Vet's opinion on that, please.",
        "I'll phone your vet tonight.",
    ],
    "refer-saddler": [
        "Get the saddler to look at the flocking.",
        "That saddle wants looking at.",
        "I'd like a saddle fitter to see him.",
        "Have someone check the saddle fit.",
        "Phone the saddler please.",
        "The saddle must be checked.",
        "Let's get that saddle seen to.",
        "The saddle pinches, so get the fitter.",
        "I'd like that saddle checked.",
        "I want the saddler to see this.",
    ],
    "refer-dentist": [
        "He's due the dentist, so book that.",
        "Get his teeth looked at.",
        "Please let the dentist come.",
        "His teeth want seeing to.",
        "Dentist for him.",
        "I'd like him to see the dentist.",
        "He needs his teeth done.",
        "He needs the dentist.",
        "Have the dentist out.",
        "His teeth need doing.",
    ],
    "refer-farrier": [
        "I want your farrier to look at that off fore.",
        "Have a chat with the farrier about his heels.",
        "Please ask the blacksmith to check the shoe.",
        "Get the trimmer out to him.",
        "Get your farrier to take that toe back.",
        "Farrier to see him before that.",
        "Let your farrier know about that heel.",
        "Get the farrier to look at that.",
        "Tell the farrier he's long in the toe.",
        "The farrier should look at that heel.",
    ],
    "recheck": [
        "I'll see you in a fortnight.",
        "I'd like to come back in three weeks.",
        "Book me again for next month.",
        "I'll pop back in ten days.",
        "Let's see him again in six weeks.",
        "I come in two weeks again to look.",
        "Three weeks for me.",
        "Same again in a month.",
        "See him next month.",
        "I'll come by Tuesday to feel it.",
    ],
    "rest": [
        "Two days off, please.",
        "He has tomorrow off.",
        "No riding this weekend.",
        "She should rest for a few days.",
        "Nobody gets on her till Saturday.",
        "Give him a couple of quiet days.",
        "No riding for a week.",
        "Rest day tomorrow.",
        "Week off.",
        "He's off till Monday.",
    ],
    "turnout": [
        "Pop him back out in the field.",
        "Turn him out this evening.",
        "Get her out on grass.",
        "Chuck her out in the paddock with the others.",
        "He may go out on the meadow.",
        "Turn out tonight.",
        "Field tonight.",
        "Out in the paddock.",
        "Let him go out in the field.",
        "Straight out to grass.",
    ],
    "walk-in-hand": [
        "Walk him out in hand, ten minutes.",
        "Lead her round the lanes for a quarter of an hour.",
        "Ten minutes in hand morning and night.",
        "Take him for a walk on the lead rope.",
        "Some hand walking, please.",
        "Walk in hand only.",
        "In hand walking, ten minutes.",
        "You walk with him by hand each day.",
        "Lead him out for grass and a walk.",
        "In hand walking, fifteen minutes.",
    ],
    "groundwork": [
        "A few trot poles.",
        "Long rein her for a week.",
        "Some groundwork over poles.",
        "Lunge him lightly twice.",
        "Pole work three times a week.",
        "Raised poles.",
        "Long reining.",
        "Work over poles twice a week.",
        "Pole work twice a week.",
        "Walk over raised poles.",
    ],
    "ridden-work": [
        "Light hacking for the week.",
        "Ride her in walk only.",
        "Hack him out in a straight line.",
        "Ride him long and low on Saturday.",
        "Just gentle riding.",
        "Gentle hack.",
        "Hacking only.",
        "You ride him only in walk.",
        "Easy hacking in straight lines.",
        "Hack her out quietly.",
    ],
    "baited-stretches": [
        "Carrot stretches morning and evening.",
        "Use the carrot, nose to girth.",
        "Chin to chest with a carrot.",
        "Carrot stretches.",
        "Carrot stretches every day, both sides.",
        "Baited stretches daily.",
        "Carrot stretches every night.",
        "Carrot down between the front legs.",
        "Chin to chest with a treat.",
        "Do your carrot stretches.",
    ],
    "warmth": [
        "Heat pack on there before you ride.",
        "Warm towel on it at night.",
        "Put some heat on that back.",
        "A hot water bottle on the loins.",
        "Heat pad on.",
        "Put heat on it.",
        "Warm pack ten minutes.",
        "Heat pack before work.",
        "Put a heat pad on it.",
        "Warm wet towel on that.",
    ],
    "avoid-site": [
        "Nobody rubs that lump.",
        "Don't brush over that sore.",
        "No girth on that.",
        "Keep the rug off that rub.",
        "Stay off that shoulder.",
        "Nothing goes near that cut.",
        "Nobody touch it.",
        "Don't touch it.",
        "Hands off that lump.",
        "No saddle on there.",
    ],
    "stop-session": [
        "I'm stopping there, he's told me.",
        "That's it, we stop.",
        "We're stopping here, he's too sore.",
        "I'm calling it off for today.",
        "Stopping here.",
        "That's it for today, I'm stopping.",
        "I'm stopping now, he's had enough.",
        "I'll stop there, he's telling me no.",
        "We stop now.",
        "I'm going to stop there.",
    ],
}
SAID = [(kind, sentence) for kind, sentences in ACTIONS.items() for sentence in sentences]
#: What was done before, conditions, refusals, thanks, and words with another sense.
NOTHING = [
    "The vet said last year it was nothing.",
    "He was in the field this morning.",
    "He's in a field of his own, that horse.",
    "The rest of him is grand.",
    "The farrier was here on Tuesday.",
    "He had his teeth done in the spring.",
    "The saddle was checked in March.",
    "If it gets worse, ring the vet.",
    "No vet needed.",
    "No need for the vet.",
    "Turn the light out.",
    "My phone's back in the car.",
    "The walk from the car park is muddy.",
    "Thanks for the carrots.",
    "I stopped for petrol.",
    "I'll see to the other buckets.",
    "He loves a roll in the field.",
    "That field is a swamp.",
    "The vet said last year he had a bit of arthritis.",
    "The rest of the week's busy for me.",
    "I trod in something in that field.",
    "Last week she kicked out at the farrier.",
    "The saddler came last month.",
    "He was shod on Monday.",
    "If it swells up, ring the vet.",
    "The vet has been happy with him.",
    "His feet aren't due for trimming.",
    "He was turned out in the field all winter.",
    "He had a good rest in the lorry.",
    "The rest I will tell you on the phone.",
    "We met in a field in Wales.",
    "No vet for this, no.",
    "Your saddler was here in the spring.",
    "She ate all the carrots in her bucket.",
    "I need a rest myself.",
    "He rests his head on my arm.",
    "The dentist was here in June.",
    "I walked from the car park.",
    "The light bulb wants changing.",
]


def decided(sentence: str, plain: bool, over: bool = True) -> tuple[str, ...]:
    """The actions understood of a sentence said after the work (or during it); ``plain`` without full stops."""
    text = BOUT + (DONE if over else "") + sentence
    narration = understood(unpointed(text) if plain else text)
    return tuple(action.kind for action in narration.actions)


@pytest.mark.parametrize("plain", [False, True], ids=["written", "plain"])
@pytest.mark.parametrize(("kind", "sentence"), SAID)
def test_a_decision_is_heard_in_lay_words(kind: str, sentence: str, plain: bool) -> None:
    assert decided(sentence, plain, over=kind != "stop-session") == (kind,)


@pytest.mark.parametrize("plain", [False, True], ids=["written", "plain"])
@pytest.mark.parametrize("sentence", NOTHING)
def test_what_only_sounds_like_a_decision_is_none(sentence: str, plain: bool) -> None:
    assert decided(sentence, plain) == ()


def test_every_action_of_the_tables_has_sentences() -> None:
    words = tables().language.tables["actions"]
    assert set(ACTIONS) == set(words["strong"]) | set(words["after"])
    assert all(len(sentences) >= 3 for sentences in ACTIONS.values())
