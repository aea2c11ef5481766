/** A number, with a bound or a short unit: `2.4`, `>2`, `2,4 mm`, `12 %`. */
const numberLike = /^[<>~≈±]?=?\s*[+-]?\d[\d.,' ]*\s*(?:[\p{L}%°µ]{1,3}\.?)?$/u;
/** Three figures with separators, or a day and a month in letters before a year. */
const dateLike = /^(?:\d{1,4}[-./]\s?\d{1,2}[-./]\s?\d{1,4}|\d{1,2}\.?[ -]?\p{L}{3,10}\.?[ -]?\d{2,4})(?:[T ]\d{1,2}:\d{2}.*)?$/u;
/** Whether a cell looks like a value and not like the name of a column. */
export const looksLikeValue = (cell) => numberLike.test(cell) || dateLike.test(cell);
/** Whether a cell looks like a date. */
export const looksLikeDay = (cell) => dateLike.test(cell);
const longestLabel = 80;
/** Whether a cell may be the name of a column. */
export const looksLikeLabel = (cell) => cell.length <= longestLabel && !looksLikeValue(cell) && /[\p{L}#?%]/u.test(cell);
const unit = new RegExp(String.raw `^[(\[]?\s*(?:mm|cm|m|kg|g|lbs?|in|inch(?:es)?|°|deg|degrees?|grad|%|percent|nrs|vas` +
    `|y|yrs?|years?|a|ans?|jahre?|años|anni|months?|mo|weeks?|wks?|wo|days?|d|tage|h|hours?|std` +
    String.raw `|[dmytja]{1,4}[-./][dmytja]{1,4}[-./][dmytja]{1,4}|date|datum|text|number|y(?:es)?\/n(?:o)?|j(?:a)?\/n(?:ein)?` +
    String.raw `|\d{1,3}\s?(?:-|–|to|\.\.)\s?\d{1,3}|l\/r|r\/l|m\/f|f\/m)\s*[)\]]?$`, "iu");
/** Whether a cell says in what unit or form a column is written. */
export const looksLikeUnit = (cell) => unit.test(cell);
const totals = new RegExp(`^(?:(?:grand |sub)?totals?|sums?|summe|gesamt|somme|suma|totale|totaal|mean|average|avg|mittelwert` +
    String.raw `|durchschnitt|moyenne|media|median|mediana|sd|s\.d\.|std\.?|st\.? ?dev\.?|standard deviation|count|anzahl` +
    String.raw `|n\s*=|min(?:imum)?|max(?:imum)?|range|%)(?=$|[\s:.=(,;])`, "iu");
/** Whether a row that begins with this cell sums up others. */
export const looksLikeTotal = (cell) => totals.test(cell);
const note = /^(?:[*†‡§•]|notes?\b|n\.?b\.?\b|legend\b|key\b|sources?\b|remarks?\b|comments?:|anmerkung|hinweis|legende|quelle|remarque|nota\b|nb\b)/iu;
/** Whether a cell that stands alone in its row is a note and not the beginning of a record. */
export const looksLikeNote = (cell) => note.test(cell) || cell.endsWith(":") || cell.split(/\s+/).length >= 3 || /\S\s*=\s*\S/.test(cell);
