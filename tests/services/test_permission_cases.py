"""Permission and price in the nasty cases of the trade notes, section 9, each by its number."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.desk.estimate import Line
from jobbook.core.desk.permission import Change, Contact, Declined, Overrun, parts_words, told_at
from jobbook.core.errors import Conflict, Refused
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.agreed import asking, estimate, permission
from jobbook.services.house.verifying import audit_book
from jobbook.services.job.release import release
from jobbook.services.office.intake import Arrival, take_in
from tests.services.agreeing import LABOUR, PHONE, STRUT, agreed, barred, begin, change, ends, give, line, settle
from tests.services.workshop import REPAIR


@pytest.fixture
def there(at):
    return at("taken in")


def test_case_39_what_the_clerk_keys_from_a_note_names_who_spoke_and_who_entered_it(there):
    told = Contact(there.book.now(), "by telephone", PHONE, "no answer", by="bf")
    asking.keep_contact(there.book, there.jonas, there.job, told)
    permission.give_permission(there.book, there.jonas, there.job, REPAIR, by="bf")
    for kind in ("contact/1", "permission/1"):
        (entry,) = there.journal(kind)
        assert (entry.done_by, entry.entered_by) == ("bf", "jw")


def test_case_40_a_permission_kept_on_the_wrong_job_is_moved_and_both_jobs_show_it(there):
    of = give(there)
    begin(there)
    assert not barred(there)
    van = Vehicle(0, "A09VH2AT9LB310549", "ON-44-DRY", "Ondry", "van")
    other = take_in(there.book, there.jonas, Arrival(van, Customer(0, "Piers Oakhanger"), "88 000", ("It knocks.",)))
    with pytest.raises(Refused, match="say why"):
        permission.move_permission(there.book, there.jonas, there.job, of, other, " ")
    permission.move_permission(there.book, there.jonas, there.job, of, other, "the wrong job was open")
    assert barred(there)
    (moved,) = agreed(there).changes
    assert (moved.what, moved.to, moved.why) == ("moved", other, "the wrong job was open")
    (here,) = permission.agreed(there.book, other).permissions
    assert (here.who, here.moved_from, here.at) == ("Ansel Harrow", str(there.job), REPAIR.at)
    assert audit_book(there.book.folder).findings == ()


def test_case_44_a_declined_alignment_is_kept_with_its_consequence_and_is_not_missing(there):
    told = Declined("alignment", "", "", "Ansel Harrow", "signed", there.book.now())
    asking.keep_declined(there.book, there.jonas, there.job, told)
    (kept,) = agreed(there).declined
    assert kept.what == "Wheel alignment after work on the suspension"
    assert "wear unevenly" in kept.consequence
    assert ends(there) == {}


def test_case_45_a_shop_may_let_no_vehicle_go_without_the_sensors_calibrated(there):
    settle(there, no_release_without=("sensors",))
    told = Declined("sensors", "", "", "Ansel Harrow", "by telephone", there.book.now(), PHONE)
    asking.keep_declined(there.book, there.jonas, there.job, told)
    assert "does not let a vehicle go without it" in ends(there)["finding-open"]
    with pytest.raises(Refused, match="not released"):
        release(there.book, there.imke, there.job, "128 411", "km", let_go_reason="he insists")
    release(there.book, there.imke, there.job, "128 411", "km", "by recovery only", "he insists")
    assert there.sheet().stage == "released"


def test_case_46_a_stopped_job_is_put_together_again_at_the_announced_price_and_no_other(there):
    of = give(there, reassembly="120.00")
    begin(there)
    change(there, of)
    assert barred(there)
    sheet = there.sheet()
    assert not any("to be renewed" in end.sentence for end in sheet.still_to_do)
    again = Line(0, "reassembly", "Strut left in, wheel on", "1", "100.00", "EUR", "20")
    assert line(there, again).number == 1
    with pytest.raises(Refused, match=r"120.00 EUR was announced"):
        line(there, again, price="100.01")


def test_case_46_without_an_announced_price_putting_together_again_is_not_charged(there):
    give(there)
    with pytest.raises(Refused, match="no charge for putting together again was announced"):
        line(there, Line(0, "reassembly", "Wheel on", "1", "10.00", "EUR"))
    assert agreed(there).lines == ()


def test_case_47_the_limit_is_reached_and_the_customer_is_not_work_stops_and_every_attempt_is_kept(there):
    give(there, total="500.00")
    begin(there)
    done = line(there, STRUT)
    assert not barred(there)
    estimate.change_state(there.book, there.bram, there.job, done, "done")
    assert barred(there)
    overrun = asking.keep_overrun(
        there.book, there.bram, there.job, Overrun(there.book.now(), "840", "the strut alone is above the limit")
    )
    for outcome, said in (("no answer", ""), ("message left", ""), ("reached", "yes, up to 900")):
        there.clock.on(timedelta(hours=1))
        told = Contact(there.book.now(), "by telephone", PHONE, outcome, said, overrun)
        asking.keep_contact(there.book, there.jonas, there.job, told)
    now = agreed(there)
    assert [one.outcome for one in now.contacts] == ["no answer", "message left", "reached"]
    assert told_at(now.overruns[0], now.contacts).at > now.overruns[0].known_at
    give(there, scope="extra", added="400", total="900.00", how="by telephone", reached_at=PHONE)
    assert not barred(there)
    assert ends(there).get("price-above-permission") is None


def test_case_48_a_price_above_permission_and_tolerance_holds_the_release_until_somebody_lets_it_go(there):
    settle(there, profile="ontario")
    give(there, total="700.00")
    first = line(there, STRUT, price="641.66")  # 769.99 with 20 % tax; 770 is 10 % over
    assert ends(there) == {}
    estimate.keep_line(there.book, there.jonas, there.job, replace(first, price="641.68"))
    assert "770.02 EUR in the lines, 700.00 allowed and 70.00 tolerance" in ends(there)["price-above-permission"]
    with pytest.raises(Refused, match="not released"):
        release(there.book, there.imke, there.job, "128 411", "km")
    release(there.book, there.imke, there.job, "128 411", "km", let_go_reason="the shop bears the two cents")
    (gone,) = there.journal("released/1")[0].payload["let_go"]
    assert (gone["rule"], gone["reason"]) == ("price-above-permission", "the shop bears the two cents")


def test_case_49_the_customer_wants_the_old_part_and_the_supplier_gets_it(there):
    kept = "the strut goes back under warranty; can be seen, not kept"
    give(there, parts_back="back", parts_kept=kept)
    now = agreed(there)
    assert parts_words(now.permissions, "no wish") == f"wants the old parts back; {kept}"
    assert "I want the old parts back; the strut goes back" in permission.text_to_sign(
        there.book, there.job, now.permissions[0].entry
    )
    assert parts_words((), "no wish") == "no wish"


def test_case_55_an_authority_that_is_withdrawn_stops_the_work(there):
    give(there)
    begin(there)
    of = give(there, scope="authority", who="Ms Quade", authority="A-77", total="600.00", wording="strut only")
    assert not barred(there)
    told = Change(
        of, "withdrawn", "Ms Quade", "by mail", there.book.now(), "claims@tideway.example", "progressive wear"
    )
    permission.change_permission(there.book, there.jonas, there.job, told)
    assert barred(there)
    with pytest.raises(Conflict, match="withdrawn already"):
        permission.change_permission(there.book, there.jonas, there.job, told)


def test_case_57_what_the_payer_does_not_allow_is_asked_of_the_customer(there):
    give(there, total="100.00")
    line(there, STRUT, payer="Tideway Cover")
    assert "has given no authority" in ends(there)["price-above-permission"]
    give(there, scope="authority", who="Ms Quade", authority="A-77", total="600.00")
    assert "is to pay 840.00 EUR and allowed 600.00" in ends(there)["price-above-permission"]
    kept = agreed(there).lines[0]
    estimate.keep_line(there.book, there.jonas, there.job, replace(kept, price="500"))
    assert ends(there) == {}


def test_case_58_extra_damage_under_a_payers_job_has_a_number_of_its_own_unless_they_say_otherwise(there):
    told = {"scope": "authority", "who": "Ms Quade", "authority": "A-77", "how": "by mail", "reached_at": "q@x.example"}
    give(there, **told, what="Strut FL", total="600.00")
    with pytest.raises(Refused, match="A-77 was given for other work"):
        give(there, **told, what="Compressor", total="900.00")
    give(there, **told, what="Compressor", total="900.00", wording="the same number covers the compressor")
    assert agreed(there).priced.authority.total.text == "900.00"


def test_case_46_what_was_done_before_the_customer_stopped_is_owed_and_the_rest_is_struck(there):
    first = give(there, scope="diagnosis", total="200.00")
    of = give(there, total="900.00", reassembly="120.00")
    strut = line(there, STRUT)
    labour = line(there, LABOUR, price="10")
    estimate.change_state(there.book, there.bram, there.job, strut, "done")
    change(there, of)
    assert "882.00 EUR in the lines, 200.00 allowed" in ends(there)["price-above-permission"]
    change(there, first)
    assert ends(there)["price-above-permission"].startswith("The customer withdrew the permission: strike the lines")
    estimate.change_state(there.book, there.bram, there.job, labour, "struck")
    line(there, Line(0, "reassembly", "Strut left in, wheel on", "1", "100.00", "EUR", "20"))
    assert "price-above-permission" not in ends(there)
    assert agreed(there).priced.limit is None
