/** What in a text may tell who somebody is. */
export const identifyingKinds = [
  "e-mail address",
  "web address",
  "account name",
  "telephone number",
  "date of birth",
  "calendar date",
  "record number",
  "long number",
  "name after a title",
  "name after a salutation",
  "name after a label",
  "postcode",
  "street address",
] as const;
export type IdentifyingKind = (typeof identifyingKinds)[number];

/** One way to write it. The whole match is the place; what stands before it and only leads to it is in a lookbehind. */
export interface IdentifyingPattern {
  readonly kind: IdentifyingKind;
  readonly pattern: RegExp;
  /** What every match has in it: a cheap look that spares most texts the pattern. */
  readonly needs: RegExp;
  /** A further look at what matched, where a pattern alone would find too much. */
  readonly holds?: (text: string) => boolean;
}

const digit = /\d/;
const capital = /\p{Lu}/u;
const atSign = /@/;
const webStart = /\/\/|www\./i;
/** What an e-mail address cannot be without. */
export const mailSign: RegExp = /@|[([]at[)\]]/i;

/** A word with a capital first letter, hyphens and apostrophes within: a name, or the start of one. */
const name = String.raw`\p{Lu}[\p{L}\p{M}'’-]{1,40}`;
const names = String.raw`${name}(?:[ \u00a0]${name}){0,3}`;
const dayMonthYear = String.raw`(?:\d{1,2}[./]\s?\d{1,2}[./]\s?(?:\d{4}|\d{2})|\d{1,2}[ -]\d{1,2}[ -]\d{4})(?!\d)`;
const anyDate = String.raw`(?:\d{4}-\d{1,2}-\d{1,2}|${dayMonthYear}|\d{1,2}\.?\s\p{L}{3,12}\.?\s\d{4})`;

const titles =
  "mr|mrs|ms|miss|mx|dr|prof|professor|herr|herrn|frau|hr|fr|monsieur|madame|mme|mlle|señor|señora|sr|sra|srta|don|doña|" +
  "signor|signore|signora|sig|dott|dott\\.ssa|dottor|dhr|mevr|mevrouw|meneer|hra|rva|pan|pani|pán|paní|kyrios|ing|sen[hñ]or|sen[hñ]ora";
const salutations =
  "dear|hi|hello|hallo|hey|liebe|lieber|sehr geehrte|sehr geehrter|guten tag|cher|chère|bonjour|caro|cara|gentile|ciao|" +
  "estimado|estimada|querido|querida|hola|prezado|prezada|olá|beste|geachte|kære|kjære|kära|hei|hej|drogi|droga|vážený|vážená|milý|milá";
const nameLabels =
  "patient|patientin|pat|name|nom|nombre|nome|naam|navn|namn|imię|jméno|called|named|signed|gez|unterschrift|surname|first name|nachname|vorname";
const birthWords =
  "dob|d\\.o\\.b\\.|born(?: on)?|birth(?:day|date)?|date of birth|geb|geb\\.|geboren(?: am)?|geburtsdatum|né le|née le|naissance|nato il|nata il|" +
  "data di nascita|nacid[oa](?: el)?|fecha de nacimiento|nascid[oa](?: em)?|geboortedatum|født|född|ur\\.|nar\\.";
const recordWords =
  "mrn|nhs|pat(?:ient)?(?:en)?|pid|case|file|record|chart|hospital|insurance|ahv|avs|svnr|ssn|fall|akte|fallnr|patnr|dossier|cartella|expediente|journal|cpr|bsn|pesel";

/** In the order of precedence: of two that overlap, the one that stands first here is told. */
export const identifyingPatterns: readonly IdentifyingPattern[] = [
  {
    kind: "e-mail address",
    needs: mailSign,
    pattern:
      /[\p{L}\p{N}._%+-]{1,64}\s?(?:@|\(at\)|\[at\])\s?[\p{L}\p{N}-]{1,63}(?:\.[\p{L}\p{N}-]{1,63}){1,4}/giu,
  },
  {
    kind: "web address",
    needs: webStart,
    pattern: /\b(?:https?:\/\/|www\.)[^\s<>"]{3,200}/giu,
  },
  {
    kind: "account name",
    needs: atSign,
    pattern: /(?<![\p{L}\p{N}@])@[\p{L}\p{N}_](?:[\p{L}\p{N}_.]{1,29})/gu,
  },
  {
    kind: "date of birth",
    needs: digit,
    pattern: new RegExp(
      String.raw`(?<![\p{L}\p{N}])(?:${birthWords})[ \u00a0]?[:.=]?[ \u00a0]?(?:${anyDate}|(?:19|20)\d{2})|(?<![\p{L}\p{N}])\*[ \u00a0]?${anyDate}`,
      "giu",
    ),
  },
  {
    kind: "calendar date",
    needs: digit,
    pattern: new RegExp(String.raw`(?<![\p{L}\p{N}/-]|\p{N}[.,])${anyDate}(?![\p{L}\p{N}])`, "gu"),
    holds: isDate,
  },
  {
    kind: "record number",
    needs: digit,
    pattern: new RegExp(
      String.raw`(?<![\p{L}\p{N}])(?:${recordWords})[ .-]{0,2}(?:no|nr|num|number|id|nummer|n°|#)?[.:#]?[ \u00a0]{0,2}(?=[A-Z0-9./-]{0,11}\d)[A-Z]{0,3}[0-9][A-Z0-9./-]{3,19}`,
      "giu",
    ),
  },
  {
    kind: "telephone number",
    needs: digit,
    pattern:
      /(?<![\p{L}\p{N}/-]|\p{N}[.,])(?:\+|00)?\(?\d{1,4}\)?(?:[ \u00a0./-]{0,2}\(?\d{2,5}\)?){2,5}(?![\p{L}\p{N}])/gu,
    holds: isTelephone,
  },
  {
    kind: "long number",
    needs: digit,
    pattern: /(?<!\d|\d[.,])\d{6,40}(?![.,]?\d)/gu,
  },
  {
    kind: "name after a title",
    needs: capital,
    pattern: new RegExp(
      String.raw`(?<![\p{L}\p{N}])(?:${bothCases(titles)})\.?[ \u00a0](?:(?:Dr|Prof|med)\.?[ \u00a0]){0,3}${names}`,
      "gu",
    ),
  },
  {
    kind: "name after a salutation",
    needs: capital,
    pattern: new RegExp(String.raw`(?<![\p{L}\p{N}])(?:${bothCases(salutations)}),?[ \u00a0]${names}`, "gu"),
  },
  {
    kind: "name after a label",
    needs: capital,
    pattern: new RegExp(
      String.raw`(?<![\p{L}\p{N}])(?:${bothCases(nameLabels)})\.?(?:[ \u00a0]?[:=][ \u00a0]?|[ \u00a0])${names}`,
      "gu",
    ),
  },
  {
    kind: "street address",
    needs: digit,
    pattern: new RegExp(
      String.raw`\p{Lu}[\p{L}-]{1,40}(?:straße|strasse|str\.|gasse|weg|allee|platz|straat|laan|gata|gatan|vej|vei)[ \u00a0]\d{1,4}[a-z]?(?![\p{L}\p{N}])` +
        String.raw`|(?<!\p{N})\d{1,4}[a-z]?,?[ \u00a0](?:${bothCases("rue|avenue|via|calle|rua")})[ \u00a0]\p{L}[\p{L}' -]{2,40}` +
        String.raw`|(?<![\p{L}\p{N}])(?:${bothCases("rue|via|calle|rua|ulica|ul\\.")})[ \u00a0]${names}[ \u00a0,]{1,2}\d{1,4}` +
        String.raw`|(?<!\p{N})\d{1,4}[a-z]?[ \u00a0]${name}(?:[ \u00a0]${name})?[ \u00a0](?:Street|St|Road|Rd|Avenue|Ave|Lane|Ln|Drive|Close|Court)(?!\p{L})`,
      "gu",
    ),
  },
  {
    kind: "postcode",
    needs: digit,
    pattern: new RegExp(
      String.raw`(?<![\p{L}\p{N}])[A-Z]{1,2}\d[A-Z\d]?[ \u00a0]\d[A-Z]{2}(?![\p{L}\p{N}])` +
        String.raw`|(?<![\p{L}\p{N}])[A-Z]\d[A-Z][ \u00a0]?\d[A-Z]\d(?![\p{L}\p{N}])` +
        String.raw`|(?<![\p{L}\p{N}])(?:A|B|CH|D|DK|E|F|FL|I|L|NL|SI|SK|CZ|PL)-\d{4,5}(?!\d)` +
        String.raw`|(?<![\p{L}\p{N}.,])\d{5}[ \u00a0]${name}` +
        String.raw`|(?<![\p{L}\p{N}])\d{4}[ \u00a0][A-Z]{2}(?![\p{L}\p{N}])` +
        String.raw`|(?<![\p{L}\p{N}])[A-Z]{2}[ \u00a0]\d{5}(?:-\d{4})?(?!\d)`,
      "gu",
    ),
  },
];

/** Each word as written in small letters and with a capital: names themselves must keep theirs. */
function bothCases(words: string): string {
  const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);
  return words
    .split("|")
    .flatMap((word) => [word, capital(word)])
    .join("|");
}

/** Day and month that exist, and a year of the last hundred or so: 7.5.10 is a date, 31.45.2 is none. */
function isDate(text: string): boolean {
  const parts = text.split(/[^\p{L}\p{N}]+/u).filter((part) => part !== "");
  if (parts.some((part) => /\p{L}/u.test(part))) return true;
  const [first = 0, second = 0, third = 0] = parts.map(Number);
  const [one, two, year] = first > 31 ? [third, second, first] : [first, second, third];
  const inMonths = (one <= 12 && two <= 31) || (one <= 31 && two <= 12);
  return one >= 1 && two >= 1 && inMonths && (year < 100 || (year >= 1900 && year <= 2099));
}

/** Seven to fifteen digits that begin as a dialled number does, or stand in groups of which one is longer than a pair. */
function isTelephone(text: string): boolean {
  const digits = text.replaceAll(/\D/g, "").length;
  const looksDialled = /^[+(0]/.test(text) || (/\D/.test(text.trim()) && /\d{3}/.test(text));
  return digits >= 7 && digits <= 15 && looksDialled;
}
