/**
 * Keeps keys. While they come in ascending order, as in most exports, none can have come before and a plain list of
 * them will do; a map of a million keys costs as much as reading their rows.
 */
export function keyKeeper() {
    const inOrder = [];
    const numbers = [];
    let known = null;
    return {
        find: (key) => {
            if (known === null) {
                const last = inOrder.at(-1);
                if (last === undefined || key > last)
                    return undefined;
                known = new Map(inOrder.map((name, place) => [name, numbers[place]]));
            }
            return known.get(key);
        },
        keep: (key, number) => {
            if (known !== null) {
                known.set(key, number);
            }
            else {
                inOrder.push(key);
                numbers.push(number);
            }
        },
    };
}
