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
   * Known shape, sorted, empty values left out.
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
      const values = fields[name].filter((value) => value !== "").map(cleanText);
      if (values.length) kept[name] = values;
    }
    return kept;
  }

  /**
   * Canonical JSON: keys sorted, no spaces.
   * @param {{kind: string, version: number, job?: string | null, corrects?: string | null,
   *   fields: Record<string, string[]>, photos?: string[]}} entry photos are hashes of bytes
   * @returns {string}
   */
  function canonical(entry) {
    return JSON.stringify({
      corrects: entry.corrects || null,
      fields: cleanFields(entry.fields),
      job: entry.job || null,
      kind: entry.kind,
      photos: entry.photos || [],
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
