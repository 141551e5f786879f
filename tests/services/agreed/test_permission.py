"""Permissions: changed, withdrawn, signed on the screen; who may give them; attempts and what was declined."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.desk.permission import Change, Contact, Declined, Overrun
from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.services import work
from jobbook.services.agreed import asking, estimate, permission
from jobbook.services.house.verifying import audit_book
from jobbook.services.sheet.jobsheet import job_sheet
from tests.services.agreeing import DRAWN, PHONE, STRUT, agreed, barred, begin, change, ends, give, line


@pytest.fixture
def there(at):
    return at("taken in")


def test_a_price_that_was_let_go_holds_again_when_it_rises(there):
    give(there, total="700.00")
    kept = line(there, STRUT)
    end = next(end for end in there.sheet().still_to_do if end.rule == "price-above-permission")
    work.let_go(there.book, there.imke, there.job, end, "agreed at the counter")
    assert ends(there) == {}
    there.clock.on(timedelta(minutes=1))
    estimate.keep_line(there.book, there.jonas, there.job, replace(kept, price="800"))
    assert "price-above-permission" in ends(there)


def test_an_authority_has_a_last_day_and_nothing_is_taken_apart_after_it(there):
    give(there)
    begin(there)
    last = there.book.today().isoformat()
    give(there, scope="authority", who="Ms Quade", authority="A-77", total="600.00", valid_until=last)
    assert not barred(there)
    there.clock.on(timedelta(days=1))
    assert barred(there)


def test_a_payer_who_was_asked_may_refuse_and_the_customer_may_take_it_over(there):
    give(there)
    begin(there)
    permission.ask_authority(there.book, there.jonas, there.job, "Tideway Cover")
    (asked,) = agreed(there).asked
    change(there, asked.entry, "refused")
    assert barred(there)
    give(there, total="1500.00", what="I pay myself")
    assert not barred(there)
    assert agreed(there).asked[0].refused.why == "it is enough"


def test_whoever_is_not_the_customer_is_asked_about_and_one_who_may_not_permits_nothing(there):
    begin(there)
    with pytest.raises(Refused, match="is not Ansel Harrow, the customer"):
        give(there, who="Piers Oakhanger")
    with pytest.raises(Refused, match="by what right"):
        give(there, who="Piers Oakhanger", may="acts for")
    give(there, who="Piers Oakhanger", may="may not")
    assert barred(there)
    assert agreed(there).priced.limit is None
    give(there, who="Piers Oakhanger", may="acts for", acts_for="his son, told so by telephone")
    assert not barred(there)
    assert agreed(there).permissions[-1].acts_for == "his son, told so by telephone"


def test_a_changed_permission_keeps_what_was_given_and_counts_as_changed(there):
    of = give(there, total="500.00")
    line(there, STRUT)
    assert "price-above-permission" in ends(there)
    change(there, of, "changed", total="900.00", valid_until="2027-01-31")
    assert ends(there) == {}
    now = agreed(there)
    assert now.permissions[0].total == "500.00"
    assert (now.as_they_stand()[0].total, now.as_they_stand()[0].valid_until) == ("900.00", "2027-01-31")


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"what": "forgotten"}, "changed or withdrawn"),
        ({"why": " "}, "who said it, when"),
        ({"reached_at": ""}, "number or address"),
        ({"what": "changed"}, "the new total"),
        ({"what": "changed", "valid_until": "soon"}, "is not a day"),
        ({"what": "changed", "total": "1.234"}, "two ways"),
    ],
)
def test_a_change_without_its_facts_is_refused(there, changes, said):
    told = Change(give(there), "withdrawn", "Ansel Harrow", "by telephone", there.book.now(), PHONE, "enough")
    with pytest.raises(Refused, match=said):
        permission.change_permission(there.book, there.jonas, there.job, replace(told, **changes))
    assert agreed(there).changes == ()


def test_a_change_of_nothing_is_not_found(there):
    for what in ("withdrawn", "refused"):
        with pytest.raises(NotFound):
            change(there, 1, what)


def test_what_is_signed_on_the_screen_counts_from_the_signature_on_and_keeps_the_very_words(there):
    begin(there)
    of = give(there, how="signed on the screen", reassembly="120")
    assert barred(there)
    text = permission.text_to_sign(there.book, there.job, of)
    assert "Renew the strut FL" in text
    assert "at most 1\u202f480.00 EUR, tax included" in text
    assert "costs 120.00 EUR" in text
    permission.sign(there.book, there.jonas, there.job, of, text, DRAWN, "Ansel Harrow")
    assert not barred(there)
    kept = agreed(there).signature_of(of)
    assert (kept.name, kept.signed.text, kept.signed.path) == ("Ansel Harrow", text, DRAWN)
    assert kept.signed.is_whole
    with pytest.raises(Conflict, match="signed already"):
        permission.sign(there.book, there.jonas, there.job, of, text, DRAWN, "Ansel Harrow")
    assert audit_book(there.book.folder).findings == ()


def test_a_text_that_changed_before_it_was_signed_is_read_again(there):
    of = give(there, how="signed on the screen")
    text = permission.text_to_sign(there.book, there.job, of)
    change(there, of, "changed", total="2000")
    with pytest.raises(Conflict, match="Read it again"):
        permission.sign(there.book, there.jonas, there.job, of, text, DRAWN, "Ansel Harrow")
    with pytest.raises(Refused, match="draw the signature"):
        permission.sign(there.book, there.jonas, there.job, of, text, "", "Ansel Harrow")
    with pytest.raises(Refused, match="name of who signs"):
        permission.sign(there.book, there.jonas, there.job, of, text, DRAWN, " ")
    assert agreed(there).signatures == ()


def test_a_signature_can_be_forgotten_and_the_book_stays_sound(there):
    of = give(there, how="signed on the screen")
    permission.sign(
        there.book,
        there.jonas,
        there.job,
        of,
        permission.text_to_sign(there.book, there.job, of),
        DRAWN,
        "Ansel Harrow",
    )
    (entry,) = there.journal("signature/1")
    with there.book.store.write(there.imke.id) as tx:
        from jobbook.core.record.journal import Draft

        gone = [entry.payload["name"], entry.payload["signed"]]
        tx.keep(Draft("erased/1", "book", {"commitments": gone, "reason": "asked for"}))
        for one in gone:
            tx.erase(one)
    kept = agreed(there).signature_of(of)
    assert (kept.name, kept.signed) == (None, None)
    assert job_sheet(there.book, there.job).stage == "arrived"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"outcome": "perhaps"}, "what came of it"),
        ({"reached_at": " "}, "number or address"),
        ({"outcome": "reached"}, "what was said"),
    ],
)
def test_an_attempt_says_when_how_and_what_came_of_it(there, changes, said):
    told = replace(Contact(there.book.now(), "by telephone", PHONE, "no answer"), **changes)
    with pytest.raises(Refused, match=said):
        asking.keep_contact(there.book, there.jonas, there.job, told)


def test_an_attempt_about_an_overrun_names_one_of_this_job(there):
    told = Contact(there.book.now(), "by telephone", PHONE, "no answer", about=1)
    with pytest.raises(NotFound, match="no such overrun"):
        asking.keep_contact(there.book, there.jonas, there.job, told)
    with pytest.raises(Refused, match="since when"):
        asking.keep_overrun(there.book, there.bram, there.job, Overrun("", "900", "more"))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"subject": "tea"}, "what was declined"),
        ({"who": ""}, "who declined it"),
        ({"subject": "other"}, "what may come of it"),
        ({"how": "by mail"}, "number or address"),
    ],
)
def test_declining_is_kept_with_what_who_and_consequence_or_not_at_all(there, changes, said):
    told = replace(Declined("lamps", "", "", "Ansel Harrow", "signed", there.book.now()), **changes)
    with pytest.raises(Refused, match=said):
        asking.keep_declined(there.book, there.jonas, there.job, told)
    assert agreed(there).declined == ()
