import { Inflate } from "fflate";
import type { ZipEntry } from "./zip-directory.js";

/** How much may still be unpacked, bytes; counted down while it is done, whatever the archive claims. */
export interface UnpackBudget {
  left: number;
}

/** The bytes of an entry, or why there are none. */
export type Unpacked = Uint8Array | "damaged" | "too-large" | "too-dense";

/** Bytes that are unpacked in one go. */
const step = 16_384;
/** Sheets of repeated cells shrink to a fiftieth; what shrinks further, beyond a size that cannot hurt, was made to. */
const densest = { ratio: 200, above: 10_000_000 } as const;

/** Unpacks one entry within the budget, step by step, and holds it against the size and check sum of the archive. */
export function unpack({ method, packed, size, checkSum }: ZipEntry, budget: UnpackBudget): Unpacked {
  const chunks: Uint8Array[] = [];
  const length = { now: 0 };
  const take = (chunk: Uint8Array) => {
    chunks.push(chunk);
    length.now += chunk.length;
    budget.left -= chunk.length;
  };
  if (method === 0) take(packed);
  else if (method === 8) {
    const stopped = inflate(packed, { take, length, budget });
    if (stopped !== null) return stopped;
  } else return "damaged";
  if (budget.left < 0) return "too-large";
  const bytes = joined(chunks, length.now);
  return bytes.length === size && crc32(bytes) === checkSum ? bytes : "damaged";
}

function inflate(
  packed: Uint8Array,
  {
    take,
    length,
    budget,
  }: { take: (chunk: Uint8Array) => void; length: { readonly now: number }; budget: UnpackBudget },
): "damaged" | "too-large" | "too-dense" | null {
  const stream = new Inflate(take);
  try {
    for (let i = 0; i === 0 || i < packed.length; i += step) {
      stream.push(packed.subarray(i, i + step), i + step >= packed.length);
      if (budget.left < 0) return "too-large";
      if (length.now > densest.above && length.now > densest.ratio * (i + step)) return "too-dense";
    }
    return null;
  } catch {
    return "damaged";
  }
}

function joined(chunks: readonly Uint8Array[], length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let place = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, place);
    place += chunk.length;
  }
  return bytes;
}

const remainders = Uint32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++) {
    remainder = remainder & 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
  }
  return remainder;
});

/** Cyclic redundancy check of ISO 3309, as archives use it. */
function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) {
    sum = (sum >>> 8) ^ remainders[(sum ^ bytes[i]!) & 255]!;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
