"""Whether a file or a hash is of an issue of this shop: what a copy shows by itself.

An unchanged copy says that nobody changed it since it was issued. It does not say that what was
entered was true; and where somebody changed the shop's row, its logbook and its file together, a
copy handed over before is what shows it.
"""

import re
from dataclasses import dataclass, field
from typing import Any

from jobs.models.records import Record
from jobs.models.wordings import in_shop_time, shop_day
from jobs.paper.attached import data_in
from jobs.paper.frozen import sha256
from jobs.paper.parts import touched
from jobs.paper.shelf import NotAsFrozen, data_of, file_of
from jobs.told import as_key

UNCHANGED, DATA_ONLY, ALTERED, NOT_OURS = "unchanged", "data_only", "altered", "not_ours"
HASH = "hash"
HEADS = {
    UNCHANGED: "Unchanged",
    DATA_ONLY: "The data are unchanged, the file is not",
    ALTERED: "Altered",
    NOT_OURS: "Not a file that we issued",
    HASH: "A hash of an issue",
}
DIGITS = 64
SAVED_ANEW = (
    "What it prints may have been changed, or another program only saved it anew: bytes do not tell"
    " which. Rely on the attached data, or print the issue anew from its page."
)
NOT_TRUTH = (
    "Unchanged says that nobody changed it since it was issued. It does not say that everything"
    " entered was right."
)
NOTHING_ATTACHED = (
    "No data of a record are attached that can be read. A scan or a picture of a paper cannot be"
    " checked so: type the hash that is printed before its end mark."
)
HASH_NOT_OURS = (
    "No issue of this shop’s records has this hash. Compare all 64 digits with the paper; one other"
    " digit makes another hash."
)


@dataclass(frozen=True)
class Checked:
    """What came out: `code`, sentences, and the issue it is about, if it is about one.

    None of it names a person or a car.
    """

    code: str
    words: list[str] = field(default_factory=list)
    issue: Record | None = None

    @property
    def head(self) -> str:
        """In a few words."""
        return HEADS[self.code]


def check_file(pdf: bytes) -> Checked:
    """Hold a file to the issues' hashes, and the data in it to theirs."""
    issue = issue_with(pdf_sha256=sha256(pdf))
    found = data_in(pdf)
    if issue:
        said = [*same_file(issue), *attached_words(issue, found), *stands(issue), NOT_TRUTH]
        return Checked(UNCHANGED, said, issue)
    if found is None:
        none = "No issue of this shop’s records has these bytes."
        return Checked(NOT_OURS, [none, NOTHING_ATTACHED])
    digest, told = found
    issue = issue_with(data_sha256=digest)
    if issue:
        first = f"The data attached to this file are those of {name_of(issue)}, to the last letter."
        other = "The file itself has other bytes than the one that was issued."
        return Checked(DATA_ONLY, [first, other, SAVED_ANEW, *stands(issue)], issue)
    return not_as_issued(told)


def check_hash(digits: str) -> Checked:
    """Hold 64 digits to the issues' hashes, of files and of data."""
    issue = issue_with(pdf_sha256=digits)
    if issue:
        first = f"This is the hash of the file of {name_of(issue)}."
        return Checked(HASH, [first, *stands(issue)], issue)
    issue = issue_with(data_sha256=digits)
    if issue:
        first = f"This is the hash of the data of {name_of(issue)}, as printed on it."
        held = "A hash alone does not say that the rest of the paper is as it was: compare them."
        return Checked(HASH, [first, held, *stands(issue)], issue)
    return Checked(NOT_OURS, [HASH_NOT_OURS])


def digits_of(typed: str) -> str:
    """A hash as typed or pasted, without gaps and marks, in small letters."""
    return re.sub(r"[\s\u00a0:.\-]", "", typed).lower()


def issue_with(**column: str) -> Record | None:
    """The issue with this hash in its row, else in the logbook's entry that froze it."""
    ((name, digest),) = column.items()
    rows = Record.objects.select_related("job", "entry").defer("data")
    found = rows.filter(**column).first()
    if found:
        return found
    return rows.filter(**{f"entry__result__{name}": digest}).first()


def name_of(issue: Record) -> str:
    """Issue 2 of record 26-0418."""
    return f"issue {issue.issue} of record {issue.job.number}"


def same_file(issue: Record) -> list[str]:
    """That the copy is as issued; where the shop's own is not, this copy is the better one."""
    first = f"This file is {name_of(issue)}, byte for byte as it was frozen."
    try:
        file_of(issue)
    except NotAsFrozen as why:
        if not issue.let_go_at:
            return [first, f"{why} Keep this copy: it is as it was frozen."]
    return [first]


def attached_words(issue: Record, found: tuple[str, dict[str, Any]] | None) -> list[str]:
    """Whether the attached data have the hash that the issue has."""
    logged = issue.entry.result.get("data_sha256")
    if found and found[0] == issue.data_sha256 == logged:
        return [f"The data attached to it have the SHA-256 {found[0]}, as printed on it."]
    if found and found[0] == logged:
        return ["The data attached to it are as frozen; the shop’s own row of them is not."]
    return ["The data attached to it could not be held to their hash: tell the owner."]


def stands(issue: Record) -> list[str]:
    """When it was frozen, what came after it, and whether it was taken out since."""
    told = [f"Frozen {in_shop_time(issue.frozen_at)}."]
    newest = issue.job.records.defer("data").order_by("-issue").first()
    if newest and newest.issue > issue.issue:
        when = in_shop_time(newest.frozen_at)
        told.append(f"Superseded: issue {newest.issue}, frozen {when}, is the newest.")
    else:
        told.append("No later issue supersedes it.")
    if issue.let_go_at:
        told.append(f"The shop’s own file of it was taken out on {shop_day(issue.let_go_at)}.")
    return told


def not_as_issued(told: dict[str, Any]) -> Checked:
    """A file with data that nobody froze here: of an issue that is here, or of none."""
    issue = named_in(told["record"])
    if issue is None:
        return Checked(NOT_OURS, ["Its data name an issue that this shop server never froze."])
    first = f"Its data name {name_of(issue)}, and are not those that were frozen."
    where = "What differs cannot be told any more: the shop’s own data of it are not as frozen."
    try:
        names = touched(data_of(issue), told)
        if names:
            where = f"They differ in: {', '.join(names)}."
        else:
            where = "They say the same in other signs: the text was written anew."
    except NotAsFrozen:
        pass
    return Checked(ALTERED, [first, where, *stands(issue)], issue)


def named_in(heading: dict[str, Any]) -> Record | None:
    """The issue that a copy's data say they are."""
    key, number = as_key(str(heading.get("job", ""))), heading.get("issue")
    if key is None or isinstance(number, bool) or not isinstance(number, int):
        return None
    if not 0 < number < 2**31:
        return None
    rows = Record.objects.select_related("job", "entry")
    return rows.filter(job__key=key, issue=number).first()
