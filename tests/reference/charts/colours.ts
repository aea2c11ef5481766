type Triple = readonly [number, number, number];

/** Linear light of a colour written #rrggbb. @source IEC 61966-2-1:1999 */
export function linearLight(hex: string): Triple {
  const channel = (at: number): number => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

const times = (rows: readonly Triple[], [r, g, b]: Triple): Triple =>
  rows.map(([p, q, s]) => Math.min(1, Math.max(0, p * r + q * g + s * b))) as unknown as Triple;

const full = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const satisfies Record<string, readonly Triple[]>;

/** How linear light looks without one kind of cone. @source Machado, Oliveira & Fernandes 2009, IEEE Trans Vis Comput Graph 15:1291, severity 1.0 */
export const sight: Readonly<Record<string, (light: Triple) => Triple>> = {
  "all cones": (light) => light,
  protanopia: (light) => times(full.protanopia, light),
  deuteranopia: (light) => times(full.deuteranopia, light),
  tritanopia: (light) => times(full.tritanopia, light),
};

export const luminance = ([r, g, b]: Triple): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** Contrast with white paper. @source Web Content Accessibility Guidelines 2.1, W3C 2018, definition of contrast ratio */
export const contrastWithWhite = (light: Triple): number => 1.05 / (luminance(light) + 0.05);

/** CIE 1976 L*a*b* under D65. @source CIE 15:2004 */
export function lab([r, g, b]: Triple): Triple {
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const y = f(0.2126729 * r + 0.7151522 * g + 0.072175 * b);
  const z = f((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

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
