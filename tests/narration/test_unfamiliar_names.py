"""Structures by names that are no heading of an anatomy book (own lists; common practice, no source)."""

import pytest
from narration_samples import understood

NAMED: dict[str, list[str]] = {
    "masseter": [
        "the masseter", "the cheek muscle", "the m. masseter", "the muscle he chews with",
        "the round muscle on the jaw", "the cheeks", "masseter muscle on the left", "the mastication muscle",
        "the jaw muscle",
    ],
    "temporalis": [
        "the temple", "the muscle over the eye", "the hollow above the eye", "the dip over his eye", "the temporal",
        "his temples", "the forehead muscle", "the muscle by the ear", "the one above the eye",
        "the salt cellars",
    ],
    "rectus-capitis": [
        "rectus capitis", "the rectus capitis dorsalis major", "the suboccipitals", "the suboccipital muscles",
        "rectus capitis dorsalis minor", "the little straight muscles behind the ear", "the tiny poll muscles",
        "the rectus capitis ventralis", "the small muscles of the poll",
    ],
    "obliquus-capitis": [
        "the obliquus capitis caudalis", "obliquus capitis cranialis", "the oblique capitis",
        "the cranial oblique of the head", "the capitis oblique", "the caudal oblique",
        "the slanting muscle behind the ear", "the oblique behind the ear", "obliquus capitis caudalis muscle",
    ],
    "brachiocephalicus": [
        "the brachiocephalicus", "the cleidocephalicus", "the muscle from behind the ear to the shoulder",
        "the arm-to-head muscle", "the long strap from the poll to the arm", "the upper edge of the jugular groove",
        "the big strap muscle on the side of the neck", "the head and arm muscle",
        "the long band on the side of the neck",
    ],
    "omotransversarius": [
        "the omotransversarius", "the omo", "the omotransverse muscle", "the omotransversarius muscle",
        "the strap beside the brachio", "omotransversaria",
        "both omos",
    ],
    "sternomandibularis": [
        "the sternomandibularis", "the sternocephalicus", "the strap down the front of the neck",
        "the strap under the neck", "the muscle from the breastbone to the jaw",
        "the lower edge of the jugular groove", "the sternothyroid", "the muscle from the chest to the jaw",
        "the cord under the throat",
    ],
    "splenius": [
        "the splenius", "the splenius muscle", "the big flat neck muscle", "the flat one on the side of the neck",
        "the broad muscle of the neck", "the spleen one", "the splenius cervicis", "the triangular flat neck muscle",
        "the big flat sheet on the top half of the neck",
        "the flat triangle of the neck",
    ],
    "semispinalis-capitis": [
        "the semispinalis capitis", "the semispinalis", "the complexus", "the semi spinalis",
        "the semispinal of the head", "the biventer", "the muscle under the splenius",
        "the layer beneath the splenius",
    ],
    "longissimus-capitis": [
        "the longissimus capitis", "the longissimus atlantis", "the longissimus of the head",
        "the thin strap in the middle of the neck", "longissimus capitis et atlantis", "the longissimus cervicis",
        "the neck longissimus",
    ],
    "rhomboideus": [
        "the rhomboideus", "the rhomboids", "rhomboid cervicis", "rhomboideus thoracis",
        "the muscle under the mane in front of the withers", "the rhomboideus cervicis", "the romboid",
    ],
    "trapezius-cervical": [
        "the cervical trapezius", "the trapezius, neck part", "the trap in front of the withers",
        "the neck bit of the trap", "the front trap", "the cranial trapezius", "the forward part of the trapezius",
        "the cervical portion of the trapezius", "the pars cervicalis of the trapezius",
    ],
    "trapezius-thoracic": [
        "the thoracic trapezius", "trapezius pars thoracica", "the back trap", "the rear trap",
        "the trapezius behind the withers", "the trap under the saddle", "the trapezius under the front of the saddle",
        "the trapezius, thoracic part", "the back portion of the trapezius",
    ],
    "serratus-ventralis-cervicis": [
        "the cervical serratus", "serratus ventralis cervicis", "the serratus in front of the shoulder",
        "the serratus, neck part", "the serratus ventralis, cervical portion", "the serrate muscle of the neck",
        "the serratus cervicis", "the serratus at the base of the neck", "the cervical part of the serratus",
    ],
    "serratus-ventralis-thoracis": [
        "the thoracic serratus", "the serratus ventralis thoracis", "the fan behind the elbow",
        "the serratus, thoracic part", "the chest part of the serratus", "the serrated muscle on the ribs",
        "the serratus thoracis", "the zigzag muscle on the ribs", "the fan muscle on the ribs",
    ],
    "scalenus": [
        "the scalenes", "the scalenus", "the scalene", "the scaleni", "the scalenus medius", "the scalenus ventralis",
        "the muscle in front of the first rib", "the scalene muscle",
    ],
    "nuchal-ligament": [
        "the nuchal ligament", "the ligamentum nuchae", "the nuchal", "the nuchal cord", "the big neck ligament",
        "the cord along the top of the neck", "the neck ligament", "the ligament under the crest",
        "the ligament of the nape",
    ],
    "crest": [
        "the crest", "the roots of the mane", "the top edge of the neck", "the crest line", "the fat of the crest",
        "the gristle under the mane", "the mane bed",
        "the fatty ridge under the mane",
    ],
    "supraspinatus": [
        "the supraspinatus", "the supra", "the supraspinatus muscle",
        "the muscle in front of the ridge of the shoulder blade", "the supraspinate", "the supraspinous muscle",
        "the groove in front of the scapular spine", "the front half of the shoulder blade",
    ],
    "infraspinatus": [
        "the infraspinatus", "the infra", "the infraspinate", "the muscle behind the ridge of the shoulder blade",
        "the infraspinatus muscle", "the back half of the shoulder blade", "the infraspinous muscle",
    ],
    "deltoideus": [
        "the deltoid", "the delts", "the deltoideus", "the deltoid muscle", "the shoulder cap muscle",
        "the delta muscle", "the deltoidius",
    ],
    "triceps-brachii": [
        "the tricep", "the triceps brachii", "the three-headed one", "the meat at the back of the shoulder",
        "the lateral head of the triceps", "the elbow muscle", "the tris", "the back of the upper arm",
        "the triceps muscle",
    ],
    "biceps-brachii": [
        "the front of the upper arm", "the biceps in front of the shoulder", "the arm biceps", "the upper arm biceps",
        "biceps of the forelimb", "the biceps at the point of the shoulder", "the bicep of the arm",
        "the biceps tendon in front", "the biceps, front one",
    ],
    "subclavius": [
        "the subclavius", "the subclavian muscle", "the muscle along the front edge of the shoulder blade",
        "the subclavian", "the front edge of the shoulder blade",
    ],
    "pectoralis-descendens": [
        "the pectoralis descendens", "the descending pec", "the lumpy one at the front of the chest",
        "the pecs, the descending ones", "the cranial pectoral", "the bumps at the front of the chest",
        "the descending part of the pectoral", "pectorals, descending portion", "the descendens",
        "the two bulges at the front of the chest",
    ],
    "pectoralis-transversus": [
        "the pectoralis transversus", "the transverse pec", "the pec between the front legs", "the cross pectoral",
        "the crossways pec", "the pecs, the transverse ones", "the transverse superficial pectoral",
        "the pectoral across between the legs", "the caudal superficial pectoral",
    ],
    "pectoralis-ascendens": [
        "the pectoralis ascendens", "the pectoralis profundus", "the deep pectoral", "the ascending pec",
        "the girth muscle", "the ascendens", "the pectoralis profundus muscle", "the long pec",
        "the big pec under the girth",
    ],
    "forearm-extensors": [
        "the extensor muscles", "the extensor carpi radialis", "the digital extensors",
        "the extensors of the front leg", "the extensor side of the forearm", "the forearm at the front",
        "the outside of the forearm", "the extensor bundle", "the long extensors in the foreleg",
    ],
    "forearm-flexors": [
        "the forearm flexors", "the back of the forearm", "the flexor muscles", "the flexor carpi ulnaris",
        "the carpal flexors", "the digital flexors", "the forearm at the back", "the inside of the forearm",
        "the flexor bundle",
    ],
    "latissimus-dorsi": [
        "the lat", "the lats", "the latissimus", "the broad muscle behind the shoulder", "the fan behind the shoulder",
        "the wide flat one behind the shoulder", "the fan-shaped muscle behind the shoulder", "the swimming muscle",
        "the big fan behind the shoulder blade",
        "the big fan behind the shoulder blade",
    ],
    "longissimus-dorsi": [
        "the longissimus dorsi", "the long back muscle", "the big long muscle along the spine", "the erector spinae",
        "the long muscle on each side of the spine", "the big rope beside the spine", "the strap along the back",
        "the two big muscles along the spine", "the saddle muscle",
        "the long rope beside the backbone",
    ],
    "iliocostalis": [
        "the iliocostalis", "the iliocostal", "the long one outside the longissimus", "the iliocostalis thoracis",
        "the thin cord outside the long back muscle", "the outer edge of the longissimus",
        "the little strip outside the longissimus", "the iliocostalis muscle",
        "the cord on the outside of the longissimus",
    ],
    "multifidus": [
        "the multifidi", "the groove by the spine", "the little ones close to the spine",
        "the deep stabilisers along the spine", "the deep spinal muscles", "the gutter next to the spine",
        "the little muscles between the vertebrae", "the spinal gutter", "the multifid",
    ],
    "intercostals": [
        "the intercostals", "the spaces between the ribs", "the rib muscles", "the gaps between his ribs",
        "the intercostal spaces", "the grooves between the ribs", "the little muscles between the ribs",
        "the external intercostals", "the furrows between the ribs",
    ],
    "external-oblique": [
        "the external abdominal oblique", "the flank", "the oblique of the flank", "the outer belly muscle",
        "the obliquus externus", "the belly oblique", "the oblique belly muscle", "the flanks",
        "the muscle of the flank",
    ],
    "rectus-abdominis": [
        "the rectus abdominis", "the straight belly muscle", "the rectus of the belly", "the six pack",
        "the rectus abs", "the abdominal muscles", "the abdominals", "the belly strap", "the long belly muscle",
    ],
    "thoracolumbar-fascia": [
        "the TLF", "the lumbar fascia", "the big white sheet over the loins", "the fascia of the back",
        "the sheet of fascia over the loin", "the back fascia", "the lumbosacral fascia", "the thoracodorsal fascia",
        "the tough sheet over the loins",
    ],
    "cutaneus-trunci": [
        "the cutaneus trunci", "the skin muscle", "the fly twitcher", "the panniculus carnosus",
        "the cutaneous trunci", "the fly shaking muscle", "the fly muscle", "the panniculus",
        "the twitchy skin muscle",
    ],
    "gluteus-medius": [
        "the big glute", "the big bum muscle", "the big rump muscle", "the gluteus", "the meat of the rump",
        "the gluteus muscle", "the middle gluteal", "the medius", "the buttock muscles",
        "the big round one on top of the rump",
    ],
    "gluteus-superficialis": [
        "the gluteus superficialis", "the superficial gluteal", "the gluteus superficial", "the little glute",
        "the outer glute", "the superficial gluteus", "the superficial one of the glutes", "the thin glute",
        "the surface glute",
    ],
    "tensor-fasciae-latae": [
        "the tensor fasciae latae", "the TFL", "the tensor", "the tensor fascia latae",
        "the muscle from the hip to the stifle", "the tensor of the fascia lata", "the fascia lata",
        "the tensor muscle", "the hip triangle",
        "the flap in front of the hip",
    ],
    "biceps-femoris": [
        "the biceps of the hind leg", "the hamstring biceps", "the outer hamstring", "the biceps in the quarters",
        "the big outside hamstring", "the biceps fem", "the lateral hamstring", "the gluteobiceps",
        "the outermost of the hamstrings",
        "the big one on the outside of the thigh",
    ],
    "semitendinosus": [
        "the semi-T", "the semi tendinosus", "the middle hamstring", "the back edge of the thigh",
        "the semi tendon one", "the semitend", "the semiten", "the back seam of the thigh", "the semi-tee",
    ],
    "semimembranosus": [
        "the semimembranosus", "the semi-M", "the semimembranous", "the inner hamstring", "the semi membranosus",
        "the inside hamstring", "the medial hamstring", "the semimem", "the hamstring next to the tail",
    ],
    "gracilis": [
        "the gracilis", "the flat muscle inside the thigh", "the gracilis muscle", "the thin one inside the thigh",
        "the sheet on the inside of the thigh", "the flat inner thigh muscle",
    ],
    "quadriceps": [
        "the quadriceps", "the front of the thigh", "the vastus lateralis", "the thigh at the front",
        "the muscle in front of the thigh", "the thigh muscle above the stifle", "the vastus", "the front thigh",
        "the big muscle in front of the femur",
    ],
    "iliopsoas": [
        "the iliopsoas", "the psoas", "the psoas major", "the hip flexors", "the hip flexor", "the sublumbar muscles",
        "the sublumbars", "the psoas minor", "the inner loin muscle",
    ],
    "gastrocnemius": [
        "the gastrocnemius", "the calf", "the gastroc", "the calf muscle", "the back of the gaskin", "the gastrocs",
        "the calf of the hind leg", "the muscle above the hock at the back", "the gastrocnemius muscle",
    ],
    "adductors": [
        "the adductors", "the adductor", "the inner thigh", "the inside of the thigh", "the groin",
        "the inner thigh muscles", "the inside of his hind leg up high", "the adductor group", "the inner thighs",
    ],
    "poll": [
        "the atlas", "the top of the head", "the poll joint", "the nape", "the wings of the atlas", "the occiput",
        "the atlanto-occipital joint", "the back of the skull", "the headpiece area",
    ],
    "jaw": [
        "the jaw", "the jaw joint", "the jawbone", "the mandible", "the temporomandibular joint",
        "the angle of the jaw", "the hinge of the jaw", "the jaw area", "the edge of the jaw",
    ],
    "neck": [
        "the side of the neck", "the middle of the neck", "the underside of the neck", "the neck muscles",
        "the lower neck", "his whole neck", "the left side of her neck", "the under neck", "the bottom of the neck",
    ],
    "topline": [
        "the topline", "the top line", "the whole topline", "his top line from poll to tail",
    ],
    "withers": [
        "the withers", "the wither", "the base of the withers", "the wither pocket", "the wither area",
        "both sides of the withers", "the front of the withers", "the withers region",
    ],
    "shoulder": [
        "the shoulder", "the shoulder blade", "the scapula", "the shoulder muscles", "the whole shoulder",
        "the shoulder joint", "the shoulder girdle", "the shoulder area", "his shoulder blades",
    ],
    "chest": [
        "the chest", "the pecs", "the pectorals", "the brisket", "the breast muscles", "the front of the chest",
        "the chest muscles", "the pectoral muscles", "the breastbone",
    ],
    "forelimb": [
        "the front leg", "the forelimb", "the forearm", "the fore", "the whole front leg", "the off fore",
        "the left front", "the lower front leg", "the knee of the front leg",
    ],
    "girth": [
        "the girth", "the girth area", "the girth groove", "the armpit", "the elbow pocket", "the cinch area",
        "the girth region",
    ],
    "ribcage": [
        "the ribs", "the ribcage", "the side of the chest", "the rib cage", "the ribs behind the shoulder",
        "the costal arch", "the side of the barrel", "the floating ribs", "the flat of the ribs",
    ],
    "back": [
        "the back", "the saddle area", "the thoracic area", "the middle of the back", "the saddle region",
        "the mid-back", "the dorsal muscles", "the saddle bed", "the thoracic spine area",
    ],
    "loin": [
        "the loin", "the loins", "the lumbar area", "the lumbar spine", "the coupling", "the loin area", "the lumbars",
        "the loins, both of them", "the lumbar muscles",
    ],
    "belly": [
        "the belly", "the tummy", "the underline", "the abdomen", "the stomach", "the midline of the belly",
        "the linea alba", "the belly line", "the tum",
    ],
    "sacroiliac": [
        "the sacroiliac", "the SI", "the sacroiliac joint", "the sacral area", "the SIJ", "the S.I. joint",
        "the highest point of the croup", "the sacroiliac region", "the lumbosacral junction",
    ],
    "croup": [
        "the croup", "the rump", "the top of the quarters", "the hips", "the croup area", "the top of his bum",
        "the top of the rump",
    ],
    "hindquarters": [
        "the hindquarters", "the quarters", "the back end", "the hip", "the buttock", "his rear end", "the tush",
        "the bum cheek", "the engine room",
    ],
    "hamstrings": [
        "the hamstrings", "the hams", "the back of the thigh", "the hammies", "the hamstring muscles",
        "the back of his thighs", "the hamstring",
    ],
    "stifle": [
        "the stifle", "the stifle joint", "the kneecap", "the patella", "the stifle area", "the stifles",
    ],
    "gaskin": [
        "the gaskin", "the second thigh", "the gaskins", "the lower thigh", "the gaskin muscle", "the gaskin area",
    ],
    "hindlimb": [
        "the hind leg", "the hindlimb", "the near hind", "the off hind", "the thigh", "the whole hind leg",
        "the hind limb", "the left hind", "the right hind",
    ],
    "tail": [
        "the tail", "the dock", "the root of the tail", "the tailbone", "the base of the tail", "the top of the tail",
        "the tail bones", "the coccyx", "the coccygeal muscles",
    ],
}  # fmt: skip


@pytest.mark.parametrize(("structure", "name"), [(s, name) for s, names in NAMED.items() for name in names])
def test_structures_by_other_names(structure: str, name: str) -> None:
    bouts = understood(f"[0:02] I am kneading {name} now.").bouts
    assert [(b.technique, b.structures) for b in bouts] == [("kneading", (structure,))]
