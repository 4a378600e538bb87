/**
 * The content of an entry as one text, and its SHA-256.
 *
 * The same rules stand in jobs/logbook.py (clean_text, clean_fields, fingerprint); both are held to
 * tests/offline/fingerprints.json. The tablet throws an entry away only when the shop server has
 * answered with this very fingerprint.
 */
"use strict";

window.shopac = window.shopac || {};

(() => {
  const FIELD_NAME = /^[a-z][a-z0-9_]{0,59}$/;
  const NOT_CONTENT = new Set(["csrfmiddlewaretoken", "key", "button", "corrects", "rev"]);

  /**
   * CRLF and CR to LF, NUL and lone surrogates to U+FFFD.
   * @param {string} text
   * @returns {string}
   */
  function cleanText(text) {
    return text.replace(/\r\n?/g, "\n").replace(/\0|\p{Surrogate}/gu, "\ufffd");
  }

  /**
   * Known shape, sorted, unanswered fields left out: those with empty values only. An empty value
   * among others keeps its place, since lists of a form may belong together line by line.
   * @param {Record<string, string[]>} fields
   * @returns {Record<string, string[]>}
   * @throws {TypeError} a field's name is not of lower-case letters, digits and underscores
   */
  function cleanFields(fields) {
    /** @type {Record<string, string[]>} */
    const kept = {};
    for (const name of Object.keys(fields).sort()) {
      if (NOT_CONTENT.has(name)) continue;
      if (!FIELD_NAME.test(name)) throw new TypeError(`no field of ours is called ${name}`);
      const values = fields[name].map(cleanText);
      if (values.some((value) => value !== "")) kept[name] = values;
    }
    return kept;
  }

  /**
   * Canonical JSON: keys sorted, no spaces. Text counts as it was typed: composed and decomposed
   * letters are two texts (no NFC), so the two sides need no tables of Unicode that agree.
   * @param {{kind: string, version: number, job?: string | null, corrects?: string | null,
   *   fields: Record<string, string[]>, happened_at?: string | null,
   *   photos?: [string, string][]}} entry photos are [field, hash of the bytes] in order;
   *   happened_at is a time with its zone, and counts as an instant
   * @returns {string}
   * @throws {RangeError} happened_at is no time
   */
  function canonical(entry) {
    return JSON.stringify({
      corrects: entry.corrects || null,
      fields: cleanFields(entry.fields),
      happened_at: entry.happened_at ? new Date(entry.happened_at).toISOString() : null,
      job: entry.job || null,
      kind: entry.kind,
      photos: (entry.photos || []).map(([field, hash]) => [cleanText(field), hash]),
      version: entry.version,
    });
  }

  /**
   * @param {BufferSource} bytes
   * @returns {Promise<string>} SHA-256 in hex
   */
  async function sha256(bytes) {
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  /**
   * @param {Parameters<typeof canonical>[0]} entry
   * @returns {Promise<string>}
   */
  function fingerprint(entry) {
    return sha256(new TextEncoder().encode(canonical(entry)));
  }

  Object.assign(window.shopac, { cleanFields, canonical, sha256, fingerprint });
})();
