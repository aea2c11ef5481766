/** Rows by code, numbered from 0 in the order in which the codes first appear. */
export interface GroupedRows {
  readonly of: Int32Array;
  readonly size: number;
}

export function groupRows(codes: ArrayLike<number>): GroupedRows {
  const places = new Map<number, number>();
  const of = new Int32Array(codes.length);
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row] as number;
    let place = places.get(code);
    if (place === undefined) {
      place = places.size;
      places.set(code, place);
    }
    of[row] = place;
  }
  return { of, size: places.size };
}
