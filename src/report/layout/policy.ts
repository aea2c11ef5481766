/** SHA-256 of a text's UTF-8 bytes, as 64 hexadecimal digits. */
export type Digest = (text: string) => string | Promise<string>;

/**
 * The policy of a page that stands alone: nothing may be loaded or sent, and no style but this one applies.
 *
 * @throws Error when `sha256` does not give 64 hexadecimal digits
 */
export async function policyOf(style: string, sha256: Digest): Promise<string> {
  const digest = base64Of(await sha256(style));
  return `default-src 'none'; style-src 'sha256-${digest}'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'`;
}

function base64Of(digest: string): string {
  if (!/^[0-9a-f]{64}$/.test(digest))
    throw new Error(`sha256 must give 64 hexadecimal digits; found "${digest}"`);
  const bytes = digest.match(/../g) ?? [];
  return btoa(String.fromCharCode(...bytes.map((byte) => Number.parseInt(byte, 16))));
}
