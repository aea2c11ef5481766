import { askAbout } from "../../schema/ask.js";
import { byKey } from "./link-rule.js";
import { byInjuryDate, personKey } from "./persons.js";
const eventOf = ({ values }) => values.event_id ?? values.injury_date;
/** Both hands hurt in one moment, or on one day where the moments have no names. */
export const eventBothHands = function* ({ tables }) {
    const oneEvent = byKey(tables.injuries, (row) => `${personKey(row)}\n${eventOf(row)}`);
    for (const group of oneEvent.values()) {
        if (group.length < 2)
            continue;
        const [first, ...others] = [...group].sort((one, other) => one.row - other.row);
        const clash = others.find(({ values }) => areTwoHands(values.hand, first.values.hand));
        if (clash === undefined)
            continue;
        yield askAbout(clash, {
            code: "event-both-hands",
            severity: "look-at",
            column: "hand",
            found: clash.values.hand,
            facts: { other: first.values.hand, other_row: first.row },
        });
    }
};
const areTwoHands = (one, other) => one !== other && one !== "not_stated" && other !== "not_stated";
/** 'No' to an earlier injury of the finger, or of its like on the other hand, that another row tells of. */
export const earlierInjuryContradicts = function* ({ tables }) {
    const sameFingers = byKey(tables.injuries, (row) => `${personKey(row)}\n${row.values.finger}`);
    for (const group of sameFingers.values()) {
        if (group.length < 2 || group[0].values.finger === "not_stated")
            continue;
        const sorted = byInjuryDate(group);
        for (const [place, row] of sorted.entries()) {
            const earlier = sorted
                .slice(0, place)
                .filter(({ values }) => values.injury_date < row.values.injury_date);
            const same = earlier.find(({ values }) => values.hand === row.values.hand);
            const opposite = earlier.find(({ values }) => areTwoHands(values.hand, row.values.hand));
            const denied = [
                ["prior_injury_same_finger", same],
                ["other_side_ever_injured", opposite],
            ];
            for (const [column, other] of denied) {
                if (row.values[column] !== "no" || other === undefined)
                    continue;
                yield askAbout(row, {
                    code: "earlier-injury-contradicts",
                    severity: "look-at",
                    column,
                    found: "no",
                    facts: { other_row: other.row },
                });
            }
        }
    }
};
/** The other side measured for comparison, although that finger is or was injured as well. */
export const comparisonSideInjured = function* ({ tables, linked }) {
    const fingers = byKey(tables.injuries, (row) => `${personKey(row)}\n${row.values.finger}`);
    for (const { injury, imaging } of linked) {
        const compared = imaging.find(({ values }) => values.side === "other");
        if (compared === undefined)
            continue;
        const known = fingers.get(`${personKey(injury)}\n${injury.values.finger}`) ?? [];
        const hurt = known.find(({ values }) => areTwoHands(values.hand, injury.values.hand) && values.injury_date <= compared.values.date);
        if (hurt === undefined && injury.values.other_side_ever_injured !== "yes")
            continue;
        yield askAbout(compared, {
            code: "comparison-side-injured",
            severity: "look-at",
            column: "side",
            found: "other",
            facts: { injury_row: (hurt ?? injury).row },
        });
    }
};
/** Every reading is of the other side: were the sides swapped? */
export const onlyOtherSideImaged = function* ({ linked }) {
    for (const { imaging } of linked) {
        const [first] = imaging;
        if (first === undefined || imaging.some(({ values }) => values.side !== "other"))
            continue;
        yield askAbout(first, {
            code: "only-other-side-imaged",
            severity: "look-at",
            column: "side",
            found: "other",
        });
    }
};
/** What a note calls the left or the right hand, in three languages; 'right' alone is no side. */
const thing = "(?:hand|side|finger|index|middle|ring|little|seite|zeige|mittel|klein)";
const sides = {
    left: new RegExp(`\\bleft ${thing}|\\blinke[mnrs]? ${thing}|\\blinks\\b|\\bmain gauche\\b`, "i"),
    right: new RegExp(`\\bright ${thing}|\\brechte[mnrs]? ${thing}|\\brechts\\b|\\bmain droite\\b`, "i"),
};
/** A note about an injury, a scan or a visit that names the other hand only. */
export const noteNamesOtherHand = function* ({ linked }) {
    for (const each of linked) {
        const { hand } = each.injury.values;
        if (hand === "not_stated")
            continue;
        const other = hand === "left" ? "right" : "left";
        for (const { row, column, note } of notesOf(each)) {
            const named = note === null ? null : sides[other].exec(note);
            if (note === null || named === null || sides[hand].test(note))
                continue;
            yield askAbout(row, {
                code: "note-names-other-hand",
                severity: "look-at",
                column,
                found: named[0],
                facts: { hand, injury_row: each.injury.row },
            });
        }
    }
};
function notesOf({ injury, imaging, visits }) {
    return [
        { row: injury, column: "notes", note: injury.values.notes },
        ...imaging.map((row) => ({ row, column: "comment", note: row.values.comment })),
        ...visits.map((row) => ({ row, column: "note", note: row.values.note })),
    ];
}
