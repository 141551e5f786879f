"""Hands at the desk for tests of permissions: the job is taken in, and Jonas Wexley keeps what the customer says."""

from dataclasses import replace

from jobbook.core.desk.estimate import Line
from jobbook.core.desk.permission import Change
from jobbook.core.desk.signature import path_of
from jobbook.services import work
from jobbook.services.agreed import estimate, permission
from jobbook.services.house import shop
from tests.services.workshop import CORNER, METHOD, OPTIONS, REPAIR

PHONE = "Quillhaven 0147"
DRAWN = path_of([[(10, 200), (60, 20), (110, 200)], [(30, 120), (90, 120)]])
STRUT = Line(0, "part", "Air strut FL", "1", "700.00", "EUR", "20", "AS-4471-L", "new")
LABOUR = Line(0, "labour", "Strut FL renewed", "3,5", "92", "EUR", "20")


def give(there, **changes):
    return permission.give_permission(there.book, there.jonas, there.job, replace(REPAIR, **changes))


def change(there, of, what="withdrawn", **more):
    told = Change(of, what, "Ansel Harrow", "by telephone", there.book.now(), PHONE, "it is enough", **more)
    permission.change_permission(there.book, there.jonas, there.job, told)


def line(there, one, **changes):
    return estimate.keep_line(there.book, there.jonas, there.job, replace(one, **changes))


def agreed(there):
    return permission.agreed(there.book, there.job)


def ends(there):
    sheet = there.sheet()
    return {end.rule: end.sentence for end in (*sheet.loose_now, *sheet.still_to_do)}


def barred(there):
    return "no-permission" in there.rules_against("loosen", "wheel_bolts@FL")


def begin(there):
    work.begin_method(there.book, there.bram, there.job, METHOD, CORNER, OPTIONS)


def settle(there, **facts):
    shop.change_shop(there.book, there.imke, replace(shop.shop(there.book), **facts))
