// Entries kept on this tablet as a file, photos too: for the day when no server comes back, or when an
// owner has revoked the tablet and brings its entries in by hand (shopac/views/kept_file.py reads it).
//
// Names may leave the tablet, signed passes may not: whoever finds a file must not be able to send by
// it. So a pass goes without its signature, and the whole one seals the entry: HMAC-SHA-256, which the
// shop server can repeat and nobody else.
"use strict";

(() => {
  const shop = window.shopac;
  if (!shop.able) return;
  const { store } = shop;
  const PART = 60e6; // bytes of photos in one file; what is over goes into a second one
  const text = new TextEncoder();

  async function saveToFile(items) {
    const offset = await store.get("about", "clock_offset");
    const saved = new Date().toISOString();
    let [number, size, entries] = [1, 0, []];
    for (const item of items) {
      const heavy = item.photos.reduce((sum, photo) => sum + photo.size, 0);
      if (entries.length && size + heavy > PART) {
        download(entries, saved, number++);
        [size, entries] = [0, []];
      }
      size += heavy;
      entries.push(JSON.stringify(await asSaved(item, offset ?? null), null, 1));
    }
    if (entries.length) download(entries, saved, number);
  }

  async function asSaved(item, clock_offset_sent_ms) {
    const { who, mended = [], errors, next, lane, place, address, ...told } = item;
    const photos = [];
    for (const photo of item.photos) {
      const bytes = await store.get("photos", [item.key, photo.sha256]);
      photos.push({ ...photo, base64: bytes ? await base64(bytes) : "" });
    }
    const { key, fingerprint, sequence, rev, typed_at, clock_offset_ms } = item;
    const parts = [key, fingerprint, sequence, rev, typed_at, clock_offset_ms ?? null, clock_offset_sent_ms];
    const since = mended.map(async ({ who: by, ...when }) => ({
      ...when,
      ...(await signed(by, [key, when.at, when.clock_offset_ms ?? null])),
    }));
    return { ...told, clock_offset_sent_ms, ...(await signed(who, parts)), mended: await Promise.all(since), photos };
  }

  /** Whose name stands behind it: the pass without its signature, and the seal of the whole one. */
  async function signed(who, parts) {
    if (!who?.pass) return { author: who?.person.name || "", tablet: who?.tablet || null, pass_head: "", seal: "" };
    const algorithm = { name: "HMAC", hash: "SHA-256" };
    const secret = await crypto.subtle.importKey("raw", text.encode(who.pass), algorithm, false, ["sign"]);
    const bytes = new Uint8Array(await crypto.subtle.sign("HMAC", secret, text.encode(JSON.stringify(parts))));
    const seal = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
    const pass_head = who.pass.slice(0, who.pass.lastIndexOf(":"));
    return { author: who.person.name, tablet: who.tablet, pass_head, seal };
  }

  function download(entries, saved, number) {
    const head = `{"shopac": "entries kept on a tablet", "format": 1, "saved_at": "${saved}", "entries": [\n`;
    const file = new Blob([head, entries.join(",\n"), "\n]}\n"], { type: "application/json" });
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    const when = saved.slice(0, 16).replace(/\D/g, "");
    link.download = `shopac-kept-${when}-${number}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  function base64(bytes) {
    return new Promise((resolve, reject) => {
      const reader = new FileReader();
      reader.onload = () => resolve(String(reader.result).split(",")[1] || "");
      reader.onerror = () => reject(reader.error);
      reader.readAsDataURL(new Blob([bytes]));
    });
  }

  shop.saved = saveToFile;
})();
