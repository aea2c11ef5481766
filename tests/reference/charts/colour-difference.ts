import type { Triple } from "../../../src/charts/colours.js";

const degrees = (radians: number): number => ((radians * 180) / Math.PI + 360) % 360;
const cosine = (angle: number): number => Math.cos((angle * Math.PI) / 180);
const sine = (angle: number): number => Math.sin((angle * Math.PI) / 180);
const seventh = (chroma: number): number => Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7));

/** CIEDE2000. @source Sharma, Wu & Dalal 2005, Color Res Appl 30:21 */
export function colourDifference([l1, a1, b1]: Triple, [l2, a2, b2]: Triple): number {
  const grey = 0.5 * (1 - seventh((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2));
  const [x1, x2] = [a1 * (1 + grey), a2 * (1 + grey)];
  const [c1, c2] = [Math.hypot(x1, b1), Math.hypot(x2, b2)];
  const [h1, h2] = [degrees(Math.atan2(b1, x1)), degrees(Math.atan2(b2, x2))];
  const turn = h2 - h1 > 180 ? h2 - h1 - 360 : h2 - h1 < -180 ? h2 - h1 + 360 : h2 - h1;
  const hue = 2 * Math.sqrt(c1 * c2) * sine(turn / 2);
  const [l, c] = [(l1 + l2) / 2, (c1 + c2) / 2];
  const h = Math.abs(h1 - h2) > 180 ? (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2 : (h1 + h2) / 2;
  const t =
    1 - 0.17 * cosine(h - 30) + 0.24 * cosine(2 * h) + 0.32 * cosine(3 * h + 6) - 0.2 * cosine(4 * h - 63);
  const dl = (l2 - l1) / (1 + (0.015 * (l - 50) ** 2) / Math.sqrt(20 + (l - 50) ** 2));
  const dc = (c2 - c1) / (1 + 0.045 * c);
  const dh = hue / (1 + 0.015 * c * t);
  const rotation = -2 * seventh(c) * sine(60 * Math.exp(-(((h - 275) / 25) ** 2)));
  return Math.sqrt(dl ** 2 + dc ** 2 + dh ** 2 + rotation * dc * dh);
}
