import { Document, Scalar, visit } from "yaml";
import { holdsHidden, visibleText } from "../hidden-characters.js";

/**
 * A value, or a document with comments, as the text of a YAML file. Characters that cannot be seen are written as
 * escapes between quotation marks, also those that YAML would let stand; reading the file gives the same value.
 */
export function yamlText(content: unknown, options: Parameters<Document["toString"]>[0] = {}): string {
  const document =
    content instanceof Document ? content : new Document(content, { aliasDuplicateObjects: false });
  visit(document, {
    Scalar: (_, scalar) => {
      if (typeof scalar.value === "string" && holdsHidden(scalar.value)) scalar.type = Scalar.QUOTE_DOUBLE;
    },
  });
  return visibleText(document.toString(options));
}
