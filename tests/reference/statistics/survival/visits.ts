/**
 * Made-up visits: an event at -400 ln(u), first visit within 60 days, the next every 30 to 89, to day 1095. A multiplicative generator with
 * exact arithmetic (Park & Miller 1988, Commun ACM 31:1192, multiplier 48271), so that any language draws the same rows.
 */
export function visits(n: number): { left: number[]; right: (number | null)[] } {
  const modulus = 2147483647;
  let state = 11;
  const draw = (): number => {
    state = (48271 * state) % modulus;
    return state / modulus;
  };
  for (let skipped = 0; skipped < 10; skipped++) draw();
  const left: number[] = [];
  const right: (number | null)[] = [];
  for (let row = 0; row < n; row++) {
    const event = -400 * Math.log(draw());
    let visit = Math.floor(60 * draw()) + 1;
    const gap = Math.floor(60 * draw()) + 30;
    let last = 0;
    while (visit <= 1095 && visit < event) {
      last = visit;
      visit += gap;
    }
    left.push(last);
    right.push(visit <= 1095 ? visit : null);
  }
  return { left, right };
}
