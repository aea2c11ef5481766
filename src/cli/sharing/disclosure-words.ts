import type { DatesLeave, Disclosure } from "../../privacy/index.js";
import { counted } from "../../words/phrases.js";

/** One half-sentence on the dates, after "ids are replaced ...;". */
export const datesProtect: Readonly<Record<DatesLeave, string>> = {
  offsets: "dates are days on a calendar of each person's own.",
  shifted: "dates are moved by a secret number of days for each person.",
  "as-they-are": "dates are the real ones, as was asked.",
};

/** What no copy can hold by itself. */
const aboutSeveralCopies: readonly string[] = [
  "Copies of the same people under several keys, laid side by side, narrow the days on which an injury can have happened, since each key ends a record on another day. Copies with one key and several windows or ranges of days do not. A copy made long after another tells more of those who were still followed in the first.",
  "Two copies with one key show who was added between them, and so about when: an injury appears once its record would not end before it, which blurs that by the window.",
];

/** What each way of writing dates takes away and what it leaves. */
export const datesKeep: Readonly<
  Record<DatesLeave, { readonly takes: string; readonly leaves: readonly string[] }>
> = {
  offsets: {
    takes:
      "Each person's first injury falls on 1 January 2000 and every other date of the person keeps its distance from it. Gone are day, season and year of everything, and which of two people was hurt first.",
    leaves: [
      "The days between the dates of one person are exact but for what is told above. Somebody who knows that a person was operated 23 days after the injury and came back on day 131 may find that row.",
      "A pattern of visits, such as every 28 days, shows how a site works. Where a site is open once a month, four weeks or five between visits tell which months they were, and so often the day; that is counted above, and leaving out the table of visits lessens it. Days of visits tell the weekday of an injury where a site is open on few weekdays; that is counted above. Public holidays and weeks in which the site is closed rule out some further days, more of them the more visits there are.",
      ...aboutSeveralCopies,
    ],
  },
  shifted: {
    takes:
      "All dates of a person are moved by one secret number of days, a different one for each person, so that no date is right.",
    leaves: [
      "The dates look real and are not: whoever takes one for real is misled. The year is near the true one, and with a small shift so is the season.",
      "The first and last dates of the whole copy tell roughly when the data were gathered.",
      "Days of visits tell the weekday of an injury where a site is open on few weekdays; that is counted above.",
      ...aboutSeveralCopies,
      "The days between the dates of one person are as exact as with offsets. Offsets tell less; choose this only where a program insists on dates that look real.",
    ],
  },
  "as-they-are": {
    takes: "Nothing: real dates leave, since that was asked for.",
    leaves: [
      "Days of injuries, visits and operations can be matched with diaries, posts and records. In many places such dates count as identifying in themselves (45 CFR 164.514(b)(2) is one such rule).",
    ],
  },
};

/** What is left in the copy that could point to a person. */
export function stillThere(disclosure: Disclosure): readonly string[] {
  const { people, people_with_several_injuries, settings } = disclosure;
  return [
    `Several injuries of one person carry one name, so that they can be put together: ${counted(people_with_several_injuries, "person has", "people have")} more than one, of ${people}. Together they are rarer than each row by itself.`,
    "Injury, treatments, distances and scores stand as they were. A rare course, a rare pulley or three operations can be known to others; climbers often tell their injuries in public.",
    "What is left out or made coarser for being rare was read back from all other columns together, and columns were left out until that gave no more than the commonest value does. Somebody with a better rule, or with knowledge of the patients, can do better.",
    "Levels of climbing are kept where they are levels of a scale. Few people climb the highest ones.",
    "Keyed names are the same in every copy made with the same key: copies can be laid side by side. A new key parts them.",
    settings.order === "by-name"
      ? "The rows are in the order of their keyed names, which tells nothing."
      : "The rows are in the order of the tables at the site, which may be the order in time.",
    "The title, the short name and the settings of the study file are copied as written: read them, they may name a place.",
    "That somebody is in the cohort at all says that they were hurt and treated at one of its sites.",
  ];
}

/** What people have to do before the copy leaves. */
export const beforeItLeaves: readonly string[] = [
  "k-anonymity is no guarantee. It counts the columns that were named and nothing else; it does not help against somebody who knows more, nor where all people of a class have the same outcome.",
  "Law, consent, the vote of an ethics committee and the rules of the site decide whether and to whom the copy may go. In many places it counts as personal data for as long as a key exists.",
  "Give it to named people for a stated purpose, under an agreement that forbids trying to recognise anybody and passing it on.",
  "Keep the key at the site, apart from the copy; make a new key for another recipient, so that two copies cannot be matched.",
  "Look through the files yourself, and have somebody else look who knows the climbers in question.",
  "This is a tool for looking, not legal advice.",
];
