"""Which field a column of someone's spreadsheet means: by its name, by what others call it, by what is in it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from datetime import date
from functools import cache

import msgspec

from store.measure.errors import BadValue, quoted
from store.measure.money import currencies_of
from store.measure.quantity import unit_named
from store.measure.terms import regional
from store.records.base import Record
from store.records.field import NUMERIC, Field, Manner
from templates.spreadsheet.cells import read_cell
from templates.spreadsheet.fields import columns_for
from templates.spreadsheet.heading_units import NOT_A_UNIT, unit_of_heading

CLOSE = 0.82
"""How like the name of a field the name of a column must be (0 to 1)."""
SAMPLE_ROWS = 40
"""Rows that are looked at where a name could mean several fields."""
_NAMED = {
    "tag": "tag,id,no,number,nr,ref,label,code,cableid,cableno,cablenumber,cabletag,wireid,deviceid,itemid,itemno",
    "name": "item,product,thing,device,title,description,label,company,business,contractor,firm,person,who,use,for,"
    "purpose,signal,cable,contact,contactname,equipment,itemname,wire",
    "what": "type,category,kind,sort,class,item,task,check,checkitem,todo,description,measurement,dimension,measure,"
    "direction,reading",
    "trade": "role,craft,job,who,responsible,by,doneby,type,kind,profession,discipline",
    "where": "location,place,position,at,spot,room",
    "wants": "evidence,proof,evidenceneeded,show,wanted",
    "value": "measurement,measured,reading,size,length,result,amount,dimension",
    "by": "who,takenby,measuredby,person,readby",
    "date": "day,takenon,when,measuredon,on",
    "width": "w,wide", "height": "h,high", "depth": "d,deep", "weight": "mass,wt",
    "count": "qty,quantity,pcs,pieces,howmany,units",
    "watts": "power,wattage,load,powerdraw,consumption,draw",
    "price": "cost,unitprice,priceeach,each,unitcost,estimate",
    "amount": "total,sum,value,cost,price",
    "supplier": "vendor,shop,store,seller,retailer,boughtfrom,source,dealer",
    "lead": "leadtime,deliverytime,delivery,daystodeliver,leadtimedays",
    "ordered": "orderdate,orderedon,dateordered,purchasedate,bought",
    "arrived": "delivered,deliveredon,received,receivedon,arrivaldate",
    "return_by": "returnuntil,returnsuntil,lastreturn,returndeadline,returndate,returnwindow,returnbefore",
    "warranty": "warrantyuntil,warranty,guarantee,warrantyend", "serial": "serialno,sn",
    "state": "status,stage", "notes": "comment,comments,remark,remarks,note,memo",
    "phone": "telephone,tel,cell,mobile,phonenumber,cellphone", "mail": "email,emailaddress,mailaddress",
    "licence": "license,licenseno,licensenumber,licenceno,lic",
    "licence_until": "licenseexpires,licenceexpires,licenseuntil,licenseexpiry,licenceexpiry,licenseexpiration",
    "insured_until": "insuranceexpires,insuranceuntil,insuranceexpiry,insuredthrough,insuredthru,insurance,"
    "insuranceexpiration,insured",
    "call_on": "nextcall,callback,callnext,followup", "week": "workingdays,workweek",
    "days_off": "holidays,vacation,unavailable,away,off",
    "start": "from,source,fromdevice,end1,a,origin", "end": "to,destination,dest,todevice,end2,b",
    "type": "cabletype,kind,wiretype", "measured": "length,run,cablelength,runlength",
    "in_wall": "inwall,wall,hidden", "of": "who,contact,equipment,payee,paidto,vendor",
    "scope": "for,description,covers", "leaves_out": "excludes,excluded,exclusions,notincluded",
    "booked": "bookedfor,start,startdate", "after": "waitsfor,predecessor,predecessors,dependson",
    "days": "duration,workdays", "wait": "drying,dryingdays,lag", "done": "finished,finishedon,completed",
    "about_tag": "about,thing,belongsto",
}  # fmt: skip
OTHER_NAMES: dict[str, tuple[str, ...]] = {}
"""What people call a field in their spreadsheets: the name without spaces, and the fields that it may mean."""
for _key, _words in _NAMED.items():
    for _word in _words.split(","):
        OTHER_NAMES[_word] = (*OTHER_NAMES.get(_word, ()), _key)


class Column(msgspec.Struct, frozen=True):
    """How a column was understood."""

    heading: str
    key: str
    """The field; `tag`, or empty when the column is left out."""
    title: str
    unit: str = ""
    """Unit of bare numbers, from the heading."""
    how: str = ""
    """What else there is to say of how its cells are read."""
    wrong: str = ""
    """Why its numbers cannot be what its field holds."""

    def says(self) -> str:
        """`Width (mm) -> width, bare numbers in mm`, for the person to check."""
        heading = self.heading.strip() or "(no name)"
        if not self.key:
            return f"{heading} -> left out: no such field"
        unit = f", bare numbers in {self.unit}" if self.unit else ""
        return f"{heading} -> {self.title}{unit}" + (f", {self.how}" if self.how else "")


def columns_of(
    cls: type[Record],
    names: Sequence[str],
    rows: Sequence[Sequence[str]] = (),
    manner: Manner | None = None,
    said: Mapping[str, str] | None = None,
) -> tuple[Column, ...]:
    """How the headings of a file are understood; each field at most once, the surest first.

    `said` names the field of a heading, or nothing for a column to be left out. Where a name may mean several fields,
    `rows` decide: a field that cannot read most of the cells is not meant. Raises BadValue where `said` names a column
    or a field that is not there.
    """
    fields = {field.key: field for field in columns_for(cls)}
    known = known_names(cls)
    found = _said(names, said or {}, known, fields)

    def best(at: int, keys: Sequence[str]) -> str:
        free = [key for key in keys if key in (*fields, "tag") and key not in found.values()]
        cells = [row[at] for row in rows[:SAMPLE_ROWS] if at < len(row) and row[at].strip()]
        if len(free) > 1 and cells and manner is not None:
            for key in free:
                if _readable(cells, cls, fields.get(key), manner, names[at]):
                    return key
            free = [key for key in free if key != "tag"]
        if free == ["tag"] and _plain(names[at]) != "tag" and cells and not any(_is_tag(cls, cell) for cell in cells):
            return ""  # rows that somebody numbered
        return next(iter(free), "")

    for guess in (_by_name, _by_other_name, _by_likeness):
        for at, name in enumerate(names):
            if at in found:
                continue
            meant = guess(name, known)
            if guess is _by_name and meant and _names_a_unit(name) and not _is_numeric(fields.get(meant[0])):
                # `Power (W)` is not the power that is chosen from a list.
                numeric = [key for key in _by_other_name(name, known) if _is_numeric(fields.get(key))]
                meant = (*numeric, *meant)
            if key := best(at, meant):
                found[at] = key
    named = set(_said(names, said or {}, known, fields))
    return tuple(
        _column(name, found.get(at, ""), fields, manner or Manner(date.min), at in named)
        for at, name in enumerate(names)
    )


@cache
def known_names(cls: type[Record]) -> Mapping[str, str]:
    """The field that each plain name means by itself: its title, or its key."""
    fields = columns_for(cls)
    known = {"tag": "tag"}
    for field in fields:
        for title in (field.says.title, regional(field.says.title, True)):
            known.setdefault(_plain(title), field.key)
    known.update({_plain(field.key): field.key for field in fields})
    for field in fields:
        for title in field.says.was:
            known.setdefault(_plain(title), field.key)
    return known


def is_heading(cls: type[Record], cell: str, said: Mapping[str, str]) -> bool:
    """True for a cell that may name a column of such records."""
    known = known_names(cls)
    keys = {*known.values()}
    if any(_same(cell, each) for each in said):
        return True
    return bool(_by_name(cell, known)) or any(key in keys for key in _by_other_name(cell, known))


def _said(
    names: Sequence[str], said: Mapping[str, str], known: Mapping[str, str], fields: Mapping[str, Field]
) -> dict[int, str]:
    """The field of each column that someone said; empty for one to be left out. Raises BadValue."""
    found: dict[int, str] = {}
    for heading, word in said.items():
        at = next((at for at, name in enumerate(names) if at not in found and _same(name, heading)), None)
        if at is None:
            there = ", ".join(repr(name.strip()) for name in names if name.strip())
            raise BadValue(f"no column {quoted(heading)} in the file. There are: {there}.")
        key = known.get(_plain(word), "")
        if word.strip() and not key:
            titles = ", ".join(["tag", *(field.says.title for field in fields.values())])
            raise BadValue(f"no field {quoted(word)}. There are: {titles}.")
        if key and key in found.values():
            raise BadValue(f"two columns are set as {quoted(word)}. Set one of them as another.")
        found[at] = key
    return found


def _same(one: str, other: str) -> bool:
    return " ".join(one.casefold().split()) == " ".join(other.casefold().split())


def _is_numeric(field: Field | None) -> bool:
    return field is not None and field.codec.name in NUMERIC


def _names_a_unit(name: str) -> bool:
    """True for `Power (W)`, `Load, kW`, `Power W`."""
    words = re.split(r"[\s(\[,)\]]+", name.strip(" )]."))
    return len(words) > 1 and bool(unit_named(words[-1]))


def _readable(cells: Sequence[str], cls: type[Record], field: Field | None, manner: Manner, name: str) -> bool:
    """True when most of the cells can be read as the field."""
    if field is None:
        return all(_is_tag(cls, cell) for cell in cells)
    if field.codec.name in ("ref", "refs"):
        return True  # a name in place of a tag is looked up later
    good, unit = 0, unit_of_heading(name, field, manner)[0]
    for cell in cells:
        try:
            read_cell(field, cell, manner, unit=unit)
            good += 1
        except BadValue:
            continue
    return 2 * good > len(cells)


def _is_tag(cls: type[Record], cell: str) -> bool:
    return re.fullmatch(rf"{cls.letter}\d{{1,7}}", cell.strip(), re.ASCII | re.IGNORECASE) is not None


def _column(name: str, key: str, fields: Mapping[str, Field], manner: Manner, said: bool) -> Column:
    if not key or key == "tag":
        return Column(name, key, key)
    unit, wrong = unit_of_heading(name, fields[key], manner)
    # Who names the field of a column knows that a word beside its name is not a unit.
    return Column(name, key, fields[key].says.title, unit, wrong="" if said and NOT_A_UNIT in wrong else wrong)


def _by_name(name: str, known: Mapping[str, str]) -> tuple[str, ...]:
    return next(((known[plain],) for plain in _forms(name) if plain in known), ())


def _by_other_name(name: str, known: Mapping[str, str]) -> tuple[str, ...]:
    return next((OTHER_NAMES[plain] for plain in _forms(name) if plain in OTHER_NAMES), ())


def _by_likeness(name: str, known: Mapping[str, str]) -> tuple[str, ...]:
    for plain in _forms(name):
        if len(plain) > 3 and (near := difflib.get_close_matches(plain, list(known), 1, CLOSE)):
            return (known[near[0]],)
    return ()


def _forms(name: str) -> tuple[str, ...]:
    """The name, and the name without its unit: `Width (mm)`, `Width [mm]`, `Width, mm`, `Width mm`."""
    bare = re.sub(r"\s*[(\[,].*$", "", name)
    words = bare.lower().rstrip(".?").split()
    is_unit = len(words) > 1 and bool(unit_named(words[-1]) or currencies_of(words[-1]))
    short = words[:-1] if is_unit else words
    return tuple(dict.fromkeys(each for each in (_plain(bare), _plain(" ".join(short)), _plain(name)) if each))


def _plain(name: str) -> str:
    return re.sub(r"[\W_]+", "", name.lower())
