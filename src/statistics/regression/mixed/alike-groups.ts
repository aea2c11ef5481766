import { eigenSymmetric } from "../../linear/eigen.js";
import type { GroupSums } from "./group-sums.js";

/** Groups with the same Z'Z, in order of first appearance. */
function alike({ q, units, zz }: GroupSums): number[][] {
  const classes = new Map<string, number[]>();
  for (let g = 0; g < units; g++) {
    const key = zz.subarray(g * q * q, (g + 1) * q * q).join();
    const known = classes.get(key);
    if (known) known.push(g);
    else classes.set(key, [g]);
  }
  return [...classes.values()];
}

/** Products of the entries of Z'X and of Z'r over a scale, summed over groups; flat and square. */
function productsOver(
  sums: GroupSums,
  of: { readonly groups: readonly number[]; readonly scale: number },
): Float64Array {
  const { q, p, zx, zr } = sums;
  const width = q * (p + 1);
  const result = new Float64Array(width * width);
  const entries = new Float64Array(width);
  for (const g of of.groups) {
    for (let k = 0; k < q * p; k++) entries[k] = zx[g * q * p + k]!;
    for (let a = 0; a < q; a++) entries[q * p + a] = zr[g * q + a]! / of.scale;
    for (let i = 0; i < width; i++)
      for (let j = 0; j < width; j++) result[i * width + j]! += entries[i]! * entries[j]!;
  }
  return result;
}

/**
 * Fewer units that give the same likelihood. Groups with the same Z'Z (with intercepts alone: of one size) enter it only by the sums of products of
 * their Z'X and Z'r, so that a few made-up groups with those sums do for all of them; each stands for an equal part of their number.
 */
export function joinAlike(sums: GroupSums): GroupSums {
  const { q, p, zz, zx, zr, rr, n } = sums;
  const width = q * (p + 1);
  const scale = Math.sqrt(rr / n);
  const units: { zz: Float64Array; zx: Float64Array; zr: Float64Array; multiplicity: number }[] = [];
  for (const groups of alike(sums)) {
    const own = zz.slice(groups[0]! * q * q, (groups[0]! + 1) * q * q);
    if (groups.length <= width) {
      for (const g of groups)
        units.push({
          zz: own,
          zx: zx.slice(g * q * p, (g + 1) * q * p),
          zr: zr.slice(g * q, (g + 1) * q),
          multiplicity: 1,
        });
      continue;
    }
    const { values, vectors } = eigenSymmetric(productsOver(sums, { groups, scale }), width);
    vectors.forEach((vector, k) => {
      const size = Math.sqrt(Math.max(0, values[k]!));
      const entries = vector.map((x) => x * size);
      units.push({
        zz: own,
        zx: entries.slice(0, q * p),
        zr: entries.slice(q * p).map((x) => x * scale),
        multiplicity: groups.length / width,
      });
    });
  }
  const joined = (part: "zz" | "zx" | "zr", size: number): Float64Array => {
    const result = new Float64Array(units.length * size);
    units.forEach((unit, k) => {
      result.set(unit[part], k * size);
    });
    return result;
  };
  return {
    ...sums,
    units: units.length,
    multiplicity: Float64Array.from(units, (unit) => unit.multiplicity),
    zz: joined("zz", q * q),
    zx: joined("zx", q * p),
    zr: joined("zr", q),
  };
}
