import { Inflate } from "fflate";
/** Bytes that are unpacked in one go. */
const step = 16_384;
/** Sheets of repeated cells shrink to a fiftieth; what shrinks further, beyond a size that cannot hurt, was made to. */
const densest = { ratio: 200, above: 10_000_000 };
/** Unpacks one entry within the budget, step by step, and holds it against the size and check sum of the archive. */
export function unpack({ method, packed, size, checkSum }, budget) {
    const chunks = [];
    const length = { now: 0 };
    const take = (chunk) => {
        chunks.push(chunk);
        length.now += chunk.length;
        budget.left -= chunk.length;
    };
    if (method === 0)
        take(packed);
    else if (method === 8) {
        const stopped = inflate(packed, { take, length, budget });
        if (stopped !== null)
            return stopped;
    }
    else
        return "damaged";
    if (budget.left < 0)
        return "too-large";
    const bytes = joined(chunks, length.now);
    return bytes.length === size && crc32(bytes) === checkSum ? bytes : "damaged";
}
function inflate(packed, { take, length, budget, }) {
    const stream = new Inflate(take);
    try {
        for (let place = 0; place === 0 || place < packed.length; place += step) {
            stream.push(packed.subarray(place, place + step), place + step >= packed.length);
            if (budget.left < 0)
                return "too-large";
            if (length.now > densest.above && length.now > densest.ratio * (place + step))
                return "too-dense";
        }
        return null;
    }
    catch {
        return "damaged";
    }
}
function joined(chunks, length) {
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
function crc32(bytes) {
    let sum = 0xffffffff;
    for (let place = 0; place < bytes.length; place++) {
        sum = (sum >>> 8) ^ remainders[(sum ^ bytes[place]) & 255];
    }
    return (sum ^ 0xffffffff) >>> 0;
}
