import type { HazardLayout } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";

/**
 * What the risk sets come to at one value of the coefficients, in arrays that are filled again at each.
 *
 * A tied time has denominators s0 (1 - f c), where s0 is the sum of the risks, c the events' part of it and f the part of the events taken
 * off: f = q / d, q = 0 .. d - 1 under Efron, f = 0 once under Breslow. Each has the same weight w: the mean weight of the events under
 * Efron (so whole weights are not repeated rows there), their whole weight under Breslow. With m the mean covariate of the risk set and v the
 * events' part of it, the mean at f is (m - f v) / (1 - f c), so that its sums over f need a few numbers a block:
 *
 * - `first`: sum of w / (1 - f c); `firstTaken`: of w f / (1 - f c)
 * - `second`: sum of w / (1 - f c)^2; `shift` and `rest` complete the square: the sum of w mean mean' is
 *   second (m - shift v)(m - shift v)' + rest v v'
 */
export interface RiskState {
  readonly layout: HazardLayout;
  readonly ties: SummedTies;
  /** Added to the log hazard of each sorted row; null: none. */
  readonly offset: Float64Array | null;
  /** exp(eta + offset) of each sorted row, and the same times its weight (the same array where all weigh 1). */
  readonly ratio: Float64Array;
  readonly risk: Float64Array;
  readonly s0: Float64Array;
  /** 1 / s0. */
  readonly perRisk: Float64Array;
  /** Events' part of s0 in the tied blocks. */
  readonly c: Float64Array;
  readonly first: Float64Array;
  readonly firstTaken: Float64Array;
  readonly second: Float64Array;
  readonly shift: Float64Array;
  readonly rest: Float64Array;
  /** Increment of the baseline hazard, first / s0, and the increment that the block's own events take: the sum of (1 - f) w / (s0 (1 - f c)). */
  readonly hazard: Float64Array;
  readonly ownHazard: Float64Array;
  /** For each covariate its mean m over the risk set of each block, less shift v. */
  readonly shifted: readonly Float64Array[];
  /** Blocks with several events whose shares are taken off (none under Breslow); for each covariate its v there, one a tied block. */
  readonly tied: Int32Array;
  readonly tiedPart: readonly Float64Array[];
  /** Place of each block among the tied ones, -1 for the others. */
  readonly tiedPlace: Int32Array;
}

/** Blocks with several events, where the ties are of the kind that takes shares off; and the place of each block among them. */
function tiedBlocks(
  { blockEvents, blocks }: HazardLayout,
  ties: SummedTies,
): Pick<RiskState, "tied" | "tiedPlace"> {
  const tied = new Int32Array(blocks);
  const tiedPlace = new Int32Array(blocks).fill(-1);
  let count = 0;
  for (let block = 0; block < blocks && ties === "efron"; block++) {
    if (blockEvents[block]! < 2) continue;
    tiedPlace[block] = count;
    tied[count++] = block;
  }
  return { tied: tied.slice(0, count), tiedPlace };
}

export function emptyState(
  layout: HazardLayout,
  settings: {
    readonly ties: SummedTies;
    readonly offset?: Float64Array | null;
    /** none: `shifted` stays empty, for who never calls moveTo. Default: of blocks. */
    readonly means?: "of blocks" | "none";
  },
): RiskState {
  const perBlock = (): Float64Array => new Float64Array(layout.blocks);
  const ratio = new Float64Array(layout.n);
  const { tied, tiedPlace } = tiedBlocks(layout, settings.ties);
  return {
    layout,
    ties: settings.ties,
    offset: settings.offset ?? null,
    ratio,
    risk: layout.weight ? new Float64Array(layout.n) : ratio,
    s0: perBlock(),
    perRisk: perBlock(),
    c: perBlock(),
    // those of a block with one denominator never change: nothing is taken off
    first: layout.blockEventWeight.slice(),
    firstTaken: perBlock(),
    second: layout.blockEventWeight.slice(),
    shift: perBlock(),
    rest: perBlock(),
    hazard: perBlock(),
    ownHazard: perBlock(),
    shifted: settings.means === "none" ? [] : layout.x.map(perBlock),
    tied,
    tiedPart: layout.x.map(() => new Float64Array(tied.length)),
    tiedPlace,
  };
}

/** The events' part v of a covariate in a block; 0 where nothing is taken off. */
export function partAt(state: RiskState, j: number, block: number): number {
  const place = state.tiedPlace[block]!;
  return place < 0 ? 0 : state.tiedPart[j]![place]!;
}

/** The mean covariate m over the risk set of a block, nothing taken off. */
export const meanAt = (state: RiskState, j: number, block: number): number =>
  state.shifted[j]![block]! + state.shift[block]! * partAt(state, j, block);
