const plain = /^([+-]?)(\d{0,15})(?:\.(\d{0,15}))?$/;

/**
 * The product of two decimal numbers as text, exact: no 0.30000000000000004.
 *
 * @example
 * timesDecimal("0.24", "10") // => "2.4"
 */
export function timesDecimal(one: string, other: string): string {
  const [first, second] = [partsOf(one), partsOf(other)];
  const decimals = first.decimals + second.decimals;
  const product = first.digits * second.digits;
  const sign = product < 0n ? "-" : "";
  const digits = String(product < 0n ? -product : product).padStart(decimals + 1, "0");
  const whole = digits.slice(0, digits.length - decimals);
  const fraction = digits.slice(digits.length - decimals).replace(/0+$/, "");
  return `${sign}${whole}${fraction === "" ? "" : `.${fraction}`}`;
}

function partsOf(text: string): { digits: bigint; decimals: number } {
  const [, sign = "", whole = "", fraction = ""] = plain.exec(text) ?? [];
  const digits = BigInt(`${whole}${fraction}` || "0");
  return { digits: sign === "-" ? -digits : digits, decimals: fraction.length };
}
