import { type Generator, normalLowerTail, seededGenerator } from "../../../src/statistics/index.js";

/** How sites differ, as standard deviations between them; and what their data do not tell as it is. SYNTHETIC. */
export interface Kind {
  readonly name: string;
  readonly about: string;
  /** Of the logarithm of the times. */
  readonly times: number;
  /** Logarithm of what all times are multiplied by. */
  readonly all: number;
  /** Of the logarithm of the ratio of times, ring to tape. */
  readonly effects: number;
  /** Severe injuries are from this share to that; their times are longer by two fifths. */
  readonly severe: readonly [number, number];
  /** At every third site a return means more, which takes a tenth longer. */
  readonly definitions: boolean;
  /** At every third site a return is dated at the next visit, three weeks apart. */
  readonly visits: boolean;
  /** Part of the injuries that are of the same person as the one before, whose injuries have half of the variance of their times in common. */
  readonly several: number;
}

const differing = { all: 0, severe: [0.2, 0.6], definitions: true, visits: false, several: 0 } as const;

export const kinds: readonly Kind[] = [
  {
    name: "sites alike",
    about: "All sites have one case mix, one definition and one truth.",
    times: 0,
    all: 0,
    effects: 0,
    severe: [0.4, 0.4],
    definitions: false,
    visits: false,
    several: 0,
  },
  {
    name: "sites differ",
    about: "Case mix and definitions differ, times by a tenth or so, the effect of the ring by a tenth.",
    times: 0.12,
    effects: 0.1,
    ...differing,
  },
  {
    name: "sites differ widely",
    about: "Case mix and definitions differ, times by a third, the effect of the ring by a fifth.",
    times: 0.3,
    effects: 0.2,
    ...differing,
  },
  {
    name: "schedules differ as well",
    about:
      "As where sites differ, and every third site dates a return at the next of its visits, three weeks apart.",
    times: 0.12,
    effects: 0.1,
    ...differing,
    visits: true,
  },
  {
    name: "nearly all are back",
    about:
      "As where sites differ widely, but all times are shorter by two fifths, so that at small sites everybody may be back.",
    times: 0.3,
    effects: 0.2,
    ...differing,
    all: Math.log(0.6),
  },
  {
    name: "people have several injuries",
    about:
      "As where sites differ, but half of the injuries are of the same person as the one before, with one treatment and with times that go together.",
    times: 0.12,
    effects: 0.1,
    ...differing,
    several: 0.5,
  },
];

/** One site as it is: what is true of it, and how it keeps its records. */
export interface Site {
  readonly times: number;
  readonly effect: number;
  readonly severe: number;
  /** Share of injuries treated with a ring: more of them where people return sooner, so that joined rows mislead. */
  readonly ringed: number;
  readonly visits: boolean;
}

export interface Injury {
  readonly person: number;
  readonly ring: boolean;
  readonly time: number;
  readonly back: 0 | 1;
}

const middle = Math.log(85);
const deviation = 0.45;
const landmark = 91;
const severity = Math.log(1.4);

/** @param place of the site among the others, which decides definition and schedule */
export function drawSite(
  { kind, place }: { readonly kind: Kind; readonly place: number },
  generator: Generator,
): Site {
  const own = kind.times * generator.normal();
  const [least, most] = kind.severe;
  const special = place % 3 === 2;
  return {
    times: kind.all + own + (kind.definitions && special ? Math.log(1.1) : 0),
    effect: Math.log(0.85) + kind.effects * generator.normal(),
    severe: least + (most - least) * generator.uniform(),
    ringed: 1 / (1 + Math.exp(4 * own)),
    visits: kind.visits && special,
  };
}

/** The true share back by the landmark at a site, of those with or without a ring. */
export function trueShare({ times, effect, severe }: Site, ring: boolean): number {
  const backBy = (isSevere: boolean) => {
    const mean = middle + times + (ring ? effect : 0) + (isSevere ? severity : 0);
    return normalLowerTail((Math.log(landmark) - mean) / deviation);
  };
  return severe * backBy(true) + (1 - severe) * backBy(false);
}

export const trueDifference = (site: Site): number => trueShare(site, true) - trueShare(site, false);

const logit = (p: number): number => Math.log(p / (1 - p));

/** What the pooled answers of a kind of consortium speak of: the share of the middle of the log odds, the mean difference. */
export interface Truth {
  readonly share: number;
  readonly difference: number;
}

const many = 60_000;

export function truthOf(kind: Kind): Truth {
  const generator = seededGenerator(99, 1);
  let [odds, difference] = [0, 0];
  for (let place = 0; place < many; place++) {
    const site = drawSite({ kind, place }, generator);
    odds += logit(trueShare(site, true));
    difference += trueDifference(site);
  }
  return { share: 1 / (1 + Math.exp(-odds / many)), difference: difference / many };
}

interface Person {
  readonly person: number;
  readonly ring: boolean;
  /** Standard normal: what their times have in common. */
  readonly own: number;
}

/** The person of the injury before, or the next one. */
function personAt(
  before: Person | null,
  { site, several, generator }: { site: Site; several: number; generator: Generator },
): Person {
  if (before !== null && several > 0 && generator.uniform() < several) return before;
  const ring = generator.uniform() < site.ringed;
  return { person: (before?.person ?? -1) + 1, ring, own: several > 0 ? generator.normal() : 0 };
}

function injuryOf({ person, ring, own }: Person, site: Site, generator: Generator): Injury {
  const isSevere = generator.uniform() < site.severe;
  const mean = middle + site.times + (ring ? site.effect : 0) + (isSevere ? severity : 0);
  const common = own === 0 ? 0 : Math.SQRT1_2;
  const deviate = common * own + Math.sqrt(1 - common * common) * generator.normal();
  const really = Math.max(1, Math.round(Math.exp(mean + deviation * deviate)));
  const written = site.visits ? 21 * Math.ceil(really / 21) : really;
  // one in six is lost early on, the others are followed for three to twelve months
  const followed = Math.round(
    generator.uniform() < 1 / 6 ? 20 + 70 * generator.uniform() : 95 + 270 * generator.uniform(),
  );
  return written <= followed
    ? { person, ring, time: written, back: 1 }
    : { person, ring, time: followed, back: 0 };
}

function injuriesAt(
  site: Site,
  { size, several }: { size: number; several: number },
  generator: Generator,
): readonly Injury[] {
  let person: Person | null = null;
  return Array.from({ length: size }, () => {
    person = personAt(person, { site, several, generator });
    return injuryOf(person, site, generator);
  });
}

/** From six injuries at the smallest site to four hundred at the largest. */
export const sizesOf = (count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => Math.round(6 * (400 / 6) ** (i / (count - 1))));

export interface DrawnSite {
  readonly site: Site;
  readonly injuries: readonly Injury[];
}

export function drawConsortium(
  { kind, count }: { readonly kind: Kind; readonly count: number },
  generator: Generator,
): readonly DrawnSite[] {
  // the largest site is not always the one of the other definition
  const turn = generator.integer(3);
  return sizesOf(count).map((size, i) => {
    const site = drawSite({ kind, place: i + turn }, generator);
    return { site, injuries: injuriesAt(site, { size, several: kind.several }, generator) };
  });
}
