// This screen: a tap acts at once and needs no shop server; without this script it is a post.
"use strict";

(() => {
  const { chosen, choose } = window.shopac.screen;
  const LEAST = 3;
  const MOST = 9.9;

  function show() {
    const now = chosen();
    for (const button of document.querySelectorAll(".choice")) {
      button.setAttribute("aria-pressed", String(now[button.name] === button.value));
    }
    document.querySelector("[data-mm]:not(html)").textContent = now.mm;
  }

  document.addEventListener("submit", (event) => {
    const button = event.submitter;
    if (!event.target.matches("[data-screen]") || !button?.name) return;
    event.preventDefault();
    const step = Number(button.dataset.step || 0);
    if (step) {
      const mm = Math.min(MOST, Math.max(LEAST, Number(chosen().mm) + step / 10));
      choose({ mm: mm.toFixed(1) });
      document.getElementById("id_mm").value = mm.toFixed(1);
    } else {
      choose({ [button.name]: button.value });
    }
    show();
  });
  show();
})();
