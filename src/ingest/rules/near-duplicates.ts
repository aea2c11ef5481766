import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import { dayNumber } from "../../schema/dates.js";
import type { ImagingRow } from "../../schema/imaging.js";
import { nearest } from "../../schema/near.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, type LinkRule } from "./link-rule.js";
import { byInjuryDate, type Injury, personNamer } from "./persons.js";
import { groupsSharingKey } from "./shared-keys.js";

/** Letters of other alphabets that look like these, in their order. */
const lookAlikes = [..."АВСЕНКМОРТХаеорсхАΒΕΗΙΚΜΝΟΡΤΧ"];
const latin = [..."ABCEHKMOPTXaeopcxABEHIKMNOPTX"];
const latinOf = new Map(lookAlikes.map((letter, i) => [letter, latin[i]!]));

/** An id as a person hears it: no case, spaces, hyphens or leading zeros, look-alike letters as their likes. */
export function comparableId(id: string): string {
  // most ids have no letter that could look like another
  const plain = /[^\x20-\x7e]/.test(id) ? withLatinLetters(id) : id;
  return plain
    .toLowerCase()
    .replaceAll(/[\s\p{Default_Ignorable_Code_Point}._/-]+/gu, "")
    .replaceAll(/(^|\D)0+(?=\d)/g, "$1");
}

const withLatinLetters = (id: string): string =>
  [...id]
    .map((letter) => latinOf.get(letter) ?? letter)
    .join("")
    .normalize("NFKC");

/** Ids of a site, or of all where these share them, that differ in their writing only: one person under two spellings? */
export const personIdsAlike: LinkRule = function* ({ tables }) {
  const siteOf = ({ site_id }: Injury["values"]) => (tables.personIds === "shared" ? "" : (site_id ?? ""));
  const heard = ({ values }: Injury) => `${siteOf(values)}\n${comparableId(values.person_id)}`;
  const personOf = personNamer(tables.personIds);
  for (const alike of groupsSharingKey(tables.injuries, heard)) {
    const [first, ...others] = [...byKey(alike, personOf).values()].map(([firstRow]) => firstRow!);
    for (const row of others) {
      yield askAbout(row, {
        code: "person-ids-alike",
        severity: "look-at",
        column: "person_id",
        found: row.values.person_id,
        facts: { other: first!.values.person_id, other_row: first!.row },
      });
    }
  }
};

/** Injuries of two persons are compared within so many days (our choice). */
const nearDays = 14;

/**
 * Injuries of two persons that agree in site, hand, finger, grade, sex and year of birth, where the ids differ by one
 * slip of the keyboard and the days lie within 14 of each other, or where the days are the same with day and month
 * swapped. The same day under any two ids is what `possible-same-person` asks about.
 */
export const nearDuplicates: LinkRule = function* ({ tables }, { calendar }) {
  if (calendar === "per_person") return;
  const known = tables.injuries.filter(
    ({ values }) => values.sex !== null && values.age_at_injury !== null && values.finger !== "not_stated",
  );
  const alike = ({ values: { site_id, hand, finger, grade, sex } }: Injury) =>
    `${site_id ?? ""}\n${hand}\n${finger}\n${grade}\n${sex}`;
  const passedOver: Injury[] = [];
  for (const group of byKey(known, alike).values()) {
    if (group.length < 2) continue;
    yield* withinDays(byInjuryDate(group), passedOver);
    yield* withSwappedDays(group, passedOver);
  }
  if (passedOver[0] === undefined) return;
  yield askAboutColumn(passedOver[0], {
    code: "near-duplicates-not-all-compared",
    column: "person_id",
    found: String(passedOver.length),
    facts: { most: mostCompared },
  });
};

/** A row is compared with so many others at most: more are alike only where the columns say the same everywhere. */
const mostCompared = 200;

function* withinDays(rows: readonly Injury[], passedOver: Injury[]) {
  const days = rows.map(({ values }) => dayNumber(values.injury_date));
  const heard = rows.map(({ values }) => comparableId(values.person_id));
  const earlier = placesByYear();
  let sameDay: number[] = [];
  for (const [place, row] of rows.entries()) {
    if (sameDay[0] !== undefined && days[sameDay[0]] !== days[place]) {
      for (const other of sameDay) earlier.add(birthYear(rows[other]!.values), other);
      sameDay = [];
    }
    sameDay.push(place);
    const from = days[place]! - nearDays;
    const near = earlier.latest(birthYear(row.values), (other) => days[other]! >= from);
    if (near.length > mostCompared) passedOver.push(row);
    for (const before of near.slice(0, mostCompared)) {
      const other = rows[before]!;
      if (!mayBeOne(row, other)) continue;
      if (heard[place] !== heard[before] && !isOneSlip(row.values.person_id, other.values.person_id))
        continue;
      yield askAboutTwo(
        row,
        other,
        "the ids differ by one typing error and the injuries are within 14 days of each other",
      );
    }
  }
}

/** Places in ascending order by the year of birth of whoever stands there. */
function placesByYear() {
  const years = new Map<number, number[]>();
  return {
    add: (year: number, place: number): void => {
      const places = years.get(Math.floor(year));
      if (places === undefined) years.set(Math.floor(year), [place]);
      else places.push(place);
    },
    /** Places of that year and its neighbours, the last first, as long as they are near: one more than are compared. */
    latest: (year: number, isNear: (place: number) => boolean): readonly number[] => {
      const found: number[] = [];
      for (let near = Math.floor(year) - 1; near <= Math.floor(year) + 1; near++) {
        const places = years.get(near) ?? [];
        const first = Math.max(0, places.length - mostCompared - 1);
        for (let i = places.length - 1; i >= first && isNear(places[i]!); i--) found.push(places[i]!);
      }
      return found.sort((one, other) => other - one);
    },
  };
}

function* withSwappedDays(rows: readonly Injury[], passedOver: Injury[]) {
  const byDay = byKey(rows, ({ values }) => values.injury_date);
  for (const row of rows) {
    const { injury_date } = row.values;
    const [year, month, day] = [injury_date.slice(0, 4), injury_date.slice(5, 7), injury_date.slice(8)];
    if (day > "12") continue; // there is no such month
    const swapped = `${year}-${day}-${month}`;
    // each pair once: from its later day
    if (swapped >= row.values.injury_date) continue;
    const others = byDay.get(swapped) ?? [];
    if (others.length > mostCompared) passedOver.push(row);
    for (const other of others.slice(0, mostCompared)) {
      if (mayBeOne(row, other)) yield askAboutTwo(row, other, "the day and the month are swapped");
    }
  }
}

/** Two ids, and years of birth at most one apart. */
function mayBeOne({ values: one }: Injury, { values: other }: Injury): boolean {
  if (one.person_id === other.person_id) return false;
  return Math.abs(birthYear(one) - birthYear(other)) <= 1;
}

const birthYear = ({ injury_date, age_at_injury }: Injury["values"]): number =>
  Number(injury_date.slice(0, 4)) - (age_at_injury ?? Number.NaN);

/**
 * A letter or digit too many, too few or swapped, or a letter for another. A digit for another is none: persons are
 * numbered as they come, so that neighbours in time are neighbours in number.
 */
const isOneSlip = (one: string, other: string): boolean =>
  !areTwoNumbers(one, other) && nearest(one, [other]) !== null;

/** Ids of one length that differ in digits only, and not only in their order. */
function areTwoNumbers(one: string, other: string): boolean {
  if (one.length !== other.length) return false;
  let difference = 0;
  for (let i = 0; i < one.length; i++) {
    if (one[i] === other[i]) continue;
    if (!isDigit(one[i]) || !isDigit(other[i])) return false;
    difference += one.charCodeAt(i) - other.charCodeAt(i);
  }
  // nearly always: digits that are only in another order have the same sum
  return difference !== 0 || inOrder(one) !== inOrder(other);
}

const inOrder = (id: string): string => [...id].sort().join("");

const isDigit = (letter: string | undefined): boolean =>
  letter !== undefined && letter >= "0" && letter <= "9";

const askAboutTwo = (row: Injury, other: Injury, why: string) =>
  askAbout(row, {
    code: "near-duplicate-injury",
    severity: "look-at",
    column: "person_id",
    found: row.values.person_id,
    facts: { why, other: other.values.person_id, other_row: other.row },
  });

/** The same reading of a distance more than once, without numbers that would tell the readings apart. */
export const readingTwice: LinkRule = function* ({ linked }) {
  for (const { imaging } of linked) {
    if (imaging.length < 2) continue;
    for (const alike of byKey(imaging, sameReading).values()) {
      const [first] = alike;
      for (const row of alike.slice(1)) {
        yield askAbout(row, {
          code: "reading-twice",
          severity: "look-at",
          column: "reading",
          found: row.values.reading === null ? "" : row.values.reading,
          facts: { other_row: first!.row },
        });
      }
    }
  }
};

const sameReading = ({ values }: TypedRow<ImagingRow>): string => {
  const { date, modality, pulley, position, side, taped, warmed_up, rater, reading } = values;
  const { pip_angle_deg, dip_angle_deg } = values;
  const what = `${date}\n${modality}\n${pulley}\n${position}\n${side ?? "injured"}\n${taped ?? "no"}`;
  return `${what}\n${warmed_up}\n${rater ?? ""}\n${reading ?? ""}\n${pip_angle_deg}\n${dip_angle_deg}`;
};
