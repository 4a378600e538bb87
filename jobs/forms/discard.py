"""An entry thrown away on a tablet before the shop server took it."""

from jobs.forms.fields import EntryForm, Line, Lines

REASON_MISSING = "Say in a few words why it is discarded."
CONTENT_MAX = 300_000


class DiscardForm(EntryForm):
    """The reason, and what was thrown away as it was typed. Its job need not be here."""

    reason = Lines(2000, "Why", required=True, error_messages={"required": REASON_MISSING})
    discarded = Line(60, "Key of what was discarded")
    discarded_kind = Line(40, "What it was")
    discarded_typed_at = Line(60, "When it was typed")
    content = Lines(CONTENT_MAX, "As it was typed")
