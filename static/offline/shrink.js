/**
 * Photos made smaller on the tablet before they are kept: what is kept is what is sent and hashed.
 *
 * The long side becomes 2048 at most, upright, as JPEG. What cannot be read here, or would not get
 * smaller, goes as it is. A JPEG that is small enough already is never touched, so a photo that was
 * made smaller once stays the same bytes whenever its form is read again. One after another: a
 * picture of 12 megapixels takes 50 MB while it is unpacked.
 */
"use strict";

(() => {
  const LONG_SIDE = 2048;
  const QUALITY = 0.85;
  const KINDS = ["image/jpeg", "image/png", "image/webp"];

  /** @type {Promise<unknown>} */
  let last = Promise.resolve();
  let waiting = 0;
  let done = 0;

  /**
   * The file, or what takes its place.
   * @param {File} file
   * @returns {Promise<File>}
   */
  function shrink(file) {
    if (!KINDS.includes(file.type)) return Promise.resolve(file);
    waiting += 1;
    tell();
    const made = last.then(async () => {
      const smaller = await smallerOf(file).catch(() => null); // damaged, too large, no canvas
      done += 1;
      tell();
      return smaller && smaller.size < file.size ? smaller : file;
    });
    last = made;
    return made;
  }

  /** How far it is, for whoever shows it. */
  function tell() {
    const all = done === waiting;
    document.dispatchEvent(new CustomEvent("shopac:shrinking", { detail: { at: done + 1, of: waiting, all } }));
    if (all) waiting = done = 0;
  }

  /** @param {File} file @returns {Promise<File | null>} null: small enough as it is */
  async function smallerOf(file) {
    const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
    try {
      const { width, height } = whole;
      const share = Math.min(1, LONG_SIDE / Math.max(width, height));
      if (share === 1 && file.type === "image/jpeg") return null;
      const blob = await drawn(whole, Math.round(width * share) || 1, Math.round(height * share) || 1);
      const name = file.name.replace(/\.\w+$/, "") || "photo";
      return blob && new File([blob], `${name}.jpg`, { type: "image/jpeg" });
    } finally {
      whole.close();
    }
  }

  /** @param {ImageBitmap} whole @param {number} width @param {number} height */
  async function drawn(whole, width, height) {
    const canvas = "OffscreenCanvas" in window ? new OffscreenCanvas(width, height) : sized(width, height);
    const context = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
    context.fillStyle = "#fff"; // what is clear becomes white, not black
    context.fillRect(0, 0, width, height);
    context.imageSmoothingQuality = "high";
    context.drawImage(whole, 0, 0, width, height);
    const options = { type: "image/jpeg", quality: QUALITY };
    if ("convertToBlob" in canvas) return canvas.convertToBlob(options);
    return new Promise((resolve) => canvas.toBlob(resolve, options.type, options.quality));
  }

  /** @param {number} width @param {number} height */
  function sized(width, height) {
    return Object.assign(document.createElement("canvas"), { width, height });
  }

  window.shopac.shrink = shrink;
})();
