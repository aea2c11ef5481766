import { from1904, serialDay } from "../../../schema/cells/serial-day.js";
/**
 * The value of a cell as text: a day `YYYY-MM-DD`, with `THH:MM` where it has a time; a number with a decimal point,
 * to the 15 digits that spreadsheets show; `TRUE` and `FALSE`.
 */
export function cellText(value, epochs) {
    if (value === null)
        return "";
    if (typeof value === "string")
        return value;
    if (typeof value === "boolean")
        return value ? "TRUE" : "FALSE";
    return value instanceof Date ? dateText(value, epochs) : numberText(value.raw);
}
/** Digits that a spreadsheet keeps of a number; what is beyond is an artefact of the binary form. */
const digitsShown = 15;
/** 3.4000000000000004 is shown as 3.4. */
export function numberText(raw) {
    const number = Number(raw);
    if (raw.trim() === "" || !Number.isFinite(number))
        return raw;
    const text = String(Number(number.toPrecision(digitsShown)));
    return text.includes("e-") ? number.toFixed(20).replace(/0+$/, "") : text;
}
const millisecondsPerDay = 86_400_000;
/** Serial number, in the numbering from 1900, of 1970-01-01. */
const serialOf1970 = 25_569;
const minutesPerDay = 1_440;
/** The reader counts days of both numberings from 1899-12-30, without regard to the day that never was. */
function dateText(date, { epoch, epochOfReader }) {
    const from1900 = date.getTime() / millisecondsPerDay + serialOf1970;
    const serial = epochOfReader === 1904 ? from1900 - from1904 : from1900;
    const minutes = Math.round(serial * minutesPerDay);
    const day = serialDay(minutes / minutesPerDay, epoch);
    const time = minutes % minutesPerDay;
    if (day === null)
        return numberText(String(serial));
    if (time === 0)
        return day;
    const clock = `${twoDigits(Math.floor(time / 60))}:${twoDigits(time % 60)}`;
    return serial < 1 && epoch === 1900 ? clock : `${day}T${clock}`;
}
const twoDigits = (number) => String(number).padStart(2, "0");
