/** Deals items out like cards into at most so many shares, so that neighbours, which are often alike, go to different ones. */
export function shareOut<T>(items: readonly T[], most: number): T[][] {
  const shares: T[][] = Array.from({ length: Math.min(most, items.length) }, () => []);
  items.forEach((item, i) => shares[i % shares.length]?.push(item));
  return shares;
}
