/** Dots an inch of the PNG figures: enough for slides and print; the SVG serves anything larger. */
export const dotsPerInch = 200;

/** Bytes of the signature and the header chunk, after which the resolution may stand. */
const afterHeader = 33;

/** @source PNG specification, W3C 2003, section 11.3.5.3: pixels per unit in x and y, unit 1 = metre */
export function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  const pixelsPerMetre = Math.round(dpi / 0.0254);
  view.setUint32(0, 9);
  chunk.set(new TextEncoder().encode("pHYs"), 4);
  view.setUint32(8, pixelsPerMetre);
  view.setUint32(12, pixelsPerMetre);
  view.setUint8(16, 1);
  view.setUint32(17, crcOf(chunk.subarray(4, 17)));
  const whole = new Uint8Array(png.length + chunk.length);
  whole.set(png.subarray(0, afterHeader));
  whole.set(chunk, afterHeader);
  whole.set(png.subarray(afterHeader), afterHeader + chunk.length);
  return whole;
}

/** @source PNG specification, W3C 2003, annex D: remainder by the polynomial 0xEDB88320, least bit first */
function crcOf(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
