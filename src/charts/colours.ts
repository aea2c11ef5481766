/** Light of a colour in red, green and blue, or its place in a space of colours. */
export type Triple = readonly [number, number, number];

const root = (value: number, degree: number): number => (value <= 0 ? 0 : Math.exp(Math.log(value) / degree));

/** Linear light of a colour written #rrggbb. @source IEC 61966-2-1:1999 */
export function linearLight(hex: string): Triple {
  const channel = (at: number): number => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : root((value + 0.055) / 1.055, 1 / 2.4);
  };
  return [channel(1), channel(3), channel(5)];
}

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
} as const;

const times = (rows: readonly Triple[], [r, g, b]: Triple): Triple =>
  rows.map(([p, q, s]) => Math.min(1, Math.max(0, p * r + q * g + s * b))) as unknown as Triple;

/** Ways of seeing colours. */
export const sights = ["all cones", "protanopia", "deuteranopia", "tritanopia"] as const;

/** How linear light looks without one kind of cone. @source Machado, Oliveira & Fernandes 2009, IEEE Trans Vis Comput Graph 15:1291, severity 1.0 */
export const seenBy = (sight: (typeof sights)[number], light: Triple): Triple =>
  sight === "all cones" ? light : times(full[sight], light);

/** Relative luminance of linear light. @source Web Content Accessibility Guidelines 2.1, W3C 2018 */
export const luminance = ([r, g, b]: Triple): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** Contrast with white paper. @source Web Content Accessibility Guidelines 2.1, W3C 2018, definition of contrast ratio */
export const contrastWithWhite = (light: Triple): number => 1.05 / (luminance(light) + 0.05);

/** CIE 1976 L*a*b* under D65. @source CIE 15:2004 */
export function lab([r, g, b]: Triple): Triple {
  const f = (t: number) => (t > 216 / 24389 ? root(t, 3) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const y = f(0.2126729 * r + 0.7151522 * g + 0.072175 * b);
  const z = f((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Distance of two colours in L*a*b*. @source CIE 15:2004 */
export const colourDistance = ([l1, a1, b1]: Triple, [l2, a2, b2]: Triple): number =>
  Math.sqrt((l1 - l2) ** 2 + (a1 - a2) ** 2 + (b1 - b2) ** 2);

/** The grey that is as light as a colour, written #rrggbb. */
export function greyOf(hex: string): string {
  const light = luminance(linearLight(hex));
  const value = light <= 0.0031308 ? 12.92 * light : 1.055 * root(light, 2.4) - 0.055;
  const two = Math.round(255 * Math.min(1, value))
    .toString(16)
    .padStart(2, "0");
  return `#${two}${two}${two}`;
}
