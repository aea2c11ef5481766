import { attributeOf, saysYes, tagsOf } from "./xml-tags.js";
const holdsValue = /<(?:[\w-]+:)?(?:v|is|f)[\s>/]/;
/**
 * The sheets that a workbook lists.
 *
 * @source ECMA-376-1:2016, 18.2.19 (sheet), 18.2.28 (date1904); relationships: ECMA-376-2
 */
export function sheetList(parts) {
    const paths = pathsOfSheets(parts.get("xl/_rels/workbook.xml.rels") ?? "");
    const sheets = [];
    let written = null;
    for (const tag of tagsOf(parts.get("xl/workbook.xml") ?? "")) {
        if (tag.kind === "close")
            continue;
        if (tag.name === "workbookPr")
            written ??= attributeOf(tag, "date1904") ?? "0";
        if (tag.name !== "sheet")
            continue;
        const name = attributeOf(tag, "name") ?? "";
        if (name === "")
            continue;
        const xml = parts.get(paths.get(attributeOf(tag, "id") ?? "") ?? "") ?? null;
        const isHidden = (attributeOf(tag, "state") ?? "visible") !== "visible";
        const isEmpty = xml === null || !holdsValue.test(xml);
        sheets.push({ name, place: sheets.length + 1, isHidden, xml, isEmpty });
    }
    return {
        sheets,
        dateEpoch: saysYes(written) ? 1904 : 1900,
        epochOfReader: written === "1" ? 1904 : 1900,
    };
}
function pathsOfSheets(relations) {
    const paths = new Map();
    for (const tag of tagsOf(relations)) {
        if (tag.name !== "Relationship" || !(attributeOf(tag, "Type") ?? "").endsWith("/worksheet"))
            continue;
        const target = attributeOf(tag, "Target") ?? "";
        paths.set(attributeOf(tag, "Id") ?? "", target.startsWith("/") ? target.slice(1) : `xl/${target}`);
    }
    return paths;
}
