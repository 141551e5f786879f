"""What a list of each kind has columns for, and what the headings of other people's lists may call them.

Headings are compared folded: small letters, digits and nothing else. The German words stand beside the English ones
because lists with semicolons and commas in numbers mostly have them.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from jobbook.core.lists.cells import air, kind_of_part, months, number, text, unit, vin, year

CUSTOMERS, VEHICLES, PARTS = "customers", "vehicles", "parts"


@dataclass(frozen=True)
class Column:
    """One fact of a row. `read` gives it as the book keeps it, or raises ValueError with what is wrong with the cell.

    Where `between` is not empty, several columns of a list may hold the fact, with this between their texts. Numbers
    that a list from elsewhere gives are not this book's, so no heading but our own means those."""

    name: str
    title: str
    called: tuple[str, ...]
    read: Callable[[str], str] = text
    needed: bool = False
    between: str = ""


_CUSTOMER = (
    Column("number_here", "Number in this book", (), number),
    Column("name", "Name", ("name", "customer", "customername", "firstname", "lastname", "surname", "company", "kunde",
                            "kundenname", "vorname", "nachname", "firma"), needed=True, between=" "),
    Column("address", "Address", ("address", "street", "postcode", "zip", "town", "city", "adresse", "anschrift",
                                  "strasse", "plz", "ort", "stadt"), between=", "),
    Column("phone", "Telephone", ("phone", "telephone", "tel", "mobile", "telefon", "handy", "mobil")),
    Column("email", "Mail", ("email", "mail", "emailaddress", "emailadresse")),
    Column("elsewhere", "Number elsewhere", ("customernumber", "customerno", "customerid", "accountnumber",
                                             "kundennummer", "kundennr", "kdnr", "debitorennummer")),
)  # fmt: skip
_VEHICLE = (
    Column("number_here", "Number in this book", (), number),
    Column("vin", "VIN", ("vin", "chassisnumber", "fin", "fahrgestellnummer", "fgstnr"), vin),
    Column("plate", "Plate", ("plate", "numberplate", "licenceplate", "licenseplate", "registration", "reg", "regno",
                              "kennzeichen", "amtlkennzeichen")),
    Column("make", "Make", ("make", "manufacturer", "hersteller", "marke")),
    Column("model", "Model", ("model", "type", "modell", "typ")),
    Column("year", "Year", ("year", "modelyear", "baujahr", "bj"), year),
    Column("variant", "Variant", ("variant", "variante")),
    Column("air", "Air springs", ("air", "airsprings"), air),
    Column("elsewhere", "Number elsewhere", ("vehiclenumber", "vehicleno", "fleetnumber", "stocknumber",
                                             "fahrzeugnummer", "fahrzeugnr", "fzgnr")),
    Column("distance_unit", "Unit of distance", ("distanceunit", "unitofdistance"), unit),
    Column("owner_here", "Owner's number in this book", (), number),
    Column("owner", "Owner's name", ("owner", "ownername", "customer", "customername", "halter", "kunde")),
    Column("owner_phone", "Owner's telephone", ("ownerphone", "ownertelephone", "phone", "telephone", "telefon")),
)  # fmt: skip
_PART = (
    Column("number", "Part number", ("number", "partnumber", "partno", "articlenumber", "itemnumber", "teilenummer",
                                     "artikelnummer"), needed=True),
    Column("title", "Title", ("title", "name", "description", "part", "bezeichnung", "benennung", "teil"), needed=True),
    Column("supplier", "Supplier", ("supplier", "vendor", "lieferant")),
    Column("kind", "Kind", ("kind", "art"), kind_of_part),
    Column("warranty_months", "Supplier's warranty in months", ("warrantymonths", "warranty", "suppliersterm",
                                                                "gewaehrleistung", "garantie"), months),
    Column("note", "Note", ("note", "remark", "bemerkung", "notiz")),
)  # fmt: skip

KINDS: Mapping[str, tuple[Column, ...]] = {CUSTOMERS: _CUSTOMER, VEHICLES: _VEHICLE, PARTS: _PART}
TOGETHER: Mapping[str, tuple[tuple[str, ...], str]] = {
    VEHICLES: (("vin", "plate"), "a vehicle needs its VIN or its plate"),
}
