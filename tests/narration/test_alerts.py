"""Red flags in the words of many speakers: told, only asked about, or none, each with and without full stops.

Source of the sentences: invented; the wording is common practice, no source.
"""

import pytest
from narration_samples import faults_of, tables, transcript

from haywisp.narration import Narration, understand

TOLD = {
    "unexplained-lameness": [
        "My other client's horse was lovely. This one is lame.",
        "He's lame on the off fore.",
        "He trotted up two tenths lame on the near hind.",
        "He trotted up lame behind.",
        "He isn't quite sound on the left rein.",
        "He was lame yesterday.",
        "The owner asked me because he's been lame.",
        "I'm not doing the legs, he's lame.",
        "I don't like it he's lame.",
        "He's not as lame as last week.",
        "He's lame, ring the vet.",
        "He's lame behind, that's the vet, not me.",
        "She's lame or sore, I can't say which.",
        "Ring the vet, he's lame.",
        "I think he's lame.",
        "He might be lame behind.",
        "The owner says he went lame on Sunday and nobody has looked at it.",
        "Bit of a head nod on the right rein.",
        "I'm going to stop there, he's lame.",
        "I had to stop, she looked lame.",
        "I should say he's lame.",
        "Should be sound but he's lame.",
        "He's worse than he should have been, he's lame.",
        "If I'm honest he's lame.",
        "I'd ring the vet if I were you, he's lame.",
        "If I'm honest, he's lame, get the vet.",
        "Watch him for me, he's lame.",
        "In case you wonder, he's lame.",
        "Trust me, he's lame.",
        "In the yard he trotted up lame.",
        "On the yard this morning she looked lame.",
        "He was out with the other horses and came in lame.",
        "He walked over with the rest of the other ponies and he was lame.",
        "No he's lame behind.",
        "Well no he was lame yesterday.",
        "No she is lame, I saw it.",
    ],
    "acute-lameness": [
        "She's hopping lame today.",
        "He came in this morning on three legs.",
        "She can barely put that foot to the floor.",
        "He isn't weight bearing on the near hind.",
        "She's not weight bearing.",
        "He wasn't really weight bearing this morning.",
    ],
    "fever": [
        "Temperature of 39.4 this morning.",
        "His temperature is thirty nine point five.",
        "He was thirty nine point five last night.",
        "Temp's a hundred and three.",
        "Temperature 39 and a half.",
        "He's got a temperature.",
        "He's running a bit of a fever.",
        "She had a temp of 39.8 last night.",
        "Rectal temperature forty point two.",
        "Thirty nine four on the thermometer.",
        "It was 102.9 this morning.",
        "Pulse of 40, temperature 39.8.",
        "Respiration twelve, pulse thirty six, temperature thirty nine point two.",
        "Temperature forty, heart rate forty four.",
        "His temperature is forty degrees.",
        "Not lame, he has a temperature.",
        "Not lame, has a temperature.",
    ],
    "colic": [
        "He had colic last night.",
        "He keeps looking at his belly and pawing.",
        "She's been kicking at her belly.",
        "Could be colic.",
        "She's been down and rolling and sweating since lunch.",
        "Touch of colic at the weekend.",
        "He's stretching out and looking round at his belly all morning.",
        "He's not lame, he's got colic.",
        "No he's got colic.",
        "There are signs of colic.",
        "She shows signs of colic today.",
    ],
    "pregnant": [
        "She's in foal.",
        "She's carrying a foal.",
    ],
    "pregnant-late": [
        "She's ten months in foal.",
        "She's due to foal in three weeks.",
    ],
    "known-condition": [
        "He's got kissing spines.",
        "He was diagnosed with kissing spines on x-ray.",
        "The vet found arthritis in the hocks.",
        "X-rays showed kissing spines at T fourteen.",
        "She's been diagnosed with navicular.",
    ],
    "painkillers": [
        "He was sedated this morning for the dentist.",
        "He's on bute.",
        "She's on two bute a day.",
        "He's had painkillers.",
        "The vet put him on anti-inflammatories.",
        "They gave him some sedative for the clipping.",
        "He's had a gram of bute this morning.",
    ],
    "vaccinated-recently": [
        "He's just had his vaccination.",
        "He had his flu jab on Tuesday.",
        "He was jabbed two days ago.",
    ],
    "neurological-signs": [
        "He's wobbly behind.",
        "She's ataxic.",
        "He's a bit unsteady behind when he turns.",
        "He's all over the place behind, like he's drunk.",
        "He keeps crossing his hind legs when he turns.",
        "He isn't lame, he's ataxic.",
        "She's never lame, she is unsteady.",
    ],
    "tying-up": [
        "He tied up after the hack on Sunday.",
        "She's had a bout of tying up.",
        "He tied up badly last week.",
    ],
    "laminitis": [
        "She's laminitic.",
        "He's a bit footy on the stones.",
        "He's got laminitis.",
        "He's got a really strong digital pulse in both fronts.",
        "He's showing signs of laminitis.",
        "I saw signs of laminitis in both fronts.",
    ],
    "infectious-disease": [
        "There's strangles on his yard and he's got a snotty nose.",
        "He's got a cough and a snotty nose.",
        "There's green snot coming out of his nose.",
        "They've got strangles on the yard.",
    ],
    "recent-surgery": [
        "He's had an operation.",
        "She's had surgery on her eye.",
        "He had his operation ten days ago.",
    ],
    "joint-injection": [
        "His hocks were injected last week.",
        "He had a joint injection on Monday.",
        "They injected both hocks on Friday.",
    ],
    "exhaustion": [
        "He's exhausted.",
        "He's completely exhausted after the lorry journey.",
    ],
    "unwell": [
        "He's not eating.",
        "She's off her food.",
        "He hasn't eaten since yesterday.",
        "She won't touch her feed.",
        "He hasn't touched his hay.",
        "No lameness, not eating though.",
        "No colic and he's not eating.",
    ],
    "acute-injury": [
        "It's bleeding.",
        "He got kicked in the field yesterday.",
        "He had a fall.",
        "There's blood running down his leg, it's still bleeding.",
        "It hasn't stopped bleeding.",
        "The cut won't stop bleeding.",
    ],
    "fracture": [
        "He fractured his splint bone.",
        "The vet thinks it's a hairline fracture.",
    ],
    "diarrhoea": [
        "He's got diarrhoea.",
        "His droppings are like water, proper diarrhoea.",
    ],
    "vet-agreement-missing": [
        "The vet hasn't agreed to this.",
    ],
    "vet-says-wait": [
        "The vet says to wait two weeks.",
        "The vet wants us to wait.",
        "My vet said no massage until the scan.",
        "The vet doesn't want him worked on yet.",
        "The vet told me to hold off.",
        "The vet said not to treat him before Friday.",
    ],
    "tumour": [
        "He's got a sarcoid on his chest.",
        "There's a melanoma under his tail.",
    ],
    "ppid": [
        "She's got Cushing's.",
    ],
    "heart-signs": [
        "He's got a heart murmur.",
        "The vet heard a grade three heart murmur.",
    ],
    "vet-treatment": [
        "He's on box rest.",
        "He's on antibiotics.",
    ],
}
ONLY_ASKED = {
    "unexplained-lameness": [
        "He was lame last year.",
        "She was lame in the spring, two years ago.",
        "Has he been lame?",
        "If you trot him up he's lame.",
        "He was lame but he's sound now.",
        "The other mare was lovely. He's lame on the near fore.",
        "I had another one of those. She's lame.",
        "He's lame, the one with the scar.",
        "He was turned out with his stablemate and came in lame.",
        "The other mare was stiff and she's lame.",
    ],
    "fever": [
        "His temperature is thirty nine.",
        "He was forty degrees last night.",
        "I measured forty degrees.",
        "His pulse was fine, thirty nine point five.",
        "Her temperature was forty two days ago.",
    ],
    "laminitis": [
        "She had laminitis two years ago.",
    ],
    "infectious-disease": [
        "He coughed.",
    ],
    "painkillers": [
        "He was on bute last year but not now.",
    ],
}
NONE = [
    "He's not lame.",
    "He isn't lame at all.",
    "He trotted up sound.",
    "No lameness, no heat.",
    "No sign of any lameness or fever.",
    "I can't see any lameness.",
    "If he goes lame, ring the vet.",
    "If he looks lame tomorrow call the vet.",
    "The stablemate is lame.",
    "The other mare had colic last night.",
    "My own horse is lame.",
    "Temperature is 37.8.",
    "His temperature's thirty eight point one.",
    "No temperature.",
    "He hasn't got a temperature.",
    "No colic.",
    "Never had colic.",
    "She's not in foal.",
    "He's not on bute.",
    "He's tied up outside.",
    "I'm exhausted.",
    "It's not bleeding.",
    "Watch for colic.",
    "Keep an eye out for lameness.",
    "Horses with laminitis get sore here.",
    "His lip's gone wobbly.",
    "Watch out, if you press there she sighs.",
    "The lip is wobbly and he's licking and chewing.",
    "He's never been lame.",
    "Lameness none.",
    "He's fit and well.",
    "We're getting the blood flowing.",
    "He's fell asleep.",
    "Without any lameness.",
    "If you see her short or lame, that's the vet.",
    "If it opens or goes yellow or she's lame on it that's the vet.",
    "Any cough, any snot, it's the vet.",
    "His temperature was thirty eight point six.",
    "He's never had a day's lameness in his life.",
    "There's no cough and no discharge.",
    "She's not in foal this year.",
    "Temperature normal, pulse normal.",
    "My last horse had laminitis.",
    "I'm looking for any sign of tying up and there isn't any.",
    "No swelling, no lameness, no temperature.",
    "He's not had any bute.",
    "The vet says he's not lame.",
    "He's neither lame nor stiff.",
    "He's sound in walk and trot.",
    "No he's not lame.",
    "No she isn't lame.",
    "I'm looking for signs of colic.",
    "Any signs of colic and you ring the vet.",
    "No signs of laminitis.",
    "We soak the hay to stop her getting laminitis.",
    "Should he go lame, ring the vet.",
    "The grey mare on the yard is lame.",
    "One on the yard has strangles.",
    "If the vet says wait we wait.",
    "The vet says no treatment needed.",
    "The other horses are lame.",
    "Heart rate forty, temperature thirty eight.",
    "Pulse of 40, temperature 38.",
    "His temperature was fine, forty beats a minute.",
    "He walked 39.5 metres.",
    "He is forty one point five kilos lighter.",
    "It's forty degrees in here.",
    "It's a hundred degrees outside.",
]
# Commas that carry a denial on, or part a condition from what is so.
DENIED_ON = [
    "No colic, fever.",
    "No lameness, heat in the feet or colic.",
    "He's not lame, ataxic or off his food.",
]
APART = [
    "Ring me if you can, the mare's lame.",
    "Should it rain bring him in, he's lame.",
    "If it rains I'll stop, he's lame.",
]


def heard(sentence: str) -> Narration:
    return understand(transcript(f"Long strokes on the left neck, light. {sentence} Then kneading the back."), tables())


def unpunctuated(sentence: str) -> str:
    return (
        sentence
        if any(letter.isdigit() for letter in sentence)
        else sentence.lower().translate({44: "", 46: "", 63: ""})
    )


def flags(narration: Narration, *, told: bool) -> list[str]:
    return [alert.flag for alert in narration.alerts if (alert.confidence >= 0.5) is told]


def each(table: dict[str, list[str]]) -> list[tuple[str, str]]:
    return [(flag, sentence) for flag, sentences in table.items() for sentence in sentences]


@pytest.mark.parametrize(("flag", "sentence"), each(TOLD))
def test_a_red_flag_that_is_told_becomes_an_alert(flag: str, sentence: str) -> None:
    for said in (sentence, unpunctuated(sentence)):
        narration = heard(said)
        assert flags(narration, told=True) == [flag], said
        assert faults_of(narration) == []


@pytest.mark.parametrize(("flag", "sentence"), each(ONLY_ASKED))
def test_what_is_long_ago_or_uncertain_is_only_asked_about(flag: str, sentence: str) -> None:
    for said in (sentence, unpunctuated(sentence)):
        narration = heard(said)
        assert flags(narration, told=True) == [], said
        assert flags(narration, told=False) == [flag], said


@pytest.mark.parametrize("sentence", NONE)
def test_what_is_denied_conditional_or_anothers_is_none(sentence: str) -> None:
    for said in (sentence, unpunctuated(sentence)):
        assert heard(said).alerts == (), said


@pytest.mark.parametrize("sentence", DENIED_ON)
def test_a_denial_goes_on_over_commas_while_nobody_is_named_anew(sentence: str) -> None:
    assert heard(sentence).alerts == ()


@pytest.mark.parametrize("sentence", APART)
def test_what_is_told_after_a_condition_and_a_comma_is_asked_about(sentence: str) -> None:
    assert flags(heard(sentence), told=False) == ["unexplained-lameness"]
    assert flags(heard(sentence), told=True) == []


def test_an_answer_to_the_question_denies_it() -> None:
    assert heard("Is he lame? No, he's sound.").alerts == ()


def test_each_alert_has_its_question_and_its_words() -> None:
    narration = heard("She trotted up two tenths lame this morning.")
    (alert,) = narration.alerts
    (question,) = [one for one in narration.questions if one.part == "flag"]
    words = [word.text for word in narration.transcript.words[alert.span.first : alert.span.last]]

    assert question.text == "Lameness was spoken of: is this so of this horse today?"
    assert [choice.value for choice in question.choices] == ["keep", "drop"]
    assert (question.index, question.span, question.field) == (0, alert.span, None)
    assert " ".join(words) == alert.text == "tenths lame"


def test_a_flag_is_one_alert_at_its_surest_mention() -> None:
    narration = heard("He was lame last year. He is lame again now. Lame on the left.")
    assert [(alert.flag, alert.confidence > 0.5) for alert in narration.alerts] == [("unexplained-lameness", True)]


def test_the_stronger_flag_stands_for_both() -> None:
    narration = heard("He's lame. He came in hopping lame.")
    assert [alert.flag for alert in narration.alerts] == ["acute-lameness"]


def test_an_alert_changes_nothing_else() -> None:
    plain, alarming = heard("And he is a bay."), heard("And he is lame.")
    assert [bout.technique for bout in plain.bouts] == [bout.technique for bout in alarming.bouts]
    assert (alarming.findings, alarming.responses, alarming.actions) == (plain.findings, plain.responses, plain.actions)


def test_every_flag_has_a_name_and_every_name_a_flag() -> None:
    known, raw = tables().flags, tables().language.tables["alerts"]
    spoken = {*raw["said"], *raw["asks"]}  # type: ignore[misc]
    assert spoken <= known.keys()
    assert spoken <= raw["names"].keys() <= known.keys()  # type: ignore[attr-defined]
    silent = known.keys() - spoken
    # Read off a thermometer, a watch or a scale, or asked before touching; nobody has collected how they are said.
    assert silent == {
        "ridden-pain-signs",
        "first-visit",
        "temperature-out-of-range",
        "heart-rate-out-of-range",
        "respiration-out-of-range",
        "capillary-refill-slow",
        "gut-sounds-absent",
        "injury-not-seen",
        "grimace-signs",
        "fresh-wound",
        "skin-sore",
        "sedated",
        "infection-contact",
        "new-arrival",
        "pregnant-middle",
        "foaled-recently",
    }
