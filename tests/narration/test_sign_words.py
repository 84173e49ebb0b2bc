"""The horse's answers in the words of many speakers: each sentence gives its sign, with and without full stops.

Source of the sentences: invented; the wording is common practice, no source.
"""

import re

import pytest

from haywisp.knowledge import load_tables
from haywisp.narration import read_bytes, understand

BOUT = "[0:02] Left side of the neck, long strokes, light. [0:20] "
SIGNS = {
    "head-lowering": [
        "Och, his wee head's drooped right down.",
        "That's it, chin on the floor.",
        "He is going down with the head.",
        "And there he goes, head's dropping away towards the straw.",
        "She's let the neck go long and her nose is down by my boots.",
    ],
    "lick-and-chew": [
        "He's off licking and chewing.",
        "There's his mouth going ten to the dozen.",
        "She make a chew now.",
        "Chomp chomp, good man.",
        "Grand, a lick and a chew out of her.",
    ],
    "soft-eye": [
        "Look at that eye, soft as butter.",
        "Eyes have gone all gooey.",
        "The eye is getting softer and softer.",
        "He's on another planet.",
        "His eye's gone lovely and soft.",
    ],
    "eyes-closing": [
        "He's closed his eyes.",
        "His eyes are like this, half shut.",
        "He sleeps now, the good boy.",
        "Her lids are coming down.",
        "His eyes are drifting shut.",
    ],
    "ears-soft": [
        "Ears have gone to half mast, all floppy.",
        "His ears have gone slack.",
        "The ears go to the sides, like by a donkey.",
        "Lugs have gone all floppy.",
        "One ear's flopped out to the side.",
    ],
    "lip-droop": [
        "His lip's gone long and floppy.",
        "There goes the bottom lip.",
        "Lip sagging a bit.",
        "Would you look at that lip hanging.",
        "His bottom lip's on the floor.",
    ],
    "yawn": [
        "That's him yawning.",
        "Oh mate, what a yawn.",
        "Big old yawn, I can see his tonsils.",
        "He yawns and yawns.",
        "Yep, that's a yawn.",
    ],
    "sigh": [
        "Hear that sigh?",
        "That's a sigh.",
        "And a big breath out.",
        "She did a deep sigh.",
        "Aw, a wee sigh.",
    ],
    "blow-out": [
        "Nice big blow through the nostrils.",
        "He just snorted all over me.",
        "Brrr, there's a blow out.",
        "Good blow through the nose.",
        "And he snorts it all out.",
    ],
    "lip-quiver": [
        "That top lip's off.",
        "Lip's all of a quiver.",
        "He plays with the upper lip.",
        "Her top lip's started trembling.",
        "The lip's quivering like a jelly.",
    ],
    "lean-in": [
        "He's coming back into my hand.",
        "She's leaning so hard I'll fall over.",
        "Oh, he likes that, he's pushing into my hand.",
        "He's properly leaning into my knuckles.",
        "She pushes against my hand.",
    ],
    "muscle-release": [
        "Oh yes, it's let go.",
        "I can feel it letting go.",
        "There, it dropped, it's softer.",
        "It's gone like butter.",
        "That's come loose.",
    ],
    "hip-rest": [
        "He's resting a leg.",
        "Hip's dropped and the toe's tipped.",
        "He stands there with one leg rested.",
        "Off hind cocked.",
        "He's cocked that off hind.",
    ],
    "head-nod": [
        "His head's going up and down in little nods.",
        "A wee nod from him.",
        "She nods gently.",
        "Little nod, nod, nod.",
        "His head's bobbing gently with my hands.",
    ],
    "gut-sounds": [
        "That was his belly.",
        "Tummy rumbles, good.",
        "There's some gurgling going on.",
        "Bowels are moving.",
        "Tummy's gurgling.",
    ],
    "stands-quiet": [
        "He's standing still as anything.",
        "Hasn't moved a hoof.",
        "She's just standing quietly.",
        "She's stood like a rock.",
        "He has not moved one foot.",
    ],
    "ears-back": [
        "Ears went right back.",
        "Pinned ears.",
        "He lays the ears flat.",
        "She's given me the ears, flat back.",
        "Ears have gone flat back.",
    ],
    "tail-swish": [
        "Swished at me.",
        "There's a swish.",
        "His tail's going like a windmill.",
        "He makes with the tail, swishing.",
        "There's the tail swishing.",
    ],
    "head-raise": [
        "Head went up like a shot.",
        "He's got his head right up.",
        "High goes the head.",
        "Head's shot up.",
        "Whoa, up comes his head.",
    ],
    "head-toss": [
        "Head toss.",
        "He's throwing it about, his head I mean, tossing it.",
        "She's tossing her head at me.",
        "Flipped his head.",
        "He shakes the head.",
    ],
    "flinch": [
        "He flinched away.",
        "Dipped his back.",
        "She dropped right away from me.",
        "He shrank from that.",
        "He jumped.",
    ],
    "skin-twitch": [
        "That skin's jumping.",
        "Little skin twitch.",
        "Skin's dancing under there.",
        "Skin's shivering there.",
        "She twitches with the skin.",
    ],
    "muscle-guarding": [
        "She's bracing.",
        "He's tightened up against me.",
        "He's guarding it.",
        "It went solid under my hand.",
        "He tenses.",
    ],
    "step-away": [
        "She stepped off.",
        "He's moved away.",
        "Went a step away from me.",
        "He stepped over away from it.",
        "Swung his bum away.",
    ],
    "bite-threat": [
        "Snapped at me.",
        "He nipped me.",
        "He's swung round and had a bite at me.",
        "She makes teeth at me.",
        "He's just tried to have a nip.",
    ],
    "kick-threat": [
        "Leg's up at me.",
        "He kicked at me.",
        "Back leg lifted at me.",
        "She's threatening to kick.",
        "He's waving that hind at me.",
    ],
    "pawing": [
        "Pawing.",
        "He's started to paw.",
        "Pawing the ground now.",
        "He's pawing at the floor.",
        "She paws with the front foot.",
    ],
    "stamp": [
        "Stamped.",
        "He stamped a hind foot.",
        "Stamping his foot.",
        "Stamp of the foot.",
        "She's stamping at me.",
    ],
    "eye-white": [
        "Rolling his eye.",
        "Whites are showing.",
        "I see the white of the eye.",
        "He's showing the white of his eye.",
        "I see white in her eye.",
    ],
    "tight-nostril": [
        "Nostril's tight.",
        "Wrinkled nostril.",
        "Pinched up round the nose.",
        "She's gone tight in the nostril.",
        "His nostrils are pinched up.",
    ],
    "breath-holding": [
        "Holding his breath again.",
        "He's stopped breathing.",
        "Breath's stopped.",
        "He's holding his breath there.",
        "She's gone and stopped breathing.",
    ],
    "fidget": [
        "Fidgeting.",
        "He's all over the shop.",
        "She can't stand quiet.",
        "He's never still.",
        "She's fidgeting with me.",
    ],
}
SAID = [(sign, sentence) for sign, sentences in SIGNS.items() for sentence in sentences]
#: People's own bodies, other people, theory, questions, denials, tools and sayings.
NOTHING = [
    "I had a feeling in my gut about that one.",
    "He never yawns for me, mind.",
    "You'll hear people say a yawn is always a release.",
    "I could do with a yawn myself.",
    "I'm yawning, sorry, late night.",
    "His tail's full of straw.",
    "He's not moved his ears at all.",
    "No flinch there.",
    "He doesn't swish for me any more.",
    "She didn't step away this time.",
    "Her dad sighs when he sees the bill.",
    "Take a deep breath, me, not him.",
    "The dog's digging a hole in the muck heap, leave him.",
    "Thunder rumbling over there.",
    "I let go and move on.",
    "I lean in with the heel of my hand.",
    "If he flinches I'll stop.",
    "When they sigh you know it's working.",
    "Some of them will kick at you here.",
    "Her tail isn't swishing.",
    "His head's not come down yet.",
    "Ears aren't back, he's fine.",
    "He hasn't licked or chewed yet.",
    "He'd usually be fidgeting by now.",
    "My stomach's rumbling, I missed lunch.",
    "He put a stamp on the foals, that stallion.",
    "The chewing muscles lie here.",
    "Lovely big eye on him.",
    "He's a bit of a fidget at shows, usually.",
    "Last time he tried to bite.",
    "I'd be looking for a lick and chew.",
    "My other client's mare was swishing all day.",
    "He used to paw.",
    "He isn't leaning on me.",
    "She hasn't stepped away once.",
    "He's not tossing his head now.",
    "There's no white of the eye.",
    "He's still not resting a leg.",
    "He jumps a metre ten, clever boy.",
    "She's wearing a nose twitch in that photo.",
    "The dog's asleep.",
    "I press and let go.",
    "The muscle goes from the rib to the elbow.",
    "She's by a stallion called Blow Me Down.",
    "He's got two white socks.",
    "Watch the tail, it's been plaited.",
    "Come round here, stand up, good lad.",
    "My hand's flat, fingers forward, elbows soft.",
    "I breathe out and let my weight sink.",
    "He's a soft-eyed sort of a horse by nature.",
    "The back half of the neck is stiff.",
    "I'm moving over to the shoulder now.",
    "Down the neck and back up to the poll.",
    "His head's heavy set, a bit common.",
    "The belly, working along to the flank.",
    "Round the stifle, moving slow.",
    "His eye was sore in March.",
    "Ears, poll, and down the crest.",
    "Tail next, I take it in both hands.",
    "I'm holding the leg and waiting.",
    "He's standing square today.",
    "The lip of the scapula is here.",
    "She rolls her sleeves up.",
    "I rest my fist on it.",
    "The foot goes back on the floor.",
    "His legs go up and down like pistons.",
    "He pushes off well behind.",
    "He swings through his back nicely.",
    "There's a draught through the door.",
    "Bit of a breeze, that's all.",
    "He steps under well.",
    "She's quiet in the box, they say.",
    "I start at the withers and go back.",
    "He's good as gold.",
    "Let me get my stool.",
    "The muscle lifts the head up.",
    "It opens the mouth to chew.",
    "When the horse lowers his head it stretches.",
    "We'll see.",
    "Next I go to the hind leg and lift it.",
    "I lift his leg up and bring it forward.",
    "I sighed with relief when I saw the car start.",
    "A yawn isn't always a good sign, mind.",
    "His ears are not back.",
    "There's no swishing today.",
    "He's never once flinched.",
    "We used to say they lick and chew when they've understood.",
    "If he snorts, that's lovely.",
    "The owner's tummy is rumbling.",
    "She hasn't rested a leg yet.",
    "No stamping, good.",
    "He isn't holding his breath.",
    "I was hoping for a yawn.",
    "His tail's had a good wash.",
    "He'd normally tip a hip for me.",
    "Her neck and her head are well set on.",
    "Are his eyes closing?",
    "Is he swishing?",
    "I'm leaning in with my body weight.",
    "The grey mare yawned for an hour.",
    "He could have sighed for all I know.",
    "You might see the skin twitch here.",
    "His lip has a scar on it.",
    "I let go of the leg slowly.",
]


def heard(sentence: str, plain: bool) -> tuple[str, ...]:
    """The signs understood of a sentence said under the hands; ``plain`` is without full stops."""
    text = BOUT + sentence + " [0:31] One two three."
    if plain:
        text = re.sub(r"[,.!?;](?!\d)", "", text).lower()
    narration = understand(read_bytes(text.encode(), "session.txt"), load_tables())
    return tuple(response.sign for response in narration.responses)


@pytest.mark.parametrize("plain", [False, True], ids=["written", "plain"])
@pytest.mark.parametrize(("sign", "sentence"), SAID)
def test_a_sign_is_heard_in_lay_words(sign: str, sentence: str, plain: bool) -> None:
    assert heard(sentence, plain) == (sign,)


@pytest.mark.parametrize("plain", [False, True], ids=["written", "plain"])
@pytest.mark.parametrize("sentence", NOTHING)
def test_what_only_sounds_like_a_sign_is_none(sentence: str, plain: bool) -> None:
    assert heard(sentence, plain) == ()


def test_every_sign_of_the_tables_has_sentences() -> None:
    assert set(SIGNS) == set(load_tables().language.tables["signs"]["forms"])
    assert all(len(sentences) >= 4 for sentences in SIGNS.values())
