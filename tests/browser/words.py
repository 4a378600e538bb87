"""Words and readings as a page prints them: torn, cut off or printed over one another."""

from playwright.sync_api import Page

# The least a screen has to hold of a reading: as many digits.
SIX_DIGITS = "123456"
# Words of answers, questions and hints that are parted in their middle (not at a hyphen, a dash or
# a slash), or run out of their place.
TORN = r"""() => [...document.querySelectorAll(".answer > span, .question, .hint, .group")]
  .filter((one) => one.checkVisibility())
  .flatMap((one) => {
    const edge = one.getBoundingClientRect().right + (one.matches(".answer > span") ? -2 : 1);
    const text = one.firstChild;
    return [...text.data.matchAll(/[^\s\-–\/]+/g)].map((word) => {
      const range = document.createRange();
      range.setStart(text, word.index);
      range.setEnd(text, word.index + word[0].length);
      const rects = [...range.getClientRects()];
      const lines = new Set(rects.map((rect) => Math.round(rect.top)));
      return lines.size > 1 || rects.some((rect) => rect.right > edge) ? word[0] : "";
    });
  })
  .filter(Boolean)"""
# Number fields that cannot show a reading beside their unit.
CLIPPED = """reading => {
  const pen = document.createElement("canvas").getContext("2d");
  return [...document.querySelectorAll(".typed.number > input")]
    .filter((one) => one.checkVisibility())
    .filter((one) => {
      const looks = getComputedStyle(one);
      pen.font = `${looks.fontWeight} ${looks.fontSize} ${looks.fontFamily}`;
      const inset = (side) =>
        parseFloat(looks[`border${side}Width`]) + parseFloat(looks[`padding${side}`]);
      const box = one.getBoundingClientRect();
      let room = box.right - inset("Right");
      const unit = one.parentElement.querySelector(".unit");
      if (unit?.textContent) {
        const range = document.createRange();
        range.selectNodeContents(unit);
        room = Math.min(room, range.getBoundingClientRect().left);
      }
      return box.left + inset("Left") + pen.measureText(reading).width > room;
    })
    .map((one) => one.name);
}"""
# Lines of text that lie over another or over a field; the unit and the words inside one may.
OVERPRINTED = """() => {
  const boxes = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let text; (text = walker.nextNode()); ) {
    const holder = text.parentElement;
    if (!text.data.trim() || !holder.checkVisibility()) continue;
    if (holder.closest("svg, script, noscript")) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    const inside = holder.closest(".typed, .answer");
    for (const box of range.getClientRects()) boxes.push([text.data.trim(), box, inside]);
  }
  for (const one of document.querySelectorAll(".typed > *, .answer > span")) {
    const inside = one.closest(".typed, .answer");
    if (one.checkVisibility()) boxes.push([one.name || "", one.getBoundingClientRect(), inside]);
  }
  const over = [];
  boxes.forEach(([words, a, inside], at) => {
    for (const [others, b, other] of boxes.slice(at + 1)) {
      if (inside && inside === other) continue;
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (across > 1 && down > 0.1 * Math.min(a.height, b.height)) over.push([words, others]);
    }
  });
  return over;
}"""
# Every question asked at once, each number in the middle of what it can be: all is on the page
# that any car or answer brings up.
ASK_ALL = """() => {
  const form = document.querySelector("form.step");
  const show = () => {
    for (const one of document.querySelectorAll("details")) one.open = true;
    for (const one of form.querySelectorAll("[data-asked], .group, .answer")) {
      one.hidden = false;
      one.classList.remove("later");
    }
  };
  for (const asked of JSON.parse(document.getElementById("kind").textContent).fields) {
    if (asked.type !== "number") continue;
    const input = form.querySelector(`input[name="${asked.name}"]`);
    input.disabled = false;
    input.value = ((asked.span.low + asked.span.high) / 2).toFixed(2);
  }
  show();
  form.dispatchEvent(new Event("input")); // works numbers out, and hides again
  show();
}"""


def ill_printed(page: Page) -> dict[str, list[str]]:
    """What a person could not read there, by what is wrong with it."""
    seen = {
        "torn": page.evaluate(TORN),
        "cut off": page.evaluate(CLIPPED, SIX_DIGITS),
        "printed over": page.evaluate(OVERPRINTED),
    }
    return {wrong: words for wrong, words in seen.items() if words}
