import type { DatesLeave, Disclosure } from "../../privacy/index.js";
import { counted } from "../../schema/counted.js";

/** One half-sentence on the dates, after "ids are replaced ...;". */
export const datesProtect: Readonly<Record<DatesLeave, string>> = {
  offsets: "dates are replaced by dates on a separate calendar for each person.",
  shifted: "dates are shifted by a secret number of days for each person.",
  "as-they-are": "dates are the real ones, as requested.",
};

/** What no copy can hold by itself. */
const aboutSeveralCopies: readonly string[] = [
  "Copies of the same people made with different keys narrow down the possible days of an injury when they are compared, because each key ends a record on another day. Copies made with one key and different windows or ranges of days do not. A copy made long after another discloses more about people who were still followed in the first.",
  "Two copies made with one key show who was added between them, and so roughly when. An injury appears as soon as its record no longer ends before it, which blurs that time by the length of the window.",
];

/** What each way of writing dates takes away and what it leaves. */
export const datesKeep: Readonly<
  Record<DatesLeave, { readonly takes: string; readonly leaves: readonly string[] }>
> = {
  offsets: {
    takes:
      "Each person's first injury is on 1 January 2000, and every other date of the person keeps its distance from it. The day, season and year of every event are removed, and also which of two people was injured first.",
    leaves: [
      "The number of days between the dates of one person is exact, except as described above. Somebody who knows that a person had surgery 23 days after the injury and returned on day 131 may find that row.",
      "A pattern of visits, such as every 28 days, shows how a site works. If a site is open once a month, intervals of four or five weeks between visits reveal the months, and so often the day; this is counted above, and leaving out the table of visits reduces it. The days of visits reveal the weekday of an injury if a site is open on few weekdays; this is counted above. Public holidays and weeks in which the site is closed rule out further days; the more visits there are, the more days they rule out.",
      ...aboutSeveralCopies,
    ],
  },
  shifted: {
    takes:
      "All dates of a person are shifted by the same secret number of days, which differs from person to person, so that no date is the real one.",
    leaves: [
      "The dates look real but are not, and can mislead a reader. The year is close to the real one, and so is the season if the shift is small.",
      "The first and last dates of the whole copy show roughly when the data were collected.",
      "The days of visits reveal the weekday of an injury if a site is open on few weekdays; this is counted above.",
      ...aboutSeveralCopies,
      "The number of days between the dates of one person is as exact as with offsets. Offsets disclose less: choose shifted dates only if a program needs dates that look real.",
    ],
  },
  "as-they-are": {
    takes: "Nothing: the real dates leave the site, as requested.",
    leaves: [
      "The days of injuries, visits and operations can be matched with diaries, posts and records. In many places such dates count as identifying by themselves (45 CFR 164.514(b)(2) is one such rule).",
    ],
  },
};

/** What is left in the copy that could point to a person. */
export function stillIdentifying(disclosure: Disclosure): readonly string[] {
  const { people, people_with_several_injuries, settings } = disclosure;
  return [
    `Several injuries of one person have the same name, so that they can be linked: ${counted(people_with_several_injuries, "person has", "people have")} more than one injury, out of ${people}. Together they are rarer than each row by itself.`,
    "The injury, treatments, distances and scores are unchanged. A rare course, a rare pulley or three operations may be known to others; climbers often talk about their injuries in public.",
    "For rare values that were left out or made coarser, the toolkit tried to predict them from all other columns together, and left out columns until the prediction was no better than naming the most common value. Somebody with a better method, or with knowledge of the patients, can do better.",
    "Climbing levels are kept if they are levels of a scale. Few people climb the highest levels.",
    "Keyed names are the same in every copy made with the same key, so that copies can be linked. A new key prevents that.",
    settings.order === "by-name"
      ? "The rows are in the order of their keyed names, which discloses nothing."
      : "The rows are in the order of the tables at the site, which may be their order in time.",
    "The title, the short name and the settings of the study file are copied as written. Read them: they may name a place.",
    "The mere presence of somebody in the cohort discloses that they were injured and treated at one of its sites.",
  ];
}

/** What people have to do before the copy leaves. */
export const beforeItLeaves: readonly string[] = [
  "k-anonymity is no guarantee. It takes into account only the columns that were named. It gives no protection against somebody who knows more, or when all people of a class have the same outcome.",
  "Law, consent, the decision of an ethics committee and the rules of the site determine whether, and to whom, the copy may be given. In many places it counts as personal data for as long as a key exists.",
  "Give it to named people for a stated purpose, under an agreement that forbids trying to recognise anybody and passing it on.",
  "Keep the key at the site, in a different place from the copy. Make a new key for each recipient, so that two copies cannot be linked.",
  "Read through the files yourself, and ask somebody who knows the climbers in question to do the same.",
  "This page helps you to check the copy. It is not legal advice.",
];
