/**
 * Middles of blocks that keep their order and do not overlap, each as near to where it is wanted as the others allow.
 *
 * Blocks are laid down from the top; where they pass the lower bound, those at the end are pushed up again.
 * Together they must not be higher than the bounds are apart.
 *
 * @returns the middles, in the order of the blocks given
 * @example
 * spread([{ wanted: 10, height: 20 }, { wanted: 12, height: 20 }], { from: 0, to: 100 }); // => [10, 30]
 */
export function spread(
  blocks: readonly { readonly wanted: number; readonly height: number }[],
  bounds: { readonly from: number; readonly to: number },
): readonly number[] {
  const order = blocks.map((_, i) => i).sort((a, b) => blocks[a]!.wanted - blocks[b]!.wanted || a - b);
  const tops = new Array<number>(blocks.length).fill(0);
  let free = bounds.from;
  for (const index of order) {
    const { wanted, height } = blocks[index]!;
    tops[index] = Math.max(free, wanted - height / 2);
    free = tops[index]! + height;
  }
  let limit = bounds.to;
  for (const index of order.reverse()) {
    tops[index] = Math.min(tops[index]!, limit - blocks[index]!.height);
    limit = tops[index]!;
  }
  return blocks.map(({ height }, i) => tops[i]! + height / 2);
}
