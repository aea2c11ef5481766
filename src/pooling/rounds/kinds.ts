/** Tie corrections that are sums over risk sets, and so over sites. */
export const tieKinds = ["efron", "breslow"] as const;
