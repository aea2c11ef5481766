import { fact, foundWith, plainly, quoted } from "./wording.js";
const consequence = "The rows are used as they stand.";
const rule = "a rule of thumb: common practice, no source";
/** So many of so many, of one rater where one is meant. */
const counted = (things) => (query) => {
    const whose = query.found === null || query.found === "" ? "" : `${quoted(query.found)}: `;
    return `${whose}${fact(query, "count")} of ${fact(query, "n")} ${things}`;
};
/** The words for doubts about the habits in which a column was filled. */
export const aboutHabits = {
    "rater-unit-doubtful": plainly("is a rater whose loaded distances are at most a fifth of, or at least five times, those of the others", "Check the unit: centimetres, or tenths of a millimetre?", {
        found: foundWith((query) => `median ${fact(query, "middle")} of ${fact(query, "n")} readings; others ${fact(query, "usual")}`),
        consequence,
    }),
    "distance-digits-preferred": plainly(`end in 0 or 5, which is more than the one in five of chance by three standard errors (${rule})`, "Look whether distances are rounded when they are read off; nothing to mend if the device reads so.", { found: counted("distances"), consequence }),
    "returns-heaped-on-weeks": plainly(`lie on the very day of week 6, 8, 12, 13 or 26, which is more than one in seven of those within three days of it, by three standard errors (${rule})`, "Look whether days were remembered as weeks; say so in the precision column.", { found: counted("returns near these weeks"), consequence }),
    "returns-heaped-on-weekday": plainly(`lie on one day of the week, which is more than one in seven by four standard errors (${rule})`, "Look whether the day of the visit was written instead of the day of the return.", {
        found: (query) => `${counted("returns")(query)} (${fact(query, "weekday")})`,
        consequence,
    }),
    "returns-heaped-in-month": plainly(`lie on the first or the fifteenth of a month, which is more than chance gives, by four standard errors (${rule})`, 'Look whether only the month was known; write "month" in the precision column.', { found: counted("returns"), consequence }),
    "distance-drifts": plainly(`has first loaded distances that lie elsewhere than in its other half-years, by four standard errors of medians and half a millimetre or more (${rule})`, "Look for a new device, rater, position or habit of referral.", {
        found: foundWith((query) => `median ${fact(query, "middle")} mm of ${fact(query, "n")}; otherwise ${fact(query, "usual")} mm of ${fact(query, "others_n")}`),
        consequence,
    }),
    "grade-share-drifts": plainly(`has one grade more or less often than its other half-years, by four standard errors and ten in a hundred or more (${rule})`, "Look for another way of grading, another grader or other referrals.", {
        found: foundWith((query) => `grade ${fact(query, "grade")}: ${fact(query, "here")} of ${fact(query, "n")}; otherwise ${fact(query, "usual")} of ${fact(query, "others_n")}`),
        consequence,
    }),
};
