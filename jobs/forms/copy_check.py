"""A copy to be checked: a file, or the hash that is printed on a paper."""

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from jobs.forms.fields import Line
from jobs.paper.attached import is_pdf
from jobs.paper.copies import DIGITS, digits_of

FILE_BYTES_MAX = 32 * 1024 * 1024  # 48 printed photos make about five: our judgement
ONE = "Choose a file, or type a hash."
NOT_BOTH = "Check one at a time: the file or the hash."
TOO_LARGE = "That file is larger than any record: 32 MB at most are read."
EMPTY = "There is nothing in this file."
NOT_PDF = "That is no PDF. A record’s file is one; a photo of a paper cannot be checked."


class CopyCheckForm(forms.Form):
    """One of the two."""

    copy = forms.FileField(label="A record’s PDF", required=False, allow_empty_file=True)
    digits = Line(
        400,
        "Or the hash printed on it",
        "64 digits and letters a to f, before the end mark; gaps do not matter.",
    )

    def clean_copy(self) -> bytes:
        """The file's bytes; empty: none came.

        Raises:
            ValidationError: too large, empty or no PDF.

        """
        file: UploadedFile[bytes] | None = self.cleaned_data.get("copy")
        if not file:
            return b""
        if file.size is None or file.size > FILE_BYTES_MAX:
            raise forms.ValidationError(TOO_LARGE)
        data = bytes(file.read())
        if not data:
            raise forms.ValidationError(EMPTY)
        if not is_pdf(data):
            raise forms.ValidationError(NOT_PDF)
        return data

    def clean_digits(self) -> str:
        """The hash in 64 small letters and digits; empty: none was typed.

        Raises:
            ValidationError: it has another length, or other letters.

        """
        told = digits_of(self.cleaned_data["digits"])
        wrong = sorted({one for one in told if one not in "0123456789abcdef"})
        if wrong:
            raise forms.ValidationError(
                f"A hash has digits and the letters a to f only; “{wrong[0]}” is none of them."
            )
        if told and len(told) != DIGITS:
            raise forms.ValidationError(f"A hash has 64 digits; {len(told)} are typed.")
        return told

    def clean(self) -> dict[str, Any]:
        """Exactly one of them was told."""
        said = super().clean() or {}
        if not self.errors and not (said.get("copy") or said.get("digits")):
            self.add_error(None, ONE)
        elif said.get("copy") and said.get("digits"):
            self.add_error(None, NOT_BOTH)
        return said
