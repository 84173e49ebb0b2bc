"""The published shape of the record, checked on a case written in it by hand."""

import json

from haywisp.exchange.contract_json import read

BY_HAND = """{"treatments": [{"technique": "effleurage", "structures": ["neck"], "side": "left",
                 "start": 41.0, "end": 78.0, "passes": 3, "pressure": "light"}],
 "findings":   [{"structure": "splenius", "side": "right", "aspect": "tone", "value": "tight", "time": 152.0}],
 "responses":  [{"sign": "lick-and-chew", "time": 96.0}],
 "actions":    [{"kind": "refer-saddler", "time": 610.0}]}"""


def test_the_record_by_hand_is_read_in_full() -> None:
    record = read(BY_HAND)
    row = json.loads(BY_HAND)["treatments"][0]
    treatment = record.treatments[0]
    assert {key: getattr(treatment, key) for key in row} == row | {"structures": ("neck",)}
    assert record.findings[0].value == "tight"
    assert record.responses[0].sign == "lick-and-chew"
    assert record.actions[0].kind == "refer-saddler"
