import { counted } from "../schema/counted.js";
import type { Results } from "../study/results.js";
import { listed } from "./phrases.js";

type Sealed = NonNullable<Results["sealed"]>;

const changedKeys = ({ changed }: Sealed): string =>
  `${counted(changed.length, "key", "keys")} of the study file (${listed(changed.map(({ key }) => key))})`;

const isOrAre = ({ changed }: Sealed): string => (changed.length === 1 ? "is" : "are");

/** In the answer, where something else is asked than was sealed; nothing where the same is asked. */
export const changedAfterSealing = ({ sealed }: Pick<Results, "sealed">): readonly string[] =>
  sealed === null || sealed.changed.length === 0
    ? []
    : [
        `What is asked is not what was sealed on ${sealed.on}: ${changedKeys(sealed)} ${isOrAre(sealed)} different, so that what hangs on ${sealed.changed.length === 1 ? "it" : "them"} was chosen afterwards.`,
      ];

/** What a sealed plan says of this run, and what it cannot show. */
export function sealedWords(sealed: Sealed): string {
  const same =
    sealed.changed.length === 0
      ? "What is asked is the same now, key by key"
      : `Of what is asked, ${changedKeys(sealed)} ${isOrAre(sealed)} not as sealed; everything else is the same, key by key`;
  return `The study file names a plan that was sealed on ${sealed.on}, by the day that was stated then. ${same}. Not sealed are the title, the files, the day on which the data were closed and how the files are read. That the file existed on that day, only whoever received it then can show.`;
}

/** That a plan was sealed, in a cell of the reporting checklist; null where none was. */
export const sealedInShort = ({ sealed }: Pick<Results, "sealed">): string | null =>
  sealed === null
    ? null
    : sealed.changed.length === 0
      ? `sealed on ${sealed.on}, unchanged`
      : `sealed on ${sealed.on}, ${counted(sealed.changed.length, "key", "keys")} changed since`;
