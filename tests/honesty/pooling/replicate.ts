import {
  productLimit,
  seededGenerator,
  shareAt,
  shareDifference,
  shareInterval,
} from "../../../src/statistics/index.js";
import {
  commonEffect,
  differencesOfShares,
  furtherSite,
  furtherSiteShare,
  logOddsOfShares,
  pooledShare,
  type RandomEffectsOptions,
  randomEffects,
  type SiteEstimates,
  type SiteShares,
} from "../../../src/statistics/pooling/index.js";
import { sizedShare } from "../../../src/statistics/survival/small-sample.js";
import type { Finding } from "../tally.js";
import {
  type DrawnSite,
  drawConsortium,
  drawSite,
  type Injury,
  type Kind,
  type Truth,
  trueDifference,
  trueShare,
} from "./consortium.js";

type Limits = { readonly lower: number | null; readonly upper: number | null };

const finding = (
  name: string,
  truth: number,
  { estimate, lower, upper }: Limits & { readonly estimate: number | null },
): Finding => ({ kind: "interval", name, truth, value: estimate, lower, upper });

/** A group's share back by day 91 with its error, as a site sends it. */
function pointOf(injuries: readonly Injury[], ring: boolean) {
  const own = injuries.filter((injury) => injury.ring === ring);
  const curve = productLimit({
    times: own.map(({ time }) => time),
    events: own.map(({ back }) => back),
    clusters: own.map(({ person }) => person),
  });
  const at = own.length === 0 ? null : shareAt(curve, 91);
  if (at === null || at.returned === null) return null;
  const { returned, standardError, atRisk } = at;
  return { returned, standardError, atRisk, n: own.length, units: curve.units };
}

type Point = NonNullable<ReturnType<typeof pointOf>>;

const expit = (eta: number | null): number | null => (eta === null ? null : 1 / (1 + Math.exp(-eta)));
const onShares = <Answer extends Limits & { readonly estimate: number | null }>(answer: Answer) => ({
  estimate: expit(answer.estimate),
  lower: expit(answer.lower),
  upper: expit(answer.upper),
});

const ways: Readonly<Record<string, RandomEffectsOptions>> = {
  "restricted likelihood, never narrower": {},
  "Paule and Mandel, never narrower": { spread: "paule-mandel" },
  "restricted likelihood, plain Hartung and Knapp": { interval: "hartung-knapp" },
  "restricted likelihood, normal": { interval: "normal" },
  "DerSimonian and Laird, normal": { spread: "dersimonian-laird", interval: "normal" },
};

interface Further {
  readonly share: number;
  readonly difference: number;
}

const columnsOf = (points: readonly (Point | null)[]): SiteShares => ({
  events: points.map((point) => (point === null ? null : point.returned * sizedShare(point).size)),
  sizes: points.map((point) => (point === null ? null : sizedShare(point).size)),
});

function ofShares(
  points: readonly (Point | null)[],
  { truth, further }: { truth: Truth; further: Further },
): Finding[] {
  const columns = columnsOf(points);
  const counted = pooledShare(columns);
  const odds = logOddsOfShares(columns);
  // where the counts give no interval, the log odds do
  const printed = counted.lower === null ? onShares(randomEffects(odds)) : counted;
  const ofCounts = furtherSiteShare(columns);
  const next = ofCounts.lower === null ? onShares({ ...furtherSite(odds), estimate: null }) : ofCounts;
  return [
    finding("share: counts, restricted likelihood", truth.share, printed),
    finding(
      "share, instead: counts, likelihood",
      truth.share,
      pooledShare(columns, { spread: "likelihood" }),
    ),
    ...Object.entries(ways).map(([name, options]) =>
      finding(
        `share, instead: log odds with a half, ${name}`,
        truth.share,
        onShares(randomEffects(odds, options)),
      ),
    ),
    finding("share, instead: log odds with a half, common effect", truth.share, onShares(commonEffect(odds))),
    finding("share at a further site", further.share, { ...next, estimate: printed.estimate }),
    finding("share at a further site, instead: counts, k - 2 degrees of freedom", further.share, {
      ...counted.prediction,
      estimate: counted.estimate,
    }),
    ...([1, 2] as const).map((less) => {
      const found = randomEffects(odds, { predictionDfLess: less });
      const name = `share at a further site, instead: log odds with a half, k - ${less} degrees of freedom`;
      return finding(name, further.share, onShares({ ...found.prediction, estimate: found.estimate }));
    }),
  ];
}

const squared = (error: number | null): number | null => (error === null ? null : error * error);

function ofDifferences(
  pairs: readonly (readonly [Point | null, Point | null])[],
  { truth, further }: { truth: Truth; further: Further },
): Finding[] {
  const both = (of: (a: Point, b: Point) => number | null) =>
    pairs.map(([a, b]) => (a === null || b === null ? null : of(a, b)));
  const estimates = both((a, b) => a.returned - b.returned);
  const own: SiteEstimates = {
    estimates,
    variances: both((a, b) => squared(Math.hypot(a.standardError ?? 0, b.standardError ?? 0))),
  };
  const drawn = differencesOfShares({
    a: columnsOf(pairs.map(([a]) => a)),
    b: columnsOf(pairs.map(([, b]) => b)),
  });
  const pooled = (columns: SiteEstimates, options: RandomEffectsOptions) => randomEffects(columns, options);
  return [
    ...Object.entries(ways).map(([name, options], i) =>
      finding(`difference${i === 0 ? "" : ", instead"}: ${name}`, truth.difference, pooled(drawn, options)),
    ),
    finding("difference, instead: common effect", truth.difference, commonEffect(drawn)),
    finding("difference, instead: each site's own error", truth.difference, pooled(own, {})),
    finding("difference at a further site", further.difference, {
      ...furtherSite(drawn),
      estimate: pooled(drawn, {}).estimate,
    }),
    ...([2, 1] as const).map((less) => {
      const found = pooled(drawn, { predictionDfLess: less });
      const name = `difference at a further site, instead: k - ${less} degrees of freedom`;
      return finding(name, further.difference, { ...found.prediction, estimate: found.estimate });
    }),
  ];
}

/** All rows as if they were of one site. */
function joined(sites: readonly DrawnSite[], truth: Truth): Finding[] {
  const injuries = sites.flatMap((one) => one.injuries);
  const [a, b] = [pointOf(injuries, true), pointOf(injuries, false)];
  if (a === null || b === null) return [];
  return [
    finding("share: rows joined as of one site", truth.share, shareInterval(a)),
    finding("difference: rows joined as of one site", truth.difference, shareDifference(a, b)),
  ];
}

function ofSites(
  sites: readonly DrawnSite[],
  pairs: readonly (readonly [Point | null, Point | null])[],
): Finding[] {
  return sites.flatMap(({ site }, i) => {
    const [a, b] = pairs[i]!;
    return [
      ...(a === null ? [] : [finding("share: each site's own", trueShare(site, true), shareInterval(a))]),
      ...(a === null || b === null
        ? []
        : [finding("difference: each site's own", trueDifference(site), shareDifference(a, b))]),
    ];
  });
}

/** One consortium drawn, answered in every way, and held against what is true of it. */
export function replicate(
  { kind, count, stream }: { readonly kind: Kind; readonly count: number; readonly stream: number },
  truth: Truth,
): readonly Finding[] {
  const generator = seededGenerator(20_261_128, stream);
  const sites = drawConsortium({ kind, count }, generator);
  const next = drawSite({ kind, place: generator.integer(3) }, generator);
  const further = { share: trueShare(next, true), difference: trueDifference(next) };
  const pairs = sites.map(({ injuries }) => [pointOf(injuries, true), pointOf(injuries, false)] as const);
  const about = { truth, further };
  return [
    ...ofShares(
      pairs.map(([ring]) => ring),
      about,
    ),
    ...ofDifferences(pairs, about),
    ...joined(sites, truth),
    ...ofSites(sites, pairs),
  ];
}
