import { dateOfDay } from "../dates.js";
/** Number of 1904-01-01 in the numbering from 1900. */
export const from1904 = 1_462;
/** Numbers up to 59 count from 1899-12-31, later ones from 1899-12-30: a day that never was lies between. */
const neverWas = 60;
const dayNumberOfZero = -25_569;
/** 9999-12-31, beyond which spreadsheets know no days. */
const lastSerial = 2_958_465;
/**
 * The calendar day of a spreadsheet's day number, its fraction (the time of day) left out.
 *
 * Numbering from 1900: 1 is 1900-01-01, and 60 is `1900-02-29`, a day that never was but is counted and shown, so that
 * every later number is one too high. Number 0 is shown as `1900-01-00`. Both are handed on as shown, since no day of
 * the calendar would be right. Numbering from 1904: 0 is 1904-01-01. Null below 0 and beyond the year 9999.
 *
 * @source ECMA-376-1:2016, 18.17.4.1 (date systems, with the leap year bug of the first)
 * @example
 * serialDay(45355, 1900) // => "2024-03-04"
 */
export function serialDay(serial, epoch) {
    const whole = Math.floor(serial);
    const from1900 = epoch === 1904 ? whole + from1904 : whole;
    if (!(whole >= 0) || from1900 > lastSerial)
        return null;
    if (epoch === 1900 && whole === 0)
        return "1900-01-00";
    if (epoch === 1900 && whole === neverWas)
        return "1900-02-29";
    return dateOfDay(from1900 + dayNumberOfZero + (from1900 < neverWas ? 1 : 0));
}
